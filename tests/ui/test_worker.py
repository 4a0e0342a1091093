"""Background work: every answer on the main thread, in order, and to nobody who is gone."""

import gc
import threading
import time
import weakref

from PySide6.QtCore import QObject

from bagtag.ui.worker import Worker


class Asker(QObject):
    def __init__(self):
        super().__init__()
        self.results, self.errors, self.threads = [], [], []

    def take(self, result):
        self.results.append(result)
        self.threads.append(threading.current_thread())

    def fail(self, error):
        self.errors.append(error)


def test_results_come_to_the_main_thread_in_the_order_asked(qtbot):
    worker, asker = Worker(1, "store"), Asker()
    for number in range(50):
        worker.run(lambda n=number: (n, threading.current_thread().name), asker.take, asker.fail)
    qtbot.waitUntil(lambda: worker.idle)
    worker.close()
    assert [number for number, _ in asker.results] == list(range(50))
    assert {name for _, name in asker.results} == {"store_0"}
    assert set(asker.threads) == {threading.main_thread()}


def test_an_error_comes_to_its_own_answer(qtbot):
    worker, asker = Worker(1, "store"), Asker()
    worker.run(lambda: 1 / 0, asker.take, asker.fail)
    qtbot.waitUntil(lambda: worker.idle)
    worker.close()
    assert asker.results == []
    assert isinstance(asker.errors[0], ZeroDivisionError)


def test_waiting_work_keeps_no_asker_alive(qtbot):
    worker, asker = Worker(1, "store"), Asker()
    seen = []
    gone = weakref.ref(asker, lambda _: seen.append(True))
    worker.run(lambda: time.sleep(0.05), asker.take, asker.fail)
    del asker
    gc.collect()
    assert gone() is None
    qtbot.waitUntil(lambda: worker.idle)
    worker.close()


def test_after_closing_nothing_is_begun_and_no_thread_is_left(qtbot):
    worker, asker = Worker(2, "pictures"), Asker()
    for _ in range(4):
        worker.run(lambda: None, asker.take, asker.fail)
    worker.close()
    worker.run(lambda: 1, asker.take, asker.fail)
    qtbot.wait(20)
    assert 1 not in asker.results
    assert not [t for t in threading.enumerate() if t.name.startswith("pictures")]


def test_without_work_there_is_no_thread(qtbot):
    worker = Worker(1, "idle")
    assert worker.idle
    assert not [t for t in threading.enumerate() if t.name.startswith("idle")]
    worker.close()
