"""Every part kind that comes with the program, all files together, and names as bags have them.

What a name means is common practice of the trade, no source.
"""

from collections import defaultdict

import pytest

from bagtag import resources
from bagtag.domain import kind_form
from bagtag.domain.kinds import Kinds, PartKind, Question, Renewal, stem
from bagtag.domain.model import Hazard

SHIPPED = tuple(
    kind
    for file in sorted(resources.find("kinds").glob("*.toml"))
    for kind in kind_form.read(file.read_text("utf-8"), file.name)
)
KINDS = Kinds(SHIPPED)
ASKED = [(kind, question) for kind in SHIPPED for question in kind.asks]
SIDES = {"left", "right", "front", "rear", "top", "bottom", "outward", "inward"}
DEPTHS = {"flush", "proud", "below", "bottomed", "shoulder"}


def words(name: str) -> str:
    """A name as the look-up sees it, worked out here anew: small letters, no joints, singular."""
    letters = "".join(c if c.isalnum() or c in "'’" else " " for c in name)
    return " ".join(stem(word) for word in letters.split())


def test_both_halves_are_there():
    assert len(SHIPPED) >= 200
    assert len({kind.group for kind in SHIPPED}) >= 10


def test_no_kind_stands_in_two_files():
    assert len(KINDS) == len(SHIPPED)


def test_no_word_sequence_belongs_to_two_kinds():
    owners = defaultdict(set)
    for kind in SHIPPED:
        for name in (kind.name, *kind.also):
            owners[words(name)].add(kind.name)
    assert {name: who for name, who in owners.items() if len(who) > 1} == {}


def test_no_name_stands_twice_in_one_kind():
    for kind in SHIPPED:
        names = [words(name) for name in (kind.name, *kind.also)]
        assert len(names) == len(set(names)), kind.name


def test_nearly_every_kind_has_another_name():
    named = [kind for kind in SHIPPED if kind.also]
    assert len(named) >= 0.9 * len(SHIPPED)


@pytest.mark.parametrize("kind", SHIPPED, ids=lambda kind: kind.name)
def test_a_kind_tells_the_whole_of_what_a_person_needs(kind: PartKind):
    assert kind.group
    assert kind.source
    assert all(text.strip() for text in (*kind.together, *kind.also))
    assert len(kind.asks) <= 3
    assert all(isinstance(hazard, Hazard) for hazard in kind.hazards)
    for text in (kind.goes_wrong, kind.why, kind.home):
        assert text[0].isupper()
        assert text.endswith(".")
        assert len(text) <= 160


def test_what_is_always_renewed_says_why():
    always = [kind for kind in SHIPPED if kind.renew is Renewal.ALWAYS]
    assert len(always) >= 20
    assert all(len(kind.why) > 15 for kind in always)


@pytest.mark.parametrize(("kind", "question"), ASKED, ids=lambda item: getattr(item, "id", ""))
def test_a_question_ends_in_its_mark_and_has_choices_that_can_be_facts(
    kind: PartKind, question: Question
):
    assert question.sentence.endswith("?")
    assert question.sentence[0].isupper()
    assert len(question.choices) == len(set(question.choices)) <= 9
    if question.fact == "faces":
        assert all(way in SIDES or way.startswith("part: ") for way in question.choices)
    if question.fact == "seat":
        assert set(question.choices) <= DEPTHS
    if question.fact == "place":
        assert len(question.choices) <= 1
        assert set(question.choices) <= SIDES - {"outward", "inward"}


def test_a_part_that_need_not_be_asked_about_is_left_alone():
    for name in ("M6 bolt", "socket screw", "stretch bolt", "O-ring", "split pin", "magnet"):
        kind = KINDS.of(name)
        assert kind is not None, name
        assert not kind.needs_way, name


RENEWED = [
    "bearing", "needle brg", "tapered roller bearing", "oil seal", "O-ring", "circlip",
    "internal snap ring", "stretch bolt", "cover gasket", "crush washer", "roll pin",
    "cotter pin", "tab washer", "safety wire", "nylon insert nut", "lock washers",
]  # fmt: skip


@pytest.mark.parametrize("name", RENEWED)
def test_what_a_full_build_renews(name):
    """Bearings, seals, O-rings, circlips, stretch bolts: common practice, no source. Circlips,
    roll pins, split pins and tab washers: workshop manual, joints and locking devices. Gaskets,
    lockwire, lockwashers: TM 5-5420-280-23&P WP 0017. Safety wire and cotter pins: AC 43.13-1B
    7-38. Self-locking nuts: TM 9-2320-304-14&P 4-21."""
    kind = KINDS.of(name)
    assert kind is not None
    assert kind.renew is Renewal.ALWAYS


ON_BAGS = {
    "gearbox cover gasket": "gasket",
    "GASKET, clutch cover": "gasket",
    "shift fork R": "shift fork",
    "selector forks L + R": "shift fork",
    "shift fork, middle": "shift fork",
    "3rd gear": "gear",
    "gear 3": "gear",
    "second gear wheel": "gear",
    "5th driven gear": "gear",
    "lay shaft brg, clutch side": "ball bearing",
    "brg 6204": "ball bearing",
    "ball brg": "ball bearing",
    "main bearing, flywheel side": "ball bearing",
    "shielded brg L": "bearing sealed one side",
    "needle brg, small": "needle bearing",
    "taper rollers": "taper roller bearing",
    "wheel bearing outer race": "bearing race",
    "big end bolts": "rod bolt",
    "conrod bolts x2": "rod bolt",
    "big end shells": "big-end shell",
    "throwout bearing": "release bearing",
    "crank seal, clutch side": "oil seal",
    "o rings": "O-ring",
    "copper washers x 4": "sealing washer",
    "bearing retainer, input": "retainer plate",
    "reverse idler": "idler gear",
    "crown wheel": "bevel gear",
    "countershaft": "layshaft",
    "lay shaft": "layshaft",
    "cluster": "gear cluster",
    "selector rod": "fork rail",
    "selector drum": "shift drum",
    "detent plungers": "detent ball",
    "detent spring and ball": "detent spring",
    "gear lever": "shift lever",
    "baulk rings": "synchro ring",
    "drive sprocket": "sprocket",
    "splined washer, input shaft": "thrust washer",
    "shims, bevel pinion": "shim",
    "distance collar": "spacer",
    "snap ring": "circlip",
    "outer circlip 2": "external circlip",
    "internal circlips": "internal circlip",
    "piston pin circlips": "gudgeon-pin circlip",
    "half-shaft LH": "axle",
    "UJ": "universal joint",
    "oil slinger": "baffle",
    "oil nozzle": "oil jet",
    "sump strainer": "oil strainer",
    "friction plates": "clutch plate",
    "steel plates": "plain plate",
    "clutch drum": "clutch basket",
    "clutch center": "clutch hub",
    "push rods": "pushrod",
    "clutch push rod": "clutch pushrod",
    "v-belts": "drive belt",
    "Allen bolts, cover": "cap screw",
    "clutch hub nut": "nut",
    "castellated nut": "castle nut",
    "jam nuts": "locknut",
    "lock washers": "spring washer",
    "belleville washer": "dished washer",
    "flywheel key": "woodruff key",
    "gearbox dowels": "dowel",
    "cotter pins": "split pin",
    "valve cotters": "valve collets",
    "spring pin": "roll pin",
    "layshaft ball": "ball",
    "kick spring": "spring",
    "gearbox lid": "cover",
    "kill switch": "switch",
    "earth strap": "wiring loom",
    "brake cable": "control cable",
    "zylinderkopf": None,
    "sleeve nut of unknown use": "nut",
}


@pytest.mark.parametrize(("written", "meant"), ON_BAGS.items())
def test_a_name_on_a_bag_finds_the_kind_that_a_mechanic_means(written, meant):
    kind = KINDS.of(written)
    assert (kind.name if kind else None) == meant
