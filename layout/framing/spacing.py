"""Where rafters stand along an eave: on center, from a stated start, mirrored at the hips."""

from collections.abc import Sequence

from layout.errors import LengthError

SAME_IN = 1e-9
ROUNDED_IN = 1e-6


def lay_out(
    length_in: float,
    start_hip_in: float,
    end_hip_in: float,
    spacing_in: float,
    first_in: float | None,
    fixed_in: Sequence[float],
    clear_in: float,
) -> tuple[float, ...]:
    """Positions of the rafters' middles along an eave of `length_in`, in order [inches].

    The hips reach their tops `start_hip_in` and `end_hip_in` in from either end (0 where there
    is no hip). Jacks of each hip are laid from its own corner, so that both sides of a hip and
    both ends of a roof pair: the first `first_in` from the corner, the rest `spacing_in` on.
    Without `first_in` they are laid from the common at the hip's top down to the corner.
    Commons go on from the start, and where they and the jacks of the hip at the end leave more than
    the spacing and `clear_in` between them one more stands at that hip's top. The `fixed_in`
    positions stand in any case; a laid rafter whose middle comes nearer than `clear_in` to one of
    them is left out, and two laid ones stand as far apart.

    >>> lay_out(100, 40, 40, 16, None, (40.0, 60.0), 3)
    (8.0, 24.0, 40.0, 56.0, 60.0, 76.0, 92.0)
    >>> lay_out(64, 0, 0, 16, None, (0.75, 63.25), 3)
    (0.75, 16.0, 32.0, 48.0, 63.25)
    >>> lay_out(100, 0, 30, 24, None, (), 3)
    (24.0, 48.0, 70.0, 94.0)
    >>> lay_out(100, 0, 27, 24, 12, (), 3)
    (12.0, 36.0, 60.0, 73.0, 88.0)
    """
    if spacing_in <= 0:
        raise LengthError(
            f"a spacing of {spacing_in:g} in parts no rafters; give one such as 16",
            about=["spacing"],
        )
    first_start, first_end = (
        _first(hip, spacing_in, first_in) for hip in (start_hip_in, end_hip_in)
    )
    up_to = length_in - end_hip_in
    laid = _steps(first_start, spacing_in, up_to + SAME_IN)
    if end_hip_in:
        laid = [p for p in laid if p < up_to - SAME_IN]
        laid += [length_in - p for p in _steps(first_end, spacing_in, end_hip_in - SAME_IN)]
    fixed = [p for p in fixed_in if 0 <= p <= length_in]
    kept = [p for p in laid if all(abs(p - f) >= clear_in for f in fixed)]
    spaced: list[float] = []
    for position in sorted(kept):
        if not spaced or position - spaced[-1] >= clear_in:
            spaced.append(position)
    placed = sorted([*fixed, *spaced])
    if end_hip_in:
        placed += _over_the_top([0.0, *placed, length_in], up_to, spacing_in, clear_in)
    return tuple(sorted(placed))


def _over_the_top(
    placed: Sequence[float], top_in: float, spacing_in: float, clear_in: float
) -> list[float]:
    """A rafter at a hip's top where what is placed, with both ends, leaves too wide a gap there.

    Each side's last stands within a spacing of the top, so in such a gap it is clear of both.
    """
    below = max(p for p in placed if p <= top_in)
    above = min(p for p in placed if p > top_in)
    return [float(top_in)] if above - below > spacing_in + clear_in + ROUNDED_IN else []


def _first(hip_in: float, spacing_in: float, first_in: float | None) -> float:
    if first_in is not None:
        return first_in
    return hip_in % spacing_in or spacing_in


def _steps(first_in: float, spacing_in: float, up_to_in: float) -> list[float]:
    count = 0
    positions = []
    while first_in + count * spacing_in <= up_to_in:
        positions.append(float(first_in + count * spacing_in))
        count += 1
    return positions
