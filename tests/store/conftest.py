"""What the photo tests stand on: a folder for photos, still empty."""

from pathlib import Path

import pytest

from bagtag.store.photo_files import PhotoFiles


@pytest.fixture
def photos(tmp_path: Path) -> PhotoFiles:
    return PhotoFiles(tmp_path / "photos")
