"""What msgspec says of a faulty file, in the words of someone who edits JSON by hand."""

from __future__ import annotations

import re

# msgspec's messages, as of 0.20 to 0.22; one that is not listed is passed on as it stands.
WORDING = (
    (r"Object missing required field `(.+)`", r'"\1" is missing'),
    (r"Object contains unknown field `(.+)`", r'"\1" is not a field of the format'),
    (r"Invalid enum value '(.*)'", r'"\1" is not one of the words allowed here'),
    (r"Invalid enum value (.*)", r"\1 is not one of the values allowed here"),
    (r"Expected `array` of length (\d+)", r"a list of exactly \1 is wanted"),
    (r"Expected `(.+)`, got `(.+)`", r"it should be \1, not \2"),
    (r"Input data was truncated", r"the file ends too early; draft the lesson again"),
    (r"JSON is malformed: (.+) \(byte (\d+)\)", r"this is not JSON: \1, at byte \2"),
)
KINDS = {
    "int": "a whole number",
    "float": "a number",
    "str": "text",
    "bool": "true or false",
    "array": "a list",
    "object": "an object in braces",
    "null": "null",
}


def explain(message: str) -> str:
    """One sentence: which field, by its place in the file, and what is wrong with it."""
    what, _, path = message.partition(" - at ")
    if path == "`$.format`":
        return "This file has another format: notesgen reads notesgen-lesson/1."
    what = _plain(what)
    place = _place(path.strip("`"))
    return f"In {place}: {what}." if place else f"{what[0].upper()}{what[1:]}."


def _plain(what: str) -> str:
    for pattern, words in WORDING:
        if found := re.fullmatch(pattern, what):
            return re.sub(r"should be (.+), not (.+)", _kinds, found.expand(words))
    return what


def _kinds(found: re.Match[str]) -> str:
    wanted, got = (_kind(part) for part in found.groups())
    return f"should be {wanted}, not {got}"


def _kind(names: str) -> str:
    """ "int | str" as "a whole number or text"."""
    return " or ".join(KINDS.get(name, name) for name in names.split(" | "))


def _place(path: str) -> str:
    """`$.events[0].notes[1].fret` as "events, item 1, notes, item 2, fret"."""
    steps = re.findall(r"\.(\w+)|\[(\d+)\]|(\[\.\.\.\])", path)
    return ", ".join(name or (f"item {int(index) + 1}" if index else "an entry") for name, index, _ in steps)
