"""The words right around a note's number: the company that a fret keeps, or that a number in talk keeps."""

from __future__ import annotations

from notesgen.grammar.model import WordLists
from notesgen.settle.step import Step
from notesgen.settle.trust.clues import Company
from notesgen.settle.trust.reading import Reading
from notesgen.speech.items import Break

BESIDE = 6  # items on each side that count as around the number
PLAYING_BEFORE, PLAYING_AFTER = 10, 6  # ... among which a word of playing is near


def company(step: Step, reading: Reading, words: WordLists) -> Company:
    """The clues of one step's surroundings, inside its sentence."""
    spoken, told = reading.sentence(step.sentence), reading.said(range(step.start, step.end))
    beside = [at for at in reading.around(step, BESIDE, BESIDE) if not step.start <= at < step.end]
    near = reading.said(reading.around(step, PLAYING_BEFORE, PLAYING_AFTER))
    named = any(voice.named for voice in step.voices)
    behind = reading.items[step.end].text if _goes_on(step, reading) else ""
    return Company(
        bare=not named and told.isdisjoint(words.fret),
        unread_behind=bool(behind) and step.end not in reading.read,
        stated=behind in words.stating,
        counting=not told.isdisjoint(words.finger_numbers),
        remarks=sum(at in reading.remarks for at in beside) / (2 * BESIDE),
        far_from_playing=near.isdisjoint(words.acting),
        opens=step.start == spoken.start,
        others=not spoken.words.isdisjoint(words.others),
    )


def _goes_on(step: Step, reading: Reading) -> bool:
    """Whether a word follows the step without a pause."""
    return step.end < len(reading.items) and reading.items[step.end].before == Break.NONE
