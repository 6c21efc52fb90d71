"""Fits the weights by which the sifting of recaps knows runs that add no notes, and writes them down.

What a run is, is known by when the notes of the right answer are said: a run is none of the piece's own
when most of its notes have no counterpart in the captions that hold it, at whatever fret. Words that stand
around runs of few lessons tell nothing of how others talk, and the lasso drops of the rest what adds little.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

import numpy as np
from msgspec import Struct, convert

from notesgen.captions.source import load_captions
from notesgen.lesson.model import Fret
from notesgen.pipeline import Given, Rooms, rooms
from notesgen.settle.recaps import newness
from notesgen.settle.recaps.evidence import Evidence
from notesgen.settle.recaps.manner import Kind
from notesgen.settle.recaps.newness import FILE, Against, named
from notesgen.settle.recaps.sift import Weighed
from tests.accuracy.align import align
from tests.accuracy.cases import Case
from tests.accuracy.gold import Gold, Sounded, read_gold
from tests.accuracy.regression import lasso
from tests.accuracy.workers import each

LESSONS = 6  # lessons in which a kind of word must stand at its place before it counts
PULL = 10.0  # of the lasso, in notes
EARLY = 1.2  # seconds by which times of whole seconds may miss a caption
FAR = 5.0  # seconds beyond which a note is another's
OTHER_CUE, PER_SECOND = 0.3, 0.1  # cost of a note that is said in another caption
OTHER_FRET = 0.7  # ... that is read on another fret
NEVER = 3.0  # ... that is too far: more than two gaps
MOSTLY = 0.5  # share of a run's notes with a counterpart from which the run is new
HEAD = """\
# Written by `python -m tests.accuracy --fit` from the lessons with right answers. Log-odds: what each piece
# of evidence, and each kind of word around a run, adds to the doubt that the run holds new notes.
"""


class Run(Struct, frozen=True):
    """A run of a lesson, and whether it holds no new notes."""

    lesson: str
    weighed: Weighed
    no_notes: bool

    @property
    def known(self) -> dict[Kind, float]:
        """All that is known of it, by name."""
        return {**dict(named(self.weighed.evidence)), **dict.fromkeys(self.weighed.manner, 1.0)}


def runs(cases: Iterable[Case]) -> list[Run]:
    """The runs that were weighed in the lessons with right answers."""
    return [run for found in each(_of_case, cases) for run in found]


def _of_case(case: Case) -> list[Run]:
    return judged(case.name, rooms(load_captions(str(case.captions)), Given()), read_gold(case.gold))


def judged(lesson: str, drafted: Rooms, gold: Gold) -> list[Run]:
    """The runs of one draft against the right answer."""
    found = _in_the_piece(drafted, gold)
    return [
        Run(lesson, run, sum(place in found for place in run.places) < MOSTLY * len(run.places))
        for run in drafted.drafted.sifted.weighed
    ]


class _Told(Struct, frozen=True):
    """A note of a step, new or retold, and the seconds from its caption's start to its last word."""

    place: int
    start: float
    end: float
    fret: Fret


def _in_the_piece(drafted: Rooms, gold: Gold) -> set[int]:
    """The places of all steps, new or retold, at which the right answer has a note said."""
    told = list(_told(drafted))
    return {told[d].place for g, d in align(gold.notes, told, _apart) if g is not None and d is not None}


def _told(drafted: Rooms) -> Iterator[_Told]:
    settled, items, transcript = drafted.drafted, drafted.items, drafted.transcript
    for place in sorted((*settled.sifted.new, *settled.sifted.retold)):
        step = settled.steps[place]
        cues = [transcript.cues[transcript.words[items[at].word].cue] for at in (step.start, step.end - 1)]
        end = max(cues[1].start, items[step.start].start)
        for voice in step.voices:
            yield _Told(place, cues[0].start, end, voice.fret)


def _apart(wanted: Sounded, got: _Told) -> float:
    """What it costs to take a note for the one told: by time first, by fret among those of one caption."""
    late = max(got.start - EARLY - wanted.time, wanted.time - got.end - EARLY, 0.0)
    if late > FAR:
        return NEVER
    return OTHER_FRET * (wanted.fret != got.fret) + (late > 0) * (OTHER_CUE + late * PER_SECOND)


def fitted(found: Sequence[Run]) -> Against:
    """The weights that fit these runs."""
    columns = _columns(found)
    table = np.zeros((len(found), len(columns)))
    for row, run in enumerate(found):
        for name, value in run.known.items():
            if name in columns:
                table[row, columns[name]] = value
    weights = lasso(
        table,
        np.array([float(run.no_notes) for run in found]),
        np.array([float(len(run.weighed.places)) for run in found]),
        PULL,
    )
    by_name = {name: round(float(weights[1 + at]), 2) for name, at in columns.items()}
    return _against(round(float(weights[0]), 2), by_name)


def _columns(found: Sequence[Run]) -> dict[Kind, int]:
    """The columns of what is known of runs in enough lessons."""
    told = Counter(name for _, name in {(run.lesson, name) for run in found for name in run.known})
    return {name: at for at, name in enumerate(sorted(name for name in told if told[name] >= LESSONS))}


def _against(bias: float, weights: Mapping[Kind, float]) -> Against:
    evidence: dict[str, dict[str, float]] = {}
    manner: dict[str, dict[str, float]] = {}
    for group in Evidence.__struct_fields__:
        evidence[group] = {}
    for (group, name), weight in weights.items():
        if group in evidence:
            evidence[group][name] = weight
        elif weight:
            manner.setdefault(group, {})[name] = weight
    return Against(bias, convert(evidence, Evidence), manner)


def write(found: Against) -> None:
    """Writes the weights into the package, replacing those that are there."""
    file = Path(str(newness.__file__)).with_name(FILE)
    tables: dict[str, dict[str, float]] = {}
    for (group, name), weight in named(found.evidence):
        tables.setdefault(f"evidence.{group}", {})[name] = weight
    tables |= {f"manner.{where}": dict(kinds) for where, kinds in found.manner.items()}
    lines = [HEAD, f"bias = {found.bias}\n"]
    for table, weights in tables.items():
        lines.append(f"\n[{table}]\n")
        lines += [f"{name} = {weight}\n" for name, weight in weights.items()]
    file.write_text("".join(lines), encoding="utf-8")
    newness.fitted.cache_clear()
