"""What a browser sends, read no further than it may be long."""

from __future__ import annotations

from starlette.exceptions import HTTPException
from starlette.requests import Request


async def body(request: Request, most: int) -> bytes:
    """The whole body. Raises HTTPException 413 as soon as it is longer than `most` bytes."""
    declared = request.headers.get("content-length", "")
    if declared.isdecimal() and int(declared) > most:
        raise _too_long(most)
    data = bytearray()
    async for piece in request.stream():
        data += piece
        if len(data) > most:
            raise _too_long(most)
    return bytes(data)


def _too_long(most: int) -> HTTPException:
    return HTTPException(413, f"This is too much at once: {most // 1024} KB may be sent.")
