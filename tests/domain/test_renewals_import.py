"""What a table would add to a list and change in it: matched line by line, nothing lost."""

from datetime import date
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain import renewal_csv
from bagtag.domain.model import Fate
from bagtag.domain.renewal_csv_read import CsvRead, read
from bagtag.domain.renewal_import import ImportPlan, plan
from bagtag.domain.renewals import RenewLine
from tests.domain.renew_kit import lines, part, removal

HEAD = "what,size,part number,count,supplier,price,due,for,note\n"


def planned(text: str, *known: RenewLine) -> ImportPlan:
    return plan(1, known, read((HEAD + text).encode()))


def test_what_the_list_does_not_have_is_new() -> None:
    found = planned("jet,0.5,J-50,2,Mill Lane,3.20 EUR,2026-12-04,,for the carburettor\n")
    (new,) = found.new
    assert (new.id, new.job_id, new.removal_id) == (0, 1, None)
    assert (new.what, new.size, new.part_number, new.count) == ("jet", "0.5", "J-50", 2)
    assert (new.supplier, new.price, new.currency) == ("Mill Lane", Decimal("3.20"), "EUR")
    assert (new.due, new.note) == (date(2026, 12, 4), "for the carburettor")
    assert found.does_something


def test_what_the_list_has_is_changed_where_the_file_says_more() -> None:
    seal = removal("oil seal", Fate.RENEW, size="25x42x7", quantity=2)
    (line,) = lines(seal)
    found = planned("Oil  seal,25X42X7,S-1,,Mill Lane,,,,\n", line)
    (change,) = found.changed
    assert (change.before, found.new) == (line.new_part, ())
    assert (change.part.what, change.part.removal_id) == ("oil seal", seal.id)
    assert (change.part.part_number, change.part.count) == ("S-1", 2)


def test_an_empty_cell_takes_nothing_away() -> None:
    full = part(size="25", part_number="S-1", count=3, supplier="a", price=Decimal(1), note="x")
    found = planned("oil seal,25,,,,,,,\n", RenewLine(full))
    assert (found.alike, found.does_something) == (1, False)


def test_lines_called_alike_are_told_apart_by_what_they_are_for() -> None:
    rings = [removal("ring", Fate.RENEW) for _ in range(3)]
    known = lines(*rings)
    second = next(line for line in known if line.removal == rings[1])
    found = planned(f"ring,,,4,,,,{second.before},\n", *known)
    (change,) = found.changed
    assert (change.line, change.part.count, found.troubles) == (second, 4, ())


def test_lines_called_alike_that_nothing_tells_apart_are_left_and_told() -> None:
    known = lines(removal("ring", Fate.RENEW), removal("ring", Fate.RENEW))
    found = planned("ring,,R-1,4,,,,,\njet,,,1,,,,,\n", *known)
    assert (found.changed, [one.what for one in found.new]) == ((), ["jet"])
    (said,) = found.troubles
    assert said.startswith("Line 2: several lines of the list are called so.")
    both = planned("ring,,R-1,4,,,,,\nring,,R-2,4,,,,,\n", *known)
    assert [change.line for change in both.changed] == list(known)


def test_a_part_number_tells_apart_what_a_name_does_not() -> None:
    known = [RenewLine(part(part_number=number)) for number in ("S-1", "S-2", "S-3")]
    found = planned("oil seal,,S-2,7,,,,,\n", *known)
    assert [change.line for change in found.changed] == [known[1]]


def test_a_row_that_names_its_line_takes_it_before_one_that_does_not() -> None:
    known = [RenewLine(part(part_number=number)) for number in ("S-1", "S-2")]
    found = planned("oil seal,,,7,,,,,\noil seal,,S-1,8,,,,,\njet,,,1,,,,,\n", *known)
    assert {change.line: change.part.count for change in found.changed} == {
        known[0]: 8,
        known[1]: 7,
    }


def test_a_line_for_a_part_that_is_not_in_the_list_says_which() -> None:
    (new,) = planned("jet,,,1,,,,27 carburettor,\n").new
    assert new.note == "for 27 carburettor"


def test_what_is_only_suggested_is_not_matched() -> None:
    (suggestion,) = lines(removal("gasket"))
    assert len(planned("gasket,,,1,,,,,\n", suggestion).new) == 1


def test_a_day_before_the_order_is_told() -> None:
    seal = RenewLine(part(ordered_on=date(2026, 11, 20)))
    found = planned("oil seal,,,,,,2026-11-02,,\n", seal)
    assert not found.does_something
    assert found.troubles[0].startswith("Line 2: it would be due before it was ordered.")


LISTS = st.lists(
    st.builds(
        part,
        st.sampled_from(["seal", "jet", "=ring"]),
        size=st.sampled_from(["", "25"]),
        part_number=st.sampled_from(["", "S-1", "S-2"]),
        count=st.integers(1, 9),
        price=st.none() | st.decimals(0, 99, places=2),
    ),
    max_size=10,
)


@given(LISTS, st.sampled_from(",;\t"))
def test_a_list_read_back_changes_nothing(parts, delimiter) -> None:
    known = [RenewLine(one) for one in parts]
    back = read(renewal_csv.write([(line, "a job") for line in known], delimiter))
    found = plan(1, known, back) if parts else ImportPlan(1)
    assert (found.new, found.changed, found.alike) == ((), (), len(parts))


@given(LISTS, LISTS)
def test_every_row_is_added_or_changes_one_line_or_is_told(parts, others) -> None:
    known = [RenewLine(one) for one in parts]
    back: CsvRead = read(renewal_csv.write([(RenewLine(one), "") for one in others]))
    found = plan(1, known, back)
    matched = [change.line.new_part.id for change in found.changed]
    assert len(matched) == len(set(matched))
    taken = len(found.new) + len(matched) + found.alike
    told = any("called so" in said for said in found.troubles)
    assert taken == len(others) or (told and taken < len(others))
