"""Papers of a send-out: any file, kept once and byte for byte, looked at by the store's check."""

import hashlib
from datetime import date

import pytest

from bagtag import services
from bagtag.domain.errors import BadInput, NotFound, StoreTrouble
from bagtag.services.send_outs import PackForm, Wanted
from bagtag.store.document_files import DocumentFiles

QUOTE = b"%PDF-1.7 rebore and hone 140.50"


@pytest.fixture
def sent(store, job_id, log):
    form = PackForm("Mill Lane", date.today())
    return services.send_outs.send(store, job_id, form, [Wanted(log("barrel"))]).new_id


@pytest.fixture
def papers(store, sent):
    return lambda: services.send_outs.batch(store, sent).documents


def test_a_paper_is_kept_as_it_came(store, sent, papers, tmp_path):
    drawing = tmp_path / "Zeichnung Zylinder.DXF"
    drawing.write_bytes(b"\0 any bytes \xff")
    _, refused = services.documents.add(store, sent, [drawing, ("quote.pdf", QUOTE)])
    assert refused == []
    assert [(one.name, one.ext) for one in papers()] == [
        ("Zeichnung Zylinder.DXF", "dxf"),
        ("quote.pdf", "pdf"),
    ]
    assert [services.documents.path(store, one).read_bytes() for one in papers()] == [
        drawing.read_bytes(),
        QUOTE,
    ]
    assert papers()[1].hash == hashlib.sha256(QUOTE).hexdigest()


def test_one_paper_twice_is_kept_once(store, sent, papers):
    both = [("quote.pdf", QUOTE), ("quote again.pdf", QUOTE)]
    services.documents.add(store, sent, both)
    assert services.documents.add(store, sent, both)[0].touched == {}
    assert [one.name for one in papers()] == ["quote.pdf"]


def test_one_that_cannot_be_taken_is_named_and_the_rest_are_kept(store, sent, papers, tmp_path):
    sources = [tmp_path / "gone.pdf", ("empty.pdf", b""), tmp_path, ("quote.pdf", QUOTE)]
    _, refused = services.documents.add(store, sent, sources)
    assert [said.split(" ")[0] for said in refused] == ["gone.pdf", "empty.pdf", tmp_path.name]
    assert [one.name for one in papers()] == ["quote.pdf"]


@pytest.mark.parametrize(
    ("name", "ext"),
    [("quote", "bin"), ("a.tar.gz", "gz"), ("x.tooolongext", "bin"), ("../../a.pdf", "pdf")],
)
def test_a_name_leads_nowhere_else(tmp_path, name, ext):
    files = DocumentFiles(tmp_path)
    kept = files.take(QUOTE, name)
    assert kept.ext == ext
    assert files.path(kept.hash, kept.ext).is_relative_to(tmp_path / "documents")
    assert files.verify(kept.hash, kept.ext)


def test_one_that_is_too_large_is_not_read(tmp_path):
    large = tmp_path / "film.mp4"
    with large.open("wb") as file:
        file.truncate(200_000_001)
    with pytest.raises(BadInput, match="200 MB, and 200 is the most"):
        DocumentFiles(tmp_path / "photos").take(large, "film.mp4")


def test_a_folder_that_may_not_be_written_is_said(tmp_path):
    (tmp_path / "photos").write_text("a file is in the way")
    with pytest.raises(StoreTrouble, match=r"quote\.pdf was not stored"):
        DocumentFiles(tmp_path / "photos").take(QUOTE, "quote.pdf")


def test_one_taken_out_comes_back_by_undo(store, job_id, sent, papers):
    services.documents.add(store, sent, [("quote.pdf", QUOTE)])
    (one,) = papers()
    services.documents.take_out(store, one.id)
    assert papers() == ()
    with pytest.raises(NotFound):
        services.documents.take_out(store, one.id)
    services.history.undo(store, job_id)
    assert papers() == (one,)
    assert services.documents.path(store, one).read_bytes() == QUOTE


def test_the_check_counts_papers_and_misses_their_files(store, sent, papers):
    services.documents.add(store, sent, [("quote.pdf", QUOTE)])
    report = services.check.check(store)
    assert (report.sound, report.counted["document"]) == (True, 1)
    file = services.documents.path(store, papers()[0])
    file.write_bytes(b"other")
    (finding,) = services.check.check(store).findings
    assert "The file of the paper quote.pdf" in finding
    assert "has changed since" in finding
    file.unlink()
    assert services.check.check(store).findings[0].endswith("is not there.")


def test_a_paper_of_a_send_out_that_is_gone_is_not_added(store, sent):
    with pytest.raises(NotFound):
        services.documents.add(store, 99, [("quote.pdf", QUOTE)])
