"""Every step of every slider on the page, against `mark --json` and `settle`.

Each number, label and sentence is compared; each drawn line is measured from the page's own SVG,
with the way it leans.

Nothing of the page is imported but where its sliders stand; the truth is what the commands' own
functions say.
"""

import json
import math
import re

import numpy as np
import pytest

from layout.answer.wording import short_answer
from layout.errors import LayoutError
from lessons.bench.steps import boards, hands, steps
from lessons.cli.commands import options
from lessons.mistakes.cut_mistakes import made_on
from lessons.say.contract import contract
from lessons.say.units import System, written
from lessons.say.words import read_aloud
from lessons.settle.claim import claimed
from lessons.settle.settle import settle
from tests.counts import count
from tests.in_browser import needs_chromium
from tests.lessons.bench.conftest import IDS, PLACES

pytestmark = needs_chromium

WITHIN_DEG = 0.03
"""What four decimals of a pixel leave of an angle in a picture."""

SLIDE = """
async ([id, all]) => {
  const by = id => document.getElementById(id);
  const send = (one, kind) => one.dispatchEvent(new Event(kind, {bubbles: true}));
  const set = (id, value, kind) => { by(id).value = String(value); send(by(id), kind); };
  if (by('setting').value !== 'right') set('setting', 'right', 'change');
  const chosen = new Promise(done => document.addEventListener('cut-chosen', done, {once: true}));
  set('cut', id, 'change');
  await chosen;
  const text = id => by(id).textContent;
  const seen = one => one.getAttribute('display') !== 'none';
  const ends = one => ['x1', 'y1', 'x2', 'y2'].map(name => Number(one.getAttribute(name)));
  const lines = id => Object.fromEntries([...document.querySelectorAll(`#${id} line[data-mark]`)]
    .filter(seen).map(one => [one.dataset.mark, ends(one)]));
  const gauges = id => [...document.querySelectorAll(`#${id} line[data-mark$=gauge]`)]
    .filter(seen).map(ends);
  const words = id => [...document.querySelectorAll(`#${id} text`)].filter(seen)
    .map(one => [one.textContent, Number(one.getAttribute('x'))]);
  const outline = id => document.querySelector(`#${id} polygon.blank`)?.getAttribute('points');
  const sheet = id => ({name: by(id).getAttribute('aria-label'), lines: lines(id),
    words: words(id), gauges: gauges(id), outline: outline(id)});
  const gap = () => ({caption: document.querySelector('#gap + figcaption span').textContent,
    name: by('gap').getAttribute('aria-label'), lines: lines('gap')});
  const found = [];
  for (const [slider, at, hand, board] of all) {
    const radio = document.querySelector(`#hands input[value=${hand}]`);
    if (!radio.checked) { radio.checked = true; send(radio, 'change'); }
    set(slider, at, 'input');
    if (slider === 'pitch') set('stock', board, 'change');
    await null;
    const step = {
      said: text(`${slider}-said`), refused: text('refused'), hidden: by('shown').hidden,
      status: text('status'), numbers: ['face-said', 'edge-said', 'tilt-said'].map(text),
      reach: text('tilt-reach'),
      read: [...document.querySelectorAll('#words p')].map(one => one.textContent),
      stock: by('stock').selectedOptions[0].textContent, faults: [],
    };
    found.push(step);
    if (step.refused) continue;
    for (const id of ['face', 'edge', 'along', 'saw', 'plan']) step[id] = sheet(id);
    step.gap = gap();
    for (const option of [...by('setting').options].slice(1)) {
      set('setting', option.value, 'change');
      await null;
      step.faults.push({does: option.textContent, shown: text('fault-does'),
        says: text('fault-says'), status: text('status'), ...gap()});
    }
    set('setting', 'right', 'change');
    await null;
  }
  return found;
}
"""


def plain(line):
    return " ".join(line.split())


def asked(place, step, hand, board):
    """The answer that `mark` prints, by the command's own functions."""
    entry, end = place
    corner = f"{step.corner_deg:g}" if step.corner_deg else None
    put = options.question(
        entry.name, step.pitch, step.other_pitch, corner, None,
        options.HandName(hand.value), options.EndName(end), board,
    )  # fmt: skip
    return options.answered(put, "1/32", "1/2", "50")


def direction(line):
    """A drawn line's direction, its y upward."""
    x1, y1, x2, y2 = line
    return x2 - x1, y1 - y2


def between_deg(one, other):
    """The angle between two drawn lines [deg]."""
    (a, b), (c, d) = direction(one), direction(other)
    return math.degrees(math.atan2(abs(a * d - b * c), abs(a * c + b * d)))


def at(sheet, word):
    return next(x for text, x in sheet["words"] if text == word)


def numbers_in(texts):
    """The numbers among a picture's labels, such as 8 1/2."""
    found = []
    for text, _ in texts:
        if match := re.fullmatch(r"(?:(\d+) ?)?(?:(\d+)/(\d+))?", text):
            whole, top, bottom = match.groups()
            found.append(int(whole or 0) + (int(top) / int(bottom) if top else 0.0))
    return sorted(found)


def check_square(sheet, where, told, surface):
    """The picture of a surface with the square on it: the line's slant with its sense, the numbers
    and the arm to mark along; a gauged line's place for a rip."""
    mark = told[f"{where}_mark"]
    said = re.search(
        r"The (\w+) (face|edge): (face|edge) mark ([\d.]+)° from square", sheet["name"]
    )
    side = said[1]
    assert said[2] == said[3] == where
    assert float(said[4]) == pytest.approx(mark["from_square_deg"], abs=0.00501)
    head = 1 if at(sheet, "HEAD") > at(sheet, "FOOT") else -1
    if where == "face":
        assert head == (1 if side == "right" else -1), "the face is seen from outside"
        up = 1  # up the picture is up the depth
    else:
        # Seen from outside, the head at the right: left is up on the top edge, down on the bottom.
        up = head * (1 if side == "top" else -1)
    texts = [text for text, _ in sheet["words"]]
    if told["rip"] is not None:
        assert "face-mark" not in sheet["lines"]
        check_gauge(sheet, where, told["rip"], surface, hollow=told["cut"] == "valley-backing")
        return side
    nx, ny, nz = told["plane"]["normal"]
    x, y = direction(sheet["lines"][f"{where}-mark"])
    drawn = math.degrees(math.atan2(x * head, y * up) % math.pi)
    true = math.degrees(math.atan2(-(nz if where == "face" else ny), nx) % math.pi)
    off = abs(drawn - true)
    assert min(off, 180 - off) < WITHIN_DEG, (where, drawn, true)
    if mark["square"] is None:
        assert numbers_in(sheet["words"]) == []
    else:
        assert numbers_in(sheet["words"]) == pytest.approx(sorted(mark["square"]), abs=1e-6)
        assert mark["mark_along"]["arm"] in texts
        other = {"blade": "tongue", "tongue": "blade"}[mark["mark_along"]["arm"]]
        assert other not in texts
    return side


def check_gauge(sheet, where, rip, surface, *, hollow):
    """A gauged line stands as far from its arris as `rip` says, to the scale of the outline."""
    ys = [float(spot.split(",")[1]) for spot in sheet["outline"].split()]
    top, tall = min(ys), max(ys) - min(ys)
    places = [(line[1] - top) / tall * surface for line in sheet["gauges"]]
    assert places, "a bevel along the board has a gauged line"
    want = rip["drop_in"] if where == "face" else rip["across_in"]
    if hollow:
        want = 0.0  # low in the middle: on the face and on the edge it begins at the arris
    assert all(line[1] == pytest.approx(line[3], abs=0.01) for line in sheet["gauges"])
    near = [min(abs(place - want), abs(surface - place - want)) for place in places]
    assert min(near) < 0.02
    if where == "face":
        from_edge = places[0] if rip["edge"] == "top" else surface - places[0]
        assert from_edge == pytest.approx(want, abs=0.02)


def check_tilt(sheet, told):
    """The blade as it is seen along the mark: its tilt, and under which wood it runs."""
    side = re.search(r"the (left|right) face on top: tilt ([\d.]+)°", sheet["name"])
    tilt = told["saw"]["on_face"]["tilt_deg"]
    assert float(side[2]) == pytest.approx(tilt, abs=0.00501)
    (across, down) = direction(sheet["lines"]["tilt"])
    assert down < 0, "the blade runs down from the shoe"
    assert math.degrees(math.atan2(abs(across), -down)) == pytest.approx(tilt, abs=WITHIN_DEG)
    waste = 1 if at(sheet, "WASTE") > at(sheet, "KEPT") else -1
    runs = told["saw"]["on_face"][side[1]]
    if runs["below_shoe"] in ("under_waste", "under_kept"):
        assert (across * waste > 0) == (runs["below_shoe"] == "under_waste")
    words = [text for text, _ in sheet["words"]]
    said = next(text for text in words if text.startswith("tilt "))
    assert float(said.removeprefix("tilt ").removesuffix("°")) == pytest.approx(tilt, abs=0.00501)
    assert any(f"{side[1]} face" in text for text in words)
    return waste, runs


def check_step(shown, right):
    told = json.loads(json.dumps(contract(right)))
    stock = told["given"]["stock"]
    assert not shown["hidden"]
    assert shown["stock"] == stock["name"]
    assert [plain(line) for line in shown["read"]] == [
        plain(line) for line in read_aloud(right).splitlines()
    ]
    assert shown["status"] == short_answer(right)
    reach = [line for line in read_aloud(right).splitlines() if line.startswith("  reach ")]
    said = dict.fromkeys(plain(line).removeprefix("reach ") for line in reach)
    assert shown["reach"] == "; ".join(said)
    true = (
        told["face_mark"]["from_square_deg"],
        told["edge_mark"]["from_square_deg"],
        told["saw"]["on_face"]["tilt_deg"],
    )
    for text, value in zip(shown["numbers"], true, strict=True):
        assert float(text.removesuffix("°")) == pytest.approx(value, abs=0.00501)
    check_square(shown["face"], "face", told, stock["depth_in"])
    check_square(shown["edge"], "edge", told, stock["thickness_in"])
    check_tilt(shown["along"], told)
    waste, runs = check_tilt(shown["saw"], told)
    if runs["wide_side_on"] in ("kept", "waste"):
        middle = (at(shown["saw"], "WASTE") + at(shown["saw"], "KEPT")) / 2
        wide = (at(shown["saw"], "shoe") - middle) * waste > 0
        assert wide == (runs["wide_side_on"] == "waste")
    assert shown["gap"]["caption"] == "no gap"
    for method in ("hand", "saw"):
        assert told["methods"][method]["sound"], "the page says that both ways cut the plane"
    check_faults(shown["faults"], right, told)


def check_faults(faults, right, told):
    """Every mistake that can be made here, with the gap that `settle` finds for its setting."""
    made = {one.mistake.does: one for one in made_on(right)}
    assert sorted(one["does"] for one in faults) == sorted(made)
    normal = np.asarray(told["plane"]["normal"])
    claims = [claimed(made[shown["does"]].setting) for shown in faults]
    for shown, found in zip(faults, settle(right, claims).judged if claims else (), strict=True):
        one = made[shown["does"]]
        gap = written(found.gap_in, "gap", System.INCH)
        assert shown["caption"] == gap
        assert gap in shown["says"]
        assert gap in shown["name"]
        assert shown["shown"] == shown["does"]
        assert shown["status"] == shown["says"] == one.says(gap)
        wrong = np.asarray(found.setting.normal)
        true = math.degrees(math.atan2(np.linalg.norm(np.cross(normal, wrong)), normal @ wrong))
        drawn = between_deg(shown["lines"]["made-cut"], shown["lines"]["mate-face"])
        assert drawn == pytest.approx(min(true, 180 - true), abs=0.1), shown["does"]


@pytest.fixture(scope="module")
def sliding(quick_page, bench_file):
    """One page for every cut; nothing may be said on its console."""
    watched = quick_page.again((1280, 900), "light")
    watched.page.goto(bench_file.as_uri())
    watched.page.wait_for_selector("html[data-ready]")
    yield watched.page
    assert watched.said == []


@pytest.mark.parametrize("place", PLACES, ids=IDS)
def test_every_step_says_and_draws_what_the_commands_say(sliding, place):
    entry = place[0]
    tried = [
        (slider, number, step, hand, board)
        for slider, all_steps in steps(entry).items()
        for number, step in enumerate(all_steps)
        for hand in hands(entry)
        for board in range(len(boards(entry)) if slider == "pitch" else 1)
    ][:: count(1, 5)]
    wanted = [[slider, number, hand.value, board] for slider, number, _, hand, board in tried]
    found = sliding.evaluate(SLIDE, [IDS[PLACES.index(place)], wanted])
    compared = faults = 0
    for (_, _, step, hand, board), shown in zip(tried, found, strict=True):
        assert shown["said"] == step.said
        if shown["refused"]:
            with pytest.raises(LayoutError) as refused:
                asked(place, step, hand, boards(entry)[board])
            assert shown["refused"] == str(refused.value)
            continue
        check_step(shown, asked(place, step, hand, boards(entry)[board]))
        compared += 1
        faults += len(shown["faults"])
    print(f"\n{place[0].name} {place[1]}: {compared} of {len(tried)} steps, {faults} mistakes")
    assert compared > len(tried) / 3
