"""What each kind of flag means: from the check that raises it, or from here where no check does."""

from __future__ import annotations

import inspect
from collections.abc import Iterator

# Raised while words are settled into notes, or where a recording is given: what, example, what to do.
SETTLED = {
    "string-unsaid": (
        "The fret was said, the string was not, and more than one string fits.",
        '"then seven", after a pause, with two strings in play.',
        'Choose the string. Saying "on the G" at the start of a phrase settles the rest of it.',
    ),
    "fret-unsure": (
        "A number may be another fret than the one taken, or no fret at all. Captions run numbers together "
        "and mistake them for other words.",
        '"hit 57 on the B", which may be 5 and 7.',
        "Listen at that place, and choose.",
    ),
    "count-unsure": (
        "How often something is played was left open.",
        '"do that three or four times".',
        "Choose how often the student should play it.",
    ),
    "technique-unsure": (
        "The words do not settle how the note begins.",
        '"eight to ten", which may be picked, hammered on or slid.',
        "Choose how you play it.",
    ),
    "amount-unsure": (
        "A bend without a word on how far.",
        '"bend the seven on the G".',
        "Choose how far: a half step, a whole step, or more.",
    ),
    "reference-unsure": (
        '"That", "the same" or "back to it" may point at more than one thing.',
        '"then the same again", after two different pieces.',
        "Choose the passage that was meant.",
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
        "This sounds like an instruction, and no way of saying things that is known here fits. Nothing was "
        "drafted from it.",
        '"and then the claw thing on nine".',
        "Put the notes in by hand. If you often say it like that, teach it to the tool: grammars/README.md.",
    ),
    "scale-slip": (
        "A scale box that was read out does not fit the key and the tuning.",
        '"On the A string, 7, 8, 10", in B minor: the 8 is outside.',
        "Choose the fret that belongs, or say that the note is meant.",
    ),
    "told-differently": (
        "A recap says something else than the lesson said before.",
        '"seven, nine, eleven", and in the recap "seven, nine, ten".',
        "Choose which telling is right.",
    ),
    "count-mismatch": (
        "You announced a number of notes, and another number followed.",
        '"these three notes", and two frets.',
        "Add what is missing, or take out what is too much.",
    ),
    "played-differently": (
        "The recording sounds another note than the words say. Raised only where a recording is given.",
        'The words say "9 on the G", and 7 sounds.',
        "Listen, and choose.",
    ),
    "not-played": (
        "The words name a note that the recording does not hold. Raised only where a recording is given.",
        '"9 on the G", and nothing sounds.',
        "Listen, and choose.",
    ),
    "played-unsaid": (
        "The recording holds a note that nobody named. Raised only where a recording is given.",
        "An open string sounds between two phrases.",
        "Listen, and say whether it belongs to the piece.",
    ),
}


def meaning(kind: str) -> str | None:
    """What the kind means, in a teacher's words, "## " before headings; None when there is no such kind."""
    told = [*_of_checks(kind), *([_settled(kind)] if kind in SETTLED else [])]
    return "\n\n".join(told) or None


def _of_checks(kind: str) -> Iterator[str]:
    """The docstrings of the checks that raise the kind."""
    from notesgen.checks.run import checks

    for check in checks().values():
        module = inspect.getmodule(check)
        if module is not None and getattr(module, "KIND", "") == kind:
            yield inspect.getdoc(module) or ""


def _settled(kind: str) -> str:
    what, example, to_do = SETTLED[kind]
    return f"{what}\n\n## Example\n\n{example}\n\n## What to do\n\n{to_do}"
