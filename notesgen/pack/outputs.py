"""The formats of a pack, found by listing this folder: every module that defines FILE and `render`."""

from __future__ import annotations

import pkgutil
from collections.abc import Callable
from importlib import import_module

from msgspec import Struct

from notesgen import pack
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


def outputs() -> dict[str, Output]:
    """All formats by the name of their module, sorted."""
    names = sorted(module.name for module in pkgutil.iter_modules(pack.__path__) if not module.ispkg)
    modules = ((name, import_module(f"{pack.__name__}.{name}")) for name in names)
    return {
        name: Output(name, module.FILE, module.render) for name, module in modules if hasattr(module, "FILE")
    }
