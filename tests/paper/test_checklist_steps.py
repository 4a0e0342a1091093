"""Every kind of step on the checklist: what it says, what is to be ticked, written and signed."""

import io
from dataclasses import replace
from math import cos, pi, sin

import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bagtag.domain.fitting import Asked, TaskKind
from bagtag.domain.hardware import OVERRIDE, HeldBy, Torque
from bagtag.domain.hole_check import marked
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.model import Fate, Origin
from bagtag.domain.schedule import rounds
from bagtag.domain.tightening import Pass, PassKind
from bagtag.paper import step_card
from bagtag.paper.checklist_page import FOOT, TOP
from bagtag.paper.checklist_text import ChecklistPiece, ChecklistStep
from bagtag.paper.pdf import MM
from bagtag.paper.step_card import CODE_AT, MODULE, PAD, PHOTO, WHICH_WAY, WIDTH, measure
from bagtag.paper.step_setter import TICK
from tests.paper.checklist_kit import ANN, EVERY_KIND, FACTS, PIECES, joined, printed


@pytest.fixture
def said(words):
    """The text of one step's page, without the first page's opening."""

    def text(step):
        page = joined(" ".join(words(printed([step])[0])))
        return page.split("Local codes apply", 1)[1].split("by someone who holds it.", 1)[1]

    return text


@pytest.mark.parametrize(
    ("kind", "pill", "signed"),
    [
        ("clean", "CLEAN", "cleaned by"),
        ("oil", "OIL", "oiled by"),
        ("prelube", "PRELUBE", "done by"),
        ("bench build", "BENCH BUILD", "built by"),
        ("measure", "MEASURE", "measured by"),
        ("plastigauge", "MEASURE", "measured by"),
        ("hold point", "HOLD POINT", "signature"),
        ("tightening", "TIGHTEN", "tightened by"),
        ("fill oil", "FILL OIL", "filled by"),
        ("inspect", "INSPECT", "inspected by"),
        ("other", "TASK", "done by"),
    ],
)
def test_a_task_says_what_kind_it_is_and_who_signs(said, kind, pill, signed):
    page = said(EVERY_KIND[kind])
    assert EVERY_KIND[kind].name in page
    assert page.startswith(f" {EVERY_KIND[kind].number} {pill} ")
    assert signed in page
    assert "fitted by" not in page


def test_every_kind_of_task_has_its_word():
    tasks = {step.task for step in EVERY_KIND.values()} - {None}
    assert tasks == set(TaskKind)


def test_a_task_has_no_empty_picture_boxes(render):
    """Below its pill the picture's column is white, and the photo's is."""
    step = EVERY_KIND["clean"]
    card = measure(step, 700)
    assert [tick.side for tick in card.marks.ticks] == [step_card.TICK]
    assert len(card.marks.boxes) == 1
    pdf, _ = printed([step])
    with pypdfium2.PdfDocument(pdf) as document:
        images = list(document[0].get_objects(filter=[pdfium.FPDF_PAGEOBJ_IMAGE]))
    assert images == []


def test_a_hold_point_has_a_wide_frame_for_a_second_person(said, render):
    step = EVERY_KIND["hold point"]
    page = said(step)
    for part in ("Signed by another than: A. Birch", "signature", "name", "date", "second person"):
        assert part in page
    card = measure(step, 700)
    frame = max(card.marks.boxes, key=lambda box: box.height)
    assert frame.width > 160 * MM
    assert frame.fill is None
    pens = [rule for rule in card.marks.rules if frame.x < rule.x < frame.x + frame.width]
    assert len(pens) == 3
    assert min(pen.width for pen in pens) > 28 * MM
    (page,) = render(printed([step])[0], 150)
    wide = round(160 * MM / 72 * 150)
    assert sum((row < 100).sum() > wide for row in page) >= 2 * 3  # upper and lower edge


def test_a_hold_point_that_nobody_is_barred_from_still_asks_for_a_second(said):
    page = said(replace(EVERY_KIND["hold point"], not_by=()))
    assert "Stop here until a second person has looked and signed." in page
    assert "another than" not in page


def test_a_signed_hold_point_says_by_whom_and_has_no_lines(said):
    page = said(EVERY_KIND["held, signed"])
    assert "Signed by Ann, 2026-11-24 16:05" in page
    assert "signature" not in page
    assert measure(EVERY_KIND["held, signed"], 700).marks.rules == []


def test_a_bench_build_lists_its_pieces_with_boxes_and_by_depth(said):
    page = said(EVERY_KIND["bench build"])
    for part in ("5 main shaft", "6 synchroniser", "7 detent ball × 3", "8 detent spring × 3"):
        assert part in page
    small = [t for t in measure(EVERY_KIND["bench build"], 700).marks.ticks if t.side == TICK]
    assert [tick.done for tick in small] == [piece.done for piece in PIECES]
    assert [tick.y for tick in small] == sorted(tick.y for tick in small)
    indents = [round((tick.x - small[0].x) / small[0].side, 2) for tick in small]
    assert indents[0] == indents[1] < indents[2] < indents[3]


def test_a_piece_says_what_it_is_built_into(said):
    assert "bench build: gear cluster" in said(EVERY_KIND["piece"])


def test_a_figure_has_a_line_to_write_on_and_its_limits(said):
    step = EVERY_KIND["measure"]
    assert "end float mm (0.05 to 0.2)" in said(step)
    assert "temperature °C" in said(step)
    assert len(measure(step, 700).marks.rules) == len(step.asks) + 2
    assert "clearance mm (at most 0.06)" in said(EVERY_KIND["plastigauge"])


def test_figures_that_were_given_stand_with_their_limits(said):
    page = said(EVERY_KIND["done"])
    for part in (
        "seat depth 1.25 mm (1.1 to 1.3)",
        "bore 25.03 mm is above 25.021",
        "runout: not given",
        "3 of 4 back",
        "Signed all the same: the new circlip came early",
        "Fitted by Ann, 2026-11-24 16:05",
    ):
        assert part in page


def _boxes(step):
    return [tick for tick in measure(step, 700).marks.ticks if tick.side == TICK]


def test_a_torque_is_ticked_pass_by_pass(said):
    """Half, two thirds, full: tests/check_values/tightening_passes.json."""
    page = said(EVERY_KIND["tightening"])
    assert "27 N·m 36 N·m 54 N·m" in page
    assert "back" not in page
    assert len(_boxes(EVERY_KIND["tightening"])) == 3


def test_hardware_is_counted_and_one_fastener_has_one_pass(said):
    step = EVERY_KIND["together"]
    page = said(step)
    assert "of 4 back 5 N·m 6.5 N·m 10 N·m" in page
    assert "1 bolt M8x30 back 25 N·m" in page
    assert len(_boxes(step)) == 3 + 2


@pytest.mark.parametrize("note", ["then + 90°", "torque-to-yield"])
def test_what_is_tightened_to_yield_has_no_passes(said, note):
    bolts = HeldBy(4, "bolt", "M8", 70, torque=Torque(20), note=note)
    page = said(replace(EVERY_KIND["tightening"], held_by=(bolts,)))
    assert "not in passes, by the maker's steps" in page
    assert page.count("N·m") == 1
    noted = replace(EVERY_KIND["tightening"], note=f"New bolts, {note}.")
    assert len(_boxes(noted)) == 1


def test_the_first_of_two_stages_has_no_torque(said):
    step = EVERY_KIND["two-stage"]
    page = said(step)
    assert "Run in by hand now. Final torque after 22 rocker posts." in page
    assert "of 8 back" in page
    assert "N·m" not in page
    signed = said(replace(step, done=ANN))
    assert "Final torque after 22 rocker posts." in signed
    assert "Run in" not in signed
    assert "N·m" not in signed


def test_what_goes_in_together_and_where_a_part_comes_from(said):
    page = said(EVERY_KIND["together"])
    assert "Goes in as one step with 36 shift fork L and 37 shift fork R." in page
    assert "taken off by the shop" in page
    assert "DECIDE" in page
    assert "new part, was never on the machine" in said(EVERY_KIND["new"])


def test_cautions_stand_before_the_work_and_the_manuals_word_once_a_page(words, said):
    step = EVERY_KIND["two-stage"]
    page = said(step)
    assert page.index("Under tension it flies") < page.index("8 bolts")
    assert len(measure(step, 700).marks.cautions) == 1
    assert measure(replace(step, done=ANN), 700).marks.cautions == []
    pages = words(printed([step] * 9)[0])
    assert [page.count(OVERRIDE) for page in pages] == [2, *[1] * (len(pages) - 1)]


def test_text_is_printed_as_it_was_typed(said):
    odd = "<b>A</b> &amp; {x} %s (1\\2)"
    step = ChecklistStep(
        1, odd, task=TaskKind.BENCH_BUILD, pieces=(ChecklistPiece(2, odd),), within=odd, later=odd
    )
    step = replace(step, along=(odd,), asks=(Asked(odd),), not_by=(odd,), cautions=(odd,))
    assert said(step).count(odd) == 7
    hold = replace(step, task=TaskKind.HOLD_POINT)
    assert said(hold).count(odd) == 8


def test_a_bench_build_longer_than_a_page_is_cut_and_says_so(words):
    pieces = tuple(ChecklistPiece(n, f"piece {n}") for n in range(2, 200))
    step = replace(EVERY_KIND["bench build"], pieces=pieces, note="last of all")
    pdf, report = printed([step, EVERY_KIND["inspect"]])
    assert report.warnings == ("Step 4: its words were cut.",)
    pages = [joined(page) for page in words(pdf)]
    assert "… no room for the rest: see it in the job." in pages[1]
    assert "built by" in pages[1]
    assert "piece 2" in pages[1]
    assert "last of all" not in " ".join(pages)


def test_a_torque_never_stands_behind_a_figure_of_another_line():
    """ "hole 7" that goes over into a second line and "22 N·m" behind it would read as 722."""
    long = HeldBy(
        1, "stud", "M8", 65, torque=Torque(22), note="the odd one out of all the studs, hole 7"
    )
    short = HeldBy(1, "stud", "M8", 65, torque=Torque(22))
    done = replace(EVERY_KIND["done"], thumbnail="one.jpg", held_by=(long, short))
    for line in (word for word in measure(done, 700).marks.words if word.text == "22 N·m"):
        beside = [w for w in measure(done, 700).marks.words if w.y == line.y and w != line]
        assert [w.text for w in beside if w.x >= step_card.WORDS_AT] in ([], ["1 stud M8x65"])


# -- nothing lies over anything else, whatever a step says --------------------

WORDS = st.text(st.sampled_from("aWi м° <"), max_size=60) | st.sampled_from(["", "W" * 150])
ASKED = st.builds(Asked, WORDS.filter(bool), st.sampled_from(["", "mm", "N·m"]), st.just(0.05))
LINES = st.builds(
    HeldBy,
    st.none() | st.integers(1, 400),
    st.sampled_from(["bolt", "stretch bolt", "W" * 60]),
    st.sampled_from(["M6", "3/8-16 UNC"]),
    torque=st.none() | st.builds(Torque, st.sampled_from([0.35, 10.0, 1234.5])),
    note=WORDS,
)
PIECE = st.builds(
    ChecklistPiece, st.integers(1, 9999), WORDS, st.integers(1, 9), depth=st.integers(0, 30)
)
STEPS = st.builds(
    ChecklistStep,
    st.integers(1, 9999),
    WORDS.filter(bool),
    removal=st.sampled_from(["", "12"]),
    quantity=st.sampled_from([1, 1000]),
    area=WORDS,
    facts=st.sampled_from(FACTS),
    held_by=st.lists(LINES, max_size=3).map(tuple),
    goes_on=WORDS,
    fate=st.sampled_from(Fate),
    note=WORDS,
    thumbnail=st.none() | st.just("one.jpg"),
    code=st.sampled_from(["", "WWWWWW", "6MWUTM"]),
    done=st.none() | st.just(ANN) | st.just(replace(ANN, who="W" * 200, reason="early")),
    waits=st.lists(WORDS, max_size=2).map(tuple),
    task=st.none() | st.sampled_from(TaskKind),
    origin=st.sampled_from(Origin),
    within=WORDS,
    pieces=st.lists(PIECE, max_size=4).map(tuple),
    along=st.lists(WORDS, max_size=3).map(tuple),
    later=WORDS,
    asks=st.lists(ASKED, max_size=3).map(tuple),
    not_by=st.lists(WORDS.filter(bool), max_size=2).map(tuple),
    cautions=st.lists(WORDS, max_size=2).map(tuple),
    tools=WORDS,
    uses=st.lists(WORDS, max_size=2).map(tuple),
)
PASSES = st.lists(
    st.builds(Pass, share=st.sampled_from([0.3, 0.6, 1.0]), is_round=st.booleans(), note=WORDS)
    | st.builds(Pass, st.just(PassKind.ANGLE), angle=st.sampled_from([60.0, 90.0])),
    max_size=8,
)


@st.composite
def jointed(draw):
    """A step with a hole map and passes, or with one of the two."""
    step, count = draw(STEPS), draw(st.sampled_from([0, 1, 4, 12, 32]))
    turns = [2 * pi * n / count for n in range(count)]
    holes = tuple(
        Hole(n + 1, 100 + 60 * cos(turn), 80 + 60 * sin(turn), "AB"[n % 2])
        for n, turn in enumerate(turns)
    )
    hole_map = HoleMap(holes, seen_from=draw(WORDS)) if count else None
    held_by = marked(step.held_by)
    found = () if step.later else rounds(held_by, draw(PASSES), hole_map)
    uses = tuple(draw(WORDS) for _ in found)
    ticked = frozenset(draw(st.sets(st.integers(0, 8), max_size=3)))
    return replace(step, held_by=held_by, hole_map=hole_map, rounds=found, uses=uses, ticked=ticked)


def _overlap(a, b):
    return a[0] < b[2] - 0.1 and b[0] < a[2] - 0.1 and a[1] < b[3] - 0.1 and b[1] < a[3] - 0.1


def _placed(card):
    """What is on a card, as rectangles; frames and pills may have words inside and so are apart."""
    marks, step = card.marks, card.step
    single = [*marks.words, *marks.rules, *marks.ticks, *marks.cautions, *marks.drawings]
    found = [(mark, mark.bounds) for mark in single]
    at, wide, high = WHICH_WAY
    if step.facts:
        found.append(("picture", (at, PAD, at + wide, PAD + high)))
    at, wide, high = PHOTO
    if step.thumbnail:
        found.append(("photo", (at, PAD, at + wide, PAD + high)))
    if step.code:
        side = 21 * MODULE
        found.append(("code", (CODE_AT, PAD, CODE_AT + side, PAD + side)))
    return found


@settings(max_examples=60, deadline=None)  # the first reads the fonts
@given(STEPS | jointed(), st.sampled_from([TOP - FOOT, 120 * MM]))
def test_nothing_overlaps_and_all_lies_inside_the_card(step, tallest):
    card = measure(step, tallest)
    assert card.height <= tallest + 1e-6
    placed = _placed(card)
    for number, (one, bounds) in enumerate(placed):
        assert bounds[0] >= -0.1, one
        assert bounds[1] >= 0, one
        assert bounds[2] <= WIDTH + 0.1, one
        assert bounds[3] <= card.height + 0.1, one
        for other, others in placed[number + 1 :]:
            assert not _overlap(bounds, others), (one, other)
    for box in card.marks.boxes:
        assert box.bounds[3] <= card.height
        for one, bounds in placed:
            inside = box.bounds[0] <= bounds[0] and bounds[2] <= box.bounds[2]
            assert inside or not _overlap(bounds, box.bounds), (one, box)


@settings(max_examples=20, deadline=None)
@given(STEPS | jointed())
def test_what_must_be_signed_is_never_cut(step):
    """However little room there is, a step has its line or block to sign."""
    card = measure(replace(step, done=None, note="long " * 3000), TOP - FOOT)
    texts = [word.text for word in card.marks.words]
    assert card.complaints == ["its words were cut."]
    assert "date" in texts
    assert str(step.number) in texts


@settings(max_examples=10, deadline=None)
@given(st.lists((STEPS | jointed()).map(lambda step: replace(step, thumbnail=None)), max_size=4))
def test_any_steps_can_be_printed(steps):
    pdf, report = printed(steps, by_area=True)
    assert report.steps == len(steps)
    with pypdfium2.PdfDocument(io.BytesIO(pdf)) as document:
        assert len(document) == report.pages
