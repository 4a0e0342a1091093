"""The card of a task: what it says for each kind, its pieces, and its acts by mouse and by key."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics, QImage, QPainter

from bagtag import services
from bagtag.domain.fitting import Anchor, Asked, Beside, Ref, RuleKind, TaskKind, part, task
from bagtag.domain.hardware import OVERRIDE, HeldBy, Torque
from bagtag.domain.standing import Standing
from bagtag.services.tasks import TaskForm
from bagtag.ui import theme
from bagtag.ui.card.task_card import TaskCardView
from bagtag.ui.card.task_facts import torque_words
from bagtag.ui.card.task_signs import EMPTY_BOX, TICKED_BOX, paint_sign, sign_of
from tests.ui.sign_kit import BOLTS, enter, log
from tests.ui.stages_job import dies, nameless, sentence_of


@pytest.fixture
def view(qtbot, desk, job):
    made = TaskCardView(desk)
    qtbot.addWidget(made)
    made.resize(900, 700)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


@pytest.fixture
def put_task(view, desk, settle):
    def show(task_id: int) -> TaskCardView:
        view.show_task(task_id)
        settle(desk)
        return view

    return show


@pytest.fixture
def add(store, job):
    """Add a task of this kind beside a part; returns its id."""

    def added(kind: TaskKind, of: str = "main shaft", **fields: object) -> int:
        anchor = Anchor(Beside.AFTER, part(job.parts[of]))
        form = TaskForm(kind, anchor=anchor, **fields)
        return services.tasks.add_task(store, job.id, form, who="MK").new_id

    return added


def sign_off(store, job, ref: Ref):
    return services.board.board(store, job.id).step(ref).sign_off


def test_an_empty_card_says_what_to_do(view) -> None:
    assert "Choose a step of the build" in sentence_of(view)


def test_it_says_what_is_done_where_and_when(put_task, add) -> None:
    asks = (Asked("end float", "mm", 0.05, 0.2),)
    view = put_task(add(TaskKind.END_FLOAT, asks=asks, note="push and pull by hand"))
    said = sentence_of(view)
    for words in (
        "measure the end float",
        "End float, Lower case > Gearbox",
        "after 8 main shaft",
        "8 main shaft must go in first",
        "end float, 0.05 to 0.2 mm",
        "push and pull by hand",
        "waits",
    ):
        assert words in said
    assert view.head.sign.accessibleName() == "end float"


def test_its_name_is_read_from_a_metre(put_task, add) -> None:
    """A two-hundredth of a metre is 5 mm; a pixel of a 96 dpi screen is 25.4/96 mm."""
    view = put_task(add(TaskKind.CLEAN))
    assert QFontMetrics(view.head.name.font()).capHeight() * 25.4 / 96 >= 5.0


@pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK])
def test_every_kind_has_a_sign_of_its_own_within_its_square(qapp, colours) -> None:
    seen = []
    for kind in TaskKind:
        sign = sign_of(kind)
        for item in sign.items:
            left, top, right, bottom = item.bounds
            assert min(left, top) >= 0
            assert max(right, bottom) <= 1
        image = QImage(64, 64, QImage.Format.Format_ARGB32)
        image.fill(colours.card)
        painter = QPainter(image)
        paint_sign(painter, sign, image.rect().toRectF())
        painter.end()
        assert image not in seen
        seen.append(image)


def test_a_final_tightening_says_its_passes_large_and_the_override(put_task, store, job) -> None:
    """Half, two thirds, the whole: the marine diesel service manual that `passes` is checked
    against; figures beside it in tests/domain."""
    cap = log(store, job, "bearing cap", HeldBy(4, "bolt", "M8", 60, torque=Torque(24)))
    new = services.tasks.tighten_later(store, cap.id, part(job.parts["main shaft"])).new_id
    view = put_task(new)
    said = sentence_of(view.torques)
    assert "4 bolts M8x60" in said
    assert "12\u00a0N·m, 16\u00a0N·m, then 24\u00a0N·m" in said
    assert OVERRIDE in sentence_of(view.cautions)
    assert "bearing cap must go in first" in view.facts.texts()["Waits for"]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (HeldBy(1, "nut", "M18", torque=Torque(80)), "80\u00a0N·m"),
        (HeldBy(4, "bolt", "M8"), "by the maker's manual"),
        (HeldBy(4, "bolt", "M10", torque=Torque(40), note="then 90°"), "40\u00a0N·m"),
    ],
)
def test_torques_in_words(line, words) -> None:
    assert torque_words(line, "") == words


def test_a_hold_point_says_who_must_not_sign_and_takes_another_name(
    put_task, add, store, desk, settle, job, qtbot
) -> None:
    services.signing.sign(
        store, part(job.parts["main shaft"]), services.signing.SignForm(reason="dry"), who="Ada"
    )
    new = add(TaskKind.HOLD_POINT)
    for name in ("oil jets", "main shaft bearing"):
        part_id = job.parts[name]
        services.fates.set_replacement(store, [part_id], services.fates.Replacement.HERE)
    view = put_task(new)
    assert "Another must sign it than Ada" in view.hold.text
    view.acts.done.click()
    settle(desk)
    fields = view.signing.fields
    assert fields.who.isVisible()
    assert fields.who.line.text() == ""  # Ada is at the bench, and must not
    assert "Ada did the work" in fields.hold.text
    fields.reason.line.setText("the rest follows")
    qtbot.keyClicks(fields.who.line, "ada.")
    assert "another must sign it" in fields.who.wrong.text()
    enter(qtbot, fields.who.line)
    settle(desk)
    assert "second pair of eyes" in fields.who.wrong.text()
    assert sign_off(store, job, task(new)) is None
    enter(qtbot, fields.who.line, "Ben")
    settle(desk)
    assert sign_off(store, job, task(new)).who == "Ben"
    assert desk.who == "Ada"
    assert view.hold.isHidden()


def test_a_bench_build_lists_its_pieces_with_ticks(put_task, store, desk, settle, job, qtbot):
    forks = [part(job.parts[name]) for name in ("shift fork L", "shift fork R")]
    inner = services.tasks.make_bench_build(store, job.id, "forks", forks).new_id
    pieces = [task(inner), part(job.parts["shift drum"])]
    outer = services.tasks.make_bench_build(store, job.id, "drum and forks", pieces).new_id
    signing = services.signing.SignForm(reason="on the bench")
    services.signing.sign(store, forks[0], signing, who="Ada")
    view = put_task(outer)
    assert view.pieces.count.text() == "0 of 2 pieces in"
    lines = {line.title: line for line in view.pieces.list.steps.lines}
    assert lines["5 shift fork L"].sign == TICKED_BOX
    assert lines["5 shift fork L"].word == "in"
    assert lines["5 shift fork L"].depth == 1
    assert lines["6 shift fork R"].sign == EMPTY_BOX
    assert "decided" in lines["6 shift fork R"].detail
    assert lines["forks"].depth == 0
    shown = []
    desk.show_step.connect(shown.append)
    rows = view.pieces.list
    rows.setFocus()
    qtbot.keyClick(rows, Qt.Key.Key_Return)
    assert shown == [rows.steps.lines[0].ref]
    services.signing.sign(store, forks[1], signing, who="Ada")
    services.signing.sign(store, task(inner), who="Ada")
    desk.act(services.signing.sign, pieces[1], signing)
    settle(desk)
    assert view.pieces.count.text() == "2 of 2 pieces in"
    assert "drum and forks" in put_task(inner).facts.texts()["Built into"]


def test_done_and_taken_back_by_key(put_task, add, store, desk, settle, job, qtbot) -> None:
    view = put_task(new := add(TaskKind.FILL_OIL))
    qtbot.keyClick(view, Qt.Key.Key_F6)
    settle(desk)
    view.signing.fields.reason.line.setText("to look for leaks")
    enter(qtbot, view.signing.fields.figures[0].line, "0,8")
    settle(desk)
    done = sign_off(store, job, task(new))
    assert [(f.name, f.value, f.unit) for f in done.figures] == [("oil filled", 0.8, "l")]
    assert "done" in sentence_of(view.head)
    assert "oil filled 0.8 l" in view.facts.texts()["Signed off"]
    assert "Although: to look for leaks" in view.facts.texts()["Signed off"]
    qtbot.keyClick(view, Qt.Key.Key_F6)
    settle(desk)
    assert sign_off(store, job, task(new)) is None
    assert view.acts.done.isVisible()


def test_one_key_does_a_task_that_asks_nothing(put_task, add, store, desk, settle, job, qtbot):
    for name in ("oil jets", "main shaft"):
        form = services.signing.SignForm(reason="it fits")
        services.signing.sign(store, part(job.parts[name]), form, who="Ada")
    view = put_task(new := add(TaskKind.OIL))
    assert view.card.step.standing is Standing.NEXT
    qtbot.keyClick(view, Qt.Key.Key_F6)
    settle(desk)
    assert sign_off(store, job, task(new)).who == "Ada"


def test_edit_opens_its_form(put_task, add, desk, settle, qtbot) -> None:
    from bagtag.ui.order.task_form import TaskDialog

    view = put_task(add(TaskKind.OIL))
    qtbot.keyClick(view, Qt.Key.Key_F8)
    settle(desk)
    (dialog,) = view.findChildren(TaskDialog)
    assert dialog.isVisible()
    dialog.close()
    settle(desk)


def test_delete_says_it_is_gone_and_undo_brings_it_back(put_task, add, store, desk, settle, job):
    view = put_task(new := add(TaskKind.OIL))
    view.acts.delete.click()
    settle(desk)
    assert view.task_id == 0
    assert "no longer in the build" in sentence_of(view)
    services.history.undo(store, job.id)
    assert put_task(new).head.name.text() == "oil"


def test_why_here(put_task, add, store, desk, settle, job) -> None:
    new = add(TaskKind.CLEAN)
    members = (part(job.parts["shift drum"]), task(new))
    services.rules.add_rule(store, job.id, RuleKind.FIRST, members, why="dirt", who="Ada")
    view = put_task(new)
    view.acts.why.click()
    settle(desk)
    said = sentence_of(view.why)
    assert "Clean before 4 shift drum" in said
    assert "where it was put when it was added" in said
    assert "dirt" in said


def test_another_task_puts_away_what_was_open(put_task, add, desk, settle) -> None:
    first, second = add(TaskKind.CLEAN), add(TaskKind.FILL_OIL)
    view = put_task(first)
    view.acts.why.click()
    view.acts.done.click()
    settle(desk)
    assert view.signing.isVisible()
    put_task(second)
    assert view.why.isHidden()
    assert view.signing.isHidden()
    assert view.acts.isVisible()
    view.show_task(first)
    view.show_task(second)
    settle(desk)
    assert view.head.name.text() == "fill with oil"


def test_another_job_clears_it(put_task, add, desk, job_id) -> None:
    view = put_task(add(TaskKind.CLEAN))
    desk.choose_job(job_id)
    assert view.task_id == 0


def test_what_a_person_wrote_is_no_markup(put_task, add) -> None:
    view = put_task(add(TaskKind.OTHER, name="<b>turn</b> & look", note="<i>twice</i>"))
    assert view.head.name.text() == "<b>turn</b> & look"
    assert view.head.name.textFormat() is Qt.TextFormat.PlainText
    assert "<i>twice</i>" in sentence_of(view.facts)


@pytest.mark.parametrize("size", [(540, 300), (900, 600), (1800, 1400)])
def test_nothing_is_cut_and_all_is_named(put_task, store, job, qtbot, size) -> None:
    cap = log(store, job, "bearing cap", BOLTS, HeldBy(2, "nut", "M8", torque=Torque(20)))
    new = services.tasks.tighten_later(store, cap.id, part(job.parts["main shaft"])).new_id
    view = put_task(new)
    view.resize(*size)
    qtbot.wait(1)
    assert nameless(view) == []
    assert (view.width(), view.height()) == size
    assert view.acts.rect().contains(view.acts.done.geometry())
    assert view.head.name.height() >= QFontMetrics(view.head.name.font()).height()
    view.acts.done.click()
    assert nameless(view) == []


def test_it_goes_away_when_let_go(qtbot, desk, add, settle) -> None:
    new = add(TaskKind.FILL_OIL)

    def make() -> TaskCardView:
        made = TaskCardView(desk)
        made.show_task(new)
        settle(desk)
        made.acts.done.click()
        made.acts.why.click()
        settle(desk)
        return made

    assert dies(qtbot, make)
