"""notes.html: a page that stands alone, read back by an independent HTML parser (html5lib, strict)."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree as ET

import html5lib
import pytest
from hypothesis import given, settings
from msgspec.structs import replace

from notesgen.lesson.model import Facts, Lesson, Source
from notesgen.pack.html import render
from notesgen.pack.layout.style import Style
from tests.pack.lessons import lessons
from tests.pack.rich import FACTS, LESSON, SETTLED

STUDENT = Style(edition="student")
HOSTILE = "</script><script>alert(1)</script>\"'><img src=x onerror=alert(2)>{{ 7 * 7 }} &amp; \u202eabc"


def parsed(page: str) -> ET.Element:
    """The page as a tree. Raises where the HTML standard names a parse error."""
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    tree: ET.Element = parser.parse(page)
    return tree


def text(element: ET.Element) -> str:
    return " ".join("".join(element.itertext()).split())


@pytest.mark.parametrize("style", [Style(), STUDENT], ids=["teacher", "student"])
def test_the_page_parses_without_an_error(style: Style) -> None:
    page = parsed(render(LESSON, style))
    headings = [e for e in page.iter() if re.fullmatch("h[1-6]", str(e.tag))]
    levels = [int(e.tag[1]) for e in headings]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    ids = [e.get("id") for e in page.iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    links = [e.get("href", "")[1:] for e in page.iter("a") if e.get("href", "").startswith("#")]
    assert set(links) <= set(ids)


@settings(max_examples=15, deadline=None)
@given(lessons())
def test_any_lesson_parses(lesson: Lesson) -> None:
    parsed(render(lesson))


def hostile() -> Lesson:
    """The rich lesson with markup wherever text comes from the talk."""
    facts = replace(FACTS, title=HOSTILE, positions=tuple(replace(p, label=HOSTILE) for p in FACTS.positions))
    return replace(
        LESSON,
        source=replace(LESSON.source, captions=HOSTILE, media=HOSTILE),
        facts=facts,
        phrases=tuple(replace(phrase, title=HOSTILE) for phrase in LESSON.phrases),
        flags=tuple(replace(flag, message=HOSTILE, quote=HOSTILE) for flag in LESSON.flags),
    )


def test_what_was_said_never_becomes_markup() -> None:
    page, plain = parsed(render(hostile())), parsed(render(LESSON))
    assert len(list(page.iter("script"))) == len(list(plain.iter("script")))
    assert not list(page.iter("img"))
    assert not [e for e in page.iter() if any(name.startswith("on") for name in e.attrib)]
    assert text(next(page.iter("h1"))) == HOSTILE
    assert all(not e.get("href", "").startswith("javascript") for e in page.iter("a"))


def test_nothing_is_fetched_from_anywhere() -> None:
    page = re.sub("<meta http-equiv[^>]*>", "", render(LESSON)).replace("http://www.w3.org/2000/svg", "")
    assert "http" not in page
    assert not re.search(r"\b(src|srcset)=|@import|url\(", page)


def test_times_lead_to_the_recording_where_there_is_one() -> None:
    assert 'href="my%20lesson.mp4#t=58"' in render(
        replace(LESSON, source=replace(LESSON.source, media="my lesson.mp4"))
    )
    assert "#t=" not in render(LESSON)


def test_the_student_sees_no_question_and_no_pencil() -> None:
    page = render(LESSON, STUDENT)
    assert 'class="pencil"' not in page and 'class="margin"' not in page
    assert all(flag.message not in page for flag in LESSON.flags)


def test_draft_stands_on_a_students_page_while_queries_are_open() -> None:
    assert 'class="stamp"' in render(LESSON, STUDENT)
    assert 'class="stamp"' not in render(SETTLED, STUDENT)
    assert 'class="stamp"' not in render(LESSON)


def test_each_phrase_has_its_player_and_each_event_its_place() -> None:
    page = parsed(render(LESSON))
    for phrase in LESSON.phrases:
        (section,) = (e for e in page.iter("section") if e.get("data-phrase") == phrase.id)
        (player,) = (e for e in section.iter("div") if e.get("class") == "player")
        assert player.get("data-phrase") == phrase.id
        shown = [e.get("data-event") for e in section.iter() if e.get("data-event")]
        # Once as a wide drawing, once as a narrow one; a page shows one of them.
        assert shown == [*phrase.events, *phrase.events]


def test_a_lesson_without_notes_says_so() -> None:
    page = render(Lesson(source=Source("a.vtt"), facts=Facts("", "guitar", ("E4", "A3"))))
    assert "there is no tab" in text(parsed(page))
