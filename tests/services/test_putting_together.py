"""The use cases from tag to close: tags, away, fates, build, count, find."""

from datetime import date, timedelta

import pytest

from bagtag import services
from bagtag.domain import codes
from bagtag.domain.entry import Entry
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.fitting import part
from bagtag.domain.model import ContainerKind, Fate, Replacement, TagRole
from bagtag.domain.standing import Standing
from bagtag.services.jobs import JobForm
from bagtag.services.strip import Extras
from bagtag.services.tags import Leads

# Tags


def test_every_line_and_container_has_a_code_that_leads_to_it(store, job_id, log):
    removal_id = log("gear", extras=Extras(container_wanted="bag 1"))
    card = services.views.card(store, removal_id)
    assert codes.is_valid(card.code)
    typed = f" {codes.show(card.code).lower()} "
    assert services.tags.look_up(store, typed).removal_id == removal_id
    (bag,) = services.containers.list_containers(store, job_id)
    assert services.tags.look_up(store, bag.code).container_id == bag.container.id


def test_a_strange_code_and_a_wrong_one_are_told_apart(store, log):
    log("gear")
    with pytest.raises(NotFound, match="no tag of this store"):
        services.tags.look_up(store, codes.draw(lambda symbols: symbols[7]))
    with pytest.raises(BadInput, match="has 6 characters; this has 5"):
        services.tags.look_up(store, "K7Q4M")


def test_a_blank_tag_is_bound_once_only(store, job_id, log):
    gear, shaft = log("gear"), log("shaft")
    _, (code, other) = services.tags.make_blank(store, 2)
    assert services.tags.look_up(store, code).leads is Leads.BLANK
    services.tags.bind_to_removal(store, code, gear)
    assert services.tags.look_up(store, code).removal_id == gear
    assert services.views.card(store, gear).code == code
    box = services.containers.add_container(store, job_id, ContainerKind.BAG).new_id
    for bind in (
        lambda: services.tags.bind_to_removal(store, code, shaft),
        lambda: services.tags.bind_to_container(store, code, box),
        lambda: log("washer", extras=Extras(tag_code=code)),
    ):
        with pytest.raises(BadInput, match="Scan a"):
            bind()
    tied = log("washer", extras=Extras(tag_code=codes.show(other).lower()))
    assert services.views.card(store, tied).code == other


@pytest.mark.parametrize("count", [0, -1, 10_001])
def test_blank_tags_are_asked_for_in_a_number_that_can_be(store, count):
    with pytest.raises(BadInput, match="between 1 and 10,000"):
        services.tags.make_blank(store, count)


def test_twins_match_each_other_and_nothing_else(store, log):
    hose, jet = log("hose"), log("jet")
    _, (part, place) = services.tags.make_twins(store, hose)
    _, (other_part, other_place) = services.tags.make_twins(store, hose)
    _, (jet_part, _) = services.tags.make_twins(store, jet)
    match = services.tags.match_twins
    assert match(store, part, codes.show(place)).matches
    assert "Match: both are for 1 hose." in match(store, place, part).sentence
    for wrong in (other_part, other_place, jet_part, services.views.card(store, jet).code, part):
        assert not match(store, part, wrong).matches
    assert "1 hose and 2 jet" in match(store, part, jet_part).sentence
    with pytest.raises(NotFound):
        match(store, part, codes.draw(lambda symbols: symbols[7]))
    roles = [tag.role for tag in services.views.card(store, jet).tags]
    assert roles == [TagRole.PART, TagRole.TWIN_PART, TagRole.TWIN_PLACE]


# Away, fates, close


def test_away_and_back(store, job_id, log):
    head, barrel = log("head"), log("barrel")
    services.fates.send_away(
        store, [head, barrel], shop="Mill Lane", due=date.today() + timedelta(9)
    )
    with pytest.raises(BadInput, match="2 barrel is away already"):
        services.fates.send_away(store, [barrel], shop="another")
    assert [r.name for r, _ in services.fates.away_list(store, job_id)] == ["head", "barrel"]
    card = services.views.card(store, barrel)
    assert card.standing is Standing.AWAY
    assert "it is away at Mill Lane" in [h.sentence for h in card.hindrances]
    services.fates.came_back(store, [barrel])
    assert [r.name for r, _ in services.fates.away_list(store, job_id)] == ["head"]
    for wrong in ([], [head]):
        with pytest.raises(BadInput):
            services.fates.send_away(store, wrong, shop="" if wrong else "Mill Lane")


def test_what_is_renewed_or_undecided_waits_for_it(store, job_id, log):
    ring, valve = log("rings", fate=Fate.RENEW), log("valve", fate=Fate.DECIDE)
    steps = services.board.board(store, job_id)
    assert "it is still to be inspected" in steps.step_of(valve).hindrances[0].sentence
    for state, word in ((Replacement.WANTED, "not here yet"), (Replacement.ORDERED, "on order")):
        services.fates.set_replacement(store, [ring], state)
        own = services.board.board(store, job_id).step_of(ring).hindrances[0]
        assert own.sentence == f"the new part is {word}"
    services.fates.set_replacement(store, [ring], Replacement.HERE)
    services.fates.set_fate(store, [valve], Fate.REFIT)
    assert services.board.board(store, job_id).step_of(valve).standing is Standing.NEXT


def test_the_closing_count_adds_up_only_at_the_end(store, job_id, log):
    bolts, ring, seal = log("bolts", quantity=8), log("ring", fate=Fate.RENEW), log("seal")
    services.fates.set_replacement(store, [ring], Replacement.HERE)
    services.fates.set_fate(store, [seal], Fate.SCRAP)
    services.signing.sign(store, part(ring), who="Ada")
    count = services.closing.closing_count(store, job_id)
    total = count.total
    assert (total.off, total.back, total.renewed, total.scrapped) == (10, 0, 1, 1)
    assert [one.removal_id for one in count.leftovers] == [bolts]
    assert not count.adds_up
    services.signing.sign(store, part(bolts), who="Ada")
    count = services.closing.closing_count(store, job_id)
    assert (count.total.back, count.adds_up) == (8, True)


# Build


@pytest.fixture
def gearbox(store, job_id, log) -> dict[str, int]:
    """A cover over an area with two parts in it, logged as they come off."""
    area = services.jobs.add_area(store, job_id, "gearbox").new_id
    ids = {"cover": log("cover"), "fork": log("fork", area_id=area)}
    ids["shaft"] = log("shaft", area_id=area)
    services.jobs.set_opener(store, area, ids["cover"])
    return ids


def order(store, job_id) -> list[int]:
    return [step.removal_id for step in services.board.board(store, job_id).steps]


def test_the_build_is_the_log_backwards_and_a_late_cover_still_goes_on_last(
    store, job_id, gearbox, log
):
    assert order(store, job_id) == [gearbox["shaft"], gearbox["fork"], gearbox["cover"]]
    services.strip.move_removal(store, gearbox["cover"], None)
    assert order(store, job_id) == [gearbox["shaft"], gearbox["fork"], gearbox["cover"]]
    services.fates.set_fate(store, [gearbox["fork"]], Fate.SCRAP)
    assert order(store, job_id) == [gearbox["shaft"], gearbox["cover"]]
    assert services.views.card(store, gearbox["fork"]).standing is Standing.SCRAPPED


def test_a_step_that_waits_needs_a_reason_which_is_kept(store, job_id, gearbox):
    with pytest.raises(BadInput, match="waits: 3 shaft must go in first"):
        services.signing.sign(store, part(gearbox["fork"]), who="Ada")
    with pytest.raises(BadInput, match="must go behind it"):
        services.signing.sign(store, part(gearbox["cover"]), who="Ada")
    services.signing.sign(
        store,
        part(gearbox["fork"]),
        services.signing.SignForm(reason="trial fit", note="ok"),
        who="Ada",
    )
    board = services.board.board(store, job_id)
    assert board.done == 1
    done = board.step_of(gearbox["fork"]).sign_off
    assert (done.reason, done.note) == ("trial fit", "ok")
    with pytest.raises(BadInput, match="signed off already"):
        services.signing.sign(store, part(gearbox["fork"]), who="Ada")


def test_a_sign_off_is_taken_back(store, job_id, gearbox):
    services.signing.sign(store, part(gearbox["shaft"]), who="Ada")
    card = services.views.card(store, gearbox["shaft"])
    assert (card.standing, card.sign_off.who) == (Standing.IN, "Ada")
    services.signing.take_back(store, part(gearbox["shaft"]), who="Ada")
    assert services.views.card(store, gearbox["shaft"]).standing is Standing.NEXT
    with pytest.raises(BadInput, match="is not signed off"):
        services.signing.take_back(store, part(gearbox["shaft"]))
    with pytest.raises(BadInput, match="Say who"):
        services.signing.sign(store, part(gearbox["shaft"]), who=" ")


# Find


def test_find_follows_typing_over_one_job_or_all(store, job_id, log):
    log("shift fork R", note="tips worn", extras=Extras(container_wanted="bag 1"))
    log("shift drum")
    other = services.jobs.open_job(store, JobForm("Pump")).new_id
    services.strip.log_removal(store, other, Entry("shaft fork"))

    def found(typed: str, **where: int) -> list[str]:
        return [hit.name for hit in services.find.find(store, typed, **where)]

    assert found("sh") == ["shaft fork", "shift drum", "shift fork R"]
    assert found("fork sh", job_id=job_id) == ["shift fork R"]
    assert found("TIPS wor") == ["shift fork R"]
    assert found("forks") == []
    assert found("") == found("  -- ") == []
    assert found('"fork" OR drum*') == []
    assert services.find.find(store, "shaft")[0].job_title == "Pump"
