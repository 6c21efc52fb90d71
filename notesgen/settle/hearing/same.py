"""References: "same on the G", "now backwards". What they mean is written out, unless it is spelled."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.settle.hearing import moved
from notesgen.settle.hearing.counts import passage
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings
from notesgen.settle.told import read_count
from notesgen.speech.instructions import Instruction

NEAR = 1  # sentences within which the run that is meant was told
SPELLED = 16  # items within which the reference is spelled out after all
OCTAVE = "octave"  # the slot "label" of what lies an octave away
LAST_TIME = "last time"  # ... of the round that closes a repeat
BACKWARDS = "backwards"  # ... and of what is turned round
LONGEST = 16  # notes of a passage that are told over by one reference


def tell_again(telling: Telling, said: Instruction) -> None:
    """Adds what was just told once more, as the reference moves it, each step marked as derived."""
    if _spelled_after(telling, said):
        return
    if said.text("string"):
        _add(telling, said, _on_another_string(telling, said))
        return
    if said.text("label") == LAST_TIME:
        _end_otherwise(telling, said)
        return
    run = _settled(_meant(telling))
    if not run or len(run) > LONGEST:
        telling.unwritten.append(said)
        return
    label, fret = said.text("label"), said.whole("fret")
    if label == OCTAVE:
        places = moved.octaves(run, _by(said), telling.names.opens)
        _add(telling, said, places[0] if places else None, places[1:])
    elif label == BACKWARDS:
        _add(telling, said, moved.backwards(run))
    elif fret is not None:
        _add(telling, said, moved.ending_on(run, fret))
    else:
        _add(telling, said, moved.by_frets(run, _by(said)))


def _end_otherwise(telling: Telling, said: Instruction) -> None:
    """The last round of the repeat just told is written out, with its own end."""
    loop = telling.loops[-1] if telling.loops else None
    fret = said.whole("fret")
    if loop is None or fret is None or loop.last != len(telling.steps) - 1:
        telling.unwritten.append(said)
        return
    telling.loops.pop()
    if loop.times > 2:
        telling.loops.append(replace(loop, times=loop.times - 1))
    _add(telling, said, moved.ending_on(telling.steps[loop.first : loop.last + 1], fret))


def _by(said: Instruction) -> int:
    """How far the reference moves: semitones or frets, below 0 for lower ones."""
    by, _ = read_count(said.text("by"))
    return -by if said.text("side") == "down" else by


def _on_another_string(telling: Telling, said: Instruction) -> list[Step]:
    naming = telling.namings[-1] if telling.namings else None
    strings = naming.strings if naming and naming.at == said.start else ()
    last = telling.last()
    sentence = telling.sentences.of(said.start)
    if len(strings) != 1 or last is None or sentence - last.sentence > NEAR:
        return []
    copies = moved.on_string(_run(telling, last), strings[0])
    return copies if naming is None or naming.by is None else moved.on_one(copies)


def _meant(telling: Telling) -> list[Step]:
    """The passage that is meant: what was copied last, else what was told before it was summed up."""
    run = [telling.steps[place] for place in passage(telling, whole=False)]
    if run and run[-1].copied:
        return [step for step in run if step.copied and step.start == run[-1].start]
    summed_up = telling.recaps[-1].at if telling.recaps else -1
    return [step for step in run if step.start < summed_up] or run


def _settled(run: list[Step]) -> list[Step]:
    """The passage with the string in force on each note that has none of its own."""
    settled: list[Step] = []
    held: Strings = ()
    for step in run:
        named = tuple(voice.named or step.before or held for voice in step.voices)
        held = named[-1] if len(named) == 1 else ()
        voices = tuple(replace(v, named=one) for v, one in zip(step.voices, named, strict=True))
        settled.append(replace(step, voices=voices))
    return settled


def _add(
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
                step,
                origin="derived",
                copied=True,
                start=said.start,
                end=said.end,
                sentence=telling.sentences.of(said.start),
                section=len(telling.sections),
                corrected="",
                elsewhere=tuple(steps[at].voices for steps in elsewhere),
            )
        )


def _run(telling: Telling, last: Step) -> list[Step]:
    """The steps of the last sentence that has any, up to where its string changes."""
    run: list[Step] = []
    for step in reversed(telling.steps):
        named = {voice.named for voice in step.voices if voice.named}
        if step.sentence != last.sentence or (run and named and named != _named(run)):
            break
        run.insert(0, step)
    return run


def _named(run: list[Step]) -> set[tuple[int, ...]]:
    return {voice.named for step in run for voice in step.voices if voice.named} or {()}


def _spelled_after(telling: Telling, said: Instruction) -> bool:
    """Whether a number or an open string follows at once: then the teacher spells the run out."""
    end = telling.sentences.end(telling.sentences.of(said.end - 1))
    if said.text("string"):
        end += SPELLED // 2
    after = telling.said_between(said.end, min(end, said.end + SPELLED))
    return bool(after & (telling.numbers | set(telling.words.open)))
