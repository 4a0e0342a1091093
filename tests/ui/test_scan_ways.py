"""The other ways to scan: a photo of a tag leads where a scan leads; no camera is a clear word."""

import numpy as np
from PIL import Image

from bagtag import services
from bagtag.domain.entry import Entry
from bagtag.paper import qr
from bagtag.ui.scanning.scan_ways import ScanWays


def _photo_of(code, path):
    modules = np.kron(np.pad(~np.array(qr.matrix(code)), 4, constant_values=True), np.ones((8, 8)))
    Image.fromarray((modules * 255).astype("uint8")).save(path)
    return path


def test_a_photo_of_a_tag_tells_its_code(qtbot, desk, store, job_id, tmp_path):
    removal_id = services.strip.log_removal(store, job_id, Entry("shift drum")).new_id
    code = services.views.card(store, removal_id).code
    ways = ScanWays(desk, None)
    qtbot.addWidget(ways)
    with qtbot.waitSignal(ways.read, timeout=20_000) as heard:
        ways.picture.read_file(_photo_of(code, tmp_path / "tag.png"))
    assert heard.args == [code]


def test_a_picture_without_a_tag_is_said(qtbot, desk, tmp_path):
    Image.new("RGB", (200, 200), "white").save(tmp_path / "wall.png")
    ways = ScanWays(desk, None)
    qtbot.addWidget(ways)
    with qtbot.waitSignal(desk.said, timeout=20_000) as heard:
        ways.picture.read_file(tmp_path / "wall.png")
    assert heard.args[0].startswith("wall.png shows no tag that can be read.")
    assert heard.args[1] is True
