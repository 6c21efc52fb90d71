"""The new notes told from the retold ones.

A recap may be announced ("so that was ...") or only hinted at ("so ..."); without either it must repeat
the last notes to the letter. An announced one may differ a little: each difference is a doubt about both
tellings. After an announcement, recaps go on from sentence to sentence until one does not fit.
"""

from __future__ import annotations

from itertools import takewhile

from msgspec import Struct
from msgspec.structs import replace

from notesgen.grammar.model import WordLists
from notesgen.lesson.model import Fret
from notesgen.settle.recaps.align import LONG, Pairs, agrees, align, one_slip, repeats
from notesgen.settle.recaps.anew import Anew
from notesgen.settle.recaps.blocks import Block, Surroundings, blocks
from notesgen.settle.recaps.cues import holding
from notesgen.settle.recaps.evidence import Evidence, Ruling, State, evidence
from notesgen.settle.recaps.likeness import NEARLY
from notesgen.settle.recaps.manner import Kind, Manner
from notesgen.settle.recaps.newness import fitted
from notesgen.settle.recaps.said_over import parted, pointed_over, said_over
from notesgen.settle.sentences import Sentences
from notesgen.settle.step import Step
from notesgen.settle.told import Told
from notesgen.speech.items import Item

ANNOUNCED = 0.6  # share of a block that must agree, once a recap is announced
HINTED = 0.8  # ... where the sentence only begins with "so", or the block is short
GOING_ON_BLOCK = 0.5  # ... in a later sentence of a recap
GOING_ON = 0.75  # ... of a recap as a whole, once it goes on over several sentences
MEMORY = 60  # notes back to which a recap may reach that was not announced
WINDOW = 8  # ... a short run after "so"
SHORT = 1  # ... a lone note after "so"
NO_NOTES = 0.74  # probability from which a run that no rule knows is left out as no new notes
NO_NOTES_ALONE = 0.85  # ... of a lone note: if it is left out wrongly, nothing around it shows the gap
NO_NOTES_RULED = 0.4  # ... of one that a rule takes for a retelling
CERTAIN = 1.1  # ... of one that is surely new
BEGUN = 8  # new notes from which a run is weighed; before that, the rules alone say what is told over
AHEAD = 13  # runs to come that may tell a run again
OPEN = 0.5  # ... of a bare run like the one before it, where only rules are known
APART = 3  # items between a scale box and notes of the same sentence that are played
TELLS = 3  # notes that a recap must have before a difference in it tells anything


class Difference(Struct, frozen=True):
    """A retold fret that does not agree with the step at place `step`; `start` and `end` are items."""

    step: int
    retold: Fret
    start: int
    end: int


class Weighed(Struct, frozen=True):
    """A run of steps, what is known of it, and the probability that it holds no new notes."""

    places: tuple[int, ...]
    evidence: Evidence
    manner: frozenset[Kind]
    no_notes: float


class Sifted(Struct, frozen=True):
    """Places of new and of retold steps, where they disagree, and the runs that were weighed.

    `sources` pairs the places of retold steps with those that they retell. `echoed` are places of notes
    named over in full right behind: said over, or struck once more. `models` pairs the places of new steps
    that are played again with those that were told first.
    """

    new: tuple[int, ...] = ()
    retold: tuple[int, ...] = ()
    differences: tuple[Difference, ...] = ()
    weighed: tuple[Weighed, ...] = ()
    sources: tuple[tuple[int, int], ...] = ()
    echoed: tuple[int, ...] = ()
    models: tuple[tuple[int, int], ...] = ()


class Retold(Struct, frozen=True):
    """What a run retells, by which rule; `echoed` are the places of notes named over in full."""

    pairs: Pairs
    ruling: Ruling
    echoed: tuple[int, ...] = ()


def sift_recaps(told: Told, items: tuple[Item, ...], words: WordLists, boxed: frozenset[int]) -> Sifted:
    """Tells the new notes from the retold ones. Steps only held, or told with a scale box, are neither."""
    sentences = Sentences(items)
    headings = frozenset(heading.start for heading in told.sections)
    sieve = _Sieve(told.steps, Surroundings(told.steps, items, sentences, boxed, headings), words)
    anew = Anew(told, sentences)
    whole = blocks(told.steps, told.seams)
    parts = [part for block in whole for part in parted(told.steps, block)]
    found = [_sounding(block, told, boxed) for block in parts]
    for at, block in enumerate(found):
        if not block.places:
            sieve.stretch = -1
            continue
        if (again := anew.part(block, sieve.new)) is not None:
            sieve.play_again(block, again)
            continue
        start = told.steps[block.places[0]].start
        cues = holding(told.recaps, start, sentences, told.sections)
        announced = any(not cue.weak for cue in cues)
        if announced:
            sieve.announce(block)
        following = tuple(later.places for later in found[at + 1 : at + 1 + AHEAD])
        sieve.take(block, _to_the_end(found, at), following, announced, bool(cues))
    return sieve.outcome()


def _sounding(block: Block, told: Told, boxed: frozenset[int]) -> Block:
    """The block without the steps that are only held; of one that tells a scale box, what comes after it."""
    box = boxed.intersection(block.places)
    places = tuple(place for place in block.places if place not in told.held)
    if box:
        last = max(box)
        places = tuple(p for p in places if p > last and told.steps[p].start - told.steps[last].end > APART)
    return replace(block, places=places)


def _to_the_end(found: list[Block], at: int) -> tuple[int, ...]:
    """The places of a block and of those after it in its sentence."""
    rest = takewhile(lambda block: block.sentence == found[at].sentence, found[at:])
    return tuple(place for block in rest for place in block.places)


class _Sieve:
    """New and retold notes so far, and the recap that is going on, if any."""

    def __init__(self, steps: tuple[Step, ...], around: Surroundings, words: WordLists) -> None:
        self.steps = steps
        self.around = around
        self.words = words
        self.pointing = frozenset((*words.pointing, *words.article))
        self.fresh = frozenset((*words.moving_on, *words.again, *words.sameness))
        self.again = frozenset(words.again)
        self.moving_on = frozenset(words.moving_on)
        self.acting = frozenset((*words.joining, *words.striking, *words.going_back))
        self.summing_up = frozenset(words.summing_up)
        self.new: list[int] = []
        self.retold: list[int] = []
        self.differences: list[Difference] = []
        self.weighed: list[Weighed] = []
        self.manner = Manner(words, around)
        self.sources: list[tuple[int, int]] = []
        self.echoed: list[int] = []
        self.models: list[tuple[int, int]] = []
        self.stretch = -1
        self.reached, self.opened = -1, 0
        self.agreed, self.told = 0.0, 0

    def announce(self, block: Block) -> None:
        """A recap begins; it may retell anything told so far."""
        self.stretch = self._stretch(block)
        self.reached = -1
        self.agreed, self.told = 0.0, 0

    def play_again(self, block: Block, pairs: Pairs) -> None:
        """Takes the block as new, though it is what was told before: it is played like that again."""
        self.new.extend(block.places)
        self.models += [(again, first) for first, again in pairs if first is not None]
        self.stretch = -1

    def take(
        self,
        block: Block,
        whole: tuple[int, ...],
        following: tuple[tuple[int, ...], ...],
        announced: bool,
        hinted: bool,
    ) -> None:
        """Takes the block as a recap, where it retells, or as new.

        `whole` goes on to the sentence's end, `following` are the blocks behind it.
        """
        sums_up = self.around.first_word(block) in self.summing_up and not self.around.is_headed(block)
        if sums_up and self.around.after_gap(block):
            self.announce(block)
        if self._is_spelled_out(block, following):
            self.retold.extend(block.places)
            return
        if over := self._said_over(block):
            said = len({again for _, again in over})
            self._retell(replace(block, places=block.places[:said]), Retold(over, Ruling.REPEATED))
            if rest := block.places[said:]:
                self.stretch = -1
                self.take(replace(block, places=rest), whole, following, announced, hinted)
            return
        found = self._retells(block, whole, hinted or sums_up) if self.new else None
        if found is not None and (tail := self._new_tail(block, found.pairs)):
            self.take(replace(block, places=block.places[: -len(tail)]), whole, following, announced, hinted)
            self.new.extend(tail)
            self.stretch = -1
            return
        doubt = self._doubt(block, following, announced, found)
        if doubt < self._enough(block, found):
            self.new.extend(block.places)
            self.stretch = -1
        elif found is None:
            self.retold.extend(block.places)
        else:
            self._retell(block, found)

    def _enough(self, block: Block, found: Retold | None) -> float:
        """The probability of no new notes from which the block is left out."""
        if found is not None:
            return NO_NOTES_RULED
        if self.around.is_struck_over(block):
            return CERTAIN
        alone = len(block.places) == 1 and not self._trails(block)
        return NO_NOTES_ALONE if alone else NO_NOTES

    def _trails(self, block: Block) -> bool:
        """Whether the block only trails what was retold in the same sentence."""
        return bool(self.retold) and self.steps[self.retold[-1]].sentence == block.sentence

    def _said_over(self, block: Block) -> Pairs:
        """The first notes of the block, where they only say over those told right before them."""
        lead = self.around.items[self.steps[self.new[-1]].end : self.around.start(block)] if self.new else ()
        fresh = any(item.text in self.fresh for item in lead)
        return [] if fresh else said_over(self.steps, self.new, block.places)

    def _is_spelled_out(self, block: Block, following: tuple[tuple[int, ...], ...]) -> bool:
        """Whether a bare row is only announced: it is told with its strings right behind, note by note."""
        steps = [self.steps[place] for place in block.places]
        coming = [self.steps[place] for run in following for place in run][: len(steps)]
        if len(steps) < TELLS or any(step.voices[0].named or step.before for step in steps):
            return False
        spelled = [step.frets for step in coming] == [step.frets for step in steps]
        return spelled and all(step.voices[0].named for step in coming)

    def _new_tail(self, block: Block, pairs: Pairs) -> tuple[int, ...]:
        """The last notes of a recap that were not told before and are led in as the next: "and then 10"."""
        known = [again for place, again in pairs if place is not None and agrees(self.steps, place, again)]
        tail = tuple(place for place in block.places if known and place > known[-1])
        if not tail or len(known) < TELLS:
            return ()
        first, before = self.steps[tail[0]], self.steps[known[-1]]
        lead = {item.text for item in self.around.items[before.end : first.end]}
        return tail if first.voices[0].named and lead & self.moving_on else ()

    def _doubt(
        self, block: Block, following: tuple[tuple[int, ...], ...], announced: bool, found: Retold | None
    ) -> float:
        """The probability that the block holds no new notes.

        The rules know it before much has been told, and where the talk does nothing else.
        """
        if not self.new:
            return 0.0
        state = State(
            new=self.new,
            last_retold=self.retold[-1] if self.retold else -1,
            following=following,
            announced=announced,
            ruling=found.ruling if found else None,
        )
        known, manner = evidence(block, state, self.around, self.words), self.manner.of(block)
        if len(self.new) < BEGUN or self.around.is_plain:
            like = self.around.is_bare(block) and known.likeness.near >= NEARLY
            no_notes = 1.0 if found else OPEN if like else 0.0
        else:
            no_notes = fitted().chance(known, manner)
        self.weighed.append(Weighed(block.places, known, manner, no_notes))
        return no_notes

    def outcome(self) -> Sifted:
        """What came of it."""
        return Sifted(
            tuple(self.new),
            tuple(self.retold),
            tuple(self.differences),
            tuple(self.weighed),
            tuple(self.sources),
            tuple(self.echoed),
            tuple(self.models),
        )

    def _stretch(self, block: Block) -> int:
        return self.around.sentences.stretch(self.around.start(block))

    def _retell(self, block: Block, found: Retold) -> None:
        pairs = found.pairs
        self.echoed += found.echoed
        self.retold.extend(block.places)
        self.stretch = self._stretch(block)
        told = [(place, again) for place, again in pairs if place is not None]
        self.sources += [(again, place) for place, again in told]
        self.told += len(pairs)
        self.agreed += sum(agrees(self.steps, place, again) for place, again in told)
        if self.reached < 0:
            self.opened = min((place for place, _ in told), default=-1)
        self.reached = max((place for place, _ in told), default=self.reached)
        wrong = [(place, again) for place, again in told if not agrees(self.steps, place, again)]
        if self.told >= TELLS and len(wrong) * TELLS <= self.told:
            self.differences += [self._difference(place, again) for place, again in wrong]

    def _difference(self, place: int, again: int) -> Difference:
        step = self.steps[again]
        return Difference(place, step.frets[0], step.start, step.end)

    def _retells(self, block: Block, whole: tuple[int, ...], hinted: bool) -> Retold | None:
        """What the rules say the block retells; None when it is new, as what lets the last bend down is."""
        if self.steps[block.places[0]].how == "release" and self.steps[self.new[-1]].is_bent:
            return None
        if self.stretch == self._stretch(block):
            since = self.opened - 1 if self._starts_over(block) else self.reached
            pairs, share = align(self.steps, [place for place in self.new if place > since], block.places)
            if self._goes_on(share, len(pairs)):
                return Retold(pairs, Ruling.OPENS if self.reached < 0 else Ruling.GOES_ON)
        section = self.steps[block.places[0]].section
        bare = self.around.is_bare(block)
        memory = [place for place in self.new[-MEMORY:] if bare or self.steps[place].section == section]
        if not memory:
            return None
        told = self._hinted(block, whole, memory) if hinted else None
        return Retold(told, Ruling.HINTED) if told else self._unannounced(block, memory)

    def _goes_on(self, share: float, size: int) -> bool:
        """Whether the block opens an announced recap, or the recap with it taken in still agrees."""
        if self.reached < 0:
            return share >= (HINTED if size < LONG else ANNOUNCED)
        agreed, told = self.agreed + share * size, self.told + size
        return share >= GOING_ON_BLOCK and agreed >= GOING_ON * told

    def _starts_over(self, block: Block) -> bool:
        """Whether a run that was just retold is told over once more: "and again, 5, 7"."""
        start = self.around.start(block)
        opens = block.seam >= self.around.sentences.start(block.sentence) and block.seam >= start - 2
        said = {item.text for item in self.around.items[max(0, block.seam) : start + 2]}
        return opens and bool(said & self.again)

    def _hinted(self, block: Block, whole: tuple[int, ...], memory: list[int]) -> Pairs | None:
        """A block after "so": it may leave notes out, but must agree with what was told just before.

        A short block may also begin a sentence that retells the section as a whole.
        """
        size = len(block.places)
        if any(self.steps[place].corrected for place in block.places):
            return None
        if size == 1 and self.steps[block.places[0]].again:
            return None
        if size == 1 and self.around.words(block) & self.moving_on:
            return None
        runs_through = self.around.told(block) > LONG
        window = SHORT if size == 1 else MEMORY if runs_through else max(WINDOW, 2 * size)
        pairs, share = align(self.steps, memory[-window:], block.places)
        if share < HINTED and len(whole) > max(size, LONG):
            pairs, share = align(self.steps, memory, whole)
            pairs = [pair for pair in pairs if pair[1] in block.places]
        if self.around.is_named(block) and self._adds_technique(pairs):
            return None
        if share >= HINTED:
            return pairs
        slips = size >= TELLS and not self.around.is_changed(block, memory[-1], self.words.changing)
        return one_slip(self.steps, memory, block.places) if slips else None

    def _adds_technique(self, pairs: Pairs) -> bool:
        """Whether a note told as picked is slurred or bent here: a summing-up adds nothing."""
        told = [(self.steps[place], self.steps[again]) for place, again in pairs if place is not None]
        return any(
            first.how == "pick" != again.how and again.how not in [voice.how for voice in first.voices]
            for first, again in told
        )

    def _unannounced(self, block: Block, memory: list[int]) -> Retold | None:
        """A block that nothing announces: it repeats to the letter, or is a bare run-through."""
        size = len(block.places)
        words = self.around.words(block)
        pointed = self.around.first_word(block) in self.pointing and size > 1
        if pointed and (told := pointed_over(block, memory, self.around, self.words.stating)):
            return Retold(told, Ruling.REPEATED)
        if words & self.fresh or self.around.is_settled(block):
            return None
        if size > 1 and self.around.is_named(block):
            return None
        if self.around.is_bare(block):
            pairs, share = align(self.steps, memory[-2 * size - 2 :], block.places)
            if share >= HINTED:
                return Retold(pairs, Ruling.REPEATED)
        first = self.steps[block.places[0]]
        alone = size == 1 and len(first.voices) == 1
        if alone and (first.how != "pick" or words & self.acting):
            return None
        if alone and self.around.is_struck_in_turn(self.steps[self.new[-1]], first):
            return None
        retold = repeats(self.steps, memory, block.places)
        if retold is None:
            return None
        echoed = [place for place, _ in retold if place is not None and alone and first.voices[0].named]
        return Retold(retold, Ruling.REPEATED, tuple(echoed))
