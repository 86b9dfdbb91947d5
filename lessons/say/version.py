"""The version that made a sheet: printed on it, so that its key can be made again."""

import tomllib
from functools import cache
from importlib import metadata
from pathlib import Path

DISTRIBUTION = "square-and-saw"


@cache
def version() -> str:
    """The installed version; from a bare checkout, the one its project file names."""
    project = Path(__file__).resolve().parents[2] / "pyproject.toml"
    try:
        about = tomllib.loads(project.read_text("utf-8"))["project"]
        if about["name"] == DISTRIBUTION:
            return str(about["version"])
    except (OSError, KeyError, ValueError):
        pass
    try:
        return metadata.version(DISTRIBUTION)
    except metadata.PackageNotFoundError:
        return "unknown"
