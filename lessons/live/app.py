"""All pages together: each at its address, and faults as a page or a line, never a traceback."""

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

from layout.errors import LayoutError
from lessons.live.folder import JobFolder
from lessons.live.guard import Door
from lessons.live.job_pages import JobPages
from lessons.live.kept import Kept
from lessons.live.pages import Pages, routes_of
from lessons.live.workers import BusyError, Workers


def application(workers: Workers, jobs: JobFolder, door: Door) -> Starlette:
    """The pages over these workers and this folder."""
    pages = Pages(workers, jobs, door)
    routes = [*routes_of(pages), *Kept(pages).routes(), *JobPages(pages).routes()]

    async def fault(request: Request, error: Exception) -> Response:
        code = 503 if isinstance(error, BusyError) else 422
        return pages.show(request, "fault.html", code, fault=str(error))

    async def nowhere(request: Request, error: Exception) -> Response:
        code = error.status_code if isinstance(error, HTTPException) else 404
        return pages.show(request, "nowhere.html", code)

    async def broken(_: Request, __: Exception) -> Response:
        return PlainTextResponse("That went wrong here; nothing was saved.\n", 500)

    return Starlette(
        routes=routes,
        exception_handlers={LayoutError: fault, HTTPException: nowhere, Exception: broken},
    )
