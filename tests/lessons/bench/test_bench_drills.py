"""Drills, claims and progress on the page, against the terminal's own."""

import csv
import io
import json
from importlib import resources
from random import Random

import numpy as np
import pytest

from layout.answer.answer import answer
from layout.answer.question import ask
from layout.cuts import catalogue
from layout.errors import LayoutError
from layout.quantity import write_fraction
from lessons.bench.drills import SEED, packed_problem
from lessons.bench.pack import rounded
from lessons.cli.main import run
from lessons.course.lesson import catalog
from lessons.drill.grading import grade
from lessons.drill.progress import Attempt, Progress, as_csv
from lessons.drill.roster import read_results
from lessons.drill.session import Session, dealt
from lessons.mistakes.cut_mistakes import made_on
from lessons.settle.claim import claimed
from lessons.settle.settle import settle
from tests.counts import count
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
            for made in made_on(true_answer):
                cut = true_answer.cut
                asked.append(
                    [
                        cut.normal.tolist(),
                        np.asarray(made.setting.normal).tolist(),
                        cut.point.tolist(),
                        cut.span.tolist(),
                    ]
                )
                found = settle(true_answer, [claimed(made.setting)]).judged[0]
                known.append(found.gap_in)
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
    """Answers a learner may write: right, near, mirrored, far off, and by every mistake."""
    if problem.layout is not None:
        return [line.letter for line in problem.layout.lines]
    sought = problem.sought
    if isinstance(sought.value, str):
        return [str(sought.value), *(str(wrong.value) for wrong in sought.wrongs)]
    values = [float(wrong.value) for wrong in sought.wrongs]
    if sought.kind == "angle":
        values += [sought.value, sought.value + 0.4, sought.value + 1.1, 90 - sought.value]
        return [f"{abs(value):.2f}" for value in values] + ["45°", "60 deg"]
    values += [
        sought.value,
        sought.value + 1 / 32,
        sought.value + 3 / 16,
        144 / max(sought.value, 1),
    ]
    told = [write_fraction(abs(value), 32) for value in values]
    return [*told, f"{values[0]:.3f}", "7-1/2", "8½", "9.5 in"]


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


@pytest.mark.parametrize("text", ["", "about 45", "1/0", "<b>8</b>", "8 8 8", "1e3", "--5"])
def test_what_is_no_answer_is_refused(scripts, text):
    problem, session = next(iter(problems(1)))
    packed = packed_problem(problem, session)
    assert (
        scripts.evaluate("([problem, text]) => readAnswer(problem, text)", [packed, text]) is None
    )


def test_a_drill_on_the_page_says_what_the_terminal_says(opened, monkeypatch, capsys):
    """The same seed, the same answers: every sentence of the page stands in the transcript."""
    rng = Random(SEED)
    session = Session(lambda _: "", lambda _: None, lambda _: None, rng)
    lesson = catalog()[LESSON]
    played = list(dealt([lesson], rng, 6))
    assert session
    page = opened()
    titles = page.eval_on_selector_all("#drill-lesson option", "all => all.map(o => o.textContent)")
    page.select_option("#drill-lesson", index=titles.index(f"{lesson.number}. {lesson.title}"))
    typed, told = [], []
    for at, problem in enumerate(played):
        if problem.measure is not None:
            typed.append("skip")
            continue
        page.select_option("#drill-number", index=at)
        told.append(problem.ask)
        assert problem.ask in page.locator("#drill-asked").inner_text().replace("\n", " ")
        for text in answers(problem)[: count(9, 4)]:
            judged = grade(problem, text)
            if judged.right:
                continue
            typed.append(text)
            if problem.layout or isinstance(problem.sought.value, str):
                page.get_by_role("button", name=text, exact=True).click()
            else:
                page.fill("#drill-answer", text)
                page.keyboard.press("Enter")
            if len(judged.wrongs) > 1:
                typed.append("1")
                page.get_by_role("button", name=judged.wrongs[0].does).click()
            told += page.locator("#drill-said p").all_inner_texts()
            if judged.wrongs and judged.wrongs[0].made is not None:
                assert page.locator("#drill-gap").is_visible()
        typed.append("show")
        page.click("#drill-show")
        told += page.locator("#drill-said p").all_inner_texts()
    typed.append("quit")
    lines = iter(typed)
    monkeypatch.setattr("builtins.input", lambda _: next(lines))
    capsys.readouterr()
    assert run(["drill", LESSON, "--seed", str(SEED), "--problems", "6", "--no-save"]) == 0
    terminal = " ".join(capsys.readouterr().out.split())
    assert len(told) > 10
    for sentence in told:
        assert " ".join(sentence.split()) in terminal


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
                  let best = 0, off = 9;
                  for (let at = 0; at <= Number(slider.max); at += 1) {
                    slider.value = String(at);
                    slider.dispatchEvent(new Event('input', {bubbles: true}));
                    const said = document.getElementById(`marking-${where}-said`).textContent;
                    const form = /along ([\\d /]+), with ([\\d /]+) held.*toward the (head|foot)/;
                    const pair = form.exec(said);
                    const number = text => text.split(' ').reduce((sum, part) => {
                      const [a, b] = part.split('/'); return sum + a / (b ?? 1); }, 0);
                    const here = pair
                      ? number(pair[1]) / number(pair[2]) * (pair[3] === 'head' ? 1 : -1) : 0;
                    const away = Math.abs(Math.atan(here) - Math.atan(slant));
                    if (away < off) [best, off] = [at, away];
                  }
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
    told = [" ".join(line.split()) for line in capsys.readouterr().out.splitlines()]
    assert found[0] == told[0]
    assert sum(line in told for line in found) > 0.6 * len(told)


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
    results = read_results(page.input_value("#csv"), "page")
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


def test_hostile_words_are_only_words(a_browser, tmp_path):
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
    watched = Watched(a_browser)
    watched.page.goto(path.as_uri())
    watched.page.wait_for_selector("html[data-ready]")
    titles = watched.page.locator("#drill-lesson option").all_inner_texts()
    at = next(i for i, title in enumerate(titles) if evil in title)
    watched.page.select_option("#drill-lesson", index=at)
    assert evil in watched.page.locator("#drill-asked").inner_text()
    assert watched.page.locator("img").count() == 0
    assert watched.page.evaluate("window.ran") is None
    assert watched.said == []
    watched.context.close()


def test_packed_directions_are_short():
    assert rounded(np.array([0.5, -0.123456789, 1.0])) == [0.5, -0.1234568, 1]
    assert json.dumps(rounded(np.array([0.0]))) == "[0]"
