"""Answers to drills on the live page, kept where the terminal's `drill` keeps them.

The bench is the offline page. Served to whoever started the program, it may also send each judged
answer to this server; nothing else about it changes. A class sends nothing: its answers stay on
its own devices.
"""

import asyncio
import re
from collections.abc import Mapping

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from lessons.course.lesson import catalog
from lessons.course.lesson_data import DrillKind
from lessons.drill.progress import Attempt, ProgressFile, now
from lessons.drill.roster import LONGEST_NAME
from lessons.live.pages import Pages, posted
from lessons.live.workers import Reply

SCRIPT = '<script src="/look/kept.js" defer></script>'
STAYS = "Your answers stay on this device. Nothing leaves it by itself: save"
KEPT_HERE = "Your answers are kept in this browser, under your name: save"
KINDS: tuple[DrillKind, ...] = ("number", "choose", "find-error", "mark")
LONGEST = 200
MOST_TRIES = 1000
_SCRIPT_POLICY = re.compile(r"(script-src 'sha256-[^']+')")


def with_store(bench: str) -> str:
    """The bench's page, allowed to send its answers to where it came from."""
    head = _SCRIPT_POLICY.sub(r"\1 'self'; connect-src 'self'", bench, count=1)
    head = head.replace(STAYS, KEPT_HERE, 1)
    return head.replace("</head>", f"{SCRIPT}</head>", 1)


def attempt_of(form: Mapping[str, str]) -> Attempt:
    """A judged answer as a page sends it. Raises HTTPException for what no page sends."""
    lesson, kind = form.get("lesson", ""), form.get("kind", "")
    if lesson not in catalog() or kind not in KINDS:
        raise HTTPException(422)
    given = (part.partition(" ") for part in _short(form, "given").split("; ") if part)
    return Attempt(
        when=now(),
        lesson=lesson,
        drill=_short(form, "drill"),
        kind=kind,
        right=form.get("right") == "True",
        tries=_count(form, "tries"),
        hints=_count(form, "hints"),
        shown=form.get("shown") == "True",
        answered=_short(form, "answered"),
        mistakes=tuple(_short(form, "mistakes").split()),
        given={key: text for key, _, text in given},
        learner=_short(form, "learner")[:LONGEST_NAME],
    )


class Kept:
    """What is kept of drills, and how far one has come."""

    def __init__(self, pages: Pages) -> None:
        self.pages = pages

    async def bench(self, request: Request) -> Response:
        """The moving page of one cut, with its lessons' drills."""
        page = await self.pages.bench(request)
        if request.state.who != "own" or page.status_code != 200:
            return page
        page.body = with_store(bytes(page.body).decode()).encode()
        page.headers["content-length"] = str(len(page.body))
        return page

    async def answered(self, request: Request) -> Response:
        """Keep one judged answer, as `drill` keeps it."""
        attempt = attempt_of(posted(await request.body()))
        await asyncio.to_thread(ProgressFile().add, attempt)
        return PlainTextResponse("kept\n", 201)

    async def progress(self, request: Request) -> Response:
        """What `drill --progress` says: what is mastered, and what comes next."""
        learner = " ".join(request.query_params.get("learner", "").split())[:LONGEST_NAME]
        named = [f"--learner={learner}"] if learner else []
        reply: Reply = await self.pages.workers.said(["drill", "--progress", *named])
        return self.pages.show(
            request,
            "progress.html",
            code=422 if reply.code else 200,
            learner=learner,
            fault=reply.fault,
            told=reply.out if not reply.code else "",
        )

    def routes(self) -> list[Route]:
        """These pages at their addresses."""
        return [
            Route("/bench/{cut}", self.bench),
            Route("/progress", self.progress),
            Route("/progress/answered", self.answered, methods=["POST"]),
        ]


def _short(form: Mapping[str, str], name: str) -> str:
    return form.get(name, "")[:LONGEST]


def _count(form: Mapping[str, str], name: str) -> int:
    text = form.get(name, "0")
    if not text.isascii() or not text.isdigit() or int(text[:9]) > MOST_TRIES:
        raise HTTPException(422)
    return int(text)
