"""Print how well tunes come back: by kind of captions, by voice, and where they fail."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from itertools import islice

from tests.accuracy.figures import total
from tests.outside.tunes.check import Reading, readings
from tests.outside.tunes.corpus import tunes
from tests.outside.tunes.floors import TUNES, groups, write_floors
from tests.outside.tunes.voices import VOICES

HEAD = (
    f"{'':<26}{'tunes':>6}{'right':>7}{'notes':>7}{'pitch F1':>10}{'place F1':>10}"
    f"{'how':>7}{'silent':>8}{'asked':>7}"
)


def main() -> int:
    """Run from the command line. Returns the exit status."""
    options = _options()
    if options.floors:
        write_floors(list(readings(tunes(TUNES))))
        return 0
    found = list(readings(tunes(options.tunes), options.voice))
    print(HEAD)
    for name, group in {**groups(found), "all": found}.items():
        print(_row(name, group))
    if options.show:
        _failures(found, options.show, options.kind)
    return 0


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.outside.tunes", description=__doc__)
    parser.add_argument("--tunes", type=int, default=60, metavar="N", help="so many tunes")
    parser.add_argument("--voice", type=int, choices=list(VOICES), help="only this voice")
    parser.add_argument("--show", type=int, nargs="?", const=20, metavar="N", help="the first N failures")
    parser.add_argument("--floors", action="store_true", help="record the small run as floors")
    parser.add_argument("--kind", help="failures in this kind of captions only")
    return parser.parse_args()


def _row(name: str, group: Sequence[Reading]) -> str:
    figures = total([reading.figures for reading in group])
    right = sum(reading.all_right for reading in group)
    return (
        f"{name:<26}{len(group):>6}{right:>7}{figures.gold:>7}{figures.pitch_f1:>10.3f}{figures.note_f1:>10.3f}"
        f"{figures.how:>7.3f}{figures.silent:>8}{figures.flags:>7}"
    )


def _failures(found: Sequence[Reading], count: int, kind: str | None) -> None:
    wrongs = (
        (reading, wrong)
        for reading in found
        if kind in (None, reading.kind)
        for wrong in reading.figures.wrong
    )
    for reading, wrong in islice(wrongs, count):
        state = "flagged" if wrong.flagged else "SILENT"
        print(f"\n{reading.figures.case}, voice {reading.talk.voice}: {reading.around(wrong)}")
        print(f"    expected {wrong.gold or 'nothing'}, read {wrong.draft or 'nothing'}, {state}")


if __name__ == "__main__":
    sys.exit(main())
