"""What the teacher sums up: how many notes it is ("that's five notes"), and what they are called."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator

from msgspec import Struct

from notesgen.lesson.evidence import Counted, Spelled
from notesgen.lesson.model import LEGATO, Event
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step
from notesgen.settle.talk import Talk
from notesgen.speech.instructions import Instruction

COUNT = "note_count"  # the slot of words that count notes
NAMES = "note"  # the slot of names read out in a row
NEAR = 12  # items between a count, or names, and the notes that they sum up
LONGEST = 12  # notes of a run that is counted, or named, at a time


class Taught(Struct, frozen=True):
    """The events, each with the step that it came from, in order."""

    events: tuple[Event, ...]
    steps: tuple[Step, ...]

    def before(self, item: int) -> int:
        """How many of them were told before an item."""
        return bisect_left(self.steps, item, key=lambda step: step.start)


def counted(
    instructions: tuple[Instruction, ...], taught: Taught, sentences: Sentences, talk: Talk
) -> tuple[Counted, ...]:
    """Every count of notes in the talk, with the runs that it may be of."""
    found = []
    for said in instructions:
        count = (
            said.whole(COUNT) if said.kind == "aside" else said.whole("count") if _is_of_slur(said) else None
        )
        runs = tuple(_runs(said, taught, sentences)) if count is not None else ()
        if count is not None and runs:
            quote = talk.quote(said.start, said.end).strip(" .,;:")
            found.append(Counted(count, talk.start(said.start), quote, runs))
    return tuple(found)


def spelled(instructions: tuple[Instruction, ...], taught: Taught, talk: Talk) -> tuple[Spelled, ...]:
    """Every row of note names behind notes, with the notes before it."""
    found = []
    for said in instructions:
        letters, place = _read_out(said), taught.before(said.start)
        if taught.before(said.end) > place:
            continue  # notes told by their letters
        if len(letters) > 1 and place and said.start - taught.steps[place - 1].end <= NEAR:
            before = taught.events[max(0, place - len(letters) - LONGEST) : place]
            quote = talk.quote(said.start, said.end).strip(" .,;:")
            ids = tuple(event.id for event in before)
            found.append(Spelled(letters, ids, talk.start(said.start), quote))
    return tuple(found)


def _read_out(said: Instruction) -> tuple[str, ...]:
    """The names that the words read out; where notes may be told so, words lead to them: "it is D, C, B"."""
    name = {"aside": NAMES, "letter": "letter"}.get(said.kind)
    slots = [slot for slot in said.slots if slot.name == name]
    led = said.kind == "aside" or any(slot.start > said.start for slot in slots[:1])
    return tuple(str(slot.value) for slot in slots) if led else ()


def _is_of_slur(said: Instruction) -> bool:
    """Whether the words count the notes of one stroke: "one pick, three notes"."""
    return said.kind == "how" and said.text("how") == "legato"


def _runs(said: Instruction, taught: Taught, sentences: Sentences) -> Iterator[tuple[str, ...]]:
    """The runs that a count may be of, the likeliest first: event ids.

    A count in front of the notes of its sentence announces them, any other sums up. A run may begin, or end,
    with a sentence or a string; that of one stroke begins with the stroke.
    """
    place, sentence = taught.before(said.start), sentences.of(said.start)
    behind = list(_behind(said, place, taught))
    ahead = list(_ahead(said, place, taught))
    told_before = place > 0 and taught.steps[place - 1].sentence == sentence
    told_behind = place < len(taught.steps) and taught.steps[place].sentence == sentence
    runs = ahead + behind if told_behind and not told_before and not _is_of_slur(said) else behind + ahead
    yield from (tuple(event.id for event in run) for run in runs)


def _behind(said: Instruction, place: int, taught: Taught) -> Iterator[tuple[Event, ...]]:
    if not place or said.start - taught.steps[place - 1].end > NEAR:
        return
    at_slur = _is_of_slur(said)
    likely = _is_stroke if at_slur else _is_sentence
    starts = [
        at
        for at in range(place - 1, max(0, place - LONGEST) - 1, -1)
        if _is_seam(taught, at) or likely(taught, at)
    ]
    starts.sort(key=lambda at: not likely(taught, at))
    phrase = taught.events[place - 1].phrase
    yield from (taught.events[at:place] for at in starts if taught.events[at].phrase == phrase)


def _ahead(said: Instruction, place: int, taught: Taught) -> Iterator[tuple[Event, ...]]:
    if place >= len(taught.steps) or taught.steps[place].start - said.end > NEAR:
        return
    last = min(len(taught.steps), place + LONGEST)
    ends = [at for at in range(place + 1, last + 1) if at == len(taught.steps) or _is_seam(taught, at)]
    ends.sort(key=lambda at: at < len(taught.steps) and not _is_sentence(taught, at))
    yield from (taught.events[place:at] for at in ends)


def _is_seam(taught: Taught, at: int) -> bool:
    """Whether a run may begin with the note: it opens a sentence, or lies on another string."""
    return _is_sentence(taught, at) or _is_string(taught, at)


def _is_sentence(taught: Taught, at: int) -> bool:
    """Whether a sentence begins with the note."""
    return at == 0 or taught.steps[at].sentence != taught.steps[at - 1].sentence


def _is_stroke(taught: Taught, at: int) -> bool:
    """Whether the note is picked."""
    return taught.events[at].how not in LEGATO


def _is_string(taught: Taught, at: int) -> bool:
    """Whether the note lies on another string than the one before."""
    strings = [{note.string for note in taught.events[place].notes} for place in (at - 1, at)]
    return strings[0] != strings[1]
