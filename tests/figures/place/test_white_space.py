"""A room for words, against the geometry library asked about each of its squares."""

import numpy as np
import pytest
import shapely

from figures.place.white_space import CLEAR_IN, FreeRoom

REGIONS = {
    "a rectangle": shapely.box(0.3, 0.2, 3.1, 2.4),
    "a slanted one": shapely.Polygon([(0.0, 0.0), (3.0, 0.5), (2.6, 2.5), (0.2, 1.9)]),
}
TAKEN = {
    "a box": shapely.box(1.013, 0.741, 1.502, 1.017),
    "a box beside it": shapely.box(-1.0, 0.5, 0.28, 0.9),
    "a box far off": shapely.box(9.0, 9.0, 9.5, 9.9),
    "a slanted box": shapely.Polygon([(1.0, 1.0), (2.0, 1.2), (1.9, 1.5), (0.9, 1.3)]),
    "a line": shapely.LineString([(0.0, 1.0), (2.0, 1.7)]),
    "a level line": shapely.LineString([(0.5, 1.0), (2.5, 1.0)]),
}


@pytest.mark.parametrize("region", REGIONS)
@pytest.mark.parametrize("taken", TAKEN)
def test_a_square_is_free_where_it_is_clear_of_the_edge_and_of_what_was_taken(region, taken):
    area, shape = REGIONS[region], TAKEN[taken]
    room = FreeRoom(area)
    bare = room.kept().free
    room.take(shape)
    reach = CLEAR_IN + 0.7072 * room.cell_in
    inner, grown = area.buffer(-reach), shape.buffer(reach)
    left, bottom, _, _ = area.bounds
    rows, columns = bare.shape
    for j, i in np.ndindex(rows, columns):
        spot = shapely.Point(left + (i + 0.5) * room.cell_in, bottom + (j + 0.5) * room.cell_in)
        assert bare[j, i] == inner.contains(spot)
        assert room.kept().free[j, i] == (bare[j, i] and not grown.contains(spot))


def test_what_is_put_back_is_as_it_was_however_often():
    room = FreeRoom(REGIONS["a rectangle"])
    was = room.kept()
    free = was.free.copy()
    for _ in range(3):
        assert room.place((1.0, 0.5), (1.0, 1.0)) is not None
        assert room.find((2.7, 2.1), (1.0, 1.0)) is None
        room.put_back(was)
        assert (room.kept().free == free).all()
        assert room.fits(shapely.box(1.0, 1.0, 2.0, 1.5))


def test_what_found_no_room_is_not_tried_again_and_smaller_things_are():
    room = FreeRoom(REGIONS["a rectangle"])
    assert room.find((2.0, 2.0), (0.0, 0.0)) is not None
    room.take(TAKEN["a level line"])
    for size, fits in (((2.0, 2.0), False), ((2.1, 2.2), False), ((2.0, 0.9), True)):
        assert (room.find(size, (0.0, 0.0)) is not None) == fits
