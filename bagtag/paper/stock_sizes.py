"""What a label stock is, in plain millimetres."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Hole:
    """A punched hole: its centre from the label's left and top edge, its diameter, in mm."""

    x: float
    y: float
    diameter: float


@dataclass(frozen=True, slots=True)
class Stock:
    """One kind of label stock. Every length in millimetres; `roll` when a page is one label."""

    name: str
    title: str
    roll: bool
    page_width: float
    page_height: float
    columns: int
    rows: int
    label_width: float
    label_height: float
    gap_x: float
    gap_y: float
    margin_left: float
    margin_top: float
    hole: Hole | None
    feed: str

    @property
    def per_page(self) -> int:
        return self.columns * self.rows
