"""Background work: no answer comes before the one who asked has finished asking."""

from PySide6.QtCore import QObject
from shiboken6 import delete

from bagtag.ui.worker import Worker


class Asker(QObject):
    def __init__(self, worker: Worker) -> None:
        super().__init__()
        self.worker = worker
        self.answers: list[int] = []

    def ask(self) -> int:
        """How many answers were there when the asking was done."""
        for number in range(200):
            self.worker.run(number.__int__, self.take, self.take)
        return len(self.answers)

    def take(self, answer: int) -> None:
        self.answers.append(answer)


def test_work_that_is_done_at_once_is_answered_later(qtbot, qapp):
    worker = Worker(1, "test")
    asker = Asker(worker)
    assert asker.ask() == 0
    qtbot.waitUntil(lambda: worker.idle)
    assert asker.answers == list(range(200))
    worker.close()


def test_a_screen_that_is_gone_is_not_answered(qtbot, qapp):
    worker = Worker(1, "test")
    asker = Asker(worker)
    worker.run(int, asker.take, asker.take)
    delete(asker)  # Qt's side is gone; a name for it is still here
    qtbot.waitUntil(lambda: worker.idle)
    assert asker.answers == []
    worker.close()
