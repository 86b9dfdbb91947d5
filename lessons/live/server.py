"""Starting the server, finding one that runs already, and ending it cleanly."""

import contextlib
import json
import os
import secrets
import signal
import socket
import urllib.error
import urllib.request
import webbrowser
from collections.abc import Callable
from pathlib import Path
from typing import Any

import uvicorn

from layout.errors import LayoutError
from lessons.live.app import application
from lessons.live.folder import JobFolder
from lessons.live.guard import Door, Guard
from lessons.live.workers import Run, Workers
from lessons.say.data_folder import data_folder

STATE = "live.json"
MOST_AT_ONCE = 200
ALONE = "This page is this machine's own; keep its address to yourself. Ctrl-C ends it."
SHARED = (
    "SHARED: anyone on this network who has the class address can look at marks, settle, lessons"
    " and drills, and nothing else. It is not encrypted: others on the network can read what is"
    " sent. The job folder stays yours. Ctrl-C ends it."
)


def serve(
    run: Run,
    folder: Path,
    *,
    port: int = 0,
    browse: bool = True,
    share: bool = False,
    say: Callable[[str], None] = print,
) -> None:
    """Serve until Ctrl-C; where this folder is served already, open that page and return.

    `run` is the command line that answers. Raises LayoutError for a folder that is not there,
    or a port that is taken.
    """
    jobs = JobFolder(folder)
    found = None if share else _running(jobs.folder)
    if found is not None:
        say(found)
        say("It runs already: this is the same page.")
        if browse:
            webbrowser.open(found)
        return
    with _listening(port, share) as listening:
        taken = int(listening.getsockname()[1])
        door = Door(taken)
        if share:
            door.class_key = secrets.token_urlsafe(12)
            door.class_hosts = _own_addresses()
        address = f"http://127.0.0.1:{taken}/?key={door.key}"
        workers = Workers(run)
        app = Guard(application(workers, jobs, door), door)
        server = uvicorn.Server(
            uvicorn.Config(
                app,
                log_level="critical",
                access_log=False,
                server_header=False,
                date_header=False,
                lifespan="off",
                ws="none",
                timeout_keep_alive=15,
                limit_concurrency=MOST_AT_ONCE,
                h11_max_incomplete_event_size=32_768,
                timeout_graceful_shutdown=2,
            )
        )
        state = data_folder() / STATE
        _remember(state, {"port": taken, "key": door.key, "folder": str(jobs.folder)})
        say(address)
        for name in door.class_hosts:
            say(f"class: http://{name}:{taken}/?key={door.class_key}")
        say(SHARED if share else ALONE)
        if browse:
            webbrowser.open(address)
        # The server passes on the signal that ended it; this one ends as Ctrl-C does.
        signal.signal(signal.SIGTERM, signal.default_int_handler)
        try:
            with contextlib.suppress(KeyboardInterrupt):
                server.run(sockets=[listening])
        finally:
            workers.close()
            _forget(state, door.key)


def _listening(port: int, share: bool) -> socket.socket:
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind(("0.0.0.0" if share else "127.0.0.1", port))
        listening.listen(MOST_AT_ONCE)  # whoever reads the address may ask at once
    except OSError as error:
        listening.close()
        raise LayoutError(
            f"port {port} cannot be used: {error.strerror}; leave --port out for a free one"
        ) from None
    return listening


def _own_addresses() -> tuple[str, ...]:
    """The addresses by which the network calls this machine."""
    found = set()
    with contextlib.suppress(OSError):
        found |= {
            str(one[4][0]) for one in socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)
        }
    with contextlib.suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        asking.connect(("192.0.2.1", 9))  # a documentation address: nothing is sent to it
        found.add(str(asking.getsockname()[0]))
    return tuple(sorted(name for name in found if not name.startswith("127."))) or ("127.0.0.1",)


def _remember(state: Path, told: dict[str, Any]) -> None:
    """Keep the address for a second start, readable by this user alone."""
    try:
        state.parent.mkdir(parents=True, exist_ok=True)
        new = state.with_suffix(f".{os.getpid()}")
        handle = os.open(new, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            json.dump(told, file)
        os.replace(new, state)
    except OSError:
        return  # without it a second start only opens a page of its own


def _forget(state: Path, key: str) -> None:
    with contextlib.suppress(OSError, ValueError):
        if json.loads(state.read_text("utf-8")).get("key") == key:
            state.unlink()


def _running(folder: Path) -> str | None:
    """The address of a server that serves this folder already; None where none answers."""
    try:
        told = json.loads((data_folder() / STATE).read_text("utf-8"))
        port, key = int(told["port"]), str(told["key"])
        if told["folder"] != str(folder):
            return None
        asking = urllib.request.Request(
            f"http://127.0.0.1:{port}/alive", headers={"Cookie": f"squaresaw={key}"}
        )
        with urllib.request.urlopen(asking, timeout=1.0) as answer:
            if answer.read(200).decode() != str(folder)[:200]:
                return None
    except (OSError, ValueError, KeyError, TypeError, urllib.error.URLError):
        return None
    return f"http://127.0.0.1:{port}/?key={key}"
