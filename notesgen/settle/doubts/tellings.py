"""Two tellings, or a fret and a note name, that do not agree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import takewhile

from notesgen.lesson.model import Change, Event, Flag, Note, Option
from notesgen.music.fretboard import Fretboard
from notesgen.settle.assign import Assigned, Ground
from notesgen.settle.doubts.fitting import fits_better
from notesgen.settle.doubts.wording import Wording, clock, flag
from notesgen.settle.named import disagrees, gives
from notesgen.settle.recaps.sift import Difference, Sifted
from notesgen.settle.talk import Talk

STRUCK_AGAIN = 0.17  # probability that a note named over is struck again: 1 of the 6 in the lessons at hand


def told_differently(
    sifted: Sifted, events: Mapping[int, Event], ground: Ground, talk: Talk, wording: Wording
) -> Iterator[Flag]:
    """A retelling that does not agree with the first telling. `events` maps a step's place to its event."""
    for difference in sifted.differences:
        if difference.step in events:
            around = [events[at] for at in (difference.step - 1, difference.step + 1) if at in events]
            yield _differs(events[difference.step], difference, around, ground, talk, wording)


def maybe_struck_again(
    sifted: Sifted, events: Mapping[int, Event], chance: float, wording: Wording
) -> Iterator[Flag]:
    """A note that is named over in full right behind: said over, or struck once more.

    Nothing is asked where that is less likely than `chance`.
    """
    for place in dict.fromkeys(sifted.echoed) if chance <= STRUCK_AGAIN else ():
        if place in events:
            event = events[place]
            yield flag(
                "reference-unsure",
                "query",
                [event],
                f"You name {wording.notes(event)} once more. It may be struck again, or only said over. "
                "The draft has it once.",
                (Option("once, and said over"), Option("struck again", (Change(event.id, times=2),))),
            )


def misnamed(settled: list[tuple[Event, Assigned]], neck: Fretboard, wording: Wording) -> Iterator[Flag]:
    """A note whose fret and string do not give the note that the teacher named in the same breath.

    Slurred notes that went with it to another string are part of the question.
    """
    for place, (event, one) in enumerate(settled):
        if one.slip and one.step.letter:
            after = takewhile(lambda pair: pair[1].slip and not pair[1].step.letter, settled[place + 1 :])
            yield _moved_by_name([(event, one), *after], wording)
        elif disagrees(one, settled[place - 1][1] if place else None, neck):
            yield _kept(event, one.step.letter, neck, wording)


def _differs(
    event: Event, difference: Difference, around: list[Event], ground: Ground, talk: Talk, wording: Wording
) -> Flag:
    note, when = event.notes[0], clock(talk.start(difference.start))
    retold = Note(note.string, difference.retold)
    better = fits_better(note, retold, around, ground)
    says = f" By the music {better[0]} fits better: {better[1]}." if better else ""
    return flag(
        "told-differently",
        "query",
        [event],
        f"The first telling has {wording.notes(event)}, the retelling at {when} has {difference.retold}. "
        f"The draft keeps the first.{says}",
        (
            Option(f"{note.fret}, as first told"),
            Option(f"{difference.retold}, as retold", (Change(event.id, notes=(retold, *event.notes[1:])),)),
        ),
        quote=f"{event.quote} / {talk.quote(difference.start, difference.end, around=2)}",
    )


def _moved_by_name(run: list[tuple[Event, Assigned]], wording: Wording) -> Flag:
    """The question between the note as named and the place as said."""
    events, letter = [event for event, _ in run], run[0][1].step.letter
    said = [Note(*one.slip) for _, one in run if one.slip]
    changes = tuple(Change(event.id, notes=(note,)) for event, note in zip(events, said, strict=True))
    told, named = wording.note(said[0]), wording.notes(events[0])
    return flag(
        "fret-unsure",
        "query",
        events,
        f"You call this note {letter}, but {told} is another. The draft follows the name and takes {named}.",
        (Option(f"{letter}: {named}"), Option(f"{told}, as said", changes)),
    )


def _kept(event: Event, letter: str, neck: Fretboard, wording: Wording) -> Flag:
    """The question where no place close by gives the note that was named."""
    note = event.notes[0]
    far = [fret for fret in range(neck.highest + 1) if gives(letter, note.string, fret, neck)]
    options = (
        Option(f"fret {fret}, the {letter}", (Change(event.id, notes=(Note(note.string, fret),)),))
        for fret in far
    )
    return flag(
        "fret-unsure",
        "query",
        [event],
        f"You call this note {letter}, but {wording.notes(event)} is another. The draft keeps the fret.",
        (Option(f"fret {note.fret}"), *options),
    )
