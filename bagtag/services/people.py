"""Who is at the bench, when nobody says."""

import getpass


def default_name() -> str:
    """The name of the account, or "bench" where there is none."""
    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return "bench"
