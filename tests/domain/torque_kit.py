"""What the tests of threads and torques share."""

import json
from pathlib import Path

from bagtag.domain import threads
from bagtag.domain.hardware import Torque, TorqueUnit

ROOT = Path(__file__).parents[2]
TABLE = ROOT / "resources" / "threads.toml"
THREADS = threads.read(TABLE.read_text("utf-8"), TABLE.name)
N, LBFT, LBIN = TorqueUnit.NEWTON_METRE, TorqueUnit.POUND_FOOT, TorqueUnit.POUND_INCH


def published(name):
    """Published values by name, each row with its source."""
    file = ROOT / "tests" / "check_values" / f"{name}.json"
    return json.loads(file.read_text("utf-8"))


def torque(pair):
    return Torque(pair[0], TorqueUnit(pair[1]))


def thread(name):
    found = THREADS.find(name)
    assert found is not None, name
    return found
