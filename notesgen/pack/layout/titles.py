"""What each phrase is called in print: the teacher's own words where they make a title, else mended.

Headings that are counted ("lick three", "the fourth one") are written alike through the whole lesson, as
most of them are. Where the numbers on both sides leave room for exactly the phrases between, those are
counted in. What has no name is called by its place in the lesson.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from notesgen.lesson.model import Lesson, Phrase
from notesgen.pack.layout.headings import CARDINALS, ORDINALS, UNNAMED, VAGUE, Heading, read_heading

SCRAP = 4  # notes; an unnamed phrase with fewer is a bit played in passing


def titles(lesson: Lesson) -> tuple[str, ...]:
    """One title a phrase, on one line, no two alike, never empty."""
    headings = _counted_in([read_heading(phrase.title) for phrase in lesson.phrases], lesson.phrases)
    noun, ordinal = _usual_noun(headings), _mostly_ordinal(headings)
    places = enumerate(headings, start=1)
    clash = noun == "phrase" and any(heading.number not in (None, place) for place, heading in places)
    fallback = "Passage" if clash else "Phrase"
    return _told_apart(
        _written(heading, noun, ordinal) or f"{fallback} {place}"
        for place, heading in enumerate(headings, start=1)
    )


def is_scrap(phrase: Phrase) -> bool:
    """Whether nobody announced the phrase and hardly anything is played in it."""
    return read_heading(phrase.title) == UNNAMED and len(phrase.events) < SCRAP


def _counted_in(headings: list[Heading], phrases: Sequence[Phrase]) -> list[Heading]:
    """The headings, those without a number counted in where the numbers around leave exactly their room."""
    made = list(headings)
    waiting: list[int] = []
    number = 0
    for place, heading in enumerate(headings):
        if heading.number is None:
            if not heading.own and not heading.last and not is_scrap(phrases[place]):
                waiting.append(place)
            continue
        if heading.number - number - 1 == len(waiting):
            for step, at in enumerate(waiting, start=1):
                made[at] = replace(made[at], number=number + step, clear=False)
        waiting, number = [], heading.number
    return made


def _usual_noun(headings: Iterable[Heading]) -> str:
    """What the teacher calls the parts of the lesson; the first of several that are as common."""
    nouns = Counter(heading.noun for heading in headings if heading.noun)
    return nouns.most_common(1)[0][0] if nouns else "phrase"


def _mostly_ordinal(headings: Iterable[Heading]) -> bool:
    """Whether the teacher says "third part" more often than "part three"."""
    forms = [heading.ordinal for heading in headings if heading.number and heading.clear]
    return 2 * sum(forms) > len(forms)


def _written(heading: Heading, noun: str, ordinal: bool) -> str:
    """The heading as a title; "" where it names nothing."""
    noun = heading.noun or noun
    if heading.own:
        return heading.own
    if heading.number:
        return _numbered(heading.number, noun, ordinal)
    if heading.last:
        return f"Last {noun}"
    return "" if heading.noun in ("", *VAGUE) else heading.noun.capitalize()


def _numbered(number: int, noun: str, ordinal: bool) -> str:
    if ordinal:
        return f"{ORDINALS[number - 1].capitalize()} {noun}"
    return f"{noun.capitalize()} {CARDINALS[number - 1]}"


def _told_apart(names: Iterable[str]) -> tuple[str, ...]:
    """A second "Bridge" as "Bridge (2)"."""
    seen: Counter[str] = Counter()
    told = []
    for name in names:
        seen[name] += 1
        told.append(name if seen[name] == 1 else f"{name} ({seen[name]})")
    return tuple(told)
