"""The papers of a send-out: a quote, a drawing, an invoice; any file, kept once, byte for byte."""

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path

from bagtag.domain.change import Change
from bagtag.domain.errors import BadInput, NotFound
from bagtag.domain.send_out import Document
from bagtag.services.batches import get_send_out
from bagtag.store import between, rows, tables
from bagtag.store.act import Act
from bagtag.store.document_files import DocumentFiles, Kept
from bagtag.store.work import Store

Source = Path | tuple[str, bytes]
"""A file, or a name and the bytes of one (pasted, dropped)."""


def add(
    store: Store, send_out_id: int, sources: Sequence[Source], *, who: str = ""
) -> tuple[Change, list[str]]:
    """Keep files with a send-out; also a sentence for each that cannot be taken. One that it has
    already is not kept twice."""
    whole = get_send_out(store, send_out_id)
    kept, refused = keep(store, sources)

    def do(act: Act) -> None:
        have = {one.hash for one in between.documents(act.connection, send_out_id)}
        for one in kept:
            if one.hash not in have:
                have.add(one.hash)
                columns = asdict(one) | {"added_at": rows.now()}
                act.insert(tables.document, send_out_id=send_out_id, **columns)

    title = f"add {_many(len(kept))} to {whole.called}"
    return store.act(title, do, who=who, job_id=whole.job_id), refused


def keep(store: Store, sources: Sequence[Source]) -> tuple[list[Kept], list[str]]:
    """Keep the files, and a sentence for each that cannot be; no row is ever without its file."""
    kept: list[Kept] = []
    refused: list[str] = []
    for source in sources:
        name, content = (source.name, source) if isinstance(source, Path) else source
        try:
            kept.append(files(store).take(content, name))
        except BadInput as wrong:
            refused.append(wrong.sentence)
    return kept, refused


def take_out(store: Store, document_id: int, *, who: str = "") -> Change:
    """Take a paper off its send-out; the file stays, so that undo brings it back."""
    one = get_document(store, document_id)
    whole = get_send_out(store, one.send_out_id)

    def do(act: Act) -> None:
        act.delete(tables.document, document_id)

    title = f"take {one.name} off {whole.called}"
    return store.act(title, do, who=who, job_id=whole.job_id)


def path(store: Store, document: Document) -> Path:
    """The file of a paper, as it came."""
    return files(store).path(document.hash, document.ext)


def files(store: Store) -> DocumentFiles:
    """Where the papers of a store lie."""
    return DocumentFiles(store.location.photos)


def get_document(store: Store, document_id: int) -> Document:
    with store.read() as connection:
        found = between.get_document(connection, document_id)
    if found is None:
        raise NotFound("This paper is no longer with the send-out.")
    return found


def _many(count: int) -> str:
    return "a paper" if count == 1 else f"{count} papers"
