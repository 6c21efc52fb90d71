"""What a lesson declares, from its words and from what is given."""

from __future__ import annotations

import pytest

from notesgen.errors import InputError
from notesgen.lesson.model import Facts
from notesgen.music.tuning import parse_tuning, standard
from notesgen.pipeline import Given
from notesgen.rehearsal.run import hear

NOTES = "7 on the G. " * 20  # the middle of a lesson


def facts(text: str, given: Given | None = None) -> Facts:
    return hear(text, given).lesson.facts


TUNINGS = [
    ("drop D", "We're in drop D.", "drop D"),
    ("by a string", "Tune the low E down to D.", "drop D"),
    ("all strings lower", "Everything's down a half step.", "half step down"),
    ("by its letters", "Low to high, D, A, D, G, B, E.", "drop D"),
    ("an open tuning", "It's tuned to open G.", "open G"),
    ("DADGAD", "The guitar's in DADGAD.", "DADGAD"),
    ("negated", "We're not in drop D.", None),
    ("negated, after the real one", "We're in drop D, not standard.", "drop D"),
    ("standard first, then another", "Standard tuning. 7 on the G. This one's in drop D.", "drop D"),
    ("said to be standard", "This is in standard tuning.", "standard"),
    ("nothing said", "7 on the G.", None),
]


@pytest.mark.parametrize(("why", "text", "tuning"), TUNINGS)
def test_tuning(why: str, text: str, tuning: str | None) -> None:
    found = facts(text)
    assert found.tuning == parse_tuning(tuning or "standard"), why
    assert found.origin["tuning"] == ("said" if tuning else "assumed")


@pytest.mark.parametrize(
    ("text", "lowered"), [("Everything's down a half step.", True), ("We're in drop D.", False)]
)
def test_strings_lowered_alike_keep_their_names(text: str, lowered: bool) -> None:
    assert any(change.fact == "naming" for change in facts(text).changes) == lowered


@pytest.mark.parametrize(
    ("text", "capo", "origin"),
    [
        ("The capo's on the second fret.", 2, "said"),
        ("Capo 3.", 3, "said"),
        ("No capo.", 0, "said"),
        ("Capo 99.", 0, "assumed"),
        ("7 on the G.", 0, "assumed"),
    ],
)
def test_capo(text: str, capo: int, origin: str) -> None:
    found = facts(text)
    assert (found.capo, found.origin["capo"]) == (capo, origin)


KEYS = [
    ("a mode", "It's in B minor.", "B minor"),
    ("no mode is major", "The key of G.", "G major"),
    ("flats", "We're in B flat major.", "Bb major"),
    ("sharps", "We're in F sharp minor.", "F# minor"),
    ("a scale", "In E minor pentatonic.", "E minor pentatonic"),
    ("one with a mode counts before a bare letter", f"It's in A. In B minor. {NOTES}", "B minor"),
    ("the first counts", f"It's in A minor. {NOTES} Now it's in C major.", "A minor"),
    ("nothing said", "7 on the G.", None),
]


@pytest.mark.parametrize(("why", "text", "key"), KEYS)
def test_key(why: str, text: str, key: str | None) -> None:
    found = facts(text)
    assert (None if found.key is None else str(found.key)) == key, why
    assert found.origin["key"] == ("said" if key else "assumed")


@pytest.mark.parametrize("first", ["It's in A minor.", "We're in A."])
def test_a_late_key_is_a_change(first: str) -> None:
    found = facts(f"{first} {NOTES} Now it's in C major. {NOTES}")
    (change,) = found.changes
    assert found.key is not None and found.key.tonic == "A"
    assert (change.fact, str(change.value)) == ("key", "C major")
    assert change.quote == "it's in C major."
    assert change.start > 10


INSTRUMENTS = [
    ("at the start", f"Today on the bass. {NOTES}", "bass"),
    ("in passing, late", f"{NOTES} That sounds good on the bass.", "guitar"),
    ("often", f"{NOTES} Now on the bass. 5 on the A. So on the bass. And now on the bass.", "bass"),
    ("ukulele", f"I'm on the ukulele. {NOTES}", "ukulele"),
    ("seven strings", f"This is a seven-string guitar. {NOTES}", "7-string guitar"),
    ("in passing, of strings that it lacks", "I also play bass sometimes. 5 on the B. 7 on the G.", "guitar"),
    ("nothing said", NOTES, "guitar"),
]


@pytest.mark.parametrize(("why", "text", "instrument"), INSTRUMENTS)
def test_instrument(why: str, text: str, instrument: str) -> None:
    found = facts(text)
    assert (found.instrument, found.tuning) == (instrument, standard(instrument)), why


@pytest.mark.parametrize(
    ("text", "tempo"), [("Take it at 92 beats per minute.", 92.0), ("7 on the G.", None)]
)
def test_tempo(text: str, tempo: float | None) -> None:
    assert facts(text).tempo == tempo


def test_what_is_given_counts_before_what_is_said() -> None:
    said = "We're in drop D, in B minor, capo 2. On the bass, 7 on the G."
    found = facts(said, Given(key="A blues", tuning="DADGAD", capo=5, instrument="guitar", title="Mine"))
    assert (str(found.key), found.capo, found.instrument, found.title) == ("A blues", 5, "guitar", "Mine")
    assert found.tuning == parse_tuning("DADGAD")
    assert set(found.origin.values()) == {"given"}


@pytest.mark.parametrize(
    "given", [Given(key="H"), Given(tuning="drop nothing"), Given(instrument="kazoo"), Given(tuning="DADG")]
)
def test_what_is_given_must_be_known(given: Given) -> None:
    with pytest.raises(InputError):
        facts("7 on the G.", given)


DENIED = [
    ("a scale that is not meant", f"It's in B minor, no harmonic minor business. {NOTES}", "B minor"),
    ("a key that is not meant", f"It's in A, and I don't mean the plain A major. {NOTES}", "A major"),
    ("we are not in it", f"We're not in E minor. It's in E dorian. {NOTES}", "E dorian"),
    ("of a note, it names the key", f"That F sharp is not in C major. {NOTES}", "C major"),
    (
        "the mode, by its name",
        f"It's in A, but with the flat seven in it, they call it mixolydian. {NOTES}",
        "A mixolydian",
    ),
    ("the lowered seventh alone", f"It's in A, with the flat seven in it. {NOTES}", "A mixolydian"),
    (
        "of a note, and what is said of it",
        f"In A minor. {NOTES} That one's not in A minor, but it's harmonic minor. {NOTES}",
        "A minor",
    ),
    ("a mode with the other third is none", f"It's in A minor. That's lydian. {NOTES}", "A minor"),
]


@pytest.mark.parametrize(("why", "text", "key"), DENIED)
def test_what_is_denied_is_not_the_key(why: str, text: str, key: str) -> None:
    found = facts(text)
    assert (str(found.key), found.changes) == (key, ()), why


CHANGES = [
    ("said to be the key", f"In A minor. {NOTES} Now we're in C major. {NOTES}", ["C major"]),
    (
        "and back again",
        f"In A minor. {NOTES} Now we're in C major. {NOTES} Back in A minor. {NOTES}",
        ["C major", "A minor"],
    ),
    ("a chord on the way", f"In A minor. {NOTES} The first shape, C major. {NOTES}", []),
    ("the next lesson", f"In A minor. {NOTES} Next week, one in C major.", []),
    ("the same key again", f"In A minor. {NOTES} We're still in A minor. {NOTES}", []),
]


@pytest.mark.parametrize(("why", "text", "keys"), CHANGES)
def test_changes_of_key(why: str, text: str, keys: list[str]) -> None:
    assert [str(change.value) for change in facts(text).changes if change.fact == "key"] == keys, why


def test_an_open_tuning_that_the_guitar_is_in() -> None:
    assert facts("It's in open G. 7 on the B.").tuning == parse_tuning("open G")
    assert facts("Then it's the open G.").tuning == standard("guitar")


SCALE = (
    "3, 5 on the A. 2, 3, 5 on the D. 2, 4, 5 on the G. 5, 4, 2 on the G. 5, 3, 2 on the D. 5, 3 on the A."
)


def test_a_key_that_nobody_named_is_worked_out_and_marked_so() -> None:
    found = facts(SCALE)
    assert found.key is None, "never declared"
    assert found.origin["key"] == "inferred"
    assert [(change.fact, str(change.value)) for change in found.changes] == [("likely key", "C major")]


def test_what_was_said_or_given_is_never_overruled() -> None:
    for found in (facts(f"It's in E major. {SCALE}"), facts(SCALE, Given(key="E major"))):
        assert (str(found.key), found.changes) == ("E major", ())


def test_too_few_notes_tell_no_key() -> None:
    assert facts("3, 5 on the A.").origin["key"] == "assumed"
