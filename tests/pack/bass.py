"""A short lesson on a five-string bass, no tempo said, its rhythm partly known from a recording."""

from __future__ import annotations

from notesgen.lesson.model import Event, Facts, Fret, How, Lesson, Mark, Note, Phrase, Played, Repeat, Source


def _event(
    number: int,
    string: int,
    fret: Fret,
    beat: float | None = None,
    how: How = "pick",
    marks: tuple[Mark, ...] = (),
) -> Event:
    start = 30.0 + number
    played = None if beat is None else Played(start, start + 0.5, beat=beat)
    note = Note(string, fret)
    return Event(f"e{number}", start, start + 0.5, "", (note,), how=how, marks=marks, played=played)


GROOVE = (
    _event(1, 4, 0, beat=0.5),
    _event(2, 4, "x", beat=1.25),
    _event(3, 4, 3, beat=1.5, how="hammer-on"),
    _event(4, 3, 5, beat=2.0, marks=("staccato",)),
    _event(5, 3, 7, beat=3.5, how="slide"),
)
ENDING = (
    _event(6, 5, 3),
    _event(7, 5, 5, how="hammer-on"),
    _event(8, 1, 12, how="harmonic", marks=("let-ring",)),
    _event(9, 2, 7, how="harmonic", marks=("let-ring",)),
    _event(10, 5, 0),
)

LESSON = Lesson(
    source=Source("lower.vtt", duration=60.0),
    facts=Facts("Below the pier", "5-string bass", ("G2", "D2", "A1", "E1", "B0")),
    phrases=(
        Phrase("p1", "The groove", 30.0, 36.0, tuple(event.id for event in GROOVE)),
        Phrase("p2", "", 36.0, 42.0, tuple(event.id for event in ENDING)),
    ),
    repeats=(Repeat("e1", "e5", 2),),
    events=GROOVE + ENDING,
)
