"""Decisions made on a draft: by an option of a query, or by the teacher's own hand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import repeat

from msgspec.structs import replace

from notesgen.decisions.answered import BY_THE_WAY
from notesgen.decisions.model import Added, Decision, Target
from notesgen.decisions.notation import parse_notes, short
from notesgen.decisions.places import DECIMALS, Utterance, key_of, print_of, utterances
from notesgen.decisions.rows import ITSELF, split_name
from notesgen.errors import InputError
from notesgen.lesson.model import Change, Event, Flag, Lesson, Mark, Stroke

OUT = "The notes of this question are not in the lesson any more; take back what took them out."
NO_NOTES = "These notes cannot be written: one note a string, frets from 0 to 999, bends in semitones."


class Maker:
    """Makes decisions on one draft. `base` is the draft without decisions: by its words and places, what was
    decided is found again. Ids may be those of the settled lesson, of events written by answers too."""

    def __init__(self, base: Lesson) -> None:
        self._events = {event.id: event for event in base.events}
        self._asked = {flag.id: flag.events for flag in base.flags}
        self._titles = {phrase.id: phrase.title for phrase in base.phrases}
        self._print = print_of(base)
        self._said: dict[tuple[float, str], Utterance] = {
            (one.at, one.words): one for one in utterances(base)
        }

    def answer(self, flag: Flag, option: int) -> Decision:
        """The decision for a flag's option, counted from 0. Raises InputError where its notes are gone."""
        chosen = flag.options[option]
        changes = {change.event: change for change in chosen.change}
        names = [one for one in dict.fromkeys([*self._about(flag), *changes]) if self._knows(one)]
        targets = tuple(self._changed(name, changes.get(name)) for name in names)
        taken_out = flag.decided == BY_THE_WAY and not flag.events and self._asked.get(flag.id)
        if not targets or taken_out:
            raise InputError(OUT)
        if flag.decided:
            targets = tuple(map(self._anew, names, targets, repeat(flag)))
        made = self._decision(chosen.label, targets)
        return replace(made, asked=flag.kind, at=round(flag.start, DECIMALS), words=flag.quote)

    def edit(self, event: Event, answer: str, marks: tuple[Mark, ...] | None = None) -> Decision:
        """An event as the teacher wants it: its notes, how it begins, bend and other fret of `event`.

        Raises InputError for notes that have no short form.
        """
        if parse_notes(short(event.notes)) is None:
            raise InputError(NO_NOTES)
        target = replace(
            self.target(event.id),
            notes=short(event.notes),
            how=event.how,
            bend=event.bend,
            to=event.to,
            marks=marks,
        )
        return self._decision(answer, (target,))

    def notes(self, event: Event, answer: str) -> Decision:
        """Only the notes of the event, strings and frets."""
        return self._decision(answer, (replace(self.target(event.id), notes=short(event.notes)),))

    def drop(self, names: Iterable[str], answer: str = "no note") -> Decision:
        """These events taken out."""
        return self._decision(answer, tuple(replace(self.target(name), drop=True) for name in names))

    def recap(self, names: Iterable[str], answer: str = "told over") -> Decision:
        """These events taken out as a recap, which adds no notes."""
        return replace(self._decision(answer, tuple(map(self.target, names))), recap=True)

    def insert(
        self, beside: str, before: Sequence[Added] = (), after: Sequence[Added] = (), answer: str = "added"
    ) -> Decision:
        """New events beside one."""
        target = replace(self.target(beside), before=tuple(before), after=tuple(after))
        return self._decision(answer, (target,))

    def rename(self, first: str, title: str) -> Decision:
        """Another title for the phrase that holds the event `first`."""
        return replace(self._decision(title, (self.target(first),)), rename=title)

    def split(self, first: str, title: str | None = None) -> Decision:
        """A phrase that begins at the event `first`."""
        made = self._decision(title or "a new phrase", (self.target(first),))
        return replace(made, split=True, rename=title)

    def join(self, first: str) -> Decision:
        """The phrase that holds `first` goes on from the one before it."""
        return replace(self._decision("one phrase", (self.target(first),)), join=True)

    def target(self, name: str) -> Target:
        """The event of that id as decisions know it. Raises KeyError for an id that the draft has not."""
        host, added = split_name(name)
        event = self._events[host if host in self._events else name]
        same = self._said[key_of(event)].events
        nth = [each.id for each in same].index(event.id) + 1
        return Target(
            at=key_of(event)[0],
            words=event.quote,
            was=short(event.notes),
            nth=nth,
            added=added if host in self._events else ITSELF,
        )

    def _about(self, flag: Flag) -> tuple[str, ...]:
        """The events of a question. One that was answered is about its former notes too, which that answer
        may have taken out: another answer takes its place."""
        own = flag.decided not in (None, BY_THE_WAY)
        return self._asked.get(flag.id, flag.events) if own else flag.events

    def _anew(self, name: str, target: Target, flag: Flag) -> Target:
        """The target as the last word: what another answer would change, and this one does not, is as drafted
        again, whatever was said in between."""
        event = self._events.get(name)
        if event is None or target.drop:
            return target
        others = [change for option in flag.options for change in option.change if change.event == name]
        if target.notes is None and any(change.notes is not None for change in others):
            target = replace(target, notes=short(event.notes))
        if target.how is None and any(change.how is not None for change in others):
            target = replace(target, how=event.how, bend=target.bend or event.bend, to=target.to or event.to)
        return target

    def _knows(self, name: str) -> bool:
        return name in self._events or split_name(name)[0] in self._events

    def _changed(self, name: str, change: Change | None) -> Target:
        target = self.target(name)
        if change is None:
            return target
        return replace(
            target,
            notes=None if change.notes is None else short(change.notes),
            how=change.how,
            bend=change.bend,
            to=change.to,
            drop=change.drop,
            times=change.times,
            before=_added(change.before),
            after=_added(change.after),
        )

    def _decision(self, answer: str, targets: tuple[Target, ...]) -> Decision:
        """The decision with the words around its targets and the phrase that they stand in."""
        first, last = targets[0], targets[-1]
        said = (self._said[first.at, first.words], self._said[last.at, last.words])
        return Decision(
            answer=answer,
            at=first.at,
            words=first.words,
            phrase=self._titles.get(said[0].events[0].phrase, ""),
            before=said[0].before,
            after=said[1].after,
            draft=self._print,
            targets=targets,
        )


def _added(strokes: Iterable[Stroke]) -> tuple[Added, ...]:
    return tuple(
        Added(notes=short(one.notes), how=one.how, bend=one.bend, to=one.to, marks=one.marks)
        for one in strokes
    )
