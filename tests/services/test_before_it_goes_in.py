"""What a card and a scanned bag say of a part that a shop did not make as it was wanted."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from bagtag import services
from bagtag.domain.fitting import Asked, Figure
from bagtag.domain.measuring.sheet import Limits, Reading, SheetKind
from bagtag.domain.model import Fate
from bagtag.services.send_outs import Back, PackForm, Wanted

BORE = Asked("bore", "mm", 76.50, 76.52, places=2)


@pytest.fixture
def barrel(log):
    return log("cylinder barrel")


def went(store, job_id, barrel, *figures: Figure, note: str = "") -> None:
    """To the shop and back, measured then."""
    form = PackForm("Mill Lane", date.today())
    wanted = [Wanted(barrel, "Rebore.", (BORE,))]
    sent = services.send_outs.send(store, job_id, form, wanted).new_id
    (item,) = services.send_outs.batch(store, sent).items
    if figures:
        services.send_outs.back(store, [Back(item.away.id, figures=figures, note=note)])


def said(store, job_id, barrel) -> tuple[str, ...]:
    """By its card, and by the bag that it lies in alike."""
    of_bag = services.views.to_know_of(store, job_id, [barrel]).get(barrel, ())
    assert services.views.card(store, barrel).before_in == of_bag
    return of_bag


def test_a_bore_that_came_back_too_wide_is_said_until_it_has_been_out_again(store, job_id, barrel):
    assert said(store, job_id, barrel) == ()
    went(store, job_id, barrel, Figure("bore", 76.55), note="it has to do")
    assert said(store, job_id, barrel) == (
        "As it came back from Mill Lane: bore 76.55 mm is above 76.52. It has to do.",
    )
    went(store, job_id, barrel)
    assert services.views.card(store, barrel).away is not None
    assert said(store, job_id, barrel) == ()


def test_a_bore_at_its_limit_has_nothing_to_be_said(store, job_id, barrel):
    went(store, job_id, barrel, Figure("bore", 76.52))
    assert said(store, job_id, barrel) == ()
    assert services.views.card(store, barrel).away is None


def measure(store, job_id, barrel, size: str, wear_high: str) -> int:
    """A bore sheet, read alike at its six places."""
    made = services.measuring.add_sheet(store, job_id, SheetKind.BORE, barrel).new_id
    view = services.measuring.view(store, made)
    readings = tuple(Reading(place.key, Decimal(size)) for place in view.form.places)
    limits = (Limits("size", wear_high=Decimal(wear_high)),)
    services.measuring.save(store, replace(view.sheet, readings=readings, limits=limits))
    return made


def test_a_bore_that_was_worked_is_said_to_be_worn_until_it_is_measured_again(
    store, job_id, barrel
):
    worn = measure(store, job_id, barrel, "76.31", "76.20")
    services.measuring.decide(store, worn, Fate.DECIDE, work="Rebore to 76.50 mm.", who="Ada")
    went(store, job_id, barrel, Figure("bore", 76.51))
    (sentence,) = said(store, job_id, barrel)
    assert sentence.endswith("before this work: Rebore to 76.50 mm. Measure it again first.")
    fresh = measure(store, job_id, barrel, "76.51", "76.60")
    assert said(store, job_id, barrel) == ("It is still to be measured or inspected, and decided.",)
    hindrances = services.views.card(store, barrel).hindrances
    assert [one.sentence.split(" (")[0] for one in hindrances] == ["it is still to be decided"]
    services.measuring.decide(store, fresh, Fate.REFIT, who="Ada")
    assert said(store, job_id, barrel) == ()
    assert services.views.card(store, barrel).hindrances == ()
