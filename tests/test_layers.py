"""Who may import whom: the layers of pyproject.toml, kept by import-linter, and checks that stand alone."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

HOUSE = Path(__file__).resolve().parent.parent
CHECKS = HOUSE / "notesgen" / "checks"


def test_layers_are_kept() -> None:
    code = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(no_cache=True))"
    result = subprocess.run(
        [sys.executable, "-c", code], cwd=HOUSE, capture_output=True, text=True, check=False
    )
    assert result.returncode == 0, result.stdout + result.stderr


def test_checks_do_not_know_one_another() -> None:
    checks = {path.stem for path in CHECKS.glob("*.py") if "\ndef check(" in path.read_text(encoding="utf-8")}
    assert len(checks) > 5
    known = {path.stem: checks.intersection(_imported(path)) for path in CHECKS.glob("*.py")}
    assert {name: others for name, others in known.items() if others} == {}


def _imported(path: Path) -> Iterator[str]:
    """The last names of the modules that a file imports from."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            yield node.module.rpartition(".")[2]
            yield from (alias.name for alias in node.names)
