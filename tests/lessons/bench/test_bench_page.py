"""The bench in a real browser: every step against `mark --json`, every picture measured."""

import json
import math
import re

import pytest

from layout.cuts import find
from lessons.bench.page import place_id
from lessons.bench.steps import boards, hands, places, steps
from lessons.cli.main import run
from lessons.say.words import read_aloud
from tests.counts import LONG, count
from tests.in_browser import needs_axe, needs_chromium, serious
from tests.lessons.bench.conftest import CUTS

pytestmark = needs_chromium

PLACES = [place for place in places() if not CUTS or place[0].name in CUTS]
MOST_CHANGED = 220
"""Nodes that one frame may change: what sliding costs on any machine."""
MOST_BYTES = 4_000_000

SLID = """
async ([slider, at, hand, board]) => {
  const set = (id, value, kind) => {
    const one = document.getElementById(id);
    one.value = String(value);
    one.dispatchEvent(new Event(kind, {bubbles: true}));
  };
  const radio = document.querySelector(`#hands input[value=${hand}]`);
  if (!radio.checked) {
    radio.checked = true;
    radio.dispatchEvent(new Event('change', {bubbles: true}));
  }
  set(slider, at, 'input');
  if (slider === 'pitch') set('stock', board, 'change');
  await new Promise(requestAnimationFrame);
  await new Promise(requestAnimationFrame);
  const text = id => document.getElementById(id).textContent;
  const line = mark => {
    const one = document.querySelector(`[data-mark="${mark}"]:not([display=none])`);
    return one && ['x1', 'y1', 'x2', 'y2'].map(name => Number(one.getAttribute(name)));
  };
  return {
    said: text(`${slider}-said`), refused: text('refused'), status: text('status'),
    numbers: ['face-said', 'edge-said', 'tilt-said'].map(text),
    words: [...document.querySelectorAll('#words p')].map(one => one.textContent),
    face: line('face-mark'), edge: line('edge-mark'), tilt: line('tilt'),
  };
}
"""


def from_square(line):
    x1, y1, x2, y2 = line
    return math.degrees(math.atan2(abs(x2 - x1), abs(y2 - y1)))


def asked(place, step, hand, board, *more):
    entry, end = place
    options = ["mark", entry.name, "--end", end, "--hand", hand.value, "--stock", board]
    options += ["--pitch", step.pitch]
    options += ["--other-pitch", step.other_pitch] if step.other_pitch else []
    options += ["--corner", f"{step.corner_deg:g}"] if step.corner_deg else []
    return [*options, *more]


def plain(line):
    return " ".join(line.split())


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place_id(*place))
def test_every_step_says_and_draws_what_mark_says(opened, place, capsys):
    page = opened(at=f"#bench-{place_id(*place)}")
    entry = place[0]
    tried = [
        (slider, at, step, hand, board)
        for slider, all_steps in steps(entry).items()
        for at, step in enumerate(all_steps)
        for hand in hands(entry)
        for board in range(len(boards(entry)) if slider == "pitch" else 1)
    ]
    compared = 0
    for slider, at, step, hand, board in tried[:: count(1, 23)]:
        shown = page.evaluate(SLID, [slider, at, hand.value, board])
        assert shown["said"] == step.said
        name = boards(entry)[board]
        capsys.readouterr()
        done = run(asked(place, step, hand, name))
        said = capsys.readouterr()
        if shown["refused"]:
            assert done == 2
            assert said.err.strip() == f"squaresaw: {shown['refused']}"
            continue
        assert done == 0
        compared += 1
        assert [plain(line) for line in shown["words"]] == [
            plain(line) for line in said.out.rstrip("\n").split("\n")
        ]
        assert run(asked(place, step, hand, name, "--json")) == 0
        told = json.loads(capsys.readouterr().out)
        true = (
            told["face_mark"]["from_square_deg"],
            told["edge_mark"]["from_square_deg"],
            told["saw"]["on_face"]["tilt_deg"],
        )
        for written, value in zip(shown["numbers"], true, strict=True):
            assert float(written.removesuffix("°")) == pytest.approx(value, abs=0.00501)
        if told["rip"] is None:
            assert from_square(shown["face"]) == pytest.approx(true[0], abs=0.02)
            assert from_square(shown["edge"]) == pytest.approx(true[1], abs=0.02)
        assert from_square(shown["tilt"]) == pytest.approx(true[2], abs=0.02)
    assert compared > 3


def test_the_page_of_all_cuts_can_be_sent(bench_file):
    size = bench_file.stat().st_size
    assert size < (MOST_BYTES if LONG else 500_000)


def test_the_number_set_as_tilt_swings_the_cut_off(opened, capsys):
    """At equal pitches on a square corner the tilt stays 45 while the number moves."""
    page = opened(at="#bench-valley-jack")
    numbers, tilts = set(), set()
    for at in range(0, 33, 8):
        shown = page.evaluate(SLID, ["pitch", at, "left", 0])
        tilts.add(shown["numbers"][2])
        numbers.add(shown["numbers"][1])
    assert tilts == {"45°"}
    assert len(numbers) == 5
    page.select_option("#setting", index=1)
    page.locator("[data-mark=made-cut].wrong").first.wait_for(state="attached")
    gap = page.locator("#gap + figcaption span").text_content()
    assert page.locator("#fault").is_visible()
    assert gap in page.locator("#fault-says").text_content()
    capsys.readouterr()
    claim = "plumb 18 in 12, saw %s" % (90 - float(json_edge(capsys)))
    assert run(["settle", "valley-jack", "--pitch", "18 in 12", "--claim", claim, "--json"]) == 0
    settled = json.loads(capsys.readouterr().out)["claims"][0]
    from layout.quantity import write_fraction

    assert gap == f"{write_fraction(settled['gap_in'], 64)} in"


def json_edge(capsys):
    assert run(["mark", "valley-jack", "--pitch", "18 in 12", "--json"]) == 0
    return json.loads(capsys.readouterr().out)["edge_mark"]["from_square_deg"]


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_nothing_runs_out_sideways(opened, width, scheme):
    page = opened((width, 800), scheme)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    beyond = page.eval_on_selector_all(
        "body *:not(.skip):not(svg *):not(option):not(optgroup)",
        "(all, wide) => all.filter(one => one.getBoundingClientRect().right > wide + 0.5)"
        ".map(one => one.outerHTML.slice(0, 80))",
        width,
    )
    assert beyond == []
    if width == 320:
        small = page.eval_on_selector_all(
            "svg text:not([display=none])",
            "all => all.map(one => one.getBoundingClientRect()).filter(b => b.width > 0"
            " && b.height < 9).length",
        )
        assert small == 0
        pictures = page.eval_on_selector_all(
            "svg", "all => all.map(one => one.getBoundingClientRect().width).filter(Boolean)"
        )
        assert min(pictures) > 250


@needs_axe
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_serious(opened, scheme):
    page = opened((360, 800), scheme, bypass_csp=True)
    page.select_option("#setting", index=1)
    assert serious(page) == []


def test_all_of_it_by_keyboard(opened):
    page = opened()
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "bench"
    seen = []
    for _ in range(30):
        page.keyboard.press("Tab")
        name = page.evaluate("document.activeElement.id || document.activeElement.name")
        seen.append(name)
        if name == "pitch":
            before = page.locator("#tilt-said, #face-said").all_text_contents()
            page.keyboard.press("ArrowRight")
            page.wait_for_timeout(50)
            assert page.locator("#tilt-said, #face-said").all_text_contents() != before
        if name == "board":
            path = page.locator("#board polygon").first.get_attribute("points")
            page.keyboard.press("ArrowLeft")
            page.wait_for_timeout(80)
            assert page.locator("#board polygon").first.get_attribute("points") != path
            break
    for name in ("cut", "pitch", "other", "corner", "hand", "stock", "setting", "board"):
        assert name in seen


def test_the_board_turns_under_the_finger(opened):
    page = opened((360, 800), has_touch=True)
    box = page.locator("#board").bounding_box()
    before = page.locator("#board polygon").first.get_attribute("points")
    page.locator("#board").scroll_into_view_if_needed()
    box = page.locator("#board").bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 60, y + 10)
    page.mouse.up()
    page.wait_for_timeout(60)
    assert page.locator("#board polygon").first.get_attribute("points") != before


def test_a_frame_changes_few_nodes(opened):
    page = opened(motion="no-preference", at="#bench-valley-jack")
    most, frames = page.evaluate(
        """async () => {
          let most = 0, frames = 0;
          const watch = new MutationObserver(all => {
            most = Math.max(most, new Set(all.map(one => one.target)).size);
            frames += 1;
          });
          const what = {subtree: true, attributes: true, childList: true};
          watch.observe(document.getElementById('pictures'), what);
          const pitch = document.getElementById('pitch');
          for (let at = 0; at < 12; at += 1) {
            pitch.value = String(at);
            pitch.dispatchEvent(new Event('input', {bubbles: true}));
            await new Promise(requestAnimationFrame);
          }
          await new Promise(done => setTimeout(done, 300));
          return [most, frames];
        }"""
    )
    assert frames > 8
    assert most <= MOST_CHANGED


def test_the_policy_lets_nothing_else_run(opened, bench_file):
    text = bench_file.read_text()
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', text)[1]
    assert "unsafe" not in policy
    assert policy.startswith("default-src 'none'; script-src 'sha256-")
    assert not re.search(r"<[^>]+\son\w+=", text)
    assert "eval(" not in text
    page = opened(quiet=False)
    page.evaluate(
        "(() => { const one = document.createElement('script'); one.textContent ="
        " 'window.ran = true'; document.body.append(one); })()"
    )
    assert page.evaluate("window.ran") is None


def test_it_prints_as_no_template(opened):
    page = opened()
    page.emulate_media(media="print")
    assert page.get_by_text("not to scale").is_visible()
    assert not page.locator("#pitch").is_visible()


def test_the_usual_answer_is_packed_whole():
    from layout.answer.answer import answer
    from layout.cuts import Hand
    from lessons.bench.pack import deflated, inflated, packed_cut

    entry = find("valley-jack")
    packed = inflated(deflated(packed_cut(entry, "foot", only=("corner",))))
    step = steps(entry)["corner"][6]
    half = packed["sliders"]["corner"][6]["left"]
    told = answer(step.question(entry, "foot", Hand.LEFT, boards(entry)[0]))
    lines = [packed["lines"][at] for at in half["boards"][0]["said"]]
    assert lines == read_aloud(told).splitlines()
    assert half["normals"][0] == pytest.approx(told.cut.normal.tolist(), abs=1e-7)


def test_a_book_holds_the_same_bench(a_browser, tmp_path, capsys):
    from tests.in_browser import Watched

    path = tmp_path / "course.html"
    assert run(["book", "birds-mouth", "-o", str(path), "--bench"]) == 0
    watched = Watched(a_browser, (360, 800))
    page = watched.page
    page.goto(path.as_uri())
    page.wait_for_selector("html[data-ready]")
    assert page.get_by_role("article").count() == 1
    capsys.readouterr()
    assert run(["mark", "common-seat", "--pitch", "8 in 12"]) == 0
    told = capsys.readouterr().out
    words = page.locator("#words p").all_inner_texts()
    assert [plain(line) for line in words] == [plain(line) for line in told.splitlines()]
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert page.locator("#drills").is_visible()
    ids = page.eval_on_selector_all("[id]", "all => all.map(one => one.id)")
    assert len(ids) == len(set(ids))
    assert watched.said == []
    watched.context.close()
