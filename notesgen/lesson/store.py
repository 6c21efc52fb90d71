"""`lesson.json` out, in, and its JSON Schema."""

from __future__ import annotations

from typing import Any

import msgspec

from notesgen.errors import InputError
from notesgen.lesson.model import Lesson
from notesgen.lesson.problem import explain

DECIMALS = 3  # of every float: milliseconds, thousandths of a semitone
SCHEMA_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def encode(lesson: Lesson) -> bytes:
    """The lesson as UTF-8 JSON, indented by two, LF at the end: the same lesson, the same bytes.

    Keys stand in the model's order, those of `origin` and `frets` sorted; floats have three decimals at
    most. What a note or a change takes over from its event is left out.
    """
    values = _rounded(msgspec.to_builtins(lesson, order="deterministic"))
    return msgspec.json.format(msgspec.json.encode(values), indent=2) + b"\n"


def decode(data: bytes, source: str) -> Lesson:
    """The lesson that `data` holds. `source` names it in errors. Unknown fields are passed over.

    Raises InputError when `data` is no UTF-8, no JSON or no lesson, and says which field is at fault.
    """
    try:
        return msgspec.json.decode(data.decode("utf-8-sig"), type=Lesson)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError("This is not UTF-8 text; save it as UTF-8.", source, line) from error
    except msgspec.DecodeError as error:
        raise InputError(explain(str(error)), source) from error


def schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of `lesson.json`."""
    return {
        "$schema": SCHEMA_DIALECT,
        "title": "A drafted guitar lesson",
        **msgspec.json.schema(Lesson),
    }


def _rounded(value: Any) -> Any:
    """`value` with every float in it rounded; adding 0.0 turns -0.0 into 0.0."""
    if isinstance(value, float):
        return round(value, DECIMALS) + 0.0
    if isinstance(value, dict):
        return {key: _rounded(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_rounded(item) for item in value]
    return value
