"""How far back a repair reaches: one note, the run that is told over, or a slip already put right.

Speakers go back to where the trouble began and tell it over from there (Levelt 1983, "Monitoring and
self-repair in speech"): the frets that a repair begins with show where that was.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing.corrections import told
from notesgen.settle.hearing.slots import frets_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

APART = 2  # items between the frets of one repair
NEAR = 2  # sentences within which a note is put right by its place
LONGEST = 8  # notes that a repair tells over
EXCUSES = frozenset({"correction", "frame"})  # what may stand before it: "sorry, not that one, the wrong one"
FRET_SLOTS = ("fret", "from", "to", "via")


def open_repair(telling: Telling, said: Instruction, following: Sequence[Instruction]) -> None:
    """Makes ready for the repair that follows the correction: the notes that it replaces are its slips."""
    repair, end = _repair(said, following)
    last, before = telling.last(), telling.last(2)
    if last is None:
        return
    if repair[:1] == list(last.frets):
        if last.corrected:
            return
        if before is not None and _put_right_at_once(before, last):
            telling.steps.pop()
    telling.correcting = said
    back = _told_over(telling, last, repair)
    if back > 1:
        telling.slips = telling.steps[-back:]
        telling.slips_until = end
        del telling.steps[-back:]


def _repair(said: Instruction, following: Sequence[Instruction]) -> tuple[list[Fret], int]:
    """The frets told in one breath after the correction, and the item at which they end."""
    frets: list[Fret] = []
    end = said.end
    for one in following[:LONGEST]:
        if one.kind in EXCUSES and one.start - end <= APART and not frets:
            end = one.end
            continue
        more = [fret for slot in FRET_SLOTS for fret in frets_of(one, slot)]
        if one.start - end > APART or not more:
            break
        frets += more
        end = one.end
    return frets, end


def _put_right_at_once(slip: Step, last: Step) -> bool:
    """Whether "10, 12" were a slip and its repair in one breath."""
    return last.start <= slip.end and last.how in ("pick", slip.how) and not last.voices[0].named


def _told_over(telling: Telling, last: Step, repair: list[Fret]) -> int:
    """How many of the last notes the repair tells over; at most as many as it has itself."""
    run: list[Step] = []
    for step in reversed(telling.steps):
        if len(step.voices) > 1 or last.sentence - step.sentence > 1 or (run and _opens(run[-1], step)):
            break
        run.append(step)
    for back in range(2, min(len(repair), len(run)) + 1):
        if run[back - 1].frets == tuple(repair[:1]):
            return back
    return 1


def _opens(step: Step, before: Step) -> bool:
    """Whether the step begins a run: it names a string that the one before it did not."""
    return bool(step.voices[0].named) and step.voices[0].named != before.voices[0].named


def put_right_by_place(telling: Telling, said: Instruction) -> None:
    """ "The second one should be 7": a note of the last sentence is put right, told by its place."""
    run = telling.trailing()
    fret, nth = said.whole("fret"), said.whole("nth")
    back = 1 if nth is None else run - nth + 1
    if fret is None or not telling.near(said, NEAR) or not 1 <= back <= run:
        return
    step = telling.steps[-back]
    if len(step.voices) == 1 and step.frets != (fret,):
        voices = (replace(step.voices[0], fret=fret),)
        telling.steps[-back] = replace(step, voices=voices, corrected=told(step))
