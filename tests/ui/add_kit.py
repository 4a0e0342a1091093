"""What the tests of the forms of the build share: a gearbox's steps, and a way to show forms."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from shiboken6 import isValid

from bagtag import services
from bagtag.domain.fitting import Ref, part, task

ENTER, ESC, DOWN, UP = Qt.Key.Key_Return, Qt.Key.Key_Escape, Qt.Key.Key_Down, Qt.Key.Key_Up


def host(qtbot) -> QWidget:
    """A window for forms to stand over: they live as long as it does."""
    made = QWidget()
    qtbot.addWidget(made, before_close_func=lambda _: made.hide())  # which also keeps it alive
    made.resize(1280, 800)
    made.show()
    return made


def open_form(qtbot, desk, settle, make, *args, **named):
    """A form over a window, all it asked for answered, the keys where it put them."""
    form = make(desk, host(qtbot), *args, **named)
    form.show()
    form.activateWindow()
    qtbot.waitUntil(form.isActiveWindow)
    settle(desk)
    return form


def is_open(form: QWidget) -> bool:
    """Whether a form stands there: one that was left is deleted."""
    return isValid(form) and form.isVisible()


def opened(*kinds: type) -> list:
    """The forms of these kinds that stand open."""
    windows = QApplication.topLevelWidgets()
    return [window for window in windows if isinstance(window, kinds) and window.isVisible()]


def walked(start: QWidget) -> list[str]:
    """The names of what Tab goes to from there, once round."""
    start.setFocus(Qt.FocusReason.TabFocusReason)
    names: list[str] = []
    while not names or QApplication.focusWidget().accessibleName() != names[0]:
        names.append(QApplication.focusWidget().accessibleName())
        assert len(names) < 60, names
        press(Qt.Key.Key_Tab)
    return names


def press(key: Qt.Key, times: int = 1) -> None:
    """A key where the focus is."""
    for _ in range(times):
        QTest.keyClick(QApplication.focusWidget(), key)


def write(text: str) -> None:
    """Type where the focus is."""
    QTest.keyClicks(QApplication.focusWidget(), text)


def step_of(store, job, name: str) -> Ref:
    """The part of this name as a step."""
    return part(job.parts[name])


def tasks(store, job_id: int) -> list:
    return services.tasks.tasks_of(store, job_id)


def newest(store, job_id: int):
    """The task that was added last."""
    return tasks(store, job_id)[-1]


def order(store, job_id: int) -> list[str]:
    """What the steps of the build are called, first to last."""
    return [step.called for step in services.steps.steps_of(store, job_id)]


def shown_steps(desk) -> list[Ref]:
    """The steps that are asked to be shown from now on."""
    shown: list[Ref] = []
    desk.show_step.connect(shown.append)
    return shown


__all__ = [
    "DOWN",
    "ENTER",
    "ESC",
    "UP",
    "newest",
    "host",
    "is_open",
    "open_form",
    "opened",
    "order",
    "press",
    "shown_steps",
    "step_of",
    "task",
    "tasks",
    "walked",
    "write",
]
