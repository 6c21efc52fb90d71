"""W3C WebVTT (Candidate Recommendation, 4 April 2019).

The library decides what a cue is (section 6.1: blocks, NOTE, STYLE, REGION). It keeps no line numbers and
drops broken cues in silence, so each time line is given its number as a cue setting, which the library hands
back; a number that does not come back is a cue that was dropped.
"""

from __future__ import annotations

import re

import webvtt

from notesgen.captions.caption import Caption, Reading, Row, Warned, left_out
from notesgen.captions.clock import span
from notesgen.captions.inline import pieces
from notesgen.errors import InputError

_NUMBER = re.compile(r"file-line:(\d+)$")


def is_webvtt(text: str) -> bool:
    """Whether the text begins as section 4.1 demands: "WEBVTT", alone or followed by white space."""
    return text.startswith("WEBVTT") and text[6:7] in ("", " ", "\t", "\n")


def read(text: str, source: str) -> Reading:
    """The captions of a WebVTT file. Cues that cannot be read are named in the warnings, with their line."""
    lines = text.split("\n")
    arrows = [number for number, line in enumerate(lines) if "-->" in line]
    payloads = _payloads(lines, source)
    captions: list[Caption] = []
    warnings: list[Warned] = []
    for arrow in arrows:
        times = span(lines[arrow])
        if times is None or arrow not in payloads:
            warnings.append(left_out(arrow + 1, lines[arrow]))
            continue
        # `arrow` counts from 0: the time line is arrow + 1 for people, and the text begins on arrow + 2.
        rows = tuple(Row(arrow + 2 + number, pieces(line)) for number, line in enumerate(payloads[arrow]))
        captions.append(Caption(*times, arrow + 1, rows))
    return Reading(tuple(captions), tuple(warnings), _language(lines))


def _payloads(lines: list[str], source: str) -> dict[int, list[str]]:
    """The lines of text of each cue that the library finds, by the number (from 0) of its time line."""
    try:
        found = webvtt.from_string("\n".join(_numbered(number, line) for number, line in enumerate(lines)))
    except webvtt.errors.MalformedFileError:
        raise InputError("The WebVTT file cannot be read; export the captions again.", source) from None
    numbered = ((_NUMBER.search(str(caption.settings)), caption.lines) for caption in found.captions)
    return {int(number[1]): list(payload) for number, payload in numbered if number}


def _numbered(number: int, line: str) -> str:
    """A time line with its number as a setting; a comma for the dot of a time, a common slip, put right."""
    return f"{line.replace(',', '.')} file-line:{number}" if "-->" in line else line


def _language(lines: list[str]) -> str:
    """The language named in the header ("Language: en"), which some tools write; English if none is."""
    for line in lines[1:]:
        if not line.strip():
            break
        name, _, value = line.partition(":")
        if name.strip().lower() == "language" and value.strip():
            return value.strip()
    return "en"
