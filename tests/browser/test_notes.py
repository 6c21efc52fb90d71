"""notes.html in a real browser: nothing in the console, nothing that an accessibility checker finds.

The checker is axe-core, by the rules of WCAG 2.2 that a machine can see.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from msgspec.structs import replace
from playwright.sync_api import Page, expect

from notesgen.pack.html import render
from notesgen.pack.layout.style import Style
from tests.pack.rich import LESSON
from tests.pack.test_html import hostile

PHONE, DESK = 390, 1280


def opened(page: Page, folder: Path, html: str, width: int = DESK) -> None:
    file = folder / "notes.html"
    file.write_text(html, encoding="utf-8")
    page.set_viewport_size({"width": width, "height": 900})
    page.goto(file.as_uri())


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [PHONE, DESK])
@pytest.mark.parametrize("edition", ["teacher", "student"])
def test_axe_finds_nothing(page: Page, tmp_path: Path, width: int, scheme: str, edition: str) -> None:
    page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    opened(page, tmp_path, render(LESSON, Style(edition=edition)), width)  # type: ignore[arg-type]
    results = Axe().run(page, options={"resultTypes": ["violations"]})
    assert results.violations_count == 0, results.generate_report()


@pytest.mark.parametrize("width", [320, PHONE, 700, DESK])
def test_no_page_scrolls_sideways(page: Page, tmp_path: Path, width: int) -> None:
    opened(page, tmp_path, render(LESSON), width)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


@pytest.mark.parametrize("width", [PHONE, DESK])
def test_one_of_the_two_drawings_of_each_phrase_is_shown(page: Page, tmp_path: Path, width: int) -> None:
    opened(page, tmp_path, render(LESSON), width)
    for event in LESSON.events:
        section = page.locator("section.phrase")
        shown = section.locator(f'[data-event="{event.id}"] .place').filter(visible=True)
        assert shown.count() == 1


def test_hostile_text_does_nothing(page: Page, tmp_path: Path) -> None:
    dialogs: list[str] = []
    page.on("dialog", lambda dialog: (dialogs.append(dialog.message), dialog.dismiss()))
    opened(page, tmp_path, render(hostile()), PHONE)
    assert dialogs == []
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE


def test_the_keyboard_reaches_the_lesson_first(page: Page, tmp_path: Path) -> None:
    opened(page, tmp_path, render(replace(LESSON, flags=())))
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.textContent") == "Skip to the lesson"


def test_each_player_marks_the_note_that_it_plays(page: Page, tmp_path: Path) -> None:
    opened(page, tmp_path, render(LESSON))
    for phrase in LESSON.phrases:
        section = page.locator(f'section[data-phrase="{phrase.id}"]')
        section.get_by_role("button", name="Play", exact=True).click()
        first = section.locator(f'[data-event="{phrase.events[0]}"].sounding .place').filter(visible=True)
        expect(first).to_have_count(1)
        section.get_by_role("button", name="Stop", exact=True).click()


def test_a_loop_of_the_practice_section_plays_its_notes(page: Page, tmp_path: Path) -> None:
    opened(page, tmp_path, render(LESSON))
    drill = page.locator(".drill").first
    drill.get_by_role("button").click()
    expect(drill.locator(".sounding").first).to_be_visible()
    expect(drill.get_by_role("button")).to_have_attribute("aria-pressed", "true")
