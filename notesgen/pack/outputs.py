"""The formats of a pack, found by listing this folder: every module that defines FILE and `render`."""

from __future__ import annotations

import pkgutil
from collections.abc import Callable
from importlib import import_module

from msgspec import Struct

from notesgen import pack
from notesgen.errors import InputError
from notesgen.lesson.model import Lesson
from notesgen.pack.layout.style import PLAIN, Style


class Output(Struct, frozen=True):
    """One format: the name of its file, and the function from a lesson to that file's content.

    `render(lesson, style)` gives text (written as UTF-8), bytes, or None where there is nothing to make.
    """

    name: str
    file: str
    render: Callable[[Lesson, Style], str | bytes | None]

    def data(self, lesson: Lesson, style: Style = PLAIN) -> bytes | None:
        """The content of the file, None where this lesson has none."""
        made = self.render(lesson, style)
        return made.encode() if isinstance(made, str) else made


def chosen(words: str | None) -> list[Output]:
    """The formats that `words` names, apart by commas or spaces; all of them for None.

    A format goes by its name, its file, or what its file ends in ("txt"), which more than one may share.
    Raises InputError, with the choices, for a word that names none.
    """
    every = outputs()
    if words is None:
        return list(every.values())
    named = [word.strip(".") for word in words.lower().replace(",", " ").split()]
    known = {name for output in every.values() for name in _names(output)}
    wrong = next((word for word in named if word not in known), None)
    if wrong is not None or not named:
        told = f'"{wrong}" is no format of a pack' if wrong else "no format is named"
        choices = ", ".join(f"{output.name} ({output.file})" for output in every.values())
        raise InputError(f"--only: {told}; choose from {choices}.")
    return [output for output in every.values() if not _names(output).isdisjoint(named)]


def _names(output: Output) -> set[str]:
    return {output.name, output.file, output.file.rpartition(".")[2]}


def outputs() -> dict[str, Output]:
    """All formats by the name of their module, sorted."""
    names = sorted(module.name for module in pkgutil.iter_modules(pack.__path__) if not module.ispkg)
    modules = ((name, import_module(f"{pack.__name__}.{name}")) for name in names)
    return {
        name: Output(name, module.FILE, module.render) for name, module in modules if hasattr(module, "FILE")
    }
