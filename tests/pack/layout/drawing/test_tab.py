"""The drawn tab: what any drawing must hold, whatever the lesson."""

from __future__ import annotations

from collections import Counter
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.drawing.figure import Figure
from notesgen.pack.layout.drawing.ink import text_width
from notesgen.pack.layout.drawing.tab import tab_figures
from notesgen.pack.layout.sheet import lay_out
from tests.pack.lessons import lessons
from tests.pack.rich import LESSON

SVG = "{http://www.w3.org/2000/svg}"
WIDTHS = st.integers(200, 600)
quick = settings(max_examples=30, deadline=None)


def drawn(lesson: Lesson, width: float, flagged: bool = True) -> list[Figure]:
    sheet = lay_out(lesson, flagged)
    return [figure for passage in sheet.passages for figure in tab_figures(passage, sheet, width)]


def parsed(figures: list[Figure]) -> list[ET.Element]:
    return [ET.fromstring(figure.svg) for figure in figures]


def texts(root: ET.Element) -> list[str]:
    return [element.text or "" for element in root.iter(f"{SVG}text")]


@quick
@given(lessons(), WIDTHS)
def test_each_event_is_drawn_once_in_order(lesson: Lesson, width: int) -> None:
    groups = [g for root in parsed(drawn(lesson, width)) for g in root.iter(f"{SVG}g")]
    assert [g.get("data-event") for g in groups if g.get("data-event")] == [e.id for e in lesson.events]


@quick
@given(lessons(), WIDTHS)
def test_each_fret_stands_on_its_string(lesson: Lesson, width: int) -> None:
    shown: Counter[tuple[str, str, str]] = Counter()
    for root in parsed(drawn(lesson, width)):
        for group in root.iter(f"{SVG}g"):
            for text in group.findall(f"{SVG}text[@data-string]"):
                number = (text.text or "").strip("()").replace("×", "x")
                shown[group.get("data-event", ""), text.get("data-string", ""), number] += 1
    told = Counter((e.id, str(n.string), str(n.fret)) for e in lesson.events for n in e.notes)
    assert shown == told


@quick
@given(lessons(), WIDTHS)
def test_the_width_is_kept(lesson: Lesson, width: int) -> None:
    for figure, root in zip(drawn(lesson, width), parsed(drawn(lesson, width)), strict=True):
        assert figure.width <= width + 0.01
        left, _, across, high = map(float, root.get("viewBox", "").split())
        assert (left, across, high) == pytest.approx((0, figure.width, figure.height), abs=0.01)


@quick
@given(lessons(), WIDTHS)
def test_all_strings_run_from_end_to_end_without_overlap(lesson: Lesson, width: int) -> None:
    for root in parsed(drawn(lesson, width)):
        staff = root.find(f"{SVG}g[@class='staff']")
        assert staff is not None
        strings = [p.get("d", "") for p in staff.findall(f"{SVG}path") if p.get("stroke-width") == "0.5"]
        assert len(strings) == 6
        for d in strings:
            ends = [
                float(n) for piece in d.split("M")[1:] for n in (piece.split(",")[0], piece.split("H")[1])
            ]
            assert ends == sorted(ends)


def test_the_rich_lesson_shows_every_sign() -> None:
    shown = {text for root in parsed(drawn(LESSON, 430)) for text in texts(root)}
    assert {"full", "¼", "1½", "h", "p", "t", "tr", "P.M.", "let ring", "rake", "×4", "×2"} <= shown
    assert {"(10)", "(12)", "×", "(11)", "17"} <= shown


def test_questions_are_pencilled_in_for_the_teacher_only() -> None:
    pencilled = [g for root in parsed(drawn(LESSON, 430)) for g in root.iter() if g.get("class") == "pencil"]
    numbers = [text.text for group in pencilled for text in group.iter(f"{SVG}text")]
    assert numbers == ["2", "3", "5", "7"]
    clean = parsed(drawn(LESSON, 430, flagged=False))
    assert not [g for root in clean for g in root.iter() if g.get("class") == "pencil"]


def test_a_drawing_stands_alone() -> None:
    for figure, root in zip(drawn(LESSON, 430), parsed(drawn(LESSON, 430)), strict=True):
        assert root.tag == f"{SVG}svg" and root.get("role") == "img"
        assert not [element for element in root.iter() if element.get("id") or element.get("style")]
        title, words = root.findtext(f"{SVG}title"), root.findtext(f"{SVG}desc")
        assert figure.alt == root.get("aria-label") == f"{title}: {words}"
        assert all(word in figure.alt for word in ("Tab", "string"))


def test_a_title_with_forbidden_characters_is_still_xml() -> None:
    phrase = replace(LESSON.phrases[0], title="a\x00b\x0b<c>&\ufffe")
    root = parsed(drawn(replace(LESSON, phrases=(phrase,)), 430))[0]
    assert "b <c>&" in (root.findtext(f"{SVG}title") or "")


@quick
@given(lessons(), WIDTHS)
def test_nothing_is_written_beyond_the_edge(lesson: Lesson, width: int) -> None:
    for figure, root in zip(drawn(lesson, width), parsed(drawn(lesson, width)), strict=True):
        top = float(root.get("viewBox", "").split()[1])
        for text in root.iter(f"{SVG}text"):
            x, y, size = (float(text.get(name, "")) for name in ("x", "y", "font-size"))
            wide = text_width(text.text or "", size)
            left = x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[text.get("text-anchor", "")]
            assert left >= -0.5 and left + wide <= figure.width + 6
            # Capitals and figures are about 0.65 of their size high.
            assert top <= y - 0.65 * size and y <= top + figure.height
