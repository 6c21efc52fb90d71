"""Bends announced before their note, which tells only the amount: "a bend first, 7 on the G, a step up"."""

from __future__ import annotations

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

AT_ONCE = 2  # items behind a note within which an amount is its own
ANNOUNCED_WITHIN = 12  # items in front of the note within which a bend is announced for it
DETERMINED = 3  # items in front of the noun in which its article stands: "a half step bend"
LOOKED_FOR = 4  # instructions among which the pre-bend announced is told: its note, how far, let down
BRIEF = "brief"  # the slot "side" of words that let a bend down only where one was made


def is_announced(telling: Telling, step: Step) -> bool:
    """Whether "a bend" was said as the name of what comes, with nothing told since."""
    if _is_prebent(telling, step):
        return True
    words, before = telling.words, telling.last(2)
    start = max(before.end if before else 0, step.start - ANNOUNCED_WITHIN)
    bent = before is not None and (before.is_bent or before.how == "release")
    if bent:
        start = max(start, telling.sentences.start(step.sentence))
    for at in range(start, step.start):
        if telling.items[at].text in words.bend_nouns:
            lead = telling.said_between(at - DETERMINED, at)
            return bool(lead & {*words.determining}) and not lead & {*words.negating}
    return False


def announces_pre_bend(telling: Telling, said: Instruction) -> bool:
    """Whether "this one's a pre-bend" speaks of a note to come: one does, and how it is bent is told then."""
    ahead = telling.following[:LOOKED_FOR]
    behind = telling.near(said, 0) and telling.sentences.start(telling.sentences.of(said.start)) < said.start
    if not ahead or ahead[0].kind not in ("note", "bend") or not ahead[0].all("fret"):
        return False
    if behind and not telling.said_between(said.start, said.end) & set(telling.words.bend_nouns):
        return False
    if not any(one.kind in ("bend", "release") or one.text("by") for one in ahead):
        return False
    telling.prebent_at = said.end
    return True


def bend_as_announced(telling: Telling) -> None:
    """Makes the bend told last a pre-bend, where one was announced for its note."""
    last = telling.last()
    if last is not None and last.how == "bend" and _is_prebent(telling, last):
        telling.change_last(how="pre-bend")


def _is_prebent(telling: Telling, step: Step) -> bool:
    """Whether a pre-bend was announced, and the last step is the first one told since."""
    before = telling.last(2)
    if telling.prebent_at < 0 or (before is not None and before.start >= telling.prebent_at):
        return False
    return 0 <= step.start - telling.prebent_at <= ANNOUNCED_WITHIN


def announced_amount(telling: Telling, step: Step) -> float | None:
    """How far the bend goes that was announced for the step, where that was told with it."""
    told_at, amount = telling.amount_ahead
    return amount if 0 <= step.start - told_at <= ANNOUNCED_WITHIN else None


def bends_by(telling: Telling, said: Instruction, by: int) -> bool:
    """Whether "7 on the G, a whole step up" tells how far the note is bent: announced, or let down next."""
    last = telling.last()
    if last is None or last.how != "pick" or len(last.voices) > 1 or last.frets[0] in ("x", 0):
        return False
    if said.start - last.end > AT_ONCE or said.text("side") == "down" or last.is_bent:
        return False
    let_down = any(one.kind == "release" and one.text("side") != BRIEF for one in telling.following[:1])
    if not (let_down or is_announced(telling, last)):
        return False
    telling.change_last(how="bend", bend=float(by))
    bend_as_announced(telling)
    return True
