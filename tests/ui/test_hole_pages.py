"""Beside the hole map: patterns, the order of tightening, the scale, what it lies on, the print."""

import pypdfium2
import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest

from bagtag import services
from bagtag.domain.hole_order import order, star
from bagtag.domain.holes import OrderKind, Scale
from bagtag.domain.torque import Length
from bagtag.ui.holes.ground_page import BOX, DISC
from bagtag.ui.holes.hole_dialog import NO_SCALE
from bagtag.ui.holes.order_page import MOST
from bagtag.ui.holes.pattern_points import Pattern
from bagtag.ui.holes.template_dialog import TemplateDialog
from tests.ui.hole_kit import click, cover, kept, key, near, open_map, photo, places
from tests.ui.stages_job import own_settings, sentence_of

ENTER = Qt.Key.Key_Return
CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def part(store, job_id):
    return cover(store, job_id)


@pytest.fixture
def dialog(qtbot, desk, settle, part, tmp_path):
    own_settings(tmp_path / "settings")
    return open_map(qtbot, desk, settle, part)


@pytest.fixture
def on_photo(qtbot, desk, settle, store, part, tmp_path):
    services.photos.add(store, part, [photo(tmp_path / "cover.jpg")], who="Ada")
    return open_map(qtbot, desk, settle, part)


def fill(page, **figures: str) -> None:
    for name, text in figures.items():
        line = page.lines[name]
        line.setFocus()
        line.selectAll()
        QTest.keyClicks(line, text)


def pattern(dialog, kind: Pattern, **figures: str):
    dialog.bar.choose("Pattern")
    dialog.pattern.kind.choose(kind)
    fill(dialog.pattern, **figures)
    return dialog.pattern


# Patterns


def test_a_ring_by_figures(dialog) -> None:
    """Six holes on 80 mm: the first at the top, 40 mm above the middle, the rest clockwise."""
    page = pattern(dialog, Pattern.RING, many="6", size="80", turn="0")
    assert len(dialog.sheet.shown.ghost) == 6
    QTest.keyClick(page.lines["size"], ENTER)
    found = places(dialog.draft.map)
    middle = 110, 85  # of a sheet of 220 by 170 mm
    assert found[1] == near((middle[0], middle[1] - 40), 1e-6)
    assert found[2] == near((middle[0] + 40 * 3**0.5 / 2, middle[1] - 20), 1e-6)
    assert found[4] == near((middle[0], middle[1] + 40), 1e-6)
    assert dialog.sheet.shown.ghost == ()
    assert {hole.mark for hole in dialog.draft.map.holes} == {"A"}


def test_a_ring_by_two_clicks(dialog) -> None:
    """The middle, then the first hole: diameter and angle are read off and can be corrected."""
    page = pattern(dialog, Pattern.RING, many="4")
    click(dialog, 100, 80)
    assert "first hole" in page.told.text()
    click(dialog, 130, 80)
    assert float(page.lines["size"].text()) == pytest.approx(60, abs=1)
    assert float(page.lines["turn"].text()) == pytest.approx(90, abs=1)
    key(dialog, ENTER)  # on the map, with no cross there: it puts them in
    assert places(dialog.draft.map) == {
        1: near((130, 80)), 2: near((100, 110)), 3: near((70, 80)), 4: near((100, 50)),
    }  # fmt: skip


def test_a_ring_by_the_cross(dialog) -> None:
    pattern(dialog, Pattern.RING, many="3")
    dialog.sheet.setFocus()
    key(dialog, Qt.Key.Key_Up)
    key(dialog, ENTER)
    key(dialog, Qt.Key.Key_Up, times=9)
    key(dialog, ENTER)
    far = 90 / dialog.sheet.view.scale
    assert float(dialog.pattern.lines["size"].text()) == pytest.approx(2 * far, abs=0.6)
    dialog.pattern.put.click()
    assert len(dialog.draft.map.holes) == 3


def test_a_grid_from_any_corner(dialog) -> None:
    """Clicked from the lower right to the upper left, it is numbered from the upper left."""
    page = pattern(dialog, Pattern.GRID, many="3", down="2")
    click(dialog, 180, 120)
    click(dialog, 60, 40)
    page.put.click()
    found = places(dialog.draft.map)
    assert found[1] == near((60, 40))
    assert found[3] == near((180, 40))
    assert found[6] == near((180, 120))


def test_a_row_on_a_photo_is_in_its_pixels_until_it_has_a_scale(on_photo) -> None:
    page = pattern(on_photo, Pattern.ROW, many="5", size="400", turn="0")
    assert page.fields["size"].caption.text() == "First to last, px"
    page.put.click()
    found = places(on_photo.draft.map)
    assert found[1] == near((200, 300), 1e-6)
    assert found[5] == near((600, 300), 1e-6)
    on_photo.draft.set_scale(Scale(1, 5, Length(200)))
    assert page.fields["size"].caption.text() == "First to last, mm"
    fill(page, size="100", many="2", turn="90")
    page.put.click()
    found = places(on_photo.draft.map)
    assert found[7][1] - found[6][1] == pytest.approx(200)  # 100 mm at 2 px to the mm


@pytest.mark.parametrize(
    ("figures", "field"),
    [({"many": "0"}, "many"), ({"many": "six"}, "many"), ({"many": "500"}, "many"),
     ({"size": "0"}, "size"), ({"size": ""}, "size")],
)  # fmt: skip
def test_figures_that_cannot_be_are_said_beside_their_field(dialog, figures, field) -> None:
    page = pattern(dialog, Pattern.RING, **figures)
    if figures.get(field) == "":
        page.lines[field].clear()
    page.accept()
    assert page.fields[field].wrong.text()
    assert dialog.draft.map.holes == ()
    assert page.lines["turn"].text() == "0"  # what else was filled in is still there


def test_a_pattern_beside_the_photo_is_said(on_photo) -> None:
    page = pattern(on_photo, Pattern.RING, many="6", size="900")
    page.put.click()
    assert "beside the photo" in sentence_of(on_photo)
    assert on_photo.draft.map.holes == ()


# The order


def test_the_order_is_drawn_and_said(dialog) -> None:
    """A ring of eight, clockwise: ASME PCC-1's cross pattern, as the domain has it."""
    pattern(dialog, Pattern.RING, many="8", size="100").put.click()
    dialog.bar.choose("Order")
    turns = tuple(place + 1 for place in star(8))
    assert dialog.sheet.shown.turns == turns
    assert dialog.panel.head.text() == ", ".join(map(str, turns))
    dialog.order.way.choose(True)
    assert dialog.sheet.shown.turns == turns[::-1]
    assert dialog.panel.big.text().startswith("Loosen")
    dialog.bar.choose("Holes")
    assert dialog.sheet.shown.turns == ()


@pytest.mark.parametrize("kind", [OrderKind.CENTRE, OrderKind.ROUND])
def test_another_kind_of_order(dialog, kind) -> None:
    pattern(dialog, Pattern.GRID, many="5", down="2", size="30", high="60").put.click()
    dialog.bar.choose("Order")
    dialog.order.kind.choose(kind)
    assert dialog.draft.map.order is kind
    assert dialog.sheet.shown.turns == order(dialog.draft.map)


def test_the_order_by_hand(dialog) -> None:
    for x in (40, 80, 120, 160):
        click(dialog, x, 60)
    dialog.bar.choose("Order")
    dialog.order.kind.choose(OrderKind.GIVEN)
    for x in (120, 40, 160):
        click(dialog, x, 60)
    assert dialog.draft.map.given == (3, 1, 4)
    assert dialog.sheet.shown.turns == (3, 1, 4)  # what is not clicked in yet has no turn
    click(dialog, 160, 60)  # the last one again: back
    click(dialog, 120, 60)  # an earlier one: nothing
    assert dialog.draft.map.given == (3, 1)
    assert dialog.panel.head.text() == "3, 1"
    assert dialog.panel.more.text() == "After these: 2, 4."
    dialog.order.anew.click()
    assert dialog.draft.map.given == ()
    assert dialog.panel.head.text() == "No hole has its turn yet"


def test_the_order_by_hand_from_hole_to_hole_by_keys(dialog) -> None:
    """Enter gives the hole that the keys went to its turn, not the one before it."""
    for x in (40, 80, 120, 160):
        click(dialog, x, 60)
    dialog.bar.choose("Order")
    dialog.order.kind.choose(OrderKind.GIVEN)
    dialog.sheet.setFocus()
    for steps in (3, 2, 1):
        key(dialog, Qt.Key.Key_PageDown, times=steps)
        key(dialog, ENTER)
    assert dialog.draft.map.given == (3, 1, 2)


def test_a_long_order_leaves_room_for_what_is_chosen(dialog) -> None:
    dialog.draft.put([(5.0 + 4 * (n % 50), 20.0 + 20 * (n // 50)) for n in range(100)])
    dialog.bar.choose("Order")
    said = dialog.panel.head.text()
    assert said.split(" and ")[0].count(",") == MOST - 1
    assert said.endswith(f"and {100 - MOST} more, as on the map")


def test_the_order_of_one_group(dialog) -> None:
    for x in (40, 80, 120, 160):
        click(dialog, x, 60)
    dialog.draft.point((2, 4))
    dialog.draft.set_group("inner")
    dialog.bar.choose("Order")
    dialog.order.group.choose("inner")
    assert set(dialog.sheet.shown.turns) == {2, 4}
    dialog.order.group.choose("")
    assert set(dialog.sheet.shown.turns) == {1, 2, 3, 4}


# The scale


def test_a_scale_from_two_holes_and_a_distance(on_photo) -> None:
    click(on_photo, 100, 100)
    click(on_photo, 500, 400)
    on_photo.bar.choose("Scale")
    assert "No scale yet" in on_photo.scale.true_size.text()
    click(on_photo, 100, 100)
    click(on_photo, 500, 400)
    assert on_photo.sheet.shown.span == (1, 2)
    QTest.keyClicks(on_photo.scale.distance, "250")
    QTest.keyClick(on_photo.scale.distance, ENTER)
    assert on_photo.draft.map.millimetres_per_unit() == pytest.approx(0.5, rel=0.01)  # 3, 4, 5
    assert "400 × 300 mm" in on_photo.scale.true_size.text()
    on_photo.scale.drop.click()
    assert on_photo.draft.map.scale is None


@pytest.mark.parametrize(("typed", "unit"), [("2 1/2", "in"), ("2 1/2 in", "mm"), ("63.5", "mm")])
def test_a_scale_in_inches(on_photo, typed, unit) -> None:
    """The unit that is typed counts, whatever is chosen."""
    for x in (100, 608):
        click(on_photo, x, 100)
    on_photo.bar.choose("Scale")
    for x in (100, 608):
        click(on_photo, x, 100)
    QTest.keyClicks(on_photo.scale.distance, typed)
    on_photo.scale.unit.choose(unit)
    on_photo.scale.set.click()
    apart = 508 * on_photo.draft.map.millimetres_per_unit()
    assert apart == pytest.approx(63.5, rel=0.01)  # an inch is 25.4 mm


@pytest.mark.parametrize(
    ("first", "second", "distance", "field"),
    [("1", "1", "100", "scale"), ("1", "9", "100", "scale"), ("1", "", "100", "second"),
     ("1", "2", "0", "scale"), ("1", "2", "", "scale"), ("", "2", "50", "first")],
)  # fmt: skip
def test_a_scale_that_cannot_be(on_photo, first, second, distance, field) -> None:
    for x in (100, 500):
        click(on_photo, x, 100)
    on_photo.bar.choose("Scale")
    page = on_photo.scale
    page.first.setText(first)
    page.second.setText(second)
    page.distance.setText(distance)
    page.accept()
    assert page.fields[field].wrong.text()
    assert on_photo.draft.map.scale is None
    assert page.distance.text() == distance


# What it lies on


def test_a_map_begins_on_the_first_photo(on_photo) -> None:
    assert on_photo.draft.map.photo
    assert (on_photo.draft.map.width, on_photo.draft.map.height) == (800, 600)
    assert on_photo.sheet.images


def test_another_ground_leaves_the_holes_in_the_picture(on_photo, desk, settle) -> None:
    click(on_photo, 400, 300)
    on_photo.bar.choose("Ground")
    on_photo.ground.kind.choose(DISC)
    on_photo.ground.width_of.setText("180")
    on_photo.ground.take.click()
    found = on_photo.draft.map
    assert (found.photo, found.width, found.height) == ("", 200, 200)
    assert places(found)[1] == near((100, 100))
    assert len(found.outline) > 8
    key(on_photo, Qt.Key.Key_Z, CONTROL)
    assert on_photo.draft.map.photo
    settle(desk)
    assert on_photo.sheet.images  # the photo is under them again


def test_an_outline_that_grows_leaves_its_holes_where_they_are(dialog) -> None:
    click(dialog, 60, 60)
    dialog.bar.choose("Ground")
    assert dialog.ground.kind.value == BOX
    dialog.ground.width_of.setText("400")
    dialog.ground.height_of.setText("300")
    dialog.ground.take.click()
    assert dialog.draft.map.width == 420
    assert places(dialog.draft.map)[1] == near((60, 60))


@pytest.mark.parametrize(("width", "height", "field"), [("0", "50", "size"), ("90", "x", "height")])
def test_an_outline_without_a_size_is_said(dialog, width, height, field) -> None:
    dialog.bar.choose("Ground")
    dialog.ground.width_of.setText(width)
    dialog.ground.height_of.setText(height)
    dialog.ground.take.click()
    assert dialog.ground.fields[field].wrong.text()


def test_from_which_side_it_is_seen(dialog, desk, settle, store, part) -> None:
    click(dialog, 60, 60)
    dialog.bar.choose("Ground")
    dialog.ground.seen_from.setFocus()
    QTest.keyClicks(dialog.ground.seen_from, "the clutch side")
    assert "seen from the clutch side" in dialog.head.text()
    dialog.keep.click()
    settle(desk)
    assert kept(store, part).seen_from == "the clutch side"


def test_a_photo_that_was_taken_off_the_part_is_said(
    qtbot, desk, settle, store, part, on_photo
) -> None:
    from bagtag.domain.holes import HoleMap

    on_photo.draft.begin(HoleMap(photo="f" * 64, width=800, height=600), ())
    on_photo.bar.choose("Ground")
    assert on_photo.ground.gone.isVisible()
    on_photo.ground.kind.choose(on_photo.ground.photos[0].hash)
    settle(desk)
    assert not on_photo.ground.gone.isVisible()
    assert on_photo.sheet.images


# The print


def test_a_template_needs_a_scale(on_photo) -> None:
    click(on_photo, 100, 100)
    on_photo.template.click()
    assert on_photo.wrong.text() == NO_SCALE
    assert on_photo.panel.page is on_photo.scale


def test_the_template_is_kept_first_and_shown(dialog, desk, settle, store, part, tmp_path) -> None:
    pattern(dialog, Pattern.RING, many="4", size="60").put.click()
    dialog.template.click()
    settle(desk)
    paper = dialog.findChild(TemplateDialog)
    settle(desk)
    assert len(kept(store, part).holes) == 4
    assert "at true size" in paper.said.text()
    paper.save_to(str(tmp_path / "template.pdf"))
    settle(desk)
    pages = pypdfium2.PdfDocument(tmp_path / "template.pdf")
    assert len(paper.pages.pages) == len(pages)
    assert paper.said.text() == "Saved as template.pdf."
    assert pages[0].get_size() == pytest.approx((595.3, 841.9), abs=0.5)  # A4, ISO 216, in points


def test_another_paper_is_remembered(dialog, desk, settle, qtbot) -> None:
    pattern(dialog, Pattern.RING, many="4", size="60").put.click()
    dialog.template.click()
    settle(desk)
    paper = dialog.findChild(TemplateDialog)
    paper.paper.choose("Letter")
    qtbot.wait(2 * paper.DELAY)
    settle(desk)
    shown = paper.pages.pages[0]._pixmap
    sides = sorted((shown.width(), shown.height()))
    assert sides[1] / sides[0] == pytest.approx(11 / 8.5, abs=0.01)  # ANSI Y14.1 size A
    assert QSettings().value("template/paper") == "Letter"
