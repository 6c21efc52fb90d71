"""Questions and remarks in words: what the footnotes of every text format say."""

from __future__ import annotations

from notesgen.lesson.model import Flag

RIGHTS = "If the piece is someone else's, check that you may share it."


def choices(flag: Flag) -> list[str]:
    """The ready-made answers, lettered: "a) on the G (as drafted)". The draft stands on the first."""
    lettered = [f"{chr(ord('a') + i)}) {option.label}" for i, option in enumerate(flag.options)]
    return [label + (" (as drafted)" if i == 0 else "") for i, label in enumerate(lettered)]


def draft_line(source: str, questions: int) -> str:
    """Where the draft comes from and how much of it is still open."""
    if not questions:
        return f"Written down from what is said in {source}. No question is open."
    plural = "1 question is" if questions == 1 else f"{questions} questions are"
    marked = "[1]" if questions == 1 else f"[1] to [{questions}]"
    return f"A draft, written down from what is said in {source}: {plural} still open, marked {marked}."
