"""Known threads: ISO metric coarse and fine, UNC and UNF, by any usual way of writing them."""

import re
import tomllib
import unicodedata
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import pi
from typing import Any

from bagtag.domain.errors import BadInput
from bagtag.domain.torque import INCH

COARSE, FINE = "metric coarse", "metric fine"


@dataclass(frozen=True, slots=True)
class Thread:
    """One thread. `diameter` and `pitch` are in mm, `series` is "metric coarse", "metric fine",
    "UNC", "UNF" or "UNS"; `size` is its name without the pitch ("M8", "3/8").

    `across_flats` is the usual hexagon ("13 mm", "9/16 in"), `across_flats_also` another that is
    met, `key` the hexagon key of its socket head screw; each is empty where there is none.
    """

    name: str
    diameter: float
    pitch: float
    series: str
    size: str = ""
    across_flats: str = ""
    across_flats_also: str = ""
    key: str = ""

    @property
    def is_metric(self) -> bool:
        return self.series in (COARSE, FINE)

    @property
    def stress_area(self) -> float:
        """Tensile stress area in mm²: π/4 (d - 0.938194 P)² (ISO 898-1), in inches
        0.7854 (D - 0.9743/n)² (ASME B1.1)."""
        if self.is_metric:
            return pi / 4 * (self.diameter - 0.938194 * self.pitch) ** 2
        return 0.7854 * (self.diameter - 0.9743 * self.pitch) ** 2

    @property
    def per_inch(self) -> float:
        """Threads per inch."""
        return INCH / self.pitch


class Threads:
    """The known threads."""

    def __init__(self, threads: Iterable[Thread]) -> None:
        self._all = tuple(threads)
        self._by_spelling = {said: one for one in self._all for said in _spellings(one)}

    def find(self, text: str) -> Thread | None:
        """The thread a text names, or None: "M8" (coarse), "M8×1,25", "3/8-16", "No. 10-32"."""
        return self._by_spelling.get(_folded(text))

    def names(self) -> tuple[str, ...]:
        """`M8`, `M8x1`, `3/8-16 UNC`, …: metric first, each size with its coarse thread first."""
        return tuple(one.name for one in self._all)

    def of_size(self, text: str) -> tuple[Thread, ...]:
        """All threads of the size that a text begins with: those of M8 for "M8x1.5"."""
        size = re.match(r"m[\d.]+|#?\d+(?:-\d+)?/\d+|#?\d+", _folded(text))
        wanted = size.group() if size else ""
        return tuple(one for one in self._all if one.size.casefold() in (wanted, f"#{wanted}"))


_FRACTION_SLASH = "\u2044"
_TIMES = re.compile(r"\s*[x×*✕]\s*")
_DASH = re.compile(r"\s*[-‐‑–—]\s*")
_NUMBER = re.compile(r"\b(?:no|nr)\b\.?\s*|[#№]\s*")
_TOLERANCE = re.compile(r"-(?:\d[a-z]){1,2}$|-[123][ab]$")
_HAND = re.compile(r"[\s-]*\b(?:r\.?h|right[- ]hand(?:ed)?|l\.?h|left[- ]hand(?:ed)?)\b\.?\s*$")
_ZEROS = re.compile(r"(?:(\.\d*[1-9])|\.)0+(?=x|$)")
_OLD_SERIES = re.compile(r"[\s-]*(?<!u)n([cf])$")


def _folded(text: str) -> str:
    """One spelling for all: `m8x1.25`, `3/8-16 unc`, `#10-32`; hand and tolerance left out."""
    said = unicodedata.normalize("NFKC", text.replace("№", "#")).casefold().strip()
    said = _TIMES.sub("x", said.replace(_FRACTION_SLASH, "/").replace(",", "."))
    said = re.sub(r'["”″]|(?<=\d)\s*in(?:ch)?\b', "", said)
    said = _NUMBER.sub("#", _DASH.sub("-", said))
    said = _TOLERANCE.sub("", _HAND.sub("", said))
    said = _OLD_SERIES.sub(r" un\1", said)
    said = re.sub(r"[\s-]*(un[cfs])$", r" \1", said)
    said = re.sub(r"^m\s+(?=\d)", "m", said)
    said = re.sub(r"^(m[\d.]+)-(?=[\d.]+$)", r"\1x", said)
    return _ZEROS.sub(r"\1", " ".join(said.split()))


def _spellings(one: Thread) -> Iterator[str]:
    if one.is_metric:
        yield f"{one.size}x{one.pitch:g}".casefold()
        if one.series == COARSE:
            yield one.size.casefold()
        return
    count, series = f"{one.per_inch:.0f}", one.series.casefold()
    for size in {one.size, one.size.removeprefix("#")}:
        yield f"{size}-{count}"
        yield f"{size}-{count} {series}"
        yield f"{size} {series}"


def read(text: str, file: str) -> Threads:
    """The threads in a table's text; BadInput names `file` and what is wrong."""
    try:
        tables = tomllib.loads(text)
        metric = [one for row in tables["metric"] for one in _metric(row)]
        return Threads([*metric, *(one for row in tables["inch"] for one in _inch(row))])
    except (ValueError, KeyError, TypeError, AttributeError) as wrong:
        raise BadInput(f"{file} cannot be read: {wrong}. Mend it or reinstall.") from wrong


def _metric(row: Mapping[str, Any]) -> Iterator[Thread]:
    size, tools = row["size"], _tools(row, "mm")
    diameter = float(size.removeprefix("M"))
    if "coarse" in row:
        yield Thread(size, diameter, float(row["coarse"]), COARSE, size, **tools)
    for pitch in row.get("fine", ()):
        yield Thread(f"{size}x{pitch:g}", diameter, float(pitch), FINE, size, **tools)


def _inch(row: Mapping[str, Any]) -> Iterator[Thread]:
    size, tools = row["size"], _tools(row, "in")
    for series in ("unc", "unf", "uns"):
        if series in row:
            name = f"{size}-{row[series]} {series.upper()}"
            diameter, pitch = row["diameter"] * INCH, INCH / row[series]
            yield Thread(name, diameter, pitch, series.upper(), size, **tools)


def _tools(row: Mapping[str, Any], unit: str) -> dict[str, str]:
    names = {"across_flats": "hex", "across_flats_also": "hex_also", "key": "key"}
    return {name: f"{row[key]} {unit}" for name, key in names.items() if key in row}
