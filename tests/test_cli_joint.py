"""The terminal tells how a part is held: new words of its hardware, holes, passes, questions."""

from dataclasses import replace

import pytest

from bagtag import services
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.fitting import part
from bagtag.domain.hardware import OVERRIDE, Torque
from bagtag.domain.holes import Hole, HoleMap
from bagtag.domain.tightening import Pass, PassKind
from bagtag.domain.torque import TorqueUnit
from bagtag.domain.wrench import Wrench
from bagtag.store.work import Store

HEAD = (
    "cylinder head, 3 bolts M8x60, 8.8, flange head, 12 mm hex, plain washer, threads oil, "
    "24 N·m + 90°, new each time, 1 stud M8x85, 20 N·m"
)
RING = HoleMap(
    tuple(
        Hole(n, x, y, "A" if n < 4 else "B")
        for n, (x, y) in enumerate([(50, 20), (80, 50), (50, 80), (20, 50)], 1)
    ),
    seen_from="above",
)


@pytest.fixture
def store(tmp_path):
    found = Store.in_folder(tmp_path / "store")
    yield found
    found.close()


@pytest.fixture
def head(answer, store):
    """A head with two kinds of fasteners: its code."""
    answer("new", "Walking tractor")
    return answer("log", "1", HEAD)["code"]


def of_head(store):
    return services.strip.get_removal(store, 1)


def test_the_hardware_is_told_whole(bagtag, answer, head):
    (found,) = answer("where", head)
    bolts, stud = found["removal"]["held_by"]
    assert (bolts["head"], bolts["washer"], bolts["lubrication"]) == ("flange", "plain", "oil")
    assert (bolts["angle"], bolts["one_time"]) == (90.0, True)
    assert (stud["kind"], stud["count"]) == ("stud", 1)
    told = bagtag("where", head)[1]
    assert "threads oil, 24 N·m + 90°, new each time" in told
    assert [caution in told for caution in TORQUE_CAUTIONS] == [True] * 4
    assert found["removal"]["cautions"] == list(TORQUE_CAUTIONS)


def test_holes_passes_and_wrenches_are_told(bagtag, answer, head, store):
    services.holes.save_map(store, 1, RING)
    steps = (Pass(share=0.5), Pass(share=1.0), Pass(PassKind.ANGLE, angle=90.0, group="A"))
    services.tightening.set_passes(store, 1, steps)
    services.tightening.tick(store, part(1), 0)
    services.wrenches.add_wrench(store, Wrench("small wrench", 5, 60, step=1.0))
    (found,) = answer("where", head)
    first, second, third = found["removal"]["passes"]
    assert (first["done"], second["done"]) == (True, False)
    assert first["figures"] == [["A", 12.0, "N·m"], ["B", 10.0, "N·m"]]
    assert (sorted(first["order"]), third["angle"], third["figures"]) == ([1, 2, 3, 4], 90.0, [])
    assert sorted(third["order"]) == [1, 2, 3]
    assert found["removal"]["turned"] == 90.0
    holes = found["removal"]["hole_map"]
    assert [hole["line"] for hole in holes["holes"]] == ["A", "A", "A", "B"]
    assert holes["holes"][3]["fastener"].startswith("1 stud M8x85")
    assert (holes["counts"], holes["seen_from"]) == ([], "above")
    told = bagtag("where", head)[1]
    for words in (
        "A, holes 1–3: 3 bolts M8x60", "B, hole 4: 1 stud M8x85", "4 holes, crosswise",
        "seen from above", "pass 1 [x] Torque to 50 % = A 12 N·m, B 10 N·m; order ", "pass 2 [ ]",
        "pass 3 [ ] A: turn 90° further", "Turned by 90° in all", "set the small wrench to 12 N·m",
    ):  # fmt: skip
        assert words in told


def test_a_hole_short_and_a_wrench_out_of_its_range_are_told(bagtag, head, store):
    services.holes.save_map(store, 1, replace(RING, holes=RING.holes[1:]))
    services.wrenches.add_wrench(store, Wrench("long wrench", 20, 200, step=1.0))
    told = bagtag("where", head)[1]
    assert "A: 3 bolts M8x60 and 2 holes: 1 hole short." in told
    assert told.count("24 N·m is under a fifth of this wrench's full scale") == 1


def test_a_slip_is_asked_about_as_it_is_logged_and_never_refused(bagtag, answer):
    answer("new", "Walking tractor")
    logged = answer("log", "1", "cover, 4 bolts M6x20, 8.8, 10 kgf m")
    assert logged["held_by"][0]["torque"] == [10.0, "kgf·m"]
    (question,) = logged["look_again"]
    assert "proof load" in question
    told = bagtag("log", "1", "lid, 4 bolts M6x20, 8.8, 10 kgf m")[1]
    assert "look again: 10 kgf·m would load M6" in told
    assert OVERRIDE in told
    plain = answer("log", "1", "plate, 4 bolts M6x20, 8.8, 10 Nm")
    assert plain["look_again"] == []


def test_a_part_without_a_torque_is_told_without_cautions(bagtag, answer):
    answer("new", "Walking tractor")
    logged = answer("log", "1", "clip, 2 screws M5x12")
    assert (logged["passes"], logged["hole_map"], logged["cautions"]) == ([], None, [])
    assert OVERRIDE not in bagtag("where", logged["code"])[1]


def test_a_final_tightening_tells_the_joint_of_its_part(bagtag, answer, head, store):
    answer("log", "1", "rocker cover")
    made = services.tasks.tighten_later(store, 1, part(2))
    card = services.task_views.card(store, made.new_id)
    (found,) = answer("where", card.code)
    (one, *_) = found["task"]["passes"]
    assert one["figures"][0] == ["M8x60", *_torque(of_head(store).held_by[0].torque)]
    assert "24 N·m + 90°" in bagtag("where", card.code)[1]


def _torque(torque: Torque) -> tuple[float, TorqueUnit]:
    return torque.value, torque.unit
