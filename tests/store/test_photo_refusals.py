"""Photos that are refused, each named; disks that refuse; and a kill in the middle."""

import subprocess
import sys
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from bagtag.domain.errors import BadInput, StoreTrouble
from bagtag.store import pictures
from bagtag.store.photo_files import PhotoFiles
from tests.store.photo_kit import encoded, exif_of, files_in, grainy


def test_what_cannot_be_taken_leaves_nothing_behind(photos):
    with pytest.raises(BadInput):
        photos.take(encoded(grainy())[:5000], "a.jpg")
    assert not photos.root.exists()


def sentence(photos: PhotoFiles, source: Path | bytes, name: str) -> str:
    with pytest.raises(BadInput) as bad:
        photos.take(source, name)
    assert bad.value.sentence.startswith(f"{name} ")
    return bad.value.sentence


def test_a_text_file_called_a_picture(photos):
    assert "is not a picture" in sentence(photos, b"carburettor: main jet 95\n" * 50, "jets.jpg")


def test_a_text_that_starts_like_a_bitmap(photos):
    assert "is not a picture" in sentence(photos, b"BMP files are large\n" * 9, "notes.bmp")


def test_an_empty_file(photos, tmp_path):
    (tmp_path / "a.jpg").touch()
    assert "is empty" in sentence(photos, tmp_path / "a.jpg", "a.jpg")
    assert "is empty" in sentence(photos, b"", "pasted picture")


def test_a_file_that_cannot_be_read(photos, tmp_path):
    assert "cannot be read (no such file" in sentence(photos, tmp_path / "gone.jpg", "gone.jpg")
    assert "cannot be read (is a directory" in sentence(photos, tmp_path, "camera folder")


SMALL_JPEGS = [encoded(grainy(96, 64)), encoded(grainy(96, 64), progressive=True)]


@given(data=st.sampled_from(SMALL_JPEGS), share=st.floats(0, 1), fill=st.booleans())
def test_a_jpeg_cut_off_anywhere_is_noticed(data, share, fill):
    # 3: the end mark has two bytes, and without it the picture is whole still
    kept = 3 + int(share * (len(data) - 6))
    cut = data[:kept] + (bytes(len(data) - kept) if fill else b"")
    with pytest.raises(BadInput, match=r"hinge\.jpg is cut off"):
        pictures.read(cut, "hinge.jpg")


def test_a_large_jpeg_cut_off_is_noticed_by_the_scaled_decoding():
    data = encoded(grainy(4032, 3024), quality=30, exif=exif_of(orientation=6))
    for cut in (data[: len(data) // 2], data[:-3], data[:-1000] + bytes(1000)):
        with pytest.raises(BadInput, match="cut off"):
            pictures.read(cut, "a.jpg")


def test_what_a_phone_hangs_on_behind_the_picture_is_no_damage():
    """Motion photos and makers' trailers: bytes after the end mark, zeros and marks among them."""
    data = encoded(grainy(96, 64)) + b"\xff\xda" + bytes(5000)
    assert pictures.read(data, "a.jpg").ext == "jpg"


@pytest.mark.parametrize("form", ["PNG", "WEBP", "HEIF", "TIFF", "BMP", "GIF"])
@pytest.mark.parametrize("share", [0.05, 0.5, 0.95])
def test_other_kinds_cut_off_are_named(photos, form, share):
    data = encoded(grainy(), form)
    said = sentence(photos, data[: int(len(data) * share)], "IMG_7")
    assert "is cut off" in said or "is damaged" in said


@given(st.binary(max_size=300), st.sampled_from([b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"II*\0"]))
def test_rubbish_behind_a_right_beginning_is_bad_input(rubbish, start):
    with pytest.raises(BadInput, match="IMG_8"):
        pictures.read(start + rubbish, "IMG_8")


def test_200_megapixels_are_refused_by_their_size_before_decoding(photos):
    """The header alone says so: there is nothing behind it that could be decoded."""
    data = encoded(grainy(64, 64))
    frame = data.index(b"\xff\xc0") + 5
    size = (10_000).to_bytes(2, "big") + (20_000).to_bytes(2, "big")
    huge = data[:frame] + size + data[frame + 4 :]
    assert "200 megapixels (20000 × 10000)" in sentence(photos, huge, "stitched.jpg")
    flat = encoded(Image.new("1", (20_000, 10_000)), "PNG")
    assert "200 megapixels (20000 × 10000)" in sentence(photos, flat, "drawing.png")


FULL_DISK = """
import resource, sys
from pathlib import Path
from bagtag.domain.errors import StoreTrouble
from bagtag.store.photo_files import PhotoFiles
resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))
try:
    PhotoFiles(Path(sys.argv[2])).take(Path(sys.argv[1]), "IMG_9.jpg")
except StoreTrouble as trouble:
    print(trouble.sentence)
"""
READ_ONLY = """
import os, sys
from pathlib import Path
from bagtag.domain.errors import StoreTrouble
from bagtag.store.photo_files import PhotoFiles
picture, root = Path(sys.argv[1]), Path(sys.argv[2])
PhotoFiles(root / "warm").take(picture, "IMG_9.jpg")
data = picture.read_bytes()
(root / "closed").mkdir(mode=0o555)
if os.getuid() == 0:
    os.setuid(65534)
try:
    PhotoFiles(root / "closed").take(data, "IMG_9.jpg")
except StoreTrouble as trouble:
    print(trouble.sentence)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="file limits and modes are POSIX")
@pytest.mark.parametrize(
    ("program", "said"), [(FULL_DISK, "the disk is full"), (READ_ONLY, "may not be written")]
)
def test_a_full_and_a_read_only_disk_are_said_in_words(tmp_path, program, said):
    picture, root = tmp_path / "IMG_9.jpg", tmp_path / "photos"
    picture.write_bytes(encoded(grainy()))
    root.mkdir()
    run = subprocess.run(
        [sys.executable, "-c", program, picture, root], capture_output=True, text=True, check=True
    )
    assert run.stdout.startswith("IMG_9.jpg was not stored")
    assert said in run.stdout
    assert not [name for name in files_in(root) if name.startswith("temp")]


def test_a_root_that_cannot_be_made_is_said_in_words(tmp_path):
    (tmp_path / "photos").write_text("in the way")
    with pytest.raises(StoreTrouble, match=r"IMG_9\.jpg was not stored"):
        PhotoFiles(tmp_path / "photos").take(encoded(grainy()), "IMG_9.jpg")


TAKE_FOR_EVER = """
import sys
from io import BytesIO
from itertools import count
from pathlib import Path
from PIL import Image
from bagtag.store.photo_files import PhotoFiles
photos = PhotoFiles(Path(sys.argv[1]))
for number in count():
    picture = BytesIO()
    Image.new("RGB", (64, 64), (number % 256, number // 256, int(sys.argv[2]))).save(picture, "BMP")
    print(photos.take(picture.getvalue(), "a").hash, flush=True)
"""


def test_a_kill_leaves_no_file_that_is_not_what_it_is_named_for(photos):
    for turn in range(6):
        command = [sys.executable, "-c", TAKE_FOR_EVER, photos.root, str(turn)]
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as taking:
            told = [taking.stdout.readline().strip() for _ in range(3 + turn)]
            taking.kill()
        assert all(photos.verify(digest, "bmp") for digest in told)
        assert all(photos.thumb(digest).exists() for digest in told)
    assert all(photos.verify(digest, ext) for digest, ext in photos.all_hashes().items())
    photos.sweep(datetime.now() + timedelta(seconds=1))
    assert not list(photos.root.glob("temp/*"))
