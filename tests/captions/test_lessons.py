"""The captions of the lessons: every demo that a listener wrote down is a gap, and no word is lost."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from notesgen.captions.source import load_captions

LESSONS = Path(__file__).parents[2] / "fixtures" / "lessons"
NAMES = sorted(path.name for path in LESSONS.iterdir() if path.is_dir())


def captions(name: str) -> Path:
    return next(path for path in (LESSONS / name).iterdir() if path.suffix in (".vtt", ".srt", ".txt"))


def seconds(clock: str) -> int:
    minutes, whole = clock.split(":")
    return int(minutes) * 60 + int(whole)


@pytest.mark.parametrize("name", NAMES)
def test_each_demo_is_a_gap(name: str) -> None:
    gold = tomllib.loads((LESSONS / name / f"{name}.gold.toml").read_text())
    transcript = load_captions(str(captions(name)))
    for start, end in gold["demos"]:
        # The listener wrote whole seconds.
        middle = (seconds(start) + seconds(end)) / 2
        assert any(gap.start <= middle <= gap.end for gap in transcript.gaps), (start, end)


@pytest.mark.parametrize("name", NAMES)
def test_captions_are_read_without_loss(name: str) -> None:
    path = captions(name)
    transcript = load_captions(str(path))
    assert transcript.warnings == ()
    lines = path.read_text().split("\n")
    for cue in transcript.cues:
        first = cue.text.split()[:1]
        assert not first or first[0] in re.sub(r"<[^>]*>", "", lines[cue.line - 1])
    labels = re.compile(r"[\[(][A-Za-z ]*[\])]|>>")  # and the mark of another speaker
    for number, cue in enumerate(transcript.cues):
        words = [word.text for word in transcript.words if word.cue == number]
        assert words == labels.sub(" ", cue.text).split()
