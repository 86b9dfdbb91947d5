"""The bench as one HTML file that needs nothing beside itself.

Scripts and styles are files of their own in this room; they are put into the page as they are, and
the page's policy names their hashes: nothing else runs, nothing is fetched. Lesson texts and names
go in as packed data and are set as text, never as HTML.
"""

import base64
import hashlib
import json
from collections.abc import Callable, Sequence
from html import escape
from importlib import resources
from typing import Any

from figures.page.cautions import DEFERRAL, WARNING
from layout.cuts import End, Entry
from lessons.bench.claims import packed_claims
from lessons.bench.drills import SEED, packed_drills
from lessons.bench.pack import deflated, mistake_list, packed_cut
from lessons.bench.steps import USUAL_PITCH
from lessons.course.lesson import Lesson

SCRIPTS = (
    "plane.js",
    "ink.js",
    "views.js",
    "square.js",
    "bench.js",
    "reading.js",
    "progress.js",
    "marking.js",
    "drills.js",
    "claims.js",
    "start.js",
)
"""The page's scripts, in the order in which they stand in it."""
STYLES = ("colors.css", "bench.css")
TITLE = "The bench"
NOT_TO_SCALE = "The pictures are not to scale: print a template, and cut from that."
ABOUT = (
    "Choose a cut and move a slider: the board, the square and the saw follow. Each slider moves"
    " one thing alone. Numbers are for pitches by halves."
)


def place_id(entry: Entry, end: End) -> str:
    """A cut at one end of its stick, as the page's address names it."""
    return entry.name if len(entry.ends) == 1 else f"{entry.name}-{end}"


def listed(entry: Entry, end: End) -> dict[str, Any]:
    """One cut of the page's list, with its packed steps."""
    packed = packed_cut(entry, end)
    corner = "90°"
    return {
        "id": place_id(entry, end),
        "name": entry.name,
        "end": end,
        "family": entry.family,
        "says": entry.says,
        "usual": {"pitch": USUAL_PITCH, "other": USUAL_PITCH, "corner": corner},
        "data": deflated(packed),
    }


def bench_page(
    places: Sequence[tuple[Entry, End]],
    lessons: Sequence[Lesson],
    on_part: Callable[[], None] = lambda: None,
    seed: int = SEED,
) -> str:
    """The text of the file; `on_part` is called when one more cut or lesson has been packed.

    `seed` draws the problems, as `drill --seed` does.
    """
    return page_of(*packed_parts(places, lessons, on_part, seed), seed=seed)


def packed_parts(
    places: Sequence[tuple[Entry, End]],
    lessons: Sequence[Lesson],
    on_part: Callable[[], None] = lambda: None,
    seed: int = SEED,
) -> tuple[list[Any], list[Any], list[Any]]:
    """The cuts, the drills and the claims of a page, packed."""
    cuts = []
    for entry, end in places:
        cuts.append(listed(entry, end))
        on_part()
    drills = packed_drills(lessons, seed, on_lesson=on_part)
    return cuts, drills, packed_claims(lessons, on_lesson=on_part)


def page_of(
    cuts: Sequence[dict[str, Any]],
    drills: Sequence[Any] = (),
    claims: Sequence[Any] = (),
    seed: int = SEED,
) -> str:
    """The page round cuts, drills and claims that are packed already."""
    style, script = "\n".join(own_file(name) for name in STYLES), scripts()
    policy = (
        f"default-src 'none'; script-src '{hash_of(script)}'; style-src '{hash_of(style)}';"
        " img-src data:; base-uri 'none'; form-action 'none'"
    )
    return "\n".join(
        (
            '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">',
            f'<meta http-equiv="Content-Security-Policy" content="{policy}">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            '<meta name="color-scheme" content="light dark">',
            f"<title>{TITLE}</title>",
            '<link rel="icon" href="data:,">',
            f"<style>{style}</style>\n</head>\n<body>",
            body_of(cuts),
            data_of(cuts, drills, claims, seed),
            f"<script>{script}</script>\n</body>\n</html>\n",
        )
    )


def scripts() -> str:
    """The page's scripts as one, in a scope of their own."""
    return f'(() => {{\n"use strict";\n{"".join(own_file(name) for name in SCRIPTS)}}})();\n'


def data_of(
    cuts: Sequence[dict[str, Any]],
    drills: Sequence[Any] = (),
    claims: Sequence[Any] = (),
    seed: int = SEED,
) -> str:
    """Everything that is packed, as the elements that the scripts read."""
    return "\n".join(
        (
            _data("packed-cuts", {"cuts": list(cuts), "mistakes": mistake_list()}),
            _data("packed-drills", {"seed": seed, "data": deflated(list(drills))}),
            _data("packed-claims", {"data": deflated(list(claims))}),
        )
    )


def own_file(name: str) -> str:
    """The text of a file of this room."""
    return (resources.files("lessons.bench") / name).read_text("utf-8")


def hash_of(text: str) -> str:
    """A script's or a style's hash, as a policy names it."""
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _data(name: str, data: Any) -> str:
    """Data for the scripts; no sign in it can end its element."""
    text = json.dumps(data, separators=(",", ":"), ensure_ascii=False).replace("<", "\\u003c")
    return f'<script type="application/json" id="{name}">{text}</script>'


def body_of(cuts: Sequence[dict[str, Any]]) -> str:
    """The page's elements, from its header to its footer."""
    return own_file("bench.html").format(
        title=TITLE,
        about=escape(ABOUT),
        scale=escape(NOT_TO_SCALE),
        options=_options(cuts),
        warning=escape(WARNING),
        deferral=escape(DEFERRAL),
    )


def _options(cuts: Sequence[dict[str, Any]]) -> str:
    """The cuts to choose from, by family."""
    lines, family = [], None
    for cut in cuts:
        if cut["family"] != family:
            lines.append(f'{"</optgroup>" if family else ""}<optgroup label="{cut["family"]}">')
            family = cut["family"]
        says = f"{cut['name']}, {cut['end']}" + (f": {cut['says']}" if cut["says"] else "")
        lines.append(f'<option value="{cut["id"]}">{escape(says)}</option>')
    return "\n".join((*lines, "</optgroup>"))
