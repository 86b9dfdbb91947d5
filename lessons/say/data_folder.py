"""Where the program keeps what belongs to the user: one folder, where the platform wants it.

On Linux and other free systems as the XDG Base Directory Specification says: $XDG_DATA_HOME,
else ~/.local/share. On macOS and Windows where those systems keep an application's data.
"""

import os
import sys
from collections.abc import Mapping
from pathlib import Path

from layout.errors import LayoutError

OWN_FOLDER = "square-and-saw"
OVERRIDE = "SQUARESAW_DATA"
"""This environment variable names the folder itself, whatever the platform."""


def data_folder(environment: Mapping[str, str] | None = None, platform: str = sys.platform) -> Path:
    """The folder for the user's data; it need not be there yet.

    A relative path in $XDG_DATA_HOME is passed over, as the specification says.
    """
    set_to = os.environ if environment is None else environment
    if set_to.get(OVERRIDE):
        return Path(set_to[OVERRIDE])
    home = _home(set_to)
    if platform == "win32":
        base = Path(set_to.get("LOCALAPPDATA") or home / "AppData" / "Local")
    elif platform == "darwin":
        base = home / "Library" / "Application Support"
    else:
        base = Path(set_to.get("XDG_DATA_HOME") or "")
        if not base.is_absolute():
            base = home / ".local" / "share"
    return base / OWN_FOLDER


def _home(set_to: Mapping[str, str]) -> Path:
    """The user's own folder; raises LayoutError where the system knows none."""
    named = set_to.get("HOME") or set_to.get("USERPROFILE")
    if named:
        return Path(named)
    try:
        return Path.home()
    except (RuntimeError, KeyError):
        raise LayoutError(
            f"this user has no home folder to keep things in; set {OVERRIDE} to a folder"
        ) from None
