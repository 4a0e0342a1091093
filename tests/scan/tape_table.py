"""The table of tape lines, and a tape as the table writes it."""

import json
from pathlib import Path

from bagtag.domain import hardware, which_way
from bagtag.domain.datum import Datum, Side
from bagtag.domain.kinds import Kinds, PartKind
from bagtag.domain.model import Fate
from bagtag.scan.tape import read

HERE = Path(__file__).parent
GIVEN = json.loads((HERE / "tape_lines.json").read_text(encoding="utf-8"))
MORE = json.loads((HERE / "tape_lines_more.json").read_text(encoding="utf-8"))
LINES_GIVEN = GIVEN["lines"] + MORE["lines"]
PUBLISHED = json.loads((HERE.parent / "check_values" / "tape_published.json").read_text("utf-8"))
DATUM = Datum(
    GIVEN["datum"]["viewpoint"],
    {Side(side): name for side, name in GIVEN["datum"]["names"].items()},
)
BAGS, AREAS = GIVEN["containers"], GIVEN["areas"]
KINDS = Kinds(
    PartKind(kind["name"], also=tuple(kind.get("also", ())), size=kind.get("size", ""))
    for kind in MORE["kinds"]
)


def told(tape):
    """A tape as the lines file writes it, defaults left out."""
    entry = tape.entry
    fields = {
        "name": entry.name,
        "quantity": entry.quantity if entry.quantity != 1 else None,
        "area_id": entry.area_id,
        "which_way": sorted(which_way.to_data(entry.which_way), key=str),
        "held_by": hardware.to_data(entry.held_by),
        "condition": entry.condition,
        "fate": entry.fate.value if entry.fate is not Fate.REFIT else None,
        "goes_on": entry.goes_on,
        "note": entry.note,
        "container_id": entry.container_id,
        "container_wanted": tape.container_wanted,
        "side": entry.side.value if entry.side else None,
        "size": entry.size,
        "hazards": [hazard.value for hazard in entry.hazards],
        "kind": tape.kind.name if tape.kind else None,
    }
    return {key: value for key, value in fields.items() if value}


def read_known(line, **how):
    """A line read with all that the table's job knows."""
    return read(line, DATUM, BAGS, AREAS, KINDS, **how)
