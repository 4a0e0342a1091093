"""Why a rule is there may be said after it was made."""

import pytest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.errors import NotFound
from bagtag.domain.fitting import RuleKind, part


@pytest.fixture
def rule_id(store, job_id):
    ids = [
        services.strip.log_removal(store, job_id, Entry(name), who="Ada").new_id
        for name in ("fork", "drum")
    ]
    members = [part(id_) for id_ in ids]
    return services.rules.add_rule(store, job_id, RuleKind.FIRST, members, who="Ada").new_id


def words(store, job_id):
    return [row.words for row in services.rules.rules_of(store, job_id)]


def test_it_is_kept_in_words_and_undone(store, job_id, rule_id):
    change = services.rules.say_why(store, rule_id, "  the forks hang\nin it ", who="Ada")
    assert change.touches("rule")
    assert words(store, job_id) == ["Fit 2 drum before 1 fork (“the forks hang in it”)"]
    services.history.undo(store, job_id, who="Ada")
    assert words(store, job_id) == ["Fit 2 drum before 1 fork"]


def test_of_a_rule_that_is_gone_it_cannot_be_said(store, job_id, rule_id):
    services.rules.drop_rule(store, rule_id, who="Ada")
    with pytest.raises(NotFound, match="no longer there"):
        services.rules.say_why(store, rule_id, "late", who="Ada")
