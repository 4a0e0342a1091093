"""Where the data files are: in the installed package, or beside it in a checkout."""

from pathlib import Path

_PACKAGE = Path(__file__).parent
_FOLDERS = (_PACKAGE / "resources", _PACKAGE.parent / "resources")


def find(name: str) -> Path:
    """The resource file or folder `name`, e.g. `label_stock.toml`.

    Raises FileNotFoundError when neither the installed package nor a checkout has it: the
    installation is broken, which no input can mend.
    """
    for folder in _FOLDERS:
        if (folder / name).exists():
            return folder / name
    looked = " and ".join(str(folder) for folder in _FOLDERS)
    raise FileNotFoundError(f"The resource {name} is missing; looked in {looked}.")
