"""A part called by its number: "the third line is like the first", "phrase one again, but it ends on 7"."""

from __future__ import annotations

from collections.abc import Iterator

from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

SHORTEST, LONGEST = 2, 32  # notes of a part
OTHERWISE = 2  # items behind the words within which "but", "except" tells that it ends in another way


def strike_part(telling: Telling, said: Instruction) -> None:
    """Strikes the part over, without its last note where another one is told; asks where none is found."""
    part = part_called(telling, said.whole("part") or 0, said.start)
    if not part:
        telling.unwritten.append(said)
        return
    strike_over(telling, said, part[:-1] if _ends_otherwise(telling, said) else part)


def part_called(telling: Telling, number: int, before: int) -> list[Step]:
    """The notes between the words that call the part by its number and those that call another one."""
    called = list(_calls(telling, before))
    for place, (at, noun, one) in enumerate(called):
        if one != number:
            continue
        later = (start for start, other, nth in called[place + 1 :] if other == noun and nth != number)
        end = next(later, before)
        part = [step for step in telling.steps if at < step.start < end]
        if SHORTEST <= len(part) <= LONGEST:
            return part
    return []


def _calls(telling: Telling, before: int) -> Iterator[tuple[int, str, int]]:
    """Where parts are called by number up to an item: the item, the noun and the number."""
    for at in range(before):
        noun = telling.items[at].text
        if noun not in telling.words.part_nouns:
            continue
        ahead = telling.items[at - 1].text if at else ""
        behind = telling.items[at + 1].text if at + 1 < before else ""
        if ahead in telling.ordinals and ahead in telling.values:
            yield at, noun, telling.values[ahead]
        elif behind in telling.values and behind not in telling.ordinals:
            yield at + 1, noun, telling.values[behind]


def _ends_otherwise(telling: Telling, said: Instruction) -> bool:
    """Whether a note is told in the same sentence with which the part ends this time."""
    turn = telling.said_between(said.start, said.end + OTHERWISE) & {*telling.words.differing}
    sentence = telling.sentences.of(said.end - 1)
    told = (one for one in telling.following[:1] if one.kind == "note" and one.all("fret"))
    return bool(turn) and any(telling.sentences.of(one.start) == sentence for one in told)
