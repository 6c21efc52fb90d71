"""The page as a teacher starts it: `notesgen review` in a process of its own, which can be killed."""

from __future__ import annotations

import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import uvicorn
from playwright.sync_api import Page

from notesgen.review.app import app
from notesgen.review.door import new_key
from notesgen.review.media import Recording
from notesgen.review.port import listening
from notesgen.review.room import Room
from notesgen.review.shelf import Shelf

RUN = [sys.executable, "-c", "from notesgen.cli.app import main; main()", "review"]
READY = "html[data-ready]"


class Served:
    """A running page. `address` is what it printed."""

    def __init__(self, *words: str) -> None:
        self.process = subprocess.Popen(
            [*RUN, *words, "--no-open"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        )
        assert self.process.stdout
        self.address = self.process.stdout.readline().strip()
        assert self.address.startswith("http://127.0.0.1:"), self.process.communicate()[1]

    def kill(self) -> None:
        """As a machine that loses its power."""
        self.process.kill()
        self.process.communicate()

    def interrupt(self) -> tuple[int, str, str]:
        """Ctrl+C: the status, and what was printed after the address."""
        self.process.send_signal(signal.SIGINT)
        output, errors = self.process.communicate(timeout=30)
        return self.process.returncode, output, errors


@contextmanager
def served(*words: str) -> Iterator[Served]:
    """A page that is served as long as the block runs."""
    one = Served(*words)
    try:
        yield one
    finally:
        one.kill()


def opened(page: Page, address: str) -> Page:
    """The page, once it can be used."""
    page.goto(address)
    page.wait_for_selector(READY)
    return page


def drop(page: Page, file: Path) -> None:
    """Lets a file fall on the page, as from the desktop."""
    carried = page.evaluate_handle(
        """([name, text]) => {
            const carried = new DataTransfer();
            carried.items.add(new File([text], name));
            return carried;
        }""",
        [file.name, file.read_text(encoding="utf-8")],
    )
    page.dispatch_event("body", "drop", {"dataTransfer": carried})


@contextmanager
def house(folder: Path, named: Path | None = None, recording: Recording | None = None) -> Iterator[str]:
    """A page over a folder, served by a thread of the tests; gives the address without its path."""
    place = listening(0)
    key, room = new_key(place.getsockname()[1]), Room(Shelf(folder, named, recording))
    config = uvicorn.Config(app(room, key), lifespan="off", log_level="critical", timeout_graceful_shutdown=1)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [place]}, daemon=True)
    thread.start()
    try:
        yield key.address("")
    finally:
        room.close()
        server.should_exit = True
        thread.join(10)
