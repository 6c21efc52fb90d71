"""References: "same on the G", "now backwards". What they mean is written out, unless it is spelled."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import takewhile

from msgspec.structs import replace

from notesgen.lesson.model import BENDS, LEGATO, Fret
from notesgen.settle.hearing import moved
from notesgen.settle.hearing.alike import expect
from notesgen.settle.hearing.another_end import says_end_over, with_another_end
from notesgen.settle.hearing.numbered_parts import part_called
from notesgen.settle.hearing.passages import passage
from notesgen.settle.hearing.recall import counts_a_fret
from notesgen.settle.hearing.restruck import worked_out
from notesgen.settle.hearing.slots import frets_of, slot_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.hearing.told_out import is_told_out
from notesgen.settle.step import Step, Strings, Voice
from notesgen.settle.strings import SAME_PAIR
from notesgen.settle.told import read_count
from notesgen.speech.instructions import Instruction

NEAR = 1  # sentences within which the run that is meant was told
NEAR_NAMED = 8  # ... where the string is named with the reference, so that nothing else can be meant
TOLD_ANEW = 24  # items within which what differs is told: "but attention, it begins on the 4"
TALK = frozenset({"aside", "position"})  # numbers in these spell nothing out: "so you're in seventh position"
NOTES = frozenset({"note", "letter"})  # what tells notes one by one
SPELLED = 16  # items within which the reference is spelled out after all
OCTAVE = "octave"  # the slot "label" of what lies an octave away
LAST_TIME = "last time"  # ... of the round that closes a repeat
THERE = "there"  # ... of what is told over on the string named since
STAYING = ("same", SAME_PAIR)  # the slot "string" of an octave on the strings of the passage itself
UP, DOWN = "up", "down"  # the way of a reference that moves along the neck
BACKWARDS = "backwards"  # ... and of what is turned round
AT_ONCE = 2  # items between a string named alone and "the same" that goes there
A_PHRASE = 2  # notes from which one is told over with another end
LONGEST = 16  # notes of a passage that are told over by one reference


def for_each_string(said: Instruction) -> Iterator[Instruction]:
    """The reference to each string that it names: "the same on the D and on the G"."""
    strings = [slot for slot in said.slots if slot.name == "string"]
    others = [slot for slot in said.slots if slot.name != "string"]
    if len(strings) < 2:
        yield said
        return
    for string in strings:
        yield replace(said, slots=(*others, string))


def tell_again(telling: Telling, said: Instruction) -> None:
    """Adds what was just told once more, as the reference moves it, each step marked as derived."""
    last = telling.last()
    if last is not None and said.text("string") and last.start < said.start < last.end:
        _play_alike(telling, said)
        return
    if _spelled_after(telling, said) and not says_end_over(telling, said):
        if last is not None and (_is_restrung(said) or said.text("label") == THERE):
            how = said.text("how")
            expect(telling, _done(telling, how) if how else _run(telling, last))
        elif said.text("label") == BACKWARDS:
            expect(telling, _turned_as_spelled(telling))
        elif said.text("by") and said.text("label") is None:
            expect(telling, _moved_as_spelled(telling, said))
        return
    if _is_restrung(said) or said.text("label") == THERE:
        add(telling, said, _on_another_string(telling, said))
        return
    if said.text("label") == LAST_TIME:
        _end_otherwise(telling, said)
        return
    run = meant(telling, said)
    if not run or len(run) > LONGEST:
        telling.unwritten.append(said)
        return
    label, fret = said.text("label"), said.whole("fret")
    if label == OCTAVE and said.text("string") not in STAYING:
        places = _begun_there(telling, said, moved.octaves(run, _by(said), telling.names.opens))
        add(telling, said, places[0] if places else None, places[1:])
    elif label == BACKWARDS:
        add(telling, said, moved.backwards(run))
    elif fret is not None:
        add(telling, said, with_another_end(telling, said, run))
    else:
        copies = moved.by_frets(run, _by(said))
        if not is_told_out(telling, said, copies or ()):
            add(telling, said, copies)


def _is_restrung(said: Instruction) -> bool:
    """Whether the same frets are meant on another string, and not an octave that lies there."""
    return said.text("string") is not None and said.text("label") != OCTAVE


def _begun_there(telling: Telling, said: Instruction, places: list[list[Step]]) -> list[list[Step]]:
    """The copies that begin on the string of the reference; all where it names none."""
    strings = {string for one in telling.strings_of(said) for string in one}
    return [run for run in places if not strings or strings.issuperset(run[0].voices[0].named)]


def _play_alike(telling: Telling, said: Instruction) -> None:
    """The string was that of the note before, which is bent as one before it: "14 on the G, same bend"."""
    bent = [step for step in telling.steps[-LOOK_BACK:-1] if step.how == said.text("how") in BENDS]
    if bent:
        telling.change_last(how=bent[-1].how, bend=bent[-1].bend)


def _moved_as_spelled(telling: Telling, said: Instruction) -> list[Step]:
    """The last notes, moved as was said, as many as agree with the frets that are told next."""
    frets = _frets_ahead(telling)
    for size in range(min(len(frets), len(telling.steps)), 1, -1):
        copies = moved.by_frets(moved.settled(telling.steps[-size:]), _by(said)) or []
        if [step.frets for step in copies] == [(fret,) for fret in frets[:size]]:
            return [replace(step, copied=True) for step in copies]
    return []


def _turned_as_spelled(telling: Telling) -> list[Step]:
    """The last notes from their end to their start, as the frets told next agree with them.

    The note on which the run turns round may be told again or not.
    """
    frets = [(fret,) for fret in _frets_ahead(telling)]
    turned = moved.backwards(moved.settled(telling.steps[-LONGEST:]))
    for run in (turned, turned[1:]):
        if [step.frets for step in run[: len(frets)]] == frets:
            return [replace(step, copied=True) for step in run[: len(frets)]]
    return []


def _frets_ahead(telling: Telling) -> list[Fret]:
    """The frets told next without a string."""
    told = takewhile(lambda one: one.kind == "note" and not one.all("string"), telling.following)
    return [fret for one in told for fret in frets_of(one, "fret")]


def _end_otherwise(telling: Telling, said: Instruction) -> None:
    """The last round of the repeat just told, or a second one, is written out with its own end."""
    loop = telling.loops[-1] if telling.loops else None
    fret, run = said.whole("fret"), moved.settled(_told_last(telling))
    if loop is not None and loop.last == len(telling.steps) - 1:
        run = telling.steps[loop.first : loop.last + 1]
    elif len(run) < A_PHRASE or len(run) > LONGEST or said.start - run[-1].end > AT_ONCE:
        run = []
    if fret is None or not run:
        telling.unwritten.append(said)
        return
    if loop is not None and loop.last == len(telling.steps) - 1:
        telling.loops.pop()
        if loop.times > 2:
            telling.loops.append(replace(loop, times=loop.times - 1))
    add(telling, said, moved.ending_on(run, fret))


def _by(said: Instruction) -> int:
    """How far the reference moves, told as "2", with its side, or as "down 2": below 0 for lower ones."""
    told = said.text("by") or ""
    by, _ = read_count(told.removeprefix(f"{UP} ").removeprefix(f"{DOWN} "))
    return -by if told.startswith(DOWN) or said.text("side") == DOWN else by


def _is_named_since(telling: Telling, said: Instruction) -> bool:
    """Whether a string was named alone since the last note, right before "the same"."""
    naming = telling.named_since()
    return telling.last() is not None and naming is not None and said.start - naming.end <= AT_ONCE


def _on_another_string(telling: Telling, said: Instruction) -> list[Step]:
    """The run just told on the string of the reference, or on the one named alone since."""
    naming, last = telling.namings[-1] if telling.namings else None, telling.last()
    if naming is None or last is None or len(naming.strings) != 1:
        return []
    named = _is_named_since(telling, said) if said.text("label") == THERE else naming.at == said.start
    one_fret = counts_a_fret(telling, said)
    near = NEAR if said.text("label") == THERE and not one_fret else NEAR_NAMED
    if not named or telling.sentences.of(naming.at) - last.sentence > near:
        return []
    if one_fret:
        return [replace(last, voices=(Voice(said.whole("count") or 0, naming.strings[0]),), how="pick")]
    how = said.text("how")
    run = _done(telling, how) if how else _so_many(_run(telling, last), said.whole("count") or 0)
    if _is_copy(telling, run):
        return []
    copies = moved.on_string(run, naming.strings[0])
    if copies and (fret := said.whole("fret")) is not None:
        copies = moved.ending_on(copies, fret) or []
    return copies if naming.by is None else moved.on_one(copies)


def _done(telling: Telling, how: str) -> list[Step]:
    """The notes that were last played so, from the stroke on which they hang: "that same pull-off"."""
    recent = telling.steps[-LOOK_BACK:]
    ends = [at for at, step in enumerate(recent) if step.how == how]
    if not ends:
        return []
    first = ends[-1]
    while first and recent[first].how in LEGATO:
        first -= 1
    return recent[first : ends[-1] + 1]


def _is_copy(telling: Telling, run: list[Step]) -> bool:
    """Whether the run is itself what was told before on another string: then the words only remark on it."""
    before = telling.steps[-2 * len(run) : -len(run)] if run else []
    alike = [(step.frets, step.how) for step in before] == [(step.frets, step.how) for step in run]
    return alike and len(run) > 1 and not run[-1].copied


def _so_many(run: list[Step], count: int) -> list[Step]:
    """The last notes of the run, as many as were counted; all where it counts places, or counts none."""
    places = {step.frets for step in run}
    return run if not count or len(places) == count else run[-count:]


def meant(telling: Telling, said: Instruction) -> list[Step]:
    """The notes that the reference means, with the strings in force: a part, a shape, or what came last."""
    if (number := said.whole("part")) is not None:
        return moved.settled(part_called(telling, number, said.start))
    return moved.settled(_shape_meant(telling, said) or _alike_struck(_told_last(telling)))


def _told_last(telling: Telling) -> list[Step]:
    """The passage that is meant: what was copied last, else what was told before it was summed up."""
    run = [telling.steps[place] for place in passage(telling, whole=False)]
    if run and run[-1].copied:
        return [step for step in run if step.copied and step.start == run[-1].start]
    summed_up = telling.recaps[-1].at if telling.recaps else -1
    return _without_echo(telling, [step for step in run if step.start < summed_up] or run)


def _without_echo(telling: Telling, run: list[Step]) -> list[Step]:
    """The passage without bare frets that sum it up: "5, 7 on the D, 5 on the G. So 5, 7, 5"."""
    half = len(run) // 2
    for size in range(half, A_PHRASE - 1, -1):
        told, echo = run[-2 * size : -size], run[-size:]
        bare = not any(voice.named for step in echo for voice in step.voices)
        alike = [step.frets for step in told] == [step.frets for step in echo]
        lead = telling.said_between(told[-1].end, echo[0].start + 1)
        if bare and alike and lead & {*telling.words.summing_up}:
            return run[:-size]
    return run


def _alike_struck(run: list[Step]) -> list[Step]:
    """The run without the single notes that were told before what is struck as one."""
    struck = list(takewhile(lambda step: len(step.voices) > 1, reversed(run)))
    return struck[::-1] or run


def _shape_meant(telling: Telling, said: Instruction) -> list[Step]:
    """The pair or chord just struck, where a shape is spoken of that moves along the neck."""
    last = telling.last()
    shape = telling.said_between(said.start, said.end) & set(telling.words.shapes)
    return [last] if last is not None and shape and said.all("by") and len(last.voices) > 1 else []


def add(
    telling: Telling,
    said: Instruction,
    copies: Sequence[Step] | None,
    elsewhere: Sequence[Sequence[Step]] = (),
) -> None:
    """Adds the copies; what could not be written out is kept, to be asked about."""
    if copies is None:
        telling.unwritten.append(said)
        return
    for at, step in enumerate(copies):
        telling.steps.append(
            replace(
                worked_out(telling, said, step),
                copied=True,
                restrung=bool(said.text("string")),
                letter="",
                elsewhere=tuple(steps[at].voices for steps in elsewhere),
            )
        )


def _run(telling: Telling, last: Step) -> list[Step]:
    """The steps of the last sentence that has any, up to where its string changes."""
    run: list[Step] = []
    for step in reversed(telling.steps):
        named = {voice.named for voice in step.voices if voice.named}
        led = bool(run) and not named and bool(run[0].before) and step.before != run[0].before
        if step.sentence != last.sentence or led or (run and named and _is_left(run, named)):
            break
        run.insert(0, step)
    return run


def _is_left(run: list[Step], named: set[Strings]) -> bool:
    """Whether the run is on other strings than those named; where it names none it stays on them."""
    held = {voice.named for step in run for voice in step.voices if voice.named}
    return held != named if held else bool(run[0].before)


def _spelled_after(telling: Telling, said: Instruction) -> bool:
    """Whether the teacher spells the run out: its frets come at once, with no other string and no "then"."""
    if said.text("string") or said.text("label") == THERE:
        return _frets_follow(telling, said)
    coming = telling.coming
    at_once = coming is not None and coming.kind in NOTES and coming.start - said.end <= AT_ONCE
    if said.text("label") == BACKWARDS and at_once:
        return True  # "you go back the way you came. Five on the A, ..."
    end = min(telling.sentences.end(telling.sentences.of(said.end - 1)), said.end + SPELLED)
    idle = {at for one in telling.following if one.kind in TALK for at in range(one.start, one.end)}
    after = {telling.items[at].text for at in range(said.end, end) if at not in idle}
    return bool(after & (telling.numbers | set(telling.words.open)))


def _frets_follow(telling: Telling, said: Instruction) -> bool:
    """Whether the next notes are told by their frets and are on the string of the reference, which the notes
    tell better where it was only named by the one before: "one string thinner, so the A, open".
    """
    if _differs(telling, said):
        return True
    coming = telling.coming
    if coming is None or coming.start - said.end > SPELLED or not (coming.all("fret") or coming.all("from")):
        return False
    lead = slot_of(coming, "fret" if coming.all("fret") else "from").start
    if telling.said_between(said.end, max(lead, coming.start + 1)) & set(telling.words.moving_on):
        return False
    strings, naming = telling.strings_of(coming), telling.namings[-1] if telling.namings else None
    if not strings or naming is None or naming.by is not None:
        return True
    return not set(strings[0]).isdisjoint(naming.strings[0])


def _differs(telling: Telling, said: Instruction) -> bool:
    """Whether it is told anew because it differs: "the same there, but attention, it begins on 4"."""
    if said.end >= len(telling.items) or telling.items[said.end].text not in telling.words.differing:
        return False
    near = [one for one in telling.following if one.start - said.end <= TOLD_ANEW]
    told = next((one for one in near if one.all("fret") or one.all("from")), None)
    return told is not None and not telling.said_between(said.end, told.start) & set(telling.words.moving_on)
