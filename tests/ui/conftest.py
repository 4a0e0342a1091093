"""What the tests of the screens stand on: a furnished job, and the cards on it."""

import pytest

from bagtag import services
from tests.ui.ask_kit import KINDS
from tests.ui.forms_kit import furnish, settings, show
from tests.ui.order_kit import Bench, write
from tests.ui.shell_kit import close_window
from tests.ui.stages_job import gearbox, own_settings


@pytest.fixture
def ids(store, job_id) -> dict[str, int]:
    return furnish(store, job_id)


@pytest.fixture
def card(qtbot, desk, ids, settle, tmp_path):
    from bagtag.ui.entry.entry_card import EntryCard

    made = EntryCard(desk, settings=settings(tmp_path))
    show(qtbot, made)
    made.start_new()
    settle(desk)
    return made


@pytest.fixture
def kinds(store):
    """Kinds of parts of our own, there before a card is made."""
    folder = services.kinds.own_folder(store)
    folder.mkdir(parents=True)
    (folder / "test.toml").write_text(KINDS, encoding="utf-8")


@pytest.fixture
def asking(kinds, card):
    """A card that knows our own kinds."""
    return card


@pytest.fixture
def job(desk, store, tmp_path):
    own_settings(tmp_path / "settings")
    made = gearbox(store)
    desk.choose_job(made.id)
    return made


@pytest.fixture
def staged(qtbot, desk):
    """Make a screen that hears of changes, so large, with the keyboard on it."""

    def make(kind, wide: int, high: int):
        made = kind(desk)
        desk.changed.connect(made.hear)
        show(qtbot, made, wide, high)
        return made

    return make


@pytest.fixture
def entered(staged, desk, settle):
    """Make a stage of the chosen job, shown as when one goes to it."""

    def make(kind, wide: int, high: int):
        made = staged(kind, wide, high)
        made.enter()
        settle(desk)
        return made

    return make


@pytest.fixture
def bench_card(qtbot, desk, job, settle):
    from bagtag.ui.card.bench_card import BenchCardView

    view = BenchCardView(desk)
    qtbot.addWidget(view)
    view.resize(900, 700)
    view.show()
    return view


@pytest.fixture
def put(bench_card, desk, job, settle):
    """Put a part on the card by its name."""

    def show_part(name: str):
        bench_card.show_removal(job.parts[name])
        settle(desk)
        return bench_card

    return show_part


@pytest.fixture
def built(store, job_id, tmp_path):
    """A small job, half an hour before its build."""
    own_settings(tmp_path / "settings")
    return write(store, job_id)


@pytest.fixture
def bench(qtbot, store, settle, built):
    """A window at the build of the small job."""
    made = Bench(qtbot, store, settle, built)
    yield made
    close_window(made.window)
