"""Known threads against published tables, and the ways a thread is written."""

import pytest
from torque_kit import THREADS, published, thread

from bagtag.domain import threads
from bagtag.domain.errors import BadInput
from bagtag.domain.threads import Thread

PUBLISHED = published("threads")


def rows(name):
    return pytest.mark.parametrize("row", PUBLISHED[name], ids=lambda row: row["thread"])


def as_printed(value, print_):
    """Whether a figure is what is printed, within half of the print's last figure and a little."""
    decimals = len(f"{print_:g}".partition(".")[2])
    return abs(value - print_) <= 0.55 * 10**-decimals


@rows("area_mm2")
def test_stress_areas_are_those_of_iso_898_1(row):
    assert as_printed(thread(row["thread"]).stress_area, row["expected"])


@rows("area_in2")
def test_stress_areas_are_those_of_asme_b1_1(row):
    """3/4-10 comes to 0.3345 and is printed as 0.334."""
    assert as_printed(thread(row["thread"]).stress_area / 25.4**2, row["expected"])


@rows("misprinted_mm2")
def test_misprinted_stress_areas_are_not_followed(row):
    area = thread(row["thread"]).stress_area
    assert as_printed(area, row["expected"])
    assert abs(area / row["printed"] - 1) > 0.01


@rows("misprinted_in2")
def test_a_misprinted_stress_area_in_inches_is_not_followed(row):
    area = thread(row["thread"]).stress_area / 25.4**2
    assert as_printed(area, row["expected"])
    assert abs(area / row["printed"] - 1) > 0.01


@rows("pitches")
def test_the_pitches_of_a_chart_of_iso_261_are_all_there(row):
    pitches = {one.pitch for one in THREADS.of_size(row["thread"])}
    assert set(row["expected"]) <= pitches
    assert thread(row["thread"]).pitch == row["expected"][0] == max(pitches)


@rows("hexagons")
def test_hexagons_of_iso_4014_and_of_inch_bolts(row):
    assert thread(row["thread"]).across_flats == row["expected"]


@rows("hexagons_also")
def test_older_hexagons_are_known_as_well(row):
    assert thread(row["thread"]).across_flats_also == row["expected"]


@rows("keys")
def test_hexagon_keys_of_iso_4762_and_asme_b18_3(row):
    assert thread(row["thread"]).key == row["expected"]


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("M8", "M8"),
        ("m 8", "M8"),
        ("M8x1", "M8x1"),
        ("M8x1.0", "M8x1"),
        ("M8×1,25", "M8"),
        ("M8 x 1.25", "M8"),
        ("M8-1.25", "M8"),
        ("M8-1.0", "M8x1"),
        ("M15x1.5", "M15x1.5"),
        ("M10*1.250", "M10x1.25"),
        ("M10x1.25-6g", "M10x1.25"),
        ("M10-6H", "M10"),
        ("M12x1.5 LH", "M12x1.5"),
        ("M20x2.0 left-hand", "M20x2"),
        ("3/8-16", "3/8-16 UNC"),
        ("3/8-16 UNC", "3/8-16 UNC"),
        ("3/8–16UNC-2A", "3/8-16 UNC"),
        ("⅜-16", "3/8-16 UNC"),
        ('3/8" UNC', "3/8-16 UNC"),
        ("3/8 NC", "3/8-16 UNC"),
        ("1/4 UNF", "1/4-28 UNF"),
        ("1/4-28 NF", "1/4-28 UNF"),
        ("#10-32", "#10-32 UNF"),
        ("No. 10-32", "#10-32 UNF"),
        ("no 10 - 32 unf", "#10-32 UNF"),
        ("10-32", "#10-32 UNF"),
        ("4-40", "#4-40 UNC"),
        ("1-8", "1-8 UNC"),
        ("1 in UNF", "1-12 UNF"),
    ],
)
def test_a_thread_is_found_as_people_write_it(said, name):
    assert thread(said).name == name


@pytest.mark.parametrize(
    "said", ["", "M", "M8x3", "M27", "M8x1.25x30", "3/8", "1/2 BSP", "G 1/4", "3/8-17", "blue"]
)
def test_what_is_no_known_thread_is_not_guessed(said):
    """3/8 alone may be coarse or fine."""
    assert THREADS.find(said) is None


def test_every_name_leads_to_its_own_thread_and_no_two_are_alike():
    names = THREADS.names()
    assert len(set(names)) == len(names) > 80
    assert [thread(name).name for name in names] == list(names)


def test_the_range_is_iso_261_from_m3_to_m24_and_no_4_to_1_in():
    sizes = [thread(name) for name in THREADS.names()]
    metric = [one for one in sizes if one.is_metric]
    inch = [one for one in sizes if not one.is_metric]
    assert (metric[0].name, min(one.diameter for one in metric)) == ("M3", 3)
    assert max(one.diameter for one in metric) == 24
    assert {one.series for one in metric} == {"metric coarse", "metric fine"}
    assert (inch[0].name, inch[-1].size) == ("#4-40 UNC", "1")
    assert {one.series for one in inch} == {"UNC", "UNF", "UNS"}
    assert all(one.pitch < one.diameter / 2 and one.stress_area > 0 for one in sizes)


def test_the_coarse_pitch_is_the_widest_of_its_size():
    for name in THREADS.names():
        same = THREADS.of_size(name)
        assert same[0].pitch == max(one.pitch for one in same)
        assert len({one.across_flats for one in same}) == 1


@pytest.mark.parametrize(
    "text", ["not toml =", "[[metric]]\nsize = 8\n[[inch]]\n", "metric = []", "[[metric]]\n"]
)
def test_a_broken_table_is_named(text):
    with pytest.raises(BadInput, match=r"own\.toml cannot be read"):
        threads.read(text, "own.toml")


def test_threads_per_inch_are_those_of_its_name():
    assert thread("3/8-16").per_inch == pytest.approx(16)
    assert Thread("M8", 8, 1.25, "metric coarse").per_inch == pytest.approx(20.32)
