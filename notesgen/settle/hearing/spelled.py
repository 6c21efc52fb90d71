"""Notes that spell out what was just told: a shape that moved, frets that the captions ran together."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from notesgen.settle.step import Step, Voice
from notesgen.speech.numbers import HIGHEST_FRET

SPELLED_WITHIN = 8  # items within which a moved shape is spelled out
RUN_TOGETHER = (2, 3, 4)  # frets that captions may write as one number
SHAPES = (1, 2, 3)  # steps that may spell out a shape

SaidBetween = Callable[[int, int], frozenset[str]]


def fold(steps: list[Step], said_between: SaidBetween, anew: frozenset[str]) -> None:
    """Takes back the last steps where they spell out what stands before them.

    "Up two frets, so 14 on the G, 13 on the B" is one pair; "97, nine and then seven" are two notes.
    `anew` are the words that tell a note as a new one.
    """
    for size in RUN_TOGETHER:
        if _spells_run(steps[-2 * size : -size], steps[-size:], said_between):
            del steps[-size:]
            return
    if _spells_distance(steps[-2:], said_between, anew):
        del steps[-1]
        return
    for size in SHAPES:
        if len(steps) > size and _spells_out(steps[-size - 1], steps[-size:]):
            if _is_new_pair(steps[-size - 1], steps[-size:], said_between, anew):
                return
            spelled = [voice for step in steps[-size:] for voice in step.voices]
            steps[-size - 1 :] = [_respelled(steps[-size - 1], spelled)]
            return


def _spells_run(run: list[Step], spelled: list[Step], said_between: SaidBetween) -> bool:
    """Whether the frets are told one by one, and at once, that the captions ran together."""
    if len(run) < len(spelled) or any(step.start != run[0].start for step in run):
        return False
    if spelled[0].start - run[0].end > 1 or any(s.how != "pick" or s.voices[0].named for s in spelled):
        return False
    words = said_between(run[0].start, run[0].end)
    digits = any(word.isdigit() and int(word) > HIGHEST_FRET for word in words)
    return digits and [step.frets for step in run] == [step.frets for step in spelled]


def is_by_distance(step: Step) -> bool:
    """Whether a note was told by how far it is from the one before: "one fret up"."""
    derived = step.origin == "derived" and not step.copied and not step.again
    return derived and len(step.voices) == 1 and step.how in ("pick", "slide")


def _spells_distance(pair: list[Step], said_between: SaidBetween, anew: frozenset[str]) -> bool:
    """Whether the last step only tells the fret of one told by its distance: "one fret up, fret eight"."""
    if len(pair) < 2 or not is_by_distance(pair[0]) or pair[1].origin != "said" or pair[1].how != "pick":
        return False
    if pair[1].start - pair[0].end > SPELLED_WITHIN // 2 or pair[0].frets != pair[1].frets:
        return False
    named = pair[1].voices[0].named
    elsewhere = named and pair[0].voices[0].named and not set(named) & set(pair[0].voices[0].named)
    return not elsewhere and not said_between(pair[0].end, pair[1].start + 1) & anew


def _spells_out(moved: Step, spelled: list[Step]) -> bool:
    """Whether the steps name the voices of a moved shape, at least half of them right."""
    if moved.origin != "derived" or moved.retold or len(moved.voices) < 2:
        return False
    frets = [fret for step in spelled for fret in step.frets]
    close = spelled[0].start - moved.end <= SPELLED_WITHIN
    plain = all(step.how == "pick" and step.origin == "said" and not step.again for step in spelled)
    agree = sum(fret in moved.frets for fret in frets)
    return len(frets) == len(moved.voices) and close and plain and agree * 2 >= len(frets)


def _is_new_pair(moved: Step, told: list[Step], said_between: SaidBetween, anew: frozenset[str]) -> bool:
    """Whether "then 7 and 9" tells another stroke than the shape that moved, no fret of it being the same."""
    words = said_between(moved.end, told[0].start + 1) & anew
    places = zip(moved.voices, told[0].voices, strict=False)
    return len(told) == 1 and bool(words) and all(one.fret != other.fret for one, other in places)


def _respelled(moved: Step, spelled: list[Voice]) -> Step:
    """The moved shape, its voices in the order in which they are spelled out."""
    left = list(moved.voices)
    voices: list[Voice | None] = []
    for said in spelled:
        same = next((v for v in left if v.fret == said.fret or (said.named and v.named == said.named)), None)
        voices.append(same)
        if same:
            left.remove(same)
    ordered = tuple(voice or left.pop(0) for voice in voices)
    return replace(moved, voices=ordered, retold=tuple(voice.fret for voice in spelled))


def is_elsewhere(told: Step, copy: Step) -> bool:
    """Whether the note's string was named, and the copy lies on another one, as do its other places."""
    places = (copy.voices, *copy.elsewhere)
    strings = {string for voices in places for string in voices[0].named}
    named = told.voices[0].named or told.before
    return bool(named) and not strings & set(named)
