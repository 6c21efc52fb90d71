"""Instructions to a lesson: the whole of the room in one function."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from notesgen.captions.transcript import Transcript
from notesgen.grammar.model import WordLists
from notesgen.lesson.evidence import Evidence, LikelyKey
from notesgen.lesson.model import Event, FactChange, Facts, Flag, Lesson, Number, Position, Source
from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import midi, pitch_class
from notesgen.music.scale import pitch_classes
from notesgen.music.tuning import string_names
from notesgen.settle.assign import Assigned, Ground, assign
from notesgen.settle.box import Box
from notesgen.settle.boxes import find_boxes
from notesgen.settle.costs import CLEAR
from notesgen.settle.doubts.asking import note_doubts
from notesgen.settle.doubts.left_out import maybe_played
from notesgen.settle.doubts.passages import Doubtful, strings_said
from notesgen.settle.doubts.references import moved_elsewhere, unwritten
from notesgen.settle.doubts.tellings import maybe_struck_again, misnamed, told_differently
from notesgen.settle.doubts.unread import unread_numbers
from notesgen.settle.doubts.wording import Wording
from notesgen.settle.doubts.words import open_loops, word_doubts
from notesgen.settle.events import Written, number_flags, write_events, write_phrases, write_repeats
from notesgen.settle.facts import Declared
from notesgen.settle.hearing.chord_called import strummed
from notesgen.settle.hearing.letter_rows import spread
from notesgen.settle.hearing.listen import listen
from notesgen.settle.ledger import ledger, once
from notesgen.settle.likely_key import FACT, likely_key
from notesgen.settle.named import by_name
from notesgen.settle.recaps.anew import played_again
from notesgen.settle.recaps.loops import loops_of_what_was_told
from notesgen.settle.recaps.sift import Sifted, sift_recaps
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step
from notesgen.settle.strings import StringNames
from notesgen.settle.talk import Talk
from notesgen.settle.tallies import Taught, counted, spelled
from notesgen.settle.told import Loop, Naming, Told
from notesgen.settle.trust.ask import Ask
from notesgen.settle.trust.gather import Known, gather
from notesgen.settle.trust.left_out import left_out
from notesgen.settle.trust.odds import fitted
from notesgen.settle.trust.reading import Reading
from notesgen.speech.chart import Edge
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Item

REMARK_BEFORE = 12  # items by which "this one's outside" may come before its note
REMARK_AFTER = 22  # ... and after it


class Settled(Struct, frozen=True):
    """A lesson without the checks' flags, and what the talk said that checks want to know.

    `heard` are all notes with their clues, also those that were left out as only spoken of. `steps` is the
    whole telling, `sifted` what of it is new and what is told again.
    """

    lesson: Lesson
    evidence: Evidence
    heard: tuple[Doubtful, ...] = ()
    steps: tuple[Step, ...] = ()
    sifted: Sifted = Sifted()


def settle(
    transcript: Transcript,
    items: tuple[Item, ...],
    instructions: tuple[Instruction, ...],
    numbers: list[Edge],
    words: WordLists,
    facts: Declared,
    title: str,
    ask: Ask,
) -> Settled:
    """Fills every hole that the words left and writes the lesson down.

    `numbers` holds every reading of every number in `items`.
    """
    talk = Talk(transcript, items)
    sentences, instructions = Sentences(items), strummed(spread(instructions, items))
    told = _heard(items, instructions, numbers, words, facts)
    boxes = find_boxes(told.steps, told.namings, told.boxes, len(facts.tuning))
    boxed = frozenset(place for box in boxes for place in box.places)
    ground = _ground(facts, boxes, told.steps)
    known = _sifted(told, items, words, boxed, ground)
    said = once(numbers)
    heard = _weighed(known, Reading(items, instructions, said, words), words, talk)
    played, left = _sorted_out(heard)
    assigned = tuple(note.one for note in played)
    written = write_events(assigned, tuple(known.places[note.index] for note in played), talk)
    events, phrases = write_phrases(written.events, assigned, told.sections, sentences, talk)
    loops = loops_of_what_was_told(told.loops, told.steps, dict(known.sifted.sources))
    notes = [replace(note, event=event) for note, event in zip(played, events, strict=True)]
    doubts = _doubts(notes, left, written, known, loops, talk, Wording(_string_names(facts)), ask)
    missing = unwritten(told.unwritten, events, talk)
    unread = unread_numbers(said, instructions, items, events, talk)
    events, flags = number_flags(events, (*doubts, *missing, *unread))
    likely = likely_key(events, phrases, ground.neck) if facts.key is None else None
    lesson = Lesson(
        source=Source(transcript.source, None, transcript.duration, transcript.language),
        facts=_facts(facts, boxes, told, talk, title, likely),
        phrases=phrases,
        repeats=write_repeats(loops, written),
        events=events,
        flags=flags,
        numbers=_numbers(said, instructions, told, boxed, known.sifted, left, written, talk),
    )
    evidence = _evidence(notes, told, written, instructions, sentences, talk, likely)
    return Settled(lesson, evidence, heard, told.steps, known.sifted)


def _weighed(known: Known, reading: Reading, words: WordLists, talk: Talk) -> tuple[Doubtful, ...]:
    """Each note heard, as an event, with what is known of it and how likely it is wrong."""
    events = write_events(known.assigned, known.places, talk).events
    clued = gather(known, reading, words)
    found = zip(events, known.assigned, clued, strings_said(known.assigned), strict=True)
    return tuple(
        Doubtful(index, event, one, clues, fitted().doubt(clues), said)
        for index, (event, one, clues, said) in enumerate(found)
    )


def _sorted_out(heard: Sequence[Doubtful]) -> tuple[list[Doubtful], list[Doubtful]]:
    """The notes that the draft takes as played, and those that it leaves out."""
    out = left_out([note.doubt for note in heard])
    played = [note for note in heard if note.index not in out]
    return played, [note for note in heard if note.index in out]


def _heard(
    items: tuple[Item, ...],
    instructions: tuple[Instruction, ...],
    numbers: list[Edge],
    words: WordLists,
    facts: Declared,
) -> Told:
    """The steps as told, holes and all."""
    names = StringNames(facts.written, facts.usual, facts.tuning)
    spoken = frozenset(items[at].text for edge in numbers for at in range(edge.start, edge.end))
    ordinals = frozenset(items[edge.end - 1].text for edge in numbers if edge.symbol == "ordinal")
    values = {
        items[edge.start].text: int(edge.value)
        for edge in numbers
        if edge.end - edge.start == 1 and isinstance(edge.value, int | float)
    }
    return listen(instructions, items, words, names, _dropped(facts.tuning), spoken, ordinals, values)


def _sifted(
    told: Told, items: tuple[Item, ...], words: WordLists, boxed: frozenset[int], ground: Ground
) -> Known:
    """The new steps told from the retold, and their strings.

    Strings are laid out twice: a retelling is known by strings, and what is retold moves no hand.
    """
    sentences, moving, namings = Sentences(items), _moving(items, words), _with_placed(told)
    first = assign(told.steps, namings, sentences, moving, ground)
    settled = _settled(first)
    sifted = sift_recaps(replace(told, steps=settled), items, words, boxed)
    kept = sifted.new
    stays = frozenset(kept)
    again = replace(told, steps=played_again(settled, sifted.models))
    steps = tuple(_as_kept(again, place, place - 1 in stays) for place in kept)
    placed = assign(steps, namings, sentences, moving, ground)
    return Known(by_name(placed, ground.neck), kept, sifted, ground)


def _with_placed(told: Told) -> tuple[Naming, ...]:
    """Strings named on their own, and those on which fingers were put down: they hold for the playing.

    Those only spoken of are among them, as asides.
    """
    placed = [told.steps[place] for place in sorted(told.held) if told.steps[place].voices[0].named]
    more = [
        Naming(step.start, step.end, tuple(voice.named for voice in step.voices), step.sentence)
        for step in placed
    ]
    return tuple(sorted((*told.namings, *told.spoken_of, *more), key=lambda naming: naming.at))


def _as_kept(told: Told, place: int, follows: bool) -> Step:
    """A step as it stands in the lesson; `follows` tells that the one told before it is there as well."""
    step = told.steps[place]
    return replace(step, outside=_is_outside(told, place), by=step.by if follows else None)


def _is_outside(told: Told, place: int) -> bool:
    """Whether the teacher announced the step as outside the key, shortly before or after it."""
    start = told.steps[place].start
    first = bisect_left(told.outside, start - REMARK_BEFORE)
    return first < len(told.outside) and told.outside[first] <= start + REMARK_AFTER


def _settled(first: tuple[Assigned, ...]) -> tuple[Step, ...]:
    """The steps with their strings where these are clear, so that a retelling elsewhere is none."""
    return tuple(replace(one.step, settled=one.strings if one.margin >= CLEAR else ()) for one in first)


def _moving(items: tuple[Item, ...], words: WordLists) -> frozenset[int]:
    """The items at which the talk moves on: "then", "next"."""
    return frozenset(at for at, item in enumerate(items) if item.text in words.moving_on)


def _dropped(tuning: tuple[str, ...]) -> int | None:
    """The lowest string, when it is tuned so that one finger makes a power chord."""
    if len(tuning) < 3:
        return None
    low, second, third = (midi(tuning[-1]), midi(tuning[-2]), midi(tuning[-3]))
    return len(tuning) if second - low == 7 and third - second == 5 else None


def _ground(facts: Declared, boxes: list[Box], steps: tuple[Step, ...]) -> Ground:
    key = pitch_classes(facts.key.tonic, facts.key.mode) if facts.key else None
    held_from = [steps[min(box.places)].start for box in boxes]
    rows = [{string: frozenset(frets) for string, frets in box.frets(steps).items()} for box in boxes]
    neck = Fretboard(facts.written, facts.capo)
    leading = (pitch_class(facts.key.tonic) - 1) % 12 if facts.key and facts.key.mode == "minor" else None
    return Ground(neck, key, tuple(zip(held_from, rows, strict=True)), leading)


def _string_names(facts: Declared) -> tuple[str, ...]:
    """The strings' usual names, string 1 first."""
    return string_names(facts.usual if len(facts.usual) == len(facts.tuning) else facts.tuning)


def _facts(
    facts: Declared, boxes: list[Box], told: Told, talk: Talk, title: str, likely: LikelyKey | None
) -> Facts:
    guess = (FactChange(0.0, FACT, likely.key, ""),) if likely else ()
    return Facts(
        title=title,
        instrument=facts.instrument,
        tuning=facts.tuning,
        capo=facts.capo,
        key=facts.key,
        tempo=facts.tempo,
        positions=tuple(_position(box, number, told, talk) for number, box in enumerate(boxes, start=1)),
        changes=(*guess, *facts.changes),
        origin={**facts.origin, "key": "inferred"} if likely else facts.origin,
    )


def _position(box: Box, number: int, told: Told, talk: Talk) -> Position:
    first, last = told.steps[min(box.places)], told.steps[max(box.places)]
    frets = [fret for row in box.frets(told.steps).values() for fret in row]
    label = f"Box {number}, frets {min(frets)} to {max(frets)}"
    return box.position(told.steps, talk.start(first.start), label, talk.quote(first.start, last.end))


def _doubts(
    notes: list[Doubtful],
    left: Sequence[Doubtful],
    written: Written,
    known: Known,
    loops: tuple[Loop, ...],
    talk: Talk,
    wording: Wording,
    ask: Ask,
) -> Iterator[Flag]:
    """Everything that the settling is unsure of: what the words themselves leave open, then the notes."""
    settled = [(note.event, note.one) for note in notes]
    by_place = dict(zip(written.places, (note.event for note in notes), strict=True))
    about_notes = (
        *misnamed(settled, known.ground.neck, wording),
        *told_differently(known.sifted, by_place, known.ground, talk, wording),
        *moved_elsewhere(settled, wording),
    )
    yield from about_notes
    yield from word_doubts(settled, wording)
    yield from maybe_struck_again(known.sifted, by_place, ask.chance, wording)
    yield from open_loops(loops, by_place)
    asked = {event for flag in about_notes for event in flag.events}
    rest = [note for note in notes if note.event.id not in asked]
    yield from note_doubts(rest, ask.chance, fitted().note, wording)
    yield from maybe_played(left, notes, ask.chance, talk, wording)


def _numbers(
    numbers: list[Edge],
    instructions: tuple[Instruction, ...],
    told: Told,
    boxed: frozenset[int],
    sifted: Sifted,
    left: Sequence[Doubtful],
    written: Written,
    talk: Talk,
) -> tuple[Number, ...]:
    event_at: dict[int, list[Event]] = {}
    for event, place in zip(written.events, written.places, strict=True):
        for at in _span(told.steps[place]):
            event_at.setdefault(at, []).append(event)
    special = {at: "not played" for note in left for at in _span(note.one.step) if at not in event_at}
    special |= {at: "scale box" for place in boxed for at in _span(told.steps[place])}
    special |= {at: "held" for place in told.held for at in _span(told.steps[place])}
    special |= {at: "not played" for place in told.preamble for at in _span(told.steps[place])}
    special |= {at: "recap" for index in sifted.retold for at in _span(told.steps[index])}
    special |= {at: "not played" for said in told.skipped for at in range(said.start, said.end)}
    return ledger(numbers, instructions, event_at, special, talk)


def _span(step: Step) -> range:
    return range(step.start, step.end)


def _evidence(
    notes: list[Doubtful],
    told: Told,
    written: Written,
    instructions: tuple[Instruction, ...],
    sentences: Sentences,
    talk: Talk,
    likely: LikelyKey | None,
) -> Evidence:
    events = tuple(note.event for note in notes)
    taught = Taught(events, tuple(told.steps[place] for place in written.places))
    return Evidence(
        outside=frozenset(note.event.id for note in notes if note.one.step.outside),
        sure=frozenset(
            note.event.id for note in notes if all(len(voice.named) == 1 for voice in note.one.step.voices)
        ),
        counted=counted(instructions, taught, sentences, talk),
        spelled=spelled(instructions, taught, talk),
        likely=likely,
        doubts=tuple(note.doubt for note in notes),
    )
