"""Sound labels and speaker marks: no words of the talk."""

from __future__ import annotations

import pytest

from notesgen.captions.labels import parts, unmarked

LABELS = [
    ("[Music]", "", ["Music"]),
    ("[guitar plays]", "", ["guitar plays"]),
    ("(playing)", "", ["playing"]),
    ("♪ la da da ♪", "", ["Music"]),
    ("♪", "", ["Music"]),
    ("[♪♪♪]", "", ["Music"]),
    ("so [Applause] right", "so right", ["Applause"]),
    ("listen (plays riff) and", "listen and", ["plays riff"]),
    ("[Music] ok [Laughter]", "ok", ["Music", "Laughter"]),
    ("the ninth (that's the root) of it", "the ninth (that's the root) of it", []),
    ("(playing the 5 and 7)", "(playing the 5 and 7)", []),
    ("on the [5th] fret", "on the [5th] fret", []),
    ("half a [bracket", "half a [bracket", []),
    ("nothing here", "nothing here", []),
]


@pytest.mark.parametrize(("text", "talk", "labels"), LABELS)
def test_labels(text: str, talk: str, labels: list[str]) -> None:
    found = list(parts(text))
    assert " ".join(word for part in found if not part.is_label for word in part.text.split()) == talk
    assert [part.text for part in found if part.is_label] == labels


MARKS = [
    (">> so today", "so today"),
    (">>> so >> today", "so today"),
    ("- so today", "so today"),
    ("ANN: so today", "so today"),
    ("THE TEACHER: so today", "so today"),
    (">> ANN: so today", "so today"),
    ("SPEAKER 1: so today", "so today"),
    ("E: 5 7 5", "E: 5 7 5"),
    ("DADGAD: that's the tuning", "DADGAD: that's the tuning"),
    ("G. D: pinch, rest", "G. D: pinch, rest"),
    ("CAPO: 2", "CAPO: 2"),
    ("Ann: so today", "Ann: so today"),
    ("5 - 7 - 5", "5 - 7 - 5"),
]


@pytest.mark.parametrize(("row", "talk"), MARKS)
def test_marks_of_who_speaks(row: str, talk: str) -> None:
    assert " ".join(unmarked(row).split()) == talk
