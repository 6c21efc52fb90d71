"""Draft the lessons that have right answers, and print how near the drafts come."""

from __future__ import annotations

import argparse
import json
import sys
from functools import partial
from pathlib import Path

from notesgen.errors import InputError
from notesgen.settle.trust.ask import Ask
from tests.accuracy import cases, floors, table
from tests.accuracy.figures import Figures, total
from tests.accuracy.workers import each


def main() -> int:
    """Run from the command line. Returns the exit status."""
    options = _options()
    try:
        found = cases.find(options.dir, options.names)
    except InputError as error:
        print(error, file=sys.stderr)
        return 2
    if options.fit or options.reliability:
        return _trust(found, options.fit)
    measured = each(partial(cases.figures, ask=options.ask), found)
    if options.floors:
        floors.write_floors(measured)
    if options.json:
        print(json.dumps([table.values(f) for f in [*measured, total(measured)]], indent=1))
    else:
        _print(measured, options.wrong)
    return 0


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.accuracy", description=__doc__)
    parser.add_argument("names", nargs="*", metavar="NAME", help="only these lessons")
    parser.add_argument("--dir", type=Path, default=cases.LESSONS, help="another folder of lessons")
    parser.add_argument("--wrong", action="store_true", help="list the wrong notes")
    parser.add_argument("--json", action="store_true", help="print the figures as JSON")
    parser.add_argument("--floors", action="store_true", help="record the figures as floors")
    parser.add_argument("--ask", type=Ask, choices=list(Ask), default=Ask.NORMAL, help="how readily to ask")
    parser.add_argument("--reliability", action="store_true", help="whether the drafts are as sure as right")
    parser.add_argument("--fit", action="store_true", help="fit and record the weights of newness and doubt")
    options = parser.parse_args()
    if (options.floors or options.fit) and (options.names or options.dir != cases.LESSONS):
        parser.error("--floors and --fit record all lessons of fixtures/lessons: leave out NAME and --dir")
    return options


def _trust(found: list[cases.Case], record: bool) -> int:
    """Prints how far the doubts can be trusted; fits and records their weights first where asked to."""
    from tests.accuracy import fit, newness, reliability, trust

    if record:
        newness.write(newness.fitted(newness.runs(found)))
    lessons, tunes = trust.lessons(found), trust.tune_lessons()
    if record:
        fit.write(fit.fitted(lessons, tunes))
    print("\n".join(reliability.rows(reliability.bins(reliability.judged(lessons, tunes)))))
    return 0


def _print(measured: list[Figures], wrong: bool) -> None:
    for figures in measured:
        print(table.row(figures))
        if wrong:
            print("\n".join(table.wrong_rows(figures)) or "   all right")
    print(table.row(total(measured)))


if __name__ == "__main__":
    sys.exit(main())
