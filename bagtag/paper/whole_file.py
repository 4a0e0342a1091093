"""Writing what is printed, or listed, whole or not at all."""

from pathlib import Path
from typing import IO

from bagtag.domain.errors import BadInput

Target = str | Path | IO[bytes]


def write(content: bytes, target: Target) -> None:
    """Put a finished PDF or table into a file, whole or not at all, or into an open stream.

    BadInput when the file cannot be written.
    """
    if not isinstance(target, str | Path):
        target.write(content)
        return
    path = Path(target)
    draft = path.with_name(f".{path.name}.part")
    try:
        draft.write_bytes(content)
        draft.replace(path)
    except OSError as wrong:
        draft.unlink(missing_ok=True)
        raise BadInput(
            f"{path} cannot be written ({wrong.strerror}). Choose another folder or name.",
            field="file",
        ) from wrong
