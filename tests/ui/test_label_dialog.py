"""Labels: the controls make the order, the preview is the printed page, files and printers."""

from io import BytesIO

import pypdfium2
import pytest
from PIL import Image
from PySide6.QtCore import QPointF, Qt
from PySide6.QtPrintSupport import QPrinter

from bagtag import services
from bagtag.ui.sheets.label_dialog import LabelDialog, open_labels
from bagtag.ui.sheets.sheet_print import NO_PRINTER, paper_of, print_pages, set_page
from tests.ui.stages_job import dies, nameless, own_settings


@pytest.fixture
def order(job):
    return services.labels.LabelOrder(job.id, tuple(job.parts.values()))


@pytest.fixture
def dialog(qtbot, desk, order, settle):
    made = open_labels(desk, order)
    qtbot.addWidget(made)
    settle_preview(made, desk, settle)
    return made


def settle_preview(dialog: LabelDialog, desk, settle) -> None:
    dialog.refresh()
    settle(desk)


def choose_stock(dialog: LabelDialog, name: str) -> None:
    names = [stock.name for stock in dialog.stocks]
    dialog.stock.setCurrentIndex(names.index(name))


def test_every_stock_is_offered_by_its_dimensions(dialog) -> None:
    shown = [dialog.stock.itemText(n) for n in range(dialog.stock.count())]
    assert shown == [stock.title for stock in services.labels.stocks()]
    assert any("62 × 29 mm" in title for title in shown)


def test_the_preview_is_the_page_that_is_printed(dialog, store) -> None:
    paper = BytesIO()
    services.labels.write(store, dialog.order(), paper)
    assert len(dialog.pages.pages) == len(pypdfium2.PdfDocument(paper.getvalue()))
    shown = dialog.pages.pages[0]._pixmap
    document = pypdfium2.PdfDocument(paper.getvalue())
    truth = document[0].render(scale=shown.width() / document[0].get_width()).to_pil().convert("L")
    seen = shown.toImage()
    assert abs(truth.height - seen.height()) <= 1
    spots = [(x, y) for x in range(5, truth.width - 5, 7) for y in range(5, truth.height - 5, 11)]
    unlike = [s for s in spots if abs(truth.getpixel(s) - seen.pixelColor(*s).lightness()) > 8]
    assert len(unlike) < len(spots) / 1000
    assert any(truth.getpixel(spot) < 60 for spot in spots)


def test_it_counts_labels_and_pages(dialog) -> None:
    assert dialog.said.text() == "10 labels on 1 page."


def test_what_did_not_fit_is_said(dialog, desk, settle) -> None:
    choose_stock(dialog, "roll-50x25")
    settle_preview(dialog, desk, settle)
    report = services.labels.preview(desk.store, dialog.order(), 200).report
    assert report.warnings
    assert dialog.wrong.isVisible()
    assert report.warnings[0] in dialog.wrong.text()


def test_controls_make_the_order(dialog, qtbot) -> None:
    dialog.sheet.choose(5)
    dialog.copies.more.click()
    dialog.right.more.click()
    dialog.down.less.click()
    dialog.dots.setCurrentIndex(0)
    order = dialog.order()
    assert (order.start, order.copies, order.nudge, order.dpi) == (5, 2, (0.5, -0.5), 203)


def test_a_change_draws_the_preview_anew_by_itself(dialog, qtbot, desk) -> None:
    dialog.copies.set_value(3)
    qtbot.waitUntil(lambda: dialog.said.text() == "30 labels on 2 pages.", timeout=5000)


def test_the_little_sheet_takes_clicks_and_arrows(dialog, qtbot) -> None:
    sheet = dialog.sheet
    sheet.show()
    middle = sheet._cell(8).center()
    qtbot.mouseClick(sheet, Qt.MouseButton.LeftButton, pos=QPointF(middle).toPoint())
    assert sheet.start == 8
    qtbot.keyClick(sheet, Qt.Key.Key_Down)
    assert sheet.start == 11
    qtbot.keyClick(sheet, Qt.Key.Key_Left)
    assert sheet.start == 10
    assert "10 of 21" in sheet.accessibleName()
    for _ in range(9):
        qtbot.keyClick(sheet, Qt.Key.Key_Down)
    assert sheet.start <= 21


def test_a_roll_has_no_places(dialog) -> None:
    dialog.sheet.choose(20)
    choose_stock(dialog, "roll-62x29")
    assert not dialog.start.isVisible()
    assert dialog.order().start == 1


def test_typed_figures_are_held_to_what_can_be(dialog, qtbot) -> None:
    for typed, held in (("7", 7), ("0", 1), ("500", 99), ("two", 99), ("", 99)):
        dialog.copies.line.setText(typed)
        dialog.copies.line.editingFinished.emit()
        assert dialog.copies.value == held
    dialog.right.line.setText("1,26 mm")
    dialog.right.line.editingFinished.emit()
    assert dialog.right.value == 1.5


def test_save_as_pdf(dialog, desk, settle, tmp_path) -> None:
    target = tmp_path / "out" / "labels.pdf"
    target.parent.mkdir()
    dialog.save_to(str(target))
    settle(desk)
    assert len(pypdfium2.PdfDocument(target)) == 1
    assert "labels.pdf" in dialog.said.text()


def test_a_file_that_cannot_be_written_is_said(dialog, desk, settle, tmp_path) -> None:
    dialog.save_to(str(tmp_path / "no such folder" / "labels.pdf"))
    settle(desk)
    assert dialog.wrong.isVisible()
    assert "labels.pdf" in dialog.wrong.text() or "folder" in dialog.wrong.text()
    assert "Saved" not in dialog.said.text()


def test_the_printer_is_remembered(dialog, qtbot, desk, order, settle, tmp_path) -> None:
    choose_stock(dialog, "roll-62x29")
    dialog.dots.setCurrentIndex(2)
    dialog.right.set_value(1.5)
    dialog.save_to(str(tmp_path / "labels.pdf"))
    settle(desk)
    again = LabelDialog(desk, order)
    qtbot.addWidget(again)
    settle(desk)
    assert again.order().stock == "roll-62x29"
    assert again.order().dpi == 600
    assert again.order().nudge == (1.5, 0.0)


def test_without_a_printer_it_says_what_to_do(dialog) -> None:
    dialog.print.click()
    assert dialog.wrong.text() == NO_PRINTER


def test_pages_are_printed_at_their_true_size(dialog, store, tmp_path, qtbot) -> None:
    """Printed into a file by Qt: the page keeps its millimetres, and the tags on it still read."""
    order = dialog.order()
    pngs = services.labels.printed_pages(store, order)
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "printed.pdf"))
    set_page(printer, paper_of(pngs[0], order.dpi), order.dpi)
    print_pages(printer, pngs, order.dpi)
    document = pypdfium2.PdfDocument(tmp_path / "printed.pdf")
    assert len(document) == len(pngs)
    width, height = (length / 72 * 25.4 for length in document[0].get_size())
    assert width == pytest.approx(210, abs=0.5)
    assert height == pytest.approx(297, abs=0.5)
    shot = BytesIO()
    document[0].render(scale=300 / 72).to_pil().save(shot, "PNG")
    truth = Image.open(BytesIO(pngs[0])).convert("L")
    printed = Image.open(BytesIO(shot.getvalue())).convert("L")
    assert _first_ink(printed) == pytest.approx(_first_ink(truth), abs=3)
    read = services.scanning.read_picture(shot.getvalue())
    wanted = {services.views.card(store, id_).code for id_ in order.removal_ids}
    assert set(read) == wanted


def _first_ink(page: Image.Image) -> tuple[int, int, int, int]:
    """The box around all ink, in pixels."""
    return page.point(lambda value: 255 if value < 128 else 0).getbbox()


def test_nothing_to_print_is_said(qtbot, desk, job_id, settle, tmp_path) -> None:
    own_settings(tmp_path / "settings")
    dialog = LabelDialog(desk, services.labels.LabelOrder(job_id))
    qtbot.addWidget(dialog)
    dialog.show()
    settle(desk)
    assert "nothing to print" in dialog.wrong.text()


def test_names_and_leaks(dialog, qtbot, desk, order, settle) -> None:
    assert nameless(dialog) == []

    def make() -> LabelDialog:
        made = LabelDialog(desk, order)
        settle(desk)
        return made

    assert dies(qtbot, make)
