"""Files written whole or not at all: beside their place first, then moved there together."""

import os
import stat
import tempfile
from collections.abc import Iterable, Mapping
from pathlib import Path

from layout.errors import SheetError


def save_whole(files: Mapping[Path, bytes]) -> None:
    """Put every file in place whole, or none.

    Where a target is a link, the file that it points to is written and the link stays. All
    places are checked before the first file is written. Raises SheetError where a place cannot
    be written.
    """
    places = {_place(target): data for target, data in files.items()}
    check_places(places)
    ready: list[tuple[str, Path]] = []
    try:
        for target, data in places.items():
            handle, name = tempfile.mkstemp(prefix=".", suffix=".part", dir=target.parent)
            ready.append((name, target))
            with os.fdopen(handle, "wb") as file:
                file.write(data)
            os.chmod(name, 0o666 & ~_umask())
        for name, target in ready:
            os.replace(name, target)
    except FileNotFoundError as error:
        # /proc and its like: a folder that is there, and in which nothing can be made.
        reason = "no file can be made in that folder; name another folder"
        raise _cannot(target, reason) from error
    except OSError as error:
        raise _cannot(target, error.strerror or str(error)) from error
    finally:
        for name, _ in ready:
            Path(name).unlink(missing_ok=True)


def check_ending(target: Path, *endings: str) -> None:
    """Raise SheetError for a name with none of these endings, such as ".pdf"."""
    if target.suffix.casefold() not in endings:
        *first, last = endings
        known = f"{', '.join(first)} or {last}" if first else last
        raise SheetError(f"cannot write {target.name!r}: the name must end in {known}")


def check_places(targets: Iterable[Path]) -> None:
    """Raise SheetError for the first place where no file can be written."""
    for target in targets:
        check_place(target)


def check_place(target: Path) -> None:
    """Raise SheetError where no file can be written, before the work for it is done."""
    place = _place(target)
    try:
        mode = os.stat(place).st_mode if os.path.lexists(place) else None
        if not place.parent.is_dir():
            raise _cannot(target, f"there is no folder {str(target.parent)!r}; make it first")
        longest = os.pathconf(place.parent, "PC_NAME_MAX") if hasattr(os, "pathconf") else 255
    except OSError as error:
        raise _cannot(target, error.strerror or str(error)) from error
    if mode is not None and not stat.S_ISREG(mode):
        what = "a folder" if stat.S_ISDIR(mode) else "no regular file"
        raise _cannot(target, f"it is {what}; give another name")
    if len(os.fsencode(place.name)) > longest:
        raise _cannot(target, f"the name is longer than {longest} letters; give a shorter one")
    if not os.access(place.parent, os.W_OK | os.X_OK):
        raise _cannot(target, "Permission denied")


def _place(target: Path) -> Path:
    """Where the file lies in truth: at the end of its links."""
    return Path(os.path.realpath(target)) if os.path.islink(target) else target


def _cannot(target: Path, reason: str) -> SheetError:
    return SheetError(f"cannot write {str(target)!r}: {reason}")


def _umask() -> int:
    """The process's file mode mask; it can be read only by setting it."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
