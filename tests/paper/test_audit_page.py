"""The strip audit as PDF: every finding once with a box to tick, whole and inside the margins."""

import io
from datetime import date

import pytest

from bagtag.domain.audit import Lack
from bagtag.domain.errors import BadInput
from bagtag.domain.hardware import OVERRIDE
from bagtag.paper.audit_page import AuditLine, audit_pdf
from bagtag.paper.checklist_text import ChecklistHeader

HEADER = ChecklistHeader("Walking tractor, gearbox noisy in second", date(2026, 11, 25))


def printed(lines, looked_at=77, header=HEADER):
    into = io.BytesIO()
    pages = audit_pdf(into, header, looked_at, lines)
    return into.getvalue(), pages


def joined(page):
    return " ".join(page.split())


def some(lack, count, sentence="Say which way {n} sat."):
    return [
        AuditLine(lack, sentence.format(n=n), str(n), f"Part-{lack.value}-{n:03d}", "bag 12")
        for n in range(1, count + 1)
    ]


def test_nothing_missing_is_said_large_and_alone(words, render):
    pdf, pages = printed([])
    (page,) = words(pdf)
    assert pages == 1
    assert "Nothing is missing." in page
    assert "77 entries looked at." in page
    assert not any(lack.heading in page for lack in Lack)
    height = _line_height(render(pdf, 100)[0])
    assert height >= 7  # mm: read from an arm's length and more


def _line_height(page):
    """The tallest run of rows with ink on them, in mm, at 100 dpi."""
    runs, run = [0], 0
    for inked in (page < 128).any(axis=1):
        run = run + 1 if inked else 0
        runs.append(run)
    return max(runs) / 100 * 25.4


def test_an_empty_log_is_not_said_to_be_whole(words):
    (page,) = words(printed([], looked_at=0)[0])
    assert "Nothing is logged yet." in page
    assert "Nothing is missing" not in page


def test_where_a_torque_is_asked_about_every_page_has_its_cautions(words):
    for lack in Lack:
        pages = words(printed(some(lack, 60))[0])
        for page in pages:
            assert ("qualified person" in joined(page)) == (lack in (Lack.FIGURE, Lack.PASSES))


def test_every_page_names_job_day_page_and_the_makers_manual(words):
    pdf, count = printed([line for lack in Lack for line in some(lack, 20)])
    pages = words(pdf)
    assert len(pages) == count > 3
    for number, page in enumerate(pages, start=1):
        for part in (HEADER.title, "2026-11-25", f"page {number} of {count}", OVERRIDE):
            assert part in page
    assert f"{20 * len(Lack)} things to see to in 77 entries." in pages[0]


def test_every_finding_stands_once_under_its_heading_in_order(words):
    lines = [line for lack in Lack for line in some(lack, 9)]
    text = joined(" ".join(words(printed(lines)[0])))
    places = [text.index(line.name) for line in lines]
    assert places == sorted(places)
    for lack in Lack:
        mine = [text.index(line.name) for line in lines if line.lack is lack]
        assert text.index(lack.heading) < mine[0]
    assert all(text.count(line.name) == 1 for line in lines)
    assert all(text.count(line.sentence) == len(Lack) for line in lines[:9])


def test_what_all_of_a_group_say_is_said_once_over_their_names(words):
    lines = some(Lack.PHOTO, 26, "Add a photo.")
    text = joined(words(printed(lines)[0])[0])
    assert text.count("Add a photo.") == 1
    assert all(text.count(line.name) == 1 for line in lines)


@pytest.mark.parametrize("sentence", ["Say which way {n} sat.", "Add a photo."])
def test_there_is_a_box_for_every_finding(render, sentence):
    """Empty squares of 3.6 mm, counted on the paper."""
    one, many = (_boxes(printed(some(Lack.PHOTO, n, sentence))[0], render) for n in (2, 17))
    assert (one, many) == (2, 17)


def _boxes(pdf, render):
    """Closed frames of ink whose white inside is a square of 3 to 4 mm."""
    import cv2
    import numpy as np

    found = 0
    for page in render(pdf, 200):
        white = (page > 128).astype(np.uint8)
        _, _, stats, _ = cv2.connectedComponentsWithStats(white, connectivity=4)
        for _, _, wide, high, area in stats:
            side = wide / 200 * 25.4
            found += 2.8 < side < 4 and abs(wide - high) <= 1 and area > 0.95 * wide * high
    return found


def test_a_group_that_goes_on_is_named_again_and_no_heading_stands_alone(words):
    pdf, count = printed(some(Lack.WAY, 60) + some(Lack.TAG, 1))
    pages = [joined(page) for page in words(pdf)]
    assert count > 1
    for page in pages[1:]:
        assert f"{Lack.WAY.heading} (continued)" in page or Lack.TAG.heading in page
    heads = 0
    for fill in range(15, 40):
        for page in map(joined, words(printed(some(Lack.WAY, fill) + some(Lack.TAG, 3))[0])):
            if f"{Lack.TAG.heading} 3 " in page:
                heads += 1
                assert "Part-tag-001" in page
    assert heads == 25


LONG = ["Schaltgabel " * 16, "x" * 200, "Вал коробки " * 16, "<b>gear</b> & <i>shaft</i> " * 7]


@pytest.mark.parametrize("text", LONG)
def test_long_words_wrap_and_the_margins_stay_white(render, words, text):
    lines = [
        AuditLine(Lack.WAY, f"Say which way {text} sat.", "77abc", text, text),
        AuditLine(Lack.WAY, "Which way does the lip face?", "1", "oil seal"),
        AuditLine(Lack.OPENER, "Say which part opens it.", "", text),
        *[AuditLine(Lack.TAG, "Print its label.", "77abc", text) for _ in range(4)],
    ]
    pdf, _ = printed(lines, header=ChecklistHeader(text, date(2026, 11, 25)))
    margin = round(12 / 25.4 * 150)
    for page in render(pdf, 150):
        assert page[:, :margin].min() == page[:, -margin:].min() == 255
        assert page[: margin // 2].min() == page[-margin // 2 :].min() == 255
    letters = "".join("".join(words(pdf)).split())
    assert letters.count("".join(text.split())) >= 4


def test_an_endless_sentence_is_cut_and_stays_on_its_page(words):
    endless = AuditLine(Lack.CONTRADICTION, "Carried by part and part. " * 500, "1", "gear")
    pdf, count = printed([endless, AuditLine(Lack.WAY, "Which way?", "2", "shaft")])
    assert count == len(words(pdf)) <= 2
    assert "…" in words(pdf)[0]
    assert "Which way?" in words(pdf)[-1]


def test_a_file_that_cannot_be_written_is_one_sentence(tmp_path):
    nowhere = tmp_path / "no" / "audit.pdf"
    with pytest.raises(BadInput, match=r"cannot be written \(.*\)\. Choose another folder"):
        audit_pdf(nowhere, HEADER, 1, [])
