"""Drills, claims and progress on the page, against the terminal's own."""

import contextlib
import csv
import io
import json
import math
from collections import Counter
from dataclasses import dataclass, replace
from importlib import resources
from random import Random

import numpy as np
import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import catalogue
from layout.errors import LayoutError
from layout.quantity import write_fraction
from layout.tools.fit import fit
from lessons.bench.drills import SEED, packed_problem
from lessons.bench.pack import rounded
from lessons.cli.main import run
from lessons.course.lesson import catalog
from lessons.drill.grading import SENSES, grade, tolerance_words
from lessons.drill.problem_words import diagnosis_words
from lessons.drill.progress import Attempt, Progress, as_csv
from lessons.drill.roster import read_results
from lessons.drill.session import WHICH_PROMPT, Asking, Session, dealt
from lessons.mistakes.cut_mistakes import made_on
from lessons.settle.claim import claimed
from lessons.settle.settle import settle
from tests.counts import LONG, count
from tests.in_browser import Watched, needs_chromium

pytestmark = needs_chromium

LESSON = "valley-jack"


@pytest.fixture(scope="module")
def scripts(a_browser):
    """A bare page with the script of planes and the one that reads answers."""
    watched = Watched(a_browser)
    for name in ("plane.js", "reading.js"):
        text = (resources.files("lessons.bench") / name).read_text()
        watched.page.add_script_tag(content=text)
    yield watched.page
    watched.context.close()


def test_gaps_of_the_script_are_those_of_settle(scripts):
    asked, known = [], []
    for name in catalogue():
        for pitch in (3.0, 8.0, 17.5)[: count(3, 1)] if name != "hip-jack" else (3.0, 8.0, 17.5):
            from layout.quantity import read_pitch

            try:
                true_answer = answer(ask(name, pitch=read_pitch(f"{pitch:g} in 12")))
            except LayoutError:
                continue
            every = made_on(true_answer)
            cut = true_answer.cut
            for made in every:
                asked.append(
                    [
                        cut.normal.tolist(),
                        np.asarray(made.setting.normal).tolist(),
                        cut.point.tolist(),
                        cut.span.tolist(),
                    ]
                )
            judged = settle(true_answer, [claimed(made.setting) for made in every]).judged
            known += [one.gap_in for one in judged]
    assert len(known) > 100
    found = scripts.evaluate("all => all.map(one => Math.max(...gaps(...one)))", asked)
    assert found == pytest.approx(known, abs=1e-9)


def problems(count_of, seed=SEED):
    for lesson in catalog().values():
        rng = Random(seed)
        session = Session(lambda _: "", lambda _: None, lambda _: None, rng)
        for problem in dealt([lesson], rng, count_of):
            yield problem, session


def answers(problem):
    """Answers a learner may write: wrong ones first, near, mirrored and by every mistake, then the
    right one."""
    if problem.layout is not None:
        letters = [line.letter for line in problem.layout.lines]
        return sorted(letters, key=lambda letter: letter in problem.layout.faulty)
    sought = problem.sought
    if isinstance(sought.value, str):
        return [*(str(wrong.value) for wrong in sought.wrongs), str(sought.value)]
    value = sought.value
    values = [float(wrong.value) for wrong in (*sought.wrongs, *sought.pairs)]
    if sought.kind == "angle":
        values += [value + 1.1, 90 - value, value + 20, value + 0.4, value]
        return ["45 deg", "61°", *(f"{abs(each):.2f}" for each in values)]
    values += [value + 3 / 16, 144 / max(value, 1), value + 1 / 32, value]
    told = [write_fraction(abs(each), 64) for each in values]
    more = [f"{values[0]:.3f}", "7-1/2", "8½", "9.5 in", '6"']
    if sought.kind == "length" and value > 12:
        feet, inches = divmod(value, 12)
        told += [f"{feet:.0f}'-{write_fraction(inches)}\"", f"{feet:.0f} ft {inches:.3f}"]
        more += ["7'", "2.4 m", "2400 mm"]
    if problem.measure is not None:
        other = next(word for word in SENSES[problem.measure][1] if word != sought.sense)
        return [f"{each} {word}" for word in (other, sought.sense) for each in (*more, *told)]
    return [*more, *told]


def test_answers_are_judged_as_the_terminal_judges_them(scripts):
    tried = 0
    for problem, session in problems(count(8, 1)):
        packed = packed_problem(problem, session)
        if packed["drawn"]:
            continue
        texts = answers(problem)
        found = scripts.evaluate(
            """([problem, texts]) => texts.map(text => {
              const answered = readAnswer(problem, text);
              if (!answered) return null;
              const graded = grade(problem, answered);
              return [answered.said, graded.right, graded.wrongs.map(one => one.name),
                      unexplained(problem, graded)];
            })""",
            [packed, texts],
        )
        for text, one in zip(texts, found, strict=True):
            tried += 1
            judged = grade(problem, text)
            assert one is not None, (problem.key, text)
            assert one[:3] == [
                judged.read.said,
                judged.right,
                [wrong.name for wrong in judged.wrongs],
            ], (problem.key, text)
    assert tried > 80


def test_a_measured_answer_says_which_way_it_runs(scripts):
    """A bevel along the board is measured on wood: its length without its face is no answer."""
    rng = Random(SEED)
    session = Session(lambda _: "", lambda _: None, lambda _: None, rng)
    lesson = catalog()["backing-or-dropping"]
    problem = next(one for one in dealt([lesson], rng, 8, "mark") if one.measure == "drop")
    packed = packed_problem(problem, session)
    drop, sense = write_fraction(problem.sought.value, 64), problem.sought.sense
    other = {"left": "right", "right": "left"}[sense]
    texts = [drop, f"{drop} {sense}", f"{drop} in, {sense} face", f"{drop} toward the {other} face"]
    found = scripts.evaluate(
        """([problem, texts]) => texts.map(text => {
          const answered = readAnswer(problem, text);
          const graded = answered && grade(problem, answered);
          return graded && [graded.right, graded.wrongs.map(one => one.name)];
        })""",
        [packed, texts],
    )
    assert found == [None, [True, []], [True, []], [False, ["mirrored-mark"]]]
    judged = grade(problem, texts[3])
    assert (judged.right, judged.wrongs[0].name) == (False, "mirrored-mark")


def test_a_measured_answer_of_0_runs_no_way_on_the_page_either(scripts):
    """Without a bevel there is no face on which it drops: read, judged and told as the terminal
    does it."""
    rng = Random(SEED)
    session = Session(lambda _: "", lambda _: None, lambda _: None, rng)
    lesson = catalog()["backing-or-dropping"]
    problem = next(one for one in dealt([lesson], rng, 8, "mark") if one.measure == "drop")
    square = replace(problem.sought.wrongs[0], name="no-bevel", value=0.0)
    problem = replace(problem, sought=replace(problem.sought, wrongs=(square,), pairs=()))
    packed = packed_problem(problem, session)
    for text in ("0", "0 left", "0 in, right face", "1/32 left", "1/32 right"):
        said, right, words = scripts.evaluate(
            """([problem, text]) => {
              const answered = readAnswer(problem, text);
              const graded = grade(problem, answered);
              return [answered.said, graded.right, graded.wrongs.map(
                one => one.words[answered.sense ?? ""].replaceAll(SAID, answered.said))];
            }""",
            [packed, text],
        )
        judged = grade(problem, text)
        assert (said, right) == (judged.read.said, False)
        assert words == [diagnosis_words(problem, judged, one) for one in judged.wrongs]
        assert len(words) == 1
        assert words[0].endswith(f"The bevel should drop on the {problem.sought.sense} face.")
        assert "As deep a drop" not in words[0]


@pytest.mark.parametrize("text", ["", "about 45", "1/0", "<b>8</b>", "8 8 8", "1e3", "--5"])
def test_what_is_no_answer_is_refused(scripts, text):
    problem, session = next(iter(problems(1)))
    packed = packed_problem(problem, session)
    assert (
        scripts.evaluate("([problem, text]) => readAnswer(problem, text)", [packed, text]) is None
    )


PLAYED = """
([lesson, at, texts]) => {
  const by = id => document.getElementById(id);
  const set = (id, value) => {
    by(id).value = String(value); by(id).dispatchEvent(new Event('change', {bubbles: true}));
  };
  if (by('drill-lesson').value !== String(lesson)) set('drill-lesson', lesson);
  set('drill-number', at);
  const told = () => [...document.querySelectorAll('#drill-said > p:not(.buttons)')]
    .map(one => one.textContent);
  return [by('drill-asked').textContent, texts.map(text => {
    const word = [...document.querySelectorAll('#drill-words button')]
      .find(one => one.textContent === text);
    if (word) word.click();
    else { by('drill-answer').value = text; by('drill-form').requestSubmit(); }
    const which = document.querySelector('#drill-said .buttons button');
    const said = told();
    if (which) { which.click(); said.push(...told().slice(1)); }
    const shown = !by('drill-picture').hidden;
    return [said, shown && document.querySelector('#drill-gap + figcaption span').textContent];
  })];
}
"""


def played_in_terminal(problem, texts):
    """What the terminal says after each answer, and the attempts that it keeps."""
    said, kept, left = [], [], list(texts)

    def hear(prompt):
        if prompt == WHICH_PROMPT:
            return "1"
        said.append([])
        if not left:
            raise EOFError
        return left.pop(0)

    session = Session(hear, lambda text: said[-1].append(text), kept.append, Random(1))
    with contextlib.suppress(EOFError):
        Asking(session, problem).run()
    return [" ".join(" ".join(lines).split()) for lines in said if lines], kept


def test_a_drill_on_the_page_is_the_terminals(opened):
    """Every answer a learner may give: the same sentences, and the same attempts kept."""
    page = opened()
    titles = page.eval_on_selector_all("#drill-lesson option", "all => all.map(o => o.textContent)")
    page.fill("#learner", "Ann")
    tried = pictures = 0
    wanted = list(catalog().values()) if LONG else [catalog()[LESSON]]
    for lesson in wanted:
        place = titles.index(f"{lesson.number}. {lesson.title}")
        rng = Random(SEED)
        Session(lambda _: "", lambda _: None, lambda _: None, rng)
        for at, problem in enumerate(dealt([lesson], rng, count(8, 5))):
            if problem.measure is not None and not problem.true_answer.is_rip:
                continue  # a mark is drawn on the page
            texts = answers(problem)
            asked, shown = page.evaluate(PLAYED, [place, at, texts])
            assert problem.ask in " ".join(asked.split())
            terminal, kept = played_in_terminal(problem, texts)
            for text, (said, _), other in zip(texts, shown, terminal, strict=False):
                tried += 1
                if said == [tolerance_words(problem)]:  # not to be read: the terminal says why
                    assert not other.startswith("Read as"), (problem.key, text)
                    continue
                assert said[0].startswith("Read as"), (problem.key, text, other)
                for paragraph in said:
                    assert " ".join(paragraph.split()) in other, (problem.key, text)
                assert said[0].endswith("Right.") == (
                    f"{said[0].removesuffix(' Right.')} Right." in other
                )
            pictures += sum(bool(gap) for _, gap in shown)
            rows = page.evaluate("JSON.parse(localStorage['square-and-saw answers'])")["Ann"]
            ours = rows[-len(shown) :] if len(kept) == len(shown) else []
            for row, attempt in zip(ours, kept, strict=False):
                assert row["right"] == str(attempt.right)
                assert row["tries"] == str(attempt.tries)
                assert row["mistakes"] == " ".join(attempt.mistakes)
                assert (row["lesson"], row["drill"]) == (attempt.lesson, attempt.drill)
                assert same_answer(row["answered"], attempt.answered)
    print(f"\nplayed: {tried} answers, {pictures} pictures of their gaps")
    assert tried > count(1500, 20)
    assert pictures > count(300, 5)


def same_answer(one, other):
    try:
        return float(one) == pytest.approx(float(other), abs=1e-9)
    except ValueError:
        return one == other


def test_the_page_deals_what_the_command_deals(opened, monkeypatch, capsys):
    page = opened()
    titles = page.eval_on_selector_all("#drill-lesson option", "all => all.map(o => o.textContent)")
    lesson = catalog()[LESSON]
    page.select_option("#drill-lesson", index=titles.index(f"{lesson.number}. {lesson.title}"))
    lines = iter(["skip", "skip", "skip", "quit"])
    monkeypatch.setattr("builtins.input", lambda _: next(lines))
    capsys.readouterr()
    assert run(["drill", LESSON, "--seed", str(SEED), "--problems", "3", "--no-save"]) == 0
    terminal = " ".join(capsys.readouterr().out.split())
    for at in range(3):
        page.select_option("#drill-number", index=at)
        asked = page.locator("#drill-asked .strong").inner_text()
        assert " ".join(asked.split()) in terminal


TURNS = {
    "tilt": lambda right, value: replace(right.saw_setting(as_read=False), tilt_deg=value),
    "face_angle": lambda right, value: turned_by_hand(right, face=math.tan(math.radians(value))),
    "edge_number": lambda right, value: turned_by_hand(right, edge=12 / value),
    "edge_bevel": lambda right, value: turned_by_hand(
        right, edge=1 / math.tan(math.radians(value))
    ),
    "longer_by": lambda right, value: turned_by_hand(
        right, edge=value / right.question.stock.thickness_in
    ),
    "runs_down_face": lambda right, value: turned_by_hand(
        right, face=value / right.question.stock.depth_in
    ),
}
"""The setting that a typed value leads to, by the tools' own constructions."""


def turned_by_hand(right, face=None, edge=None):
    """The plane through two marks that run so far along the board for one across it, each the way
    the right one leans; from three points, not from a normal."""
    ends = [(0.0, 0.0, 0.0)]
    for slant, mark, axis in ((face, right.face, 2), (edge, right.edge, 1)):
        along = math.tan(math.radians(mark.from_square_deg)) if slant is None else slant
        end = [along * mark.lean, 0.0, 0.0]
        end[axis] = 1.0
        ends.append(end)
    return Points(tuple(map(tuple, ends)))


@dataclass(frozen=True)
class Points:
    """A plane by three of its points."""

    ends: tuple

    @property
    def normal(self):
        a, b, c = (np.array(end) for end in self.ends)
        return np.cross(b - a, c - a)


def test_the_gap_of_a_typed_answer_is_the_one_its_plane_leaves(scripts):
    """Any number, not only that of a known mistake; its plane is built by the tools."""
    rng = Random(16)
    tried = Counter()
    for problem, session in problems(count(8, 3)):
        sought, right = problem.sought, problem.true_answer
        if sought is None or sought.name not in TURNS or right.is_rip:
            continue
        if tried[sought.name] > count(1000, 20):
            continue
        packed = packed_problem(problem, session)
        if packed["swing"] is None:
            continue
        spread = 25.0 if sought.kind == "angle" else 3.0
        values = [sought.value, *(sought.value + rng.uniform(-1, 1) * spread for _ in range(12))]
        values = [each for each in values if 0.5 < each < 60]
        found = scripts.evaluate(
            """([problem, values]) => values.map(value => {
              const normal = swung(problem.swing, value);
              const {half, board} = problem.scene;
              const [point, span] = [board.points[0], board.spans[0]];
              return normal && Math.max(...gaps(half.normals[0], normal, point, span));
            })""",
            [packed, values],
        )
        for value, gap in zip(values, found, strict=True):
            if gap is None:
                continue
            made = np.asarray(TURNS[sought.name](right, value).normal, dtype=float)
            made *= np.sign(made[0] * right.cut.normal[0]) / np.linalg.norm(made)
            tried[sought.name] += 1
            # The packed directions of the joint itself are rounded to a millionth.
            true = float(fit(right.cut, made).widest_in)
            assert gap == pytest.approx(true, abs=2e-5), (sought.name, value)
    print(f"\ntyped: {dict(tried)}")
    assert sum(tried.values()) > count(400, 60)
    assert len(tried) == len(TURNS)


def test_marks_are_drawn_and_judged_with_their_sense(opened):
    page = opened()
    titles = page.eval_on_selector_all("#drill-lesson option", "all => all.map(o => o.textContent)")
    lesson = catalog()[LESSON]
    page.select_option("#drill-lesson", index=titles.index(f"{lesson.number}. {lesson.title}"))
    rng = Random(SEED)
    Session(lambda _: "", lambda _: None, lambda _: None, rng)
    played = list(dealt([lesson], rng, 8))
    at, problem = next((i, one) for i, one in enumerate(played) if one.measure is not None)
    page.select_option("#drill-number", index=at)
    normal = problem.true_answer.cut.normal
    slants = {"face": -normal[2] / normal[0], "edge": -normal[1] / normal[0]}

    def draw(face, edge):
        for where, slant in (("face", face), ("edge", edge)):
            at = page.evaluate(
                """([where, slant]) => {
                  const slider = document.getElementById(`marking-${where}`);
                  const form = /along ([\\d /]+), with ([\\d /]+) held.*toward the (head|foot)/;
                  const number = text => text.split(' ').reduce((sum, part) => {
                    const [a, b] = part.split('/'); return sum + a / (b ?? 1); }, 0);
                  const here = at => {
                    slider.value = String(at);
                    slider.dispatchEvent(new Event('input', {bubbles: true}));
                    const said = document.getElementById(`marking-${where}-said`).textContent;
                    const pair = form.exec(said);
                    return pair
                      ? number(pair[1]) / number(pair[2]) * (pair[3] === 'head' ? 1 : -1) : 0;
                  };
                  // From the foot to the head the slants grow: halve what is left of them.
                  let low = 0, high = Number(slider.max);
                  while (high - low > 1) {
                    const middle = (low + high) >> 1;
                    if (here(middle) < slant) low = middle; else high = middle;
                  }
                  const off = at => Math.abs(Math.atan(here(at)) - Math.atan(slant));
                  const best = off(low) < off(high) ? low : high;
                  return best;
                }""",
                [where, float(slant)],
            )
            page.fill(f"#marking-{where}", str(at))
            page.dispatch_event(f"#marking-{where}", "input")
        page.click("#drill-check")
        return page.locator("#drill-said p").all_inner_texts()

    right = draw(slants["face"], slants["edge"])
    assert right[0].startswith("It fits")
    assert right[1:3] == ["The face mark is right.", "The edge mark is right."]
    mirrored = draw(slants["face"], -slants["edge"])
    assert mirrored[0].startswith("It leaves a gap")
    assert mirrored[2] == "The edge mark has the right angle, but leans the other way."
    wrong = draw(-slants["face"], slants["edge"])
    assert wrong[1] == "The face mark has the right angle, but leans the other way."
    assert " off." in draw(slants["face"] * 2 + 0.3, slants["edge"])[1]
    assert page.locator("#drill-gap").is_visible()


def test_claims_are_settled_as_settle_settles_them(opened, capsys):
    page = opened()
    titles = page.eval_on_selector_all("#claim-lesson option", "all => all.map(o => o.textContent)")
    lesson = catalog()[LESSON]
    page.select_option("#claim-lesson", index=titles.index(lesson.title))
    page.select_option("#claim-roof", index=2)
    pitch = page.locator("#claim-roof option:checked").inner_text()
    one, two = 0, 2
    page.select_option("#claim-one", index=one)
    page.select_option("#claim-two", index=two)
    found = [" ".join(line.split()) for line in page.locator("#claim-found p").all_inner_texts()]
    claims = page.eval_on_selector_all("#claim-one option", "all => all.map(o => o.textContent)")
    capsys.readouterr()
    roof = {**lesson.given, "pitch": pitch}
    options = [f"--{name.replace('_', '-')}={text}" for name, text in roof.items()]
    options += ["--claim", claims[one], "--claim", claims[two]]
    assert run(["settle", LESSON, *options]) == 0
    assert " ".join(found).split() == capsys.readouterr().out.split()


def test_progress_stays_here_until_it_is_saved(opened):
    page = opened()
    page.fill("#learner", "<img src=x onerror=alert(1)>")
    page.select_option("#drill-number", index=0)
    page.click("#drill-show")
    page.click("#copy-csv")
    rows = list(csv.DictReader(io.StringIO(page.input_value("#csv"))))
    attempt = Attempt("2026-01-01T00:00:00+00:00", "x", "x", "number", True)
    own = next(csv.reader(io.StringIO(as_csv(Progress((attempt,))))))
    assert set(own) <= set(rows[0])
    results = read_results(page.input_value("#csv"), "page", catalog())
    assert [one.right for one in results] == [False]
    assert results[0].learner.startswith("<img")
    assert rows[0]["shown"] == "True"
    assert rows[0]["right"] == "False"
    assert page.locator("img").count() == 0
    page.reload()
    page.wait_for_selector("html[data-ready]")
    assert page.input_value("#learner").startswith("<img")
    assert page.locator("#tally").inner_text() == "1 answered, 0 right"
    with page.expect_download() as download:
        page.click("#save-csv")
    assert download.value.suggested_filename.endswith(".csv")
    page.click("#forget")
    assert page.locator("#tally").inner_text() == "0 answered, 0 right"


def test_answers_given_before_a_name_are_still_the_learners(opened):
    page = opened()
    page.click("#save-csv")
    assert page.locator("#saved").inner_text() == "There is no answer of learner to save."
    page.click("#drill-show")
    page.fill("#learner", "Ann Oakes")
    assert page.locator("#unnamed-said").inner_text() == "1 answered before there was a name here."
    page.click("#take-unnamed")
    assert not page.locator("#unnamed").is_visible()
    page.click("#copy-csv")
    (row,) = csv.DictReader(io.StringIO(page.input_value("#csv")))
    assert row["learner"] == "Ann Oakes"
    page.reload()
    page.wait_for_selector("html[data-ready]")
    assert page.input_value("#learner") == "Ann Oakes"
    assert page.locator("#tally").inner_text() == "1 answered, 0 right"


def test_the_address_says_where_to_begin(opened):
    page = opened(at=f"?pitch=14+in+12&stock=2x8&hand=right&lesson={LESSON}#bench-{LESSON}")
    assert page.locator("#pitch-said").inner_text() == "14 in 12"
    assert page.locator("#stock option:checked").inner_text() == "2x8"
    assert page.locator("#hands input:checked").get_attribute("value") == "right"
    chosen = page.locator("#drill-lesson option:checked").inner_text()
    assert chosen.endswith(catalog()[LESSON].title)


def test_hostile_words_are_only_words(plain_page, tmp_path):
    folder = tmp_path / "lessons"
    folder.mkdir()
    text = (resources.files("lessons.course.catalog") / "birds-mouth.toml").read_text()
    evil = "</script><img src=x onerror=window.ran=1><b>"
    lines = [
        f'title = "{evil}"'
        if line.startswith("title = ")
        else f'ask = "{evil} {{pitches}}"'
        if line.startswith("ask = ")
        else line
        for line in text.splitlines()
    ]
    (folder / "birds-mouth.toml").write_text("\n".join(lines))
    path = tmp_path / "evil.html"
    assert run(["bench", "common-seat", "-o", str(path), "--catalog", str(folder)]) == 0
    watched = plain_page.again((1280, 900), "light")
    watched.page.goto(path.as_uri())
    watched.page.wait_for_selector("html[data-ready]")
    titles = watched.page.locator("#drill-lesson option").all_inner_texts()
    at = next(i for i, title in enumerate(titles) if evil in title)
    watched.page.select_option("#drill-lesson", index=at)
    assert evil in watched.page.locator("#drill-asked").inner_text()
    assert watched.page.locator("img").count() == 0
    assert watched.page.evaluate("window.ran") is None
    assert watched.said == []


def test_packed_directions_are_short():
    assert rounded(np.array([0.5, -0.123456789, 1.0])) == [0.5, -0.1234568, 1]
    assert json.dumps(rounded(np.array([0.0]))) == "[0]"
