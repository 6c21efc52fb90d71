"""Words about what was just told: how it was played, together, how often, on which string."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import How, Mark
from notesgen.settle.repeats import Loop, read_count
from notesgen.settle.step import Step, Voice
from notesgen.settle.telling import Naming, Telling
from notesgen.speech.instructions import Instruction

NEAR = 2  # sentences within which words about "that" reach back
NAMED_WITHIN = 6  # items after a note within which its name is told
AT_ONCE = 1
A_RUN = 3  # notes from which "8 7 9, three times" speaks of the run, not of its last note
_STROKES = frozenset({"hit", "play", "strike", "pick", "pluck", "it", "them", "those", "these", "that"})
MOST_TOGETHER = 6
NEXT_TO = 4  # items within which a pair of strings belongs to the fret before it


def how_afterwards(telling: Telling, said: Instruction) -> None:
    """The technique of the notes just told: of all legato pairs in the run, or of so many."""
    how = said.text("how")
    if how in (None, "none") or not telling.steps:
        return
    run = telling.trailing()
    single = telling.items[said.start].text in ("that", "it", "and") and said.whole("count") is None
    reach = min(run, 2) if single and how != "pick" else run
    for back in range(1, reach + (how == "pick")):
        step, before = telling.steps[-back], telling.last(back + 1)
        if how == "pick":
            if back <= run and step.how in ("hammer-on", "pull-off"):
                telling.steps[-back] = replace(step, how="pick")
        elif before and step.how == "pick" and _fits(how, before, step):
            telling.steps[-back] = replace(step, how=cast(How, how))


def _fits(how: str, before: Step, step: Step) -> bool:
    """Whether the technique can lead from the one step to the other: right direction, one string."""
    if len(step.voices) > 1 or len(before.voices) > 1 or "x" in step.frets + before.frets:
        return False
    one, two = before.voices[0], step.voices[0]
    if one.named and two.named and not set(one.named) & set(two.named):
        return False
    rises = int(two.fret) > int(one.fret)
    return rises if how == "hammer-on" else int(two.fret) < int(one.fret)


def mark(telling: Telling, said: Instruction) -> None:
    """A colour of the last note, or of the next where the sentence has none yet."""
    value = said.text("mark")
    if not value:
        return
    last = telling.last()
    sentence = telling.sentences.of(said.start)
    if value == "palm-mute" and (last is None or last.sentence != sentence):
        telling.next_marks = (cast(Mark, value),)
    elif last and sentence - last.sentence <= NEAR:
        telling.mark_last(cast(Mark, value))


def together(telling: Telling, said: Instruction) -> None:
    """Joins the steps just told into one, when they lie on different strings."""
    wanted = 3 if any(i.text == "three" for i in telling.items[said.start : said.end]) else 2
    last = telling.last()
    sentence = telling.sentences.of(said.start)
    words = {item.text for item in telling.items[said.start : said.end]}
    if "pinch" in words and not words & {"those", "them"} and (last is None or last.sentence < sentence):
        telling.chord_at, telling.chord_voices = said.end, 2
        return
    if last is None:
        return
    if len(last.voices) > 1:
        telling.change_last(placed=False)
        return
    joined: list[Step] = []
    for step in reversed(telling.steps[-MOST_TOGETHER:]):
        if len(joined) == wanted or len(step.voices) > 1:
            break
        joined.insert(0, step)
    voices = [voice for step in joined for voice in step.voices]
    strings = {voice.named for voice in voices if voice.named}
    if len(joined) < 2 or len(strings) < len(voices) or last.sentence - joined[0].sentence > NEAR:
        return
    marks = tuple(dict.fromkeys(mark for step in joined for mark in step.marks))
    bent = tuple(_own_bend(step, voice) for step in joined for voice in step.voices)
    del telling.steps[-len(joined) :]
    one = replace(joined[0], voices=bent, end=joined[-1].end, marks=marks, how="pick", bend=None, placed=False)
    telling.steps.append(one)


def _own_bend(step: Step, voice: Voice) -> Voice:
    return replace(voice, how=step.how, bend=step.bend) if step.how == "bend" else voice


def count(telling: Telling, said: Instruction) -> None:
    """The last note is struck so often."""
    times, unsure = read_count(said.text("count"))
    last = telling.last()
    if last is None or telling.sentences.of(said.start) - last.sentence > NEAR:
        return
    words = {item.text for item in telling.items[said.start : said.end]}
    if not words & _STROKES:
        if said.start - last.end > NEXT_TO // 2:
            return
        if telling.trailing() >= A_RUN and not last.voices[0].named:
            repeat(telling, said)
            return
    strike_again(telling, times, unsure)


def strike_again(telling: Telling, times: int, unsure: str) -> None:
    """The last note, so often in all."""
    if unsure:
        telling.change_last(unsure_count=unsure)
    for _ in range(times - _strokes(telling)):
        telling.steps.append(replace(telling.steps[-1], corrected="", again=True))


def _just_before(telling: Telling, said: Instruction) -> range:
    """The sentence of the words, and the two before it."""
    sentence = telling.sentences.of(said.start)
    return range(sentence - NEAR, sentence + 1)


def _strokes(telling: Telling) -> int:
    """How often the last note has been told in a row by now."""
    last = telling.steps[-1]
    alike = [s.again and (s.frets, s.how) == (last.frets, last.how) for s in reversed(telling.steps)]
    return 1 + (alike.index(False) if False in alike else len(alike) - 1)


def again(telling: Telling, said: Instruction) -> None:
    """The last note once more."""
    last = telling.last()
    if last and telling.sentences.of(said.start) - last.sentence <= NEAR:
        telling.steps.append(replace(last, corrected="", again=True, start=said.start, end=said.end))


def repeat(telling: Telling, said: Instruction) -> None:
    """The passage of the section, or since the last repeat, is played so often in all; a lone pair is struck."""
    times, unsure = read_count(said.text("count"))
    last = telling.last()
    alone = last and sum(step.section == len(telling.sections) for step in telling.steps) == 1
    if last and (len(last.voices) > 1 or alone) and last.sentence in _just_before(telling, said):
        strike_again(telling, times, unsure)
        return
    first = telling.loops[-1].last + 1 if telling.loops else 0
    section = [at for at, step in enumerate(telling.steps) if step.section == len(telling.sections) and at >= first]
    if section and times > 1:
        telling.seams.append(said.start)
        telling.loops.append(Loop(section[0], section[-1], times, unsure))


def scope(telling: Telling, said: Instruction) -> None:
    """Strings named on their own; in a list of harmonics, each is struck."""
    strings = telling.strings_of(said) + telling.strings_of(said, "other_string")
    if telling.correcting is not None and _corrects_string(telling, strings[0] if strings else ()):
        return
    if telling.harmonic_fret is not None and len(strings) == 1:
        telling.add(said, [Voice(telling.harmonic_fret, strings[0])], how="harmonic")
        return
    if len(strings) == 2 and _lays_flat(telling, said):
        fret = telling.steps[-1].voices[0].fret
        telling.change_last(voices=tuple(Voice(fret, one) for one in strings))
    if strings:
        telling.namings.append(Naming(said.start, said.end, strings, telling.sentences.of(said.start)))


def _lays_flat(telling: Telling, said: Instruction) -> bool:
    """Whether the pair of strings only says where the finger of the last, lone fret lies."""
    last = telling.last()
    if last is None or len(last.voices) != 1 or last.voices[0].named or last.how != "pick":
        return False
    return last.sentence == telling.sentences.of(said.start) and said.start - last.end <= NEXT_TO


def _corrects_string(telling: Telling, strings: tuple[int, ...]) -> bool:
    """"on the G, sorry, the D": the string of the last note is put right."""
    last = telling.last()
    correction = telling.correcting
    telling.correcting = None
    if last is None or correction is None or len(last.voices) != 1 or not strings:
        return False
    if last.end < correction.start - 1 or not last.voices[0].named:
        return False
    telling.change_last(
        voices=(replace(last.voices[0], named=strings),), corrected=f"string {last.voices[0].named[0]}"
    )
    return True


def that_string(telling: Telling, said: Instruction) -> None:
    """The string of the notes just told, said after them."""
    strings = telling.strings_of(said)
    sentence = telling.sentences.of(said.start)
    if not strings:
        return
    for back in range(1, len(telling.steps) + 1):
        step = telling.steps[-back]
        if sentence - step.sentence > 1 or any(voice.named for voice in step.voices):
            break
        telling.steps[-back] = replace(step, voices=tuple(replace(v, named=strings[0]) for v in step.voices))


def either(telling: Telling, said: Instruction) -> None:
    """How the last note is played was left open. It is read as legato when it can be."""
    last, before = telling.last(), telling.last(2)
    times = said.whole("count")
    if times is not None:
        if last and telling.sentences.of(said.start) - last.sentence <= 1:
            telling.change_last(unsure_count=f"{_strokes(telling)} or {times}")
        return
    if last is None or before is None or telling.sentences.of(said.start) - last.sentence > NEAR:
        return
    how: How = last.how
    if how == "pick" and _fits("pull-off", before, last):
        how = "pull-off"
    if how != "pick":
        telling.change_last(how=how, unsure_how=(how, "pick"))


def letter(telling: Telling, said: Instruction) -> None:
    """The name of the last note, where it was told just before."""
    last, name = telling.last(), said.text("letter")
    if last is None or name is None or len(last.voices) > 1 or last.letter:
        return
    apart = said.start - last.end
    if 0 <= apart <= NAMED_WITHIN:
        telling.change_last(letter=name, letter_at_once=apart <= AT_ONCE)


def unplayed(telling: Telling, said: Instruction) -> None:
    """Takes back the frets of the sentence before: the fingers were only placed."""
    sentence = telling.sentences.of(said.start)
    while telling.steps and sentence - telling.steps[-1].sentence <= 1:
        telling.steps.pop()


AFTERWARDS: dict[str, Callable[[Telling, Instruction], None]] = {
    "how": how_afterwards,
    "either": either,
    "letter": letter,
    "unplayed": unplayed,
    "mark": mark,
    "together": together,
    "count": count,
    "again": again,
    "repeat": repeat,
    "scope": scope,
    "that-string": that_string,
}
