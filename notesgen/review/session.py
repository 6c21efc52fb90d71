"""From a caption file to a served page."""

from __future__ import annotations

import threading
import webbrowser
from pathlib import Path
from urllib.parse import quote

from notesgen.errors import InputError
from notesgen.pipeline import Given
from notesgen.review import media, server
from notesgen.review.app import app
from notesgen.review.desk import Desk
from notesgen.review.door import new_key
from notesgen.review.port import listening
from notesgen.review.room import Room
from notesgen.review.shelf import Shelf

OF_ONE_LESSON = (
    "--title, --key, --tuning, --capo and --instrument are about one lesson: give its captions, not only "
    "their folder."
)


class Session:
    """A page that is ready to be served. `address` lets one browser in.

    Raises InputError when the captions, the recording or the port cannot be used.
    """

    def __init__(self, captions: Path, recording: Path | None, given: Given, port: int) -> None:
        if recording is not None and captions.is_dir():
            raise InputError("--media: give the captions of the recording too, not only their folder.")
        if given != Given() and captions.is_dir():
            raise InputError(OF_ONE_LESSON)
        shown = media.named(recording) if recording else None
        is_folder = captions.is_dir()
        desk = None if is_folder else Desk(captions, given)
        shelf = Shelf(captions if is_folder else captions.parent, None if is_folder else captions, shown)
        self._place = listening(port)
        self._room = Room(shelf, given)
        if desk:
            self._room.put(desk)
        self._key = new_key(self._place.getsockname()[1])
        path = f"/lesson/{quote(captions.name, safe='')}" if desk else "/"
        self.address = self._key.address(path)

    def open_browser(self) -> None:
        """Opens the page in the browser that the machine is set to; where there is none, nothing happens.

        Not awaited: a browser of the terminal stays as long as it is read in.
        """
        threading.Thread(target=webbrowser.open, args=(self.address,), daemon=True).start()

    def serve(self) -> None:
        """Serves until Ctrl+C."""
        server.run(app(self._room, self._key), self._place, self._room.close)
