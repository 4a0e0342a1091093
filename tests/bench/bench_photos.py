"""Taking a photo, against decoding the same JPEG: python -m tests.bench.bench_photos

The floor is the decoder's own pass over every bit of a 12-megapixel JPEG, scaled to an eighth.
The peer does the same work the plain way: hash, copy, full decode, turn upright, shrink, save.
"""

import hashlib
import shutil
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
from PIL import Image, ImageOps

from bagtag.store.photo_files import PhotoFiles
from tests.bench.bench_common import interleave, milliseconds, say, table

WIDTH, HEIGHT = 4032, 3024


def noisy_jpeg() -> bytes:
    """A 12-megapixel JPEG with shapes at every scale and grain, about as large as a phone's."""
    chance = np.random.default_rng(12)
    picture = np.full((HEIGHT, WIDTH, 3), 110, dtype=np.float32)
    for cell in (512, 128, 32, 8):
        coarse = chance.normal(128, 22, (HEIGHT // cell + 1, WIDTH // cell + 1, 3))
        coarse_image = Image.fromarray(np.clip(coarse, 0, 255).astype(np.uint8))
        resized = coarse_image.resize((WIDTH, HEIGHT), Image.Resampling.BICUBIC)
        picture += np.asarray(resized, dtype=np.float32) - 128
    picture += chance.normal(0, 5, (HEIGHT, WIDTH, 1))
    out = BytesIO()
    exif = Image.Exif()
    exif[274] = 6  # held upright, as a phone writes it
    whole = Image.fromarray(np.clip(picture, 0, 255).astype(np.uint8))
    whole.save(out, "JPEG", quality=88, exif=exif)
    return out.getvalue()


def main() -> None:
    with TemporaryDirectory() as folder:
        _measure(Path(folder))


def _measure(folder: Path) -> None:
    source, root = folder / "IMG_0001.jpg", folder / "photos"
    source.write_bytes(noisy_jpeg())

    def eighth() -> None:
        with Image.open(source) as image:
            image.draft(None, (WIDTH // 8, HEIGHT // 8))
            image.load()

    def plainly() -> None:
        data = source.read_bytes()
        (folder / hashlib.sha256(data).hexdigest()).write_bytes(data)
        with Image.open(BytesIO(data)) as image:
            upright = ImageOps.exif_transpose(image)
        size = (HEIGHT // 8, WIDTH // 8)
        upright.resize(size, Image.Resampling.LANCZOS).save(folder / "thumb.jpg", quality=85)

    def take(fsync: bool) -> None:
        PhotoFiles(root, fsync=fsync).take(source, source.name)

    def again() -> None:
        shutil.rmtree(root, ignore_errors=True)

    times = interleave(
        9,
        eighth=eighth,
        empty=again,
        take=lambda: take(False),
        empty_again=again,
        take_synced=lambda: take(True),
        plainly=plainly,
    )
    ms = milliseconds(times)
    figures = ", ".join(f"{name} {value:.1f}" for name, value in ms.items() if "empty" not in name)
    floor, peer = ms["take"] / ms["eighth"], ms["plainly"] / ms["take"]
    say(f"a JPEG of {source.stat().st_size / 1e6:.1f} MB, {WIDTH} x {HEIGHT}; median ms: {figures}")
    say(
        table(
            [
                ("taken without sync / decoded at an eighth", floor, "at most", 1.8),
                ("the same by a full decode / taken without sync", peer, "at least", 4),
            ]
        )
    )


if __name__ == "__main__":
    main()
