"""Words of technique that no idiom took: "slide it, nice and slow, until you stop on 5" leads to the 5."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.lesson.model import How
from notesgen.settle.hearing.announced import are_apart, joins
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

FARTHEST = 14  # items from the verb to the note that it leads to
DENIED = 3  # items in front of a verb that deny it
MOVES = frozenset({"slide", "hammer-on", "pull-off", "shift"})


def lead_to(telling: Telling, said: Instruction, told: int) -> None:
    """Slides, hammers or pulls to the first note just told, where a verb in front of it says so."""
    if not 0 < told < len(telling.steps):
        return
    before, step = telling.steps[told - 1], telling.steps[told]
    if step.how != "pick" or step.again or step.stroke or before.sentence != step.sentence:
        return
    how = _verb(telling, said, before)
    if how is not None and _can_lead(how, before, step):
        telling.steps[told] = replace(step, how=how, joined=True)


def _verb(telling: Telling, said: Instruction, before: Step) -> How | None:
    """What the last verb in front of the note says, where nothing was struck since and it is not taken."""
    earlier = telling.preceding
    since = max(before.end, said.start - FARTHEST)
    if earlier is not None and not (earlier.kind in MOVES and earlier.start >= before.end):
        since = max(since, earlier.end)
    verbs: tuple[tuple[How, tuple[str, ...]], ...] = (
        ("slide", telling.words.sliding),
        ("hammer-on", telling.words.hammering),
        ("pull-off", telling.words.pulling),
    )
    for at in range(said.end - 1, since - 1, -1):
        word = telling.items[at].text
        if word in telling.words.striking and not _is_denied(telling, at):
            return None
        for how, said_so in verbs:
            if word in said_so:
                stops = telling.said_between(at, said.end) & set(telling.words.no_slide)
                return None if stops or _is_denied(telling, at) else how
    return None


def _is_denied(telling: Telling, at: int) -> bool:
    words = telling.said_between(at - DENIED, at)
    return bool(words & {*telling.words.denying, *telling.words.supposing})


def _can_lead(how: How, before: Step, step: Step) -> bool:
    """Whether the technique goes from the one to the other: on one string, or with all voices of a pair."""
    if len(before.voices) == 1:
        return not are_apart(before, step) and joins(how, before, step)
    pair = len(before.voices) == len(step.voices) and "x" not in before.frets + step.frets
    return how == "slide" and pair and before.frets != step.frets
