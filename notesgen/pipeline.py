"""The stages in order: captions, items, instructions, draft, decisions. Each can be had by itself."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import PurePath

from msgspec import Struct

from notesgen.captions.source import load_captions
from notesgen.captions.transcript import Transcript
from notesgen.decisions.model import Decision
from notesgen.decisions.settled import settled
from notesgen.errors import InputError
from notesgen.lesson.model import Key, Lesson
from notesgen.music.key import parse_key
from notesgen.music.tuning import parse_tuning, standard
from notesgen.settle.facts import HIGHEST_CAPO, declared
from notesgen.settle.settle import Settled, settle
from notesgen.settle.talk import Talk
from notesgen.settle.trust.ask import Ask
from notesgen.speech.chart import Chart
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Item, items
from notesgen.speech.numbers import number_edges
from notesgen.speech.reading import reader


class Given(Struct, frozen=True):
    """What the user says where the captions do not. Texts as typed: "B minor", "drop D", "bass"."""

    key: str | None = None
    tuning: str | None = None
    capo: int | None = None
    instrument: str | None = None
    title: str | None = None
    ask: Ask = Ask.NORMAL


class Rooms(Struct, frozen=True):
    """One transcript, room by room. `drafted` is what the words alone gave; `unplaced` are decisions of the
    teacher that fit nothing in it."""

    transcript: Transcript
    items: tuple[Item, ...]
    chart: Chart
    instructions: tuple[Instruction, ...]
    drafted: Settled
    lesson: Lesson
    unplaced: tuple[Decision, ...] = ()


def draft_file(path: str, given: Given | None = None, language: str = "en") -> Lesson:
    """Captions file (or "-") to lesson. Raises InputError when the file cannot be used."""
    return draft(load_captions(path), given, language)


def draft(
    transcript: Transcript,
    given: Given | None = None,
    language: str = "en",
    decisions: Sequence[Decision] = (),
) -> Lesson:
    """One transcript to a flagged lesson, with the teacher's decisions made."""
    return rooms(transcript, given, language, decisions).lesson


def rooms(
    transcript: Transcript,
    given: Given | None = None,
    language: str = "en",
    decisions: Sequence[Decision] = (),
) -> Rooms:
    """One transcript through every room, each room's result kept."""
    given = given or Given()
    reads = reader(language)
    words = items(transcript, reads.grammar.words)
    chart = reads.chart(words)
    instructions = reads.read_chart(chart)
    talk = Talk(transcript, words)
    facts = declared(
        instructions,
        words,
        {said.start: talk.quote(said.start, said.end) for said in instructions},
        reads.grammar.words,
        key=_key(given.key),
        tuning=_tuning(given),
        capo=_capo(given.capo),
        instrument=_instrument(given.instrument),
    )
    title = given.title or PurePath(transcript.source).stem
    drafted = settle(
        transcript,
        words,
        instructions,
        list(number_edges(words)),
        reads.grammar.words,
        facts,
        title,
        given.ask,
    )
    applied = settled(drafted, decisions)
    return Rooms(transcript, words, chart, instructions, drafted, applied.lesson, applied.unplaced)


def _key(text: str | None) -> Key | None:
    if text is None:
        return None
    found = parse_key(text)
    if found is None:
        raise InputError(f'"{text}" is no key: give one such as "B minor", "Bb major" or "A blues"')
    return Key(*found)


def _capo(fret: int | None) -> int | None:
    if fret is not None and not 0 <= fret <= HIGHEST_CAPO:
        raise InputError(f"A capo at fret {fret} cannot be: give a fret from 0 (no capo) to {HIGHEST_CAPO}")
    return fret


def _tuning(given: Given) -> tuple[str, ...] | None:
    if given.tuning is None:
        return None
    try:
        return parse_tuning(given.tuning, given.instrument or "guitar")
    except ValueError as error:
        raise InputError(str(error)) from error


def _instrument(name: str | None) -> str | None:
    if name is not None:
        try:
            standard(name)
        except ValueError as error:
            raise InputError(str(error)) from error
    return name
