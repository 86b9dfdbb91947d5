"""Wrap templates: folded back in 3-D, measured in the files, read for their words."""

import itertools
import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import numpy as np
import pypdfium2
import pytest
import shapely

from figures.files.press import write
from figures.ink.drawing import Drawing, collisions, label_box
from figures.ink.lettering import fraction_text
from figures.ink.paper import read_paper
from figures.page.tiling import PrintSetup, one_page, pages
from figures.wrap.spread import ALL_ROUND, spread, usual_run
from figures.wrap.stations import kind
from figures.wrap.wrap import BAND_IN, BEFORE_IN, PAST_IN, lay, wrap
from figures.wrap.wrap_lettering import Squeeze
from figures.wrap.wrap_words import bevel_words
from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import Hand, catalogue
from layout.errors import SheetError
from layout.plane.cut import mark_deg
from layout.quantity import read_pitch, write_degrees
from tests.counts import part_of
from tests.measure import pdf_pieces, svg_piece
from tests.wraps import answered, every_cut, folded, marks

STOCKS = ("2x4", "2x12", "19mm x 184mm")
CUTS = every_cut()
HANDS = (Hand.LEFT, Hand.RIGHT)
PITCHES = ("2", "12", "21")
CUT_MM = 0.7


@pytest.mark.parametrize(
    ("stock", "name", "end"),
    [(stock, *cut) for at, stock in enumerate(STOCKS) for cut in part_of(CUTS, 9, at)],
)
def test_folded_back_every_mark_lies_in_its_plane(name, end, stock):
    """Folded onto the board, both ends of each mark lie in the cutting plane to 1e-9 in."""
    for hand, pitch in itertools.product(HANDS, PITCHES):
        one = answered(name, end, hand, pitch, stock)
        if one.is_rip and one.hand_setting(as_read=False).drop_in > one.question.stock.depth_in:
            with pytest.raises(SheetError, match="past a board"):
                wrap(one, bare=True)
            continue
        cuts = one.cuts
        seen = set()
        for surface, which, points in marks(wrap(one, bare=True)):
            for point in points:
                place = folded(surface, point, one)
                assert abs((place - cuts[which].point) @ cuts[which].normal) < 1e-9
            seen.add((surface, which))
        assert seen


@pytest.mark.parametrize(("name", "end"), [cut for cut in CUTS if not answered(*cut).is_rip])
def test_the_marks_are_all_that_layout_says(name, end):
    """Each corner of the cut surface that layout names is the end of a mark, and no more."""
    for hand, stock in itertools.product(HANDS, STOCKS):
        one = answered(name, end, hand, "9", stock)
        run = None if kind(one) == "notch" else ALL_ROUND
        places = np.array(
            [
                folded(surface, point, one)
                for surface, _, points in marks(wrap(one, run, bare=True))
                for point in points
            ]
        )
        wanted = np.concatenate([cut.reached() for cut in one.cuts])
        apart = np.abs(places[:, None] - wanted[None]).max(axis=-1)
        if all(cut.outline is None for cut in one.cuts):  # else parts that overlap are named
            assert apart.min(axis=0).max() < 1e-9
        assert apart.min(axis=1).max() < 1e-9


@pytest.mark.parametrize("run", [None, ALL_ROUND])
def test_marks_go_round_the_corner_where_the_paper_folds(run):
    one = answered("hip-jack", "head")
    ends = [
        (surface, folded(surface, point, one))
        for surface, _, points in marks(wrap(one, run, bare=True))
        for point in points
    ]
    shared = [
        np.abs(p - q).max() < 1e-9 for (a, p), (b, q) in itertools.combinations(ends, 2) if a != b
    ]
    assert sum(shared) == (2 if run is None else 4)


def test_hatching_is_on_the_side_that_falls_off():
    for name, end in CUTS:
        one = answered(name, end)
        removals = one.question.joint.removals
        drawing = wrap(one, bare=True)
        assert drawing.areas
        for area in drawing.areas:
            surface = area.gid.removeprefix("waste-")
            inside = shapely.point_on_surface(area.polygon)
            place = folded(surface, (inside.x, inside.y), one)
            out = [(place - cut.point) @ cut.normal > -1e-9 for cut in one.cuts]
            assert any(all(out[i] for i in removal) for removal in removals)


def test_backed_edges_carry_the_mark_that_layout_gives_for_a_bevel():
    """On a backed hip or valley the paper is folded over both bevels, 1e-9 deg from layout."""
    for name, other in (
        ("hip-ridge", "7"),
        ("hip-tail", "11"),
        ("valley-tail", "7"),
        ("valley-ridge", "4"),
    ):
        asked = ask(name, pitch=read_pitch("7"), other_pitch=read_pitch(other))
        one = answer(asked)
        laid = spread(one, usual_run(one, backed=True), backed=True)
        hollow = asked.entry.meets == "valley"
        for side in ("right", "left"):
            surface = laid.by_name[f"{side} bevel"]
            drop = surface.panel.outward
            # A hip's right bevel looks to the right, a valley's over the hollow to the left.
            assert (drop[1] > 0) == ((side == "left") != hollow)
            bevels = [asked.joint.pose.to_board(bevel) for bevel in asked.joint.bevels]
            assert min(np.abs(drop - bevel).max() for bevel in bevels) < 1e-12
            for mark in surface.marks:
                (ax, av), (bx, bv) = mark.line
                angle = np.degrees(np.arctan2(abs(bx - ax), abs(bv - av)))
                wanted = mark_deg(one.cuts[mark.plane_index].normal, drop)
                assert angle == pytest.approx(float(wanted), abs=1e-7)
                plane = next(
                    each for each in (one, *one.others) if each.plane_index == mark.plane_index
                )
                words = bevel_words([plane], Hand(side))
                places = surface.panel.board([mark.line[0], mark.line[1]])
                left, right = sorted(places, key=lambda place: -place[1])
                way = "head" if left[0] > right[0] else "foot"
                assert words.startswith(
                    f"On this bevel the mark runs {write_degrees(angle)} from square across, left"
                    f" end toward the {way}; on a square edge it would run "
                )
                cut = one.cuts[mark.plane_index]
                assert np.abs((places - cut.point) @ cut.normal).max() < 1e-9


@pytest.mark.parametrize("stock", part_of(STOCKS, 3))
def test_marks_measured_in_the_pdf_and_in_the_svg(tmp_path, stock):
    """For every cut, the ends of every mark in both files are within 0.001 in of layout's."""
    apart_x, apart_y, columns = 60.0, 27.5, 3
    cuts = part_of(CUTS, 3)
    for part in range(0, len(cuts), 20):
        whole, asked = Drawing(), []
        for i, (name, end) in enumerate(cuts[part : part + 20]):
            one = answered(name, end, HANDS[i % 2], "6", stock)
            drawing = wrap(one, bare=True)
            at = apart_x * (i % columns), apart_y * (i // columns)
            named = tuple(replace(s, gid=f"{i}-{s.gid}") for s in drawing.strokes)
            whole += Drawing(named).moved(*at)
            asked.append((one, drawing, at))
        (page,) = pages(whole, PrintSetup(read_paper("199x199")), title="Twenty cuts")
        (pdf,) = write([page], tmp_path / "all.pdf", title="Twenty cuts")
        (svg,) = write([page], tmp_path / "all.svg", title="Twenty cuts")
        cut = CUT_MM / 25.4
        lines = [p.points for p in pdf_pieces(pdf) if p.width_in == pytest.approx(cut, abs=1e-4)]
        in_pdf = np.array([on_paper(page, point) for line in lines for point in line])
        root = ET.parse(svg).getroot()
        for i, (one, drawing, at) in enumerate(asked):
            # A line that stays is drawn in dashes, whose last may end short of it.
            stays = {s.gid for s in drawing.strokes if s.pen == "stays"}
            for surface, which, points in marks(drawing):
                gid = f"{i}-mark-{surface}" + (f"-{which + 1}" if which else "")
                if gid.partition("-")[2] in stays:
                    continue
                in_svg = [on_paper(page, p) for line in svg_piece(root, gid) for p in line]
                for point in points:
                    for found in (in_pdf, np.array(in_svg)):
                        off = found - at - point
                        assert np.abs(off).max(axis=1).min() < 1e-3
                        x, v = point + off[np.abs(off).max(axis=1).argmin()]
                        if one.is_rip:
                            continue
                        # Back on the board, against layout's own x of the plane there.
                        _, y, z = folded(surface, (x, v), one)
                        steep = abs(one.cuts[which].top_lean) + abs(one.cuts[which].left_lean)
                        wanted = float(one.cuts[which].x_at(y, z))
                        assert x == pytest.approx(wanted, abs=1e-3 * (1 + steep))


def on_paper(page, point):
    """A point of a page back on the unrolled paper."""
    x, y = point[0] - page.origin[0], point[1] - page.origin[1]
    return (y, -x) if page.turned else (x, y)


def test_raster_at_300_dpi_keeps_the_mark_where_it_is(tmp_path):
    """Black and white at 300 dpi: every point of a mark is ink, and its ends are in place."""
    one = answered("hip-jack", "head", pitch="12")
    drawing = wrap(one, short=("left face", 2.0))
    page = one_page(drawing, PrintSetup(read_paper("Tabloid")), title="Hip jack")
    (path,) = write([page], tmp_path / "a.pdf", title="Hip jack")
    document = pypdfium2.PdfDocument(path)
    image = document[0].render(scale=300 / 72, grayscale=True).to_numpy()
    document.close()
    ink = image.reshape(image.shape[0], -1) < 128
    (_, height) = page.size_in
    for _, _, ((ax, av), (bx, bv)) in marks(page.drawing):
        for share in np.linspace(0.002, 0.998, 500):
            x, y = ax + (bx - ax) * share, av + (bv - av) * share
            assert ink[int((height - y) * 300), int(x * 300)]
    # Across the right face's mark, square to it, the middle of the ink is the mark.
    (points,) = (p for surface, _, p in marks(page.drawing) if surface == "right-face")
    (ax, ay), (bx, by) = points
    middle = np.array([ax + bx, ay + by]) / 2
    row = int((height - middle[1]) * 300)
    column = middle[0] * 300
    near = np.flatnonzero(ink[row, int(column) - 12 : int(column) + 13]) + int(column) - 12 + 0.5
    assert near.mean() == pytest.approx(column, abs=1.0)


def lettered_sample():
    """Every cut, hands, pitches and boards dealt out over it, each value meeting many cuts."""
    deal = itertools.cycle(itertools.product(("8", "3", "18"), ("2x6", "1x8", "4x4", "45x195 mm")))
    for (name, end), hand in itertools.product(CUTS, HANDS):
        if hand is Hand.LEFT or catalogue()[name].two_hands:
            pitch, stock = next(deal)
            yield name, end, hand, pitch, stock


@pytest.mark.parametrize(
    ("name", "end", "hand", "pitch", "stock"), part_of(list(lettered_sample()), 9)
)
def test_no_words_lie_on_marks_or_on_each_other(name, end, hand, pitch, stock):
    one = answered(name, end, hand, pitch, stock)
    drawing = wrap(one)
    assert collisions(drawing) == ()
    # Words stand on the paper or wholly off it, each off it with a pointer.
    bare = wrap(one, bare=True)
    paper = shapely.box(*bare.bounds())
    off = [label for label in drawing.labels if not paper.intersects(label_box(label))]
    assert all(
        paper.buffer(1e-9).covers(label_box(label)) for label in drawing.labels if label not in off
    )
    pointers = [s for s in drawing.strokes if (s.gid or "").startswith("pointer-")]
    assert len(pointers) == len([label for label in off if label.gid])
    # What must outlive the cut stands on the kept wood.
    waste = shapely.union_all([area.polygon for area in drawing.areas if area.fill == "waste"])
    for label in drawing.labels:
        if label.gid in ("surface", "station", "start", "name") and not label.halo:
            assert not waste.buffer(-1e-6).intersects(label_box(label))
    leaders = [
        shapely.LineString(s.points)
        for s in drawing.strokes
        if s.pen == "dimension" and s.gid == "pointer"
    ]
    for leader, label in itertools.product(leaders, drawing.labels):
        assert not leader.intersects(label_box(label))


def said(drawing):
    return " ".join(" ".join(label.text.split()) for label in drawing.labels)


def told(one, **more):
    """All that a template says: the words on the wrap, and the notes that stand off it."""
    made = lay(one, **more).lettered(squeeze=Squeeze.ON_WRAP)
    notes = " ".join(f"{note.heading} {fraction_text(note.text)}" for note in made.notes)
    return f"{said(made.drawing)} {notes}"


def test_a_template_says_what_a_carpenter_needs():
    one = answered("hip-jack", "head", pitch="12")
    text = told(one)
    for words in (
        "hip-jack, left hand, head",
        "Made for 1 ¹⁄₂ x 5 ¹⁄₂ in. If your board differs by more than ¹⁄₁₆ in, enter its size and"
        " print again.",
        "ALIGN HERE: bottom arris of the right face",
        "FOLD: top arris of the right face",
        "FOLD: top arris of the left face",
        "START LINE",
        "LONG POINT",
        "short point",
        "CUT THIS LINE",
        "WASTE",
        "HEAD",
        "FOOT",
        "The crown goes up",
        "LEFT-HAND cut: stand at the foot, look toward the head; the cheek faces left.",
        "Face mark 45° from square across, top toward the head.",
        "tilt 45°; below the shoe the blade runs in under the kept wood, toward the foot",
        "tilt 45°; below the shoe the blade runs in under the waste, toward the head",
        "Edge mark 54.74° from square across, left end toward the foot.",
        "8 ¹⁄₂ on the blade, 12 on the tongue; mark along the tongue. Side-cut number 8.485.",
    ):
        assert words in text.replace("\u00a0", " "), words
    mirrored = told(answered("hip-jack", "head", Hand.RIGHT, "12"))
    assert "RIGHT-HAND" in mirrored
    assert "left end toward the head" in mirrored


def test_the_start_line_stands_where_its_words_say():
    for name, end in part_of(CUTS[::3], 3):
        one = answered(name, end)
        if one.is_rip:
            continue
        laid = spread(one, usual_run(one))
        drawing = wrap(one)
        ((far, way),) = re.findall(
            r"round the board, (.+?) from the [^.,]+, toward the (foot|head)\.", told(one)
        )
        (start,) = (s for s in drawing.strokes if s.gid == "start-line")
        assert start.points[0][0] == start.points[1][0]
        away = abs(start.points[0][0] - laid.stations[0].at[0])
        inches = far.split(" in")[0].replace("\u00a0", " ")
        whole, _, half = inches.partition(" ")
        half = half or ("" if whole.isdigit() else whole)
        parts = {"": 0.0, "¹⁄₄": 0.25, "¹⁄₂": 0.5, "³⁄₄": 0.75}
        value = (float(whole) if whole.isdigit() else 0.0) + parts[half]
        assert away == pytest.approx(value, abs=1e-9)
        kept = [p for _, _, line in marks(drawing) for p in line]
        side = np.sign(start.points[0][0] - np.mean([x for x, _ in kept]))
        assert all(np.sign(start.points[0][0] - x) == side for x, _ in kept)
        assert way == ("head" if side > 0 else "foot")


@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize("face", ["left face", "right face"])
def test_a_face_that_stops_short_says_where_its_line_ends(hand, face):
    one = answered("hip-jack", "head", hand, "12")
    drawing = wrap(one, short=(face, 2.0))
    y = 0.0 if face == "right face" else one.question.stock.thickness_in
    far = float(one.cut.x_at(y, 0.0))
    (start,) = (s for s in drawing.strokes if s.gid == "start-line")
    off = far - start.points[0][0]
    text = told(one, short=(face, 2.0)).replace("\u00a0", " ")
    found = re.search(
        r"ends on the (.+?), (\d+(?: \S+)?) in(?: shy| strong)? \(([\d.]+) mm\)"
        r" from the start line toward the (head|foot)",
        text,
    )
    assert found, text
    assert found[1] == f"bottom arris of the {face}"
    assert float(found[3]) == pytest.approx(abs(off) * 25.4, abs=0.25)
    assert found[4] == ("head" if off > 0 else "foot")
    whole = {
        p for s, _, line in marks(wrap(one, bare=True)) if s != face.replace(" ", "-") for p in line
    }
    same = {p for s, _, line in marks(drawing) if s != face.replace(" ", "-") for p in line}
    assert whole == same


def test_letters_meet_when_the_paper_is_folded():
    """Each letter stands twice, near two mark ends that are one point of the board."""
    for name, end in (("hip-jack", "head"), ("hip-ridge", "head"), ("common-seat", "foot")):
        one = answered(name, end)
        drawing = wrap(one)
        ends = [(s, p) for s, _, line in marks(drawing) for p in line]
        letters: dict[str, list] = {}
        for label in drawing.labels:
            if label.gid == "corner":
                letters.setdefault(label.text, []).append(label_box(label))
        assert letters
        for boxes in letters.values():
            assert len(boxes) == 2
            near = [
                [(s, p) for s, p in ends if box.distance(shapely.Point(p)) < 0.5] for box in boxes
            ]
            assert any(
                a != b and np.abs(folded(a, p, one) - folded(b, q, one)).max() < 1e-9
                for (a, p), (b, q) in itertools.product(*near)
            )


def test_a_rip_shows_its_gauge_lines_and_its_section():
    one = answered("hip-backing", "foot")
    drawing = wrap(one)
    drop = one.hand_setting(as_read=False).drop_in
    lines = {s: p for s, _, p in marks(drawing)}
    depth, thick = one.question.stock.depth_in, one.question.stock.thickness_in
    for surface, wanted in (
        ("right-face", depth - drop),
        ("left-face", depth + thick + drop),
        ("top-edge", depth + thick / 2),
    ):
        assert [v for _, v in lines[surface]] == pytest.approx([wanted, wanted], abs=1e-9)
    (ax, _), (bx, _) = lines["end"]
    assert max(abs(ax), abs(bx)) == pytest.approx(drop, abs=1e-9)
    text = told(one).replace("\u00a0", " ")
    assert f"Gauge line ⁵⁄₁₆ in ({drop:.3f}) from the top arris of the right face" in text
    assert "END GRAIN" in text
    hollow = told(answered("valley-backing", "foot")).replace("\u00a0", " ")
    assert f"hollow it ⁵⁄₁₆ in ({drop:.3f}) deep under the thin line" in hollow


def test_a_notch_says_how_deep_it_is_drawn_and_who_decides():
    one = answered("common-seat", "foot", stock="2x8")
    drawing = wrap(one)
    deep = max(v for s, _, line in marks(drawing) if s == "right-face" for _, v in line)
    assert deep == pytest.approx(7.25 / 4, abs=1e-9)
    text = told(one).replace("\u00a0", " ")
    assert "drawn 1 ¹³⁄₁₆ in deep, square to the edge" in text
    assert "the approved drawings decide how deep it is cut" in text


@pytest.mark.parametrize("name", ["hip-seat", "valley-seat"])
def test_a_seat_under_a_backed_top_is_wrapped_where_it_opens(name):
    """The notch opens at the bottom edge: its marks are the same, whatever was done to the top."""
    one = answer(ask(name))
    backed = usual_run(one, backed=True)
    laid = spread(one, backed, backed=True)
    assert "bottom edge" in [each.panel.name for each in laid.surfaces]
    square = spread(one, usual_run(one))
    for mine, plain in zip(laid.surfaces, square.surfaces, strict=True):
        assert mine.panel.name == plain.panel.name
        assert len(mine.marks) == len(plain.marks) > 0
        for mark, other in zip(mine.marks, plain.marks, strict=True):
            assert np.allclose(mark.line[0], other.line[0], atol=1e-6)


@pytest.mark.parametrize(("name", "end"), [("hip-jack", "head"), ("valley-jack", "foot")])
def test_a_band_keeps_no_line_farther_from_its_mark_than_it_says(name, end):
    """Each surface of a steep jack has one mark across it: the band goes along it."""
    steep = answered(name, end, pitch="20", stock="2x12")
    banded = lay(steep, band=True)
    whole = lay(steep)
    kept_in = BAND_IN + BEFORE_IN
    sides = [points for _, _, points in marks(whole.lines)]
    lost = 0
    for drawn in (banded, whole):
        for stroke in drawn.lines.strokes:
            for x, v in stroke.points:
                off = []
                for (ax, av), (bx, bv) in sides:
                    if min(av, bv) - 1e-6 <= v <= max(av, bv) + 1e-6:
                        at = ax + (bx - ax) * (v - av) / (bv - av)
                        off.append((x - at) * banded.laid.toward)
                inside = any(-kept_in - 1e-4 <= one <= PAST_IN + 1e-4 for one in off)
                assert inside or drawn is whole
                lost += not inside
    assert lost
    # What is kept is outlined whole, and its marks are the whole wrap's.
    toward, box = whole.laid.toward, shapely.box(*whole.laid.box)
    kept = [
        shapely.Polygon(
            [(x + d * toward, v) for (x, v), d in zip(line + line[::-1], off, strict=True)]
        )
        for line in sides
        for off in ((-kept_in, -kept_in, PAST_IN, PAST_IN),)
    ]
    paper = shapely.intersection(shapely.union_all(kept), box)
    drawn = shapely.union_all([shapely.LineString(s.points) for s in banded.lines.strokes])
    assert drawn.buffer(1e-5).covers(paper.boundary)
    assert [line for *_, line in marks(banded.lines)] == sides
    assert paper.buffer(1e-5).covers(
        shapely.union_all([area.polygon for area in banded.lines.areas])
    )
    assert shapely.intersection(banded.far, paper).area == pytest.approx(0, abs=1e-4)


def test_what_cannot_be_wrapped_is_refused():
    jack = answered("hip-jack", "head")
    with pytest.raises(SheetError, match="stands on no backed edge"):
        wrap(jack, backed=True)
    with pytest.raises(SheetError, match="do not follow each other"):
        wrap(jack, ("right face", "left face"))
    with pytest.raises(SheetError, match="has the right face and more of"):
        wrap(jack, ("top edge", "left face"))
    with pytest.raises(SheetError, match="has the right face and more of"):
        wrap(jack, ("right face", "inside"))
    with pytest.raises(SheetError, match="shown whole"):
        wrap(jack, ALL_ROUND, short=("left face", 2.0))
    with pytest.raises(SheetError, match="leaves nothing of a board"):
        wrap(answered("hip-ridge", "head", pitch="20", stock="4in x 1in"), backed=True)
    blank = PrintSetup(read_paper("Letter"))
    assert one_page(wrap(answered("hip-jack", "head", stock="2x12")), blank, title="x") is None
