"""notes.html as it is made: what its players schedule is what the lesson says."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from playwright.sync_api import Page, expect

from notesgen.lesson.model import Lesson, Phrase
from notesgen.pack.html import render
from notesgen.pack.layout.sounding.phrases import sounds
from notesgen.pack.layout.style import Style
from tests.pack import bass, rich


@pytest.mark.parametrize("made", [rich.LESSON, bass.LESSON])
def test_each_phrase_schedules_its_events_in_order(page: Page, made: Lesson) -> None:
    page.set_content(render(made, Style()))
    for sound in sounds(made):
        section = page.locator(f"section[data-phrase={sound.phrase}]")
        section.locator(".play").click()
        laid = page.evaluate("notesgen.scheduled.map(({ event, string, midi }) => [event, string, midi])")
        assert laid == [[tone.event, tone.string, tone.midi] for tone in sound.tones]
        played = {event for event, _, _ in laid}
        assert played == {
            name for phrase in made.phrases if phrase.id == sound.phrase for name in phrase.events
        }
        expect(page.locator(".sounding").first).to_be_attached()
        page.keyboard.press("Escape")
        expect(page.locator(".sounding")).to_have_count(0)


def test_a_ladder_marks_the_notes_beside_it_too(page: Page) -> None:
    page.set_content(render(rich.LESSON, Style()))
    drill = page.locator(".drill").first
    drill.locator("[data-ladder]").click()
    expect(drill.locator(".sounding").first).to_be_visible()
    drill.locator("[data-ladder]").click()
    expect(page.locator(".sounding")).to_have_count(0)


def test_events_that_no_phrase_holds_can_be_played(page: Page) -> None:
    loose = replace(rich.LESSON, phrases=(Phrase("p1", "One", 58.0, 75.0, ("e1", "e2")),))
    page.set_content(render(loose, Style()))
    page.locator("section[data-phrase=rest] .play").click()
    assert page.evaluate("notesgen.scheduled.length") > 50
