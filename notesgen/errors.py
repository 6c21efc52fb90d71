"""The one kind of error that a user is meant to read."""

from __future__ import annotations


class InputError(Exception):
    """Something given to notesgen cannot be used.

    `message` is one clear sentence: what is wrong and what to do. `file` and `line` (1-based) say where,
    when known. The command line prints it without a traceback and exits with status 2.
    """

    def __init__(self, message: str, file: str | None = None, line: int | None = None) -> None:
        super().__init__(message)
        self.message = message
        self.file = file
        self.line = line

    def __str__(self) -> str:
        place = ":".join(str(part) for part in (self.file, self.line) if part is not None)
        return f"{place}: {self.message}" if place else self.message
