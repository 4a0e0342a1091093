"""Cautions by the words of an entry. What calls for which is common practice, no source."""

import pytest

from bagtag.domain.cautions import SENTENCES, TORQUE_CAUTIONS, cautions
from bagtag.domain.hardware import OVERRIDE, HeldBy, Torque
from bagtag.domain.kinds import PartKind
from bagtag.domain.model import Hazard, Removal
from bagtag.domain.tightening import Pass


def part(name: str, **more) -> Removal:
    return Removal(1, "u", 1, "1", 1, name, **more)


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("valve spring", "tension"),
        ("detent springs", "tension"),
        ("circlip", "tension"),
        ("flywheel", "lift"),
        ("cylinder head", "lift"),
        ("tine", "gloves"),
        ("silencer", "cool"),
        ("carburettor", "flame"),
        ("fuel tank", "flame"),
        ("injector", "skin"),
    ],
)
def test_what_can_hurt_is_said(name: str, word: str) -> None:
    (sentence,) = [line for line in cautions(part(name)) if word in line]
    assert sentence.endswith(".")


@pytest.mark.parametrize("name", ["spring washer", "shift fork", "gasket", "Springfield badge"])
def test_what_only_sounds_like_it_is_left_alone(name: str) -> None:
    assert cautions(part(name)) == ()


def test_the_note_and_the_condition_count_too() -> None:
    assert cautions(part("drum", note="the spring is under load"))
    assert cautions(part("guard", condition="sharp burr"))


def test_a_torque_always_carries_the_makers_word_first() -> None:
    held = (HeldBy(torque=Torque(10)),)
    assert cautions(part("cover", held_by=held)) == (OVERRIDE,)
    assert cautions(part("flywheel", held_by=held))[0] == OVERRIDE
    assert OVERRIDE not in cautions(part("cover", held_by=(HeldBy(),)))


@pytest.mark.parametrize("hazard", list(Hazard))
def test_each_hazard_of_an_entry_or_its_kind_has_one_sentence(hazard: Hazard) -> None:
    kind = PartKind("thing", hazards=(hazard,))
    said = (SENTENCES[hazard],)
    assert cautions(part("thing"), kind) == cautions(part("thing", hazards=(hazard,))) == said
    assert cautions(part("thing", hazards=(hazard,)), kind) == said


def test_where_the_kind_is_known_its_name_is_no_guess() -> None:
    """ "Spring perch" is called by the spring it holds, and a tank's cap by the tank."""
    assert cautions(part("spring perch")) != ()
    assert cautions(part("spring perch"), PartKind("spring perch")) == ()
    assert cautions(part("spring perch", note="sharp edge"), PartKind("spring perch")) == (
        SENTENCES[Hazard.SHARP],
    )


def test_hazards_stand_in_one_order_whatever_says_them() -> None:
    kind = PartKind("injector", hazards=(Hazard.PRESSURE, Hazard.SPRING))
    said = cautions(part("injector", hazards=(Hazard.FRAGILE,)), kind)
    assert said == tuple(SENTENCES[h] for h in (Hazard.SPRING, Hazard.FRAGILE, Hazard.PRESSURE))


def test_another_part_that_a_note_names_is_not_what_is_lifted():
    """A rag over the crankcase mouth makes no circlip heavy (common practice, no source)."""
    clip = "piston pin circlip"
    heavy = SENTENCES[Hazard.HEAVY]
    assert heavy not in cautions(part(clip, note="a rag over the crankcase mouth"))
    assert heavy in cautions(part(clip, note="heavy: two people"))
    assert SENTENCES[Hazard.SHARP] in cautions(part(clip, condition="burr on one end"))


def test_what_every_page_with_a_torque_says_begins_with_the_makers_word():
    """Common practice, no source."""
    first, *rest = TORQUE_CAUTIONS
    assert first == OVERRIDE
    said = " ".join(rest)
    for word in ("only catches slips", "not used again", "qualified person"):
        assert word in said
    assert all(sentence.endswith(".") for sentence in TORQUE_CAUTIONS)


def test_a_torque_that_only_a_pass_says_has_the_manual_s_word() -> None:
    assert OVERRIDE in cautions(part("cover", passes=(Pass(torque=Torque(40)),)))
    assert OVERRIDE not in cautions(part("cover", passes=(Pass(share=0.5),)))
