"""No key was named, and the notes tell which it probably is.

## What it flags

A lesson of sixteen notes or more in which no key is named, and whose notes are likelier in one key than in
all others together: a remark at the first note says which key, and how sure that is. Where it is four
fifths sure and only very few notes lie outside, each of these is asked about.

## Why it matters

A fret that is one off mostly leaves the key, also where nobody named it. Of what you said, nothing is
overruled: a key that you named always counts.

## Example

"3, 5 on the A. 2, 3, 5 on the D. 2, 4, 5 on the G. 5, 4, 2 on the G. 5, 3, 2 on the D. 5, 3 on the A.": all
of it lies in C major.

## What to do

Name the key in the lesson, or give it: `--key "C major"`.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import structs

from notesgen.checks.answers import query, remark_at, with_fret
from notesgen.checks.tones import neck
from notesgen.checks.view import number, single
from notesgen.checks.wording import fret_name, place_name
from notesgen.lesson.evidence import Evidence, LikelyKey
from notesgen.lesson.model import Event, Flag, FlagKind, Lesson, Note, Option
from notesgen.music.fretboard import Fretboard
from notesgen.music.scale import is_mode, pitch_classes

KIND: FlagKind = "outside-key"

_SURE = 0.8
_FEW = 0.05
"""The share of notes outside beyond which a guess at the key is no ground for questions."""
_NEAREST = (-1, 1)


def check(lesson: Lesson, evidence: Evidence) -> Iterator[Flag]:
    """One remark for the key, and a query for each of the few notes outside it."""
    likely = evidence.likely
    if likely is None or lesson.facts.key is not None or not is_mode(likely.key.mode) or not lesson.events:
        return
    first = lesson.events[0]
    yield remark_at(KIND, first.start, first.quote, _told(likely))
    if likely.probability >= _SURE and likely.notes - likely.inside <= _FEW * likely.notes:
        for event in lesson.events:
            yield from _asked(lesson, event, likely, evidence)


def _told(likely: LikelyKey) -> str:
    sure = round(100 * likely.probability)
    return (
        f"You named no key. The notes are probably in {likely.key} ({sure}% sure): {likely.inside} of "
        f"{likely.notes} lie in it. The draft goes by what you said, and by no guess at the key."
    )


def _asked(lesson: Lesson, event: Event, likely: LikelyKey, evidence: Evidence) -> Iterator[Flag]:
    note, board = single(event), neck(lesson, event.start)
    fret = number(note) if note else None
    if note is None or board is None or fret is None or event.how not in ("pick", "hammer-on", "pull-off"):
        return
    if event.id in evidence.outside or _fits(board, note, likely):
        return
    doubt = (
        f"You named no key, and nearly all of the notes lie in {likely.key}: "
        f"{place_name(lesson, event, note)} does not."
    )
    near = (structs.replace(note, fret=fret + step) for step in _NEAREST)
    others = tuple(
        Option(fret_name(other.fret), (with_fret(event, note, other.fret),))
        for other in near
        if isinstance(other.fret, int) and board.has(other.string, other.fret) and _fits(board, other, likely)
    )
    yield query(KIND, (event,), doubt, fret_name(fret), others)


def _fits(board: Fretboard, note: Note, likely: LikelyKey) -> bool:
    fret = number(note)
    scale = pitch_classes(likely.key.tonic, likely.key.mode)
    return fret is None or not board.has(note.string, fret) or board.pitch(note.string, fret) % 12 in scale
