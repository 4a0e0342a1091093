"""Torques in a terminal: published examples through the command line."""

import json

import pytest

from bagtag.domain.cautions import TORQUE_CAUTIONS


def test_a_torque_in_all_its_units(bagtag, answer):
    """NIST SP 811, App. B.8."""
    status, out, err = bagtag("torque", "convert", "40 N·m")
    first, *cautions = out.splitlines()
    assert (status, err) == (0, "")
    assert first == ("40 N·m = 29.5 lbf·ft = 354 lbf·in = 4.08 kgf·m = 408 kgf·cm = 5664 ozf·in")
    assert tuple(cautions) == TORQUE_CAUTIONS
    data = answer("torque", "convert", "30 ft-lb")
    assert data["given"] == {"value": 30, "unit": "lbf·ft"}
    assert data["same"][0] == {"value": 40.7, "unit": "N·m"}
    assert data["cautions"] == list(TORQUE_CAUTIONS)


def test_a_wrench_with_an_adapter_and_back_again(bagtag, answer):
    """TM 9-2350-261-20-1, p. 2-29: 40 with 12 and 4 in are set to 30. TM 9-254: 60 give 70."""
    fitted = ("--length", "12 in", "--adapter", "4 in")
    status, out, _ = bagtag("torque", "set", "40 lbf·ft", *fitted)
    assert status == 0
    assert out.startswith(
        "Set the wrench to 30 lbf·ft for 40 lbf·ft at the fastener, adapter 4 in, wrench 12 in."
    )
    assert out.rstrip().endswith(TORQUE_CAUTIONS[-1])
    back = answer("torque", "set", "60 lbf·in", "--length", "12 in", "--adapter", "2 in", "--back")
    assert back["fastener"]["reads"] == 70
    assert back["wrench"] == {"value": 60, "unit": "lbf·in", "reads": 60}


def test_an_adapter_at_an_angle_and_drag(answer, bagtag):
    """AC 43.13-1B, para 7-40: 100 and 12 of drag are 112; square to it nothing changes."""
    args = ("100 lbf·in", "--length", "10 in", "--adapter", "2 in", "--angle", "90")
    found = answer("torque", "set", *args, "--drag", "12")
    assert found["fastener"]["value"] == found["wrench"]["value"] == 112
    assert (found["length_mm"], found["angle"]) == (254, 90)
    said = bagtag("torque", "set", *args, "--drag", "12")[1]
    assert "(100 lbf·in and 12 lbf·in of drag)" in said
    mixed = bagtag("torque", "set", *args, "--drag", "1 N·m")[1]
    assert "for 109 lbf·in at the fastener (100 lbf·in and 1 N·m of drag)" in mixed


def test_a_torque_held_against_its_thread(bagtag, answer):
    """SAE J429 torque and tension: 3/8-16 grade 5, K 0.20, 31 lbf·ft, 4940 lbf."""
    found = answer("torque", "check", "3/8-16", "31 lbf·ft", "--class", "grade 5")
    assert found["questions"] == []
    assert found["clamp_newtons"][1] == pytest.approx(4940 * 4.4482216, rel=0.01)
    assert found["share_of_proof"][1] == pytest.approx(0.75, abs=0.01)
    status, out, _ = bagtag("torque", "check", "M8", "25 lbf·ft", "--class", "8.8")
    assert status == 1
    assert "? 25 lbf·ft would load M8" in out
    assert "was N·m meant, not lbf·ft?" in out
    assert TORQUE_CAUTIONS[0] in out
    status, out, _ = bagtag("torque", "check", "M8", "25 N·m", "--also", "25 lbf·ft", "--json")
    assert (status, len(json.loads(out)["questions"])) == (1, 1)
    assert json.loads(out)["share_of_proof"] == [None, None, None]
    assert "brass is no class" in bagtag("torque", "check", "M8", "9 N·m", "--class", "brass")[1]


@pytest.mark.parametrize(
    ("arguments", "word"),
    [
        (("convert", "40"), "Say the unit of 40"),
        (("convert", "0 N·m"), "above zero"),
        (("convert", "forty"), "a figure with its unit"),
        (("check", "M8x3", "25 N·m"), "M8x3 is no known thread; of that size there are M8"),
        (("check", " ", "25 N·m"), "Give the thread"),
        (("check", "1/4 BSP", "25 N·m"), "cannot be checked"),
        (("set", "40 N·m", "--length", "300", "--adapter", "400"), "longer than the wrench"),
        (("set", "40 N·m", "--length", "300", "--adapter", "0"), "The adapter's length is above"),
        (("set", "40 N·m", "--length", "300", "--adapter", "-50"), "has an angle of 180 degrees"),
        (
            ("set", "40 N·m", "--length", "300", "--adapter", "300", "--angle", "180"),
            "reaches to the grip",
        ),
        (("set", "40 N·m", "--length", "300", "--adapter", "50", "--angle", "200"), "180 degrees"),
        (
            ("set", "9 N·m", "--length", "300", "--adapter", "50", "--back", "--drag", "1 N·m"),
            "leave --drag out",
        ),
        ((), "Missing command"),
        (("set", "40 N·m"), "--length"),
    ],
)
def test_bad_input_is_one_sentence_and_status_2(bagtag, arguments, word):
    status, out, err = bagtag("torque", *arguments)
    assert (status, out) == (2, "")
    assert word in err
    assert len(err.splitlines()) == 1
