"""The README shows what the tool really does."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from shutil import copytree

from notesgen.captions.read import read_captions
from notesgen.cli.kinds import NOT_YET, table
from notesgen.grammar.load import load_grammar
from notesgen.grammar.model import Example, Idiom, Mishearing, Not, Phrase
from notesgen.speech.items import items
from notesgen.speech.reading import Reader
from tests.cli.run import notesgen

HOUSE = Path(__file__).resolve().parent.parent
PACKAGE = HOUSE / "notesgen"
README = (HOUSE / "README.md").read_text(encoding="utf-8")
FLAGS = re.compile(r"^\| flag \| what it tells you \|\n(?:\|.*\n)+", re.MULTILINE)
EXCERPT = re.compile(r"(?<=```text\n).*?(?=```)", re.DOTALL)


def test_excerpts_are_what_the_demo_makes(tmp_path: Path, golden: Callable[[Path, bytes], None]) -> None:
    """The piece of tab that the first question stands under, and that question on the screen."""
    printed = notesgen("demo", "--out", str(tmp_path)).stdout
    tab = (tmp_path / "tab.txt").read_text(encoding="utf-8")
    system = next(block for block in tab.split("\n\n") if "\nB|-" in block and "[1]" in block)
    question = next(block for block in printed.split("\n\n") if block.startswith("[1] "))
    excerpts = iter([f"{system}\n", f"{question}\n"])
    golden(HOUSE / "README.md", EXCERPT.sub(lambda _: next(excerpts), README).encode())


def test_the_table_of_flags_is_made_from_the_checks(golden: Callable[[Path, bytes], None]) -> None:
    """From the first lines of the checks and of cli/kinds.py: `pytest --update-golden` rewrites it."""
    readme = (HOUSE / "README.md").read_text(encoding="utf-8")
    golden(HOUSE / "README.md", FLAGS.sub(lambda _: table(), readme).encode())


def test_every_option_is_in_the_table() -> None:
    options = set(re.findall(r"^  (--[a-z]+)", notesgen("draft", "--help").stdout, re.MULTILINE))
    assert options == set(re.findall(r"^\| `(--[a-z]+)`", README, re.MULTILINE))


def test_links_lead_somewhere() -> None:
    for document in ("README.md", "DEVELOPERS.md", "grammars/README.md"):
        path = HOUSE / document
        for target in re.findall(r"\]\(([^)#:]+)\)", path.read_text(encoding="utf-8")):
            assert (path.parent / target).exists(), f"{document}: {target}"


def test_ci_runs_the_command_of_the_readme() -> None:
    commands = [line for line in README.splitlines() if line.endswith("-m pytest")]
    ci = (HOUSE / ".ci" / "run").read_text(encoding="utf-8")
    assert len(commands) == 1
    assert f"\n{commands[0]} || exit 1\n" in ci


def test_flags_that_nothing_raises_yet_are_marked() -> None:
    """What a recording would tell is raised by nothing as long as no module fills in what was played."""
    model = PACKAGE / "lesson" / "model.py"
    fills = [path for path in PACKAGE.rglob("*.py") if path != model and "played=" in path.read_text("utf-8")]
    assert bool(fills) != bool(NOT_YET)
    assert set(re.findall(r"^\| `([a-z-]+)` \|.*\(not yet\) \|$", README, re.MULTILINE)) == set(NOT_YET)


def test_the_guitarists_page_names_every_field() -> None:
    page = (HOUSE / "grammars" / "README.md").read_text(encoding="utf-8")
    entries = (Phrase, Idiom, Example, Not, Mishearing)
    fields = {name for entry in entries for name in entry.__struct_fields__} - {"file", "examples", "nots"}
    assert {name for name in fields if f"| `{name}` |" not in page} == set()


def test_the_guitarists_page_names_every_kind_that_idioms_use() -> None:
    page = (HOUSE / "grammars" / "README.md").read_text(encoding="utf-8")
    rows = "\n".join(line.split("|")[1] for line in page.splitlines() if line.startswith("| `"))
    used = {idiom.kind for idiom in load_grammar().idioms}
    assert {kind for kind in used if f"`{kind}`" not in rows} == set()


def test_the_guitarists_example_reads_as_it_says(tmp_path: Path) -> None:
    page = (HOUSE / "grammars" / "README.md").read_text(encoding="utf-8")
    idiom = next(block for block in re.findall(r"```toml\n(.*?)```", page, re.DOTALL) if "[[idiom]]" in block)
    copytree(HOUSE / "grammars" / "en", tmp_path / "en")
    (tmp_path / "en" / "mine.toml").write_text(idiom, encoding="utf-8")
    grammar = load_grammar(folder=tmp_path / "en")
    words = items(read_captions(b"[0:00] then I ladder it from 5 to 7 on the G", "page"), grammar.words)
    assert [instruction.idiom for instruction in Reader(grammar).read(words)] == ["ladder"]
