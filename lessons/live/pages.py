"""The pages: each reads a form, asks the commands, and shows what they said.

Every page is a plain form that works without script; its address holds its question, so that it
can be sent to someone with the same program.
"""

import json
from collections.abc import Awaitable, Callable, Sequence
from functools import partial
from typing import Any
from urllib.parse import parse_qsl

from jinja2 import Environment, PackageLoader
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from layout.cuts import catalogue, find
from layout.errors import LayoutError
from layout.quantity import write_degrees
from lessons.course.lesson import catalog
from lessons.live import asking
from lessons.live.cache import Cache
from lessons.live.draw import PICTURES, WIDE
from lessons.live.folder import JobFolder
from lessons.live.guard import Door
from lessons.live.look import look
from lessons.live.way_back import PageLink, with_way_back
from lessons.live.workers import GIVEN, Reply, Workers
from lessons.say.data_folder import data_folder

LivePage = Callable[[Request], Awaitable[Response]]

OWN_PAGE = "frame-ancestors 'none'"
"""The policy of a page that brings its own: the offline bench, and a lesson."""
MARK = {**asking.QUESTION, **asking.SAW}
SHEET = {"paper": "--paper", "printed": "--printed-bars", "printer": "--printer"}
LESSON = {"pitch": "--pitch", "stock": "--stock", "hand": "--hand", "units": "--units"}
WORKSHEET = {"sheets": "--sheets", "problems": "--problems", "seed": "--seed", "paper": "--paper"}
LONGEST_CLAIM = 300


class Pages:
    """What all pages share: the workers, the folder, what was answered, and the templates."""

    def __init__(self, workers: Workers, jobs: JobFolder, door: Door) -> None:
        self.workers, self.jobs, self.door = workers, jobs, door
        self.replies: Cache[Reply] = Cache(lambda reply: len(reply.out) + len(reply.file) + 500)
        self.pairs: Cache[tuple[Reply, Reply]] = Cache(
            lambda pair: sum(len(reply.out) + 500 for reply in pair)
        )
        self.drawings: Cache[str] = Cache(len)
        self.templates = Environment(
            loader=PackageLoader("lessons.live"), autoescape=True, trim_blocks=True
        )

    def show(self, request: Request, template: str, /, code: int = 200, **told: Any) -> Response:
        """A page from its template; everything in it is escaped."""
        told |= {"own": request.state.who == "own", "here": request.url.path}
        return HTMLResponse(self.templates.get_template(template).render(told), code)

    async def said(self, arguments: list[str], given: str = "") -> Reply:
        """What a command says, from the answers kept where it is there."""
        asked = partial(self.workers.said, arguments, given)
        return await self.replies.of((*arguments, "", given), asked)

    async def file(self, arguments: list[str], suffix: str, name: str, given: str = "") -> Response:
        """The file that a command writes, or its fault as a line."""
        asked = partial(self.workers.written, arguments, suffix, given)
        reply = await self.replies.of((*arguments, suffix, given), asked)
        if reply.code or not reply.file:
            raise LayoutError(reply.fault or "nothing was made")
        if suffix == ".pdf":
            held = f'inline; filename="{name}.pdf"'
            headers = {"Content-Disposition": held, "Content-Security-Policy": OWN_PAGE}
            return Response(reply.file, media_type="application/pdf", headers=headers)
        if suffix == ".svg":
            return Response(reply.file, media_type="image/svg+xml")
        return HTMLResponse(reply.file.decode(), headers={"Content-Security-Policy": OWN_PAGE})

    async def home(self, request: Request) -> Response:
        """Where to go."""
        return self.show(request, "home.html", folder=self.jobs.folder, data=data_folder())

    async def sent(self, request: Request) -> Response:
        """The page whose address was sent from another machine with this program."""
        return RedirectResponse(asking.sent(request.query_params.get("address", "")), 303)

    async def alive(self, request: Request) -> Response:
        """The folder served here: how a second start knows this one."""
        return PlainTextResponse(str(self.jobs.folder)[:200])

    async def marks(self, request: Request) -> Response:
        """The cuts to choose from, by picture, or those that a search finds."""
        search = request.query_params.get("find", "")[: asking.LONGEST]
        return self.show(request, "cuts.html", families=asking.families(search), find=search)

    async def mark(self, request: Request) -> Response:
        """One cut: the form, and everything that `mark` says of it."""
        entry = _entry(request)
        filled = asking.fields(request.query_params, MARK)
        arguments = ["mark", entry.name, *asking.options(filled, MARK)]
        reply, told = await self.pairs.of(
            tuple(arguments),
            partial(self.workers.said_both, arguments, [*arguments, "--json"]),
        )
        groups = asking.lines(reply.out) if not reply.code else []
        question = {"cut": entry.name, **asking.fields(request.query_params, asking.QUESTION)}
        return self.show(
            request,
            "mark.html",
            code=422 if reply.code else 200,
            entry=entry,
            filled=filled,
            fault=reply.fault,
            said=reply.out.rstrip("\n") if not reply.code else "",
            groups=groups,
            numbers=_numbers(json.loads(told.out)) if not reply.code else [],
            reach=asking.margin(groups, "reach"),
            pictures=[
                (shows, asking.address(f"/drawing/{name}.svg", question), name in WIDE)
                for name, shows in PICTURES.items()
            ],
            sheet=asking.address(f"/marks/{entry.name}/sheet.pdf", filled),
        )

    async def sheet(self, request: Request) -> Response:
        """The full-size sheet of one cut, with the printer's correction."""
        entry = _entry(request)
        filled = asking.fields(request.query_params, (*asking.QUESTION, *SHEET))
        if request.state.who != "own":
            filled.pop("printer", None)  # a kept correction belongs to whoever started this
        known = {**asking.QUESTION, **SHEET}
        arguments = ["template", entry.name, *asking.options(filled, known)]
        return await self.file(arguments, ".pdf", f"{entry.name}-full-size")

    async def drawing(self, request: Request) -> Response:
        """One picture of a cut."""
        filled = asking.fields(request.query_params, ("cut", *asking.QUESTION))
        name = request.path_params["name"]
        if filled.get("cut") not in catalogue() or name not in PICTURES:
            raise HTTPException(404)
        key = (name, *sorted(filled.items()))
        svg = await self.drawings.of(key, partial(self.workers.drawn, name, filled))
        headers = {"Cache-Control": "private, max-age=3600"}
        return Response(svg, media_type="image/svg+xml", headers=headers)

    async def settle(self, request: Request) -> Response:
        """Two boxes, and what `settle` finds, with each claim's cut against its mate."""
        arguments, filled = _settle(request)
        reply, drawn = None, []
        if filled.get("one"):
            reply, told = await self.pairs.of(
                tuple(arguments),
                partial(self.workers.said_both, arguments, [*arguments, "--json"]),
            )
            drawn = [] if reply.code else _with_cuts(json.loads(told.out))
        return self.show(
            request,
            "settle.html",
            code=422 if reply and reply.code else 200,
            filled=filled,
            families=asking.families(),
            fault=reply.fault if reply else "",
            groups=asking.lines(reply.out, wrapped=True) if reply and not reply.code else [],
            pictures=[
                (said, asking.address("/settle/cut.svg", {**filled, "claim": str(number)}))
                for number, said in drawn
            ],
            sheet=asking.address("/settle/page.pdf", filled),
        )

    async def settle_cut(self, request: Request) -> Response:
        """The cut of one claim, against its mate."""
        _, filled = _settle(request)
        number = request.query_params.get("claim", "1")
        said = [filled[name] for name in ("one", "other") if name in filled]
        if not said or "cut" not in filled or number not in ("1", "2"):
            raise HTTPException(404)
        key = ("settle", number, *sorted(filled.items()))
        asked = partial(self.workers.claimed, filled, said, int(number))
        svg = await self.drawings.of(key, asked)
        headers = {"Cache-Control": "private, max-age=3600"}
        return Response(svg, media_type="image/svg+xml", headers=headers)

    async def settle_page(self, request: Request) -> Response:
        """What was found, for the wall of the trailer."""
        arguments, filled = _settle(request)
        if not filled.get("one"):
            raise HTTPException(404)
        return await self.file(arguments, ".pdf", "settled")

    async def learn(self, request: Request) -> Response:
        """The lessons, for one's own pitch and board."""
        filled = asking.fields(request.query_params, LESSON)
        lessons = [
            (one, asking.address(f"/learn/{one.name}", filled), asking.bench_of(one, filled))
            for one in catalog().values()
        ]
        return self.show(request, "learn.html", lessons=lessons, filled=filled)

    async def lesson(self, request: Request) -> Response:
        """One lesson, as a page or as a sheet to print."""
        lesson = catalog().get(request.path_params["name"])
        if lesson is None:
            raise HTTPException(404)
        suffix = ".pdf" if request.url.path.endswith(".pdf") else ".html"
        filled = asking.fields(request.query_params, LESSON)
        arguments = ["lesson", lesson.name, *asking.options(filled, LESSON)]
        page = await self.file(arguments, suffix, lesson.name)
        if suffix == ".pdf":
            return page
        sheets = asking.address(f"/learn/{lesson.name}.pdf", filled)
        links = [
            ("/learn", "Back to the lessons"),
            (asking.bench_of(lesson, filled), "Bench and drills"),
            (sheets, "Sheets to print"),
        ]
        later = [one for one in catalog().values() if one.number > lesson.number]
        if later:
            after = min(later, key=lambda one: one.number)
            there = asking.address(f"/learn/{after.name}", filled)
            links.append((there, f"Next: {after.number}. {after.title}"))
        return self.under_line(request, page, links)

    def under_line(
        self, request: Request, page: Response, links: Sequence[PageLink] = ()
    ) -> Response:
        """A page that stands alone, under the line of pages and what belongs to it."""
        own, here = request.state.who == "own", request.url.path
        text = with_way_back(
            bytes(page.body).decode(), self.templates, here=here, own=own, links=links
        )
        return HTMLResponse(text, headers={"Content-Security-Policy": OWN_PAGE})

    async def bench(self, request: Request) -> Response:
        """The moving page of one cut, with its lessons' drills."""
        entry = _entry(request)
        seed = asking.options(asking.fields(request.query_params, ("seed",)), {"seed": "--seed"})
        page = await self.file(["bench", entry.name, *seed], ".html", entry.name)
        return self.under_line(request, page)

    async def classroom(self, request: Request) -> Response:
        """What an instructor prints and reads."""
        filled = asking.fields(request.query_params, ("lesson", *WORKSHEET))
        return self.show(
            request,
            "class.html",
            lessons=list(catalog().values()),
            filled=filled,
            share=self.door.class_address,
        )

    async def results(self, request: Request) -> Response:
        """Results that were pasted in: who can do what, and who needs what next."""
        text = posted(await request.body()).get("results", "").replace("\r\n", "\n")
        reply = await self.said(["class", "read", GIVEN], text) if text.strip() else None
        fault = reply.fault if reply else "paste results first: the CSV that a learner saved"
        return self.show(
            request,
            "class.html",
            code=422 if fault else 200,
            lessons=list(catalog().values()),
            filled={},
            results=text,
            share=self.door.class_address,
            fault=fault,
            listed=reply.out if reply and not reply.code else "",
        )

    async def roll_sheets(self, request: Request) -> Response:
        """A worksheet for every name of a roll."""
        form = posted(await request.body())
        names = form.get("names", "").replace("\r\n", "\n")
        roll = await self.workers.written(["class", "new", GIVEN], ".csv", names or "\n")
        if roll.code:
            raise LayoutError(roll.fault)
        filled = asking.fields(form, WORKSHEET)
        name = form.get("lesson", "")
        lessons = [name] if name in catalog() else []
        arguments = ["worksheet", *lessons, f"--class={GIVEN}", *asking.options(filled, WORKSHEET)]
        return await self.file(arguments, ".pdf", "worksheets", roll.file.decode())

    async def worksheet(self, request: Request) -> Response:
        """Worksheets of one lesson, or of the whole course."""
        filled = asking.fields(request.query_params, WORKSHEET)
        name = request.query_params.get("lesson", "")
        names = [name] if name in catalog() else []
        if name and not names:
            raise HTTPException(404)
        arguments = ["worksheet", *names, *asking.options(filled, WORKSHEET)]
        return await self.file(arguments, ".pdf", "worksheets")

    async def book(self, request: Request) -> Response:
        """The course, or one lesson of it, bound for the printer."""
        name = request.query_params.get("lesson", "")
        if name and name not in catalog():
            raise HTTPException(404)
        return await self.file(["book", *([name] if name else [])], ".pdf", "course")


def routes_of(pages: Pages) -> list[Route]:
    """Every page but the job folder's, at its address."""
    return [
        Route("/", pages.home),
        Route("/open", pages.sent),
        Route("/alive", pages.alive),
        Route("/look/{name}", look),
        Route("/marks", pages.marks),
        Route("/marks/{cut}", pages.mark),
        Route("/marks/{cut}/sheet.pdf", pages.sheet),
        Route("/drawing/{name}.svg", pages.drawing),
        Route("/settle", pages.settle),
        Route("/settle/page.pdf", pages.settle_page),
        Route("/settle/cut.svg", pages.settle_cut),
        Route("/learn", pages.learn),
        Route("/learn/{name}.pdf", pages.lesson),
        Route("/learn/{name}", pages.lesson),
        Route("/class", pages.classroom),
        Route("/class/results", pages.results, methods=["POST"]),
        Route("/class/roll.pdf", pages.roll_sheets, methods=["POST"]),
        Route("/class/worksheets.pdf", pages.worksheet),
        Route("/class/course.pdf", pages.book),
    ]


def posted(body: bytes) -> dict[str, str]:
    """The fields of a form that was sent."""
    try:
        return dict(parse_qsl(body.decode("utf-8"), keep_blank_values=True, max_num_fields=400))
    except (ValueError, UnicodeDecodeError):
        raise HTTPException(400) from None


def _entry(request: Request) -> Any:
    entry = catalogue().get(request.path_params["cut"])
    if entry is None:
        raise HTTPException(404)
    return entry


def _numbers(told: dict[str, Any]) -> list[tuple[str, str]]:
    """The three numbers that are set first, as `mark --json` has them."""
    return [
        ("Face mark, from square", write_degrees(told["face_mark"]["from_square_deg"])),
        ("Edge mark, from square", write_degrees(told["edge_mark"]["from_square_deg"])),
        ("Tilt, shoe on the face", write_degrees(told["saw"]["on_face"]["tilt_deg"])),
    ]


def _with_cuts(told: dict[str, Any]) -> list[tuple[int, str]]:
    """The claims that put a plane through the board: each one's number, and how it was heard."""
    return [
        (number, f"Claim {number}: {claim['read_as']}")
        for number, claim in enumerate(told.get("claims", ()), start=1)
        if claim["normal"] is not None
    ]


def _settle(request: Request) -> tuple[list[str], dict[str, str]]:
    """The command that settles what a form says, and the form."""
    filled = asking.fields(request.query_params, ("cut", *asking.QUESTION))
    for name in ("one", "other"):
        text = " ".join(request.query_params.get(name, "").split())[:LONGEST_CLAIM]
        if text:
            filled[name] = text
    cut = filled.get("cut", "")
    if cut:
        cut = find(cut).name  # what is no cut is refused here: it could pass for an option
    said = [f"--claim={filled[name]}" for name in ("one", "other") if name in filled]
    named = [cut] if cut else []
    return ["settle", *named, *asking.options(filled, asking.QUESTION), *said], filled
