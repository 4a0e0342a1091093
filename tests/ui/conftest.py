"""What the tests of the forms stand on: a furnished job, and the entry card on it."""

import pytest

from tests.ui.forms_kit import furnish, settings, show


@pytest.fixture
def ids(store, job_id) -> dict[str, int]:
    return furnish(store, job_id)


@pytest.fixture
def card(qtbot, desk, ids, settle, tmp_path):
    from bagtag.ui.entry_card import EntryCard

    made = EntryCard(desk, settings=settings(tmp_path))
    show(qtbot, made)
    made.start_new()
    settle(desk)
    return made
