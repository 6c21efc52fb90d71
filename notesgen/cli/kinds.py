"""What each kind of flag means: from the check that raises it, or from here where no check does.

README's table is made from this by `pytest --update-golden`, and a test compares the two.
"""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterator
from difflib import get_close_matches
from typing import get_args

NEAR = 0.7  # likeness from which a misspelt kind is recognised; "hammer-on" and its like stay far below

# Not raised by a check, but while words are settled into notes: what, example, what to do. An example begins
# with words that raise the flag.
SETTLED = {
    "string-unsaid": (
        "The fret was said, the string was not, and more than one string fits.",
        '"then seven", after a pause, with two strings in play.',
        'Choose the string. Saying "on the G" at the start of a phrase settles the rest of it.',
    ),
    "fret-unsure": (
        "A number may be another fret than the one taken, or no fret at all: you name a note that is not at "
        "this fret, or the words around it are odd for a fret.",
        '"fifth fret on the D, that\'s an A": fret 5 of the D string is a G, the A is at fret 7.',
        "Listen at that place, and choose.",
    ),
    "count-unsure": (
        "How often something is played was left open.",
        '"seven on the G, and do that three or four times".',
        "Choose how often the student should play it.",
    ),
    "technique-unsure": (
        "The words do not settle how the note begins.",
        '"8, 7 on the B, you can pull it off or pick it".',
        "Choose how you play it.",
    ),
    "amount-unsure": (
        "A bend without a word on how far.",
        '"bend the seven on the G": a half step, or a whole one?',
        "Choose how far: a half step, a whole step, or more.",
    ),
    "reference-unsure": (
        "Numbers that may be new notes, or only spoken of, or the ones before told over; or words that point "
        'back ("the same an octave lower") and leave open to where.',
        '"5, 7 on the D. 8, 6 on the G. 5, 8, 7, 6." The last four are nearly the first four.',
        'Choose. Saying "so that was" before you tell something over spares the question.',
    ),
    "corrected": (
        "You put a slip right while talking. This is a remark; it says what was said first and what stands.",
        '"eight, no, ten on the B".',
        "Nothing, unless the first was the right one. You may want to cut the slip from the video.",
    ),
    "misheard": (
        "A word of the captions was read as another one.",
        '"ate on the bee string", read as 8 on the B string.',
        "Check that the reading is right. Better still, mend the caption.",
    ),
    "not-understood": (
        "A number amid talk of playing that was not understood. This is a remark: nothing was drafted from "
        "the number, and it may be no part of the music.",
        '"7 on the G, then one of the B": is "one" a fret, or a note?',
        "If it is a fret, put the note in by hand. If you often say it like that, teach it to the tool: "
        "grammars/README.md.",
    ),
    "told-differently": (
        "A recap says something else than the lesson said before.",
        '"5, 7 on the D. 8, 6 on the G. So that was 5, 7, 9, 6." The third was 8, then 9.',
        "Choose which telling is right.",
    ),
}

# Raised only where a recording was compared with the words, which nothing does yet.
NOT_YET = ("played-differently", "not-played", "played-unsaid")


def meaning(kind: str) -> str | None:
    """What the kind means, in a teacher's words, "## " before headings; None when there is no such kind."""
    told = [*_of_checks(kind), *([_page(*SETTLED[kind])] if kind in SETTLED else [])]
    if kind in NOT_YET:
        told.insert(0, "Nothing raises this flag yet: it needs the recording, and notesgen does not hear it.")
    return "\n\n".join(told) or None


def in_short(kind: str) -> str:
    """What the kind means in a line: how the pages of the checks and of the settling begin."""
    settled = [SETTLED[kind][0]] if kind in SETTLED else []
    lines = [text.partition("\n\n")[0].replace("\n", " ") for text in (*settled, *_of_checks(kind))]
    return " ".join(lines) + (" (not yet)" if kind in NOT_YET else "")


def table() -> str:
    """README's table of the flags: a row a kind, in the order of the contract."""
    from notesgen.lesson.model import FlagKind

    rows = [f"| `{kind}` | {in_short(kind)} |" for kind in get_args(FlagKind)]
    return "\n".join(["| flag | what it tells you |", "| --- | --- |", *rows]) + "\n"


def near_kinds(typed: str) -> list[str]:
    """The kinds that a word with a hyphen may be a misspelling of, the nearest first."""
    from notesgen.lesson.model import FlagKind

    word = typed.strip().lower().replace("_", "-")
    if not re.fullmatch(r"[a-z]+(-[a-z]+)+", word):
        return []
    return get_close_matches(word, get_args(FlagKind), cutoff=NEAR)


def _of_checks(kind: str) -> Iterator[str]:
    """The docstrings of the checks that raise the kind."""
    from notesgen.checks.run import checks

    for check in checks().values():
        module = inspect.getmodule(check)
        if module is not None and getattr(module, "KIND", "") == kind:
            yield inspect.getdoc(module) or ""


def _page(what: str, example: str, to_do: str) -> str:
    return f"{what}\n\n## Example\n\n{example}\n\n## What to do\n\n{to_do}"
