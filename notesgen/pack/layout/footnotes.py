"""Questions and remarks in words: what the footnotes of every text format say."""

from __future__ import annotations

from collections.abc import Sequence

from notesgen.lesson.model import Flag, Lesson
from notesgen.pack.layout.style import Style, is_unsettled

RIGHTS = "If the piece is someone else's, check that you may share it."

UNSETTLED = "Draft: some places are not settled."
NOTHING_FOUND = (
    "Are these the captions of a lesson in English that says its frets aloud? What is only played, or only "
    "shown, is not in them.",
    "Where the instrument or the tuning is another than the one named here, give it: --instrument bass, "
    '--tuning "drop D".',
    'To see how a sentence of the lesson is read: notesgen explain "5 on the G string".',
)
"""What to try when a draft has no notes."""


def choices(flag: Flag) -> list[str]:
    """The ready-made answers, lettered: "a) on the G (as drafted)". The draft stands on the first."""
    lettered = [f"{chr(ord('a') + i)}) {option.label}" for i, option in enumerate(flag.options)]
    return [label + (" (as drafted)" if i == 0 else "") for i, label in enumerate(lettered)]


def status_line(lesson: Lesson, questions: int, style: Style, numbers: Sequence[int] = ()) -> str:
    """How settled the lesson is; the student is told only that it is not, and "" otherwise.

    `numbers` are those of the open questions.
    """
    if style.shows_flags:
        return draft_line(lesson.source.captions, questions, len(lesson.events), numbers)
    return UNSETTLED if is_unsettled(lesson) else ""


def draft_line(source: str, questions: int, notes: int, numbers: Sequence[int] = ()) -> str:
    """Where the draft comes from and how much of it is still open; questions count from 1 unless numbered."""
    if not notes:
        return f"No note was found in what is said in {source}, so there is no tab. What to try:"
    if not questions:
        return f"Written down from what is said in {source}. No question is open."
    plural = "1 question is" if questions == 1 else f"{questions} questions are"
    first, last = (min(numbers), max(numbers)) if numbers else (1, questions)
    marked = f"[{first}]" if first == last else f"[{first}] to [{last}]"
    return f"A draft, written down from what is said in {source}: {plural} still open, marked {marked}."
