"""The whole way from captions to lesson: what must hold of any talk, and what is given beside it."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from notesgen.captions.read import read_captions
from notesgen.captions.transcript import Transcript
from notesgen.errors import InputError
from notesgen.grammar.load import load_grammar
from notesgen.lesson.model import Lesson
from notesgen.lesson.store import decode, encode
from notesgen.pipeline import Given, draft, draft_file, rooms

GRAMMAR = load_grammar()
EXAMPLES = [example.heard for idiom in GRAMMAR.idioms for example in idiom.examples]
WORDS = """
7 9 10 99 5000 million twelve five open 810 sevens third 7th one 2.5 '7' capo times maybe
and then to on the a G B D E A low high string
strings fret hammer-on pull-off slide bend it up whole half step release trill tap harmonic same
again twice times sorry no I mean wait that's this both together power chord finger next thicker
don't if you could passing note so that was recap piece [Music] , . ... um
"""

# Real talk in odd pieces: words of the field, whole examples, and their beginnings.
PIECES = st.one_of(
    st.sampled_from(WORDS.split()),
    st.sampled_from(EXAMPLES),
    st.tuples(st.sampled_from(EXAMPLES), st.integers(1, 5)).map(lambda p: " ".join(p[0].split()[: p[1]])),
)
TALKS = st.lists(PIECES, min_size=1, max_size=10)
GIVEN = st.sampled_from(
    [
        None,
        Given(key="B minor", capo=2),
        Given(tuning="drop D"),
        Given(tuning="half step down", key="A blues"),
        Given(instrument="bass"),
        Given(instrument="ukulele", title="A tune"),
        Given(instrument="7-string guitar", capo=12),
    ]
)
NO_KEY = [
    "3, 5 on the A. 2, 3, 5 on the D. 2, 4, 5 on the G.",
    "5, 4, 2 on the G. 5, 3, 2 on the D. 5, 3 on the A.",
]
TEXT = st.text(max_size=60)
UNTIMED = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def transcript(pieces: list[str]) -> Transcript:
    """The pieces as captions, each in its own, three seconds apart."""
    rows = [f"[{at // 20}:{at % 20 * 3:02}] {piece}" for at, piece in enumerate(["So", *pieces])]
    return read_captions("\n".join(rows).encode(), "talk.txt")


@given(TEXT)
@example("")
@example("[0:00] 7 on the G")
@example("[0:00] ²³ ½ ٣ \u200b 7\ufe0f\u20e3")
@example("WEBVTT\n\n00:00.000 --> 00:01.000\n<b>7 on the G</b>")
@example("1\n00:00:00,000 --> 00:00:01,000\n7 on the G")
@settings(UNTIMED, max_examples=150)
def test_any_text_is_a_lesson_or_an_input_error(text: str) -> None:
    for written in (text, f"[0:00] {text}", f"[0:00] 7 {text} on the G"):
        try:
            lesson = draft(read_captions(written.encode(errors="replace"), "talk.txt"))
        except InputError as error:
            assert error.message
        else:
            assert isinstance(lesson, Lesson)


@given(st.binary(max_size=80))
@UNTIMED
def test_any_bytes_are_a_lesson_or_an_input_error(data: bytes) -> None:
    try:
        draft(read_captions(data, "talk.vtt"))
    except InputError as error:
        assert error.message


@given(TALKS, GIVEN)
@UNTIMED
def test_the_same_talk_gives_the_same_bytes(pieces: list[str], facts: Given | None) -> None:
    first, second = (encode(draft(transcript(pieces), facts)) for _ in range(2))
    assert first == second
    read = decode(first, "lesson.json")
    assert decode(encode(read), "lesson.json") == read


@given(TALKS, GIVEN)
@example(NO_KEY, None)
@UNTIMED
def test_every_event_is_evidenced_by_words_of_the_recording(pieces: list[str], facts: Given | None) -> None:
    talk = transcript(pieces)
    words = " ".join(word.text for word in talk.words)
    lesson = draft(talk, facts)
    for event in lesson.events:
        assert event.quote and event.quote in words
    for flag in lesson.flags:
        assert flag.quote
    for number in lesson.numbers:
        assert number.text in words


@given(TALKS, GIVEN)
@UNTIMED
def test_every_span_lies_inside_the_recording(pieces: list[str], facts: Given | None) -> None:
    lesson = draft(transcript(pieces), facts)
    spans = [(event.start, event.end) for event in lesson.events]
    spans += [(phrase.start, phrase.end) for phrase in lesson.phrases]
    spans += [(flag.start, flag.end) for flag in lesson.flags]
    for start, end in spans:
        assert 0 <= start <= end <= lesson.source.duration + 0.001
    for number in lesson.numbers:
        assert 0 <= number.start <= lesson.source.duration
    assert [event.start for event in lesson.events] == sorted(event.start for event in lesson.events)


@given(TALKS, GIVEN)
@UNTIMED
def test_whatever_is_pointed_at_exists(pieces: list[str], facts: Given | None) -> None:
    lesson = draft(transcript(pieces), facts)
    events = [event.id for event in lesson.events]
    assert events == [f"e{n}" for n in range(1, len(events) + 1)]
    assert [flag.id for flag in lesson.flags] == [f"f{n}" for n in range(1, len(lesson.flags) + 1)]
    for flag in lesson.flags:
        changed = {change.event for option in flag.options for change in option.change}
        of_the_whole = flag.kind == "outside-key" and flag.level == "note"
        assert flag.events or flag.kind in ("not-understood", "scale-slip") or of_the_whole
        assert {*flag.events, *changed} <= set(events)
    for event in lesson.events:
        assert event.flags == tuple(flag.id for flag in lesson.flags if event.id in flag.events)
    for repeat in lesson.repeats:
        assert events.index(repeat.first) <= events.index(repeat.last)
    assert [event for phrase in lesson.phrases for event in phrase.events] == events
    assert {number.event for number in lesson.numbers} <= {None, *events}


@given(TALKS, GIVEN)
@UNTIMED
def test_queries_offer_answers_and_the_draft_stands_on_the_first(
    pieces: list[str], facts: Given | None
) -> None:
    for flag in draft(transcript(pieces), facts).flags:
        assert len(flag.options) >= 2 or flag.level == "note"
        assert len({option.label for option in flag.options}) == len(flag.options)
        about_a_box = flag.kind == "scale-slip"  # whose frets are no notes: its answers change none
        assert about_a_box or len({option.change for option in flag.options}) == len(flag.options)
        if flag.options:
            assert flag.options[0].change == ()


def test_rooms_keep_what_each_made() -> None:
    found = rooms(transcript(["7 on the G"]))
    assert [item.text for item in found.items] == ["so", "7", "on", "the", "g"]
    assert found.chart.items == found.items
    assert [instruction.kind for instruction in found.instructions] == ["note"]
    assert found.lesson == draft(found.transcript)


def test_a_file_is_drafted_under_its_own_name(tmp_path: Path) -> None:
    path = tmp_path / "harbour.txt"
    path.write_text("[0:00] 7 on the G\n", encoding="utf-8")
    lesson = draft_file(str(path))
    assert (lesson.source.captions, lesson.facts.title) == ("harbour.txt", "harbour")
    assert draft_file(str(path), Given(title="Harbour Song")).facts.title == "Harbour Song"


@pytest.mark.parametrize(
    ("facts", "told"),
    [
        (Given(key="H minor"), "H minor"),
        (Given(tuning="nothing"), "nothing"),
        (Given(instrument="kazoo"), "kazoo"),
        (Given(capo=99), "capo at fret 99"),
        (Given(capo=-1), "capo at fret -1"),
    ],
)
def test_what_is_given_wrongly_is_told(facts: Given, told: str) -> None:
    with pytest.raises(InputError, match=told):
        draft(transcript(["7 on the G"]), facts)


def test_a_note_already_asked_about_is_not_asked_about_again() -> None:
    lesson = draft(transcript(["play fret 6"]), Given(key="G major"))
    assert [flag.kind for flag in lesson.flags] == ["string-unsaid"]


def test_a_language_that_is_not_there_is_told() -> None:
    with pytest.raises(InputError):
        draft(transcript(["7 on the G"]), language="xx")
