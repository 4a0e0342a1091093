"""The mechanic's own word on the order, made by keys: fit first, hold until, together."""

import pytest

from bagtag import services
from bagtag.domain.fitting import RuleKind
from bagtag.ui.order.rule_form import RuleDialog
from tests.ui.add_kit import ENTER, is_open, open_form, order, press, step_of, walked, write
from tests.ui.stages_job import dies, nameless


@pytest.fixture
def drum(store, job):
    return step_of(store, job, "shift drum")


def rules(store, job_id: int) -> list[str]:
    return [row.words for row in services.rules.rules_of(store, job_id)]


def make(qtbot, desk, settle, kind: RuleKind, ref) -> RuleDialog:
    return open_form(qtbot, desk, settle, RuleDialog, kind, ref)


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        (RuleKind.FIRST, "Fit 5 shift fork L before 4 shift drum"),
        (RuleKind.UNTIL, "Hold 4 shift drum until 5 shift fork L"),
        (RuleKind.TOGETHER, "4 shift drum and 5 shift fork L go in together"),
    ],
)
def test_the_other_step_by_its_number_and_the_rule_in_words(
    qtbot, desk, settle, store, job, drum, kind, words
) -> None:
    form = make(qtbot, desk, settle, kind, drum)
    write("5")
    press(ENTER)
    assert form.outcome.words.text() == words
    press(ENTER)
    settle(desk)
    assert rules(store, job.id) == [words]
    assert not is_open(form)


def test_a_reason_goes_with_it(qtbot, desk, settle, store, job, drum) -> None:
    form = make(qtbot, desk, settle, RuleKind.FIRST, drum)
    write("5")
    press(ENTER)
    form.why.setFocus()
    write("the pins ride in its grooves")
    press(ENTER)
    settle(desk)
    assert rules(store, job.id) == [
        "Fit 5 shift fork L before 4 shift drum (“the pins ride in its grooves”)"
    ]


def test_what_it_needs_goes_in_first(qtbot, desk, settle, store, job) -> None:
    shaft, fork = step_of(store, job, "main shaft"), "5 shift fork L"
    assert order(store, job.id).index("8 main shaft") < order(store, job.id).index(fork)
    make(qtbot, desk, settle, RuleKind.FIRST, shaft)
    write("5")
    press(ENTER, 2)
    settle(desk)
    assert order(store, job.id).index("8 main shaft") == order(store, job.id).index(fork) + 1


def test_three_go_in_as_one(qtbot, desk, settle, store, job, drum) -> None:
    form = make(qtbot, desk, settle, RuleKind.TOGETHER, drum)
    for number in ("5", "6"):
        write(number)
        press(ENTER)
    assert (
        form.outcome.words.text()
        == "4 shift drum, 5 shift fork L and 6 shift fork R go in together"
    )
    press(ENTER)
    settle(desk)
    board = services.board.board(store, job.id)
    assert len(board.step(drum).along) == 2


def test_what_the_plan_has_so_already_is_said(qtbot, desk, settle, store, job, drum) -> None:
    form = make(qtbot, desk, settle, RuleKind.FIRST, drum)
    write("8")  # the main shaft came off after the drum: it goes in before it
    press(ENTER)
    assert "has it so already" in form.outcome.along.text()
    press(ENTER)
    settle(desk)
    assert rules(store, job.id) == ["Fit 8 main shaft before 4 shift drum"]


def test_a_rule_that_breaks_another_says_which_and_asks_before_it_is_made(
    qtbot, desk, settle, store, job, drum
) -> None:
    fork = step_of(store, job, "shift fork L")
    services.rules.add_rule(store, job.id, RuleKind.FIRST, [fork, drum])
    form = make(qtbot, desk, settle, RuleKind.FIRST, drum)
    write("5")
    press(ENTER)
    settle(desk)
    assert "It would break: 5 shift fork L must have 4 shift drum in" in (
        form.outcome.breaks.text()
    )
    form.why.setFocus()
    press(ENTER)
    assert is_open(form)
    assert form.leave.hasFocus()
    assert len(rules(store, job.id)) == 1
    form.keep.click()
    settle(desk)
    assert len(rules(store, job.id)) == 2
    assert services.board.board(store, job.id).no_order is not None


def test_the_safe_choice_leaves_it(qtbot, desk, settle, store, job, drum) -> None:
    fork = step_of(store, job, "shift fork L")
    services.rules.add_rule(store, job.id, RuleKind.UNTIL, [fork, drum])
    form = make(qtbot, desk, settle, RuleKind.UNTIL, drum)
    write("5")
    press(ENTER, 2)  # the second comes before it is known what would break
    settle(desk)
    assert form.leave.hasFocus()
    press(ENTER)
    settle(desk)
    assert not is_open(form)
    assert len(rules(store, job.id)) == 1


def test_another_step_asks_anew(qtbot, desk, settle, store, job, drum) -> None:
    fork = step_of(store, job, "shift fork L")
    services.rules.add_rule(store, job.id, RuleKind.UNTIL, [fork, drum])
    form = make(qtbot, desk, settle, RuleKind.UNTIL, drum)
    write("5")
    press(ENTER, 2)
    settle(desk)
    form.other.setFocus()
    write("3")
    press(ENTER)
    settle(desk)
    assert form.outcome.breaks.text() == ""
    press(ENTER)
    settle(desk)
    assert rules(store, job.id)[0] == "Hold 4 shift drum until 3 retainer plate"


def test_without_the_other_step_it_says_so(qtbot, desk, settle, store, job, drum) -> None:
    form = make(qtbot, desk, settle, RuleKind.UNTIL, drum)
    press(ENTER)
    assert form.fields["members"].wrong.text() == "Choose the other step."
    assert rules(store, job.id) == []


def test_without_a_step_on_the_card_both_are_asked(qtbot, desk, settle, store, job) -> None:
    form = make(qtbot, desk, settle, RuleKind.UNTIL, None)
    assert form.step.line.hasFocus()
    press(ENTER)
    assert form.fields["step"].wrong.text() == "Choose the step that the rule is for."
    write("4")
    press(ENTER)
    form.other.setFocus()
    write("5")
    press(ENTER, 2)
    settle(desk)
    assert rules(store, job.id) == ["Hold 4 shift drum until 5 shift fork L"]


def test_a_rule_to_itself_and_one_made_twice_are_refused_under_the_field(
    qtbot, desk, settle, store, job, drum
) -> None:
    form = make(qtbot, desk, settle, RuleKind.FIRST, drum)
    write("4")
    press(ENTER, 2)
    settle(desk)
    assert "cannot be tied to itself" in form.fields["members"].wrong.text()
    fork = step_of(store, job, "shift fork L")
    services.rules.add_rule(store, job.id, RuleKind.FIRST, [drum, fork])
    form.why.setText("it rides in it")
    form.other.set_value(fork)
    form.save()
    settle(desk)
    assert "This rule is there already" in form.fields["members"].wrong.text()
    assert form.why.text() == "it rides in it"
    assert len(rules(store, job.id)) == 1


def test_what_is_scrapped_is_not_offered(qtbot, desk, settle, store, job, drum) -> None:
    form = make(qtbot, desk, settle, RuleKind.FIRST, drum)
    write("split")
    press(ENTER)
    assert "No step answers to split" in form.fields["members"].wrong.text()


def test_tab_goes_from_field_to_field_and_last_to_the_buttons(
    qtbot, desk, settle, job, drum
) -> None:
    form = make(qtbot, desk, settle, RuleKind.UNTIL, drum)
    assert walked(form.step.line) == [
        "This step",
        "is held until this one is in",
        "Why (optional)",
        "Make the rule",
        "Leave it",
    ]


@pytest.mark.parametrize("kind", list(RuleKind))
def test_names_and_leaks(qtbot, desk, settle, job, drum, kind) -> None:
    assert nameless(make(qtbot, desk, settle, kind, drum)) == []

    def made() -> RuleDialog:
        form = RuleDialog(desk, None, kind, None)
        settle(desk)
        return form

    assert dies(qtbot, made)
