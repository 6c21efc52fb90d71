"""Fits the weights by which the settling doubts its notes, and writes them down.

Each question has its own regression. Lessons count in full; tunes put into words count a little, so that
clean talk is not doubted: nobody teaches quite like them.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np
from msgspec import Struct, convert

import notesgen.settle.trust
from notesgen.settle.trust.clues import Clues
from notesgen.settle.trust.odds import FILE, Model, Weights
from tests.accuracy.regression import fit
from tests.accuracy.trust import Lesson, Seen

TUNES = 0.2  # weight of an event of a tune, where one of a lesson has 1
HEAD = """\
# Written by `python -m tests.accuracy --fit` from the lessons with right answers. Log-odds: what each clue
# of `clues.py` adds to the doubt about a note (is it played, at this fret?), about its string, and about
# whether anything is played at all.
"""


class Question(Struct, frozen=True):
    """One thing asked of each event: which events count, which of them are wrong, by which clues, how tamed.

    `groups` are the groups of clues that bear on it; the weights of all others are 0.
    """

    name: str
    counts: Callable[[Seen], bool]
    wrong: Callable[[Seen], bool]
    groups: tuple[str, ...]
    ridge: float


NOTE = Question("note", lambda seen: True, lambda seen: seen.note, Clues.__struct_fields__, 6.0)
STRING = Question(
    "string",
    lambda seen: not seen.note,
    lambda seen: seen.string,
    ("string", "telling", "music", "tellings", "talk"),
    5.0,
)

SPOKEN = Question("spoken", lambda seen: True, lambda seen: seen.spoken, Clues.__struct_fields__, 6.0)


def fitted(lessons: Sequence[Lesson], tunes: Sequence[Lesson]) -> Model:
    """The weights that fit these lessons and tunes."""
    return Model(*(_weights(question, lessons, tunes) for question in (NOTE, STRING, SPOKEN)))


def write(model: Model) -> None:
    """Writes the weights into the package, replacing those that are there."""
    file = Path(str(notesgen.settle.trust.__file__)).with_name(FILE)
    tables = (_table(name, getattr(model, name)) for name in Model.__struct_fields__)
    file.write_text(HEAD + "".join(tables), encoding="utf-8")


def _weights(question: Question, lessons: Sequence[Lesson], tunes: Sequence[Lesson]) -> Weights:
    names = [name for name, _ in Clues().named() if name.split(".")[0] in question.groups]
    told = [(seen, 1.0) for lesson in lessons for seen in lesson.seen if question.counts(seen)]
    told += [(seen, TUNES) for tune in tunes for seen in tune.seen if question.counts(seen)]
    found = fit(
        np.array([_row(seen.clues, question.groups) for seen, _ in told]),
        np.array([float(question.wrong(seen)) for seen, _ in told]),
        np.array([counts for _, counts in told]),
        question.ridge,
    )
    groups: dict[str, dict[str, float]] = {}
    for name, weight in zip(names, found[1:], strict=True):
        group, _, clue = name.partition(".")
        groups.setdefault(group, {})[clue] = round(float(weight), 2)
    return Weights(round(float(found[0]), 2), convert(groups, Clues))


def _row(clues: Clues, groups: tuple[str, ...]) -> Sequence[float]:
    return [float(value) for name, value in clues.named() if name.split(".")[0] in groups]


def _table(question: str, weights: Weights) -> str:
    lines = [f"\n[{question}]\nbias = {weights.bias}\n"]
    group = ""
    for name, weight in weights.clues.named():
        if not weight:
            continue
        if name.split(".")[0] != group:
            group = name.split(".")[0]
            lines.append(f"\n[{question}.clues.{group}]\n")
        lines.append(f"{name.split('.')[1]} = {weight}\n")
    return "".join(lines)
