"""One page where it fits, tiles that rebuild the drawing where it does not."""

from dataclasses import replace

import pytest
import shapely

from figures.files.press import write
from figures.ink.correction import Correction
from figures.ink.drawing import Area, Drawing, Label, Stroke, collisions, label_box
from figures.ink.hatch import hatched
from figures.ink.paper import read_paper
from figures.ink.pens import MARKS, PENS, pen, pieces
from figures.ink.scale import read_scale, to_scale
from figures.page.beside import Block
from figures.page.cautions import ALL_SAID, LARGE_PT, SIZE_PT
from figures.page.sheet import clear_field, furnished
from figures.page.tile_plan import plan_tiles
from figures.page.tiles import CROSS_IN
from figures.page.tiling import (
    PrintSetup,
    blank_page,
    note_pages,
    numbered,
    one_page,
    pages,
    places_in,
    rooms_on_one_page,
)
from layout.errors import SheetError
from tests.measure import pdf_pieces, pdf_text


def board(width, height):
    return Drawing(
        (
            Stroke(((0, 0), (width, 0), (width, height), (0, height), (0, 0)), "visible", "edge"),
            Stroke(((0, height / 3), (width, height / 3)), "fold", "arris"),
            Stroke(((width / 5, 0), (width * 0.7, height * 0.9), (width, height)), "cut", "cut"),
        ),
        (),
        (Label("datum edge", width / 2, 0.1, ha="center"),),
    )


def setup(name="Letter", **more):
    return PrintSetup(read_paper(name), **more)


def made(drawing, printing):
    return pages(drawing, printing, title="Hip jack, head", given="8 in 12, 2x6", version="v")


def tiles_of(drawing, printing):
    """The tiles of a drawing, without a page of notes."""
    return [page for page in made(drawing, printing) if page.letter]


def inside(page):
    return shapely.box(*clear_field(page)).buffer(1e-9)


@pytest.mark.parametrize(
    ("width", "height"),
    [(5, 5), (7, 6.2), (6.2, 7), (9.0, 5.0), (5.0, 9.0), (7.1, 5.5), (5, 6.8)],
)
def test_one_page_when_any_way_round_fits(width, height):
    """Beside the bars a Letter sheet has 7.1 x 9.1 in, and the cautions stand on it too."""
    (page,) = made(board(width, height), setup())
    box = shapely.box(*page.drawing.bounds())
    assert inside(page).covers(box)
    beside = page.beside.shapes()
    assert all(inside(page).covers(shape) for shape in beside)
    assert min(shapely.distance(shape, box) for shape in beside) > 0.03
    square = next(s for s in page.beside.strokes if s.gid == "check-square")
    assert len(square.points) == 5


def test_upright_comes_before_turned():
    (page,) = made(board(5, 4), setup())
    assert page.paper == read_paper("Letter")
    assert page.drawing.strokes[1].points[0][1] == page.drawing.strokes[1].points[1][1]


SIZES = [(12, 9), (16, 14), (3, 30), (25, 3)]


@pytest.mark.parametrize(("width", "height"), SIZES)
@pytest.mark.parametrize(("name", "overlap"), [("Letter", 0.5), ("A4 landscape", 1.0)])
def test_tiles_laid_together_are_the_drawing(width, height, name, overlap):
    """Every tile, moved back, shows exactly its window of the whole: dashes too."""
    drawing = board(width, height)
    tiles = tiles_of(drawing, setup(name, overlap_in=overlap))
    assert len(tiles) > 1
    assert [tile.letter for tile in tiles] == [chr(65 + i) for i in range(len(tiles))]
    turned = _is_turned(tiles, drawing)
    whole = hatched(drawing.turned(90) if turned else drawing)
    ink = _ink(whole)
    seen = []
    for tile in tiles:
        dx, dy = tile.origin
        part = _ink(tile.drawing.moved(-dx, -dy))
        left, bottom, right, top = clear_field(tile)
        window = shapely.box(left - dx, bottom - dy, right - dx, top - dy)
        want = ink.intersection(window)
        assert part.length == pytest.approx(want.length, abs=1e-6)
        assert shapely.hausdorff_distance(part, want) < 1e-9
        seen.append(part)
    together = shapely.union_all([part.buffer(1e-7) for part in seen])
    assert together.covers(ink)


def _is_turned(tiles, drawing):
    fold = [s for tile in tiles for s in tile.drawing.strokes if s.gid == "arris"]
    (x0, _), (x1, _) = fold[0].points[0], fold[0].points[-1]
    return abs(x1 - x0) < 1e-9


def _ink(drawing):
    own = [s for s in drawing.strokes if s.pen in MARKS]
    return shapely.MultiLineString(
        [piece for s in own for piece in pieces(s.points, pen(s.pen), s.start_in)]
    )


def test_seams_in_the_written_file(tmp_path):
    """Read back from the PDF, the cut and its dashes run on from page to page to 1e-5 in."""
    drawing = board(18, 6)
    tiles = tiles_of(drawing, setup())
    (path,) = write(tiles, tmp_path / "a.pdf", title="Jack")
    laid = []
    for i, tile in enumerate(tiles):
        dx, dy = tile.origin
        for piece in pdf_pieces(path, i):
            if piece.width_in > 0.4 / 25.4:
                line = shapely.LineString([(x - dx, y - dy) for x, y in piece.points])
                if shapely.box(-1, -1, 19, 7).covers(line):
                    laid.append(line)
    heavy = [s for s in drawing.strokes if PENS[s.pen].width_mm > 0.4]
    want = [p for s in heavy for p in pieces(s.points, pen(s.pen), s.start_in)]
    have = shapely.union_all([line.buffer(1e-5) for line in laid])
    assert have.covers(shapely.MultiLineString(want))
    wanted = shapely.MultiLineString(want).buffer(1e-5)
    assert all(wanted.covers(line) for line in laid)


def cell_of(tile):
    """What its trim lines leave of a tile [in]."""
    sides = {"left": -9e9, "down": -9e9, "right": 9e9, "up": 9e9}
    for stroke in tile.drawing.strokes:
        side = (stroke.gid or "").removeprefix("trim-")
        if side in sides:
            sides[side] = stroke.points[0][0 if side in ("left", "right") else 1]
    return sides["left"], sides["down"], sides["right"], sides["up"]


def test_neighbours_share_trim_lines_and_crosses(tmp_path):
    tiles = {
        tile.place.replace(",", "").split()[1::2][0:4:2][0] + tile.place.split()[5]: tile
        for tile in tiles_of(board(13, 15), setup())
    }
    first, beside, below = tiles["11"], tiles["12"], tiles["21"]
    for tile in (first, beside, below):
        inner = shapely.box(*cell_of(tile))
        words = [label for label in tile.drawing.labels if label.gid == "seam-words"]
        assert words
        for label in words:  # on the strip that is cut off or covered
            assert not inner.covers(label_box(label).centroid), label.text
    for one, other, names in (
        (first, beside, ("trim-right", "trim-left")),
        (first, below, ("trim-down", "trim-up")),
    ):
        lines = []
        for tile, name in zip((one, other), names, strict=True):
            dx, dy = tile.origin
            trim = next(s for s in tile.drawing.strokes if s.gid == name)
            line = shapely.LineString(trim.points)
            crosses = {
                tuple(round(c, 9) for x, y in s.points for c in (x - dx, y - dy))
                for s in tile.drawing.strokes
                if s.pen == "cross" and line.intersects(shapely.LineString(s.points))
            }
            lines.append((shapely.affinity.translate(line, -dx, -dy), crosses))
        (a, crosses_a), (b, crosses_b) = lines
        assert shapely.hausdorff_distance(a, b) < 1e-9
        assert crosses_a & crosses_b
        assert len(crosses_a & crosses_b) >= 4


def test_tiles_without_ink_are_left_out():
    ring = Drawing((Stroke(((0, 0), (24, 0), (24, 0.5), (0.5, 0.5), (0.5, 24), (0, 24)), "cut"),))
    tiles = tiles_of(ring, setup())
    rows, columns = (int(tiles[0].place.split()[i].strip(",")) for i in (3, 7))
    assert len(tiles) < rows * columns
    assert all(any(s.pen == "cut" for s in tile.drawing.strokes) for tile in tiles)
    assert [tile.number for tile in made(ring, setup())] == [i + 1 for i in range(tiles[0].count)]


def test_rows_and_columns_are_counted_over_the_pages_that_are_printed():
    """A paper 6 by 25 in takes three tiles of Letter, less than 10 in high each; what is cut ends
    15 in up, so that the topmost bears nothing. The two that are printed are row 1 and row 2 of
    2, and their map shows no more."""
    edge = Stroke(((0, 0), (6, 0), (6, 25), (0, 25), (0, 0)), "guide")
    tiles = tiles_of(Drawing((edge, Stroke(((1, 1), (5, 15)), "cut"))), setup())
    said = sorted(tile.place for tile in tiles)
    assert said == ["row 1 of 2, column 1 of 1", "row 2 of 2, column 1 of 1"]


def test_first_page_maps_the_pages(tmp_path):
    tiles = made(board(16, 14), setup())
    (path,) = write(tiles, tmp_path / "a.pdf", title="Jack")
    words = pdf_text(path).split()
    assert {tile.letter for tile in tiles if tile.letter} <= set(words)
    assert "Pages" in words
    assert "Pages" not in pdf_text(path, 1).split()
    assert not tiles[1].beside


@pytest.mark.parametrize("name", ["Letter", "A4", "Legal landscape", "Tabloid", "A3", "6x9"])
@pytest.mark.parametrize("size", [(5, 4), (14, 15)])
@pytest.mark.parametrize("correction", [Correction(), Correction(1.02, 0.98)], ids=str)
def test_no_words_collide_or_leave_the_page(name, size, correction):
    for tile in made(board(*size), setup(name, correction=correction, margin_in=0.5)):
        drawn = furnished(tile)
        own = {label for label in tile.drawing.labels if label.gid != "seam-words"}
        found = [
            each
            for each in collisions(drawn, {"bar", "frame"})
            if each.label not in own and each.other not in own
        ]
        assert [str(each) for each in found] == []
        across, along = correction.across, correction.along
        x, y = (across, along) if tile.paper.across_x else (along, across)
        width, height = tile.paper.width_in / x, tile.paper.height_in / y
        page = shapely.box(0, 0, width, height).buffer(-tile.margin_in + 0.03)
        field = inside(tile)
        for label in drawn.labels:
            if label in own:
                assert field.intersects(label_box(label))
            else:
                assert page.covers(label_box(label)), label.text
        for stroke in drawn.strokes:
            assert page.covers(shapely.LineString(stroke.points)), stroke


def test_a_roll_is_cut_to_the_drawing():
    (page,) = made(board(40, 12), setup("roll-24"))
    assert page.paper.width_in == 24
    assert 41.5 < page.paper.height_in < 46
    assert inside(page).covers(shapely.box(*page.drawing.bounds()))
    (wide,) = made(board(40, 12), setup("roll-36", correction=Correction(0.99, 1.02)))
    assert inside(wide).covers(shapely.box(*wide.drawing.bounds()))


def test_a_roll_too_narrow_is_refused():
    with pytest.raises(SheetError, match="roll-24 is 24 in wide and the drawing 40 by 30 in"):
        made(board(40, 30), setup("roll-24"))


def test_study_scales_take_a_drawing_already_to_scale():
    half = read_scale("half")
    (page,) = made(to_scale(board(12, 9), half), setup(scale=half))
    x0, _, x1, _ = page.drawing.bounds()
    assert x1 - x0 == pytest.approx(6)
    assert page.square_at is None


@pytest.mark.parametrize(
    ("build", "message"),
    [
        (lambda: setup(margin_in=4.5), "margin of 4.5 in does not work"),
        (lambda: setup(overlap_in=9), "overlap of 9 in does not work"),
        (lambda: made(board(9, 9), setup("4x4")), "leaves no room for a drawing"),
        (lambda: made(board(900, 800), setup()), "drawing, 900 by 800 in, would take .* pages"),
        (lambda: made(board(0.1, 0.1), setup()), "leaves nothing to see"),
        (lambda: made(Drawing(), setup()), "nothing in the drawing"),
    ],
)
def test_what_cannot_be_printed(build, message):
    with pytest.raises(SheetError, match=message) as refusal:
        build()
    assert "\n" not in str(refusal.value)


def test_pages_of_several_drawings_are_counted_through():
    both = numbered(made(board(5, 5), setup()) + made(board(14, 9), setup()))
    assert [page.number for page in both] == list(range(1, len(both) + 1))
    assert {page.count for page in both} == {len(both)}


def test_words_move_off_a_seam_where_they_hide_nothing():
    """The same words: moved in the clear, left alone where a line stands on either side."""
    plain = board(14, 5)
    free = Label("which way is up", 7, 3, ha="center")
    kept = Label("which way is down", 7, 4, ha="center")
    posts = tuple(Stroke(((x, 3.9), (x, 4.2)), "guide") for x in (6.2, 6.3, 7.7, 7.8))
    drawing = plain + Drawing(posts, (), (free, kept))
    tiles = tiles_of(drawing, setup())
    assert not _is_turned(tiles, drawing)
    seen = {"which way is up": [], "which way is down": []}
    for tile in tiles:
        dx, dy = tile.origin
        for label in tile.drawing.labels:
            if label.text in seen:
                box = label_box(label)
                trims = [s for s in tile.drawing.strokes if s.pen == "trim"]
                on_trim = any(box.intersects(shapely.LineString(s.points)) for s in trims)
                seen[label.text].append((on_trim, round(label.x - dx, 6), round(label.y - dy, 6)))
    assert all(not on_trim and y == 3 for on_trim, _, y in seen["which way is up"])
    assert all(on_trim and (x, y) == (7, 4) for on_trim, x, y in seen["which way is down"])
    assert seen["which way is up"]
    assert seen["which way is down"]


def test_every_page_of_a_set_has_the_same_clear_field():
    """Wider numbers in the title never move the drawing."""
    tiles = tiles_of(board(40, 60), setup("6x9"))
    assert len(tiles) > 26
    assert len({clear_field(tile) for tile in numbered((*tiles,) * 3)}) == 1
    for tile in numbered((*tiles,) * 3):
        top = clear_field(tile)[3]
        words = furnished(replace(tile, drawing=Drawing())).labels
        assert not [w for w in words if label_box(w).bounds[1] < top < label_box(w).bounds[3]]


def test_no_scrap_of_a_word_from_the_next_page():
    """A tile has a word whole, or has it because its trimmed part needs it."""
    words = tuple(Label("datum", 0.37 * i, 0.2 * (i % 9) + 2) for i in range(34))
    drawing = board(14, 5) + Drawing(labels=words)
    tiles = tiles_of(drawing, setup())
    assert not _is_turned(tiles, drawing)
    homes = {label.y + label.x: 0 for label in words}
    for tile in tiles:
        trims = [s.points[0][0] for s in tile.drawing.strokes if s.pen == "trim"]
        dx, dy = tile.origin
        for label in tile.drawing.labels:
            if label.text != "datum":
                continue
            box = label_box(label)
            crossing = any(box.bounds[0] < x < box.bounds[2] for x in trims)
            assert inside(tile).covers(box) or crossing
            key = min(homes, key=lambda key: abs(key - (label.x - dx + label.y - dy)))
            homes[key] += 1
    assert all(homes.values())


def test_a_seam_keeps_off_lines_and_corners_where_tiles_have_room():
    """A fold in the very middle would lie on the seam: the tiles move off it."""
    middle = Stroke(((0, 5.5), (6, 5.5)), "fold", "arris")
    outline = Stroke(((0, 0), (6, 0), (6, 11), (0, 11), (0, 0)), "visible")
    drawing = Drawing((outline, middle))
    tiles = tiles_of(drawing, setup())
    assert len(tiles) == 2
    (first, *_) = tiles
    axis = 0 if first.turned else 1
    trims = [s for t in tiles for s in t.drawing.moved(-t.origin[0], -t.origin[1]).strokes]
    seams = {round(s.points[0][axis], 9) for s in trims if s.pen == "trim"}
    fold = -5.5 if first.turned else 5.5
    assert len(seams) == 1
    # They have so much to spare, and move by half of it at most: the drawing stays on them.
    _, bottom, _, top = clear_field(first)
    spare = 2 * (top - bottom) - setup().overlap_in - 11
    assert 0.29 < abs(seams.pop() - fold) <= spare / 2 + 1e-9


def test_tiles_are_those_of_the_drawing_that_words_were_put_clear_of():
    """Ink that is added afterwards changes neither the way the paper lies nor a seam."""
    bare = board(16, 14)
    plan = plan_tiles(bare, blank_page(setup(), title="x"), 0.5, with_words=True)
    lines = plan.seams()
    more = [Stroke((a, b), "cut") for (a, b) in lines]
    full = (bare + Drawing(tuple(more))).clipped((0, 0, 16, 14))
    tiles = pages(full, setup(), title="x", plan=plan)
    found = set()
    for tile in tiles:
        for stroke in tile.drawing.moved(-tile.origin[0], -tile.origin[1]).strokes:
            if stroke.pen == "trim":
                (ax, ay), (bx, by) = stroke.points
                if tile.turned:
                    ax, ay, bx, by = ay, -ax, by, -bx
                found.add(("x", round(ax, 6)) if abs(ax - bx) < 1e-9 else ("y", round(ay, 6)))
    wanted = {
        ("x", round(ax, 6)) if abs(ax - bx) < 1e-9 else ("y", round(ay, 6))
        for (ax, ay), (bx, by) in lines
    }
    assert found == wanted


def test_no_tile_bears_only_folds_or_waste_unless_it_joins_two_that_are_cut():
    """A long board with a cut at one end only is one tile; cuts at both ends bring the middle."""
    outline = Stroke(((0, 0), (30, 0), (30, 4), (0, 4), (0, 0)), "guide")
    fold = Stroke(((0, 2), (30, 2)), "fold", "fold-arris")
    waste = Area(shapely.box(10, 0, 30, 4), "waste")
    near = Stroke(((1, 0), (4, 4)), "cut", "mark")
    far = Stroke(((28, 0), (29, 4)), "cut", "mark")
    one = plan_tiles(Drawing((outline, fold, near), (waste,)), blank_page(setup(), title="x"), 0.5)
    assert len(one.kept) == 1
    assert not one.left_out().is_empty
    both = plan_tiles(
        Drawing((outline, fold, near, far), (waste,)), blank_page(setup(), title="x"), 0.5
    )
    assert len(both.kept) == both.grid.columns * both.grid.rows > 2


def test_blocks_stand_on_a_page_of_their_own_where_the_drawing_leaves_no_room():
    (first, second) = made(board(7.0, 8.7), setup())
    assert not first.drawing
    assert first.beside
    assert second.drawing
    text = " ".join(label.text.replace("\n", " ") for label in furnished(first).labels)
    for word in ("WARNING", "NOTICE", "FOR TRAINING"):
        assert word in text
    line = [label.text for label in furnished(second).labels if label.text.startswith("WARNING")]
    assert len(line) == 1
    assert "page 1" in line[0]


def frame(width, height):
    edges = ((3, 2), (3 + width, 2), (3 + width, 2 + height), (3, 2 + height), (3, 2))
    return Drawing((Stroke(edges, "visible"),))


def one(drawing, printing):
    """The one sheet of a drawing that bears its cautions already."""
    return one_page(drawing, printing, title="Jack", given="2x6", said=ALL_SAID)


@pytest.mark.parametrize("name", ["Letter", "A4 landscape", "6x9"])
def test_a_drawing_as_large_as_the_room_of_a_sheet_goes_on_it_and_none_larger(name):
    rooms = rooms_on_one_page(setup(name), title="Jack", given="2x6")
    assert len(rooms) == 4  # the paper both ways, the drawing both ways
    assert {(high, wide) for wide, high in rooms} == set(rooms)
    for wide, high in rooms:
        page = one(frame(wide, high), setup(name))
        assert page is not None
        assert inside(page).covers(shapely.box(*page.drawing.bounds()))
        assert one(frame(wide + 0.001, high), setup(name)) is None
        assert one(frame(wide, high + 0.001), setup(name)) is None
    roll = setup("roll-24")
    assert rooms_on_one_page(roll, title="Jack") == ()
    assert one(frame(5, 5), roll) is None


def test_a_drawing_is_tried_where_it_leaves_blocks_another_room():
    """In the lower right corner, over it, and in the middle over that; not twice within half an
    inch, counted across and up together."""
    assert places_in((4.0, 4.0)) == [(4.0, 0.0), (4.0, 4.0), (2.0, 4.0)]
    assert places_in((2.0, 0.4)) == [(2.0, 0.0), (1.0, 0.4)]
    assert places_in((0.6, 3.0)) == [(0.6, 0.0), (0.6, 3.0)]
    assert places_in((0.0, 0.5)) == [(0.0, 0.0)]
    assert places_in((0.0, 0.51)) == [(0.0, 0.0), (0.0, 0.51)]
    assert places_in((0.2, 0.2)) == [(0.2, 0.0)]
    assert places_in((0.4, 0.45)) == [(0.4, 0.0), (0.2, 0.45)]


@pytest.mark.parametrize(
    ("name", "size", "along", "turned"),
    [
        ("roll-24", (10, 30), 30, False),
        ("roll-24", (30, 10), 30, True),  # too wide to lie across
        ("roll-24", (20, 15), 15, False),
        ("roll-24", (15, 20), 15, True),  # turned it costs less
        ("roll-36", (30.1, 12.2), 12.2, False),
        ("roll-24", (16, 16), 16, False),  # no cheaper when turned
    ],
)
@pytest.mark.parametrize("correction", [Correction(), Correction(0.99, 1.02)], ids=str)
def test_a_roll_is_cut_to_the_next_quarter_inch(name, size, along, turned, correction):
    (page,) = made(frame(*size), setup(name, correction=correction))
    _, bottom, _, top = clear_field(page)
    assert page.paper.height_in * 4 == round(page.paper.height_in * 4)
    assert -1e-9 <= top - bottom - along < 0.25 / correction.along
    assert page.turned == turned
    assert page.paper.width_in == read_paper(name).width_in


def test_a_piece_of_roll_is_long_enough_for_its_bar_and_grows_for_its_notes():
    half = read_scale("half")
    (study,) = made(frame(3, 2), setup("roll-24", scale=half))
    assert study.paper.height_in == 6.0
    (full,) = made(frame(3, 2), setup("roll-24"))
    assert full.paper.height_in == 9.5
    # Across the whole roll nothing stands beside the drawing: the cautions lie over it.
    left, _, right, _ = clear_field(full)
    (wide,) = made(frame(right - left, 20), setup("roll-24"))
    assert 21.0 < wide.paper.height_in < 26.0
    assert wide.beside
    assert inside(wide).covers(shapely.box(*wide.drawing.bounds()))
    with pytest.raises(SheetError, match=r"roll-24 is 24 in wide .* by 30 in:"):
        made(frame(right - left + 0.001, 30), setup("roll-24"))


@pytest.mark.parametrize("given", ["", "8 in 12, 2x6", "8 in 12 on 6 in 12, 2x6, lookout " * 3])
def test_a_tile_shows_what_was_planned_however_many_lines_its_title_takes(given):
    """Its name and place stand in the title, and may take a line more than a page's number."""
    for name in ("6x9", "Letter", "5x7"):
        tiles = pages(frame(13, 15), setup(name), title="Hip jack", given=given)
        for tile in (each for each in tiles if each.letter):
            assert tile.window == pytest.approx(clear_field(tile))


@pytest.mark.parametrize("size", [(3, 30), (25, 3)])
def test_what_stands_beside_a_tile_s_drawing_keeps_off_its_seams_and_lines(size):
    (first, *_) = made(board(*size), setup())
    shapes = first.beside.shapes()
    trims = [shapely.LineString(s.points) for s in first.drawing.strokes if s.pen == "trim"]
    assert shapes
    assert trims
    for trim in trims:
        assert min(shapely.distance(shape, trim) for shape in shapes) >= CROSS_IN + 0.08
    lines = [s for s in first.drawing.strokes if s.pen in MARKS]
    hull = shapely.union_all([shapely.LineString(s.points) for s in lines]).convex_hull
    assert min(shapely.distance(shape, hull) for shape in shapes) >= 0.08


def test_no_note_is_lost_however_many_pages_they_take():
    """Each fills a page; what belongs on the first page stands on it."""
    notes = [Block(str(i), (frame(5, 6),)) for i in range(14)]
    cautions = Block("first", (frame(5.5, 6),), first=True)
    sheets = note_pages([*notes, cautions], blank_page(setup(), title="x"))
    assert len(sheets) == 15
    assert [len(page.beside.strokes) for page in sheets] == [1] * 15
    x0, _, x1, _ = sheets[0].beside.bounds()
    assert x1 - x0 == pytest.approx(5.5)
    assert [page.strips for page in sheets] == ["first"] + ["next"] * 14
    for page in sheets:
        left, _, _, top = clear_field(page)
        assert page.beside.bounds()[0] == pytest.approx(left, abs=0.15)
        assert page.beside.bounds()[3] == pytest.approx(top, abs=0.15)
    with pytest.raises(SheetError, match=r"Letter with a margin of 0\.5 in leaves no room"):
        note_pages([*notes, Block("huge", (frame(9, 9),))], blank_page(setup(), title="x"))


@pytest.mark.parametrize(("few", "large"), [(False, False), (True, False), (False, True)])
def test_one_sheet_has_its_cautions_in_few_words_or_the_warning_large(few, large):
    page = one_page(frame(3, 3), setup(), title="Jack", few=few, large=large)
    assert page is not None
    (heading,) = [label for label in page.beside.labels if label.text == "WARNING"]
    assert heading.size_pt == (LARGE_PT if large else SIZE_PT)
    text = " ".join(label.text.replace("\n", " ") for label in page.beside.labels)
    assert ("Guard free at this tilt" in text) == few
    assert ("see that the guard moves freely" in text) != few


@pytest.mark.parametrize("name", ["Letter", "roll-24"])
def test_a_sheet_bears_its_notes_and_the_cautions_that_are_not_said_yet(name):
    note = Block("note", (Drawing(labels=(Label("a note of its own", 0, 0),)),))
    (page,) = pages(frame(3, 3), setup(name), title="x", blocks=[note], said=frozenset({"WARNING"}))
    words = [label.text for label in page.beside.labels]
    assert "a note of its own" in words
    assert "WARNING" not in words
    assert "FOR TRAINING" in words
