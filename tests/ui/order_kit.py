"""A small build for the lists at its left: two areas, a barrel that is away, a bench build."""

from dataclasses import dataclass, field

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.domain.fitting import Ref, part, task
from bagtag.ui.order.left_lines import StepLine
from tests.ui.shell_kit import key, open_window, rest

LOG = (
    ("cover", ""), ("head", "top end"), ("barrel", "top end"), ("piston", "top end"),
    ("drum", "gearbox"), ("fork L", "gearbox"), ("fork R", "gearbox"), ("dowel", "gearbox"),
)  # fmt: skip
"""As it came off; it goes back the other way round."""
PLAN = [name for name, _ in reversed(LOG)]


@dataclass
class Built:
    """The steps of the build by name, and its areas."""

    job_id: int
    steps: dict[str, Ref] = field(default_factory=dict)
    areas: dict[str, int] = field(default_factory=dict)


def write(store, job_id: int) -> Built:
    built = Built(job_id)
    for name in ("gearbox", "top end"):
        built.areas[name] = services.jobs.add_area(store, job_id, name, who="Ada").new_id
    for name, area in LOG:
        entry = Entry(name, area_id=built.areas.get(area))
        built.steps[name] = part(services.strip.log_removal(store, job_id, entry, who="Ada").new_id)
    services.jobs.set_opener(store, built.areas["gearbox"], built.steps["cover"].id, who="Ada")
    services.fates.send_away(
        store, [built.steps["barrel"].id], shop="Mill Lane Engineering", who="Ada"
    )
    return built


def cluster(store, built: Built) -> Ref:
    """The forks and the drum as a bench build."""
    pieces = [built.steps[name] for name in ("fork R", "fork L", "drum")]
    made = services.tasks.make_bench_build(store, built.job_id, "gear cluster", pieces, who="Ada")
    built.steps["cluster"] = task(made.new_id)
    return built.steps["cluster"]


class Bench:
    """A window at its build."""

    def __init__(self, qtbot, store, settle, built: Built) -> None:
        self.qtbot, self.store, self.settle, self.built = qtbot, store, settle, built
        self.window = open_window(qtbot, store, settle)
        self.desk = self.window.desk
        self.page = self.window.work.bench
        self.build()

    def build(self) -> None:
        self.window.work.go_to("Build")
        self.rest()

    @property
    def left(self):
        return self.page.side.left

    @property
    def now(self):
        return self.left.now

    @property
    def order(self):
        return self.left.order

    @property
    def plan(self):
        return self.left.order.plan

    def ref(self, name: str) -> Ref:
        return self.built.steps[name]

    def rest(self) -> None:
        rest(self.qtbot, self.window, self.settle)

    def press(self, *names: str) -> None:
        for name in names:
            key(self.window, name)
        self.rest()

    def names(self, listed) -> list[str]:
        """The names of the steps that a list shows, in their order."""
        return [line.step.name for line in listed.lines.lines if isinstance(line, StepLine)]

    def place(self, listed, name: str) -> int:
        return listed.lines.place_of(("step", self.ref(name)))

    def spot(self, listed, name: str, down: float = 0.5) -> QPoint:
        """A spot on the tape of a step, so far down."""
        box = listed.visualRect(listed.lines.index(self.place(listed, name)))
        return QPoint(box.left() + 90, box.top() + int(box.height() * down))

    def click(self, listed, name: str) -> None:
        QTest.mouseClick(listed.viewport(), Qt.MouseButton.LeftButton, pos=self.spot(listed, name))
        self.rest()

    def act(self, service, *args, **kwargs) -> None:
        self.desk.act(service, *args, **kwargs)
        self.rest()

    def rules(self) -> list[str]:
        return [row.words for row in services.rules.rules_of(self.store, self.built.job_id)]

    def planned(self) -> list[str]:
        return [step.name for step in services.board.board(self.store, self.built.job_id).steps]
