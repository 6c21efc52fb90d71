"""Golden files: what a renderer made once, reviewed, and must make again."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from pathlib import Path

OPTION = "--update-golden"


def check(file: Path, made: bytes, update: bool) -> None:
    """Compare `made` with the golden file; with `update`, rewrite the file where it differs."""
    held = file.read_bytes() if file.exists() else None
    if made == held:
        return
    if not update:
        raise AssertionError(f"{_difference(file, held, made)}\nIf this is meant: pytest {OPTION}")
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(made)


def unused(folder: Path, names: Iterable[str]) -> list[str]:
    """The files of `folder` that no test names."""
    return sorted({path.name for path in folder.iterdir()} - set(names))


def _difference(file: Path, held: bytes | None, made: bytes) -> str:
    if held is None:
        return f"There is no golden file {file}."
    old, new = (data.decode(errors="replace").splitlines() for data in (held, made))
    changed = "\n".join(difflib.unified_diff(old, new, file.name, "made now", lineterm=""))
    return f"{file} differs:\n{changed}"
