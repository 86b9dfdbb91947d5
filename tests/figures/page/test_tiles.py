"""Tiles by plain arithmetic: windows, cells, seams and the words beside them, the map of pages."""

from itertools import product
from math import inf

import pytest
import shapely

from figures.ink.drawing import Drawing, Label, Stroke, label_box
from figures.page.tiles import (
    CROSS_IN,
    SEAM_CLEAR_IN,
    Grid,
    grid_over,
    key_map,
    off_seams,
    page_letter,
    seams,
)
from layout.errors import SheetError

GRID = Grid(left=2.0, top=30.0, width=8.0, height=10.0, overlap=1.0, columns=3, rows=3)
"""Windows from x = 2, 9, 16 and down from y = 30, 21, 12; seams at 9.5, 16.5 and 20.5, 11.5."""
LETTERS = {place: page_letter(i) for i, place in enumerate(product(range(3), range(3)))}


def line(*points, pen="cut"):
    return Stroke(points, pen)


def test_windows_overlap_and_cells_meet_in_the_middle_of_the_overlap():
    assert [GRID.window(0, i)[::2] for i in range(3)] == [(2, 10), (9, 17), (16, 24)]
    assert [GRID.window(i, 0)[1::2] for i in range(3)] == [(20, 30), (11, 21), (2, 12)]
    assert [GRID.cell(0, i)[::2] for i in range(3)] == [(-inf, 9.5), (9.5, 16.5), (16.5, inf)]
    assert [GRID.cell(i, 2)[1::2] for i in range(3)] == [(20.5, inf), (11.5, 20.5), (-inf, 11.5)]


@pytest.mark.parametrize("far", [-40.0, 0.0, 13.0])
@pytest.mark.parametrize(("wide", "high"), [(7.9, 9.9), (8.1, 9.9), (15.0, 28.0), (22.1, 30.0)])
def test_the_fewest_tiles_cover_a_drawing_wherever_it_stands_in_its_inches(wide, high, far):
    """n tiles show n w - (n - 1) o: as many as are needed, and the drawing in their middle."""
    bounds = (far, -far, far + wide, -far + high)
    grid = grid_over(bounds, (1.0, 2.0, 9.0, 12.0), 1.0)
    assert (grid.width, grid.height, grid.overlap) == (8, 10, 1)
    least = [n for n in range(1, 9) if 8 * n - (n - 1) >= wide - 1e-6]
    assert grid.columns == least[0]
    assert grid.rows == next(n for n in range(1, 9) if 10 * n - (n - 1) >= high - 1e-6)
    x0, _, _, y1 = grid.window(0, 0)
    _, y0, x1, _ = grid.window(grid.rows - 1, grid.columns - 1)
    assert (x0 + x1) / 2 == pytest.approx(far + wide / 2)
    assert (y0 + y1) / 2 == pytest.approx(-far + high / 2)


def test_what_no_grid_carries_is_refused_with_its_numbers():
    with pytest.raises(SheetError, match=r"overlap of 4 in leaves nothing of a field 8 by 10 in"):
        grid_over((0, 0, 5, 5), (1, 1, 9, 11), 4.0)
    with pytest.raises(SheetError, match=r"overlap of 3 in leaves nothing of a field 10 by 6 in"):
        grid_over((0, 0, 5, 5), (1, 1, 11, 7), 3.0)
    assert grid_over((0, 0, 5, 5), (1, 1, 9, 11), 3.9).columns == 1
    # 10 x 20 tiles are 200, the most; one more column is too many.
    room = (0.0, 0.0, 8.0, 10.0)
    most = grid_over((5, 5, 5 + 71, 5 + 181), room, 1.0)
    assert (most.columns, most.rows) == (10, 20)
    with pytest.raises(SheetError, match=r"drawing, 72 by 181 in, would take 220 pages"):
        grid_over((5, 5, 5 + 72, 5 + 181), room, 1.0)


def test_pages_are_lettered_as_the_columns_of_a_sheet_of_sums():
    """After Z comes AA, after AZ BA, after ZZ AAA (common practice, no source)."""
    letters = [page_letter(i) for i in (0, 1, 25, 26, 27, 51, 52, 701, 702)]
    assert letters == ["A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]


@pytest.mark.parametrize("place", [(0, 0), (1, 1), (2, 1), (0, 2)])
def test_a_seam_is_a_line_between_two_crosses_with_words_on_the_strip_cut_off(place):
    made = seams(Drawing(), GRID, place, LETTERS)
    row, column = place
    x0, y0, x1, y1 = GRID.window(*place)
    window, cell = shapely.box(x0, y0, x1, y1), GRID.cell(*place)
    sides = {"left": (row, column - 1), "right": (row, column + 1), "up": (row - 1, column),
             "down": (row + 1, column)}  # fmt: skip
    sides = {side: LETTERS[beside] for side, beside in sides.items() if beside in LETTERS}
    trims = {s.gid.removeprefix("trim-"): s for s in made.strokes if s.pen == "trim"}
    assert trims.keys() == sides.keys()
    assert len(made.labels) == len(sides)
    crosses = [s.points for s in made.strokes if s.pen == "cross"]
    assert len(crosses) == 4 * len(sides)
    for side, trim in trims.items():
        upright = side in ("left", "right")
        seam = cell[["left", "down", "right", "up"].index(side)]
        ends = ((seam, y0), (seam, y1)) if upright else ((x0, seam), (x1, seam))
        assert trim.points == ends
        # Crosses stand a fifth from both ends of what is left when all seams are trimmed.
        low, high = (cell[1], cell[3]) if upright else (cell[0], cell[2])
        begin, end = (y0, y1) if upright else (x0, x1)
        low, high = max(low, begin + 0.5), min(high, end - 0.5)
        for share in (0.2, 0.8):
            along = low + share * (high - low)
            x, y = (seam, along) if upright else (along, seam)
            for arm in (
                ((x - CROSS_IN, y), (x + CROSS_IN, y)),
                ((x, y - CROSS_IN), (x, y + CROSS_IN)),
            ):
                assert any(one == tuple(map(pytest.approx, arm)) for one in crosses), (side, arm)
        (words,) = [label for label in made.labels if label.text.split()[-1] == sides[side]
                    or label.text.split()[1] == sides[side]]  # fmt: skip
        later = side in ("left", "up")
        assert words.text == (
            f"trim here, lay on page {sides[side]}" if later
            else f"page {sides[side]} lies to this line"
        )  # fmt: skip
        box = label_box(words)
        strip = {"left": (x0, y0, seam, y1), "right": (seam, y0, x1, y1),
                 "up": (x0, seam, x1, y1), "down": (x0, y0, x1, seam)}[side]  # fmt: skip
        assert shapely.box(*strip).covers(box)
        assert window.covers(box)
        middle = box.centroid
        assert (middle.y if upright else middle.x) == pytest.approx((low + high) / 2, abs=0.02)
        assert (words.rotation_deg, words.size_pt) == (90.0 if upright else 0.0, 8.0)


def test_two_neighbours_have_the_same_crosses_on_their_seam():
    for one, other, side, back in (
        ((1, 0), (1, 1), "right", "left"),
        ((1, 1), (2, 1), "down", "up"),
    ):
        found = []
        for place, name in ((one, side), (other, back)):
            made = seams(Drawing(), GRID, place, LETTERS)
            (trim,) = [
                shapely.LineString(s.points) for s in made.strokes if s.gid == f"trim-{name}"
            ]
            found.append(
                {
                    s.points
                    for s in made.strokes
                    if s.pen == "cross" and trim.intersects(shapely.LineString(s.points))
                }
            )
        assert found[0] & found[1]
        assert len(found[0] & found[1]) >= 4


def test_no_seam_where_the_neighbour_is_not_printed():
    few = {(0, 0): "A", (1, 0): "B"}
    made = seams(Drawing(), GRID, (0, 0), few)
    assert [s.gid for s in made.strokes if s.pen == "trim"] == ["trim-down"]
    assert "B" in made.labels[0].text


def test_words_beside_a_seam_keep_off_marks_before_they_keep_off_hatching():
    """The right seam of the first tile, x = 9.5: a strip half an inch wide, y from 20.5 to 29.5."""
    two = {(0, 0): "A", (0, 1): "B"}

    def words(*strokes):
        (label,) = seams(Drawing(strokes), GRID, (0, 0), two).labels
        return label, label_box(label)

    hatch = tuple(line((9.4, y / 10), (10.1, y / 10), pen="hatch") for y in range(190, 310))
    free, box = words()
    mark = line((9.0, 25.2), (11.0, 25.2))
    moved, beside = words(mark)
    assert not beside.intersects(shapely.LineString(mark.points))
    assert moved.text == free.text
    assert beside != box
    onto, over = words(mark, *hatch)
    assert not over.intersects(shapely.LineString(mark.points))
    assert onto.text == free.text
    # Where marks leave no room for the whole words the short ones stand between them.
    posts = tuple(line((9.0, y / 10), (11.0, y / 10)) for y in range(190, 310, 11))
    short, between = words(*posts)
    assert short.text == "page B"
    assert not any(between.intersects(shapely.LineString(post.points)) for post in posts)


@pytest.mark.parametrize("overlap", [0.25, 0.5, 1.0])
def test_words_beside_a_seam_are_no_taller_than_the_strip(overlap):
    grid = Grid(0.0, 20.0, 8.0, 10.0, overlap, 2, 1)
    (words,) = seams(Drawing(), grid, (0, 0), {(0, 0): "A", (0, 1): "B"}).labels
    x0, _, x1, _ = label_box(words).bounds
    seam, edge = grid.cell(0, 0)[2], grid.window(0, 0)[2]
    assert seam <= x0
    assert x1 <= edge
    assert words.size_pt == pytest.approx(min(8.0, overlap / 2 * 72 / 1.4))


@pytest.mark.parametrize(
    ("x", "y", "toward"),
    [
        (9.4, 25.0, "left"),
        (9.6, 25.0, "right"),
        (16.3, 14.0, "left"),
        (5.0, 20.52, "up"),
        (5.0, 20.48, "down"),
        (5.0, 11.47, "down"),
    ],
)
def test_words_on_a_seam_are_moved_off_it_by_the_shortest_way(x, y, toward):
    label = Label("datum", x, y, 10, "center", "center")
    (moved,) = off_seams(Drawing(labels=(label,)), GRID).labels
    x0, y0, x1, y1 = label_box(moved).bounds
    seam_x = 9.5 if x < 12 else 16.5
    seam_y = 20.5 if y > 16 else 11.5
    clear = {
        "left": (seam_x - x1, moved.y - y),
        "right": (x0 - seam_x, moved.y - y),
        "up": (y0 - seam_y, moved.x - x),
        "down": (seam_y - y1, moved.x - x),
    }[toward]
    assert clear == pytest.approx((SEAM_CLEAR_IN, 0.0))


def test_words_are_moved_the_other_way_where_something_stands_in_theirs():
    label = Label("datum", 9.4, 25.0, 10, "center", "center")
    for other in (
        Drawing((line((9.35, 20.0), (9.35, 29.0)),)),
        Drawing(labels=(Label("|", 9.2, 25.0, 10, "right", "center"),)),
    ):
        moved = off_seams(Drawing(labels=(label,)) + other, GRID).labels[0]
        assert label_box(moved).bounds[0] == pytest.approx(9.5 + SEAM_CLEAR_IN)
    both = Drawing((line((9.35, 20.0), (9.35, 29.0)), line((9.8, 20.0), (9.8, 29.0))))
    assert off_seams(Drawing(labels=(label,)) + both, GRID).labels == (label,)
    free = Label("datum", 6.0, 25.0, 10, "center", "center")
    assert off_seams(Drawing(labels=(free,)), GRID).labels == (free,)


def test_words_are_not_moved_off_one_seam_onto_another():
    narrow = Grid(left=2.0, top=30.0, width=2.0, height=2.0, overlap=1.0, columns=6, rows=3)
    label = Label("as wide as a tile is", 4.4, 29.5, 10, "center", "center")
    x0, _, x1, _ = label_box(label).bounds
    assert x1 - x0 > 1.0
    assert off_seams(Drawing(labels=(label,)), narrow).labels == (label,)


def test_the_map_shows_each_page_in_its_place_and_the_first_one_heavy():
    kept = [(1, 0), (0, 0), (0, 2), (1, 3)]
    made = key_map(2, 4, kept)
    *letters, title = made.labels
    assert title.text == "Pages"
    assert label_box(title).bounds[1] > 0
    side = 1.5 / 4
    for i, ((row, column), stroke, label) in enumerate(
        zip(kept, made.strokes, letters, strict=True)
    ):
        assert stroke.pen == ("visible" if i == 0 else "frame")
        assert label.text == "ABCD"[i]
        xs, ys = zip(*stroke.points, strict=True)
        box = (min(xs), min(ys), max(xs), max(ys))
        assert box == pytest.approx(
            (column * side, -(row + 1) * side, (column + 1) * side, -row * side)
        )
        assert shapely.LinearRing(stroke.points).length == pytest.approx(4 * side)
        assert shapely.Polygon(stroke.points).area == pytest.approx(side**2)
        assert (label.x, label.y) == pytest.approx(((column + 0.5) * side, -(row + 0.5) * side))
        assert shapely.box(*box).covers(label_box(label))
        assert label.size_pt == 10.0
    tall = key_map(20, 1, [(0, 0), (19, 0)])
    assert tall.labels[1].size_pt == pytest.approx(1.5 / 20 * 72 * 0.6)
    assert key_map(1, 2, [(0, 0)]).strokes[0].points[1][0] == pytest.approx(0.42)
