"""notes.pdf, read back by an independent reader (pypdf)."""

from __future__ import annotations

import io
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from msgspec import Struct
from msgspec.structs import replace
from pypdf import PdfReader

from notesgen.lesson.model import Event, Facts, Lesson, Note, Phrase, Source
from notesgen.pack.layout.drawing import measures
from notesgen.pack.layout.footnotes import UNSETTLED
from notesgen.pack.layout.handout.contents import contents
from notesgen.pack.layout.practice import excerpt, practice
from notesgen.pack.layout.sheet import lay_out
from notesgen.pack.layout.strings import string_labels
from notesgen.pack.layout.style import PLAIN, Style
from notesgen.pack.pdf import render
from tests.pack import demo
from tests.pack.lessons import lessons
from tests.pack.rich import FLAGS, LESSON, SETTLED

STUDENT = Style(edition="student")
FOOTER, HEADING, TITLE = 9.0, 13.0, 21.0  # points
FOOT = 50.0  # points from the lower edge, above the footer
LABELS = 75.0  # points from the left edge, right of the labels
APART = 8.0  # points, more than from one digit to the next


class Piece(Struct, frozen=True):
    """A bit of text as it is set: where on the page, and how large, in points."""

    text: str
    x: float
    y: float
    size: float


def pages(data: bytes) -> list[list[Piece]]:
    return [list(_pieces(page)) for page in PdfReader(io.BytesIO(data)).pages]


def text(data: bytes) -> str:
    read = (page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)
    return " ".join(" ".join(read).replace("\N{NO-BREAK SPACE}", " ").split())


def _pieces(page: Any) -> Iterator[Piece]:
    found: list[Piece] = []

    def visit(words: str, cm: list[float], tm: list[float], font: object, size: float) -> None:
        if words.strip():
            x = tm[4] * cm[0] + tm[5] * cm[2] + cm[4]
            y = tm[4] * cm[1] + tm[5] * cm[3] + cm[5]
            found.append(Piece(words.strip(), x, y, round(size * abs(tm[0] * cm[0]), 1)))

    page.extract_text(visitor_text=visit)
    return iter(found)


def frets(data: bytes, labels: list[str]) -> Counter[tuple[int, str]]:
    """(string, fret) of every note in the tabs: each by the label to the left of its line."""
    read: Counter[tuple[int, str]] = Counter()
    for pieces in pages(data):
        lines = [p for p in _alone(pieces) if p.size == measures.SMALL and p.x < LABELS and p.text in labels]
        assert [piece.text for piece in lines] == labels * (len(lines) // len(labels)), "a tab is split"
        for note in _numbers(p for p in pieces if p.size == measures.SIZE and p.text.isdigit()):
            read[_string(note, lines, labels), note.text] += 1
        for cross in (p for p in pieces if p.text == "×" and p.size == measures.CROSS):
            read[_string(cross, lines, labels), "x"] += 1
    return read


def _alone(pieces: list[Piece]) -> Iterator[Piece]:
    """The pieces that are no letter of a word: drawings set their words ("let ring") letter by letter."""
    for piece in pieces:
        if not any(other.y == piece.y and 0 < abs(other.x - piece.x) < APART for other in pieces):
            yield piece


def _string(note: Piece, lines: list[Piece], labels: list[str]) -> int:
    nearest = min(range(len(lines)), key=lambda at: abs(lines[at].y - note.y))
    assert abs(lines[nearest].y - note.y) < measures.SPACE / 2
    return nearest % len(labels) + 1


def _numbers(digits: Iterable[Piece]) -> list[Piece]:
    """Digits that touch, as numbers."""
    made: list[Piece] = []
    end = 0.0
    for piece in digits:
        if made and made[-1].y == piece.y and 0 < piece.x - end < APART:
            made[-1] = replace(made[-1], text=made[-1].text + piece.text)
        else:
            made.append(piece)
        end = piece.x
    return made


def played(lesson: Lesson) -> Counter[tuple[int, str]]:
    """(string, fret) of every note of the lesson, and once more of those in its loops."""
    passages = [*lay_out(lesson).passages, *(excerpt(lesson, spot)[0] for spot in practice(lesson))]
    notes = (note for passage in passages for event in passage.events for note in event.notes)
    return Counter((note.string, str(note.fret)) for note in notes)


@pytest.mark.parametrize("style", [PLAIN, STUDENT])
@pytest.mark.parametrize("made", [LESSON, SETTLED, demo.lesson()], ids=["rich", "settled", "demo"])
def test_every_fret_stands_on_its_string(made: Lesson, style: Style) -> None:
    assert frets(render(made, style), string_labels(made.facts.tuning)) == played(made)


def test_a_word_over_the_first_note_is_no_string() -> None:
    event = Event("e0", 1.0, 2.0, "p1", (Note(1, "x"),), marks=("let-ring",))
    facts = Facts("A lesson", "guitar", ("E4", "B3", "G3", "D3", "A2", "E2"))
    phrase = Phrase("p1", "One", 0.0, 9.0, ("e0",))
    made = Lesson(source=Source("a.vtt"), facts=facts, phrases=(phrase,), events=(event,))
    assert frets(render(made), string_labels(facts.tuning)) == {(1, "x"): 1}


@settings(max_examples=25, deadline=None)
@given(lessons())
def test_every_fret_of_any_lesson_stands_on_its_string(lesson: Lesson) -> None:
    assert frets(render(lesson), string_labels(lesson.facts.tuning)) == played(lesson)


def long(times: int) -> Lesson:
    """The phrases of the rich lesson over and over."""
    events = [replace(e, id=f"{n}{e.id}", notes=e.notes) for n in range(times) for e in LESSON.events]
    phrases = [
        replace(phrase, id=f"{n}{phrase.id}", events=tuple(f"{n}{name}" for name in phrase.events))
        for n in range(times)
        for phrase in LESSON.phrases
    ]
    return replace(LESSON, events=tuple(events), phrases=tuple(phrases), repeats=(), flags=())


def test_no_heading_strands_at_the_foot_of_a_page_and_no_tab_is_split() -> None:
    made = long(6)
    data = render(made, STUDENT)
    assert frets(data, string_labels(made.facts.tuning)) == played(made)
    for page in pages(data):
        *_, last = (piece for piece in page if piece.size > FOOTER and piece.y > FOOT)
        assert last.size not in (TITLE, HEADING)


def test_pages_are_counted_and_few() -> None:
    assert len(PdfReader(io.BytesIO(render(demo.lesson()))).pages) == 2
    assert len(pages(render(LESSON))) <= 5
    for number, page in enumerate(pages(render(LESSON)), start=1):
        assert "".join(piece.text for piece in page).replace(" ", "").endswith(f"{number}/4")


def test_the_teacher_reads_every_question_in_the_margin_and_the_student_none() -> None:
    teacher, student = text(render(LESSON)), text(render(LESSON, STUDENT))
    for flag in FLAGS:
        if flag.decided is None:
            assert flag.message.split(".")[0] in teacher
        assert flag.message not in student
    assert "harbour.vtt" not in student and "question" not in student


def test_a_draft_says_so_on_every_page_and_only_a_draft() -> None:
    drafted = PdfReader(io.BytesIO(render(LESSON, STUDENT)))
    assert all(UNSETTLED in page.extract_text() for page in drafted.pages)
    assert "draft" not in text(render(SETTLED, STUDENT)).lower()


def test_the_same_lesson_gives_the_same_bytes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made = render(LESSON)
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TZ", "Asia/Tokyo")
    assert render(LESSON) == made


@pytest.mark.parametrize("words", ["#panic() *x* $x$ `x` <a> @b // /* \\", "[x] - + = ~ _x_", "x" * 300])
def test_words_are_set_as_they_are_never_as_markup(words: str) -> None:
    flags = tuple(replace(flag, message=words, decided=None) for flag in FLAGS)
    made = replace(LESSON, facts=replace(LESSON.facts, title=words), flags=flags)
    assert text(render(made)).replace(" ", "").count(words.replace(" ", "")) > len(flags)


@pytest.mark.parametrize("words", ["日本語", "\a\0 \x7f", "\U0010ffff", "👩‍👩‍👧"])
def test_characters_without_a_shape_do_no_harm(words: str) -> None:
    made = replace(LESSON, facts=replace(LESSON.facts, title=f"A {words} lesson"))
    assert "lesson" in text(render(made))


def test_a_lesson_without_notes_still_has_its_page() -> None:
    bare = replace(SETTLED, events=(), phrases=(), repeats=(), flags=())
    assert "What is only played" in text(render(bare))
    assert "What is only played" not in text(render(bare, STUDENT))


def test_the_file_is_tagged_for_screen_readers() -> None:
    """PDF/UA-1 (ISO 14289-1): marked, with a title, a language, and words for each drawing."""
    root = PdfReader(io.BytesIO(render(LESSON))).trailer["/Root"].get_object()
    assert root["/MarkInfo"]["/Marked"] and root["/Lang"] == "en"
    alts = set(_alts(root["/StructTreeRoot"]))
    held = contents(LESSON, PLAIN)
    wanted = {figure.alt for section in (*held.sections, *held.loops) for figure in section.lines}
    assert wanted <= alts


def _alts(element: Any) -> Iterator[str]:
    found = element.get_object()
    if isinstance(found, dict):
        if "/Alt" in found:
            yield str(found["/Alt"])
        below = found.get("/K", [])
        for child in below if isinstance(below, list) else [below]:
            yield from _alts(child)
