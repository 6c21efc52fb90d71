"""Talk for the tests of this room: words with times, and items as a short line of text."""

from __future__ import annotations

from notesgen.captions.transcript import Gap, Transcript, Word
from notesgen.grammar.model import WordLists
from notesgen.speech.items import Break, Item, items

SIGNS = {Break.NONE: "", Break.SOFT: ", ", Break.HARD: "| ", Break.GAP: "|| "}
LENGTH = 0.2  # seconds that a word takes
NO_LISTS = WordLists()


def transcript(text: str) -> Transcript:
    """Words as written, one after another; "(1.5)" stands for so many seconds without a word.

    A pause of 2.5 s or more is a gap.
    """
    words: list[Word] = []
    gaps: list[Gap] = []
    now = 0.0
    for chunk in text.split():
        if chunk.startswith("(") and chunk.endswith(")"):
            pause = float(chunk[1:-1])
            if pause >= 2.5:
                gaps.append(Gap(now, now + pause))
            now += pause
        else:
            words.append(Word(chunk, now, now + LENGTH, 0))
            now += LENGTH
    return Transcript("talk.txt", "text", (), tuple(words), tuple(gaps), now)


def cut(text: str, words: WordLists = NO_LISTS) -> tuple[Item, ...]:
    """The items of a talk; see `transcript`."""
    return items(transcript(text), words)


def line(all_items: tuple[Item, ...]) -> str:
    """Items as text: "," for a soft break, "|" for a hard one, "||" for a gap; none before the first."""
    return " ".join(("" if at == 0 else SIGNS[item.before]) + item.text for at, item in enumerate(all_items))
