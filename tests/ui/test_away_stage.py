"""Away: what is out, what is late, sending and checking in."""

from datetime import UTC, date, datetime

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from bagtag import services
from bagtag.domain.model import Away, Origin
from bagtag.ui.order.add_part import PartDialog
from bagtag.ui.stages.away_stage import AwayStage, is_late, since
from tests.ui.add_kit import opened
from tests.ui.stages_job import dies, gearbox, nameless, send_shaft, sentence_of


@pytest.fixture
def job(desk, store):
    made = gearbox(store)
    desk.choose_job(made.id)
    return made


@pytest.fixture
def stage(qtbot, desk, job, settle):
    made = AwayStage(desk)
    qtbot.addWidget(made)
    desk.changed.connect(made.hear)
    made.resize(900, 600)
    made.show()
    made.enter()
    settle(desk)
    return made


def away(due: date | None) -> Away:
    return Away(1, 1, "plater", "", datetime(2026, 5, 3, 12, tzinfo=UTC), due)


def test_nothing_away_says_so(stage) -> None:
    assert stage.head.text() == "Nothing is away"
    assert stage.empty.isVisible()


@pytest.mark.parametrize(
    ("due", "today", "said"),
    [
        (None, date(2026, 6, 1), "since 3 May, no day set"),
        (date(2026, 5, 12), date(2026, 5, 12), "since 3 May, due 12 May"),
        (date(2026, 5, 12), date(2026, 5, 13), "since 3 May, due 12 May, 1 day late"),
        (date(2026, 5, 12), date(2026, 5, 16), "since 3 May, due 12 May, 4 days late"),
    ],
)
def test_since_when_until_when(due, today, said) -> None:
    assert since(away(due), today) == said
    assert is_late(away(due), today) is ("late" in said)


def test_parts_are_listed_with_shop_and_work(stage, desk, settle, store, job) -> None:
    part = [job.parts["shift drum"]]
    desk.act(services.fates.send_away, part, shop="plater", work="chrome", due=date(2020, 1, 1))
    settle(desk)
    assert stage.head.text() == "1 part away, 1 late"
    said = sentence_of(stage)
    assert "at plater: chrome" in said
    assert "days late" in said


def test_sending_parts_away(stage, qtbot, desk, settle, store, job) -> None:
    stage.send.click()
    settle(desk)
    names = [stage.parts.parts.index(row).data() for row in range(stage.parts.parts.rowCount())]
    assert any("main shaft bearing" in name for name in names)
    assert not any("split pins" in name for name in names)
    stage.ask.yes.click()
    settle(desk)
    assert "which shop" in sentence_of(stage) or "at least one part" in sentence_of(stage)
    stage.ask.shop.setText("cylinder grinder")
    stage.ask.yes.click()
    settle(desk)
    assert "Choose at least one part" in sentence_of(stage)
    stage.parts.setFocus()
    qtbot.keyClick(stage.parts, Qt.Key.Key_Down)
    qtbot.keyClick(stage.parts, Qt.Key.Key_Space)
    chosen = stage.parts.chosen()
    assert len(chosen) == 1
    stage.ask.due.setText("10 days")
    stage.ask.yes.click()
    settle(desk)
    assert [removal.id for removal, _ in services.fates.away_list(store, job.id)] == chosen
    assert not stage.choosing.isVisible()
    assert stage.cards[0].removal_id == chosen[0]


def test_leaving_it_changes_nothing(stage, desk, settle, store, job) -> None:
    stage.send.click()
    settle(desk)
    stage.ask.no.click()
    assert not stage.choosing.isVisible()
    assert stage.send.isVisible()
    assert services.fates.away_list(store, job.id) == []


def test_checking_back_in(stage, desk, settle, store, job) -> None:
    send_shaft(store, job)
    stage.enter()
    settle(desk)
    back = next(p for p in stage.cards[0].children() if getattr(p, "text", str)() == "It is back")
    back.click()
    settle(desk)
    assert services.fates.away_list(store, job.id) == []
    assert stage.head.text() == "Nothing is away"


def test_one_that_went_meanwhile_is_said_and_the_choice_kept(stage, desk, settle, store, job):
    stage.send.click()
    settle(desk)
    stage.parts.choose({job.parts["main shaft"]})
    send_shaft(store, job)
    stage.ask.shop.setText("plater")
    stage.ask.yes.click()
    settle(desk)
    assert "away already" in sentence_of(stage)
    assert stage.ask.shop.text() == "plater"


def test_names_and_leaks(stage, qtbot, desk, settle, store, job) -> None:
    send_shaft(store, job)
    stage.enter()
    settle(desk)
    assert nameless(stage) == []
    stage.send.click()
    settle(desk)
    assert nameless(stage) == []

    def make() -> AwayStage:
        made = AwayStage(desk)
        made.enter()
        settle(desk)
        return made

    assert dies(qtbot, make)


def test_what_the_shop_took_off_is_logged_from_its_casting(
    qtbot, stage, desk, settle, store, job
) -> None:
    desk.act(services.fates.send_away, [job.parts["shift drum"]], shop="plater")
    settle(desk)
    (card,) = stage.cards
    (took,) = [b for b in card.findChildren(QPushButton) if "took a part off" in b.text()]
    assert took.accessibleName() == "The shop took a part off shift drum"
    took.click()
    settle(desk)
    (form,) = opened(PartDialog)
    form.line.setText("oil nozzle, renew")
    form.save()
    settle(desk)
    made = services.strip.get_removal(store, max(services.strip.log_ids(store, job.id)))
    assert (made.name, made.origin) == ("oil nozzle", Origin.SHOP)
