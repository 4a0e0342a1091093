"""The desk: one way to ask, one way to act, one signal of change."""

import pytest

from bagtag import services
from bagtag.domain.change import Change
from bagtag.domain.entry import Entry
from bagtag.domain.errors import StoreTrouble
from bagtag.ui.desk import Desk


class Screen:
    """What a screen keeps of what it is told."""

    def __init__(self, desk):
        self.changes, self.answers, self.said, self.order = [], [], [], []
        desk.changed.connect(self.hear)
        desk.said.connect(self.hear_said)

    def hear(self, change):
        self.changes.append(change)
        self.order.append("changed")

    def hear_said(self, sentence, trouble):
        self.said.append((sentence, trouble))

    def take(self, answer):
        self.answers.append(answer)
        self.order.append("answered")


def test_an_act_tells_every_screen_before_its_own_answer(desk, job_id, settle):
    screen = Screen(desk)
    desk.act(services.strip.log_removal, job_id, Entry("shift fork"), then=screen.take)
    settle(desk)
    assert screen.order == ["changed", "answered"]
    assert isinstance(screen.changes[0], Change)
    assert screen.changes[0].act == "log shift fork"


def test_who_acts_is_kept(desk, job_id, settle):
    desk.act(services.strip.log_removal, job_id, Entry("shift fork"))
    settle(desk)
    screen = Screen(desk)
    desk.ask(services.history.history, job_id, then=screen.take)
    settle(desk)
    assert screen.answers[0][0].who == "Ada"


def test_asking_changes_nothing(desk, job_id, settle):
    screen = Screen(desk)
    desk.ask(services.strip.log_ids, job_id, then=screen.take)
    settle(desk)
    assert screen.changes == []
    assert list(screen.answers[0]) == []


def test_trouble_that_no_form_takes_is_said(desk, job_id, settle):
    screen = Screen(desk)
    desk.act(services.strip.log_removal, job_id, Entry(""))
    settle(desk)
    assert len(screen.said) == 1
    assert screen.said[0][1] is True
    assert screen.changes == []


def test_a_fault_of_ours_is_raised_and_not_said(desk, settle, qtbot):
    screen = Screen(desk)
    with qtbot.capture_exceptions() as raised:
        desk.ask(lambda _: 1 / 0, then=screen.take)
        settle(desk)
    assert [kind for kind, _, _ in raised] == [ZeroDivisionError]
    assert screen.said == []


def test_a_store_that_cannot_be_opened_is_refused_in_a_sentence(qtbot):
    def refuse():
        raise StoreTrouble("This store was written by a newer Bagtag.")

    desk = Desk("Ada")
    with qtbot.waitSignal(desk.refused) as refused:
        desk.open(refuse)
    assert refused.args == ["This store was written by a newer Bagtag."]
    assert not desk.is_open
    desk.close()


def test_pictures_have_threads_of_their_own(desk, settle):
    screen = Screen(desk)
    desk.draw(divmod, 7, 2, then=screen.take)
    settle(desk)
    assert screen.answers == [(3, 1)]


def test_the_store_is_asked_for_only_when_open():
    desk = Desk("Ada")
    with pytest.raises(AssertionError, match="not open"):
        _ = desk.store
    desk.close()
