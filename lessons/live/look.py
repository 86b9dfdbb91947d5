"""The page's style and script, as files of their own."""

from importlib import resources

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from lessons.bench.page import STYLES, own_file

KINDS = {"live.css": "text/css", "live.js": "text/javascript", "kept.js": "text/javascript"}


async def look(request: Request) -> Response:
    """One of the files that every page is dressed with."""
    name = request.path_params["name"]
    if name not in KINDS:
        raise HTTPException(404)
    text = (resources.files("lessons.live") / name).read_text("utf-8")
    if name.endswith(".css"):
        # The same looks as the offline page.
        text = "".join(own_file(style) for style in STYLES) + text
    headers = {"Cache-Control": "private, max-age=600"}
    return Response(text, media_type=KINDS[name], headers=headers)
