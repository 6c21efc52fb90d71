"""A pair or a chord struck once more: as it was, or with the one voice changed that was told alone since.

"Then both again"; "put your first finger on the B, first fret, and pick the two of them together again".
"""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.joined import known
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

NEAR = 2  # sentences back to which "both again" reaches
PAIR = 2  # voices of which "both" speaks


def strikes_over(telling: Telling, said: Instruction) -> bool:
    """Whether the words strike the chord told last once more; strikes it."""
    last = telling.last()
    if last is None or said.start < last.end or not telling.near(said, NEAR) or said.all("string"):
        return False
    if len(last.voices) > 1:
        if not _says_again(telling, said) or _spoken_of(telling, said) not in (0, len(last.voices)):
            return False
        telling.add(said, last.voices, again=True)
        return True
    return _strikes_changed(telling, said, last)


def _strikes_changed(telling: Telling, said: Instruction, last: Step) -> bool:
    """Strikes the chord before the last note with that note in it, where it lies on one of its strings."""
    before = telling.last(2)
    if before is None or _spoken_of(telling, said) != len(before.voices) or last.how not in ("pick", "bend"):
        return False
    changed = _with_voice(before, known(last)[0])
    if changed is None or "x" in (*before.frets, *last.frets) or before.section != last.section:
        return False
    start = said.start
    if not _was_struck(telling, said, last):
        start = telling.steps.pop().start
    telling.add(said, changed, start=start, origin="derived", placed=False)
    return True


def _with_voice(chord: Step, voice: Voice) -> list[Voice] | None:
    """The chord's voices with this one in place of that on its string; None where the chord has none."""
    held: list[Strings] = [one.named for one in chord.voices]
    fits = [at for at, named in enumerate(held) if len(named) == 1 and named[0] in voice.named]
    if len(fits) != 1:
        return None
    return [
        replace(one, fret=voice.fret) if at == fits[0] else replace(one, how=None, bend=None)
        for at, one in enumerate(chord.voices)
    ]


def _was_struck(telling: Telling, said: Instruction, note: Step) -> bool:
    """Whether the note was played for itself before the chord: "just the B at 3, then both again"."""
    words = telling.words
    told = telling.said_between(note.start, note.end + 1)
    alone = told & {*words.striking, *words.apart}
    return bool(alone) or bool(telling.said_between(note.end, said.end) & {*words.moving_on})


def _says_again(telling: Telling, said: Instruction) -> bool:
    """Whether the words strike it again, and not only tell that it is one stroke: "together again".

    Where it is told what differs, that is struck: "play the three again, but the B goes down one".
    """
    words, spoken = telling.words, telling.said_between(said.start, said.end)
    after = telling.items[said.end : said.end + 1]
    behind = {item.text for item in after if item.before == Break.NONE}
    struck = spoken & {*words.striking, *words.moving_on}
    differs = telling.said_between(said.end, said.end + 2) & {*words.differing}
    return bool(struck and (spoken | behind) & {*words.again}) and not differs


def _spoken_of(telling: Telling, said: Instruction) -> int:
    """How many strings the words speak of; 0 where they only say "them"."""
    spoken = [item.text for item in telling.items[said.start : said.end]]
    if not {*spoken}.isdisjoint(telling.words.two):
        return PAIR
    return next((telling.values[word] for word in spoken if word in telling.values), 0)
