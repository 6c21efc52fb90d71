"""Runs the page until Ctrl+C."""

from __future__ import annotations

import socket
from collections.abc import Callable
from types import FrameType

import uvicorn
from starlette.types import ASGIApp

PATIENCE = 2  # seconds that open answers have to end once the server stops


class Stopping(uvicorn.Server):
    """A server that ends its endless answers (the streams of news) first, and then stops quietly."""

    def __init__(self, config: uvicorn.Config, stop: Callable[[], None]) -> None:
        super().__init__(config)
        self._stop = stop

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        """Ctrl+C, or a kill that lets us go in peace."""
        self._stop()
        super().handle_exit(sig, frame)


def run(app: ASGIApp, place: socket.socket, stop: Callable[[], None]) -> None:
    """Serves at `place` until Ctrl+C, which calls `stop`. Nothing is logged."""
    config = uvicorn.Config(
        app,
        access_log=False,
        lifespan="off",
        log_level="critical",
        proxy_headers=False,
        server_header=False,
        timeout_graceful_shutdown=PATIENCE,
        ws="none",
    )
    try:
        Stopping(config, stop).run(sockets=[place])
    except KeyboardInterrupt:
        return
    finally:
        place.close()
