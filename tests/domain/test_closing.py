"""The closing count: whatever the job, what came off is back, renewed, scrapped or named."""

import json
from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
from closing_kit import DONE, DOWEL, closings, finished, removal, signed, without
from hypothesis import assume, given
from hypothesis import strategies as st

from bagtag.domain.closing import Closing, ClosingCount, Likely, Outcome, Pieces, closing_count
from bagtag.domain.closing_sizes import size_of
from bagtag.domain.fitting import part
from bagtag.domain.hardware import HeldBy
from bagtag.domain.model import Fate, Origin

VALUES = json.loads(
    (Path(__file__).parents[1] / "check_values" / "close_out.json").read_text("utf-8")
)


# The small gearbox


def test_a_finished_job_is_nil():
    count = closing_count(DONE)
    assert count.total == Pieces(off=17, back=14, renewed=1, scrapped=2)
    assert (count.new_in, count.new_left, count.away) == (1, 0, 0)
    assert count.leftovers == ()
    assert (count.adds_up, count.nothing_left, count.emptied, count.total.adds_up) == (True,) * 4


def test_an_empty_job_is_nil():
    assert closing_count(Closing()) == ClosingCount()
    assert ClosingCount().adds_up
    assert ClosingCount().total == Pieces()


def test_a_job_without_its_dowel_names_the_dowel():
    count = closing_count(without(part(DOWEL.id)))
    (one,) = count.leftovers
    assert (one.removal_id, one.container_id, one.pieces) == (3, 12, 1)
    assert one.sentence == (
        "3 dowel left out: 1 cover is on over it. Most likely still in bag 12, tray 3, shelf B."
    )
    assert count.total == Pieces(off=17, back=13, renewed=1, scrapped=2, left=1)
    assert not count.adds_up
    assert not count.total.adds_up


def test_by_item_every_line_says_what_became_of_it():
    said = {line.name: (line.outcome, line.pieces.off) for line in closing_count(DONE).items}
    assert said == {
        "cover": (Outcome.BACK, 1),
        "gasket": (Outcome.RENEWED, 1),
        "dowel": (Outcome.BACK, 1),
        "studs": (Outcome.BACK, 8),
        "split pins": (Outcome.SCRAPPED, 2),
        "oil jets": (Outcome.BACK, 4),
        "oil filter": (Outcome.BACK, 0),
    }


def test_by_container_with_what_stands_in_it():
    count = closing_count(without(part(3), part(4)))
    said = [(one.label, one.depth, one.holds, one.pieces) for one in count.containers]
    assert said == [
        ("shelf B", 0, (), 9),
        ("tray 3", 1, (), 9),
        ("bag 9", 2, (4,), 8),
        ("bag 12", 2, (3,), 1),
    ]
    assert not count.emptied


# Any job


def _balance(closing):
    """What came off less what is accounted for, by part: reckoned with a bag of counters."""
    log = [r for r in closing.removals if r.origin is not Origin.NEW]
    bag = Counter({r.id: r.quantity for r in log})
    for r in log:
        if part(r.id) in closing.sign_offs or r.fate is Fate.SCRAP:
            bag[r.id] -= r.quantity
    return bag


@given(closings())
def test_the_sum_holds_for_every_item_and_in_total(closing):
    count = closing_count(closing)
    lines = [line.pieces for line in count.items] + [count.total]
    lines += [line.pieces for line in count.fasteners] + [count.of_fasteners]
    for p in lines:
        assert p.off + p.over == p.back + p.renewed + p.scrapped + p.left
        assert min(p.off, p.back, p.renewed, p.scrapped, p.left, p.over) >= 0
    assert {line.removal_id: line.pieces.left for line in count.items if not line.is_new} == {
        **_balance(closing)
    }


@given(closings())
def test_every_part_is_one_line_and_every_piece_one_place(closing):
    count = closing_count(closing)
    assert [line.removal_id for line in count.items] == [r.id for r in closing.removals]
    of_parts = sum(line.pieces.left for line in count.items) + count.new_left
    short = sum(
        one.pieces
        for one in count.leftovers
        if one.likely in (Likely.SHORT, Likely.SWAPPED, Likely.MIXED_UP, Likely.OVER)
    )
    assert count.pieces == of_parts + short


@given(closings())
def test_a_finished_job_of_any_kind_is_nil(closing):
    count = closing_count(finished(closing))
    assert count.leftovers == ()
    assert (count.total.left, count.of_fasteners.left, count.new_left) == (0, 0, 0)
    assert count.adds_up
    assert count.emptied


@given(closings(), st.data())
def test_one_part_taken_out_of_a_finished_job_is_the_one_named(closing, data):
    done = finished(closing)
    assume(any(ref.removal_id for ref in done.sign_offs))
    ref = data.draw(st.sampled_from(sorted(r for r in done.sign_offs if r.removal_id)))
    (one,) = closing_count(without(ref, closing=done)).leftovers
    gone = next(r for r in done.removals if r.id == ref.id)
    assert (one.ref, one.pieces) == (ref, gone.quantity)
    assert one.sentence.startswith(f"{gone.number} {gone.name}")


def _is_open(closing):
    """Whether anything is left to say of a job, told without the count."""
    parts = any(_balance(closing).values()) or any(
        r.origin is Origin.NEW and r.fate is not Fate.SCRAP and part(r.id) not in closing.sign_offs
        for r in closing.removals
    )
    contrary = any(
        r.id in closing.away or (r.fate is Fate.SCRAP and part(r.id) in closing.sign_offs)
        for r in closing.removals
    )
    tasks = any(("task", one.id) not in closing.sign_offs for one in closing.tasks)
    return parts or contrary or tasks or any(_is_short(closing, r) for r in closing.removals)


def _is_short(closing, r):
    """Whether some size at a part that is in was not counted, or not as many went back."""
    sign = closing.sign_offs.get(part(r.id))
    if sign is None:
        return False
    seen = {one.held: one for one in sign.counts}
    net = Counter()
    for place, line in enumerate(r.held_by):
        off = line.count if line.count is not None or place not in seen else seen[place].off
        if off is None:
            return True
        net[size_of(line)] += (seen[place].back if place in seen else off) - off
    return any(net.values())


@given(closings())
def test_something_is_named_if_and_only_if_it_does_not_add_up(closing):
    count = closing_count(closing)
    assert count.adds_up == (not count.leftovers) == (not _is_open(closing))
    assert count.nothing_left or not count.adds_up
    assert count.emptied or not count.nothing_left


@given(closings(), st.randoms())
def test_no_finding_is_doubled_and_the_order_of_the_rows_is_no_matter(closing, random):
    count = closing_count(closing)
    assert len(set(count.leftovers)) == len(count.leftovers)
    ranks = [list(Likely).index(one.likely) for one in count.leftovers]
    assert ranks == sorted(ranks)
    parts = (Likely.SHORT, Likely.SWAPPED, Likely.MIXED_UP, Likely.OVER, Likely.UNCOUNTED)
    of_steps = [one.ref for one in count.leftovers if one.likely not in parts]
    assert len(set(of_steps)) == len(of_steps)
    mixed = replace(
        closing,
        removals=random.sample(closing.removals, len(closing.removals)),
        tasks=random.sample(closing.tasks, len(closing.tasks)),
        containers=random.sample(closing.containers, len(closing.containers)),
        areas=random.sample(closing.areas, len(closing.areas)),
        sign_offs=dict(reversed(closing.sign_offs.items())),
    )
    assert closing_count(mixed) == count


# Outside the project


@pytest.mark.parametrize("row", VALUES["close_outs"], ids=str)
def test_quantity_out_is_what_was_refitted_replaced_scrapped_and_held(row):
    """Source beside each row in check_values/close_out.json."""
    fates = {"refitted": Fate.REFIT, "replaced": Fate.RENEW, "scrapped": Fate.SCRAP}
    log = [
        removal(n, word, row[word], fate=fate) for n, (word, fate) in enumerate(fates.items(), 1)
    ]
    log = [r for r in (*log, removal(4, "held", row["held"])) if r.quantity]
    signs = {part(r.id): signed(part(r.id)) for r in log if r.name in ("refitted", "replaced")}
    count = closing_count(Closing(log, signs))
    assert count.total == Pieces(
        row["out"], row["refitted"], row["replaced"], row["scrapped"], row["held"]
    )
    assert count.adds_up == row["closes"]


@pytest.mark.parametrize("row", VALUES["sizes"], ids=lambda row: row["threads"][0])
def test_sizes_are_listed_as_the_published_tables_list_them(row):
    threads = row["threads"]
    held = tuple(HeldBy(1, "bolt", thread) for thread in reversed(threads))
    count = closing_count(Closing([removal(1, "cover", held_by=held)]))
    assert [line.size for line in count.fasteners] == threads
