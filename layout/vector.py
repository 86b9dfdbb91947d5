"""Small vector algebra on arrays of shape (..., 3): the last axis is x, y, z."""

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Flags = NDArray[np.bool_]
else:  # the names alone are needed when it runs, and the other module takes time to load
    Array = Flags = np.ndarray
Angle = float | Array
"""An angle in degrees, or an array of them; arrays broadcast over leading axes."""

ROUNDING = 2.45e-16
"""What rounding of pi leaves of a sine or cosine that is 0, up to a full turn."""

_PLAIN = frozenset({float, int, np.float64})
"""Types of one number: nothing to broadcast."""

X: Array = np.array([1.0, 0.0, 0.0])
Y: Array = np.array([0.0, 1.0, 0.0])
Z: Array = np.array([0.0, 0.0, 1.0])


def vector(x: Angle, y: Angle, z: Angle) -> Array:
    """Stack three components that broadcast into one array (..., 3)."""
    if type(x) in _PLAIN and type(y) in _PLAIN and type(z) in _PLAIN:
        return np.array((x, y, z), dtype=float)
    stacked = np.empty((*np.broadcast(x, y, z).shape, 3))
    stacked[..., 0], stacked[..., 1], stacked[..., 2] = x, y, z
    return stacked


def _parts(a: Array) -> tuple[Angle, Angle, Angle]:
    """Components x, y, z over the last axis, each (...); of one vector plain numbers.

    They round alike: of plain numbers Python makes in a fifth of the time what arrays come to.
    """
    return tuple(a.tolist()) if a.ndim == 1 else (a[..., 0], a[..., 1], a[..., 2])


def dot(a: Array, b: Array) -> Array:
    """Scalar product over the last axis; shape (...)."""
    (ax, ay, az), (bx, by, bz) = _parts(a), _parts(b)
    product: Array = np.asarray(ax * bx + ay * by + az * bz)[()]
    return product


def cross(a: Array, b: Array) -> Array:
    """Vector product over the last axis, right-handed (..., 3)."""
    (ax, ay, az), (bx, by, bz) = _parts(a), _parts(b)
    return vector(ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx)


def unit(a: Array) -> Array:
    """The vector scaled to length 1; shape (..., 3). A zero vector gives nan: callers refuse it."""
    return a / np.sqrt(dot(a, a))[..., None]


def sign(value: Angle) -> int:
    """+1, -1 or 0: the sign of a single number as the whole number that settings carry."""
    return int(np.sign(value))


def facing(a: Array, toward: Array) -> Array:
    """The vector turned round where it points away from `toward`; both (..., 3)."""
    return a * np.where(dot(a, toward) < 0, -1.0, 1.0)[..., None]


def sin_cos(angle_deg: Angle) -> tuple[Array, Array]:
    """Sine and cosine of an angle in degrees, exact at right angles.

    Rounding of pi leaves cos 90° at 6e-17 and sin 360° at 2e-16; a square corner must be
    square, so what is no larger than that rounding is nothing: less than a step between two
    floats beside a right angle.
    """
    angle = np.radians(np.asarray(angle_deg, dtype=float))
    sine, cosine = np.sin(angle), np.cos(angle)
    return sine * (np.abs(sine) > ROUNDING), cosine * (np.abs(cosine) > ROUNDING)


def angle_deg(opposite: Angle, adjacent: Angle) -> Array:
    """The angle [degrees] whose tangent is |opposite| / |adjacent|, from 0 to 90."""
    return np.degrees(np.arctan2(np.abs(opposite), np.abs(adjacent)))


def at_height(plan: Array, z: Angle = 0.0) -> Array:
    """A plan point or way (..., 2) as a point of the world at height z (..., 3)."""
    return vector(plan[..., 0], plan[..., 1], z)
