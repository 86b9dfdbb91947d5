"""Lessons as one page for the browser: a single HTML file that needs nothing beside itself.

Drawings stand in it as SVG, with their notes as text below them; answers are folded away; it is
styled for light, dark and paper and runs no script. Sizes are in rem, so that the browser's zoom
is the large print. What is cut from is not printed from here: a browser keeps no scale.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from html import escape
from importlib import resources
from itertools import count

from figures.files.inline import PAD_IN, drawing_svg
from figures.ink.drawing import Drawing
from figures.page.cautions import DEFERRAL, WARNING
from lessons.course.runner import Worked
from lessons.pages.book import ABOUT, BOOK_TITLE
from lessons.pages.paged import lesson_title
from lessons.say.blocks import (
    Block,
    Boxed,
    Cautions,
    DrillsBlock,
    Facts,
    Heading,
    Mistaken,
    Paragraph,
    PictureBlock,
    ProblemBlock,
    Steps,
    TableBlock,
    Terms,
)

ROOMS_IN = ((3.5, 4.0), (3.5, 5.0), (4.5, 4.5), (6.0, 5.0), (7.5, 7.5))
"""Rooms a picture is drawn in, the first that is large enough: a phone's width first [in]."""
REM_PER_IN = 6.0 * 1.35
"""A picture's greatest width on the screen, where there is room: a third over its own [rem]."""
SCREEN_ONLY = (
    "This page is for study, and its pictures are not to scale. Cut only from the printed book,"
    " which keeps full size and carries bars to check it by."
)
LIFTED = frozenset({"heading", "notes", "scale", "symbol", "symbol-axis"})
"""What a picture carries on paper, and its caption or nothing says on the screen."""
AT_FULL_SIZE = "The printed lesson has this board at full size, to be marked with the square."
POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:"
"""Nothing may be fetched from anywhere, whatever the file is opened with."""
_FRACTION = re.compile(r"(?<![\d/.])(?:(\d+) )?(\d{1,3})/(\d{1,3})(?![\d/])")


def _lifted(gid: str | None) -> bool:
    """Whether something is taken off a picture on the screen: of one made of several, its scale."""
    return gid in LIFTED or (gid or "").endswith(".scale")


def webpage(
    lessons: Sequence[Worked],
    title: str | None = None,
    on_lesson: Callable[[], None] = lambda: None,
) -> str:
    """The lessons as the text of one HTML file; `on_lesson` is called when one has been drawn."""
    title = title or BOOK_TITLE
    articles = []
    for at, worked in enumerate(lessons):
        beside = (
            lessons[at - 1] if at else None,
            lessons[at + 1] if at + 1 < len(lessons) else None,
        )
        articles.append(_article(worked, *beside))
        on_lesson()
    style = (resources.files("lessons.pages") / "webpage.css").read_text("utf-8")
    return "\n".join(
        (
            '<!DOCTYPE html>\n<html lang="en">\n<head>',
            '<meta charset="utf-8">',
            f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            '<meta name="color-scheme" content="light dark">',
            f'<meta name="description" content="{escape(ABOUT)}">',
            f"<title>{escape(title)}</title>",
            # Without one a browser asks the server for an icon.
            '<link rel="icon" href="data:,">',
            f"<style>\n{style}</style>\n</head>\n<body>",
            '<a class="skip" href="#lessons">Skip to the lessons</a>',
            f"<header>\n<h1>{escape(title)}</h1>\n<p>{escape(ABOUT)}</p>",
            f'<p class="quiet">{escape(SCREEN_ONLY)}</p>\n</header>',
            *(_contents(lessons) if len(lessons) > 1 else ()),
            '<main id="lessons" tabindex="-1">',
            *articles,
            "</main>",
            '<footer>\n<aside class="warning" aria-label="Warning"><strong>WARNING</strong>',
            f"<p>{escape(WARNING)}</p></aside>\n<p>{escape(DEFERRAL)}</p>\n</footer>",
            "</body>\n</html>\n",
        )
    )


def _contents(lessons: Sequence[Worked]) -> Iterator[str]:
    yield '<nav aria-labelledby="contents">\n<h2 id="contents">Contents</h2>\n<ul class="contents">'
    for worked in lessons:
        yield f'<li><a href="#{escape(worked.lesson.name)}">{escape(lesson_title(worked))}</a></li>'
    yield "</ul>\n</nav>"


def _article(worked: Worked, before: Worked | None, after: Worked | None) -> str:
    name = escape(worked.lesson.name)
    parts = [f'<article id="{name}" aria-labelledby="{name}-title">']
    writer = _Writer(name)
    open_section = False
    for block in worked.blocks:
        if isinstance(block, Heading) and block.level > 1:
            if open_section:
                parts.append("</section>")
            here = writer.next_id("part")
            parts.append(f'<section aria-labelledby="{here}">\n<h3 id="{here}">')
            parts[-1] += f"{_rich(block.text)}</h3>"
            open_section = True
        else:
            parts.extend(writer.block(block))
    if open_section:
        parts.append("</section>")
    parts.append(_turn(worked, before, after))
    parts.append("</article>")
    return "\n".join(parts)


def _turn(worked: Worked, before: Worked | None, after: Worked | None) -> str:
    """The way on from the end of a lesson."""
    if before is None and after is None:
        return ""
    links = ['<a href="#contents">Contents</a>']
    if before:
        name = escape(before.lesson.name)
        links.append(f'<a href="#{name}" rel="prev">Back: {escape(lesson_title(before))}</a>')
    if after:
        name = escape(after.lesson.name)
        links.append(f'<a href="#{name}" rel="next">Next: {escape(lesson_title(after))}</a>')
    title = escape(f"After lesson {worked.lesson.number}")
    return f'<nav class="turn" aria-label="{title}">{" ".join(links)}</nav>'


class _Writer:
    """Writes the blocks of one lesson, whose name its ids begin with."""

    def __init__(self, name: str) -> None:
        self.name = name
        self._numbers = count(1)

    def next_id(self, kind: str) -> str:
        return f"{self.name}-{kind}-{next(self._numbers)}"

    def block(self, block: Block) -> Iterator[str]:
        """A block as lines of HTML."""
        match block:
            case Heading(text, _):
                yield f'<h2 id="{self.name}-title">{_rich(text)}</h2>'
            case Paragraph(text, strong):
                yield f'<p class="able">{_rich(text)}</p>' if strong else f"<p>{_rich(text)}</p>"
            case Steps(items):
                yield '<ol class="steps">'
                for text, shown in items:
                    yield f"<li><p>{_rich(text)}</p>{self._shown(shown)}</li>"
                yield "</ol>"
            case TableBlock():
                yield _table(block)
            case Boxed(title, lines):
                yield f'<aside class="boxed"><strong>{_rich(title)}</strong>'
                yield from (f"<p>{_rich(line)}</p>" for line in lines)
                yield "</aside>"
            case Facts(pairs):
                yield _pairs("facts", pairs)
            case Terms(pairs):
                yield _pairs("facts terms", pairs)
            case Mistaken(title, text, price, shown):
                here = self.next_id("mistake")
                yield f'<section class="mistake" aria-labelledby="{here}">\n<div>'
                yield f'<h4 id="{here}"><span class="tag">MISTAKE</span> {_rich(title)}</h4>'
                yield f"<p>{_rich(text)}</p>"
                tag = '<span class="tag">THE GAP IT LEAVES</span>'
                yield f'<p class="price">{tag} {_rich(price)}</p>'
                yield "</div>"
                yield f"{self._shown(shown)}\n</section>"
            case Cautions(lines):
                yield '<aside class="warning" aria-label="Warning"><strong>WARNING</strong>\n<ul>'
                yield from (f"<li>{_rich(line)}</li>" for line in lines)
                yield "</ul></aside>"
            case DrillsBlock(problems, opened):
                if opened is not None:
                    yield from _opened(opened)
                yield '<ol class="steps drills">'
                for number, problem in enumerate(problems, start=1):
                    yield from self._problem(number, problem)
                yield "</ol>"

    def _problem(self, number: int, problem: ProblemBlock) -> Iterator[str]:
        yield f'<li class="problem"><div>\n<p>{_rich(problem.ask)}</p>'
        if problem.layout:
            lines = "".join(f"<li>{_rich(line)}</li>" for line in problem.layout)
            yield f'<ul class="layout">{lines}</ul>'
        if problem.outline:
            yield self._figure(problem.outline)
            yield f'<p class="quiet">{AT_FULL_SIZE}</p>'
        else:
            yield '<div class="work" aria-hidden="true"></div>'
        yield from _hints(number, problem.hints)
        yield f"<details><summary>Answer to drill {number}</summary>"
        yield f"<p><strong>{_rich(problem.answer)}</strong></p><p>{_rich(problem.because)}</p>"
        if problem.solved:
            yield self._figure(problem.solved)
        yield "</details>\n</div></li>"

    def _shown(self, shown: PictureBlock | TableBlock | None) -> str:
        """What shows a step: its picture, its table, or nothing."""
        if isinstance(shown, TableBlock):
            return _table(shown)
        return "" if shown is None else self._figure(shown)

    def _figure(self, shown: PictureBlock) -> str:
        """The picture, its own heading and notes lifted out of it as a caption."""
        drawing = shown.drawn_in_first(ROOMS_IN)
        said = {
            label.gid: label.text for label in drawing.labels if label.gid in ("heading", "notes")
        }
        bare = Drawing(
            tuple(stroke for stroke in drawing.strokes if not _lifted(stroke.gid)),
            drawing.areas,
            tuple(label for label in drawing.labels if not _lifted(label.gid)),
        )
        left, _, right, _ = bare.bounds()
        wide = (right - left + 2 * PAD_IN) * REM_PER_IN
        svg = drawing_svg(
            bare,
            shown.shows,
            said.get("notes", "").replace("\n", " "),
            f"{self.next_id('picture')}-",
        )
        caption = f"<strong>{_caption(said.get('heading', shown.shows))}</strong>"
        if "notes" in said:
            caption += f"<span>{_caption(said['notes'])}</span>"
        return (
            f'<figure>\n<div class="drawn" style="--wide:{wide:.1f}rem">{svg}</div>'
            f"\n<figcaption>{caption}</figcaption>\n</figure>"
        )


def _caption(text: str) -> str:
    """Words of a picture as running text: the lines they were wrapped to are joined."""
    return escape(re.sub(r"\n", " ", text[:1].upper() + text[1:]))


def _opened(opened: ProblemBlock) -> Iterator[str]:
    """The lesson's steps for another pitch, with blanks; what belongs there is folded away."""
    lines = "".join(f"<li>{_rich(line)}</li>" for line in opened.layout)
    yield f'<p>{_rich(opened.ask)}</p>\n<ul class="layout">{lines}</ul>'
    yield "<details><summary>What belongs into the blanks</summary>"
    yield f"<p><strong>{_rich(opened.answer)}</strong></p></details>"


def _hints(number: int, hints: Sequence[str]) -> Iterator[str]:
    """Each hint is folded inside the one before it, so that none shows how many are left."""
    for at, hint in enumerate(hints):
        yield f"<details><summary>{'Another hint' if at else 'A hint'} for drill {number}</summary>"
        yield f"<p>{_rich(hint)}</p>"
    yield "</details>" * len(hints)


def _table(table: TableBlock) -> str:
    head = "".join(f'<th scope="col">{_rich(cell)}</th>' for cell in table.head)
    rows = "".join(
        f'<tr><th scope="row">{_rich(row[0])}</th>'
        f"{''.join(f'<td>{_rich(cell)}</td>' for cell in row[1:])}</tr>"
        for row in table.rows
    )
    return (
        f'<div class="scrolls" tabindex="0" role="region" aria-label="{escape(table.shows)}">'
        f"<table><caption>{_rich(table.shows)}</caption>"
        f"<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div>"
    )


def _pairs(kind: str, pairs: Iterable[tuple[str, str]]) -> str:
    rows = "".join(f"<dt>{_rich(name)}</dt><dd>{_rich(means)}</dd>" for name, means in pairs)
    return f'<dl class="{kind}">{rows}</dl>'


def _rich(text: str) -> str:
    """The text escaped, every plain fraction raised and lowered about its bar.

    A screen reader still reads plain figures: 1⁄2, held to its whole number by U+00A0.
    """

    def real(match: re.Match[str]) -> str:
        whole, above, below = match.groups()
        fraction = f'<span class="fraction"><sup>{above}</sup>⁄<sub>{below}</sub></span>'
        return f"{whole}\u00a0{fraction}" if whole else fraction

    return _FRACTION.sub(real, escape(text, quote=False))
