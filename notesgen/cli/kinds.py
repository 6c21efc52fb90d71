"""What each kind of flag means: from the check that raises it, or from here where no check does."""

from __future__ import annotations

import inspect

# Kinds raised while the words are settled into notes, and those that only a recording can raise.
SETTLED = {
    "string-unsaid": """The fret was said, the string was not.

        The draft takes the string that fits best: the one in force, the key, the hand's place. It asks because
        another string fits nearly as well.
        Example: "then seven, and nine", after a pause, with two strings in play.
        What to do: choose the string. Saying "on the G" once at the start of a phrase settles the rest of it.""",
    "fret-unsure": """A number may be another fret than the one that was taken.

        Captions run numbers together ("810" for 8, 10) and mistake them for other words.
        Example: "hit 57 on the B".
        What to do: listen at that place, and choose.""",
    "count-unsure": """How often something is played was left open.

        Example: "do that three or four times".
        What to do: choose how often the student should play it.""",
    "technique-unsure": """The words do not settle how the note begins.

        Example: "eight to ten", which may be picked, hammered on or slid.
        What to do: choose how you play it.""",
    "amount-unsure": """A bend whose amount was not said.

        The draft takes the nearest note of the key.
        Example: "bend the seven on the G".
        What to do: say how far: half step, whole step, or more.""",
    "reference-unsure": """"That", "the same" or "back to it" may point at more than one thing.

        Example: "then the same again", after two different pieces.
        What to do: choose the passage that was meant.""",
    "corrected": """You put a slip right while talking. A remark: nothing to answer.

        It says what was said first and what now stands.
        Example: "eight, no, ten on the B".
        What to do: nothing, unless the slip was the right one. You may want to cut it from the video.""",
    "misheard": """A word of the captions was read as another word.

        Example: "ate on the bee string", read as "8 on the B string".
        What to do: check that the reading is right; better still, mend the caption.""",
    "not-understood": """It sounds like an instruction, and none of the known ways of saying things fits.

        Nothing was drafted from it.
        Example: "and then the claw thing on nine".
        What to do: put the notes in by hand. If you often say it like that, a guitarist can teach it to the tool:
        see grammars/README.md.""",
    "told-differently": """A recap says something else than the lesson said before.

        Example: "seven, nine, eleven" at first, "seven, nine, ten" in the recap.
        What to do: choose which telling is right.""",
    "count-mismatch": """You announced a number of notes, and another number followed.

        Example: "these three notes", and two frets.
        What to do: add what is missing, or take out what is too much.""",
    "played-differently": """The recording sounds another note than the words say. Only with a recording.""",
    "not-played": """The words name a note that the recording does not hold. Only with a recording.""",
    "played-unsaid": """The recording holds a note that nobody named. Only with a recording.""",
}


def meaning(kind: str) -> str | None:
    """What the kind means, in a teacher's words; None when there is no such kind."""
    from notesgen.checks.run import checks

    check = checks().get(kind.replace("-", "_"))
    if check is not None:
        module = inspect.getmodule(check)
        return inspect.cleandoc(module.__doc__) if module and module.__doc__ else None
    return inspect.cleandoc(SETTLED[kind]) if kind in SETTLED else None
