"""`corrections.md`: what the teacher misspoke, as sentences to paste under the recording."""

from __future__ import annotations

from collections.abc import Iterable

from notesgen.lesson.model import Flag, Lesson
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.escape import escape
from notesgen.pack.layout.footnotes import UNSETTLED
from notesgen.pack.layout.slips.find import Doubt, doubtful, put_right, settled
from notesgen.pack.layout.style import PLAIN, Style, is_unsettled

FILE = "corrections.md"
NOTHING = "There is nothing to put right."


def render(lesson: Lesson, style: Style = PLAIN) -> str:
    """The sentences; for the teacher also what may be a slip, and what was put right in the talk. The file is
    made where nothing is to be put right as well: one of an earlier day would be taken for this one's."""
    slips = settled(lesson)
    doubts, mended = (doubtful(lesson), put_right(lesson)) if style.shows_flags else ([], [])
    pasted = "\n".join(slip.sentence for slip in slips)
    told = "Nothing is settled yet: see what there is to check." if doubts else NOTHING
    if is_unsettled(lesson) and not style.shows_flags:
        told = UNSETTLED
    blocks = [
        f"# Corrections to {escape(lesson.facts.title) or 'the lesson'}",
        "## To paste under the recording",
        f"```text\n{pasted}\n```" if slips else told,
        *_section(
            "To check",
            "Each may be a slip, or meant. Where it was a slip, paste the sentence that is right.",
            map(_doubt, doubts),
        ),
        *_section(
            "Put right in the talk",
            "You mended these while you spoke, so they need no word under the recording.",
            map(_mended, mended),
        ),
    ]
    return "\n\n".join(blocks) + "\n"


def _section(title: str, told: str, items: Iterable[str]) -> list[str]:
    listed = "\n".join(items)
    return [f"## {title}", told, listed] if listed else []


def _doubt(doubt: Doubt) -> str:
    flag = doubt.flag
    heard = f' Heard: "{escape(flag.quote)}".' if flag.quote else ""
    head = f"- {clock(flag.start)} {escape(flag.message)}{heard}"
    return "\n".join([head, *(f"  - {escape(slip.sentence)}" for slip in doubt.slips)])


def _mended(flag: Flag) -> str:
    return f"- {clock(flag.start)} {escape(flag.message)}"
