"""One writer at a time: whoever else wants to write the same file waits."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from notesgen.errors import InputError


@contextmanager
def locked(path: Path) -> Iterator[None]:
    """Holds the lock of a file while the block runs. The lock is a hidden file beside it, which stays there;
    what holds it is the open file, so that a process that dies lets go of it. Raises InputError."""
    beside = path.with_name(f".{path.name}.lock")
    try:
        handle = os.open(beside, os.O_RDWR | os.O_CREAT, 0o666)
    except OSError as error:
        raise InputError(f"This file cannot be written: {error.strerror}.", str(path)) from error
    try:
        try:
            _hold(handle)
        except OSError as error:
            raise InputError("Another program is writing this file; try again.", str(path)) from error
        yield
    finally:
        os.close(handle)


if sys.platform == "win32":
    import msvcrt

    def _hold(handle: int) -> None:
        """Waits up to ten seconds, as msvcrt does; closing lets go."""
        msvcrt.locking(handle, msvcrt.LK_LOCK, 1)

else:
    import fcntl

    def _hold(handle: int) -> None:
        """Waits until nobody else holds it; closing lets go."""
        fcntl.flock(handle, fcntl.LOCK_EX)
