"""How likely it is that a run of notes is none of the piece's own: told over, explained or only spoken of.

Each piece of evidence is a number from 0 to 1, and its weight is in log-odds: the weights are those of a
logistic regression over the runs of the lessons with right answers, each run weighted by its notes. No
single piece decides; a run that is bare, short, like what was told before and told in an odd sentence is
hardly ever new.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp

from msgspec import Struct
from msgspec.structs import astuple

from notesgen.grammar.model import WordLists
from notesgen.settle.recaps.align import align
from notesgen.settle.recaps.blocks import Block, Surroundings
from notesgen.speech.items import Break

NOTES = 8  # of a run that count as many
WORDS = 60  # of a sentence that count as many
SPREAD = 6  # words a note from which a run is talk rather than a list
DOUBT = 3.0  # cost of a reading that counts as very doubtful
RUN = 3  # notes from which a run may agree with one told long ago by more than chance


class Evidence(Struct, frozen=True):
    """What is known of a run, each from 0 to 1; as weights, how much it speaks against new notes."""

    size: float
    alone: float
    two: float
    agrees_near: float
    agrees_far: float
    announced: float
    hinted: float
    named: float
    spread: float
    moving_on: float
    again: float
    same: float
    striking: float
    string_said: float
    fret_said: float
    slurred: float
    doubt: float
    before_playing: float
    corrected: float
    sentence: float
    fingered: float
    supposing: float
    speaker: float
    listener: float
    past: float


AGAINST = Evidence(
    size=2.69,
    alone=2.20,
    two=1.14,
    agrees_near=0.60,
    agrees_far=1.08,
    announced=2.23,
    hinted=1.24,
    named=-1.30,
    spread=-1.95,
    moving_on=-0.77,
    again=-1.35,
    same=-1.16,
    striking=-0.18,
    string_said=-0.79,
    fret_said=-0.71,
    slurred=-1.91,
    doubt=1.54,
    before_playing=0.95,
    corrected=-1.29,
    sentence=0.64,
    fingered=0.56,
    supposing=1.21,
    speaker=0.28,
    listener=-0.56,
    past=-0.56,
)
BIAS = -1.34  # of a run of which nothing is known


def doubtfulness(found: Evidence) -> float:
    """The probability that the run is no new notes."""
    score = BIAS + sum(weight * value for weight, value in zip(astuple(AGAINST), astuple(found), strict=True))
    return 1 / (1 + exp(-score))


def evidence(
    block: Block,
    told: Sequence[int],
    around: Surroundings,
    words: WordLists,
    announced: bool,
    hinted: bool,
) -> Evidence:
    """What speaks for and against the block; `told` are the places of the new notes before it."""
    steps = [around.steps[place] for place in block.places]
    size = len(steps)
    near = _agreement(around, told[-2 * size - 2 :], block)
    far = _agreement(around, told, block) if size >= RUN else 0.0
    start, end = around.sentences.start(block.sentence), around.sentences.end(block.sentence)
    sentence = {item.text for item in around.items[start:end]}
    run = around.words(block)
    return Evidence(
        size=min(size / NOTES, 1.0),
        alone=float(size == 1),
        two=float(size == 2),
        agrees_near=near,
        agrees_far=far,
        announced=far if announced else 0.0,
        hinted=float(hinted and not announced),
        named=sum(bool(step.voices[0].named) for step in steps) / size,
        spread=min((steps[-1].end - steps[0].start) / size / SPREAD, 1.0),
        moving_on=_any(run, words.moving_on),
        again=_any(run, words.again),
        same=_any(run, words.sameness),
        striking=_any(sentence, words.striking),
        string_said=_any(run, words.string),
        fret_said=_any(run, words.fret),
        slurred=sum(step.how != "pick" for step in steps) / size,
        doubt=sum(min(step.doubt / DOUBT, 1.0) for step in steps) / size,
        before_playing=float(end < len(around.items) and around.items[end].before == Break.GAP),
        corrected=float(any(step.corrected for step in steps)),
        sentence=min((end - start) / WORDS, 1.0),
        fingered=float(any(step.fingered for step in steps)),
        supposing=_any(sentence, words.supposing),
        speaker=_any(sentence, words.speaker),
        listener=_any(sentence, words.listener),
        past=_any(sentence, words.past),
    )


def _agreement(around: Surroundings, told: Sequence[int], block: Block) -> float:
    return max(0.0, align(around.steps, told, block.places)[1]) if told else 0.0


def _any(said: frozenset[str] | set[str], words: Sequence[str]) -> float:
    return float(not said.isdisjoint(words))
