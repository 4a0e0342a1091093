"""Label stock: sums against ISO 216 and Letter, places on a sheet, and a broken file."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bagtag import resources
from bagtag.domain.errors import BadInput
from bagtag.paper import stock as label_stock
from bagtag.paper.stock_file import load

NAMES = [
    "roll-62x29",
    "roll-50x25",
    "roll-100x50",
    "roll-4x6in",
    "a4-3x7",
    "a4-3x8",
    "letter-3x10",
    "tie-on",
]
any_stock = st.sampled_from([label_stock.find(name) for name in NAMES])


def test_every_stock_is_there_and_no_other():
    assert list(label_stock.stocks()) == NAMES


@pytest.mark.parametrize(
    ("name", "paper"),
    [("a4-3x7", "A4"), ("a4-3x8", "A4"), ("letter-3x10", "ANSI A (Letter)")],
)
def test_a_sheet_adds_up_to_its_paper(published, name, paper):
    """ISO 216 A4 and 8.5 x 11 in; both margins are alike, as the published grids have it."""
    stock = label_stock.find(name)
    across = (
        2 * stock.margin_left
        + stock.columns * stock.label_width
        + (stock.columns - 1) * stock.gap_x
    )
    down = 2 * stock.margin_top + stock.rows * stock.label_height + (stock.rows - 1) * stock.gap_y
    assert [stock.page_width, stock.page_height] == published("paper mm")[paper]["expected"]
    assert [across, down] == pytest.approx([stock.page_width, stock.page_height], abs=0.001)


@pytest.mark.parametrize(
    ("name", "topic", "grid", "unit"),
    [
        ("a4-3x7", "label sheet mm", "A4 3x7", 1.0),
        ("a4-3x8", "label sheet mm", "A4 3x8 no gap", 1.0),
        ("letter-3x10", "label sheet in", "Letter 3x10", 25.4),
    ],
)
def test_a_grid_agrees_with_the_published_one(published, name, topic, grid, unit):
    stock, row = label_stock.find(name), published(topic)[grid]
    wanted = row["expected"]
    assert (stock.columns, stock.rows) == (wanted["cols"], wanted["rows"])
    assert [stock.label_width / unit, stock.label_height / unit] == pytest.approx(wanted["label"])
    # The published 3 x 7 grid prints a left margin of 7.2 and adds up to 209.9; 7.25 is exact.
    margins = [stock.margin_left / unit, stock.margin_top / unit]
    assert margins == pytest.approx([wanted["margin_left"], wanted["margin_top"]], abs=0.051)


@given(any_stock, st.data(), st.integers(1, 70))
def test_labels_never_lie_on_each_other_or_off_the_page(stock, data, count):
    start = data.draw(st.integers(1, stock.per_page))
    places = list(label_stock.cells(stock, count, start=start))
    assert len({(c.page, c.x, c.y) for c in places}) == len(places) == count
    for cell in places:
        assert 0 <= cell.x <= stock.page_width - stock.label_width + 0.01
        assert 0 <= cell.y <= stock.page_height - stock.label_height + 0.01


@given(any_stock, st.data(), st.integers(1, 50))
def test_starting_later_is_the_same_run_with_its_beginning_left_out(stock, data, count):
    start = data.draw(st.integers(1, stock.per_page))
    whole = list(label_stock.cells(stock, count + start - 1))
    assert list(label_stock.cells(stock, count, start=start)) == whole[start - 1 :]


def test_a_nudge_moves_every_label():
    stock = label_stock.find("a4-3x7")
    plain = list(label_stock.cells(stock, 30))
    moved = list(label_stock.cells(stock, 30, nudge=(1.5, -0.5)))
    assert all(m.x - p.x == pytest.approx(1.5) for p, m in zip(plain, moved, strict=True))
    assert all(m.y - p.y == pytest.approx(-0.5) for p, m in zip(plain, moved, strict=True))


@pytest.mark.parametrize("start", [0, -1, 22])
def test_a_position_the_sheet_does_not_have_is_refused(start):
    with pytest.raises(BadInput, match=f"no position {start}: count from 1 to 21") as refused:
        list(label_stock.cells(label_stock.find("a4-3x7"), 1, start=start))
    assert refused.value.field == "start"


def test_an_unknown_stock_is_answered_with_the_names_there_are():
    with pytest.raises(BadInput, match=r"no label stock 'a4'.*a4-3x7, a4-3x8"):
        label_stock.find("a4")


GOOD = '[own]\ntitle = "Own"\nform = "sheet"\npage = [100, 50]\ngrid = [2, 1]\nlabel = [50, 50]\n'


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        ('title = "Own"\n', "", r"line 1: in \[own\], title must be a text"),
        ('"sheet"', '"leaf"', r'line 3: in \[own\], form must be "roll" or "sheet"'),
        ('"sheet"', "sheet", r"cannot be read: .*line 3"),
        ("page = [100, 50]", "page = [100]", r"line 4: in \[own\], page must be \[width, height\]"),
        ("page = [100, 50]", 'page = ["a", 5]', "line 4: .*page must be"),
        ("page = [100, 50]", "page = [0, 50]", "line 4: .*page must be"),
        ("page = [100, 50]", "page = [90, 50]", "line 4: .*reach to 100 mm, past the page's width"),
        ("page = [100, 50]", "page = [100, 40]", "line 4: .*reach to 50 mm, past the page's heig"),
        ("grid = [2, 1]", "grid = [2, 0.5]", r"line 5: .*grid must be \[columns, rows\]"),
        ("label = [50, 50]", "label = [nan, 50]", "line 6: .*label must be"),
        ("label = [50, 50]", "label = [50, -50]", "line 6: .*label must be"),
        ("label = ", "lable = ", "line 6: .*'lable' is no entry of a label stock"),
        (GOOD, "own = 3\n", r"line 1: in \[own\], own must be a table"),
    ],
)
def test_a_broken_file_is_blamed_on_its_line(tmp_path, old, new, sentence):
    file = tmp_path / "label_stock.toml"
    file.write_text(GOOD.replace(old, new), encoding="utf-8")
    with pytest.raises(BadInput, match=sentence):
        load(file)


def test_the_good_file_behind_those_loads(tmp_path):
    file = tmp_path / "label_stock.toml"
    file.write_text(GOOD, encoding="utf-8")
    assert load(file)["own"].per_page == 2


def test_a_missing_resource_says_where_it_was_looked_for():
    with pytest.raises(FileNotFoundError, match=r"nothing.toml is missing; looked in .*resources"):
        resources.find("nothing.toml")
