"""Bag and tag: labels as PDF, a true preview of it, and pages for a system printer."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from io import BytesIO
from pathlib import Path
from typing import BinaryIO

from bagtag.domain import areas as tree
from bagtag.domain import nesting
from bagtag.domain.change import Change
from bagtag.domain.datum import Datum
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.hole_counts import holes_of_line
from bagtag.domain.holes import HoleMap
from bagtag.domain.model import Area, Container, Job, Removal, Tag, TagRole
from bagtag.domain.resolve import told
from bagtag.paper import stock as label_stock
from bagtag.paper.label_text import LabelText
from bagtag.paper.labels import Report, label_pdf
from bagtag.paper.rendering import render, rendered
from bagtag.paper.stock import Stock
from bagtag.store import belongings, jobs, joints, removals, rows, tables
from bagtag.store.act import Act
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class LabelOrder:
    """Which labels to print, and on what.

    Removals, containers, and single codes (blank tags, twins), in this order. `start` is the first
    free place on a part-used sheet, `nudge` is right and down in mm, `dpi` the printer's.
    """

    job_id: int = 0
    removal_ids: tuple[int, ...] = ()
    container_ids: tuple[int, ...] = ()
    codes: tuple[str, ...] = ()
    stock: str = "a4-3x7"
    start: int = 1
    copies: int = 1
    nudge: tuple[float, float] = (0.0, 0.0)
    dpi: int = 300


@dataclass(frozen=True, slots=True)
class Preview:
    """The pages of a PDF as PNG files, and what did not fit."""

    pages: tuple[bytes, ...]
    report: Report


@dataclass(frozen=True, slots=True)
class _Surroundings:
    """What every label of a job needs to know."""

    title: str = ""
    datum: Datum = field(default_factory=Datum)
    areas: Mapping[int, Area] = field(default_factory=dict)
    containers: Mapping[int, Container] = field(default_factory=dict)
    others: Mapping[str, Removal] = field(default_factory=dict)
    hole_maps: Mapping[int, HoleMap] = field(default_factory=dict)


def stocks() -> list[Stock]:
    """The label stock there is, in the order to offer it."""
    return list(label_stock.stocks().values())


def label_texts(store: Store, order: LabelOrder) -> list[LabelText]:
    """What each label of an order says; BadInput for an order without labels."""
    with store.read() as connection:
        job = jobs.get(connection, order.job_id)
        around = _Surroundings()
        if job is not None:
            around = _surroundings(
                job,
                jobs.areas(connection, job.id),
                belongings.containers(connection, job.id),
            )
        found = removals.by_ids(connection, order.removal_ids)
        codes = belongings.main_codes(connection, order.removal_ids)
        bags = belongings.tags_of_containers(connection, order.job_id)
        singles = [belongings.tag_by_code(connection, code) for code in order.codes]
        tied = [tag.removal_id for tag in singles if tag and tag.removal_id is not None]
        owners = removals.by_ids(connection, tied)
        around = replace(
            around,
            others=removals.tied_to(connection, [*found.values(), *owners.values()]),
            hole_maps=joints.maps_of(connection, [*found, *owners]),
        )
        pairs = {tag.pair: belongings.twins(connection, tag.pair) for tag in singles if tag}
    texts = [_part(found[id_], codes.get(id_, ""), around) for id_ in order.removal_ids]
    texts += [_container(id_, bags, around) for id_ in order.container_ids]
    texts += [_single(tag, owners, pairs, around) for tag in singles if tag is not None]
    if not texts:
        raise BadInput("There is nothing to print yet. Log a part or add a container first.")
    return texts


def _surroundings(
    job: Job, areas: Sequence[Area], containers: Sequence[Container]
) -> _Surroundings:
    by_id = {container.id: container for container in containers}
    return _Surroundings(job.title, job.datum, tree.by_id(areas), by_id)


def _part(removal: Removal, code: str, around: _Surroundings) -> LabelText:
    lines = [f"caution: {hazard.value}" for hazard in removal.hazards]
    lines += [removal.size]
    lines += [removal.goes_on and f"goes on: {removal.goes_on}"]
    lines += [f"in {where}" for where in nesting.chain(around.containers, removal.container_id)[:1]]
    return LabelText(
        code=code,
        role=TagRole.PART,
        number=removal.number,
        name=removal.name,
        quantity=removal.quantity,
        job=around.title,
        area=tree.path_text(around.areas, removal.area_id),
        facts=told(removal, around.others),
        datum=around.datum,
        fate=removal.fate,
        held_by=removal.held_by,
        lines=tuple(line for line in lines if line),
        holes=_holes(removal, around.hole_maps.get(removal.id)),
    )


def _holes(removal: Removal, hole_map: HoleMap | None) -> tuple[str, ...]:
    """Where each line of hardware goes; nothing for a part without a hole map."""
    if hole_map is None:
        return ()
    return tuple(holes_of_line(hole_map, line) for line in removal.held_by)


def _container(container_id: int, codes: Mapping[int, str], around: _Surroundings) -> LabelText:
    container = around.containers.get(container_id)
    if container is None:
        raise NotFound("This container is no longer in the job.")
    where = nesting.chain(around.containers, container.parent_id)
    return LabelText(
        code=codes.get(container_id, ""),
        role=TagRole.CONTAINER,
        name=container.label,
        job=around.title,
        lines=(f"stands in {', '.join(where)}",) if where else (),
    )


def _single(
    tag: Tag,
    owners: Mapping[int, Removal],
    pairs: Mapping[str, Sequence[Tag]],
    around: _Surroundings,
) -> LabelText:
    """A blank tag, or one end of a twin."""
    owner = owners.get(tag.removal_id) if tag.removal_id is not None else None
    if owner is None:
        return LabelText(code=tag.code, role=tag.role)
    other = next((twin.code for twin in pairs.get(tag.pair, ()) if twin.id != tag.id), "")
    text = _part(owner, tag.code, around)
    return replace(text, role=tag.role, twin_code=other if tag.pair else "")


def write(store: Store, order: LabelOrder, out: Path | BinaryIO) -> Report:
    """The labels of an order as one PDF; the report says what did not fit."""
    texts = label_texts(store, order)
    stock = label_stock.find(order.stock)
    return label_pdf(
        out,
        texts,
        stock,
        start=order.start,
        copies=order.copies,
        nudge=order.nudge,
        dpi=order.dpi,
    )


def preview(store: Store, order: LabelOrder, width_px: int, pages: int = 3) -> Preview:
    """The first pages of the very PDF that would be printed, `width_px` wide."""
    paper = BytesIO()
    report = write(store, order, paper)
    return Preview(tuple(render(paper.getvalue(), width_px=width_px, pages=pages)), report)


def printed_pages(store: Store, order: LabelOrder) -> list[bytes]:
    """Every page as a PNG at the order's own dots per inch, for a system printer."""
    return rendered(partial(write, store, order), dpi=order.dpi)


def mark_printed(store: Store, order: LabelOrder, *, who: str = "") -> Change:
    """Remember that the labels of an order are on paper now, so that the audit can ask for the
    others."""

    def do(act: Act) -> None:
        at = rows.now()
        reading = act.connection
        tags = belongings.tags_to_print(reading, order.removal_ids, order.container_ids)
        singles = [belongings.tag_by_code(reading, code) for code in order.codes]
        for tag in (*tags, *(single for single in singles if single is not None)):
            act.update(tables.tag, tag.id, printed_at=at)

    return store.act("print labels", do, who=who, job_id=order.job_id)


def of_job(store: Store, job_id: int) -> tuple[int, ...]:
    """The removals of a job that get a label: all of them, in the order off."""
    with store.read() as connection:
        return tuple(removals.ids_in_order(connection, job_id))
