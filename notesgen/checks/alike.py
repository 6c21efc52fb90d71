"""The same question about the same notes, asked once for a whole phrase."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec.structs import replace

from notesgen.lesson.model import Flag, Option


def asked_once(flags: Iterable[Flag], phrases: Mapping[str, str]) -> tuple[Flag, ...]:
    """The flags, those that say and offer the very same in one phrase made one, in the place of the first.

    `phrases` gives the phrase of each event. The answer then holds for all of the notes.
    """
    groups: dict[tuple[object, ...], list[Flag]] = {}
    for flag in flags:
        labels = tuple(option.label for option in flag.options)
        phrase = phrases.get(flag.events[0]) if flag.events else None
        groups.setdefault((flag.kind, flag.level, flag.message, labels, phrase), []).append(flag)
    return tuple(_one(group) for group in groups.values())


def _one(group: Sequence[Flag]) -> Flag:
    if len(group) == 1:
        return group[0]
    options = tuple(
        Option(same[0].label, tuple(change for option in same for change in option.change))
        for same in zip(*(flag.options for flag in group), strict=True)
    )
    events = tuple(dict.fromkeys(event for flag in group for event in flag.events))
    return replace(group[0], events=events, end=group[-1].end, options=options)
