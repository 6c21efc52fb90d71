"""The lessons that are open, each on its desk, and the bell that tells of every answer."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from anyio import to_thread

from notesgen.pipeline import Given
from notesgen.review.bell import Bell
from notesgen.review.desk import Desk
from notesgen.review.shelf import Shelf

T = TypeVar("T")


class Open:
    """A lesson on its desk. What is done to it is done by one thread at a time."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self.bell = Bell()
        self._turn = asyncio.Lock()

    async def do(self, work: Callable[[Desk], T]) -> T:
        """The result of `work` on the desk. Rings when the lesson has changed."""
        async with self._turn:
            before = self.desk.revision
            done = await to_thread.run_sync(work, self.desk)
            if self.desk.revision != before:
                self.bell.ring(self.desk.revision)
            return done


class Room:
    """One folder of lessons. `given` is what the teacher said of the lesson that was named."""

    def __init__(self, shelf: Shelf, given: Given | None = None) -> None:
        self.shelf = shelf
        self._given = given
        self._open: dict[str, Open] = {}
        self._turn = asyncio.Lock()

    async def open(self, captions: Path) -> Open:
        """The lesson of these captions, drafted when it is first asked for. Raises InputError."""
        if found := self.opened(captions):
            return found
        async with self._turn:
            if captions.name not in self._open:
                given = self._given if captions == self.shelf.named else None
                self.put(await to_thread.run_sync(Desk, captions, given))
            return self._open[captions.name]

    def opened(self, captions: Path) -> Open | None:
        """The lesson, if it is open already."""
        return self._open.get(captions.name)

    def put(self, desk: Desk) -> None:
        """Takes in a lesson that was drafted before the page was served."""
        self._open[desk.captions.name] = Open(desk)

    def close(self) -> None:
        """Ends all streams of news: the server stops."""
        for one in self._open.values():
            one.bell.close()
