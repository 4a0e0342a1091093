"""The build on paper: the checklist of a job as PDF, whole or of one area, and a true preview."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path
from typing import BinaryIO

from bagtag.domain import areas as tree
from bagtag.domain.cautions import cautions
from bagtag.domain.errors import BadInput
from bagtag.domain.fitting import Ref, TaskKind, task
from bagtag.domain.hardware import OVERRIDE, HeldBy
from bagtag.domain.kinds import Kinds, goes_on
from bagtag.domain.model import Job, Removal, SignOff
from bagtag.domain.resolve import told
from bagtag.paper.checklist import checklist_pdf
from bagtag.paper.checklist_text import (
    ChecklistHeader,
    ChecklistPiece,
    ChecklistReport,
    ChecklistStep,
    SignedOff,
)
from bagtag.paper.rendering import rendered
from bagtag.services import jobs as job_cases
from bagtag.services import kinds
from bagtag.services.board import Step, board_of
from bagtag.services.joint_sheets import Joints, joints_of
from bagtag.services.planning import Planned, planned
from bagtag.store import belongings, removals
from bagtag.store.work import Store


@dataclass(frozen=True, slots=True)
class Span:
    """What goes on the paper: an area with those below it, None for the whole build; `by_area` a
    section for each area."""

    area_id: int | None = None
    by_area: bool = False


@dataclass(frozen=True, slots=True)
class _Job:
    """What the steps of one job's checklist are written from."""

    job: Job
    known: Planned
    places: Mapping[Ref, int]
    removals: Mapping[int, Removal]
    codes: Mapping[int, str]
    task_codes: Mapping[int, str]
    thumbs: Mapping[int, Path]
    others: Mapping[str, Removal]
    kinds: Kinds
    joints: Joints

    def step(self, step: Step) -> ChecklistStep:
        removal_id = step.removal_id
        made = self._task(step) if removal_id is None else self._part(step, removal_id)
        return replace(
            self._jointed(made, step),
            area=step.area,
            datum=self.job.datum,
            within=self.known.called(task(step.build_id)) if step.build_id else "",
            along=tuple(self.known.called(other) for other in step.along),
            later=step.torque_later,
            done=_signed(step.sign_off),
            waits=tuple(hindrance.sentence for hindrance in step.hindrances),
        )

    def _jointed(self, made: ChecklistStep, step: Step) -> ChecklistStep:
        """With the passes of its joint; those of a final tightening are its part's."""
        removal_id = step.removal_id
        if made.task is TaskKind.TIGHTENING:
            removal_id = self.known.tasks[step.ref].removal_id
        removal = self.removals.get(removal_id or 0)
        if removal is None:
            return made
        by_hand, done = bool(step.torque_later), step.sign_off is not None
        return self.joints.told(made, removal, step.ref, by_hand=by_hand, is_done=done)

    def _part(self, step: Step, removal_id: int) -> ChecklistStep:
        removal = self.removals[removal_id]
        kind = self.kinds.of(removal.name, removal.kind)
        done = step.sign_off is not None
        return ChecklistStep(
            number=step.place,
            name=removal.name,
            removal=removal.number,
            quantity=removal.quantity,
            facts=told(removal, self.others),
            held_by=removal.held_by,
            goes_on=removal.goes_on if done else goes_on(removal.goes_on, kind),
            home=kind.home if kind and not done else "",
            fate=removal.fate,
            note=removal.note,
            thumbnail=self.thumbs.get(removal_id),
            code=self.codes.get(removal_id, ""),
            origin=removal.origin,
            asks=removal.asks,
            cautions=() if done else tuple(c for c in cautions(removal, kind) if c != OVERRIDE),
        )

    def _task(self, step: Step) -> ChecklistStep:
        one = self.known.tasks[step.ref]
        return ChecklistStep(
            number=step.place,
            name=one.name,
            note=one.note,
            code=self.task_codes.get(one.id, ""),
            task=one.kind,
            asks=one.asks,
            held_by=self._tightened(one.removal_id) if one.kind is TaskKind.TIGHTENING else (),
            pieces=tuple(self._pieces(one.id)) if one.kind is TaskKind.BENCH_BUILD else (),
            not_by=self.known.not_by(step.ref),
        )

    def _tightened(self, removal_id: int | None) -> tuple[HeldBy, ...]:
        found = self.removals.get(removal_id or 0)
        return found.held_by if found is not None else ()

    def _pieces(self, build_id: int, depth: int = 0) -> list[ChecklistPiece]:
        """The pieces of a bench build in the order of its own plan, those of one inside it below
        their own."""
        found: list[ChecklistPiece] = []
        for ref in self.known.pieces(build_id):
            removal = self.removals.get(ref.removal_id or 0)
            name = removal.name if removal is not None else self.known.called(ref)
            quantity = removal.quantity if removal is not None else 1
            done = ref in self.known.signed
            found.append(ChecklistPiece(self.places[ref], name, quantity, done, depth))
            if ref.task_id is not None:
                found += self._pieces(ref.task_id, depth + 1)
        return found


def _signed(signed: SignOff | None) -> SignedOff | None:
    if signed is None:
        return None
    return SignedOff(signed.who, signed.at, signed.reason, signed.figures, signed.counts)


def steps_of(
    store: Store, job_id: int, span: Span = Span()
) -> tuple[ChecklistHeader, list[ChecklistStep]]:
    """The header and the steps of a job's checklist, in the order of the build."""
    job = job_cases.get_job(store, job_id)
    known = planned(store, job_id)
    steps = board_of(known).steps
    ids = [line.id for line in known.rows.log]
    known_joints = joints_of(store, job_id, ids)
    with store.read() as connection:
        found = removals.by_ids(connection, ids)
        of_job = _Job(
            job,
            known,
            {step.ref: step.place for step in steps},
            found,
            belongings.main_codes(connection, ids),
            belongings.task_codes(connection, job_id),
            _thumbs(store, belongings.first_thumbs(connection, ids)),
            removals.tied_to(connection, found.values()),
            kinds.of(store),
            known_joints,
        )
    title = tree.path_text(known.areas, span.area_id)
    header = ChecklistHeader(job.title, date.today(), job.owner, job.datum, area=title)
    return header, [of_job.step(step) for step in _within(known, steps, span)]


def _within(known: Planned, steps: Sequence[Step], span: Span) -> list[Step]:
    if span.area_id is None:
        return list(steps)
    if span.area_id not in known.areas:
        raise BadInput("This area is no longer in the job. Choose another one.", field="area_id")
    inside = tree.below(known.rows.areas, span.area_id)
    return [step for step in steps if step.area_id in inside]


def _thumbs(store: Store, hashes: Mapping[int, str]) -> dict[int, Path]:
    paths = {removal_id: store.photos.thumb(digest) for removal_id, digest in hashes.items()}
    return {removal_id: path for removal_id, path in paths.items() if path.exists()}


def write(store: Store, job_id: int, out: Path | BinaryIO, span: Span = Span()) -> ChecklistReport:
    """The checklist of a job as one PDF."""
    header, steps = steps_of(store, job_id, span)
    return checklist_pdf(out, header, steps, by_area=span.by_area)


def preview(
    store: Store, job_id: int, width_px: int, pages: int | None = None, span: Span = Span()
) -> Sequence[bytes]:
    """Pages of the very PDF that would be printed, as PNG files `width_px` wide."""
    made = partial(write, store, job_id, span=span)
    return rendered(made, width_px=width_px, pages=pages)


def printed_pages(store: Store, job_id: int, dpi: int, span: Span = Span()) -> Sequence[bytes]:
    """Every page as a PNG at `dpi`, for a system printer."""
    return rendered(partial(write, store, job_id, span=span), dpi=dpi)
