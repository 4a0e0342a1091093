"""Setting blocks: words one under another, columns beside each other, blocks onto pages."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from bagtag.paper.block_marks import Mark, Rule
from bagtag.paper.block_pages import Block, Words
from bagtag.paper.checklist_page import FOOT, TOP, WIDTH
from bagtag.paper.fonts import REGULAR, tidy, width
from bagtag.paper.ink import INK, RGB, SOFT
from bagtag.paper.pdf import MM
from bagtag.paper.typeset import cut

LEAD = 1.3
"""From one line to the next, in font sizes."""
SMALL = 7.5
_SIGN = 7 * MM


@dataclass(frozen=True, slots=True)
class Said:
    """A paragraph as it is to be set; `most` lines of it at most, `space` above it."""

    text: str
    font: str = REGULAR
    size: float = 10.0
    colour: RGB = INK
    most: int = 12
    space: float = 0.0


@dataclass(slots=True)
class Setting:
    """A block while it is set, from the top down: `y` is how far it has come."""

    y: float = 0.0
    words: list[Words] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)

    def say(self, x: float, room: float, *said: Said) -> None:
        """Paragraphs one under another from where the block has come to; empty ones are none."""
        for one in said:
            lines = cut(tidy(one.text), one.font, one.size, room, one.most)[0] if one.text else []
            self.y += one.space if lines else 0.0
            for line in lines:
                self.y += one.size * LEAD
                at = self.y - one.size * 0.3
                self.words.append(Words(x, at, line, one.font, one.size, one.colour))

    def put(self, x: float, y: float, said: Said, room: float = WIDTH) -> None:
        """One line at a place of its own."""
        text = "".join(cut(tidy(said.text), said.font, said.size, room, 1)[0])
        self.words.append(Words(x, y, text, said.font, said.size, said.colour))

    def put_right(self, right: float, y: float, said: Said) -> None:
        """One line that ends at `right`."""
        text = tidy(said.text)
        x = right - width(text, said.font, said.size)
        self.words.append(Words(x, y, text, said.font, said.size, said.colour))

    def sign(self, *names: tuple[str, float]) -> None:
        """Lines to write on beside each other, their names under them, each with its share of the
        width."""
        gap = 5 * MM
        each = (WIDTH - gap * (len(names) - 1)) / sum(share for _, share in names)
        x = 0.0
        for name, share in names:
            self.marks.append(Rule(x, self.y + _SIGN, each * share))
            self.put(x, self.y + _SIGN + 9, Said(name, size=SMALL, colour=SOFT))
            x += each * share + gap
        self.y += _SIGN + 12

    def block(self, *, rule: bool = False, heading: bool = False, apart: bool = False) -> Block:
        return Block(self.y, tuple(self.words), (), rule, heading, tuple(self.marks), apart)


def pages(opening: Sequence[Block], blocks: Sequence[Block]) -> Iterator[list[Block]]:
    """Blocks by page, none divided; what stands under a heading on another page begins with that
    heading again, and no heading stands alone at a foot."""
    page, room = list(opening), TOP - FOOT - sum(block.height for block in opening)
    head: Block | None = None
    for place, block in enumerate(blocks):
        head = block if block.heading else None if block.apart else head
        after = blocks[place + 1].height if block.heading and place + 1 < len(blocks) else 0.0
        if block.height + after > room and page:
            yield page
            page = [head] if head is not None and head is not block else []
            room = TOP - FOOT - sum(one.height for one in page)
        page.append(block)
        room -= block.height
    yield page
