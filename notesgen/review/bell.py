"""Tells every open tab that an answer was given, so that each shows the same draft."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator


class Bell:
    """Rings in the event loop; each listener hears the newest revision, older ones may be skipped."""

    def __init__(self) -> None:
        self._waiting: set[asyncio.Queue[int | None]] = set()
        self._closed = False

    def ring(self, revision: int) -> None:
        """Tells all listeners."""
        for queue in self._waiting:
            queue.put_nowait(revision)

    def close(self) -> None:
        """Ends every listening, now and later: the server stops."""
        self._closed = True
        for queue in self._waiting:
            queue.put_nowait(None)

    async def heard(self, revision: int) -> AsyncIterator[str]:
        """A stream of server-sent events (WHATWG HTML, 9.2): the present revision, then each new one."""
        queue: asyncio.Queue[int | None] = asyncio.Queue()
        self._waiting.add(queue)
        try:
            told: int | None = None if self._closed else revision
            while told is not None:
                yield f"data: {told}\n\n"
                told = await queue.get()
        finally:
            self._waiting.discard(queue)
