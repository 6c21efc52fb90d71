"""What stands in captions but is not said: sound labels, and marks of who speaks."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

_LABEL = re.compile(r"\[[^\[\]]*\]|\([^()]*\)|[♩♪♫♬]+[^♩♪♫♬]*[♩♪♫♬]+|[♩♪♫♬]+")
_NOTES = re.compile("[♩♪♫♬]")
_SPEAKER_MARK = re.compile(r">>+|^\s*-\s+")
_SPEAKER_NAME = re.compile(r"^\s*([A-Z][A-Z.'-]*(?: [A-Z][A-Z.'-]*){0,2})(?: \d)?:\s+")

# The words for sounds that captioners put in round brackets. Common practice, no source.
_SOUND = re.compile(
    r"\b(applause|chuckl(es|ing)|clap(s|ping)|cheer(s|ing)|cough(s|ing)|feedback|guitar|hum(s|ming)|instrumental"
    r"|laugh(s|ing|ter)|music(al)?|noise|pause|play(s|ed|ing)?|pluck(s|ing)|sighs|silence|sing(s|ing)"
    r"|strum(s|ming)|tap(s|ping)|tun(es|ing)|whistl(es|ing))\b",
    re.IGNORECASE,
)
_LONGEST_LABEL = 5

# Capitals before a colon that are no name: what a written-down lesson says of itself.
_HEADING = re.compile(
    r"\b(BPM|CAPO|CHORD|FRETS?|KEY|LICK|NOTES?|OK|OKAY|RIFF|SCALE|SO|STRINGS?|TEMPO|TIP|TUNING)\b"
)


class Part(Struct, frozen=True):
    """A stretch of caption text: either talk, or the words of a sound label without its brackets."""

    text: str
    is_label: bool


def parts(text: str) -> Iterator[Part]:
    """The text cut into talk and sound labels, in order; blank stretches are left out."""
    position = 0
    for match in _LABEL.finditer(text):
        if not _is_sound(match[0]):
            continue
        yield from _talk(text[position : match.start()])
        name = " ".join(match[0].strip("[]()").split())
        yield Part("Music" if _NOTES.search(name) else name, True)
        position = match.end()
    yield from _talk(text[position:])


def unmarked(row: str) -> str:
    """The beginning of a row without ">>", a dialogue dash and a speaker's name in capitals ("ANN: ")."""
    row = _SPEAKER_MARK.sub(" ", row)
    name = _SPEAKER_NAME.match(row)
    # Note letters before a colon are strings, chords and tunings ("E:", "DADGAD:"), not people.
    if name is None or _HEADING.search(name[1]) or set(name[1]) <= set("ABCDEFG. "):
        return row
    return row[name.end() :]


def _talk(text: str) -> Iterator[Part]:
    if text.strip():
        yield Part(text, False)


def _is_sound(bracketed: str) -> bool:
    """Whether this is no talk. Digits may be notes, and round brackets may hold an aside: both stay talk."""
    if _NOTES.match(bracketed):
        return True
    if any(character.isdigit() for character in bracketed):
        return False
    if bracketed.startswith("["):
        return True
    return len(bracketed.split()) <= _LONGEST_LABEL and _SOUND.search(bracketed) is not None
