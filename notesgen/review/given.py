"""What was given with an earlier draft, so that the page keeps it: `notesgen draft --key "B minor"`."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from notesgen.decisions import kept
from notesgen.errors import InputError
from notesgen.lesson.model import Facts, Lesson
from notesgen.pipeline import Given


def as_before(captions: Path, folder: Path, given: Given | None) -> Given:
    """`given`, and for all that it leaves open what the draft in `folder` was given.

    Raises InputError where that draft is of other captions beside these: they would share one folder.
    """
    told, lesson = given or Given(), _drafted(folder)
    if lesson is None:
        return told
    other = lesson.source.captions
    if other != captions.name:
        if other and (captions.parent / other).is_file():
            raise InputError(f'The folder "{folder.name}" holds the pack of {other}; rename one of the two.')
        return told
    before = _given(lesson.facts, Path(other).stem)
    if told.instrument not in (None, before.instrument):
        before = replace(before, tuning=None)  # its strings are those of another instrument
    return replace(
        told,
        key=before.key if told.key is None else told.key,
        tuning=before.tuning if told.tuning is None else told.tuning,
        capo=before.capo if told.capo is None else told.capo,
        instrument=before.instrument if told.instrument is None else told.instrument,
        title=before.title if told.title is None else told.title,
    )


def is_of(captions: Path, folder: Path) -> bool:
    """Whether the draft in that folder was made of captions of this name."""
    lesson = _drafted(folder)
    return lesson is not None and lesson.source.captions == captions.name


def _given(facts: Facts, usual: str) -> Given:
    """The facts that came from options; `usual` is the title where none is given."""
    given = {fact for fact, origin in facts.origin.items() if origin == "given"}
    return Given(
        key=str(facts.key) if "key" in given and facts.key else None,
        tuning=" ".join(reversed(facts.tuning)) if "tuning" in given else None,
        capo=facts.capo if "capo" in given else None,
        instrument=facts.instrument if "instrument" in given else None,
        title=facts.title if facts.title != usual else None,
    )


def _drafted(folder: Path) -> Lesson | None:
    """The draft that the folder keeps, None where it has none that can be read."""
    file = folder / kept.FILE
    try:
        return kept.decode_draft(file.read_bytes(), str(file)).lesson
    except (OSError, InputError):
        return None
