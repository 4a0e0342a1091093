"""The checklist on screen is the checklist on paper."""

import pypdfium2
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog

from bagtag import services
from bagtag.ui.sheets.checklist_dialog import ChecklistDialog, Of
from bagtag.ui.sheets.sheet_print import NO_PRINTER
from tests.ui.add_kit import ENTER, press, write
from tests.ui.stages_job import dies, nameless


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


def chosen(dialog, desk, settle, qtbot, what: Of) -> None:
    """Choose what goes on the paper, and let its pages be drawn."""
    dialog.of.choose(what)
    qtbot.wait(2 * dialog.DELAY)
    settle(desk)


def saved(dialog, desk, settle, path) -> str:
    """Every word of the pages as they are saved."""
    dialog.save_to(str(path))
    settle(desk)
    return "".join(p.get_textpage().get_text_range() for p in pypdfium2.PdfDocument(path))


def test_one_area_with_those_inside_it(dialog, desk, settle, qtbot, job, tmp_path) -> None:
    chosen(dialog, desk, settle, qtbot, Of.AREA)
    assert dialog.area.line.hasFocus()
    assert dialog.pages.pages == []
    write("gearbox")
    press(ENTER)
    qtbot.wait(2 * dialog.DELAY)
    settle(desk)
    assert dialog.pages.pages
    assert dialog.file_name() == "build checklist, Gearbox.pdf"
    text = saved(dialog, desk, settle, tmp_path / "area.pdf")
    assert "shift fork R" in text
    assert "gasket, cover" not in text


def test_by_area_the_pages_are_those_of_the_service(
    dialog, desk, settle, qtbot, store, job, tmp_path
) -> None:
    chosen(dialog, desk, settle, qtbot, Of.BY_AREA)
    target = tmp_path / "mine.pdf"
    services.checklists.write(store, job.id, target, services.checklists.Span(by_area=True))
    assert len(dialog.pages.pages) == len(pypdfium2.PdfDocument(target))
    assert saved(dialog, desk, settle, tmp_path / "list.pdf").count("shift fork R") >= 1
    assert dialog.file_name() == "build checklist.pdf"


def test_without_an_area_nothing_is_saved_or_printed(dialog, desk, settle, qtbot) -> None:
    chosen(dialog, desk, settle, qtbot, Of.AREA)
    for press_it in (dialog.save, dialog.print):
        press_it.click()
        assert dialog.area.field.wrong.text() == "Choose the area: type a word of its name."
        dialog.area.field.say("")
    assert not dialog.findChildren(QFileDialog)
    assert not dialog.wrong.isVisible()


def test_an_area_is_no_part_of_a_file_name_that_a_system_refuses(
    dialog, desk, settle, qtbot, store, job
) -> None:
    inner, outer = job.areas["Gearbox"], job.areas["Lower case"]
    services.jobs.edit_area(store, inner, name='gear/box: "A"', parent_id=outer)
    dialog._areas_known(services.jobs.areas_of(store, job.id))
    chosen(dialog, desk, settle, qtbot, Of.AREA)
    dialog.area.set_value(job.areas["Gearbox"])
    assert dialog.file_name() == "build checklist, gear box A.pdf"


def test_arrow_keys_choose_what_goes_on_the_paper(dialog, desk, settle, qtbot) -> None:
    dialog.of.setFocus()
    press(Qt.Key.Key_Right)
    assert dialog.of.value is Of.BY_AREA
    qtbot.wait(2 * dialog.DELAY)
    settle(desk)
    assert dialog.pages.pages


def test_names_and_leaks(dialog, qtbot, desk, settle) -> None:
    assert nameless(dialog) == []

    def make() -> ChecklistDialog:
        made = ChecklistDialog(desk)
        settle(desk)
        return made

    assert dies(qtbot, make)
