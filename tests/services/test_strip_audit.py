"""The audit of a job in the store, worked down to nothing missing by the use cases alone."""

import io

import pypdfium2
import pytest

from bagtag import services
from bagtag.domain.audit import Lack
from bagtag.domain.datum import Side
from bagtag.domain.entry import Entry
from bagtag.domain.errors import NotFound
from bagtag.domain.hardware import HeldBy, Torque
from bagtag.domain.model import Fate
from bagtag.domain.which_way import Faces, OtherPart, Outness, Without
from bagtag.services.labels import LabelOrder
from bagtag.services.strip import Extras
from tests.store.photo_kit import encoded, grainy

OWN = """
["bench seal"]
asks = [{ fact = "faces", feature = "lip", ask = "Which way does the lip face?" }]
goes_wrong = "It leaks."
renew = "always"
why = "It hardens."
home = "Flush."
"""


@pytest.fixture
def missing(store, job_id):
    """(lack, number, name) of each row."""

    def rows():
        found = services.audit.audit(store, job_id).rows
        return [(row.finding.lack, row.number, row.name) for row in found]

    return rows


@pytest.fixture
def own_kinds(store):
    folder = services.kinds.own_folder(store)
    folder.mkdir()
    (folder / "own.toml").write_text(OWN, encoding="utf-8")


def test_a_job_with_nothing_logged_lacks_nothing(store, job_id):
    done = services.audit.audit(store, job_id)
    assert (done.job_title, done.looked_at, done.rows) == ("Walking tractor, gearbox", 0, ())


def test_a_job_that_is_not_there(store):
    with pytest.raises(NotFound):
        services.audit.audit(store, 99)


@pytest.mark.usefixtures("own_kinds")
def test_a_job_is_worked_down_to_nothing_missing(store, job_id, log, missing, tmp_path):
    """Each use case takes away its own finding and no other."""
    gearbox = services.jobs.add_area(store, job_id, "gearbox").new_id
    in_bag = Extras(container_wanted="bag 7")
    seal = log("bench seal", area_id=gearbox, extras=in_bag)
    facing = (Faces("dot", OtherPart("the quill")),)
    held = (HeldBy(None, "bolt", "M6", 30),)
    widget = log(
        "widget", area_id=gearbox, fate=Fate.DECIDE, which_way=facing, held_by=held, extras=in_bag
    )
    gizmo = log("gizmo", area_id=gearbox)
    left = missing()
    on = [(lack, number) for lack, number, _ in left]
    assert on == [
        (Lack.WAY, "1"), (Lack.MIXED, ""), (Lack.DECISION, "2"), (Lack.RENEW, "1"),
        (Lack.COUNT, "2"), (Lack.TORQUE, "2"), (Lack.OPENER, ""), (Lack.LOOSE, "2"),
        (Lack.KIND, "3"), (Lack.TAG, "1"), (Lack.TAG, "2"), (Lack.TAG, "3"),
        (Lack.PHOTO, "1"), (Lack.PHOTO, "2"), (Lack.PHOTO, "3"),
    ]  # fmt: skip

    def mended(*lacks):
        now = missing()
        assert [row for row in left if row not in now] == [row for row in left if row[:2] in lacks]
        assert [row for row in now if row not in left] == []
        left[:] = now

    def correct(removal_id, **fields):
        before = services.strip.entry_of(services.strip.get_removal(store, removal_id))
        kept = {name: getattr(before, name) for name in before.__slots__} | fields
        services.strip.correct_removal(store, removal_id, Entry(**kept), who="Ada")

    correct(seal, which_way=(Faces("lip", Outness.INWARD),))
    mended((Lack.WAY, "1"))
    services.fates.set_fate(store, [widget], Fate.REFIT)
    mended((Lack.DECISION, "2"), (Lack.MIXED, ""))
    correct(seal, note="New this spring, kept.")
    mended((Lack.RENEW, "1"))
    correct(widget, held_by=(HeldBy(4, "bolt", "M6", 30),))
    mended((Lack.COUNT, "2"))
    correct(widget, held_by=(HeldBy(4, "bolt", "M6", 30, torque=Torque(10)),))
    mended((Lack.TORQUE, "2"))
    services.jobs.set_open(store, gearbox, True)
    mended((Lack.OPENER, ""))
    correct(gizmo, which_way=(Without(),))
    mended((Lack.KIND, "3"))
    correct(widget, which_way=(Faces("dot", Side.LEFT),))
    mended((Lack.LOOSE, "2"))
    services.labels.mark_printed(store, LabelOrder(job_id=job_id, removal_ids=(seal, widget)))
    mended((Lack.TAG, "1"), (Lack.TAG, "2"))
    _, (code,) = services.tags.make_blank(store, 1)
    services.tags.bind_to_removal(store, code, gizmo)
    mended((Lack.TAG, "3"))
    for removal_id in (seal, widget, gizmo):
        photo = tmp_path / f"{removal_id}.jpg"
        photo.write_bytes(encoded(grainy(80 + removal_id, 60)))
        services.photos.add(store, removal_id, [photo])
    assert missing() == []
    services.history.undo(store, job_id)
    assert missing() == [(Lack.PHOTO, "3", "gizmo")]


def test_a_row_says_where_its_part_lies_and_shows_its_first_photo(store, job_id, log, tmp_path):
    removal_id = log("gizmo", extras=Extras(container_wanted="bag 7"))
    photo = tmp_path / "one.jpg"
    photo.write_bytes(encoded(grainy()))
    services.photos.add(store, removal_id, [photo])
    rows = services.audit.audit(store, job_id).rows
    shown = services.views.strip_rows(store, job_id, [removal_id])[0]
    assert {row.container for row in rows} == {"bag 7"}
    assert {row.thumb for row in rows} == {shown.thumb}
    assert shown.thumb


def test_a_row_of_an_area_or_a_container_has_its_name_and_no_number(store, job_id, log):
    engine = services.jobs.add_area(store, job_id, "engine").new_id
    case = services.jobs.add_area(store, job_id, "case", parent_id=engine).new_id
    services.jobs.set_open(store, engine, True)
    log("gear", area_id=case, fate=Fate.RENEW, extras=Extras(container_wanted="tray 2"))
    log("gear", area_id=case, extras=Extras(container_wanted="tray 2"))
    rows = {row.finding.lack: row for row in services.audit.audit(store, job_id).rows}
    assert (rows[Lack.OPENER].name, rows[Lack.OPENER].number) == ("engine > case", "")
    assert (rows[Lack.MIXED].name, rows[Lack.MIXED].container) == ("tray 2", "tray 2")


def test_the_page_is_written_and_seen_as_it_is_printed(store, job_id, log, tmp_path):
    log("gizmo")
    into, file = io.BytesIO(), tmp_path / "audit.pdf"
    pages = services.audit.write(store, job_id, into)
    assert services.audit.write(store, job_id, file) == pages == 1
    with pypdfium2.PdfDocument(file) as document:
        text = document[0].get_textpage().get_text_bounded()
    assert "3 things to see to in 1 entry." in text
    (seen,) = services.audit.preview(store, job_id, 300, 1)
    (printed,) = services.audit.printed_pages(store, job_id, 100)
    assert seen.startswith(b"\x89PNG")
    assert printed.startswith(b"\x89PNG")
