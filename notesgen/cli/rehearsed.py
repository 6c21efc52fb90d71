"""How the grammar's examples went, for a guitarist who writes idioms."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notesgen.cli.screen import counted, wrapped
from notesgen.rehearsal.run import Result

Line = str | tuple[str, str]
LABEL = 10  # width of "expected" and its like, with the space after it


def report(results: Sequence[Result], never: Sequence[str]) -> Iterator[Line]:
    """Failures with heard, expected and got; idioms that never read; examples read by others; the count."""
    for result in results:
        if not result.passed:
            yield from _failure(result)
    for name in never:
        yield from wrapped(
            f'The idiom "{name}" reads none of its own examples. Other idioms take their words.', hang=2
        )
        yield ""
    yield from _taken(results, never)
    yield _count(results)


def _count(results: Sequence[Result]) -> str:
    """ "1463 examples: 1451 passed, 1 failed. 11 more are marked as known failures."."""
    known = sum(bool(result.known) and result.passed for result in results)
    passed = sum(result.passed for result in results) - known
    failed = len(results) - passed - known
    marked = (
        "1 more is marked as a known failure" if known == 1 else f"{known} more are marked as known failures"
    )
    told = f"{counted(len(results), 'example')}: {passed} passed, {failed} failed."
    return f"{told} {marked}." if known else told


def _failure(result: Result) -> Iterator[Line]:
    yield (f"{result.idiom} ({result.file})", "bold")
    if result.before:
        yield from wrapped(result.before, 2, LABEL, "before")
    yield from wrapped(result.heard, 2, LABEL, "heard")
    if not result.problem:
        yield from wrapped(
            f'It was known to fail ("{result.known}") and comes out right now: take known_failure out.', 2
        )
    elif result.is_not:
        yield from wrapped(result.problem[0].upper() + result.problem[1:] + ".", 2)
    else:
        yield from wrapped(_listed(result.expected), 2, LABEL, "expected")
        yield from wrapped(_listed(result.got), 2, LABEL, "got")
        yield from wrapped(_listed(result.read_by), 2, LABEL, "read by")
        yield from wrapped(result.problem[0].upper() + result.problem[1:] + ".", 2)
    yield ""


def _taken(results: Sequence[Result], never: Sequence[str]) -> Iterator[Line]:
    """Examples that came out right, but by other idioms than their own."""
    taken = [
        r
        for r in results
        if not r.is_not and not (r.problem or r.known) and r.idiom not in r.read_by and r.idiom not in never
    ]
    if taken:
        yield ("Right, but read by other idioms than their own:", "bold")
        for result in taken:
            yield from wrapped(
                f'"{result.heard}" of {result.idiom}: read by {_listed(result.read_by)}', 2, hang=2
            )
        yield ""


def _listed(entries: Sequence[str]) -> str:
    return "; ".join(entries) if entries else "nothing"
