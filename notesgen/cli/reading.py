"""How words were read, room by room: words, mentions, instructions, notes, flags."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from notesgen.cli.screen import counted, wrapped
from notesgen.grammar.model import Template
from notesgen.lesson.model import Lesson
from notesgen.pack.layout.footnotes import choices
from notesgen.pipeline import Rooms
from notesgen.rehearsal import notation
from notesgen.speech.chart import Chart, Edge
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break, Item
from notesgen.speech.reading import reader

Line = str | tuple[str, str]
BREAKS = {Break.NONE: " ", Break.SOFT: " , ", Break.HARD: " | ", Break.GAP: " || "}


def reading(rooms: Rooms) -> Iterator[Line]:
    """Every room's result, one under the other."""
    yield ("Words", "bold")
    yield from wrapped(_spoken(rooms.items), 2)
    yield ""
    yield ("Mentions", "bold")
    yield from _mentions(rooms.chart)
    yield ""
    yield ("Instructions", "bold")
    yield from _instructions(rooms)
    yield ""
    yield from _result(rooms.lesson)


def _spoken(items: Sequence[Item]) -> str:
    """The words with their breaks: a comma for a short one, a bar for the end of a sentence."""
    if not items:
        return "nothing but fillers"
    first, *rest = items
    return first.text + "".join(BREAKS[item.before] + item.text for item in rest)


def _mentions(chart: Chart) -> Iterator[str]:
    """What stretches of words can stand for. A reading inside a longer one of the same kind is left out."""
    edges = [edge for by_symbol in chart.starting for found in by_symbol.values() for edge in found]
    told = [
        edge for edge in edges if edge.value is not None and not any(_inside(edge, other) for other in edges)
    ]
    by_span: dict[tuple[int, int], list[str]] = {}
    for edge in told:
        by_span.setdefault((edge.start, edge.end), []).append(f"{edge.symbol}={edge.value}{_cost(edge.cost)}")
    if not by_span:
        yield "  none"
    width = max((len(_words(chart.items, *span)) for span in by_span), default=0)
    for span in sorted(by_span):
        yield f"  {_words(chart.items, *span):<{width}}  {', '.join(dict.fromkeys(by_span[span]))}"


def _inside(edge: Edge, other: Edge) -> bool:
    return (
        edge.symbol == other.symbol
        and other.start <= edge.start
        and edge.end <= other.end
        and (other.start, other.end) != (edge.start, edge.end)
    )


def _instructions(rooms: Rooms) -> Iterator[Line]:
    taken = 0
    for instruction in rooms.instructions:
        yield from _left(rooms.items, taken, instruction.start)
        taken = max(taken, instruction.end)
        yield from _instruction(instruction, rooms.items)
    yield from _left(rooms.items, taken, len(rooms.items))


def _instruction(instruction: Instruction, items: Sequence[Item]) -> Iterator[Line]:
    slots = "".join(f"  {slot.name}={_value(slot.value)}" for slot in instruction.slots)
    yield f"  {_words(items, instruction.start, instruction.end)}"
    yield f"    {instruction.kind}{slots}{_cost(instruction.doubt)}"
    template = _template(instruction)
    place = f" ({template.file}:{template.line})" if template else ""
    yield (f"    by the idiom: {instruction.idiom}{place}", "dim")
    yield from ((line, "dim") for line in wrapped(f"    as worded: {instruction.wording}", 4, hang=2))


def _left(items: Sequence[Item], start: int, end: int) -> Iterator[Line]:
    if start < end:
        yield (f"  ({_words(items, start, end)})  taken by no idiom", "dim")


def _template(instruction: Instruction) -> Template | None:
    """Where the wording stands in the grammar files."""
    wordings = (t for i in reader().grammar.idioms if i.name == instruction.idiom for t in i.say)
    return next((template for template in wordings if template.text == instruction.wording), None)


def _result(lesson: Lesson) -> Iterator[Line]:
    yield (counted(len(lesson.events), "note"), "bold")
    for event in lesson.events:
        asked = [flag.kind for flag in lesson.flags if event.id in flag.events]
        yield f"  {notation.written(event)}" + (f"   [{', '.join(dict.fromkeys(asked))}]" if asked else "")
    yield ""
    yield (counted(len(lesson.flags), "flag"), "bold")
    for flag in lesson.flags:
        yield from wrapped(f"{flag.kind} ({flag.level}): {flag.message}", 2, hang=2)
        for choice in choices(flag):
            yield from wrapped(choice, 4, hang=3)


def _words(items: Sequence[Item], start: int, end: int) -> str:
    return " ".join(item.text for item in items[start:end])


def _value(value: object) -> str:
    return " ".join(map(str, value)) if isinstance(value, tuple) else str(value)


def _cost(cost: float) -> str:
    return f"  (doubt {cost:g})" if cost else ""
