"""The page for the browser, read as text: one file, whole in itself, in good order."""

import re
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from lessons.course.lesson import catalog
from lessons.course.runner import run
from lessons.pages.webpage import webpage
from lessons.say.blocks import DrillsBlock, Heading, Mistaken, Steps
from tests.small_lessons import NAMES, small_catalog

VOID = {"meta", "link", "br", "hr", "img", "input"}


class Tree(HTMLParser):
    """Tags in order with their attributes, the path to each, and the text of each element."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str], tuple[str, ...]]] = []
        self.words: list[tuple[tuple[str, ...], str]] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs), tuple(self.open)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs), tuple(self.open)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag, f"{tag} closes what it did not open"

    def handle_data(self, data):
        if data.strip():
            self.words.append((tuple(self.open), data))


@pytest.fixture(scope="module")
def lessons(tmp_path_factory):
    read = catalog(small_catalog(tmp_path_factory.mktemp("page")))
    return [run(read[name]) for name in NAMES]


@pytest.fixture(scope="module")
def text(lessons):
    return webpage(lessons)


@pytest.fixture(scope="module")
def tree(text):
    return Tree(text)


def tags(tree, *names):
    return [(tag, attributes) for tag, attributes, _ in tree.tags if tag in names]


def test_every_element_is_closed_in_its_turn(tree):
    assert tree.open == []
    assert tree.tags[0][:2] == ("html", {"lang": "en"})


def test_it_needs_nothing_beside_itself(text, tree):
    assert tags(tree, "script", "iframe", "object", "embed", "img") == []
    for _, attributes, _ in tree.tags:
        for name in ("src", "href", "srcset", "action", "data"):
            assert re.match(r"#|data:", attributes.get(name, "#")), attributes
    assert "url(" not in text
    assert "@import" not in text
    addresses = set(re.findall(r"\w+://[^\s\"'<]+", text))
    assert addresses == {"http://www.w3.org/2000/svg"}, "a name, never fetched"


def test_ids_are_unique_and_every_link_and_label_finds_one(tree):
    ids = [attributes["id"] for _, attributes, _ in tree.tags if "id" in attributes]
    assert len(ids) == len(set(ids))
    for _, attributes, _ in tree.tags:
        if attributes.get("href", "").startswith("#"):
            assert attributes["href"][1:] in ids
        for one in attributes.get("aria-labelledby", "").split():
            assert one in ids


def test_headings_run_down_without_a_gap(tree):
    levels = [int(tag[1]) for tag, _ in tags(tree, "h1", "h2", "h3", "h4", "h5")]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_every_block_of_every_lesson_is_there(tree, lessons):
    assert len(tags(tree, "article")) == len(lessons)
    blocks = [block for worked in lessons for block in worked.blocks]
    headings = [block for block in blocks if isinstance(block, Heading) and block.level == 2]
    assert len(tags(tree, "h3")) == len(headings)
    assert len(tags(tree, "h4")) == sum(isinstance(block, Mistaken) for block in blocks)
    shown = sum(isinstance(block, Mistaken) for block in blocks)
    for block in blocks:
        if isinstance(block, Steps):
            shown += sum(picture is not None for _, picture in block.items)
        if isinstance(block, DrillsBlock):
            for problem in block.problems:
                shown += (problem.outline is not None) + (problem.solved is not None)
    assert len(tags(tree, "figure")) == len(tags(tree, "figcaption")) == shown
    assert len(tags(tree, "svg")) == shown
    assert all(attributes["role"] == "img" for _, attributes in tags(tree, "svg"))


def test_answers_and_hints_are_folded_away(tree, lessons):
    problems = [
        problem
        for worked in lessons
        for block in worked.blocks
        if isinstance(block, DrillsBlock)
        for problem in block.problems
    ]
    blanks = [
        block.opened
        for worked in lessons
        for block in worked.blocks
        if isinstance(block, DrillsBlock) and block.opened is not None
    ]
    assert len(blanks) == len(lessons)
    folds = tags(tree, "details")
    assert len(folds) == len(blanks) + sum(1 + len(problem.hints) for problem in problems)
    for opened in blanks:
        places = [path for path, words in tree.words if words.startswith(opened.answer[:12])]
        assert places
        assert all("details" in path for path in places)
    assert all("open" not in attributes for _, attributes in folds)
    for problem in problems:
        places = [path for path, words in tree.words if words == problem.because]
        assert places
        assert all("details" in path for path in places)
    second_hint = next(
        path for path, words in tree.words if words.startswith("Divide by the length")
    )
    assert second_hint.count("details") == 2, "folded inside the first"


def test_words_are_escaped_and_fractions_raised(text):
    assert "one mark on the face &amp; one on the edge" in text
    assert '1\u00a0<span class="fraction"><sup>13</sup>⁄<sub>16</sub></span> in longer' in text


def test_captions_say_what_the_picture_says_and_scales_are_left_to_paper(tree):
    captions = [words for path, words in tree.words if "figcaption" in path]
    assert "Square on the right face" in captions
    drawn = [words for path, words in tree.words if path[-1] == "text"]
    assert "right face" in drawn
    assert not any(re.fullmatch(r"\d+ : \d+|FULL SIZE", words) for words in drawn)
    assert "Square on the right face" not in drawn


def test_one_lesson_alone_has_no_contents(lessons):
    tree = Tree(webpage(lessons[:1], "A cheek"))
    assert tags(tree, "nav") == []
    assert [words for path, words in tree.words if path == ("html", "head", "title")] == ["A cheek"]


def test_it_tells_when_each_lesson_is_drawn(lessons):
    done = []
    webpage(lessons[1:], on_lesson=lambda: done.append(1))
    assert done == [1]
