"""`lesson.json`: what is written is read back, and the format keeps to its contract."""

from __future__ import annotations

import json
from typing import Any

import msgspec
import pytest
from hypothesis import given
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]

from notesgen.errors import InputError
from notesgen.lesson.model import Change, Event, Facts, Key, Lesson, Note, Option, Source
from notesgen.lesson.store import decode, encode, schema
from tests.lesson.lessons import LESSONS

# The example of the format's contract, to the letter, with its lists closed.
CONTRACT = """
{
  "format": "notesgen-lesson/1",
  "source": {"captions": "harbour.vtt", "media": null, "duration": 421.0, "language": "en"},
  "facts": {
    "title": "…", "instrument": "guitar",
    "tuning": ["E4","B3","G3","D3","A2","E2"],
    "capo": 0,
    "key": {"tonic": "Bb", "mode": "major"},
    "tempo": null,
    "positions": [{"label": "…", "start": 131.0, "frets": {"6": [6,8], "5": [5,6,8]}, "quote": "…"}],
    "changes": [{"start": 402.0, "fact": "key", "value": {"tonic": "A", "mode": "minor"}, "quote": "…"}],
    "origin": {"key": "said", "tuning": "said", "capo": "assumed"}
  },
  "phrases": [{"id": "p1", "title": "…", "start": 200.0, "end": 236.0,
               "events": ["e1","e2"], "demos": [[233.0, 236.0]]}],
  "repeats": [{"first": "e7", "last": "e15", "times": 3}],
  "events": [{
    "id": "e1", "start": 204.2, "end": 206.0, "phrase": "p1",
    "notes": [{"string": 5, "fret": 6}],
    "how": "pick",
    "bend": null,
    "to": null,
    "marks": ["vibrato"],
    "origin": "said",
    "quote": "…", "flags": ["f1"],
    "played": null
  }],
  "flags": [{
    "id": "f1", "kind": "string-unsaid", "level": "query",
    "start": 204.2, "end": 206.0, "events": ["e1"], "quote": "…", "message": "…",
    "options": [{"label": "…", "change": []}],
    "decided": null
  }],
  "numbers": [{"text": "nine", "value": 9, "start": 204.4, "role": "fret", "event": "e1"}]
}
"""

NOTE = "In events, item 1, notes, item 1"
SMALL = Lesson(
    source=Source("a.vtt"),
    facts=Facts(
        "A lesson", "guitar", ("E4", "B3"), key=Key("E", "minor"), origin={"tuning": "said", "key": "given"}
    ),
    events=(Event("e1", 1.23456, 2.0, "p1", (Note(1, 3), Note(2, "x", how="bend", bend=2.0))),),
)


@given(LESSONS)
def test_a_lesson_is_read_back_as_written(lesson: Lesson) -> None:
    assert decode(encode(lesson), "lesson.json") == lesson


@given(LESSONS)
def test_a_written_lesson_obeys_the_schema(lesson: Lesson) -> None:
    Draft202012Validator(schema()).validate(json.loads(encode(lesson)))


def test_the_schema_is_a_schema() -> None:
    # jsonschema's copy of the JSON Schema 2020-12 metaschema
    Draft202012Validator.check_schema(schema())


def test_the_contract_is_read_and_written_again() -> None:
    contract = json.loads(CONTRACT)
    Draft202012Validator(schema()).validate(contract)
    assert json.loads(encode(decode(CONTRACT.encode(), "lesson.json"))) == contract


def test_bytes_are_indented_and_end_in_one_newline() -> None:
    written = encode(SMALL)
    assert written.startswith(b'{\n  "format": "notesgen-lesson/1",\n  "source": {\n    "captions": "a.vtt",')
    assert written.endswith(b"\n}\n")
    assert b"\r" not in written


def test_floats_are_rounded_to_three_decimals() -> None:
    assert json.loads(encode(SMALL))["events"][0]["start"] == 1.235
    odd = msgspec.structs.replace(SMALL, source=Source("a.vtt", duration=-0.0001))
    assert b'"duration": 0.0' in encode(odd)


def test_maps_are_sorted_so_that_their_history_leaves_no_trace() -> None:
    turned = Facts(
        "A lesson", "guitar", ("E4", "B3"), key=Key("E", "minor"), origin={"key": "given", "tuning": "said"}
    )
    assert encode(msgspec.structs.replace(SMALL, facts=turned)) == encode(SMALL)


def test_a_note_leaves_out_what_it_takes_over_and_an_event_nothing() -> None:
    event = json.loads(encode(SMALL))["events"][0]
    assert list(event) == [field.name for field in msgspec.structs.fields(Event)]
    assert event["notes"] == [
        {"string": 1, "fret": 3},
        {"string": 2, "fret": "x", "how": "bend", "bend": 2.0},
    ]


def test_a_change_names_only_what_it_sets() -> None:
    written = msgspec.json.encode(Option("drop it", (Change("e1", drop=True),)))
    assert json.loads(written) == {"label": "drop it", "change": [{"event": "e1", "drop": True}]}


def _set(path: str, value: Any) -> bytes:
    """The contract's example with the value at a dotted path replaced, or with None taken out."""
    document = json.loads(CONTRACT)
    *steps, last = [int(step) if step.isdigit() else step for step in path.split(".")]
    place = document
    for step in steps:
        place = place[step]
    if value is None:
        del place[last]
    else:
        place[last] = value
    return json.dumps(document).encode()


@pytest.mark.parametrize(
    ("path", "value", "message"),
    [
        ("events.0.notes.0.string", "G", f"{NOTE}, string: it should be a whole number, not text."),
        ("events.0.notes.0.fret", 2.5, f"{NOTE}, fret: it should be a whole number or text, not a number."),
        ("events.0.how", "hop", 'In events, item 1, how: "hop" is not one of the words allowed here.'),
        ("events.0.id", None, 'In events, item 1: "id" is missing.'),
        ("facts", None, '"facts" is missing.'),
        ("phrases.0.demos.0", [1], "In phrases, item 1, demos, item 1: a list of exactly 2 is wanted."),
        ("facts.origin.key", "x", 'In facts, origin, an entry: "x" is not one of the words allowed here.'),
        ("events", {}, "In events: it should be a list, not an object in braces."),
        ("format", "notesgen-lesson/9", "This file has another format: notesgen reads notesgen-lesson/1."),
    ],
)
def test_a_faulty_field_is_named_by_its_place(path: str, value: Any, message: str) -> None:
    with pytest.raises(InputError) as caught:
        decode(_set(path, value), "lesson.json")
    assert str(caught.value) == f"lesson.json: {message}"


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "lesson.json: The file ends too early; draft the lesson again."),
        (b"[]", "lesson.json: It should be an object in braces, not a list."),
        (b"{,}", "lesson.json: This is not JSON: object keys must be strings, at byte 1."),
        (b'{\n"format": "\xff"}', "lesson.json:2: This is not UTF-8 text; save it as UTF-8."),
    ],
)
def test_what_is_no_lesson_is_told_so(data: bytes, message: str) -> None:
    with pytest.raises(InputError) as caught:
        decode(data, "lesson.json")
    assert str(caught.value) == message


def test_a_byte_order_mark_is_passed_over() -> None:
    assert decode(b"\xef\xbb\xbf" + encode(SMALL), "lesson.json").facts == SMALL.facts
