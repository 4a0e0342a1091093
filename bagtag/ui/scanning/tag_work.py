"""What a scanned code does: show the part or the container, hang a blank tag, compare twins."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from bagtag import services
from bagtag.domain import codes
from bagtag.domain.fitting import task
from bagtag.domain.model import ContainerKind, TagRole
from bagtag.ui.scanning import code_reading
from bagtag.ui.scanning.blank_tag_dialog import BlankTagDialog

if TYPE_CHECKING:
    from bagtag.services.tags import Found, Match
    from bagtag.ui.window_work import WindowWork

TWINS = (TagRole.TWIN_PART, TagRole.TWIN_PLACE)


class TagWork(QObject):
    """One road for a code that was scanned, typed or read out of a picture."""

    def __init__(self, work: "WindowWork") -> None:
        super().__init__(work)
        self._work = work
        self._desk = work.desk
        self.twin = ""
        """The code of a twin tag that waits for its other end."""
        self._blank = ""

    def scanned(self, code: str) -> None:
        self._desk.ask(code_reading.look_up, code, then=self._known)

    def _known(self, answer: "tuple[Found, str]") -> None:
        found, name = answer
        first, self.twin = self.twin, ""
        if found.tag.role in TWINS and first:
            self._desk.ask(services.tags.match_twins, first, found.tag.code, then=self._matched)
        elif found.removal_id is not None:
            self._show_part(found, name)
        elif found.container_id is not None:
            self._show_container(found)
        elif found.task_id is not None:
            self._show_task(found)
        elif found.send_out_id is not None:
            self._show_batch(found)
        else:
            self._ask_blank(found.tag.code)

    def _show_task(self, found: "Found") -> None:
        if found.job_id and found.job_id != self._desk.job_id:
            self._desk.choose_job(found.job_id)
        self._desk.show_step.emit(task(found.task_id or 0))

    def _show_batch(self, found: "Found") -> None:
        """The send-out whose traveller was scanned."""
        if found.job_id and found.job_id != self._desk.job_id:
            self._desk.choose_job(found.job_id)
        page = self._work.page_of("Away")
        self._work.go_to("Away")
        page.show_batch(found.send_out_id)  # type: ignore[attr-defined]  # an AwayStage

    def _show_part(self, found: "Found", name: str) -> None:
        self._work.show_removal(found.removal_id or 0)
        if found.tag.role in TWINS:
            self.twin = found.tag.code
            self._desk.say(f"A twin tag of {name}. Scan the other one to compare them.")

    def _matched(self, match: "Match") -> None:
        self._work.window.message.clear()  # it asked for the tag that has come now
        self._work.bench.show_match(match)
        if self._work.stage not in ("Strip", "Build"):
            self._work.go_to("Strip")
        self._work.bench.show_match(match)

    def _show_container(self, found: "Found") -> None:
        if found.job_id and found.job_id != self._desk.job_id:
            self._desk.choose_job(found.job_id)
        page = self._work.container_page()
        self._work.go_to("Containers")
        page.show_container(found.container_id)  # type: ignore[attr-defined]  # ContainersStage

    # A blank tag

    def _ask_blank(self, code: str) -> None:
        self._blank = code
        if not self._desk.job_id:
            self._desk.say(f"The tag {codes.show(code)} is blank. Open a job to hang it on a part.")
            return
        bench = self._work.bench
        shown = bench.card.card if bench.card_id else None
        name = f"{shown.removal.number} {shown.removal.name}" if shown is not None else ""
        dialog = BlankTagDialog(codes.show(code), name, self._work.window)
        dialog.on_part.connect(self._on_part)
        dialog.on_entry.connect(self._on_entry)
        dialog.on_bag.connect(self._on_bag)
        dialog.open()

    def _on_part(self) -> None:
        removal_id = self._work.bench.card_id
        self._desk.act(services.tags.bind_to_removal, self._blank, removal_id)

    def _on_entry(self) -> None:
        self._work.go_to("Strip")
        self._work.bench.give_tag(self._blank)
        self._work.focus_field()
        self._desk.say(f"The next line you log gets the tag {codes.show(self._blank)}.")

    def _on_bag(self) -> None:
        self._desk.act(
            services.containers.add_container,
            self._desk.job_id,
            ContainerKind.BAG,
            tag_code=self._blank,
        )
