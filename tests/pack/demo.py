"""The lesson of the demo, drafted anew: a second lesson for renderers, beside the rich one."""

from __future__ import annotations

from functools import cache

from notesgen.captions.source import load_captions
from notesgen.captions.transcript import Transcript
from notesgen.cli.demo import TITLE, demo_captions
from notesgen.lesson.model import Lesson
from notesgen.pipeline import Given, draft


@cache
def transcript() -> Transcript:
    """What the demo's captions say."""
    return load_captions(str(demo_captions()))


@cache
def lesson() -> Lesson:
    """The lesson of `notesgen demo`."""
    return draft(transcript(), Given(title=TITLE))
