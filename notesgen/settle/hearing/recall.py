"""Notes told before and called again: "those two once more", "the ten you slid up to", "where they were"."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby

from msgspec.structs import replace

from notesgen.settle.hearing import afterwards, notes
from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.slots import frets_of, named_at, slot_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step, Strings
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

MOST = 6  # notes that are called by how many they are
MEMORY = 32  # notes back to which one told before is remembered
NAMED_WITHIN = 3  # items behind a note called by its name within which the thumb, or the bass, is named

Fits = Callable[[Step], bool]


def recall(telling: Telling, said: Instruction) -> None:
    """Strikes once more what the words call, where it was; what cannot be found is told as new, or asked."""
    if _is_spoken_of(telling, said):
        if len(said.all("letter")) == 1 and not said.all("fret"):
            afterwards.letter(telling, said)
        return
    if not _is_led(telling, said):
        notes.note(telling, said)
        return
    strokes = said.whole("count") if said.all("fret") else None
    said = _as_fret(said) if not (strokes or said.all("how")) and counts_a_fret(telling, said) else said
    called = _named(telling, said) * (strokes or 1) or _counted(telling, said)
    if called and not _is_on_string_named(telling, said):
        strike_over(telling, said, called)
    elif said.all("fret"):
        notes.note(telling, said)
    else:
        telling.unwritten.append(said)


def _is_on_string_named(telling: Telling, said: Instruction) -> bool:
    """Whether a string was named right in front for the fret: "the G string again with the same 5"."""
    naming = telling.named_since()
    same = telling.said_between(said.start, said.end) & {*telling.words.sameness}
    return bool(same and said.all("fret")) and naming is not None and said.start - naming.end <= 1


def counts_a_fret(telling: Telling, said: Instruction) -> bool:
    """Whether the number that would count notes is the fret of one told just now: "the nine again".

    "The same three again" are three notes, unless a 3 came last.
    """
    count = said.whole("count")
    if not count or telling.items[slot_of(said, "count").end - 1].text not in telling.numbers:
        return False
    spoken = telling.said_between(said.start, said.end)
    if spoken & {*telling.words.pointing_at_several}:
        return False  # "those two again"
    same = spoken & set(telling.words.sameness)
    notes = same and said.kind == "recall" and not said.all("string")
    recent = telling.steps[-1:] if notes else telling.steps[-LOOK_BACK:]
    return count > MOST or count in [fret for step in recent for fret in step.frets]


def _as_fret(said: Instruction) -> Instruction:
    return replace(said, slots=tuple(replace(s, name="fret") if s.name == "count" else s for s in said.slots))


def group(telling: Telling, said: Instruction) -> list[Step]:
    """The last so many notes, or a chord of so many: "those two"; of "the three little ones" the last that
    hang together.
    """
    count, last = said.whole("count") or 0, telling.last()
    if last is not None and len(last.voices) == count > 1:
        return [last]
    if chord := _chord_of(telling, said, count):
        return [chord]
    if not 0 < count <= len(telling.steps):
        return []
    words = telling.said_between(said.start, slot_of(said, "count").end)
    if not words & {*telling.words.pointing, *telling.words.sameness}:
        recent = telling.steps[-MEMORY:]
        for _, run in groupby(reversed(recent), key=_place):
            steps = list(run)[::-1]
            if len(steps) == count:
                return steps
    return telling.steps[-count:]


def _chord_of(telling: Telling, said: Instruction, count: int) -> Step | None:
    """The stroke on so many strings, where it is among the last so many notes, or called a pair."""
    named = count > 1 and telling.said_between(said.start, said.end) & {*telling.words.a_pair}
    recent = telling.steps[-MEMORY if named else -count :] if count > 1 else []
    return next((step for step in reversed(recent) if len(step.voices) == count), None)


def _place(step: Step) -> tuple[bool, int, Strings]:
    """What notes that hang together share: one reference, or one string."""
    return step.again, step.start if step.again else 0, step.voices[0].named or step.before


def _is_spoken_of(telling: Telling, said: Instruction) -> bool:
    """Whether the words only speak of the notes: "that's the 9 from before", "the 9 you had is ..."."""
    stating = set(telling.words.stating)
    lead = telling.said_between(said.start - 1, named_at(said))
    stated = lead & stating and not lead & set(telling.words.moving_on)
    return bool(stated) or states(telling, said.end)


def states(telling: Telling, at: int) -> bool:
    """Whether the clause goes on at the item with a statement: "the 9 is ...", not "the 9. Sounds good"."""
    behind = telling.items[at : at + 1]
    return any(item.text in telling.words.stating and item.before < Break.HARD for item in behind)


def _is_led(telling: Telling, said: Instruction) -> bool:
    """Whether words lead to the notes, or a clause begins with them: not "in the F I had a buzz"."""
    first = named_at(said)
    lead = telling.said_between(said.start, first) - {*telling.words.article, *telling.words.pointing}
    return bool(lead) or said.start == 0 or telling.items[said.start].before > Break.NONE


def _named(telling: Telling, said: Instruction) -> list[Step]:
    """The notes called by their frets or letters: the last row of them, else each as it was told last."""
    strings = telling.strings_of(said)
    how = said.text("how")
    fits = [_has_fret(fret, strings, how) for fret in frets_of(said, "fret")]
    fits += [_has_letter(telling, str(letter)) for letter in said.all("letter")]
    if not fits and how and (count := said.whole("count")) is not None:
        fits = [_has_fret(count, strings, how)]
    recent = [step for step in telling.steps[-MEMORY:] if len(step.voices) == 1]
    if said.all("letter"):
        recent = _voice_meant_last(telling, said)
    found = _in_a_row(recent, fits) or [_latest(recent, fit) for fit in fits]
    return [replace(step, how="pick", bend=None) for step in found if step] if all(found) else []


def _voice_meant_last(telling: Telling, said: Instruction) -> list[Step]:
    """The notes told last, those of a pinch one by one; those of the voice that is named stand last."""
    recent = [replace(step, voices=(v,)) for step in telling.steps[-MEMORY:] for v in step.voices]
    around = telling.said_between(telling.steps[-1].end if telling.steps else 0, said.end + NAMED_WITHIN)
    low = bool(around & {*telling.words.bass, *telling.words.lower_side})
    if low or around & {*telling.words.upper_side}:
        half = telling.names.count // 2
        recent.sort(key=lambda step: (min(step.voices[0].named, default=0) > half) == low)
    return recent


def _in_a_row(steps: Sequence[Step], fits: Sequence[Fits]) -> list[Step | None]:
    """The last row of neighbouring notes that are what is called, one after another."""
    for start in range(len(steps) - len(fits), -1, -1):
        row = steps[start : start + len(fits)]
        if all(fit(step) for fit, step in zip(fits, row, strict=True)):
            return list(row)
    return []


def _latest(steps: Sequence[Step], fit: Fits) -> Step | None:
    return next((step for step in reversed(steps) if fit(step)), None)


def _has_fret(fret: int | str, strings: tuple[Strings, ...], how: str | None) -> Fits:
    def fits(step: Step) -> bool:
        on = not strings or bool(set(strings[0]) & set(step.voices[0].named))
        return step.frets == (fret,) and on and how in (None, step.how)

    return fits


def _has_letter(telling: Telling, letter: str) -> Fits:
    def fits(step: Step) -> bool:
        voice, named = step.voices[0], step.voices[0].named or step.before
        return (
            len(named) == 1 and voice.fret != "x" and telling.names.gives(letter, named[0], int(voice.fret))
        )

    return fits


def _counted(telling: Telling, said: Instruction) -> list[Step]:
    """The notes called by how many they are: those of a technique, those on a string, or the last ones."""
    count, how, strings = said.whole("count") or 0, said.text("how"), telling.strings_of(said)
    recent = telling.steps[-MEMORY:]
    if how:
        ends = [at for at, step in enumerate(recent) if step.how == how]
        return recent[ends[-1] + 1 - count : ends[-1] + 1] if ends and ends[-1] + 1 >= count else []
    if strings:
        run = _on(recent, strings[0])[-count:]
        return run * count if len(run) == 1 else run
    return group(telling, said)


def _on(steps: Sequence[Step], strings: Strings) -> list[Step]:
    """The last run of notes on the string."""
    run: list[Step] = []
    for step in reversed(steps):
        if set(step.voices[0].named or step.before) == set(strings):
            run.insert(0, step)
        elif run:
            break
    return run
