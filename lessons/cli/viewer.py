"""Showing a file in the viewer that the system has for its kind."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

from layout.errors import SheetError


def show(path: Path) -> None:
    """Open a file in the system's viewer, without waiting for it.

    Raises SheetError where the system has none that could be asked.
    """
    if sys.platform == "win32":
        os.startfile(path)
        return
    command = "open" if sys.platform == "darwin" else "xdg-open"
    program = shutil.which(command)
    if program is None:
        raise SheetError(
            f"wrote {str(path)!r}, but found no {command!r} to show it with: open the file yourself"
        )
    null = subprocess.DEVNULL
    subprocess.Popen(
        [program, str(path)], stdin=null, stdout=null, stderr=null, start_new_session=True
    )
