"""Opening a store: what a crash left half written goes, what is being written now stays."""

import os

from bagtag.bootstrap import locate, open_store


def test_opening_sweeps_what_a_crash_left(tmp_path):
    open_store(locate(tmp_path)).close()
    temp = tmp_path / "photos" / "temp"
    temp.mkdir(parents=True, exist_ok=True)
    old, fresh = temp / "left", temp / "now"
    for file in (old, fresh):
        file.write_bytes(b"half a picture")
    os.utime(old, (1, 1))
    open_store(locate(tmp_path)).close()
    assert not old.exists()
    assert fresh.exists()
