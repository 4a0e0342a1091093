"""Hole maps and wrenches as they are kept: undone, brought back, gone with their part."""

from dataclasses import replace
from datetime import date
from io import BytesIO

import pytest
from PIL import Image

from bagtag import services
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy, Length, TorqueUnit
from bagtag.domain.holes import Hole, HoleMap, OrderKind, Scale
from bagtag.domain.wrench import Wrench
from bagtag.store import joints

LINES = (
    HeldBy(3, thread="M8", length=35),
    HeldBy(1, thread="M8", length=50, note="the longer one"),
)
MAP = HoleMap(
    (Hole(1, 0, 0, "A"), Hole(2, 80, 0, "B"), Hole(3, 80, 60, "A"), Hole(4, 0, 60, "A")),
    scale=Scale(1, 2, Length(120)),
    order=OrderKind.GIVEN,
    given=(2, 4, 1, 3),
    seen_from="above",
)


def png(width: int, height: int) -> bytes:
    made = BytesIO()
    Image.new("RGB", (width, height), "grey").save(made, "PNG")
    return made.getvalue()


@pytest.fixture
def cover(log) -> int:
    return log("cover", held_by=LINES)


def test_a_map_is_kept_as_it_was_made_and_gives_the_lines_their_letters(store, cover) -> None:
    change = services.holes.save_map(store, cover, MAP)
    view = services.holes.map_view(store, cover)
    assert view.hole_map == MAP
    assert [line.mark for line in view.removal.held_by] == ["A", "B"]
    assert change.touches("hole_map")
    assert cover in change.touched["removal"]


def test_a_part_without_a_map_shows_its_lines_by_the_letters_they_will_have(store, cover) -> None:
    view = services.holes.map_view(store, cover)
    assert view.hole_map is None
    assert [line.mark for line in view.held_by] == ["A", "B"]
    assert [line.mark for line in view.removal.held_by] == ["", ""]


def test_a_letter_stays_with_its_line_when_the_lines_change_places(store, cover) -> None:
    services.holes.save_map(store, cover, MAP)
    entry = services.strip.entry_of(services.strip.get_removal(store, cover))
    turned = replace(entry, held_by=(HeldBy(2, thread="M6"), *reversed(entry.held_by)))
    services.strip.correct_removal(store, cover, turned)
    services.holes.save_map(store, cover, MAP)
    held = services.strip.get_removal(store, cover).held_by
    assert [(line.size(), line.mark) for line in held] == [
        ("M6", "C"),
        ("M8x50", "B"),
        ("M8x35", "A"),
    ]


def test_saving_again_writes_it_anew_and_undo_goes_back_step_by_step(store, job_id, cover) -> None:
    services.holes.save_map(store, cover, MAP)
    moved = replace(MAP, holes=(*MAP.holes[:3], replace(MAP.holes[3], x=5)))
    services.holes.save_map(store, cover, moved)
    services.history.undo(store, job_id)
    assert services.holes.map_view(store, cover).hole_map == MAP
    services.history.undo(store, job_id)
    view = services.holes.map_view(store, cover)
    assert view.hole_map is None
    assert view.removal.held_by == LINES
    services.history.redo(store, job_id)
    assert services.holes.map_view(store, cover).hole_map == MAP


def test_a_map_is_dropped_and_undo_brings_it_back(store, job_id, cover) -> None:
    services.holes.save_map(store, cover, MAP)
    services.holes.delete_map(store, cover)
    assert services.holes.map_view(store, cover).hole_map is None
    with pytest.raises(BadInput, match="has no hole map"):
        services.holes.delete_map(store, cover)
    services.history.undo(store, job_id)
    assert services.holes.map_view(store, cover).hole_map == MAP


def test_a_deleted_part_takes_its_map_along_and_undo_brings_both_back(store, job_id, cover) -> None:
    services.holes.save_map(store, cover, MAP)
    services.strip.delete_removal(store, cover)
    with store.read() as connection:
        assert joints.map_of(connection, cover) is None
    services.history.undo(store, job_id)
    assert services.holes.map_view(store, cover).hole_map == MAP
    assert services.check.check(store).sound


def test_two_holes_in_one_place_are_refused_and_nothing_is_kept(store, cover) -> None:
    twice = replace(MAP, holes=(*MAP.holes, Hole(5, 80, 60)))
    with pytest.raises(BadInput):
        services.holes.save_map(store, cover, twice)
    view = services.holes.map_view(store, cover)
    assert view.hole_map is None
    assert view.removal.held_by == LINES


def test_a_map_lies_only_on_a_photo_of_its_part_which_then_stays(store, cover, log) -> None:
    services.photos.add(store, cover, [("cover.png", png(90, 70))])
    photo = services.photos.photos_of(store, cover)[0]
    on_photo = replace(MAP, photo=photo.hash, width=90, height=70)
    with pytest.raises(BadInput, match="no longer with this part"):
        services.holes.save_map(store, log("other"), on_photo)
    services.holes.save_map(store, cover, on_photo)
    with pytest.raises(BadInput, match="lies on this photo"):
        services.photos.take_out(store, photo.id)
    services.holes.delete_map(store, cover)
    services.photos.take_out(store, photo.id)
    assert services.photos.photos_of(store, cover) == ()


SMALL = Wrench("small", 2, 25, step=0.2, length=Length(230), calibrated_on=date(2026, 3, 1))
LARGE = Wrench("long", 10, 150, TorqueUnit.POUND_FOOT, length=Length(20, "in"), note="borrowed")


def test_wrenches_are_kept_whole_the_smallest_first(store) -> None:
    large = services.wrenches.add_wrench(store, LARGE).new_id
    small = services.wrenches.add_wrench(store, SMALL).new_id
    assert services.wrenches.all_wrenches(store) == (
        replace(SMALL, id=small),
        replace(LARGE, id=large),
    )


def test_a_wrench_is_edited_taken_out_and_brought_back(store) -> None:
    wrench_id = services.wrenches.add_wrench(store, SMALL).new_id
    services.wrenches.edit_wrench(store, replace(SMALL, high=30, id=wrench_id))
    assert services.wrenches.get_wrench(store, wrench_id).high == 30
    services.wrenches.delete_wrench(store, wrench_id)
    assert services.wrenches.all_wrenches(store) == ()
    services.history.undo(store, 0)
    assert services.wrenches.get_wrench(store, wrench_id).high == 30


def test_a_range_upside_down_is_refused(store) -> None:
    with pytest.raises(BadInput):
        services.wrenches.add_wrench(store, replace(SMALL, low=25, high=2))
    assert services.wrenches.all_wrenches(store) == ()
