"""What the paper tests look through: pages as pictures, and the published values."""

import json
import random
from pathlib import Path

import numpy as np
import pypdfium2
import pytest

from bagtag.domain import codes

VALUES = Path(__file__).parents[1] / "check_values" / "label_grids.json"


@pytest.fixture(scope="session")
def published():
    """Published values of one topic, by their id."""
    rows = json.loads(VALUES.read_text(encoding="utf-8"))["values"]
    return lambda topic: {row["id"]: row for row in rows if row["topic"] == topic}


@pytest.fixture(scope="session")
def render():
    """Every page of a PDF as the printer would dot it: grey values, 0 is black."""

    def pages(pdf: bytes, dpi: int) -> list[np.ndarray]:
        with pypdfium2.PdfDocument(pdf) as document:
            pictures = []
            for page in document:
                bitmap = page.render(scale=dpi / 72, grayscale=True)
                pictures.append(bitmap.to_numpy().reshape(bitmap.height, -1)[:, : bitmap.width])
            return [picture.copy() for picture in pictures]

    return pages


@pytest.fixture(scope="session")
def words():
    """The text of every page of a PDF, as a reader would copy it."""

    def pages(pdf: bytes) -> list[str]:
        with pypdfium2.PdfDocument(pdf) as document:
            return [page.get_textpage().get_text_bounded() for page in document]

    return pages


@pytest.fixture(scope="session")
def draw_codes():
    """That many tag codes, the same ones in every run."""
    return lambda count, seed=1: [
        codes.draw(random.Random(seed * 1000 + i).choice) for i in range(count)
    ]
