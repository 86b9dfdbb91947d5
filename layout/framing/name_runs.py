"""Names with running numbers as they stand in a list: C1 to C16."""

from collections.abc import Sequence


def in_runs(names: Sequence[str]) -> str:
    """Names with running numbers, three or more in a run as first to last.

    >>> in_runs(["C1", "C2", "C3", "C5", "C7", "C8"])
    'C1 to C3, C5, C7, C8'
    """
    runs: list[list[str]] = []
    for name in names:
        letters = name.rstrip("0123456789")
        follows = runs and runs[-1][-1] == f"{letters}{int(name[len(letters) :]) - 1}"
        if follows:
            runs[-1].append(name)
        else:
            runs.append([name])
    said = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs]
    return ", ".join(said)
