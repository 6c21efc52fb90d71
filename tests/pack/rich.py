"""A lesson made by hand that holds every technique, mark and kind of flag that a renderer has to show."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import (
    Change,
    Event,
    FactChange,
    Facts,
    Flag,
    Fret,
    How,
    Key,
    Lesson,
    Mark,
    Note,
    Option,
    Phrase,
    Position,
    Repeat,
    Source,
)


def _event(
    number: int,
    *places: tuple[int, Fret],
    how: How = "pick",
    bend: float | None = None,
    to: int | None = None,
    marks: tuple[Mark, ...] = (),
    notes: tuple[Note, ...] = (),
) -> Event:
    """Event e<number>, one second after the one before. `places` are (string, fret)."""
    made = notes or tuple(Note(string, fret) for string, fret in places)
    start = 60.0 + number
    return Event(f"e{number}", start, start + 1, "", made, how=how, bend=bend, to=to, marks=marks)


OPENING = (
    _event(1, (5, 5)),
    _event(2, (5, 7), how="hammer-on"),
    _event(3, (5, 8), how="hammer-on"),
    _event(4, (5, 7), how="pull-off"),
    _event(5, (5, 5), how="pull-off"),
    _event(6, (4, 10), marks=("slide-in",)),
    _event(7, (4, 12), how="slide"),
    _event(8, (4, 7), how="slide", marks=("vibrato",)),
    _event(9, (3, "x"), marks=("rake",)),
    _event(10, (2, "x"), marks=("rake",)),
    _event(11, (1, 10), marks=("accent", "vibrato", "slide-out")),
)
BENDS = (
    _event(20, (2, 8)),
    _event(21, (2, 10), how="bend", bend=2.0),
    _event(22, (2, 10), how="release"),
    _event(23, (2, 8), how="pull-off"),
    _event(24, (1, 8), how="bend", bend=0.5),
    _event(25, (1, 10), how="pre-bend", bend=2.0),
    _event(26, (1, 10), how="release"),
    _event(27, notes=(Note(2, 10), Note(3, 12, how="bend", bend=2.0)), marks=("vibrato",)),
    _event(28, (3, 12), how="bend", bend=3.0, marks=("let-ring",)),
    _event(29, (2, 10), marks=("let-ring",)),
    _event(30, (1, 10), marks=("let-ring",)),
    _event(31, (3, 12), how="release"),
    _event(32, (3, 9), how="trill", to=11),
    _event(33, (3, 9), how="bend"),
)
RIFF = (
    _event(40, (6, 0), marks=("palm-mute",)),
    _event(41, (6, 0), marks=("palm-mute",)),
    _event(42, (6, 0), marks=("palm-mute", "accent")),
    _event(43, (6, 3), (5, 3), (4, 3)),
    _event(44, (6, 5), (5, 5), (4, 5), how="slide", marks=("staccato",)),
    _event(45, (6, 0), marks=("palm-mute",)),
    _event(46, (6, 10), (5, 10), (4, 10)),
    _event(47, (1, 17), how="tap"),
    _event(48, (1, 12), how="pull-off"),
    _event(49, (1, 10), how="pull-off"),
    _event(50, (1, 17), how="tap"),
    _event(51, (1, 13), how="pull-off"),
    _event(52, (1, 10), how="pull-off"),
    _event(53, (3, 9), (1, 8)),
    _event(54, (3, 11), (1, 10), how="slide"),
    _event(55, (3, 9), (1, 8), how="slide"),
    _event(56, (4, 12), (3, 12), (2, 12), how="harmonic", marks=("let-ring",)),
)

FACTS = Facts(
    title="Lamp-lit harbour: every sign in *one* lesson <in D>",
    instrument="guitar",
    tuning=("E4", "B3", "G3", "D3", "A2", "D2"),
    capo=2,
    key=Key("D", "minor"),
    tempo=96.0,
    positions=(
        Position(
            "the box at 5",
            42.0,
            {"6": (5, 7, 8), "5": (5, 7, 8), "4": (5, 7)},
            "five seven eight on the low D",
        ),
    ),
    changes=(FactChange(110.0, "key", Key("F", "major"), "and now we are in F major"),),
    origin={"tuning": "said", "capo": "said", "key": "said", "tempo": "inferred"},
)
FLAGS = (
    Flag(
        "f0",
        "scale-slip",
        "query",
        42.0,
        44.0,
        (),
        "five seven eight on the low D",
        "The box at 5 was read twice, with an 8 and without.",
        (Option("keep the 8"), Option("take the 8 out")),
    ),
    Flag(
        "f1",
        "string-unsaid",
        "query",
        66.0,
        68.0,
        ("e6", "e7", "e8"),
        "slide into 10 and on to 12",
        "No string was named for the 10. The draft stays on the D string, the nearest to the 5 before it; on"
        " the G string it would be outside D minor.",
        (
            Option("10, 12 and 7 on the D string"),
            Option("10, 12 and 7 on the G string", (Change("e6", (Note(3, 10),)),)),
            Option("10, 12 and 7 on the A string"),
        ),
    ),
    Flag(
        "f2", "corrected", "note", 71.0, 72.0, ("e11",), "12, no, 10", "First said as 12, then put right: 10."
    ),
    Flag(
        "f3",
        "amount-unsure",
        "query",
        84.0,
        85.0,
        ("e24",),
        "a little curl on the 8",
        "How far the 8 is bent was left open; the draft has a quarter tone.",
        (Option("a quarter tone"), Option("a half step", (Change("e24", bend=1.0),))),
    ),
    Flag(
        "f4",
        "not-understood",
        "query",
        88.0,
        89.0,
        (),
        "and the thing with the ten",
        "“The thing with the ten” was not understood.",
    ),
    Flag(
        "f5",
        "count-unsure",
        "query",
        100.0,
        102.0,
        ("e40", "e41", "e42"),
        "hit it three or four times",
        "Three or four times; the draft has three.",
        (Option("three"), Option("four")),
    ),
    Flag("f6", "technique-unsure", "query", 101.0, 102.0, ("e41",), "", "Answered before.", (), "keep"),
    Flag(
        "f7",
        "outside-key",
        "query",
        108.0,
        109.0,
        ("e48", "e49", "e50"),
        "",
        "The 12 is outside F major.",
        (Option("keep 12"), Option("13")),
    ),
)

LESSON = Lesson(
    source=Source("harbour.vtt", duration=421.0),
    facts=FACTS,
    phrases=(
        Phrase(
            "p1", "Phrase one: up the A string", 58.0, 75.0, tuple(e.id for e in OPENING), ((75.0, 79.0),)
        ),
        Phrase("p2", "1. Bends #all kinds", 79.0, 98.0, tuple(e.id for e in BENDS)),
        Phrase("p3", "Riff", 99.0, 120.0, tuple(e.id for e in RIFF), ((120.0, 131.5), (140.0, 151.0))),
    ),
    repeats=(Repeat("e40", "e46", 4), Repeat("e47", "e52", 2)),
    events=OPENING + BENDS + RIFF,
    flags=FLAGS,
)

SETTLED = replace(LESSON, flags=tuple(replace(flag, decided="keep") for flag in FLAGS))
"""The same with every query answered, as a student's edition wants it."""
