"""`squaresaw live`: the program as a page of this machine's own."""

from pathlib import Path
from typing import Annotated

import typer

from layout.errors import LayoutError


def live(
    folder: Annotated[
        Path, typer.Argument(metavar="[FOLDER]", help="The job folder; the only one it touches.")
    ] = Path("."),
    port: Annotated[
        int,
        typer.Option(
            "--port", metavar="NUMBER", min=0, max=65535, help="A port; 0 takes a free one."
        ),
    ] = 0,
    no_open: Annotated[
        bool, typer.Option("--no-open", help="Print the address, and open no browser.")
    ] = False,
    share: Annotated[
        bool, typer.Option("--share", help="Let a class in, on this network, to look and ask.")
    ] = False,
) -> None:
    """Open the program as a page in the browser, on this machine."""
    try:
        from lessons.live.server import serve
    except ImportError as error:
        raise LayoutError(
            f"the live page needs {error.name}, which is not here; install square-and-saw whole"
        ) from None
    from lessons.cli.main import run

    serve(run, folder, port=port, browse=not no_open, share=share, say=typer.echo)
