"""The job folder: the one place whose files the live page reads and writes.

A file is named by a plain name and no path; what is saved is written whole, over nothing that
has changed since it was read.
"""

import hashlib
import re
from dataclasses import dataclass
from pathlib import Path

from figures.files.whole import save_whole
from layout.errors import LayoutError

NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9 _-]{0,60}\.toml")
LARGEST = 100_000


class FolderError(LayoutError):
    """A file that is not there, may not be named, or cannot be saved."""


class ChangedError(FolderError):
    """The file is another than the one that was read."""


@dataclass(frozen=True)
class JobText:
    """A job file's text, and the mark by which a later change of the file is seen."""

    name: str
    text: str

    @property
    def mark(self) -> str:
        """A digest of the text; empty for a file that is not there yet."""
        return hashlib.sha256(self.text.encode()).hexdigest() if self.text else ""


class JobFolder:
    """The folder named at start."""

    def __init__(self, folder: Path) -> None:
        if not folder.is_dir():
            raise FolderError(f"there is no folder {str(folder)!r}; make it, or name another")
        self.folder = folder.resolve()

    def place(self, name: str) -> Path:
        """Where a file of this name lies. Raises FolderError for anything but a plain name."""
        if NAME.fullmatch(name) is None:
            raise FolderError("a job file is named by letters and digits, such as yard.toml")
        place = self.folder / name
        if place.is_symlink():
            raise FolderError(f"{name} is a link to elsewhere; only files of the folder are opened")
        return place

    def names(self) -> list[str]:
        """The job files that are there."""
        found = [path.name for path in self.folder.glob("*.toml") if NAME.fullmatch(path.name)]
        return sorted(name for name in found if self.place_or_none(name))

    def place_or_none(self, name: str) -> Path | None:
        """Where the file lies, None where it is no plain file."""
        try:
            place = self.place(name)
        except FolderError:
            return None
        return place if place.is_file() else None

    def read(self, name: str) -> JobText:
        """A job file as it is now. Raises FolderError where it cannot be read."""
        place = self.place(name)
        try:
            if not place.is_file() or place.stat().st_size > LARGEST:
                raise FolderError(f"there is no job file {name} here")
            return JobText(name, place.read_text("utf-8"))
        except (OSError, UnicodeDecodeError) as error:
            raise FolderError(f"{name} cannot be read: {error}") from None

    def save(self, name: str, text: str, mark: str) -> JobText:
        """Save a job file whole. Raises ChangedError where it changed since `mark` was made."""
        place = self.place(name)
        here = self.read(name).mark if place.exists() else ""
        if here != mark:
            raise ChangedError(f"{name} was changed elsewhere since it was opened here")
        if len(text.encode()) > LARGEST:
            raise FolderError(f"{name} would be larger than any job")
        save_whole({place: text.encode()})
        return JobText(name, text)
