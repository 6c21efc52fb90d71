"""The picking hand: strings struck as they are held, without a word about their frets."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.by_name import strike_named
from notesgen.settle.hearing.damped import strikes_string
from notesgen.settle.hearing.grips import fret_follows, in_one_sentence
from notesgen.settle.hearing.scopes import scope
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction

THUMB = "thumb"
THERE = "there"  # the slot "label" of what is told over on the string named since
NEXT_TO = 2  # items between one string of a roll and the next


def stroke(telling: Telling, said: Instruction) -> None:
    """A string struck with the fret that is held there; the thumb's own where none is named."""
    if len(said.all("string")) > 1:
        _roll(telling, said)
        return
    strings = telling.strings_of(said)
    frets = _frets(telling, said)
    if not fret_follows(telling, said) and strike_named(telling, said):
        return
    if frets and _is_bare(telling, said) and _goes_on_in_ordinals(telling, said):
        telling.add(said, [Voice(strings[0][0])])
    elif strings and (frets or fret_follows(telling, said) or _same_follows(telling, said)):
        telling.finger_at = said.end
        if said.text("finger") == THUMB:
            telling.thumb_at = said.end  # it plucks, and frets nothing
        scope(telling, said)
    elif strings and strikes_string(telling, said, strings):
        pass
    elif strings and len(strings) == 1 and not _points_back(telling, said, strings[0]):
        _strike(telling, said, strings[0])
    elif not strings and said.text("finger") == THUMB:
        _thumb_again(telling, said)


def _same_follows(telling: Telling, said: Instruction) -> bool:
    """Whether it is told at once what is played on the string: "the B string again, with the same 1"."""
    coming = telling.coming
    if coming is None or coming.start - said.end > NEXT_TO:
        return False
    if coming.kind == "recall":
        return bool(coming.all("count")) and bool(
            telling.said_between(coming.start, coming.end) & {*telling.words.sameness}
        )
    return coming.kind == "same" and coming.text("label") == THERE


def rolls_on(telling: Telling, said: Instruction) -> bool:
    """Whether a bare ordinal right behind a roll is its next string: "... and then fourth, third"."""
    last, number = telling.last(), said.whole("fret")
    if last is None or not last.stroke or number is None or said.start - last.end > NEXT_TO:
        return False
    if number not in telling.hand or not telling.near(said, 0):
        return False
    _strike(telling, said, (number,))
    return True


def finger(telling: Telling, said: Instruction) -> None:
    """A finger named by itself: the thumb, when its sentence says nothing else, strikes its string."""
    telling.finger_at = said.end
    if not telling.said_between(said.start, said.end) & set(telling.words.thumb):
        return
    last = telling.last()
    if _is_alone(telling, said):
        _thumb_again(telling, said)
    elif last is not None and _is_of_last(telling, said, last):
        telling.thumb = _lowest(last) or telling.thumb
    else:
        telling.thumb_at = said.end


def _is_of_last(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether the thumb tells what the last note was struck with, and not what strikes the next."""
    means = telling.said_between(said.start - 1, said.start + 1) & set(telling.words.by_means)
    beside = said.start - last.end <= 1 and telling.near(said, 0)
    return beside and (bool(means) or not _note_follows(telling, said))


def _roll(telling: Telling, said: Instruction) -> None:
    """Strings in a row, each struck as it is held; frets on the first, where the others are not held."""
    names = [str(name) for name in said.all("string")]
    found = [telling.names.resolve(name, telling.last_strings()) for name in names]
    row = [strings[0] for strings in found if strings]
    if len(row) == len(names) and all(set(strings) & set(telling.hand) for strings in row):
        for candidates in row:
            _strike(telling, said, candidates)
        return
    for name in names[1:]:
        telling.add(said, [Voice(int(name.lstrip("#")), row[0] if row else ())])


def _frets(telling: Telling, said: Instruction) -> bool:
    """Whether the finger may as well be one that frets: it plays nothing, and the thumb did not go first."""
    last, words = telling.last(), telling.said_between(said.start, said.end)
    if last is not None and last.stroke and said.start - last.end <= NEXT_TO:
        return False
    lone = said.text("finger") not in (None, THUMB) and not words & set(telling.words.striking)
    return lone or _is_bare(telling, said)


def _is_bare(telling: Telling, said: Instruction) -> bool:
    """Whether the string is a mere ordinal, which may be a fret: "your ring finger on the third"."""
    words = telling.said_between(said.start, said.end)
    return bool(words & telling.ordinals) and not words & set(telling.words.string)


def _goes_on_in_ordinals(telling: Telling, said: Instruction) -> bool:
    """Whether the note before it in the sentence had its fret told as an ordinal."""
    last = telling.last()
    if last is None or not telling.near(said, 0):
        return False
    return bool(telling.said_between(last.start, last.end) & telling.ordinals)


def _points_back(telling: Telling, said: Instruction, strings: Strings) -> bool:
    """Whether "you hit that G" only speaks of the note just told."""
    last, words = telling.last(), telling.said_between(said.start, said.end)
    if last is None or words & set(telling.words.again) or not words & set(telling.words.pointing):
        return False
    return bool(set(last.voices[0].named) & set(strings)) and said.text("finger") is None


def _thumb_again(telling: Telling, said: Instruction) -> None:
    bass = telling.thumb or max((_lowest(step) for step in telling.steps), default=())
    if bass and not _note_follows(telling, said):
        _strike(telling, said, bass)


def _strike(telling: Telling, said: Instruction, candidates: Strings) -> None:
    """Strikes the one of the strings that is meant: the thumb's is a low one."""
    held = [string for string in candidates if string in telling.hand] or list(candidates)
    low = [string for string in held if _is_low(telling, string)]
    string = low[-1] if low and said.text("finger") == THUMB else held[0]
    _lay(telling, said, string)
    if said.text("finger") == THUMB:
        telling.thumb = (string,)
    telling.pluck(said, string, placed=False)


def _lay(telling: Telling, said: Instruction, string: int) -> None:
    """The fret that a finger just went down to is on the string plucked next, where none was named."""
    last = telling.last()
    if last is None or not last.placed or not telling.near(said, 0) or len(last.voices) > 1:
        return
    if not last.voices[0].named and last.before in ((), (string,)) and "x" not in last.frets:
        telling.change_last(voices=(replace(last.voices[0], named=(string,)),))
        telling.hand[string] = last.frets[0]


def _lowest(step: Step) -> Strings:
    """The thickest string of the step, where it was named."""
    return max((voice.named for voice in step.voices if len(voice.named) == 1), default=())


def _is_low(telling: Telling, string: int) -> bool:
    return string > telling.names.count // 2


def _is_alone(telling: Telling, said: Instruction) -> bool:
    """Whether the sentence holds nothing but the finger and words of little weight."""
    sentence = telling.sentences.of(said.start)
    start, end = telling.sentences.start(sentence), telling.sentences.end(sentence)
    around = telling.said_between(start, said.start) | telling.said_between(said.end, end)
    return around <= {*telling.words.light, *telling.words.again}


def _note_follows(telling: Telling, said: Instruction) -> bool:
    """Whether the note that the thumb strikes is told right behind it."""
    coming = telling.coming
    if coming is None or not in_one_sentence(telling, said, coming):
        return False
    return coming.start - said.end <= 1 and bool(coming.all("string"))
