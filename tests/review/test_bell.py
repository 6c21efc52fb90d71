"""News for every open tab, as server-sent events (WHATWG HTML, section 9.2)."""

from __future__ import annotations

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any

from notesgen.review.bell import Bell


def run(told: Coroutine[Any, Any, list[Any]]) -> list[Any]:
    """What the coroutine gives, in a thread of its own: browser tests keep a loop running in this one."""
    with ThreadPoolExecutor(1) as pool:
        return pool.submit(asyncio.run, told).result()


def test_every_listener_hears_every_ring_until_the_server_stops() -> None:
    async def listened() -> list[list[str]]:
        bell = Bell()

        async def listener() -> list[str]:
            return [told async for told in bell.heard(3)]

        ears = [asyncio.create_task(listener()) for _ in range(2)]
        await asyncio.sleep(0)
        bell.ring(4)
        bell.ring(5)
        bell.close()
        return [await ear for ear in ears]

    told = ["data: 3\n\n", "data: 4\n\n", "data: 5\n\n"]
    assert run(listened()) == [told, told]


def test_a_closed_bell_ends_at_once() -> None:
    async def listened() -> list[str]:
        bell = Bell()
        bell.close()
        return [told async for told in bell.heard(0)]

    assert run(listened()) == []
