"""The order list: equal lines as one, by supplier, with a sum for each currency."""

from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from bagtag.domain.renewal_merge import ToOrder, merged
from bagtag.domain.renewals import RenewLine
from tests.domain.renew_kit import part


def wanted(count: int, for_: str = "", **fields) -> ToOrder:
    return ToOrder(RenewLine(part(**fields)), count, for_)


def test_equal_lines_of_two_jobs_are_one() -> None:
    (only,) = merged(
        [
            wanted(2, "job 1: 4 seal", what="Oil seal", size="25x42x7", supplier="Mill Lane"),
            wanted(1, "job 2: 9 seal", what="oil  seal", size="25X42X7", supplier="mill lane"),
        ]
    )
    (line,) = only.lines
    assert (only.supplier, line.what, line.count) == ("Mill Lane", "Oil seal", 3)
    assert line.for_ == ("job 1: 4 seal", "job 2: 9 seal")


def test_a_size_a_number_or_a_price_keeps_lines_apart() -> None:
    found = merged(
        [
            wanted(1, size="25x42x7"),
            wanted(1, size="25x42x8"),
            wanted(1, size="25x42x7", part_number="S-1"),
            wanted(1, size="30x47x7", price=Decimal("3.20"), currency="EUR"),
            wanted(1, size="30x47x7", price=Decimal("3.20"), currency="GBP"),
        ]
    )
    assert len(found[0].lines) == 5
    assert found[0].total == (("EUR", Decimal("3.20")), ("GBP", Decimal("3.20")))
    assert found[0].unpriced == 3


def test_what_has_no_price_takes_the_only_one_there_is() -> None:
    (one,) = merged([wanted(2), wanted(3, price=Decimal("0.10"), currency="EUR")])
    assert [(line.count, line.sum) for line in one.lines] == [(5, Decimal("0.50"))]
    (two,) = merged([wanted(1), wanted(1, price=Decimal(1)), wanted(1, price=Decimal(2))])
    assert sorted(line.count for line in two.lines) == [1, 1, 1]


def test_suppliers_come_by_name_and_nobody_last() -> None:
    found = merged([wanted(1), wanted(1, supplier="b"), wanted(1, supplier="A")])
    assert [one.supplier for one in found] == ["A", "b", ""]


LINES = st.lists(
    st.builds(
        wanted,
        st.integers(1, 99),
        what=st.sampled_from(["seal", "Seal", "jet"]),
        size=st.sampled_from(["", "0.5"]),
        supplier=st.sampled_from(["", "a", "A", "b"]),
        price=st.none() | st.decimals(0, 100, places=2),
        currency=st.sampled_from(["", "EUR"]),
    ),
    max_size=30,
)


@given(LINES)
def test_no_piece_and_no_money_is_lost(some) -> None:
    found = merged(some)
    assert sum(one.pieces for one in found) == sum(one.count for one in some)
    parts = [part.id for one in found for line in one.lines for part in line.parts]
    assert sorted(parts) == sorted(one.line.new_part.id for one in some)
    said = sum(one.count * (one.line.new_part.price or 0) for one in some)
    assert sum(total for one in found for _, total in one.total) >= said
    names = [one.supplier.casefold() for one in found]
    assert len(names) == len(set(names))
