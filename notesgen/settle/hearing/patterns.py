"""Tapped figures told over with other frets: numbers alone, played as the figure was."""

from __future__ import annotations

from itertools import groupby

from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, How
from notesgen.settle.step import Step

Figure = tuple[How, ...]


def tapped_alike(steps: list[Step]) -> list[Step]:
    """The steps, where bare runs as long as the tapped figure before them take its techniques.

    A run right behind a tap of its own is the rest of the figure.
    """
    told: list[Step] = []
    figure: Figure = ()
    for _, group in groupby(steps, key=lambda step: (step.section, step.sentence)):
        run = list(group)
        if told and told[-1].section != run[0].section:
            figure = ()
        hows = tuple(step.how for step in run)
        if hows[0] == "tap" and len(run) > 1 and all(how in LEGATO for how in hows[1:]):
            figure = hows
        told += _played_as(figure, run, told)
    return told


def _played_as(figure: Figure, run: list[Step], told: list[Step]) -> list[Step]:
    """The run with the figure's techniques, where it fits; else as it was told."""
    begun = bool(told) and told[-1].how == "tap" and len(run) == len(figure) - 1
    hows = figure[1:] if begun else figure
    if not figure or len(hows) != len(run) or not all(_is_bare(step) for step in run):
        return run
    before = [told[-1], *run[:-1]] if begun else [run[0], *run[:-1]]
    fits = all(leads(how, a, b) for how, a, b in zip(hows, before, run, strict=True))
    return [replace(step, how=how) for step, how in zip(run, hows, strict=True)] if fits else run


def _is_bare(step: Step) -> bool:
    plain = len(step.voices) == 1 and step.how == "pick" and not step.marks and not step.again
    return plain and not step.voices[0].named and step.voices[0].fret != "x"


def leads(how: How, before: Step, step: Step) -> bool:
    """Whether the technique can lead from the one note to the other."""
    rise = int(step.voices[0].fret) - int(before.voices[0].fret)
    return how == "tap" or (rise > 0 if how == "hammer-on" else rise < 0 if how == "pull-off" else rise != 0)
