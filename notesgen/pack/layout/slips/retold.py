"""Two tellings that do not agree: which of them was the slip, once the teacher has said so."""

from __future__ import annotations

import re

from notesgen.lesson.model import Flag, Option
from notesgen.pack.layout.clock import clock, seconds
from notesgen.pack.layout.slips.said import Said, Slip

# As the drafts word it, see notesgen.settle.doubts.
_RETELLING = re.compile(r"the retelling at (?P<time>\d+(:\d\d)+) has \w+\.")
_MOVED = re.compile(r"the words after it say (?P<said>.+?)\. ")


def retold(flag: Flag, option: Option, said: Said) -> Slip | None:
    """The slip, if the option is right; None where it is none, or where the draft has other words."""
    is_first = option == flag.options[0]
    later, moved = _RETELLING.search(flag.message), _MOVED.search(flag.message)
    if later and len(flag.options) > 1:
        start = seconds(later["time"]) if is_first else flag.start
        return _one_of(flag, start, is_first, said)
    if moved and is_first:
        told = f"At {clock(flag.start)} I say {moved['said']}; the whole shape moves, as the tab has it."
        return Slip(flag.start, told)
    return None


def _one_of(flag: Flag, start: float, is_first: bool, said: Said) -> Slip | None:
    """The slip where the first telling is right, or where the retelling is."""
    first, again = (option.label.partition(",")[0] for option in flag.options[:2])
    right, wrong = (first, again) if is_first else (again, first)
    if right == wrong:
        return None
    spoken = said.by_second.get(int(start), ()) if is_first else said.of(flag.events)
    numbers = [number for number in spoken if str(number.value) == wrong]
    sure = numbers[0] if len(numbers) == 1 and right.isdecimal() else None
    return Slip(start, f"At {clock(start)} I say {wrong}; it's {right}.", sure, int(right) if sure else None)
