"""The measures of a draft against the right answer.

note F1       same string and fret, in order
pitch F1      same sounding pitch, in order, whatever the string
how           technique right, of the notes that matched
detail        bend amount, trill target, marks and striking together right, of the matched notes
silent        wrong, missing or surplus notes that no query points at
traps         misspoken rows that are flagged; self-corrected rows that are right; other doubts either
flags/100     queries per 100 notes of the right answer; idle: queries near no doubt and no error
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from msgspec import Struct

from notesgen.lesson.model import Lesson
from tests.accuracy.align import Pair, align, difference
from tests.accuracy.draft import DraftNote, Queries, draft_notes, queries, reaches
from tests.accuracy.figures import Facts, Figures, Trap, Wrong
from tests.accuracy.gold import Gold, GoldNote, Sounded

AMOUNT = 0.01  # semitones within which a bend is right
STEPS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
SAME_MODE = {"aeolian": "minor", "ionian": "major"}


class Match(Struct, frozen=True):
    """One step of the alignment, as notes; None where one side has no counterpart."""

    gold: GoldNote | None
    draft: DraftNote | None

    @property
    def exact(self) -> bool:
        """True when both are there, on the same string at the same fret."""
        g, d = self.gold, self.draft
        return g is not None and d is not None and (g.string, g.fret) == (d.string, d.fret)

    @property
    def time(self) -> float:
        """Seconds; the gold's where there is one."""
        note = self.gold or self.draft
        assert note is not None
        return note.time


def measure(name: str, lesson: Lesson, gold: Gold) -> Figures:
    """All figures for one lesson."""
    drafted, asked = draft_notes(lesson), queries(lesson)
    matches = _matches(align(gold.notes, drafted, difference), gold.notes, drafted)
    exact = [(m.gold, m.draft) for m in matches if m.exact and m.gold and m.draft]
    details = [right for g, d in exact for right in _details(g, d)]
    wrong = tuple(_wrong(m, asked) for m in matches if not m.exact)
    return Figures(
        case=name,
        gold=len(gold.notes),
        draft=len(drafted),
        exact=len(exact),
        pitch_right=sum(_same_pitch(m, gold) for m in matches),
        how_right=sum(g.how == d.how for g, d in exact),
        details=len(details),
        details_right=sum(details),
        silent=sum(not w.flagged for w in wrong),
        flags=len(asked.flags),
        idle=_idle(asked, [w.time for w in wrong] + [n.time for n in gold.notes if n.doubt]),
        traps=_traps(matches, asked),
        facts=_facts(lesson, gold),
        wrong=wrong,
    )


def _matches(pairs: Iterable[Pair], gold: Sequence[GoldNote], draft: Sequence[DraftNote]) -> list[Match]:
    return [Match(None if g is None else gold[g], None if d is None else draft[d]) for g, d in pairs]


def _details(wanted: GoldNote, got: DraftNote) -> list[bool]:
    """Whether each detail that this pair has is right. A detail exists where the gold gives it."""
    right = []
    if wanted.bend is not None:
        right.append(got.bend is not None and abs(got.bend - wanted.bend) < AMOUNT)
    if wanted.to is not None:
        right.append(got.to == wanted.to)
    if wanted.together or got.together:
        right.append(wanted.together == got.together)
    return right + [mark in got.marks for mark in wanted.marks]


def _wrong(match: Match, asked: Queries) -> Wrong:
    """A missing note is covered by a query near it, any other by a query on its event."""
    flagged = asked.name(match.draft.event) if match.draft else asked.reach(match.time)
    return Wrong(
        time=match.time,
        gold=_short(match.gold),
        draft=_short(match.draft),
        flagged=flagged,
        doubt=match.gold.doubt if match.gold else "",
    )


def _short(note: Sounded | None) -> str | None:
    return f"{note.string}/{note.fret} {note.how}" if note else None


def _traps(matches: Iterable[Match], asked: Queries) -> tuple[Trap, ...]:
    """One for each doubtful note of the gold, in order."""
    traps = []
    for match in matches:
        if match.gold is None or not match.gold.doubt:
            continue
        named = match.draft is not None and asked.name(match.draft.event)
        flagged = named or asked.reach(match.gold.time)
        kind = match.gold.doubt_kind
        passed = {"self-corrected": match.exact, "misspoken": flagged}
        traps.append(Trap(kind, passed.get(kind, match.exact or flagged)))
    return tuple(traps)


def _idle(asked: Queries, points: Sequence[float]) -> int:
    """The queries that stand near none of `points` (seconds)."""
    return sum(not any(reaches(flag, time) for time in points) for flag in asked.flags)


def _facts(lesson: Lesson, gold: Gold) -> Facts:
    drafted = [midi(name) for name in lesson.facts.tuning]
    return Facts(
        tuning=drafted == [midi(name) for name in gold.tuning],
        capo=lesson.facts.capo == gold.capo,
        key=_key(str(lesson.facts.key or "")) == _key(gold.key),
    )


def _key(text: str) -> list[str]:
    """The words of a key's name, with the names that mean the same made one."""
    words = re.sub(r"[^#a-z ]", "", text.lower()).replace("natural ", "").split()
    return [SAME_MODE.get(word, word) for word in words]


def _same_pitch(match: Match, gold: Gold) -> bool:
    g, d = match.gold, match.draft
    return g is not None and d is not None and _pitch(g, gold) == _pitch(d, gold)


def _pitch(note: Sounded, gold: Gold) -> int | str:
    """MIDI note number; a dead note, or one on no string, sounds like its string's number alone."""
    if note.fret == "x" or not 1 <= note.string <= len(gold.tuning):
        return f"x{note.string}"
    return midi(gold.tuning[note.string - 1]) + note.fret + gold.capo


def midi(name: str) -> int:
    """MIDI note number of a pitch such as "Eb3" (C4 = 60, MIDI 1.0)."""
    found = re.fullmatch(r"([A-Ga-g])([#b]*)(-?\d+)", name.strip())
    if not found:
        raise ValueError(f'"{name}" is no pitch')
    letter, signs, octave = found.groups()
    return STEPS[letter.upper()] + signs.count("#") - signs.count("b") + 12 * (int(octave) + 1)
