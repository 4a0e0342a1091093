"""The card: what it shows, at what size, and that it goes away when it is let go."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics

from bagtag import services
from bagtag.domain.codes import show
from bagtag.domain.entry import Entry
from bagtag.domain.fitting import Asked, RuleKind, part
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.measuring.sheet import SheetKind
from bagtag.domain.model import Fate, Origin
from bagtag.services.strip import Extras
from bagtag.services.tags import Match
from bagtag.ui import theme
from bagtag.ui.card.bench_card import BenchCardView
from tests.ui.stages_job import dies, nameless, sentence_of


def test_an_empty_card_says_what_to_do(bench_card) -> None:
    assert "Scan a tag" in sentence_of(bench_card)


def test_it_shows_all_that_is_known_of_a_part(put, store, job) -> None:
    card = put("shift fork R")
    said = sentence_of(card)
    code = services.views.card(store, job.parts["shift fork R"]).code
    for words in (
        "shift fork R",
        show(code),
        "Lower case > Gearbox",
        "bag 12, tray 3, shelf B",
        "The C faces the clutch side",
        "1 pin",
        "engine oil",
        "decide",
        "pads worn on one side",
    ):
        assert words in said


def test_the_picture_comes_first_and_says_its_sentence(put) -> None:
    card = put("shift fork R")
    assert card.way.picture.picture.items
    assert card.way.picture.accessibleDescription() == card.way.sentence.text()
    assert card.way.panel.y() < card.way.sentence.y()
    assert card.way.y() < card.facts.y()


def test_the_picture_grows_with_the_window(put, qtbot) -> None:
    card = put("shift fork R")
    before = card.way.panel.height()
    card.resize(1500, 1000)
    qtbot.waitUntil(lambda: card.way.panel.height() > before)


@pytest.mark.parametrize("label", ["name", "sentence"])
def test_name_and_sentence_are_read_from_a_metre(put, label: str) -> None:
    """A two-hundredth of a metre is 5 mm; a pixel of a 96 dpi screen is 25.4/96 mm."""
    card = put("shift fork R")
    widget = card.head.name if label == "name" else card.way.sentence
    capital = QFontMetrics(widget.font()).capHeight() * 25.4 / 96
    assert capital >= 5.0


def test_a_part_without_facts_says_so(put) -> None:
    card = put("gasket, cover")
    assert "Nothing was noted" in card.way.sentence.text()
    assert not card.way.panel.isVisibleTo(card)


def test_a_torque_carries_the_override(put) -> None:
    said = sentence_of(put("cover, clutch side"))
    assert "10\u00a0N·m" in said
    assert OVERRIDE in said
    assert OVERRIDE not in sentence_of(put("shift fork R"))


def test_a_spring_carries_its_caution(put) -> None:
    assert "eye protection" in sentence_of(put("shift drum"))


def test_a_renewal_says_where_its_new_part_stands(put, desk, settle, job) -> None:
    card = put("gasket, cover")
    assert "a new part is wanted" in sentence_of(card)
    here = services.fates.Replacement.HERE
    desk.act(services.fates.set_replacement, [job.parts["gasket, cover"]], here)
    settle(desk)
    assert "the new part is here" in sentence_of(card)


def test_where_it_came_from_and_what_goes_in_with_it(put, store, job) -> None:
    drum, fork = part(job.parts["shift drum"]), part(job.parts["shift fork R"])
    services.rules.add_rule(store, job.id, RuleKind.TOGETHER, (drum, fork), who="Ada")
    services.tasks.make_bench_build(store, job.id, "drum and forks", (drum, fork), who="Ada")
    services.tasks.ask_at_sign_off(store, drum.id, (Asked("end float", "mm", high=0.3),))
    facts = put("shift drum").facts.texts()
    assert facts["Goes in with"] == "6 shift fork R"
    assert facts["Built into"] == "drum and forks"
    assert facts["Asked at sign-off"] == "end float, at most 0.3 mm"
    assert "Came into the log" not in facts


@pytest.mark.parametrize(
    ("fate", "work", "said"),
    [
        (Fate.RENEW, "", "Renew, MK, "),
        (Fate.DECIDE, "Grind the pads", "To be worked, and measured again, MK, "),
    ],
)
def test_what_was_decided_on_its_sheet_is_said_as_there(put, store, job, fate, work, said) -> None:
    measuring = services.measuring
    made = measuring.add_sheet(store, job.id, SheetKind.SIZE, job.parts["shift fork R"], who="MK")
    measuring.decide(store, made.new_id, fate, why="pads are worn", work=work, who="MK")
    assert f". {said}" in put("shift fork R").facts.texts()["Measured"]


@pytest.mark.parametrize(
    ("origin", "said"), [(Origin.SHOP, "outside shop"), (Origin.NEW, "never on the machine")]
)
def test_a_part_that_did_not_come_off_here_says_so(
    bench_card, desk, settle, store, job, origin, said
) -> None:
    new = services.strip.log_removal(
        store, job.id, Entry("core plug"), Extras(origin=origin), who="Ada"
    ).new_id
    bench_card.show_removal(new)
    settle(desk)
    assert said in bench_card.facts.texts()["Came into the log"]


def test_a_match_fills_the_card(put) -> None:
    card = put("shift fork R")
    card.show_match(Match(True, "Match: both are for 6 shift fork R."))
    assert card.match.word.text() == "Match"
    assert card.match.sentence.text() == "Both are for 6 shift fork R."
    assert not card.head.isVisible()
    card.match.back.click()
    assert card.head.isVisible()


def test_no_match_says_so_in_word_and_shape(put) -> None:
    card = put("shift fork R")
    card.show_match(Match(False, "No match: these belong to 5 shift fork L and 6 shift fork R."))
    assert card.match.word.text() == "No match"
    tick = _sign(card, matches=True)
    cross = _sign(card, matches=False)
    assert tick != cross


def _sign(card: BenchCardView, *, matches: bool):
    card.match.sign.matches = matches
    return card.match.sign.grab().toImage().convertToFormat(card.grab().toImage().format())


def test_it_follows_what_others_change(put, desk, settle, job) -> None:
    card = put("shift fork R")
    desk.act(services.fates.set_fate, [job.parts["shift fork R"]], Fate.REFIT)
    settle(desk)
    assert "decide" not in card.facts.texts().get("Fate", "")


def test_a_removal_that_is_gone_is_said(put, desk, settle, job) -> None:
    card = put("split pins")
    desk.act(services.strip.delete_removal, job.parts["split pins"])
    settle(desk)
    assert card.removal_id == 0
    assert "no longer in the log" in sentence_of(card)


def test_an_older_answer_does_not_show_over_a_newer_one(bench_card, desk, settle, job) -> None:
    bench_card.show_removal(job.parts["shift drum"])
    bench_card.show_removal(job.parts["main shaft"])
    settle(desk)
    assert bench_card.head.name.text() == "main shaft"


def test_what_a_person_wrote_is_no_markup(put, desk, settle, store, job) -> None:
    entry = services.strip.entry_of(services.strip.get_removal(store, job.parts["split pins"]))
    from dataclasses import replace

    name = "<b>pins</b> & <i>more</i>"
    services.strip.correct_removal(store, job.parts["split pins"], replace(entry, name=name))
    card = put("split pins")
    assert card.head.name.text().endswith(name)
    assert card.head.name.textFormat() is Qt.TextFormat.PlainText


def test_all_controls_have_names(put) -> None:
    card = put("shift fork R")
    assert nameless(card) == []
    card.acts.fitted.click()
    assert nameless(card) == []


@pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK])
@pytest.mark.parametrize("size", [(560, 440), (900, 600), (2400, 1900)])
def test_nothing_is_cut_at_any_size(put, qtbot, qapp, size, colours) -> None:
    card = put("shift fork R")
    card.resize(*size)
    qtbot.wait(1)
    assert card.width() == size[0]
    assert card.page.height() <= size[1]
    assert card.head.name.height() >= QFontMetrics(card.head.name.font()).height()
    assert card.way.panel.width() <= card.view.viewport().width()
    for act in (card.acts.fitted, card.acts.tag):
        assert act.height() >= theme.TOUCH
        assert card.acts.rect().contains(act.geometry())


def test_it_goes_away_when_let_go(qtbot, desk, job, settle) -> None:
    def make() -> BenchCardView:
        view = BenchCardView(desk)
        view.show_removal(job.parts["shift fork R"])
        settle(desk)
        return view

    assert dies(qtbot, make)
