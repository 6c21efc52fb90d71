"""Gathers the clues of every drafted event."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from math import exp

from msgspec import Struct

from notesgen.grammar.model import WordLists
from notesgen.settle.assign import Assigned, Ground
from notesgen.settle.recaps.sift import Sifted
from notesgen.settle.step import Step
from notesgen.settle.trust.clues import Around, Clues, InMusic, InTime, OnString, Telling, Tellings, WholeTalk
from notesgen.settle.trust.company import company
from notesgen.settle.trust.reading import Reading
from notesgen.settle.trust.told_before import ToldBefore

FADES = 0.9  # what is left, one note on, of a doubt about a string that is carried on
SINCE = 6  # notes since a string was said that count as many
OTHERS = 5  # other strings that count as many
DOUBT = 3.0  # cost of a reading that counts as very doubtful
NEAR_BEFORE, NEAR_AFTER = 4, 3  # items around a note that count as close by
COMPANY = 3  # ... as next to it
SPREAD = 6  # words a note from which a run is talk rather than a list
GAP = 15.0  # seconds between notes that count as long
ISOLATED = 10.0  # ... to both sides
AROUND = 10.0  # ... within which notes stand around another
CROWD = 9  # of them that count as many
LONG_RUN = 8  # notes of a run that count as many
EARLY = 0.15  # share of the talk that mostly comes before the piece
TALK = 60.0  # seconds from which a talk has such a beginning
LEAP = 7  # frets that count as a far leap
HAND = 2  # notes by which the place of the hand is known
FEW = 10  # notes that tell as much about a teacher as having heard nothing yet
LATELY = 8  # notes back that count as just told


class Known(Struct, frozen=True):
    """What the settling knows: the notes with their places in the telling, the recaps, the music."""

    assigned: tuple[Assigned, ...]
    places: tuple[int, ...]
    sifted: Sifted
    ground: Ground


def gather(known: Known, reading: Reading, words: WordLists) -> tuple[Clues, ...]:
    """The clues of each event, in playing order."""
    gatherer = _Gatherer(known, reading, words)
    runs = groupby(range(len(known.assigned)), key=lambda at: known.assigned[at].step.sentence)
    return tuple(clues for _, run in runs for clues in gatherer.run(list(run)))


class _Gatherer:
    """One lesson, and how its notes' strings are known so far."""

    def __init__(self, known: Known, reading: Reading, words: WordLists) -> None:
        self.known, self.reading, self.words = known, reading, words
        self.notes = known.assigned
        self.agreed = {first for _, first in known.sifted.sources}
        self.no_notes = {place: run.no_notes for run in known.sifted.weighed for place in run.places}
        frets = [one.step.frets for one in self.notes]
        self.pairs, self.rows = ToldBefore(frets, 2), ToldBefore(frets, 3)
        self.starts = [reading.items[one.step.start].start for one in self.notes]
        self.since, self.weakest = 0, 0.0
        close = [_closeness(one) for one in self.notes]
        self.talk = WholeTalk(
            unread_numbers=reading.unread_numbers, unsure_strings=sum(close) / (len(close) + FEW)
        )

    def run(self, run: list[int]) -> list[Clues]:
        """The clues of the notes of one sentence."""
        return [
            Clues(
                string=self._string(at, run),
                telling=self._telling(at, run),
                around=self._around(self.notes[at].step),
                company=company(self.notes[at].step, self.reading, self.words),
                time=self._time(at),
                music=self._music(at),
                tellings=self._tellings(at, run),
                talk=self.talk,
            )
            for at in run
        ]

    def _string(self, at: int, run: list[int]) -> OnString:
        one, before = self.notes[at], self.notes[at - 1] if at else None
        said, in_force = _is_said(one.step), bool(one.step.before)
        known, close = said or in_force, _closeness(one)
        self.since = 0 if known else self.since + 1
        self.weakest = max(0.0 if known else self.weakest * FADES, close)
        named = {v.named[0] for q in run for v in self.notes[q].step.voices if len(v.named) == 1}
        return OnString(
            said=said,
            in_force=in_force and not said,
            since=min(self.since / SINCE, 1.0),
            candidates=min(len(one.others) / OTHERS, 1.0),
            close=close,
            weakest=self.weakest,
            jump=before is not None and not known and one.strings[0] not in before.strings,
            named=sum(bool(self.notes[q].step.voices[0].named) for q in run) / len(run),
            many_named=len(named) > 1,
        )

    def _telling(self, at: int, run: list[int]) -> Telling:
        step, items = self.notes[at].step, self.reading.items
        beside = {items[step.start].text, items[max(0, step.start - 1)].text}
        first, last = self.notes[run[0]].step, self.notes[run[-1]].step
        return Telling(
            size=min(len(run) / LONG_RUN, 1.0),
            slurred=sum(self.notes[q].step.is_told_slurred for q in run) / len(run),
            alone=len(run) == 1,
            article=not beside.isdisjoint(self.words.article),
            pointing=not beside.isdisjoint(self.words.pointing),
            doubt=min(step.doubt / DOUBT, 1.0),
            open=0 in step.frets,
            again=step.again,
            corrected=bool(step.corrected),
            derived=step.origin == "derived",
            copied=step.copied and not step.restrung,
            fingered=any(self.notes[q].step.fingered for q in run),
            spread=min((last.end - first.start) / len(run) / SPREAD, 1.0),
        )

    def _around(self, step: Step) -> Around:
        reading, words = self.reading, self.words
        spoken = reading.sentence(step.sentence)
        near = reading.said(reading.around(step, NEAR_BEFORE, NEAR_AFTER))
        company = [at for at in reading.around(step, COMPANY, COMPANY) if not step.start <= at < step.end]
        return Around(
            acting=_any(spoken.words, words.acting),
            finger=_any(spoken.words, words.fingering),
            hearing=_any(spoken.words, words.hearing),
            negated=_any(spoken.words, words.negating),
            reason=_any(spoken.words, words.reasons),
            supposing=_any(spoken.words, words.supposing),
            listener=_any(spoken.words, words.listener),
            string=_any(spoken.words, words.string),
            moving_on=_any(near, words.turning_to),
            again=_any(near, words.again),
            unread=spoken.unread_share,
            odd_company=sum(at in spoken.heavy for at in company) / (2 * COMPANY),
        )

    def _time(self, at: int) -> InTime:
        items, step = self.reading.items, self.notes[at].step
        starts = self.starts[max(0, at - 1) : at + 2]
        start = items[step.start].start
        before, after = start - starts[0], starts[-1] - start  # 0 at the lesson's ends
        return InTime(
            gap_before=min(before / GAP, 1.0),
            gap_after=min(after / GAP, 1.0),
            isolated=min(before / ISOLATED, after / ISOLATED, 1.0),
            crowd=min(self._crowd(at) / CROWD, 1.0),
            before_playing=self.reading.sentence(step.sentence).before_playing,
            early=start < EARLY * items[-1].end and items[-1].end > TALK,
        )

    def _crowd(self, at: int) -> int:
        """How many notes begin shortly before or after the note, up to a crowd on either side."""
        near = self.starts[max(0, at - CROWD) : at + CROWD + 1]
        return sum(abs(start - self.starts[at]) <= AROUND for start in near)

    def _music(self, at: int) -> InMusic:
        one = self.notes[at]
        outside = any(
            self.known.ground.is_outside(voice.fret, string)
            for voice, string in zip(one.step.voices, one.strings, strict=True)
        )
        return InMusic(
            outside=outside and not one.step.outside,
            announced=one.step.outside,
            leap=_leap(one, self.notes[max(0, at - HAND) : at]),
            leap_after=_leap(one, self.notes[at + 1 : at + 1 + HAND]),
        )

    def _tellings(self, at: int, run: list[int]) -> Tellings:
        one, place = self.notes[at], self.known.places[at]
        before = [_place(note) for note in self.notes[max(0, at - LATELY) : at]]
        fresh = not one.step.again
        return Tellings(
            agreed=place in self.agreed,
            lately=fresh and _place(one) in before,
            echo=fresh and _place(one) in before[-1:],
            pair=self.pairs.holds(at, run[0]),
            row=self.rows.holds(at, run[0]),
            maybe_retold=self.no_notes.get(place, 0.0),
        )


def _is_said(step: Step) -> bool:
    return all(len(voice.named) == 1 for voice in step.voices)


def _closeness(one: Assigned) -> float:
    """How little the best string wins by: 1 where another is as good, 0 where it was said."""
    return 0.0 if _is_said(one.step) else exp(-one.margin)


def _place(one: Assigned) -> tuple[tuple[int, ...], tuple[object, ...]]:
    return one.strings, one.step.frets


def _leap(one: Assigned, others: Sequence[Assigned]) -> float:
    """The frets to the nearest of the other notes as told, open strings aside, from 0 to 1."""
    here = [fret for fret in one.step.frets if isinstance(fret, int) and fret]
    told = [other.step for other in others if other.step.origin != "derived"]
    there = [fret for step in told for fret in step.frets if isinstance(fret, int) and fret]
    return min(min((abs(a - b) for a in here for b in there), default=0) / LEAP, 1.0)


def _any(said: frozenset[str], words: Sequence[str]) -> bool:
    return not said.isdisjoint(words)
