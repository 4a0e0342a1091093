"""What a shop took off a part, when the shop takes more of it, sends some back, or the whole of it
goes to another shop."""

from datetime import date

import pytest

from bagtag import services
from bagtag.domain.errors import BadInput
from bagtag.services.send_outs import Back, PackForm, ShopPart, Wanted

FORM = PackForm("The carburettor bench", date.today())


@pytest.fixture
def carburettor(log):
    return log("carburettor")


@pytest.fixture
def sent(store, job_id, carburettor):
    wanted = Wanted(carburettor, "Clean it.", by_shop=(ShopPart("jet", 2),))
    return services.send_outs.send(store, job_id, FORM, [wanted]).new_id


def told(store, send_out_id):
    items = services.send_outs.batch(store, send_out_id).items
    return [(i.removal.name, i.removal.quantity, i.is_out, i.by_shop_of is not None) for i in items]


def back(store, send_out_id, name):
    items = services.send_outs.batch(store, send_out_id).items
    here = [Back(one.away.id) for one in items if one.removal.name == name and one.is_out]
    services.send_outs.back(store, here)


def test_more_of_the_same_is_counted_to_it(store, job_id, carburettor, sent):
    first = services.send_outs.batch(store, sent).items[1].removal.id
    done = services.send_outs.shop_took(store, sent, carburettor, "Jet", 3)
    assert done.new_id == first
    assert told(store, sent) == [("carburettor", 1, True, False), ("jet", 5, True, True)]
    services.history.undo(store, job_id)
    assert told(store, sent)[1] == ("jet", 2, True, True)


def test_what_is_back_is_left_as_it_is_when_the_rest_is_changed(store, carburettor, sent):
    back(store, sent, "jet")
    services.send_outs.shop_took(store, sent, carburettor, "jet", 1)
    whole = services.send_outs.batch(store, sent)
    item = whole.items[0]
    wanted = services.send_outs.wanted_of(whole, item)
    assert wanted.by_shop == (ShopPart("jet", 1),)
    services.send_outs.change_wanted(store, item.away.id, wanted)
    assert told(store, sent)[1:] == [("jet", 2, False, True), ("jet", 1, True, True)]


def test_a_part_of_which_something_is_back_did_go(store, sent):
    back(store, sent, "jet")
    before = told(store, sent)
    (part, _) = services.send_outs.batch(store, sent).items
    with pytest.raises(BadInput, match=r"jet is back from there already, so 1 carburettor did go"):
        services.send_outs.drop_item(store, part.away.id)
    assert told(store, sent) == before


def test_the_count_at_the_end_knows_whether_it_came_back(store, job_id, sent):
    def said():
        return [one.sentence for one in services.closing.closing_count(store, job_id).leftovers]

    assert any(" jet (2 pieces): away at The carburettor bench since" in one for one in said())
    back(store, sent, "jet")
    assert any(
        " jet (2 pieces): taken off by the shop and sent back, most likely with its part." in one
        for one in said()
    )


def test_what_one_shop_took_off_and_goes_to_the_next_was_packed(store, job_id, carburettor, sent):
    """It is no piece of the second batch, and stays in the log when its part does not go."""
    jet = services.send_outs.batch(store, sent).items[1].removal
    back(store, sent, "carburettor")
    back(store, sent, "jet")
    both = [Wanted(carburettor), Wanted(jet.id)]
    second = services.send_outs.send(store, job_id, FORM, both).new_id
    assert told(store, second) == [("carburettor", 1, True, False), ("jet", 2, True, False)]
    assert told(store, sent)[1] == ("jet", 2, False, True)
    services.send_outs.drop_item(store, services.send_outs.batch(store, second).items[0].away.id)
    assert told(store, second) == [("jet", 2, True, False)]
    assert services.strip.get_removal(store, jet.id).name == "jet"
