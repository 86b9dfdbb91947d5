"""The job folder's pages: a form over each file, tried without saving, saved when told."""

import re
from urllib.parse import quote

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from layout.errors import LayoutError
from lessons.jobs.job_starter import starter
from lessons.live import asking
from lessons.live.folder import ChangedError, FolderError, JobText
from lessons.live.job_text import FIELDS, Fault, fault_in, sections, values_of, with_values
from lessons.live.pages import Pages, posted
from lessons.live.workers import GIVEN

JOB = f"--job={GIVEN}"
STICK = re.compile(r"[A-Z]{1,3}[0-9]{1,4}")
VIEWS = {"plan": "Plan", "pictorial": "Pictorial"}
"""The pictures of a roof that follow its form."""


class JobPages:
    """The job folder's pages: a form over each file, tried without saving, saved when told."""

    def __init__(self, pages: Pages) -> None:
        self.pages, self.jobs = pages, pages.jobs

    async def jobs_list(self, request: Request) -> Response:
        """The job files that are there."""
        return self.pages.show(
            request, "roofs.html", names=self.jobs.names(), folder=self.jobs.folder, fault=""
        )

    async def new(self, request: Request) -> Response:
        """A new job file, as `job new` writes it. Refused where one of that name is there."""
        name = posted(await request.body()).get("name", "").strip().removesuffix(".toml")
        try:
            place = self.jobs.place(f"{name}.toml")
            if place.exists():
                raise FolderError(f"{place.name} is there already; give another name")
            self.jobs.save(place.name, starter(name), "")
        except LayoutError as error:
            told = {"names": self.jobs.names(), "folder": self.jobs.folder, "fault": str(error)}
            return self.pages.show(request, "roofs.html", 422, **told)
        return RedirectResponse(f"/roof/{quote(place.name)}", 303)

    async def job(self, request: Request) -> Response:
        """One job: the form, what is wrong beside its field, the lists, and the file itself."""
        file = self._file(request)
        tried = self._tried(request, file.text)
        return await self._shown(request, file, tried)

    async def save(self, request: Request) -> Response:
        """Save the form's values, or the text as it was written by hand."""
        form = posted(await request.body())
        file = self._file(request)
        text = (
            form["text"].replace("\r\n", "\n")
            if "text" in form
            else with_values(
                file.text, {key: _clean(form.get(key, "")) for key in FIELDS if key in form}
            )
        )
        try:
            self.jobs.save(file.name, text, form.get("mark", ""))
        except LayoutError as error:
            code = 409 if isinstance(error, ChangedError) else 422
            return await self._shown(request, file, text, code=code, fault=str(error))
        return RedirectResponse(f"/roof/{quote(file.name)}?saved=yes", 303)

    async def drawing(self, request: Request) -> Response:
        """The roof's plan or its pictorial, of what is tried."""
        view = request.path_params["view"]
        if view not in VIEWS:
            raise HTTPException(404)
        tried = self._tried(request, self._file(request).text)
        return await self.pages.file(
            ["picture", "roof", f"--view={view}", JOB], ".svg", view, tried
        )

    async def packet(self, request: Request) -> Response:
        """The packet of the job as it is saved."""
        file = self._file(request)
        return await self.pages.file(
            ["packet", JOB], ".pdf", file.name.removesuffix(".toml"), file.text
        )

    async def stick(self, request: Request) -> Response:
        """One stick's full-size sheets, of the job as it is saved."""
        file = self._file(request)
        name = request.query_params.get("stick", "").strip().upper()
        if STICK.fullmatch(name) is None:
            raise FolderError("a stick is named as in the plan, such as J1, C3 or H2")
        asked = ["roof", JOB, f"--stick={name}"]
        return await self.pages.file(asked, ".pdf", name, file.text)

    async def cut_list(self, request: Request) -> Response:
        """The cut list of the job as it is saved, for a spreadsheet."""
        file = self._file(request)
        reply = await self.pages.said(["roof", JOB, "--csv"], file.text)
        if reply.code:
            raise LayoutError(reply.fault)
        named = f'attachment; filename="{file.name.removesuffix(".toml")}.csv"'
        return Response(reply.out, media_type="text/csv", headers={"Content-Disposition": named})

    def routes(self) -> list[Route]:
        """Every page of the folder at its address."""
        return [
            Route("/roof", self.jobs_list),
            Route("/roof/new", self.new, methods=["POST"]),
            Route("/roof/{name}", self.job),
            Route("/roof/{name}/save", self.save, methods=["POST"]),
            Route("/roof/{name}/{view}.svg", self.drawing),
            Route("/roof/{name}/stick.pdf", self.stick),
            Route("/roof/{name}/packet.pdf", self.packet),
            Route("/roof/{name}/cuts.csv", self.cut_list),
        ]

    def _file(self, request: Request) -> JobText:
        try:
            return self.jobs.read(request.path_params["name"])
        except FolderError:
            raise HTTPException(404) from None

    def _tried(self, request: Request, text: str) -> str:
        """The file's text with the values that the address carries."""
        query = request.query_params
        return with_values(text, {key: _clean(query[key]) for key in FIELDS if key in query})

    async def _shown(
        self, request: Request, file: JobText, tried: str, *, code: int = 200, fault: str = ""
    ) -> Response:
        checked = await self.pages.said(["job", "check", GIVEN], tried)
        wrong = fault_in(tried, checked.fault) if checked.code else Fault("", "")
        listed = await self.pages.said(["roof", JOB], tried) if not checked.code else checked
        values = values_of(tried)
        changed = {key: values.get(key, "") for key in FIELDS if key in request.query_params}
        here = f"/roof/{quote(file.name)}"
        return self.pages.show(
            request,
            "roof.html",
            code=code if not wrong.text or code != 200 else 422,
            name=file.name,
            address=here,
            file=file,
            tried=tried,
            unsaved=tried != file.text,
            saved="saved" in request.query_params and tried == file.text,
            example=tried == starter(file.name.removesuffix(".toml")),
            values=values,
            sections=sections(),
            wrong=wrong,
            fault=fault,
            said=checked.out.strip(),
            listed=listed.out if not listed.code else "",
            drawings=[
                (shows, asking.address(f"{here}/{view}.svg", changed))
                for view, shows in VIEWS.items()
            ],
        )


def _clean(text: str) -> str:
    return " ".join("".join(each if each.isprintable() else " " for each in text).split())[:80]
