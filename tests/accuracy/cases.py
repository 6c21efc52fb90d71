"""The lessons with right answers: found in a folder, drafted, measured."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct

from notesgen.errors import InputError
from notesgen.settle.trust.ask import Ask
from tests.accuracy.figures import Figures
from tests.accuracy.gold import read_gold
from tests.accuracy.measure import measure

LESSONS = Path(__file__).parents[2] / "fixtures" / "lessons"
CAPTIONS = (".vtt", ".srt", ".txt")
GOLD = ".gold.tsv"


class Case(Struct, frozen=True):
    """A lesson's captions and its right answer."""

    name: str
    captions: Path
    gold: Path


def find(folder: Path = LESSONS, names: Sequence[str] = ()) -> list[Case]:
    """The cases of `folder`, laid out as NAME/NAME.gold.tsv or NAME.gold.tsv, by name; all, or `names`.

    Raises InputError when a named case, or the captions of a case, are not there.
    """
    golds = sorted([*folder.glob(f"*{GOLD}"), *folder.glob(f"*/*{GOLD}")], key=lambda path: path.name)
    cases = {path.name.removesuffix(GOLD): path for path in golds}
    absent = [name for name in names if name not in cases]
    if absent or not cases:
        raise InputError(f"No right answer {', '.join(absent) or '(*' + GOLD + ')'} here.", str(folder))
    return [Case(name, _captions(cases[name]), cases[name]) for name in names or cases]


def figures(case: Case, ask: Ask = Ask.NORMAL) -> Figures:
    """Draft the lesson from its captions alone and measure it."""
    from notesgen.pipeline import Given, draft_file

    return measure(case.name, draft_file(str(case.captions), Given(ask=ask)), read_gold(case.gold))


def _captions(gold: Path) -> Path:
    stem = str(gold).removesuffix(GOLD)
    for suffix in CAPTIONS:
        if (path := Path(stem + suffix)).exists():
            return path
    raise InputError(f"No captions ({', '.join(CAPTIONS)}) beside this right answer.", str(gold))
