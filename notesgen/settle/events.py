"""Assigned steps to the lesson's events, phrases, repeats and flags."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import Event, Flag, Note, Phrase, Repeat
from notesgen.settle.assign import Assigned
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Voice
from notesgen.settle.talk import Talk
from notesgen.settle.told import Heading, Loop

PLAYED = 5.0  # seconds without talk between two notes that separate phrases


class Written(Struct, frozen=True):
    """Events with the step (place in the telling) that each came from."""

    events: tuple[Event, ...]
    places: tuple[int, ...]


def write_events(assigned: tuple[Assigned, ...], places: tuple[int, ...], talk: Talk) -> Written:
    """One event a step, without phrases or flags yet."""
    events = tuple(_event(f"e{n}", one, talk) for n, one in enumerate(assigned, start=1))
    return Written(events, places)


def _event(name: str, one: Assigned, talk: Talk) -> Event:
    step = one.step
    return Event(
        id=name,
        start=talk.start(step.start),
        end=talk.end(step.end),
        phrase="",
        notes=tuple(_note(voice, string) for voice, string in zip(step.voices, one.strings, strict=True)),
        how=step.how,
        bend=step.bend if step.how in ("bend", "pre-bend", "release") else None,
        to=step.to,
        marks=step.marks,
        origin="derived" if step.origin == "derived" else "said",
        quote=talk.quote(step.start, step.end),
    )


def _note(voice: Voice, string: int) -> Note:
    return Note(string, voice.fret, voice.how, voice.bend)


def write_phrases(
    events: tuple[Event, ...],
    assigned: tuple[Assigned, ...],
    headings: tuple[Heading, ...],
    sentences: Sentences,
    talk: Talk,
) -> tuple[tuple[Event, ...], tuple[Phrase, ...]]:
    """Events with their phrase, and the phrases: a heading or playing without talk begins a new one."""
    groups: list[list[int]] = []
    for at, one in enumerate(assigned):
        if at == 0 or _begins(assigned[at - 1], one, sentences, talk):
            groups.append([])
        groups[-1].append(at)
    phrased = list(events)
    for number, group in enumerate(groups, start=1):
        for at in group:
            phrased[at] = replace(phrased[at], phrase=f"p{number}")
    starts = [events[group[0]].start for group in groups] + [float("inf")]
    phrases = []
    titled: set[int] = set()
    for number, group in enumerate(groups, start=1):
        section = assigned[group[0]].step.section
        title = _title(number, headings[section - 1] if section not in titled else None, talk)
        titled.add(section)
        phrases.append(_phrase(f"p{number}", title, [phrased[at] for at in group], starts[number], talk))
    return tuple(phrased), tuple(phrases)


def _begins(before: Assigned, one: Assigned, sentences: Sentences, talk: Talk) -> bool:
    """Whether a phrase begins here: after a heading, or after the teacher played for a while."""
    if one.step.section != before.step.section:
        return True
    if sentences.stretch(before.step.start) == sentences.stretch(one.step.start):
        return False
    start, end = talk.end(before.step.end), talk.start(one.step.start)
    return any(start <= gap[0] and gap[1] <= end and gap[1] - gap[0] >= PLAYED for gap in talk.demos)


def _title(number: int, heading: Heading | None, talk: Talk) -> str:
    """The heading in the teacher's words; a number where there was none."""
    if heading is None or heading.end == heading.start:
        return f"Phrase {number}"
    words = talk.quote(heading.start, heading.end).strip(" .,;:!?")
    return words[:1].upper() + words[1:]


def _phrase(name: str, title: str, events: list[Event], until: float, talk: Talk) -> Phrase:
    """A phrase; its demonstrations are the stretches without talk from its start to the next phrase's."""
    start, end = events[0].start, events[-1].end
    demos = tuple(gap for gap in talk.demos if start <= gap[0] and gap[1] <= until)
    return Phrase(name, title, start, end, tuple(event.id for event in events), demos)


def write_repeats(loops: tuple[Loop, ...], written: Written) -> tuple[Repeat, ...]:
    """Loops as the lesson's repeats; a loop whose notes are all gone is left out."""
    repeats = []
    for loop in loops:
        inside = [
            e.id for e, p in zip(written.events, written.places, strict=True) if loop.first <= p <= loop.last
        ]
        if inside:
            repeats.append(Repeat(inside[0], inside[-1], loop.times))
    return tuple(repeats)


def number_flags(
    events: tuple[Event, ...], flags: tuple[Flag, ...]
) -> tuple[tuple[Event, ...], tuple[Flag, ...]]:
    """Flags in the order of the lesson with ids, and the events that point at them."""
    numbered = tuple(
        replace(flag, id=f"f{n}")
        for n, flag in enumerate(sorted(flags, key=lambda f: (f.start, f.level, f.kind, f.events)), start=1)
    )
    return point_at_flags(events, numbered), numbered


def point_at_flags(events: Iterable[Event], flags: Iterable[Flag]) -> tuple[Event, ...]:
    """The events, each with the ids of the flags that name it."""
    by_event: dict[str, list[str]] = {}
    for flag in flags:
        for event in flag.events:
            by_event.setdefault(event, []).append(flag.id)
    return tuple(replace(event, flags=tuple(by_event.get(event.id, ()))) for event in events)
