"""`audit` and `kinds`: what is missing of a job, and what is known of the kinds of parts."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path
from typing import Any

from bagtag import services
from bagtag.cli_answers import answer, warn
from bagtag.domain.audit_finding import Lack, tally
from bagtag.domain.cautions import TORQUE_CAUTIONS
from bagtag.domain.errors import NotFound
from bagtag.domain.hardware import OVERRIDE
from bagtag.domain.kinds import Kinds, PartKind, Question, fold
from bagtag.services.audit import Audit, AuditRow
from bagtag.store.work import Store


def say_audit(store: Store, job: str, pdf: Path | None, as_json: bool) -> bool:
    """What is missing, worst first; returns whether nothing is."""
    job_id = services.jobs.find_job(store, job).id
    done = services.audit.audit(store, job_id)
    if pdf is not None:
        services.audit.write(store, job_id, pdf)
    data = {
        "job": done.job_title,
        "looked_at": done.looked_at,
        "missing": [_row_data(row) for row in done.rows],
        "file": str(pdf) if pdf else None,
        "caution": OVERRIDE,
    }
    answer(data, _audit_lines(done, pdf), as_json)
    return not done.rows


def _row_data(row: AuditRow) -> dict[str, Any]:
    return {
        "lack": row.finding.lack.value,
        "number": row.number,
        "name": row.name,
        "lies_in": row.container,
        "sentence": row.finding.sentence,
        "questions": list(row.finding.questions),
    }


def _audit_lines(done: Audit, pdf: Path | None) -> Iterator[str]:
    for lack, rows in groupby(done.rows, key=lambda row: row.finding.lack):
        yield from _group_lines(lack, list(rows))
    yield f"{tally(len(done.rows), done.looked_at)} {OVERRIDE}"
    if any(row.finding.lack.tells_torque for row in done.rows):
        yield from (caution for caution in TORQUE_CAUTIONS if caution != OVERRIDE)
    if pdf is not None:
        yield f"The audit is in {pdf}."


def _group_lines(lack: Lack, rows: Sequence[AuditRow]) -> Iterator[str]:
    """What all of a group say is said once."""
    said = {row.finding.sentence for row in rows}
    if len(rows) > 1 and len(said) == 1:
        yield f"{lack.heading} ({len(rows)}). {said.pop()}"
        yield from (f"  {_called(row)}" for row in rows)
    else:
        yield f"{lack.heading} ({len(rows)})"
        yield from (f"  {_called(row)}: {row.finding.sentence}" for row in rows)


def _called(row: AuditRow) -> str:
    return f"{row.number} {row.name}".strip()


def say_kinds(store: Store, word: str, as_json: bool) -> None:
    """Every kind in a line, or one in full; where own files go, and which are broken."""
    loaded = services.kinds.load(services.kinds.own_folder(store))
    warn(loaded.troubles)
    found = _asked(loaded.kinds, word)
    lines = list(_in_full(found[0])) if word and len(found) == 1 else [_in_a_line(k) for k in found]
    lines.append(f"Your own kinds go into files in {services.kinds.own_folder(store)}.")
    data = {
        "kinds": [_kind_data(kind) for kind in found],
        "folder": str(services.kinds.own_folder(store)),
        "troubles": list(loaded.troubles),
    }
    answer(data, lines, as_json)


def _asked(kinds: Kinds, word: str) -> Sequence[PartKind]:
    """All kinds by name, those that a word is found in, or the very one it names."""
    named = kinds.named(word) if word else None
    if named is not None:
        return [named]
    every = sorted(kinds.all(), key=lambda kind: (kind.group, kind.name))
    found = [kind for kind in every if fold(word) in fold(" ".join((kind.name, *kind.also)))]
    if word and not found:
        raise NotFound(f"No kind of part is called {word!r}; bagtag kinds lists them.")
    return found


def _in_a_line(kind: PartKind) -> str:
    also = f" ({', '.join(kind.also)})" if kind.also else ""
    own = ", your own" if kind.own else ""
    return f"{kind.name}{also}: renewed {kind.renew.value}{own}"


def _in_full(kind: PartKind) -> Iterator[str]:
    yield _in_a_line(kind)
    told = {
        "why": kind.why,
        "goes wrong": kind.goes_wrong,
        "goes on": kind.goes_on,
        "home": kind.home,
        "take care": ", ".join(kind.hazards),
        "keep with": _with_why(kind),
        "size": kind.size,
        "source": kind.source,
    }
    yield from (f"  asked: {_question(question)}" for question in kind.asks)
    yield from (f"  {what}: {words}" for what, words in told.items() if words)


def _question(question: Question) -> str:
    choices = f" {', '.join(question.choices)}" if question.choices else ""
    return question.sentence + choices + ("" if question.must else " (may be left out)")


def _with_why(kind: PartKind) -> str:
    return ". ".join(filter(None, (", ".join(kind.together), kind.together_why)))


def _kind_data(kind: PartKind) -> dict[str, Any]:
    return {
        "name": kind.name,
        "group": kind.group,
        "also": list(kind.also),
        "asks": [_question_data(question) for question in kind.asks],
        "goes_wrong": kind.goes_wrong,
        "renew": kind.renew.value,
        "why": kind.why,
        "goes_on": kind.goes_on,
        "home": kind.home,
        "hazards": [hazard.value for hazard in kind.hazards],
        "together": list(kind.together),
        "together_why": kind.together_why,
        "pair": kind.pair.value if kind.pair else None,
        "size": kind.size,
        "threaded": kind.threaded,
        "source": kind.source,
        "own": kind.own,
    }


def _question_data(question: Question) -> dict[str, Any]:
    return {
        "fact": question.fact,
        "feature": question.feature,
        "ask": question.sentence,
        "choices": list(question.choices),
        "must": question.must,
    }
