"""Proof stress, proof loads and T = K d F against ISO 898-1, SAE J429 and others."""

import pytest
from torque_kit import LBFT, LBIN, published, thread

from bagtag.domain import clamp
from bagtag.domain.friction import DRY, OILED, PLATED, SLICK, UNKNOWN, Friction, friction
from bagtag.domain.hardware import Torque, TorqueUnit
from bagtag.domain.strength import PSI, strength

PUBLISHED = published("strength")
POUND = 0.45359237 * 9.80665


def rows(name):
    return pytest.mark.parametrize(
        "row", PUBLISHED[name], ids=lambda row: " ".join(map(str, row.values()))[:24]
    )


@rows("classes_mpa")
def test_proof_stress_by_class_is_that_of_iso_898_1(row):
    assert strength(row["class"], thread("M8")).proof == row["expected"]


@rows("grades_psi")
def test_proof_stress_by_grade_is_that_of_sae_j429(row):
    found = strength(row["grade"], thread(row["thread"]))
    assert found.proof / PSI == pytest.approx(row["expected"])


@rows("stainless_mpa")
def test_stainless_steel_is_that_of_iso_3506(row):
    found = strength(row["class"], thread("M8"))
    assert (found.called, found.proof) == (row["class"], row["expected"])


@rows("proof_load_n")
def test_proof_loads_are_those_of_iso_898_1(row):
    """Printed to three figures from areas of three figures: M6 8.8 is 0.6 per cent off."""
    one = thread(row["thread"])
    load = strength(row["class"], one).proof_load(one)
    assert load == pytest.approx(row["expected"], rel=0.0065)


@rows("proof_load_lbf")
def test_a_proof_load_of_the_naval_ships_manual(row):
    one = thread(row["thread"])
    load = strength(row["grade"], one).proof_load(one) / POUND
    assert load == pytest.approx(row["expected"], rel=0.001)


@rows("torque_tension")
def test_torque_and_tension_are_those_of_the_sae_j429_table(row):
    """The clamp load is three quarters of the proof load; torques at K 0.15, 0.18 and 0.20."""
    one, unit = thread(row["thread"]), TorqueUnit(row["unit"])
    strong = strength(row["grade"], one)
    assert 0.75 * strong.proof_load(one) / POUND == pytest.approx(row["clamp_lbf"], rel=0.005)
    for factor, torque in zip((0.15, 0.18, 0.2), row["expected"], strict=True):
        found = clamp.of(Torque(torque, unit), one, strong, Friction("", factor, factor, factor))
        step = 1 / torque + 0.005
        assert found.clamp_usual / POUND == pytest.approx(row["clamp_lbf"], rel=step)
        assert found.usual == pytest.approx(0.75, rel=step)


@rows("clamp")
def test_t_is_k_d_f_as_speck_works_it_out(row):
    """0.190 in is a No. 10 screw."""
    one = thread("#10-32")
    assert one.diameter / 25.4 == pytest.approx(row["diameter_in"])
    torque = Torque(row["expected"], LBIN)
    found = clamp.of(torque, one, None, Friction("", row["K"], row["K"], row["K"]))
    assert found.clamp_usual / POUND == pytest.approx(row["load_lbf"], rel=0.002)


@pytest.mark.parametrize(
    ("marked", "on", "called"),
    [
        ("8.8", "M8", "class 8.8"),
        ("class 10.9", "M8", "class 10.9"),
        ("8,8", "M8", "class 8.8"),
        ("grade 8.8", "3/8-16", "class 8.8"),
        ("8", "M8", "class 8.8"),
        ("10", "M8", "class 10.9"),
        ("grade 5", "3/8-16", "grade 5"),
        ("gr 8", "3/8-16", "grade 8"),
        ("Gr. 2", "3/8-16", "grade 2"),
        ("8", "3/8-16", "grade 8"),
        ("A2 - 70", "M6", "A2-70"),
        ("a4-80 stainless", "M6", "A4-80"),
        ("12.9 black", "M6", "class 12.9"),
    ],
)
def test_a_class_or_grade_is_read_as_marked(marked, on, called):
    assert strength(marked, thread(on)).called == called


@pytest.mark.parametrize("marked", ["", "brass", "7.7", "grade 3", "99", "A2", "A2-60", "110.9"])
def test_what_is_no_class_is_not_guessed(marked):
    assert strength(marked, thread("3/8-16")) is None
    assert strength(marked, thread("M8")) is None


def test_8_8_is_stronger_above_16_mm():
    """600 MPa above 16 mm: ISO 898-1, from memory."""
    assert [strength("8.8", thread(name)).proof for name in ("M16", "M18")] == [580, 600]


def test_grades_weaken_with_size():
    """SAE J429: grade 2 up to 3/4 in and over."""
    assert strength("grade 2", thread("3/4-10")).proof > strength("grade 2", thread("7/8-9")).proof


@pytest.mark.parametrize(
    ("said", "found"),
    [
        ("", UNKNOWN),
        ("as it was", UNKNOWN),
        ("dry", DRY),
        ("clean and dry", DRY),
        ("no oil", DRY),
        ("oil-free", DRY),
        ("oil", OILED),
        ("engine oil", OILED),
        ("Oiled", OILED),
        ("threadlocker", OILED),
        ("zinc plated", PLATED),
        ("moly paste", SLICK),
        ("anti-seize", SLICK),
        ("copper grease", SLICK),
        ("degreased", DRY),
        ("no grease", DRY),
        ("free from oil and grease", DRY),
        ("zinc plated, no oil", PLATED),
    ],
)
def test_friction_by_the_words_for_lubrication(said, found):
    assert friction(said) is found


def test_friction_is_that_of_the_manuals():
    """K 0.20 plain, 0.15 plated, each within 25 per cent; with engine oil a tenth less."""
    assert (DRY.usual, PLATED.usual) == (0.2, 0.15)
    assert OILED.usual == pytest.approx(0.9 * DRY.usual)
    assert (DRY.low, DRY.high) == (pytest.approx(0.15), pytest.approx(0.25))
    for one in (DRY, PLATED, OILED):
        assert UNKNOWN.low <= one.low < one.usual < one.high <= UNKNOWN.high


def test_m10_8_8_at_three_quarters_of_proof():
    """25 230 N and 50.46 N·m: worked out by hand from 0.75 × 580 × 57.99."""
    one = thread("M10")
    found = clamp.of(Torque(50.46), one, strength("8.8", one), DRY)
    assert found.clamp_usual == pytest.approx(25_230, rel=1e-3)
    assert found.usual == pytest.approx(0.75, rel=1e-3)
    assert found.said == (
        "clamps with about 25 kN (20 to 34 kN), 75 % of its proof load (60 to 100 %)"
    )
    same = clamp.of(Torque(50.46).to(LBFT), one, strength("8.8", one), DRY)
    assert same.usual == pytest.approx(found.usual)
