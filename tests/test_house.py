"""The rules of the house: small files, small functions, full types, nothing unfinished."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import pytest

HOUSE = Path(__file__).resolve().parent.parent
PACKAGE = sorted((HOUSE / "notesgen").rglob("*.py"))
FILES = PACKAGE + sorted((HOUSE / "tests").rglob("*.py"))
LONGEST_FILE = 400
LONGEST_FUNCTION = 45
MEDIAN_FILE = 150
UNFINISHED = re.compile(r"\b(" + "|".join(["TO" + "DO", "FIX" + "ME", "XX" + "X"]) + r")\b")

Function = ast.FunctionDef | ast.AsyncFunctionDef


def name(path: Path) -> str:
    return str(path.relative_to(HOUSE))


def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def functions(path: Path) -> Iterator[Function]:
    return (node for node in ast.walk(tree(path)) if isinstance(node, Function))


@pytest.mark.parametrize("path", FILES, ids=name)
def test_files_and_functions_are_small_and_finished(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count("\n") <= LONGEST_FILE
    assert not UNFINISHED.search(text)
    assert path.stem not in ("utils", "util", "helpers", "misc", "common")
    long = [f.name for f in functions(path) if (f.end_lineno or 0) - f.lineno + 1 > LONGEST_FUNCTION]
    assert long == []


@pytest.mark.parametrize("path", PACKAGE, ids=name)
def test_modules_say_what_they_are_and_hold_no_state(path: Path) -> None:
    module = tree(path)
    assert ast.get_docstring(module), "a module begins with what it is for"
    assert [node.lineno for node in module.body if isinstance(node, ast.Global)] == []
    growing = [n.lineno for n in module.body if isinstance(n, ast.Assign | ast.AnnAssign) and _empty(n.value)]
    assert growing == [], "an empty list, dict or set at module level is there to be grown by calls"
    metaclassed = [
        node.name
        for node in ast.walk(module)
        if isinstance(node, ast.ClassDef) and any(keyword.arg == "metaclass" for keyword in node.keywords)
    ]
    assert metaclassed == []


@pytest.mark.parametrize("path", PACKAGE, ids=name)
def test_public_functions_and_classes_have_docstrings(path: Path) -> None:
    public = (
        n for n in tree(path).body if isinstance(n, Function | ast.ClassDef) and not n.name.startswith("_")
    )
    assert [node.name for node in public if not ast.get_docstring(node)] == []


@pytest.mark.parametrize("path", [path for path in PACKAGE if path.name == "__init__.py"], ids=name)
def test_packages_hold_no_logic(path: Path) -> None:
    allowed = (ast.Expr, ast.Assign)
    assert all(isinstance(node, allowed) for node in tree(path).body)


def test_types_are_passed_on() -> None:
    assert (HOUSE / "notesgen" / "py.typed").exists(), "without it, nobody else's type checker reads ours"


def test_most_files_are_short() -> None:
    assert median(path.read_text(encoding="utf-8").count("\n") for path in PACKAGE) <= MEDIAN_FILE


def _empty(value: ast.expr | None) -> bool:
    if isinstance(value, ast.Call) and isinstance(value.func, ast.Name):
        return value.func.id in ("list", "dict", "set", "defaultdict") and not value.args
    if isinstance(value, ast.List | ast.Set):
        return not value.elts
    return isinstance(value, ast.Dict) and not value.keys
