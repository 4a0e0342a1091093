"""The checklist on screen is the checklist on paper."""

import pypdfium2
import pytest

from bagtag import services
from bagtag.ui.sheets.checklist_dialog import ChecklistDialog
from bagtag.ui.sheets.sheet_print import NO_PRINTER
from tests.ui.stages_job import dies, gearbox, nameless


@pytest.fixture
def job(desk, store):
    made = gearbox(store)
    desk.choose_job(made.id)
    return made


@pytest.fixture
def dialog(qtbot, desk, job, settle):
    made = ChecklistDialog(desk)
    qtbot.addWidget(made)
    made.show()
    settle(desk)
    return made


def test_every_page_is_shown(dialog, store, job, tmp_path) -> None:
    target = tmp_path / "list.pdf"
    services.checklists.write(store, job.id, target)
    pages = len(pypdfium2.PdfDocument(target))
    assert len(dialog.pages.pages) == pages
    assert dialog.said.text() == f"{pages} page{'s' * (pages != 1)}."
    assert dialog.pages.pages[-1].accessibleName() == f"Page {pages} of {pages}"


def test_pages_are_sharp_and_keep_their_shape(dialog) -> None:
    """A4 is 297 to 210 (ISO 216)."""
    page = dialog.pages.pages[0]
    shown = page._pixmap
    assert shown.height() / shown.width() == pytest.approx(297 / 210, abs=0.01)
    wide = page._shown_width(page.width())
    assert wide <= shown.width()
    high = page.heightForWidth(page.width()) - 8
    assert high / wide == pytest.approx(297 / 210, abs=0.01)


def test_save_as_pdf(dialog, desk, settle, tmp_path) -> None:
    dialog.save_to(str(tmp_path / "list.pdf"))
    settle(desk)
    document = pypdfium2.PdfDocument(tmp_path / "list.pdf")
    text = "".join(page.get_textpage().get_text_range() for page in document)
    assert "shift fork R" in text
    assert "list.pdf" in dialog.said.text()


def test_a_folder_that_is_not_there_is_said(dialog, desk, settle, tmp_path) -> None:
    dialog.save_to(str(tmp_path / "nowhere" / "list.pdf"))
    settle(desk)
    assert dialog.wrong.isVisible()


def test_without_a_printer_it_says_what_to_do(dialog) -> None:
    dialog.print.click()
    assert dialog.wrong.text() == NO_PRINTER


def test_names_and_leaks(dialog, qtbot, desk, settle) -> None:
    assert nameless(dialog) == []

    def make() -> ChecklistDialog:
        made = ChecklistDialog(desk)
        settle(desk)
        return made

    assert dies(qtbot, make)
