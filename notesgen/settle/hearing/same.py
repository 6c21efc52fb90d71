"""References that retell elsewhere: "same on the G". What they mean is written out, unless it is spelled."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step
from notesgen.speech.instructions import Instruction

NEAR = 1  # sentences within which the run that is meant was told
SPELLED = 16  # items within which the reference is spelled out after all


def tell_again(telling: Telling, said: Instruction) -> None:
    """Adds the run just told once more on the named string, each step marked as derived."""
    naming = telling.namings[-1] if telling.namings else None
    strings = naming.strings if naming and naming.at == said.start else ()
    last = telling.last()
    sentence = telling.sentences.of(said.start)
    if len(strings) != 1 or last is None or sentence - last.sentence > NEAR:
        return
    run = _run(telling, last)
    if any(len(step.voices) != 1 for step in run) or _spelled_after(telling, said):
        return
    for step in run:
        voice = replace(step.voices[0], named=strings[0])
        copy = replace(
            step, voices=(voice,), origin="derived", start=said.start, end=said.end, sentence=sentence
        )
        telling.steps.append(replace(copy, corrected="", marks=step.marks))


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
    after = telling.items[said.end : said.end + SPELLED]
    sentence_end = telling.sentences.end(telling.sentences.of(said.end - 1))
    near = [item for at, item in enumerate(after, start=said.end) if at < sentence_end + SPELLED // 2]
    return any(item.text in telling.numbers or item.text in telling.words.open for item in near)
