"""Which function hears which kind of instruction."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from notesgen.settle.hearing import (
    afterwards,
    anew,
    away,
    bends,
    counts,
    damped,
    grips,
    harmonics,
    kept,
    legato,
    marks,
    notes,
    octaves,
    owned,
    pairs,
    parts,
    picking,
    rooted,
    scopes,
    shifts,
    slurred,
    strums,
    tapped,
    the_rest,
    together,
)
from notesgen.settle.hearing.telling import Telling
from notesgen.speech.instructions import Instruction

Hears = Callable[[Telling, Instruction], None]

PLAYED: Mapping[str, Hears] = {
    "note": notes.note,
    "dead": damped.dead,
    "trill": tapped.trill,
    "stroke": picking.stroke,
    "tap": tapped.tap,
    "harmonic": harmonics.harmonic,
    "pair": pairs.pair,
    "shape": pairs.shape,
    "chord": grips.chord,
    "hammer-on": legato.legato,
    "pull-off": legato.legato,
    "slide": legato.legato,
    "legato": legato.chain,
    "run": notes.run,
    "shift": shifts.shift,
    "away": away.away,
    "bend": bends.bend,
    "pre-bend": bends.bend,
    "release": bends.release,
    "recall": parts.recall_part,
}

AFTERWARDS: Mapping[str, Hears] = {
    "how": slurred.how_afterwards,
    "either": afterwards.either,
    "mark": marks.mark,
    "letter": afterwards.letter,
    "unplayed": afterwards.unplayed,
    "together": together.together,
    "keep": kept.keep,
    "owns": owned.own,
    "strum": strums.strum,
    "open-rest": strums.open_rest,
    "octaves": octaves.octaves,
    "by-root": rooted.by_root,
    "count": counts.count,
    "again": counts.again,
    "anew": anew.play_again,
    "repeat": counts.repeat,
    "rest": the_rest.strike_rest,
    "scope": scopes.scope,
    "that-string": scopes.that_string,
}

NOTED = frozenset((*PLAYED, "count", "again", "how", "mark"))
"""What belongs to a note, and may stand between it and its string: "7 twice on the B"."""

HEARD: Mapping[str, Hears] = {**PLAYED, **AFTERWARDS}
