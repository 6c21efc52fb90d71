"""Strokes to tones: how long each sounds, how it begins, and how its pitch moves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from notesgen.pack.layout.sounding.curves import SLIDE_IN, curve
from notesgen.pack.layout.sounding.pitches import sounding
from notesgen.pack.layout.sounding.struck import Struck
from notesgen.pack.layout.sounding.tone import Begins, Curve, Tone

# Common practice, no source. Lengths in beats.
LAST = 1.0
"""A phrase ends on a note that rings so long."""
RING = 4.0
"""What is left ringing sounds until its string is played again, but no longer than this."""
DEAD = 0.25
TRILL = 0.125
TRILL_TO = 2
"""Frets up, where the other note of a trill was not said."""
LOUDNESS: Mapping[Begins, float] = {"plucked": 0.8, "tapped": 0.7, "slurred": 0.65, "held": 0.65}
ACCENT = 0.2


def tones(strokes: Iterable[Struck], tempo: float) -> list[Tone]:
    """The tones in the order of `strokes`. A trill is as many tones as it has turns."""
    made: list[Tone] = []
    last: dict[int, Tone] = {}
    for one in strokes:
        made += _trill(one) if one.stroke.how == "trill" else [_tone(one, tempo, last.get(one.stroke.string))]
        last[one.stroke.string] = made[-1]
    return made


def _tone(one: Struck, tempo: float, before: Tone | None) -> Tone:
    begins, length = _begins(one, before), _length(one)
    return Tone(
        event=one.played.event.id,
        beat=one.beat,
        length=length,
        string=one.stroke.string,
        midi=one.midi,
        begins=begins,
        voice=one.voice,
        curve=() if one.voice == "dead" else _curve(one, length, tempo, before),
        loud=_loudness(one, begins),
    )


def _begins(one: Struck, before: Tone | None) -> Begins:
    if one.joins and before is not None:
        return "held" if one.stroke.how == "release" and before.midi == one.midi else "slurred"
    return "tapped" if one.stroke.how in ("tap", "hammer-on") else "plucked"


def _length(one: Struck) -> float:
    """Until the next event, unless the string is to sound on or is cut short."""
    marks, after = one.stroke.marks, one.after
    if after is not None and after.joins:
        return after.beat - one.beat
    own = one.played.until - one.beat
    if "let-ring" in marks:
        own = RING
    elif one.played.closes:
        own = max(own, LAST)
    if after is not None:
        own = min(own, after.beat - one.beat)
    if "staccato" in marks:
        own /= 2
    return min(own, DEAD) if one.voice == "dead" else own


def _curve(one: Struck, length: float, tempo: float, before: Tone | None) -> Curve:
    after = one.after
    slides = after is not None and after.joins and after.stroke.how == "slide"
    return curve(
        one.stroke,
        length,
        tempo,
        begins_at=_begins_at(one, before),
        glides_to=after.midi - one.midi if after is not None and slides else None,
    )


def _begins_at(one: Struck, before: Tone | None) -> float | None:
    """Semitones from which the tone comes to its own pitch."""
    if one.joins and before is not None:
        return before.midi + before.last_offset - one.midi if one.stroke.how == "release" else None
    if "slide-in" in one.stroke.marks or one.stroke.how == "slide":
        return -min(SLIDE_IN, one.stroke.fret) if isinstance(one.stroke.fret, int) else None
    return None


def _loudness(one: Struck, begins: Begins) -> float:
    return round(min(1.0, LOUDNESS[begins] + (ACCENT if "accent" in one.stroke.marks else 0.0)), 2)


def _trill(one: Struck) -> Iterator[Tone]:
    """Turns between the two notes, an odd number of them: it ends on the note that it began with."""
    length = _length(one)
    own = one.stroke.fret if isinstance(one.stroke.fret, int) else 0
    other = sounding(one.midi + (TRILL_TO if one.stroke.to is None else one.stroke.to - own))
    alike = one.voice == "dead" or other is None or other == one.midi
    turns = 1 if alike else max(3, round(length / TRILL) // 2 * 2 + 1)
    for turn in range(turns):
        begins: Begins = "slurred" if turn else "plucked"
        yield Tone(
            event=one.played.event.id,
            beat=one.beat + length * turn / turns,
            length=length / turns,
            string=one.stroke.string,
            midi=one.midi if turn % 2 == 0 or other is None else other,
            begins=begins,
            voice=one.voice,
            loud=_loudness(one, begins),
        )
