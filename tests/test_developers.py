"""DEVELOPERS.md is true: its tree is the house, and its walks pass through what there is."""

import re
from functools import cache

import pytest

from tests.test_architecture import FILES, ORDER, ROOT

TEXT = (ROOT / "DEVELOPERS.md").read_text("utf-8")


def section(head):
    return TEXT.split(f"## {head}\n", 1)[1].split("\n## ", 1)[0]


@cache
def names():
    """Every file, class and function of the product, methods too."""
    found = {path.stem for path in FILES} | {path.parent.name for path in FILES}
    for path in FILES:
        found.update(re.findall(r"^ *(?:def|class) (\w+)", path.read_text("utf-8"), re.MULTILINE))
    return found


@pytest.mark.parametrize("room", ORDER)
def test_the_tree_shows_each_room_in_its_order(room):
    tree = section("The house on one screen").split("```")[1]
    part = re.split(r"^(?:layout|figures|lessons|tests)/ .*\n", tree, flags=re.MULTILINE)
    shown = re.findall(r"(\w+)/ ", part[1 + list(ORDER).index(room)])
    shown = [name for name in shown if name != "catalog"]
    assert shown == ORDER[room][1].split()


def test_a_walk_passes_through_what_there_is():
    said = re.findall(r"`([^`]+)`", section("Four walks"))
    walked = [one for one in said if re.fullmatch(r"[\w.]+", one)]
    assert len(walked) > 40
    unknown = [one for one in walked if not set(one.split(".")) <= names() | set(ORDER)]
    assert not unknown


def test_files_that_are_named_are_there():
    paths = set(re.findall(r"`((?:\w+/)+\w+\.\w+)`", TEXT))
    assert len(paths) > 8
    inside = [*(ROOT / room for room in ORDER), ROOT]
    missing = [path for path in paths if not any((here / path).exists() for here in inside)]
    assert not missing


def test_a_name_that_is_not_there_is_seen():
    assert "read_aloud" in names()
    assert "read_allowed" not in names()
