"""The weeks between strip and build: a bore measured, a casting sent with what the shop takes off
it, half of it back, and what holds the job up. By keys alone, a typing caliper and a scanner."""

from datetime import date, timedelta
from decimal import Decimal

import pypdfium2
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from bagtag import services
from bagtag.domain.fitting import part
from bagtag.domain.measuring.result import Verdict
from bagtag.domain.model import Fate, Origin
from bagtag.domain.sending import PackForm
from bagtag.domain.standing import Standing
from bagtag.ui.measure.new_sheet import NewSheet

KEYS = Qt.Key
LINES = ("crankcase", "head gasket, bag 1", "cylinder barrel, decide, bag 1", "flywheel, tray 1")
CALIPER = ("68.14", "68.09", "68.08", "68.05", "68.03", "68,02")
"""Six readings of a bore as a caliper types them, the last as one would type it oneself."""


@pytest.fixture
def bench(bench):
    bench.open_job(*LINES)
    return bench


def the(bench, name: str):
    """The removal of this name, as the store has it."""
    store, job_id = bench.desk.store, bench.desk.job_id
    found = (
        services.strip.get_removal(store, id_) for id_ in services.strip.log_ids(store, job_id)
    )
    return next(one for one in found if one.name.startswith(name))


def code(bench, name: str) -> str:
    return services.views.card(bench.desk.store, the(bench, name).id).code


def finish(bench) -> None:
    bench.press(KEYS.Key_Return, Qt.KeyboardModifier.ControlModifier)


def said(bench) -> str:
    """Every word that is in sight."""
    page = bench.window.pages.currentWidget()
    return "\n".join(one.text() for one in page.findChildren(QLabel) if one.isVisible())


def measure(bench) -> int:
    """A bore sheet for the barrel, read with a caliper that types and ends each figure by Enter."""
    bench.stage(6)
    bench.control(KEYS.Key_N)
    dialog = next(w for w in QApplication.topLevelWidgets() if isinstance(w, NewSheet))
    dialog.activateWindow()
    bench.settle()
    bench.type("barrel")
    bench.settle()
    bench.press(KEYS.Key_Return)
    finish(bench)
    bench.window.activateWindow()
    bench.settle()
    for figure in CALIPER:
        bench.type(figure)
        bench.press(KEYS.Key_Return)
    (row,) = [
        r for r in services.measuring.for_stage(bench.desk.store, bench.desk.job_id) if r.sheets
    ]
    return row.sheets[0].sheet.id


def test_the_caliper_goes_from_place_to_place(bench):
    view = services.measuring.view(bench.desk.store, measure(bench))
    assert [str(one.value) for one in view.sheet.readings] == [t.replace(",", ".") for t in CALIPER]
    assert view.results.is_measured


def page(bench):
    return bench.window.pages.currentWidget()


def limit_and_send_to_be_worked(bench) -> None:
    """The wear limit of the manual, the oversizes that are made, and the decision by key."""
    sheet = page(bench).page
    sheet.limits.rows[0].lines["wear_high"].setFocus()
    bench.type("68.10")
    bench.press(KEYS.Key_Return)
    worked = next(one for one in sheet.decision.presses if one.fate is Fate.DECIDE)
    sheet.decision.work.setFocus()
    bench.type("Rebore to 68.25 mm and hone")
    worked.setFocus()
    bench.press(KEYS.Key_Return)


def test_a_worn_bore_is_decided_by_name_and_holds_the_part(bench):
    sheet_id = measure(bench)
    limit_and_send_to_be_worked(bench)
    view = services.measuring.view(bench.desk.store, sheet_id)
    assert view.results.verdict is Verdict.OUT
    assert view.results.figures[0].margin == Decimal("-0.04")
    assert (view.sheet.decision.fate, view.sheet.decision.who) == (Fate.DECIDE, "Ada")
    assert view.sheet.decision.work == "Rebore to 68.25 mm and hone"
    step = services.board.board(bench.desk.store, bench.desk.job_id).step(
        part(the(bench, "cyl").id)
    )
    assert (
        "worked on and measured again (Rebore to 68.25 mm and hone)" in step.hindrances[0].sentence
    )


def send(bench) -> None:
    """The barrel by its tag, what is wanted of it, and three jets that the shop takes out."""
    bench.stage(4)
    bench.control(KEYS.Key_N)
    bench.type("Mill Lane Engineering")
    bench.press(KEYS.Key_Tab)
    pack = page(bench).pack
    pack.shop.promised.setFocus()
    bench.type("2 weeks")
    bench.scan(code(bench, "cylinder barrel"))
    form = pack.panels[the(bench, "cylinder").id].form
    form.work.setFocus()
    bench.type("Rebore to 68.25 mm and hone")
    form.takes.line.setFocus()
    bench.type("3 oil jets")
    bench.press(KEYS.Key_Return)
    finish(bench)


def the_batch(bench):
    (batch,) = services.send_outs.batches(bench.desk.store, bench.desk.job_id)
    return batch


def test_what_the_shop_takes_off_is_on_the_traveller_and_comes_back_by_itself(bench, tmp_path):
    send(bench)
    jets = the(bench, "oil jet")
    assert (jets.origin, jets.quantity, jets.off_id) == (Origin.SHOP, 3, the(bench, "cylinder").id)
    assert {item.removal.name for item in the_batch(bench).out} == {"cylinder barrel", jets.name}

    file = tmp_path / "traveller.pdf"
    services.travellers.write(bench.desk.store, the_batch(bench).send_out.id, file)
    pdf = pypdfium2.PdfDocument(file)
    try:
        (seen,) = services.scanning.read_picture(png_of(pdf, tmp_path))
        text = pdf[0].get_textpage().get_text_range()
    finally:
        pdf.close()
    assert seen == the_batch(bench).send_out.code
    assert "Rebore to 68.25 mm and hone" in text
    assert "oil jets" in text

    bench.stage(2)
    bench.scan(seen)
    assert "Mill Lane Engineering" in said(bench)
    finish(bench)  # what is back?
    bench.scan(code(bench, "flywheel"))
    assert "flywheel is not away" in said(bench)
    bench.scan(code(bench, "cylinder"))
    finish(bench)
    finish(bench)  # what was not looked at is said once
    assert [item.removal.name for item in the_batch(bench).out] == [jets.name]
    board = services.board.board(bench.desk.store, bench.desk.job_id)
    assert board.step_of(jets.id).standing is Standing.AWAY


def png_of(pdf, folder):
    file = folder / "page.png"
    pdf[0].render(scale=300 / 72).to_pil().save(file)
    return file


def test_what_holds_the_job_up_leads_to_where_it_is_settled(bench):
    send(bench)
    bench.press(KEYS.Key_F11)
    found = services.readiness.holding_up(bench.desk.store, bench.desk.job_id)
    assert {row.called.split(" ", 1)[1] for row in found.rows} >= {"cylinder barrel", "head gasket"}
    assert found.last_day == date.today() + timedelta(weeks=2)
    assert page(bench).list.here.ref == found.rows[0].ref
    for row in found.rows:
        bench.press(KEYS.Key_F11)
        while page(bench).list.here.ref != row.ref:
            bench.press(KEYS.Key_Down)
        bench.press(KEYS.Key_Return)
        assert bench.window.stages.current in ("Away", "Renew", "Measure")
    bench.press(KEYS.Key_F11)
    bench.press(KEYS.Key_Escape)
    assert bench.window.stages.current == "Build"


def test_after_a_restart_what_is_late_is_said(bench):
    send(bench)
    store, sent = bench.desk.store, the_batch(bench).send_out
    today = date.today()
    late = PackForm(sent.shop, today - timedelta(days=9), today - timedelta(days=3))
    services.send_outs.edit(store, sent.id, late)
    bench.stop()
    bench.start()
    assert "Late: send-out 1, Mill Lane Engineering, 3 days" in bench.window.message.text
    held = services.readiness.holding_up(bench.desk.store, bench.desk.job_id).rows
    assert any(row.act == "Ask Mill Lane Engineering: 3 days late." for row in held)
