"""What was told one by one is struck at once."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from notesgen.settle.hearing.abreast import announce, is_for_good, row_of_section
from notesgen.settle.hearing.fret_ahead import lies_on_strings
from notesgen.settle.hearing.grips import strike
from notesgen.settle.hearing.joined import GOES_WITH, fits, goes_with, join, known, leads_on
from notesgen.settle.hearing.so_many import speaks_of_numbered
from notesgen.settle.hearing.string_order import strike_in_order
from notesgen.settle.hearing.struck_over import strikes_over
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.hearing.voices import is_thumbed
from notesgen.settle.step import Abreast, Step, Strings, Voice
from notesgen.speech.instructions import Instruction

NEAR = 2  # sentences back to which "both of them" reaches
AHEAD = "ahead"  # the slot "side" of words for the strings named next: "two strings at a time"
FINGERS = "fingers"  # ... for fingers that strike the strings told next
APART = "apart"  # ... for strings told in one breath that are struck one after the other
OVER = "over"  # ... for strings beside those struck so far: "everything moves one string over"
DENIED_WITHIN = 3  # items in front of "together" within which "never" denies it
NEXT_TO = 1  # items between one string of a chord and the next, told in one breath
A_PAIR = 2  # voices where "both" are struck
A_TRIAD = 3  # ... where "all three" are
FAR_FROM = 6  # items behind a stroke from which "together" speaks of what comes
PINCHED_WITHIN = 12  # items behind "pinch" within which "at the same time" is of the pinch
MOST = 6  # voices that one stroke may join


def together(telling: Telling, said: Instruction) -> None:
    """Joins the steps just told into one, when they lie on different strings."""
    last = telling.last()
    if speaks_of_numbered(telling):
        return
    if said.text("side") == GOES_WITH:
        goes_with(telling, said)
        return
    if said.text("side") == FINGERS:
        fingers_strike(telling, said)
        return
    if said.text("side") == APART:
        _take_apart(telling, said)
        return
    if telling.said_between(said.start - DENIED_WITHIN, said.start) & set(telling.words.negating):
        telling.apart_at = said.start
        return
    if _strikes_grip(telling, said, last):
        return
    if not said.all("side") and (_strikes_chord(telling, said) or strikes_over(telling, said)):
        return
    if _points_ahead(telling, said, last) or (last is not None and _lies_across(telling, said, last)):
        return
    if last is not None and _leads_to_other(telling, said):
        telling.joining_at = said.end
        return
    if _makes_three(telling, said):
        join(telling)
        telling.note_until = max(telling.note_until, said.end)
        return
    if last is None or len(last.voices) > 1:
        _struck_before(telling, said, last)
        return
    joined = _to_join(telling, said)
    strings = {voice.named for step in joined for voice in known(step) if voice.named}
    if len(joined) < 2 or len(strings) < len(joined) or _are_far(joined):
        if not telling.said_between(said.start, said.end) & {*telling.words.every, *telling.words.pinching}:
            _await(telling, said)
        return
    _strike_as_one(telling, said, joined)
    if is_for_good(telling, said):
        announce(
            telling, tuple(voice.named for voice in telling.steps[-1].voices), joined[0].start, lasts=True
        )


def _strikes_grip(telling: Telling, said: Instruction, last: Step | None) -> bool:
    """Strikes what the hand holds, where nothing was told since and no pinch is spoken of."""
    pinched = telling.said_between(max(said.start - PINCHED_WITHIN, telling.grip.at), said.end)
    untold = last is None or last.start < telling.grip.at
    if not telling.grip.frets or not untold or pinched & {*telling.words.pinching}:
        return False
    strike(telling, said)
    return True


def _strikes_chord(telling: Telling, said: Instruction) -> bool:
    """Strikes a chord told in string order just before in the sentence, where all of it is spoken of."""
    spoken = telling.said_between(said.start, said.end) & {*telling.words.every}
    return bool(spoken) and telling.near(said, 0) and strike_in_order(telling, said)


def closes_chord(telling: Telling, said: Instruction) -> bool:
    """Whether "all together" is of the strings just told in one breath, and not of what is told over next."""
    last, coming = telling.last(), telling.coming
    if last is None or said.start - last.end > NEXT_TO or not telling.near(said, 1):
        return False
    if coming is not None and coming.kind == "note" and coming.start - said.end <= NEXT_TO:
        of = telling.sentences.of
        if of(said.start) != last.sentence or of(coming.start) == last.sentence:
            return False
    return len(last.voices) == 1 and _in_one_breath(telling) >= A_PAIR


def _are_far(joined: list[Step]) -> bool:
    """Whether more than a sentence for each note lies between the first and the last."""
    return joined[-1].sentence - joined[0].sentence > max(NEAR, len(joined) - 1)


def _points_ahead(telling: Telling, said: Instruction, last: Step | None) -> bool:
    """Whether the words are of strings whose frets are told next; announces them."""
    if said.text("side") == AHEAD and lies_on_strings(telling, said):
        return True
    if said.text("side") in (AHEAD, OVER):
        telling.moved_over = said.end if said.text("side") == OVER else telling.moved_over
        telling.together_at = said.start
        strings = telling.strings_of(said) or _both_again(telling, said)
        announce(telling, strings, said.start, is_for_good(telling, said))
        if not strings:
            telling.chord_at, telling.chord_voices = said.end, A_PAIR
    elif _names_strings(telling, said, last):
        announce(telling, telling.namings[-1].strings, said.start, is_for_good(telling, said))
    elif _comes_first(telling, said, last):
        _await(telling, said)
    else:
        return False
    return True


def _both_again(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The strings struck as one before, where "back to both" goes on with them."""
    back = telling.said_between(said.start, said.end) & {*telling.words.going_back, *telling.words.again}
    return row_of_section(telling) if back else ()


def _lies_across(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether the bare fret just told is on all strings of the passage's stroke: "the seventh fret, both"."""
    words = telling.said_between(said.start, said.end)
    count = A_TRIAD if words & {*telling.words.three} else A_PAIR
    if not words & {*telling.words.both, *telling.words.three} or said.start - last.end > NEXT_TO:
        return False
    if not _is_bare(last) or (count == A_TRIAD and _in_one_sentence(telling) >= count):
        return False
    row = row_of_section(telling, count)
    if len(row) != len(set(row)) or len(row) < count:
        return False
    telling.change_last(voices=tuple(Voice(last.frets[0], one) for one in row), end=said.end)
    return True


def _is_bare(step: Step) -> bool:
    return len(step.voices) == 1 and not step.voices[0].named and step.how in ("pick", "slide")


def _in_one_sentence(telling: Telling) -> int:
    """How many notes, each on a string that is named, end the talk so far in the sentence of the last."""
    run = telling.steps[-telling.trailing() :]
    return sum(len(step.voices) == 1 and bool(step.voices[0].named or step.before) for step in run)


def _strike_as_one(telling: Telling, said: Instruction, joined: list[Step]) -> None:
    """Makes one stroke of the last steps."""
    marks = tuple(dict.fromkeys(mark for step in joined for mark in step.marks))
    bent = tuple(_own_bend(step, voice) for step in joined for voice in known(step))
    del telling.steps[-len(joined) :]
    end = joined[-1].end
    words = telling.said_between(joined[0].start, said.end)
    bass = any(step.bass for step in joined) or is_thumbed([*words], telling.words)
    how = "harmonic" if all(step.how == "harmonic" for step in joined) else "pick"
    one = replace(joined[0], voices=bent, end=end, marks=marks, how=how, bend=None, placed=False)
    telling.steps.append(replace(one, bass=bass))
    telling.note_until = max(telling.note_until, said.end)


def _take_apart(telling: Telling, said: Instruction) -> None:
    """Makes a note each of the strings just struck as one: "the A, the D and the G, one after the other"."""
    last = telling.last()
    if last is None or len(last.voices) < 2 or said.start - last.end > FAR_FROM or not telling.near(said, 1):
        return
    telling.steps[-1:] = [replace(last, voices=(voice,)) for voice in last.voices]
    telling.pair_open, telling.abreast = -1, Abreast()


def _struck_before(telling: Telling, said: Instruction, last: Step | None) -> None:
    """Several strings were struck just before, and are spoken of; else what is so struck comes next."""
    telling.change_last(placed=False)
    if last is not None and _go_on_together(telling, said, last):
        announce(telling, tuple(voice.named for voice in last.voices), last.start)
    if last is not None and telling.near(said, 1) and is_for_good(telling, said):
        announce(telling, tuple(voice.named for voice in last.voices), last.start, lasts=True)
    if last is not None and 0 <= said.start - last.end <= NEXT_TO:
        telling.change_last(end=said.end)
    if last is None or said.start - last.end > FAR_FROM:
        _await(telling, said)


def _go_on_together(telling: Telling, said: Instruction, last: Step) -> bool:
    """Whether frets follow at once for the strings just struck: "so both of them, zero two, zero three"."""
    coming, both = telling.coming, telling.said_between(said.start, said.end) & {*telling.words.both}
    if coming is None or coming.kind != "note" or coming.all("string"):
        return False
    if not both or not telling.near(said, 1):
        return False
    return coming.start - said.end <= NEXT_TO and all(voice.named for voice in last.voices)


def _await(telling: Telling, said: Instruction) -> None:
    """What is struck at once is told next: "they come in together, the B at the fourth fret ..."."""
    telling.together_at = said.start
    telling.chord_at, telling.chord_voices = said.end, _voices_ahead(telling, said)


def _voices_ahead(telling: Telling, said: Instruction) -> int:
    """How many strings are struck at once next: all told in a row, with a fret each, or a pair.

    A pinch ends with "and": "pinch 2 on the D, 2 on the G, and 3 on the B".
    """
    spoken = telling.said_between(said.start, said.end)
    if spoken & {*telling.words.both}:
        return A_PAIR
    row = list(_row_ahead(telling))
    if spoken & {*telling.words.pinching}:
        row = row[: 1 + next((at for at, (_, linked) in enumerate(row) if linked), 0)]
    twice = len({strings for strings, _ in row}) < len(row)
    return A_PAIR if twice else max(A_PAIR, len(row))  # ... two voices that go on together, note for note


def _row_ahead(telling: Telling) -> Iterator[tuple[Strings, bool]]:
    """The strings of notes told next in one breath, each by itself, and whether "and" leads to it."""
    end, sentence = -1, -1
    for one in telling.following:
        strings, spoken = telling.strings_of(one), telling.said_between(end, one.end) if end >= 0 else set()
        alone = one.kind == "note" and len(strings) == len(one.all("fret")) == 1
        first = end < 0
        near = first or (one.start - end <= NEXT_TO and telling.sentences.of(one.start) == sentence)
        if not (alone and near) or spoken & {*telling.words.moving_on}:
            return
        yield strings[0], bool(spoken & {*telling.words.joining})
        end, sentence = one.end, telling.sentences.of(one.start)


def fingers_strike(telling: Telling, said: Instruction) -> bool:
    """Whether the fingers are told with their strings and strike these: "the fingers are 3 on the D ..."."""
    row = [strings for strings, _ in _row_ahead(telling)]
    close = bool(telling.following) and telling.following[0].start - said.end <= NEXT_TO
    if not close or not A_PAIR <= len({*row}) == len(row):
        return False
    telling.together_at, telling.chord_at, telling.chord_voices = said.start, said.end, len(row)
    return True


def _names_strings(telling: Telling, said: Instruction, last: Step | None) -> bool:
    """Whether only strings were named so far: their frets are told next, for all of them at once."""
    naming = telling.namings[-1] if telling.namings else None
    if naming is None or len(naming.strings) < 2 or (last is not None and last.start > naming.at):
        return False
    return naming.sentence == telling.sentences.of(said.start)


def _comes_first(telling: Telling, said: Instruction, last: Step | None) -> bool:
    """Whether "pinch" opens the sentence, so that the notes to pinch come after it."""
    words = telling.said_between(said.start, said.end)
    if not words & set(telling.words.pinching) or words & set(telling.words.struck):
        return False
    return last is None or last.sentence < telling.sentences.of(said.start)


def _to_join(telling: Telling, said: Instruction) -> list[Step]:
    """The last single notes: two or three where so many are spoken of; else those told in one breath."""
    words, last = telling.said_between(said.start, said.end), telling.steps[-1]
    every = bool(words & set(telling.words.every))
    told = max(2, _in_one_breath(telling)) if not words & set(telling.words.two) else 2
    most = MOST if every else 3 if words & set(telling.words.three) else told
    if every and words & set(telling.words.three):
        most = A_TRIAD
    joined: list[Step] = []
    for step in reversed(telling.steps[-MOST:]):
        taken = {string for one in joined for string in one.voices[0].named}
        if len(joined) == most or len(step.voices) > 1:
            break
        apart = step.sentence != (joined[0] if joined else last).sentence
        spells = not apart or _spells(telling, step, joined[0], counted=most < MOST)
        if every and (taken & set(step.voices[0].named) or not spells):
            break
        joined.insert(0, step)
    return joined


def _spells(telling: Telling, step: Step, after: Step, *, counted: bool) -> bool:
    """Whether each of the two notes is a sentence of its own: "A string, 5. D string, 7. All at once"."""
    onward = telling.said_between(step.end, after.end) & {*telling.words.moving_on}
    next_to = after.sentence - step.sentence == 1 and after.start - step.end <= NEXT_TO
    named = len(step.voices[0].named) == len(after.voices[0].named) == 1
    return next_to and named and step.how == after.how == "pick" and (counted or not onward)


def _in_one_breath(telling: Telling) -> int:
    """How many single notes end the talk so far, each on a string of its own that was named with it."""
    count, taken, after = 0, set[int](), telling.steps[-1]
    for step in reversed(telling.steps[-MOST:]):
        named = set(step.voices[0].named)
        close = step.sentence == after.sentence and after.start - step.end <= NEXT_TO
        turned = count and telling.said_between(step.end, after.end) & set(telling.words.moving_on)
        alone = len(step.voices) > 1 or step.how != "pick" or step.again or len(named) != 1
        if not close or turned or alone or named & taken:
            break
        count, after = count + 1, step
        taken |= named
    return count


def _leads_to_other(telling: Telling, said: Instruction) -> bool:
    """Whether "and at the same time" leads on to the other note of the stroke."""
    words = telling.said_between(said.start, said.end)
    named = words & {*telling.words.two, *telling.words.three, *telling.words.struck, *telling.words.pinching}
    return not named and bool(words & set(telling.words.joining)) and leads_on(telling, said)


def _makes_three(telling: Telling, said: Instruction) -> bool:
    """Whether a pair and the note beside it are the three that are struck as one."""
    last, before = telling.last(), telling.last(2)
    three = telling.said_between(said.start, said.end) & set(telling.words.three)
    if not three or last is None or before is None or len(last.voices) + len(before.voices) != A_TRIAD:
        return False
    return last.sentence == before.sentence and fits(before, last)


def _own_bend(step: Step, voice: Voice) -> Voice:
    return replace(voice, how=step.how, bend=step.bend) if step.how == "bend" else voice
