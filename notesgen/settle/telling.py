"""Instructions to steps: the telling followed as a listener would, from first word to last.

A listener remembers the string last named, the notes just told, whether a correction is pending and
whether the words that come are to be played at all. That memory is `Telling`; it lives for one lesson.
"""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from notesgen.lesson.model import How, Mark
from notesgen.settle.placed import held
from notesgen.settle.repeats import Loop
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step, Strings, Voice
from notesgen.settle.strings import StringNames
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Item

SPELLED_WITHIN = 8  # items within which a moved shape is spelled out
CORRECTION_REACH = 6  # items within which what replaces a slip has to come
_STRIKES = frozenset({"play", "pick", "pluck", "hit", "strike", "plays", "pinch", "strum"})
ODD = 1.5  # reading doubt from which a bare number needs guitar talk around it to count


class Naming(Struct, frozen=True):
    """A string named on its own at item `at`; `used` counts the notes that it has reached."""

    at: int
    end: int
    strings: tuple[Strings, ...]
    sentence: int


class Cue(Struct, frozen=True):
    """Words at item `at` that announce a recap; a weak one holds for its own sentence only."""

    at: int
    weak: bool


class Told(Struct, frozen=True):
    """What the talk told: steps in order, strings named on their own, passages to repeat, recap cues."""

    steps: tuple[Step, ...]
    namings: tuple[Naming, ...]
    loops: tuple[Loop, ...]
    recaps: tuple[Cue, ...]
    outside: tuple[int, ...]
    sections: tuple[int, ...]
    seams: tuple[int, ...]
    held: frozenset[int]
    references: tuple[Instruction, ...]
    skipped: tuple[Instruction, ...]


class Telling:
    """The listener's memory while the instructions go by."""

    def __init__(
        self, items: tuple[Item, ...], names: StringNames, drop: int | None, numbers: frozenset[str]
    ) -> None:
        self.items = items
        self.names = names
        self.drop = drop
        self.numbers = numbers
        self.sentences = Sentences(items)
        self.steps: list[Step] = []
        self.namings: list[Naming] = []
        self.loops: list[Loop] = []
        self.recaps: list[Cue] = []
        self.outside: list[int] = []
        self.sections: list[int] = [0]
        self.seams: list[int] = []
        self.references: list[Instruction] = []
        self.skipped: list[Instruction] = []
        self.correcting: Instruction | None = None
        self.restated: Step | None = None
        self.harmonics_from = -2
        self.pair_open = -1
        self.placing_at = -1
        self.chord_at = -100
        self.chord_voices = 3
        self.shape: tuple[Voice, ...] = ()
        self.not_played_until = 0
        self.harmonic_fret: int | None = None
        self.next_marks: tuple[Mark, ...] = ()

    def told(self) -> Told:
        """Everything told so far."""
        return Told(
            tuple(self.steps),
            tuple(self.namings),
            tuple(self.loops),
            tuple(self.recaps),
            tuple(self.outside),
            tuple(self.sections),
            tuple(self.seams),
            held(self.steps),
            tuple(self.references),
            tuple(self.skipped),
        )

    # what the listener looks back on

    def last(self, back: int = 1) -> Step | None:
        """The step told so many steps ago."""
        return self.steps[-back] if len(self.steps) >= back else None

    def last_strings(self) -> Strings:
        """The strings of what was last named or told, for "next" and "same"."""
        naming = self.namings[-1] if self.namings else None
        for step in reversed(self.steps):
            named = tuple(v.named[0] for v in step.voices if len(v.named) == 1)
            if named:
                later = naming and naming.at > step.start
                return _only(naming.strings) if naming and later else named
        return _only(naming.strings) if naming else ()

    def strings_of(self, instruction: Instruction, slot: str = "string") -> tuple[Strings, ...]:
        """The strings that a slot of the instruction names; one tuple of candidates each."""
        code = instruction.text(slot)
        return self.names.resolve(code, self.last_strings()) if code else ()

    def in_section(self) -> list[Step]:
        """The steps of the section that is being told."""
        return [step for step in self.steps if step.section == len(self.sections)]

    def trailing(self) -> int:
        """How many of the last steps stand in one sentence, and the one before when it ended in them."""
        if not self.steps:
            return 0
        sentence = self.steps[-1].sentence
        return sum(1 for step in self.steps if step.sentence == sentence)

    def anaphoric(self, start: int) -> bool:
        """Whether the fret named at item `start` points back: "that 7", "the 7", "from 7"."""
        here = self.items[start].text
        before = self.items[start - 1].text if start else ""
        return here in ("that", "the", "this", "those") or before in ("from", "that", "the")

    # what the listener adds

    def add(
        self,
        instruction: Instruction,
        voices: Iterable[Voice],
        how: How = "pick",
        **more: object,
    ) -> Step:
        """Adds a step said by the instruction; takes the place of the last one when it corrects it."""
        step = Step(
            voices=tuple(voices),
            start=instruction.start,
            end=instruction.end,
            sentence=self.sentences.of(instruction.start),
            section=len(self.sections),
            how=how,
            doubt=instruction.doubt,
            misheard=instruction.misheard,
            before=self._in_force(instruction.start),
            placed=self._is_placed(instruction.start),
        )
        if how == "pick" and step.sentence - self.harmonics_from in (0, 1):
            step = replace(step, how="harmonic")
        step = replace(step, **more)
        if self.next_marks:
            step = replace(step, marks=(*step.marks, *self.next_marks))
            self.next_marks = ()
        if self.restated is not None:
            step = replace(step, corrected=self.restated.corrected, how=self.restated.how)
            self.restated = None
        if self.correcting is not None and instruction.start - self.correcting.end > CORRECTION_REACH:
            self.correcting = None
        if self.correcting is not None and self.steps:
            step = self._corrected(step)
        self.steps.append(step)
        self._fold_retold()
        return step

    def _is_placed(self, at: int) -> bool:
        """Whether a finger was put down earlier in the same sentence, with no word of playing since."""
        if self.placing_at < 0 or self.sentences.of(self.placing_at - 1) != self.sentences.of(at):
            return False
        return not _STRIKES & {item.text for item in self.items[self.placing_at : at]}

    def _in_force(self, at: int) -> Strings:
        """All strings named on their own since the last step, or in force for it in this sentence."""
        last, sentence = self.last(), self.sentences.of(at)
        for naming in reversed(self.namings[-2:]):
            near = sentence - naming.sentence <= 1
            if near and naming.at <= at and (last is None or naming.at > last.start):
                return tuple(string for candidates in naming.strings for string in candidates)
        return last.before if last and last.sentence == sentence else ()

    def _fold_retold(self) -> None:
        """Takes back notes that spell out a shape just moved: "up two frets, so 14 on the G, 13 on the B"."""
        for size in (1, 2, 3):
            spelled = self.steps[-size:]
            moved = self.steps[-size - 1] if len(self.steps) > size else None
            if moved is None or moved.origin != "derived" or moved.retold or len(moved.voices) < 2:
                continue
            frets = tuple(fret for step in spelled for fret in step.frets)
            close = spelled[0].start - moved.end <= SPELLED_WITHIN
            agree = sum(fret in moved.frets for fret in frets)
            plain = all(step.how == "pick" and not step.again for step in spelled)
            if len(frets) == len(moved.voices) and close and plain and agree * 2 >= len(frets):
                self.steps[-size - 1 :] = [replace(moved, retold=frets)]
                return

    def change_last(self, **more: object) -> None:
        """Changes the last step."""
        if self.steps:
            self.steps[-1] = replace(self.steps[-1], **more)

    def mark_last(self, mark: Mark) -> None:
        """Adds a mark to the last step, once."""
        last = self.last()
        if last and mark not in last.marks:
            self.change_last(marks=(*last.marks, mark))

    def _corrected(self, step: Step) -> Step:
        """The step that replaces the last one; keeps of it what the new words leave out."""
        wrong = self.steps.pop()
        self.correcting = None
        said = " and ".join(str(fret) for fret in wrong.frets)
        voices = step.voices
        if len(voices) == 1 and not voices[0].named and len(wrong.voices) == 1:
            voices = (replace(voices[0], named=wrong.voices[0].named),)
        if len(voices) == 1 and len(wrong.voices) == 2:
            voices = (wrong.voices[0], *voices) if voices[0].named else (wrong.voices[0], replace(voices[0], named=wrong.voices[1].named))
        how = wrong.how if step.how == "pick" else step.how
        return replace(
            step,
            voices=voices,
            how=how,
            bend=step.bend if step.bend is not None else wrong.bend if how == wrong.how else None,
            marks=(*wrong.marks, *(m for m in step.marks if m not in wrong.marks)),
            corrected=said,
            before=step.before or wrong.before,
        )


def _only(strings: tuple[Strings, ...]) -> Strings:
    return tuple(candidates[0] for candidates in strings if candidates)
