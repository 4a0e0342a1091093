"""The traveller of a send-out: as one PDF, and a true preview."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from functools import partial
from pathlib import Path
from typing import BinaryIO

from bagtag.domain import picture
from bagtag.domain.datum import Datum
from bagtag.domain.model import Removal
from bagtag.domain.resolve import told
from bagtag.domain.sending import Item
from bagtag.domain.shapes import Picture
from bagtag.paper.rendering import rendered
from bagtag.paper.traveller_page import traveller_pdf
from bagtag.paper.traveller_text import Traveller, TravellerPart
from bagtag.services import batches, jobs
from bagtag.store import removals
from bagtag.store.work import Store


def traveller_of(store: Store, send_out_id: int) -> Traveller:
    """What goes with a batch; NotFound when it is gone."""
    whole = batches.batch(store, send_out_id)
    send_out = batches.there(whole.send_out)
    job = jobs.get_job(store, send_out.job_id)
    with store.read() as connection:
        others = removals.tied_to(connection, [item.removal for item in whole.items])
    parts = [
        TravellerPart(item, _photo(store, item), _sits(item, job.datum, others), pieces)
        for item, pieces in _with_pieces(whole.items)
    ]
    return Traveller(send_out, job.title, date.today(), job.owner, tuple(parts))


def _with_pieces(items: Iterable[Item]) -> list[tuple[Item, tuple[Item, ...]]]:
    """The parts that were packed, each with all that the shop took off it; what was taken off such
    a piece is told with it."""
    found: list[tuple[Item, tuple[Item, ...]]] = []
    for item in items:
        if item.by_shop_of is None or not found:
            found.append((item, ()))
        else:
            part, pieces = found[-1]
            found[-1] = (part, (*pieces, item))
    return found


def _photo(store: Store, item: Item) -> Path | None:
    path = store.photos.thumb(item.thumb) if item.thumb else None
    return path if path is not None and path.exists() else None


def _sits(item: Item, datum: Datum, others: Mapping[str, Removal]) -> Picture:
    """How the part sits, where that was said."""
    facts = told(item.removal, others)
    return picture.draw(facts, datum, aspect=1) if facts else Picture()


def write(store: Store, send_out_id: int, out: Path | BinaryIO) -> int:
    """The traveller of a batch as one PDF; returns how many pages."""
    return traveller_pdf(out, traveller_of(store, send_out_id))


def preview(
    store: Store, send_out_id: int, page_width_px: int, pages: int | None = None
) -> Sequence[bytes]:
    """Pages of the very PDF that would be printed, as PNG files `page_width_px` wide."""
    return rendered(partial(write, store, send_out_id), width_px=page_width_px, pages=pages)


def printed_pages(store: Store, send_out_id: int, dpi: int) -> Sequence[bytes]:
    """Every page as a PNG at `dpi`, for a system printer."""
    return rendered(partial(write, store, send_out_id), dpi=dpi)
