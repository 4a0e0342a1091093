"""The build checklist as PDF: every step once, whole, readable, and nothing over the edge."""

from dataclasses import replace
from datetime import datetime
from pathlib import Path

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
import zxingcpp
from PIL import Image

from bagtag.domain.codes import show
from bagtag.domain.datum import Datum
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.model import Fate
from bagtag.domain.which_way import Hand
from bagtag.paper import step_card
from bagtag.paper.checklist import ChecklistStep, SignedOff, checklist_pdf
from tests.paper.checklist_kit import DATUM, FACTS, HEADER, HELD_BY, joined, printed


@pytest.fixture(scope="module")
def thumbnail(tmp_path_factory):
    file = tmp_path_factory.mktemp("thumbs") / "one.jpg"
    Image.new("RGB", (512, 384), (120, 90, 60)).save(file)
    return file


@pytest.fixture
def some_steps(draw_codes, thumbnail):
    """Steps of every kind; their names are unlike each other."""

    def steps(count):
        return [
            ChecklistStep(
                number=i + 1,
                name=f"Part-{i + 1:03d}" + " with a long name" * (i % 7),
                removal=str(count - i),
                quantity=1 + i % 3,
                area="engine > lower case > gearbox",
                facts=FACTS[i % 3],
                datum=DATUM,
                held_by=HELD_BY * (i % 4),
                goes_on="engine oil" if i % 2 else "",
                fate=[Fate.REFIT, Fate.RENEW, Fate.DECIDE][i % 3],
                note="Measure it first. " * (i % 5),
                thumbnail=thumbnail if i % 2 else None,
                code=code,
                done=SignedOff("Ann", datetime(2026, 11, 24, 16, 5)) if i % 5 == 0 else None,
                waits=("it is away at the plater",) if i % 4 == 3 else (),
            )
            for i, code in enumerate(draw_codes(count))
        ]

    return steps


def test_an_empty_checklist_says_so(words):
    pdf, report = printed([])
    (page,) = words(pdf)
    assert (report.pages, report.steps, report.warnings) == (1, 0, ())
    assert "there is nothing to fit" in page
    assert "page 1 of 1" in page


@pytest.mark.parametrize("count", [1, 300])
def test_every_page_names_job_day_page_and_the_makers_manual(words, some_steps, count):
    pdf, report = printed(some_steps(count))
    pages = words(pdf)
    assert len(pages) == report.pages
    for number, page in enumerate(pages, start=1):
        for part in (HEADER.title, "2026-11-25", f"page {number} of {len(pages)}", OVERRIDE):
            assert part in page


def test_the_first_page_has_the_usual_cautions(words, some_steps):
    first = joined(words(printed(some_steps(3))[0])[0])
    for word in ("Springs", "Lift", "Hot parts", "Fuel", "Torque-to-yield", "Local codes"):
        assert word in first
    assert "left is the flywheel side" in first


def test_every_step_stands_once_in_order_and_whole_on_its_page(words, some_steps):
    steps = some_steps(300)
    pages = [joined(page) for page in words(printed(steps)[0])]
    page_of = {}
    for step in steps:
        name = step.name.split()[0]
        found = [i for i, page in enumerate(pages) if name in page]
        assert len(found) == 1
        page_of[step.number] = found[0]
    assert list(page_of.values()) == sorted(page_of.values())
    for i, page in enumerate(pages):
        here = [step for step in steps if page_of[step.number] == i]
        assert all(page.count(show(step.code)) == 1 for step in here)
        signed = sum(step.done is not None for step in here)
        assert page.count("Fitted by Ann, 2026-11-24 16:05") == signed
        assert page.count("fitted by") == len(here) - signed
        assert page.count("10 N·m") == sum(len(step.held_by) for step in here)


def test_a_step_says_all_it_knows(words, some_steps):
    step = replace(
        some_steps(8)[7], name="Вал <b>&</b> Άξονας", quantity=4, facts=FACTS[1], held_by=HELD_BY
    )
    page = joined(words(printed([replace(step, fate=Fate.RENEW)])[0])[0])
    for part in (
        "Вал <b>&</b> Άξονας × 4",
        "engine > lower case > gearbox",
        "OUT faces outward.",
        "4 screws M6x12, T30, threadlocker medium",
        "10 N·m",
        "Goes on: engine oil",
        "Waits: it is away at the plater",
        "Note: Measure it first.",
        "RENEW",
        show(step.code),
    ):
        assert part in page


def test_every_code_can_be_scanned_off_the_paper(render, some_steps):
    steps = some_steps(40)
    read = []
    for page in render(printed(steps)[0], 300):
        found = zxingcpp.read_barcodes(page, formats=zxingcpp.BarcodeFormat.QRCode)
        read += [one.text for one in found]
    assert sorted(read) == sorted(step.code for step in steps)


LONG = ["Schaltgabel " * 42, "x" * 500, "Вал коробки передач " * 25]


@pytest.mark.parametrize("text", LONG)
def test_long_words_wrap_and_the_margins_stay_white(render, words, some_steps, text):
    plain = some_steps(4)[3]
    steps = [replace(plain, name=text, note=text), replace(plain, area=text, goes_on=text)]
    steps.append(replace(plain, waits=(text,), thumbnail=None))
    header = replace(HEADER, title=text, owner=text, datum=Datum(text))
    pdf, report = printed(steps, header)
    assert report.warnings == ()
    margin = round(12 / 25.4 * 150)
    for page in render(pdf, 150):
        assert page[:, :margin].min() == page[:, -margin:].min() == 255
        assert page[: margin // 2].min() == page[-margin // 2 :].min() == 255
    letters = "".join("".join(words(pdf)).split())
    assert letters.count("".join(text.split())) == 5


def test_words_higher_than_a_page_are_cut_and_said_to_be(words, some_steps):
    endless = replace(some_steps(2)[1], note="Measure it first. " * 2000)
    pdf, report = printed([endless, replace(endless, number=3, note="")])
    assert report.warnings == ("Step 2: its words were cut.",)
    pages = words(pdf)
    assert len(pages) == report.pages == 3
    assert "…" in pages[1]
    assert "fitted by" in pages[1]


def test_torque_is_never_what_gets_lost_on_a_page_of_its_own(words, some_steps):
    """A step with more hardware than a page holds is cut, and then says so."""
    many = replace(some_steps(2)[1], held_by=HELD_BY * 200)
    pdf, report = printed([many])
    assert report.warnings == ("Step 2: its words were cut.",)
    assert all(OVERRIDE in page for page in words(pdf))


def _pictures(pdf):
    with pypdfium2.PdfDocument(pdf) as document:
        return [
            len(list(page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_IMAGE]))) for page in document
        ]


def test_a_photo_is_printed_and_one_that_cannot_be_read_is_named(tmp_path, some_steps, words):
    bad = tmp_path / "bad.jpg"
    bad.write_text("no picture at all")
    good = some_steps(2)[1]
    steps = [good, replace(good, number=5, thumbnail=bad)]
    steps.append(replace(good, number=6, thumbnail=Path("/nowhere/gone.jpg")))
    pdf, report = printed(steps)
    assert sum(_pictures(pdf)) == 1
    assert report.warnings == (
        "Step 5: its photo could not be read.",
        "Step 6: its photo could not be read.",
    )
    assert "".join(words(pdf)).count("photo not readable") == 2


def test_a_tick_is_drawn_only_for_what_is_done(render, some_steps):
    done = replace(some_steps(1)[0], facts=(), fate=Fate.REFIT)
    (ticked,) = render(printed([done])[0], 150)
    (empty,) = render(printed([replace(done, done=None)])[0], 150)
    ink = [(page[:, 83:130] < 128).sum() for page in (ticked, empty)]
    assert ink[0] > ink[1] + 100


def test_the_accent_is_as_dark_as_text_in_black_and_white():
    """WCAG contrast of the accent on white, by the published formula: at least 4.5."""
    from bagtag.paper.ink import ACCENT, SOFT

    for colour in (ACCENT, SOFT):
        linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour]
        luminance = float(np.dot(linear, (0.2126, 0.7152, 0.0722)))
        assert 1.05 / (luminance + 0.05) >= 4.5


def test_a_file_that_cannot_be_written_is_one_sentence(tmp_path, some_steps):
    with pytest.raises(BadInput, match=r"cannot be written \(.*\)\. Choose another folder"):
        checklist_pdf(tmp_path / "no" / "list.pdf", HEADER, some_steps(1))


def test_a_fate_below_its_picture_stays_inside_its_card():
    """A short step needs the room of picture and fate, whatever its words need."""
    step = ChecklistStep(1, "tab washer", facts=(Hand("L"),), fate=Fate.RENEW)
    plain = ChecklistStep(1, "tab washer", facts=(Hand("L"),))
    below = step_card.WHICH_WAY[2] + step_card.PILL
    assert step_card.measure(step, 700).height >= step_card.PAD + below + step_card.PAD
    assert step_card.measure(plain, 700).height < step_card.measure(step, 700).height
