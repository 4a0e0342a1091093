"""Papers of the weeks between strip and build, as the store has them."""

from datetime import date, timedelta
from decimal import Decimal
from io import BytesIO

import pypdfium2
import pytest
from PIL import Image

from bagtag import services
from bagtag.domain.codes import show
from bagtag.domain.errors import NotFound
from bagtag.domain.fitting import Asked
from bagtag.domain.measuring.sheet import Reading, SheetKind
from bagtag.domain.model import Fate
from bagtag.domain.new_part import NewPart
from bagtag.domain.which_way import Hand
from bagtag.services.order_sheets import Which
from bagtag.services.send_outs import PackForm, ShopPart, Wanted

TODAY = date.today()
FORM = PackForm("Mill Lane Engineering", TODAY, TODAY + timedelta(9), work="Blast nothing.")


def text(write, *given):
    paper = BytesIO()
    count = write(*given, paper)
    with pypdfium2.PdfDocument(paper.getvalue()) as document:
        pages = [page.get_textpage().get_text_bounded() for page in document]
    assert count == len(pages)
    return " ".join(" ".join(pages).split())


@pytest.fixture
def barrel(log):
    return log("barrel", which_way=(Hand("R", stamped=True),))


@pytest.fixture
def sent(store, job_id, barrel, log):
    takes = (ShopPart("oil jet", 3), ShopPart("oilway plug"))
    wanted = (
        Wanted(barrel, "Rebore and hone.", (Asked("bore", "mm", 76.5, 76.52),), by_shop=takes),
        Wanted(log("shaft"), "Grind."),
    )
    return services.send_outs.send(store, job_id, FORM, wanted, who="Ada").new_id


def test_a_traveller_has_each_part_with_what_the_shop_takes_off_it(store, sent):
    sheet = services.travellers.traveller_of(store, sent)
    found = [(p.item.removal.name, [x.removal.name for x in p.pieces]) for p in sheet.parts]
    assert found == [("barrel", ["oil jet", "oilway plug"]), ("shaft", [])]
    assert (sheet.packed, sheet.by_shop) == (2, 4)
    said = text(services.travellers.write, store, sent)
    assert "2 pieces go out. The shop takes 4 off them: 6 come back." in said
    assert show(sheet.send_out.code) in said
    assert "76.5 to 76.52 mm" in said


def test_a_part_is_shown_by_its_photo_else_by_how_it_sits(store, barrel, sent, tmp_path):
    part, plain = services.travellers.traveller_of(store, sent).parts
    assert (part.photo, plain.photo) == (None, None)
    assert part.picture.items
    assert not plain.picture.items
    Image.new("RGB", (40, 30), "teal").save(tmp_path / "barrel.png")
    services.photos.add(store, barrel, [tmp_path / "barrel.png"])
    assert services.travellers.traveller_of(store, sent).parts[0].photo.exists()


def test_pages_are_seen_as_they_are_printed(store, sent):
    (page, *_) = services.travellers.preview(store, sent, 300, 1)
    assert Image.open(BytesIO(page)).width == 300
    assert len(services.travellers.printed_pages(store, sent, 50)) >= 1


def test_a_traveller_of_nothing_is_said(store):
    with pytest.raises(NotFound):
        services.travellers.traveller_of(store, 99)


@pytest.fixture
def seals(store, job_id, log):
    seal = log("shaft seal", fate=Fate.RENEW)
    for what, supplier, removal in (("shaft seal", "Bearing House", seal), ("oil", "", None)):
        part = NewPart(
            0, "", job_id, removal, "", what, "25x42x7", "", supplier, 2, Decimal("4.20"), "EUR"
        )
        services.renewals.save(store, part)
    return seal


def test_an_order_list_is_that_of_the_renewals(store, job_id, seals):
    said = text(services.order_sheets.write, store, [job_id])
    assert "to Bearing House" in said
    assert "Shaft seal, 25x42x7" in said
    assert "8.40 EUR" in said
    assert "No supplier yet" in said


def test_one_supplier_alone_and_what_is_ordered_when_asked(store, job_id, seals):
    lists = services.order_sheets.lists_of
    assert [one.supplier for one in lists(store, [job_id], Which("bearing house"))] == [
        "Bearing House"
    ]
    parts = [line.new_part for line in services.renewals.lines(store, job_id)]
    services.renewals.order(store, parts, TODAY, None)
    assert lists(store, [job_id]) == ()
    assert len(lists(store, [job_id], Which(everything=True))) == 2


def test_several_jobs_are_named_by_number(store, job_id, seals):
    other = services.jobs.open_job(store, services.jobs.JobForm("Mower")).new_id
    said = text(services.order_sheets.write, store, [job_id, other, job_id])
    number = services.jobs.get_job(store, other).number
    assert f"job {number}: Mower" in said


def test_a_measuring_page_is_that_of_the_sheet(store, job_id, barrel):
    made = services.measuring.add_sheet(store, job_id, SheetKind.BORE, barrel).new_id
    services.measuring.take_reading(store, made, Reading("top, across", Decimal("76.31")))
    said = text(services.measure_pages.write, store, made)
    assert "76.31" in said
    assert "barrel" in said
    assert services.measure_pages.preview(store, made, 200, 1)
    assert services.measure_pages.printed_pages(store, made, 40)
    with pytest.raises(NotFound):
        services.measure_pages.write(store, 99, BytesIO())
