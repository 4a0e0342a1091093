"""The 1:1 template: true to size on the rendered paper, whole across sheets, nothing unsaid."""

import io
import re
from dataclasses import replace
from itertools import combinations
from math import cos, hypot, pi, sin

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import HeldBy, Length
from bagtag.domain.holes import Hole, HoleMap, Scale
from bagtag.paper.template import PAPERS
from bagtag.paper.template_labels import edge_boxes, labels
from bagtag.paper.template_sheets import MARGIN, OVERLAP, extent_of, layout_of
from bagtag.paper.template_text import FROM_PHOTO, NO_SIDE, TemplateHole
from tests.paper.template_kit import DPI, MM_PER_DOT, head, middle, printed, template

TRUE = 0.2
"""Millimetres over 250: what a template may be off."""


def found(pages, layout, hole):
    """A hole's middle as measured on every sheet that shows it with its cross-hairs whole."""
    places = {}
    for sheet, page in zip(layout.sheets, pages, strict=True):
        if layout.shows(sheet, hole.x, hole.y, 5):
            places[sheet.name] = middle(page, *layout.on_page(sheet, hole.x, hole.y))
    return places


@pytest.mark.parametrize("paper", ["A3"])
def test_holes_on_one_sheet_are_true_to_size(render, paper):
    """Every distance between two holes, measured on the paper as it is rendered."""
    one = template()
    pdf, report, layout = printed(one, paper)
    assert report.sheets == 1
    (page,) = render(pdf, DPI)
    at = {hole: found([page], layout, hole)["A1"] for hole in one.holes}
    widest = 0.0
    for a, b in combinations(one.holes, 2):
        wanted = hypot(a.x - b.x, a.y - b.y)
        measured = hypot(at[a][0] - at[b][0], at[a][1] - at[b][1])
        assert abs(measured - wanted) < TRUE * max(wanted / 250, 0.25)
        widest = max(widest, wanted)
    assert widest > 250


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_sheets_laid_together_by_their_rings_are_true_to_size(render, paper):
    """Each next sheet is moved, as a hand would, until both rings of the seam lie on each other;
    then 250 mm across the seam are measured."""
    one = template()
    pdf, report, layout = printed(one, paper)
    assert report.sheets == len(layout.sheets) == 2
    pages = render(pdf, DPI)
    at = {}
    for sheet, page in zip(layout.sheets, pages, strict=True):
        rings = [middle(page, *layout.on_page(sheet, m.x, m.y), 3.5) for m in layout.marks]
        at[sheet.name] = rings
    first, second = (at[sheet.name] for sheet in layout.sheets)
    shifts = [(a[0] - b[0], a[1] - b[1]) for a, b in zip(first, second, strict=True)]
    assert max(abs(shifts[0][i] - shifts[1][i]) for i in (0, 1)) < MM_PER_DOT
    moved = {layout.sheets[0].name: (0.0, 0.0), layout.sheets[1].name: shifts[0]}
    places = {
        hole: [(x + moved[name][0], y + moved[name][1]) for name, (x, y) in seen.items()]
        for hole in one.holes
        for seen in [found(pages, layout, hole)]
    }
    assert all(places.values())
    for a, b in combinations(one.holes, 2):
        wanted = hypot(a.x - b.x, a.y - b.y)
        for p in places[a]:
            for q in places[b]:
                assert abs(hypot(p[0] - q[0], p[1] - q[1]) - wanted) < TRUE * max(
                    wanted / 250, 0.25
                )


def test_a_known_distance_gives_the_scale(render):
    """A map on a photo: two holes 4,000 pixels apart that measure 10 inches on the part."""
    holes = tuple(Hole(i + 1, 400 + 2000 * (i % 3), 300 + 1500 * (i // 3)) for i in range(6))
    scale = Scale(1, 3, Length(10, "in"))
    one = template(
        HoleMap(holes, photo="0" * 64, width=4800, height=2400, scale=scale, seen_from="above"), ()
    )
    pdf, _, layout = printed(one, "A3")
    (page,) = render(pdf, DPI)
    first, last = (found([page], layout, one.holes[i])["A1"] for i in (0, 2))
    assert hypot(first[0] - last[0], first[1] - last[1]) == pytest.approx(254, abs=TRUE)
    assert FROM_PHOTO in one.warnings


def test_the_lines_to_measure_are_100_mm_and_4_inches(render):
    """The longest black runs of the foot, on the rendered paper. An inch is 25.4 mm exactly."""
    pdf, _, _ = printed(template(), "A4")
    page = render(pdf, DPI)[0]
    foot = page[-round(40 / MM_PER_DOT) :, : round(115 / MM_PER_DOT)] < 128
    runs = sorted({_longest(row) for row in foot if _longest(row) * MM_PER_DOT > 60})
    lengths = sorted({round(run * MM_PER_DOT, 1) for run in runs})
    assert any(abs(length - 100) <= 0.2 for length in lengths)
    assert any(abs(length - 101.6) <= 0.2 for length in lengths)


def _longest(row):
    best = run = 0
    for dark in row.tolist():
        run = run + 1 if dark else 0
        best = max(best, run)
    return best


@pytest.mark.parametrize("paper", PAPERS)
def test_pages_have_the_papers_own_size_and_ask_not_to_be_scaled(paper):
    """ISO 216; Letter is 8.5 by 11 in."""
    pdf, _, layout = printed(template(), paper)
    with pypdfium2.PdfDocument(pdf) as document:
        sizes = {tuple(round(side * 25.4 / 72, 1) for side in page.get_size()) for page in document}
    assert sizes in ({PAPERS[paper]}, {PAPERS[paper][::-1]})
    assert {layout.page} == sizes
    assert re.search(rb"/PrintScaling\s*/None", pdf)


def test_every_sheet_says_what_it_is(words):
    pdf, report, layout = printed(template(), "A4")
    pages = [" ".join(page.split()) for page in words(pdf)]
    assert len(pages) == report.sheets == 2
    for number, (page, sheet) in enumerate(zip(pages, layout.sheets, strict=True), start=1):
        for part in (
            "1:1 · 42 cylinder head",
            "Walking tractor",
            "2026-11-25",
            "Seen from above.",
            "Print at 100 %: do not fit to the page.",
            "Measure both lines",
            f"{sheet.name}, sheet {number} of 2",
            "10 bolts M10x90: holes 1–10",
            "4 screws M6x25: holes 11–14",
            "half rings on rings",
        ):
            assert part in page
    assert "M10x90" in pages[0].split("Print at 100")[1]


def test_every_hole_has_its_number_letter_and_size(words):
    one = template()
    (page,) = words(printed(one, "A3")[0])
    lines = page.splitlines()
    assert all(str(hole.number) in lines for hole in one.holes)
    assert page.count("A · M10x90") == 10
    assert page.count("B · M6x25") == 4


def test_what_is_doubtful_is_said_on_paper_and_in_the_report(words):
    holes = (Hole(1, 0, 0, "A"), Hole(2, 500, 0, "A"), Hole(3, 0, 400), Hole(4, 500, 400, "B"))
    one = template(
        HoleMap(holes, photo="0" * 64, width=900, height=900, scale=Scale(1, 2, Length(50))),
        (HeldBy(2, "bolt", "M8", 30), HeldBy(2, "bolt", "odd")),
    )
    pdf, report, _ = printed(one)
    page = " ".join(words(pdf)[0].split())
    assert report.warnings == (
        NO_SIDE,
        FROM_PHOTO,
        "No size is known for holes 3, 4: only the middle is marked.",
        "B: 2 bolts odd and 1 hole: 1 hole short.",
        "Hole 3 is without a fastener.",
    )
    for warning in report.warnings[1:]:
        assert warning in page
    assert "Side not said" in page
    assert "without a fastener: hole 3" in page


def test_the_distance_to_check_lies_across_the_one_that_was_measured(words):
    """A photo taken from one side is short one way only: there the second distance shows it."""
    holes = (Hole(1, 0, 0), Hole(2, 300, 0), Hole(3, 150, 200), Hole(4, 600, 20))
    one = template(replace(head(), holes=holes, scale=Scale(1, 2, Length(100))), ())
    assert one.check == "Hole 1 to hole 3: 83.3 mm. Check it on the part."
    assert template(replace(head(), holes=holes[:1], outline=()), ()).check == ""


@pytest.mark.parametrize(
    ("hole_map", "page", "said"),
    [
        (HoleMap(), "A4", "no holes on this map yet"),
        (HoleMap((Hole(1, 5, 5),), photo="0" * 64), "A4", "no scale yet"),
        (head(), "B4", r"no paper B4\. Choose A4, A3, Letter"),
        (head(scale=Scale(1, 2, Length(90_000))), "A4", r"sheets of A4\. Check the distance"),
    ],
)
def test_what_cannot_be_printed_is_one_sentence(hole_map, page, said):
    with pytest.raises(BadInput, match=said):
        printed(template(hole_map, ()), page)


def ring(count, radius):
    """Twelve o'clock is not special here: the first hole lies at three."""
    turns = [2 * pi * i / count for i in range(count)]
    places = [(100 + radius * cos(turn), 100 + radius * sin(turn)) for turn in turns]
    return [TemplateHole(i + 1, x, y, "A", "M8x35", 8.0) for i, (x, y) in enumerate(places)]


@pytest.mark.parametrize("holes", [ring(12, 60), ring(32, 150), ring(6, 22)])
def test_words_lie_over_no_hole_and_over_no_other_words(holes):
    boxes = [(one.x, one.y, one.x + one.width, one.y + one.height) for one in labels(holes)]
    for a, b in combinations(boxes, 2):
        assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
    for x1, y1, x2, y2 in boxes:
        for hole in holes:
            near = hypot(min(max(hole.x, x1), x2) - hole.x, min(max(hole.y, y1), y2) - hole.y)
            assert near >= hole.diameter / 2 - 1e-9


PLACES = st.lists(
    st.tuples(st.floats(0, 700), st.floats(0, 700)), min_size=1, max_size=12, unique=True
)


@given(PLACES, st.sampled_from(sorted(PAPERS)))
@settings(deadline=None)
def test_every_hole_is_whole_on_some_sheet_and_every_ring_on_two(places, paper):
    """Wherever the holes lie: no sheet is without a neighbour that it can be laid to."""
    holes = tuple(Hole(i + 1, x, y, "A") for i, (x, y) in enumerate(places))
    one = template(HoleMap(holes, width=700, height=700), (HeldBy(1, "bolt", "M8", 30),))
    layout = layout_of(one, paper)
    for hole in one.holes:
        reach = hole.diameter / 2
        assert any(layout.shows(sheet, hole.x, hole.y, reach) for sheet in layout.sheets)
    for mark in layout.marks:
        assert sum(layout.shows(sheet, mark.x, mark.y, 4) for sheet in layout.sheets) == 2
    seams = layout.rows * (layout.columns - 1) + layout.columns * (layout.rows - 1)
    assert len(layout.marks) == 2 * seams
    left, top, right, bottom = extent_of(one)
    last = layout.sheets[-1]
    assert layout.sheets[0].x <= left
    assert layout.sheets[0].y <= top
    assert last.x + layout.window[0] >= right - 1e-6
    assert last.y + layout.window[1] >= bottom - 1e-6


def test_margins_stay_white(render):
    for page in render(printed(template(), "A4")[0], 150):
        edge = round((MARGIN - 1) / 25.4 * 150)
        assert page[:edge].min() == page[-edge:].min() == 255
        assert page[:, :edge].min() == page[:, -edge:].min() == 255


def test_sheets_overlap_by_what_the_rings_need():
    layout = layout_of(template(), "A4")
    first, second = layout.sheets
    assert first.x + layout.window[0] - second.x == pytest.approx(OVERLAP)


def test_a_template_that_cannot_be_written_is_one_sentence(tmp_path):
    from bagtag.paper.template import template_pdf

    with pytest.raises(BadInput, match="cannot be written"):
        template_pdf(tmp_path / "no" / "holes.pdf", template())
    into = io.BytesIO()
    assert template_pdf(into, template()).sheets == 2


def test_words_keep_clear_of_the_outline():
    """Where the first choice of a place would lie over the edge, another is taken."""
    corners = ((0.0, 0.0), (100.0, 0.0), (100.0, 80.0), (0.0, 80.0))
    hole = TemplateHole(1, 86, 40, "A", "M8x60", 8.0)
    edges = list(edge_boxes(corners))
    (over,), (clear,) = labels([hole]), labels([hole], edges)
    assert over.x < 100 < over.x + over.width
    assert clear.x + clear.width < 100
