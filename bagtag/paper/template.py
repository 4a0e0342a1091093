"""The 1:1 template: holes at true size on one sheet or several, to punch bolts through."""

from io import BytesIO

from bagtag.paper.pdf import MM, open_canvas
from bagtag.paper.template_frame import Frame
from bagtag.paper.template_labels import Label, arm, edge_boxes, labels
from bagtag.paper.template_marks import Window
from bagtag.paper.template_sheets import MARK, PAPERS, Layout, Sheet, layout_of, seam_boxes
from bagtag.paper.template_text import Template, TemplateReport, template_of
from bagtag.paper.whole_file import Target, write

__all__ = ["PAPERS", "Template", "TemplateReport", "template_of", "template_pdf"]


def template_pdf(target: Target, template: Template, page: str = "A4") -> TemplateReport:
    """Print a template at true size into a PDF file or an open binary stream; `page` is one of
    PAPERS. A viewer that heeds the file's wishes does not scale it.

    BadInput for a page that is not known, for more sheets than one can lay together, and when the
    file cannot be written.
    """
    layout = layout_of(template, page)
    into = BytesIO()
    wide, high = layout.page
    canvas = open_canvas(into, f"1:1 · {template.part}", (wide * MM, high * MM))
    canvas.setViewerPreference("PrintScaling", "None")
    lines = [*seam_boxes(layout), *edge_boxes(template.outline)]
    frame, said = Frame(canvas, template, layout), list(labels(template.holes, lines))
    for sheet in layout.sheets:
        frame.draw(sheet)
        _window(Window(canvas, layout, sheet), template, layout, sheet, said)
        canvas.showPage()
    canvas.save()
    write(into.getvalue(), target)
    return TemplateReport(len(layout.sheets), template.warnings)


def _window(
    window: Window, template: Template, layout: Layout, sheet: Sheet, said: list[Label]
) -> None:
    window.canvas.saveState()
    window.clip()
    window.outline(template.outline)
    window.seams()
    for hole in template.holes:
        if layout.shows(sheet, hole.x, hole.y, -arm(hole)):
            window.hole(hole)
    for label in said:
        if layout.shows(sheet, label.x, label.y, -max(label.width, label.height)):
            window.label(label)
    for mark in layout.marks:
        if layout.shows(sheet, mark.x, mark.y, MARK):
            window.align(mark)
    window.canvas.restoreState()
