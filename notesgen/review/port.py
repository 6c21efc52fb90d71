"""The place on this machine at which the page is served."""

from __future__ import annotations

import errno
import socket

from notesgen.errors import InputError

HERE = "127.0.0.1"
"""Reached from this machine only; no other address is ever listened on."""
HIGHEST = 65535


def listening(port: int) -> socket.socket:
    """A socket that listens at `port`, 0 for any free one.

    Raises InputError when the port is taken, not allowed, or no port at all.
    """
    if not 0 <= port <= HIGHEST:
        raise InputError(f"--port: give a whole number from 0 (any free one) to {HIGHEST}, not {port}.")
    # Named as TCP, or asyncio lets Nagle's algorithm hold back the end of each answer, for some 40 ms.
    place = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    place.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        place.bind((HERE, port))
        place.listen()
    except OSError as error:
        place.close()
        told = f"--port: {_problem(error, port)}; leave --port out, and a free one is taken."
        raise InputError(told) from error
    return place


def _problem(error: OSError, port: int) -> str:
    if error.errno == errno.EADDRINUSE:
        return f"port {port} is in use by another program"
    if error.errno == errno.EACCES:
        return f"you may not use port {port}"
    return f"port {port} cannot be used"
