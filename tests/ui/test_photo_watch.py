"""The watched folder: a new picture is told of once, and only when it is whole."""

import weakref
from pathlib import Path

import pytest

from bagtag.ui.photos.photo_watch import PhotoWatch
from tests.ui.forms_kit import picture, settings


@pytest.fixture
def folder(tmp_path) -> Path:
    made = tmp_path / "phone"
    made.mkdir()
    return made


@pytest.fixture
def watch(qapp, tmp_path, folder):
    made = PhotoWatch(settings(tmp_path))
    made.choose(folder)
    yield made
    made.stop()


@pytest.fixture
def told(watch) -> list[list[Path]]:
    heard: list[list[Path]] = []
    watch.found.connect(heard.append)
    return heard


def test_a_new_picture_is_found(qtbot, watch, told, folder):
    new = picture(folder / "new.jpg")
    qtbot.waitUntil(lambda: told == [[new]])


def test_what_was_there_before_is_no_news(qtbot, watch, told, folder, tmp_path):
    watch.stop()
    picture(folder / "old.jpg")
    watch.start()
    new = picture(folder / "new.jpg")
    qtbot.waitUntil(lambda: bool(told))
    assert told == [[new]]


def test_a_file_that_still_grows_is_waited_for(qtbot, watch, told, folder, tmp_path):
    whole = picture(tmp_path / "whole.jpg").read_bytes()
    arriving = folder / "arriving.jpg"
    watch._timer.setInterval(3_600_000)  # the looks are ours
    part = len(whole) // 4 + 1
    with arriving.open("wb") as file:
        for start in range(0, len(whole), part):
            file.write(whole[start : start + part])
            file.flush()
            if start:
                watch._look()
            else:
                qtbot.waitUntil(lambda: arriving in watch._growing)
            assert told == []
    watch._look()
    assert told == [[arriving]]
    watch._look()
    assert told == [[arriving]]


def test_only_pictures_count(qtbot, watch, told, folder):
    (folder / "list.txt").write_text("no picture")
    (folder / ".hidden.jpg").write_bytes(b"half")
    (folder / "empty.jpg").touch()
    new = picture(folder / "new.png")
    qtbot.waitUntil(lambda: bool(told))
    assert told == [[new]]


def test_a_sync_that_renames_when_it_is_done(qtbot, watch, told, folder):
    partial = folder / "new.jpg.part"
    partial.write_bytes(picture(folder.parent / "whole.jpg").read_bytes())
    partial.rename(folder / "new.jpg")
    qtbot.waitUntil(lambda: told == [[folder / "new.jpg"]])


def test_the_clock_rests_when_nothing_arrives(qtbot, watch, told, folder):
    assert not watch._timer.isActive()
    picture(folder / "new.jpg")
    qtbot.waitUntil(lambda: bool(told))
    assert not watch._timer.isActive()


def test_the_folder_is_kept_for_the_next_start(watch, folder, tmp_path):
    again = PhotoWatch(settings(tmp_path))
    assert again.folder == folder
    watch.choose(None)
    assert PhotoWatch(settings(tmp_path)).folder is None


def test_nothing_is_told_after_stop(qtbot, watch, told, folder):
    watch.stop()
    assert not watch.running
    picture(folder / "new.jpg")
    watch.start()
    watch.stop()
    qtbot.wait(1)
    assert told == []


def test_a_folder_that_goes_away_is_said(qtbot, watch, folder):
    with qtbot.waitSignal(watch.lost) as lost:
        folder.rmdir()
    assert str(folder) in lost.args[0]
    assert not watch.running


def test_a_folder_that_is_gone_at_the_start_is_said(qtbot, watch, folder):
    watch.stop()
    folder.rmdir()
    with qtbot.waitSignal(watch.lost):
        watch.start()


def test_it_can_be_let_go(qtbot, tmp_path, folder):
    made = PhotoWatch(settings(tmp_path))
    made.choose(folder)
    seen = weakref.ref(made)
    made.stop()
    del made
    assert seen() is None
