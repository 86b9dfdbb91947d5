"""Several drawings on one sheet, and blocks in whatever paper they leave free.

A drawing goes as near as can be to the lower right corner, upright or turned, and blocks fill
the sheet from its upper left one. What does not fit leaves the sheet as it was.

    page = nested(drawings, blocks, blank)     None where one sheet does not hold them
    sheet = empty(blank)
    add(sheet, drawing)                        one that stands in its place already
    stood(sheet, blocks)                       False where the sheet has no room for them
    page = filled(sheet)
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cache, partial
from itertools import product

import shapely
import shapely.affinity

from figures.ink.drawing import Box, Drawing, Polygon
from figures.ink.hatch import hatched
from figures.ink.pens import Point
from figures.page.beside import Block, free_rooms, least_area_in2, stand
from figures.page.sheet import Page, clear_field
from figures.page.tile_plan import covered
from figures.place.white_space import FreeRoom
from layout.errors import SheetError

APART_IN = 0.2
"""White between two drawings on a sheet [in]."""
BOTH_WAYS = (False, True)
_LOWER_RIGHT = (1.0, 0.0)
"""The corner of a drawing that goes near the sheet's, in shares of its width and height."""
_LOOSE = 1e-9


@dataclass
class SharedSheet:
    """A sheet while it is being filled."""

    page: Page
    rooms: list[FreeRoom]
    drawing: Drawing = field(default_factory=Drawing)
    beside: Drawing = field(default_factory=Drawing)


def empty(page: Page) -> SharedSheet:
    """A sheet with nothing on it."""
    return SharedSheet(page, free_rooms(clear_field(page)))


def filled(sheet: SharedSheet) -> Page:
    """The page that a sheet has become."""
    return replace(sheet.page, drawing=sheet.drawing, beside=sheet.beside)


def add(sheet: SharedSheet, drawing: Drawing) -> None:
    """A drawing that stands in its place already."""
    taken = covered(drawing)
    for each in sheet.rooms:
        each.take(taken)
    sheet.drawing += drawing


def stood(sheet: SharedSheet, blocks: Sequence[Block], home: Point | None = None) -> bool:
    """Blocks on a sheet, near a point or its upper left corner, if all of them find room there."""
    left, _, _, top = clear_field(sheet.page)
    before = [(each, each.kept()) for each in sheet.rooms]
    (beside,), still = stand(blocks, [sheet.rooms], home or (left, top), all_or_none=True)
    if not still:
        sheet.beside += beside
        return True
    for each, was in before:
        each.put_back(was)
    return False


@dataclass(frozen=True)
class _Nestling:
    """A drawing as it would be put on a sheet, still unhatched, its bounds and what it covers
    [in]."""

    drawing: Drawing
    box: Box
    taken: Polygon


def nested(drawings: Sequence[Drawing], blocks: Sequence[Block], blank: Page) -> Page | None:
    """Drawings and blocks on one sheet, the paper either way round; None where they do not fit."""
    needed = least_area_in2(blocks) + sum(float(covered(one).area) for one in drawings)
    # Each is made when it is first wanted, and moved when all have their places.
    made = [cache(partial(_nestling, one)) for one in drawings]
    for page in (blank, replace(blank, paper=blank.paper.turned())):
        try:
            room = shapely.box(*clear_field(page))
        except SheetError:
            continue
        if needed > room.area:
            continue
        for turns in product(BOTH_WAYS, repeat=len(drawings)):
            nestlings = [one(turned) for one, turned in zip(made, turns, strict=True)]
            sheet = empty(page)
            moves = _moves(sheet, nestlings)
            if moves is not None and stood(sheet, blocks):
                for one, move in zip(nestlings, moves, strict=True):
                    sheet.drawing += hatched(one.drawing).moved(*move)
                return filled(sheet)
    return None


def _nestling(drawing: Drawing, turned: bool) -> _Nestling:
    one = drawing.turned(90) if turned else drawing
    return _Nestling(one, one.bounds(), covered(one))


def _moves(sheet: SharedSheet, nestlings: Sequence[_Nestling]) -> list[Point] | None:
    """How far each is moved to its place, which is taken; None where one has none."""
    moves: list[Point] = []
    for one in nestlings:
        x0, y0, x1, y1 = one.box
        found = _spot(sheet, (x1 - x0, y1 - y0), bare=not moves)
        if found is None:
            return None
        moves.append((found[0] - x0, found[1] - y0))
        taken = shapely.affinity.translate(one.taken, *moves[-1])
        for room in sheet.rooms:
            room.take(taken)
    return moves


def _spot(sheet: SharedSheet, size: Point, bare: bool) -> Point | None:
    """The lower left corner of a free place for a drawing, white round it where others stand: on a
    bare sheet the corner of that."""
    left, bottom, right, top = clear_field(sheet.page)
    if bare:
        fits = size[0] <= right - left + _LOOSE and size[1] <= top - bottom + _LOOSE
        return (right - size[0], bottom) if fits else None
    wide, high = size[0] + APART_IN, size[1] + APART_IN
    for room in sheet.rooms:
        found = room.find((wide, high), (right, bottom), corner=_LOWER_RIGHT)
        if found is not None:
            return found[0] + APART_IN / 2, found[1] + APART_IN / 2
    return None
