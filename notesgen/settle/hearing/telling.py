"""The listener's memory while the instructions go by.

A listener remembers the string last named, the notes just told, whether a correction is pending and
whether the words that come are to be played at all. `Telling` is that memory; it lives for one lesson and
never leaves this room.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import takewhile
from types import MappingProxyType
from typing import Any

from msgspec.structs import replace

from notesgen.grammar.model import WordLists
from notesgen.lesson.model import LEGATO, Fret, How, Mark
from notesgen.settle.hearing.corrections import corrected
from notesgen.settle.hearing.hand import FINGERS, Hand, followed
from notesgen.settle.hearing.letters_placed import fold_letters
from notesgen.settle.hearing.patterns import tapped_alike
from notesgen.settle.hearing.placed import Grip, held
from notesgen.settle.hearing.slots import named_at, string_follows
from notesgen.settle.hearing.spelled import fold, is_elsewhere
from notesgen.settle.hearing.voices import is_bass, is_thumbed, lies_low, lowest, own_string, without_means
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Abreast, Announced, OwnShape, Relation, Rooted, Step, Strings, Voice
from notesgen.settle.strings import SAME, StringNames, relation
from notesgen.settle.told import Ahead, Cue, Heading, Loop, Naming, Told
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Item

LOOK_BACK = 8  # steps within which "that 7" finds its 7, and a release its bend
CORRECTION_REACH = 6  # items within which what replaces a slip has to come
SAME_STRING = "same"  # how the grammar writes "the same string"
SPELLED_LATER = 4  # sentences after which a copied passage is no longer told note by note
HARMONIC_FRETS = frozenset({5, 7, 12, 19, 24})  # where harmonics speak clearly; common practice, no source
FINGER_WITHIN = 3  # items between a finger and the fret that it plays


class Telling:
    """What has been told so far, and what the next words may build on."""

    def __init__(
        self,
        items: tuple[Item, ...],
        words: WordLists,
        names: StringNames,
        drop: int | None,
        numbers: frozenset[str],
        ordinals: frozenset[str],
        values: Mapping[str, int] = MappingProxyType({}),
    ) -> None:
        self.items = items
        self.words = words
        self.names = names
        self.drop = drop
        self.numbers, self.ordinals, self.values = numbers, ordinals, values
        self.sentences = Sentences(items)
        self.steps: list[Step] = []
        self.namings: list[Naming] = []
        self.spoken_of: list[Naming] = []
        self.loops: list[Loop] = []
        self.recaps: list[Cue] = []
        self.anew: list[Cue] = []
        self.outside: list[int] = []
        self.boxes: list[int] = []
        self.sections: list[Heading] = [Heading(0, 0)]
        self.seams: list[int] = []
        self.skipped: list[Instruction] = []
        self.unwritten: list[Instruction] = []
        self._expect_nothing()

    def _expect_nothing(self) -> None:
        """What is pending, and what kind of notes the next ones are: nothing yet."""
        self.correcting: Instruction | None = None
        self.counted_ahead: Instruction | None = None
        self.repeated_ahead: Ahead | None = None
        self.slips: list[Step] = []
        self.restated: Step | None = None
        self.withdrawn, self.strokes_due, self.picker, self.picker_at = "", 1, "", -2
        self.preceding: Instruction | None = None
        self.next_marks: tuple[Mark, ...] = ()
        self.amount_ahead: tuple[int, float] = (-1, 0.0)
        self.placing_at = self.earlier_at = self.note_until = self.rest_open_at = self.damped_at = -1
        self.finger_at, self.thumb_at, self.thumb = -2, -2, Strings()
        self.owned: dict[str, Strings] = {}
        self.called: dict[str, str] = {}
        self.hand: dict[int, Fret] = {}
        self.fretting, self.grip, self.abreast, self.own_shape = Hand(), Grip(), Abreast(), OwnShape()
        self.coming: Instruction | None = None
        self.following: tuple[Instruction, ...] = ()
        self.harmonic_fret: int | None = None
        self.counts_frets = self.harmonic_listed = False
        self.harmonics_from, self.harmonics_in, self.harmonics_at = -2, 0, -1
        self.shape: tuple[Voice, ...] = ()
        self.heard_until = self.row_until = self.fingers_until = self.not_played_until = self.slips_until = 0
        self.pair_open = self.named_alone = self.together_at = self.joining_at = self.apart_at = -1
        self.lettered: set[int] = set()
        self.letter_ahead: Instruction | None = None
        self.sliding, self.sliding_at, self.finger_ahead, self.alike_from = -1, 0, (-1, 0), -1
        self.piece = self.octaves_in = self.leaning = self.muted_in = self.bend_held = self.spelled_until = 0
        self.rooted, self.root_at, self.drone_at, self.moved_over = Rooted(), -1, -1, -100
        self.fifth, self.drone, self.keeping, self.kept_until = Rooted().rises, Voice(0), False, -1
        self.model: tuple[Step, ...] = ()
        self.announced: Announced | None = None
        self.turns: tuple[Voice, Voice] | None = None
        self.chord_at, self.chord_voices, self.folding, self.numbered = -100, 3, True, 0
        self.dealt, self.dealt_until, self.numbered_at, self.prebent_at = 1, 0, -1, -1

    def told(self) -> Told:
        """Everything told so far."""
        return Told(
            steps=tuple(tapped_alike(self.steps)),
            namings=tuple(self.namings),
            spoken_of=tuple(self.spoken_of),
            loops=tuple(self.loops),
            recaps=tuple(self.recaps),
            anew=tuple(self.anew),
            outside=tuple(self.outside),
            sections=tuple(self.sections),
            seams=tuple(self.seams),
            boxes=tuple(self.boxes),
            held=held(self.steps),
            skipped=tuple(self.skipped),
            unwritten=tuple(self.unwritten),
        )

    # what the listener looks back on

    def last(self, back: int = 1) -> Step | None:
        """The step told so many steps ago."""
        return self.steps[-back] if len(self.steps) >= back else None

    def named_since(self) -> Naming | None:
        """The strings named on their own since the last step; None where none were."""
        last, naming = self.last(), self.namings[-1] if self.namings else None
        return naming if naming and (last is None or naming.at > last.start) else None

    def last_strings(self) -> Strings:
        """The strings of what was last named or told, for "next" and "same"."""
        naming = self.namings[-1] if self.namings else None
        for step in reversed(self.steps):
            named = tuple(v.named[0] for v in step.voices if len(v.named) == 1)
            if named:
                return _only(naming.strings) if naming and naming.at > step.start else named
        return _only(naming.strings) if naming else ()

    def strings_of(self, instruction: Instruction, slot: str = "string") -> tuple[Strings, ...]:
        """The strings that a slot of the instruction names; one tuple of candidates each."""
        if len(listed := instruction.all(slot)) > 1:
            return tuple(one for code in listed for one in self.names.resolve(str(code), ()))
        code = instruction.text(slot)
        if not code or (code == SAME_STRING and self._is_carried()):
            return ()
        by = relation(code)
        if by is None:
            return self.names.resolve(code, self.last_strings())
        reached = (
            one
            for string in self._last_named()
            for found in self.names.resolve(code, (string,))
            for one in found
        )
        strings = tuple(dict.fromkeys(reached))
        return (strings,) if strings else ()

    def relation_of(self, instruction: Instruction) -> Relation | None:
        """How the slot "string" names its string by the one before, if it does."""
        code = instruction.text("string")
        return relation(code) if code else None

    def _last_named(self) -> Strings:
        """Every string that the note told last may be on; a naming since then counts as the note."""
        naming = self.namings[-1] if self.namings else None
        step = next((step for step in reversed(self.steps) if step.voices[-1].named), None)
        if naming and (step is None or naming.at > step.start):
            return naming.strings[-1]
        return step.voices[-1].named if step else ()

    def _relation(self, said: Instruction) -> Relation | None:
        """How a step names its string by that of the step before; None when one was named since."""
        last, by = self.last(), self.relation_of(said)
        if by is None or last is None or self.named_since():
            return None
        return by if last.start != said.start else SAME

    def _is_carried(self) -> bool:
        """Whether the last note had no string named: "the same string" is then wherever that note is."""
        last, naming = self.last(), self.namings[-1] if self.namings else None
        if last is None or any(voice.named for voice in last.voices):
            return False
        return naming is None or naming.at < last.start

    def trailing(self) -> int:
        """How many of the last steps stand in one sentence."""
        last = self.last()
        alike = takewhile(lambda step: last and step.sentence == last.sentence, reversed(self.steps))
        return sum(1 for _ in alike)

    def has_own_string(self, step: Step) -> bool:
        """Whether the last step's string was named: with its fret, or alone just before it."""
        naming, before = self.namings[-1] if self.namings else None, self.last(2)
        just = naming is not None and naming.at <= step.start and (not before or naming.at > before.start)
        return bool(step.voices[0].named) or just

    def is_led(self, said: Instruction) -> bool:
        """Whether a string named in front of its notes, in the same sentence, still holds."""
        if not self.near(said, 0):
            return False
        run = self.steps[-self.trailing() :]
        step = next((step for step in reversed(run) if step.voices[0].named or step.before), None)
        return step is not None and not step.closes

    def said_between(self, start: int, end: int) -> frozenset[str]:
        """The words of items `start` up to `end`."""
        return frozenset(item.text for item in self.items[max(0, start) : end])

    def amount_for(self, step: Step) -> float | None:
        """How far the step is bent, where that was told after it and before the word "bend"."""
        told_at, amount = self.amount_ahead
        return amount if step is self.last() and told_at >= step.end else None

    def anaphoric(self, start: int) -> bool:
        """Whether the fret named at item `start` points back: "that 7", "the 7", "from 7"."""
        pointing = {*self.words.pointing, *self.words.article}
        before = self.items[start - 1].text if start else ""
        return self.items[start].text in pointing or before in pointing | set(self.words.source)

    def near(self, instruction: Instruction, sentences: int) -> bool:
        """Whether the last step stands at most so many sentences before the instruction."""
        last = self.last()
        return last is not None and self.sentences.of(instruction.start) - last.sentence <= sentences

    # what the listener adds

    def add(self, said: Instruction, voices: Iterable[Voice], how: How = "pick", **more: Any) -> None:
        """Adds a step said by the instruction; takes the place of the last one when it corrects it."""
        step = Step(
            voices=tuple(voices),
            start=said.start,
            end=said.end,
            sentence=self.sentences.of(said.start),
            section=len(self.sections),
            how=how,
            doubt=said.doubt,
            misheard=said.misheard,
            before=self._in_force(said.start),
            placed=self._is_placed(said.start, named_at(said)),
            fingered=0 <= said.start - self.finger_at <= 1 and self.finger_at != self.thumb_at,
            closes=string_follows(said),
            by=self._relation(said),
            finger=self._finger_for(said),
        )
        if how == "pick" and self._is_harmonic(step):
            step = replace(step, how="harmonic")
            self.harmonic_fret, self.harmonic_listed = int(step.frets[0]), False
            self.harmonics_from = self.harmonics_from if self.harmonics_at >= 0 else -2
        step = self._in_its_voice(self._with_pending(replace(step, **more)))
        self._hold(step)
        if self.correcting is not None and said.start - self.correcting.end > CORRECTION_REACH:
            self.correcting = None
        if self.slips and said.start < self.slips_until:
            step = corrected(self.slips.pop(0), step)
            self.correcting = None
        elif self.correcting is not None and self.steps:
            slip = self.steps.pop()
            if self.root_at == len(self.steps) and len(step.voices) == 1:
                slip = replace(slip, voices=slip.voices[:1])  # the rest follows from the fret put right
            step = corrected(slip, step)
            self.correcting = None
            self.pair_open = len(self.steps) + 1 if len(step.voices) == len(tuple(voices)) + 1 else -1
        self.fretting = followed(self.fretting, self.last(), step)
        self.steps.append(step)
        self.fold_retold()
        self._fold_spelled()
        fold_letters(self.steps, self.names)

    def _in_its_voice(self, step: Step) -> Step:
        """The step as a note of the bass, or of the melody, on the string to which that voice comes back."""
        last = self.last()
        said = [item.text for item in self.items[last.end if last else 0 : step.end]]
        words = without_means(said, self.words)
        step = lowest(step, words, self.words, self.names.count)
        bass, free = is_bass(words, self.words), self.correcting is None and len(step.voices) == 1
        if len(step.voices) == 1 and not step.voices[0].named and (own := self._picker_string(step)):
            return replace(step, voices=(replace(step.voices[0], named=own),))
        goes_on = bass is None and step.how in LEGATO and last and len(last.voices) == 1
        if free and last and not goes_on and not any(one.at > last.start for one in self.namings[-1:]):
            own = own_string(self.steps, bool(bass), self.names.count)
            if not step.voices[0].named:
                step = replace(step, voice=own)
            elif own and step.by == SAME:
                step = replace(step, voices=(replace(step.voices[0], named=own),), by=None)
        low = bool(bass) if len(step.voices) == 1 else is_thumbed(words, self.words)
        return replace(step, bass=low and lies_low(step, self.names.count))

    def _picker_string(self, step: Step) -> Strings:
        """The string of the picking finger named right before the note, where it has one of its own."""
        return self.owned.get(self.picker, ()) if 0 <= step.start - self.picker_at <= 1 else ()

    def pluck(self, said: Instruction, string: int, **more: Any) -> None:
        """Strikes one string as it is held; a string that nobody has fretted yet is open."""
        voice = Voice(self.hand.get(string, 0), (string,))
        self.add(said, [voice], origin="derived", stroke=True, **more)

    def _hold(self, step: Step) -> None:
        """Remembers at which fret each named string is held, and which one the thumb strikes."""
        for voice in step.voices:
            if len(voice.named) == 1 and voice.fret != "x":
                self.hand[voice.named[0]] = voice.fret
                if 0 <= step.start - self.thumb_at <= 1:
                    self.thumb = voice.named

    def name_alone(self, said: Instruction, strings: tuple[Strings, ...]) -> None:
        """Strings named on their own in the instruction's last words, for the notes to come."""
        at = max(said.start, said.end - 1)
        self.namings.append(Naming(at, said.end, strings, self.sentences.of(at), ahead=True))

    def _is_harmonic(self, step: Step) -> bool:
        """Whether harmonics were announced just before, or for the whole section, and the fret gives one."""
        if {"x", 0} & {*step.frets}:
            return False
        near = step.sentence - self.harmonics_from in (0, 1)
        return near or (self.harmonics_in == step.section and set(step.frets) <= HARMONIC_FRETS)

    def change_last(self, **more: Any) -> None:
        """Changes the last step."""
        if self.steps:
            self.steps[-1] = replace(self.steps[-1], **more)

    def mark_last(self, mark: Mark) -> None:
        """Adds a mark to the last step, once."""
        last = self.last()
        if last and mark not in last.marks:
            self.change_last(marks=(*last.marks, mark))

    def _with_pending(self, step: Step) -> Step:
        """The step with what was waiting for it: marks said before it, and a correction said over."""
        if self.next_marks:
            step = replace(step, marks=(*step.marks, *self.next_marks))
            self.next_marks = ()
        if self.withdrawn and not step.corrected:
            step = replace(step, corrected=self.withdrawn)
        self.withdrawn = ""
        if self.restated is not None:
            slip = self.restated
            voices = step.voices if step.voices[0].named else slip.voices
            step = replace(step, voices=voices, corrected=slip.corrected, how=slip.how, bend=slip.bend)
            self.restated = None
        return step

    def _is_placed(self, at: int, told_at: int) -> bool:
        """Whether a finger was put down earlier in the same sentence, with no word of playing since."""
        if self.placing_at < 0 or self.sentences.of(self.placing_at - 1) != self.sentences.of(at):
            return False
        return not self.said_between(self.placing_at, max(at, told_at)) & set(self.words.striking)

    def _finger_for(self, said: Instruction) -> int:
        """The finger that was named right before the note, for it; 0 when none was."""
        until, finger = self.finger_ahead
        self.finger_ahead = (-1, 0)
        if name := said.text("finger"):
            return FINGERS.get(name, 0)
        return finger if 0 <= said.start - until <= FINGER_WITHIN else 0

    def _in_force(self, at: int) -> Strings:
        """All strings named on their own since the last step, or in force for it in this sentence."""
        last, sentence = self.last(), self.sentences.of(at)
        for naming in reversed(self.namings[-2:]):
            close = sentence - naming.sentence <= 1
            if close and naming.at <= at and (last is None or naming.at > last.start):
                return tuple(string for candidates in naming.strings for string in candidates)
        return last.before if last and last.sentence == sentence else ()

    def fold_retold(self) -> None:
        """Takes back notes that only spell out what was just told, once they are all told."""
        if self.folding:
            fold(self.steps, self.said_between, frozenset({*self.words.moving_on, *self.words.again}))
        self.folding = True

    def _fold_spelled(self) -> None:
        """Takes back a copied passage that is told note by note after all: its first note shows it."""
        told, before = self.last(), self.last(2)
        if told is None or before is None or not before.copied:
            return
        block = [step for step in self.steps[:-1] if step.copied and step.start == before.start]
        if is_elsewhere(told, block[0]):
            return
        begins = block[0].frets, *(tuple(v.fret for v in voices) for voices in block[0].elsewhere)
        if told.sentence - before.sentence <= SPELLED_LATER and told.frets in begins:
            del self.steps[-1 - len(block) : -1]


def _only(strings: tuple[Strings, ...]) -> Strings:
    return tuple(candidates[0] for candidates in strings if candidates)
