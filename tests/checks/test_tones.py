from __future__ import annotations

import pytest

from notesgen.checks.tones import tones
from notesgen.checks.wording import listed, place_name, string_name
from notesgen.lesson.model import Note
from tests.checks.notation import read_case


@pytest.mark.parametrize(
    ("key", "pitch", "letter"),
    [
        ("F major", 58, "Bb"),
        ("D minor", 58, "Bb"),
        ("B minor", 58, "A#"),
        ("F# minor", 61, "C#"),
        ("G dorian", 58, "Bb"),
        ("Ab major", 61, "Db"),
        ("A minor", 60, "C"),
        ("A blues", 63, "Eb"),
        ("A minor", 68, "G#"),
        ("D minor", 61, "C#"),
        ("Ab minor", 66, "Gb"),
        ("A# minor", 61, "C#"),
    ],
)
def test_spelling(key: str, pitch: int, letter: str) -> None:
    scale = tones(read_case({"events": "", "key": key}).lesson, 0.0)
    assert scale is not None
    assert scale.spell(pitch) == letter


@pytest.mark.parametrize(
    ("tuning", "string", "name"),
    [
        ("standard", 1, "the high E string"),
        ("drop D", 4, "the D string"),
        ("drop D", 6, "the low D string"),
        ("standard", 6, "the low E string"),
        ("standard", 2, "the B string"),
        ("standard", 7, "string 7"),
        ("DADGAD", 4, "the middle D string"),
        ("Eb Ab Db Gb Bb Eb", 5, "the Ab string"),
    ],
)
def test_string_names(tuning: str, string: int, name: str) -> None:
    assert string_name(read_case({"events": "", "tuning": tuning}).lesson, 0.0, string) == name


def test_a_lowered_tuning_with_the_usual_letters() -> None:
    changes = [{"start": 0, "fact": "naming", "value": "standard"}]
    case = read_case({"events": "5/0", "tuning": "half step down", "changes": changes})
    names = [place_name(case.lesson, case.lesson.events[0], Note(5, fret)) for fret in (0, 3, "x")]
    assert names == ["the open A string", "fret 3 of the A string", "a dead note on the A string"]


def test_listed() -> None:
    assert [listed(words, "or") for words in (("a",), ("a", "b"), ("a", "b", "c"))] == [
        "a",
        "a or b",
        "a, b or c",
    ]
