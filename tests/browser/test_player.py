"""The player under a reader's hands, in a real browser."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from notesgen.lesson.model import Event
from tests.browser.sounding_page import STANDARD, event, lesson, show
from tests.pack.rich import FACTS, LESSON

FAST = 400.0
LADDER = (
    '<div id="spot"><svg><g data-event="e2"/><g data-event="e3"/></svg>'
    '<button type="button" data-ladder="60 40 1 100" data-phrase="p1" data-from="e2" data-to="e3" hidden>'
    "Climb</button><output></output></div>"
)


def scheduled(page: Page) -> list[dict[str, Any]]:
    return page.evaluate("notesgen.scheduled")


def later(page: Page, rounds: int) -> list[dict[str, Any]]:
    """What is scheduled once so many rounds have been laid."""
    page.wait_for_function(f"notesgen.scheduled.some((tone) => tone.round === {rounds - 1})")
    return scheduled(page)


def run(count: int) -> list[Event]:
    return [event(n, 3, n) for n in range(1, count + 1)]


def test_what_is_scheduled_is_what_the_lesson_says(page: Page) -> None:
    show(page, LESSON)
    page.locator("section[data-phrase=p1] .play").click()
    written = [e for e in LESSON.events if e.id in LESSON.phrases[0].events]
    # Drop D tuning with a capo at 2, read off the rich lesson; MIDI 1.0 note numbers.
    opened = {1: 66, 2: 61, 3: 57, 4: 52, 5: 47, 6: 40}
    assert (FACTS.tuning, FACTS.capo) == (("E4", "B3", "G3", "D3", "A2", "D2"), 2)
    expected = [
        (e.id, note.string, opened[note.string] + (0 if note.fret == "x" else note.fret))
        for e in written
        for note in e.notes
    ]
    assert [(tone["event"], tone["string"], tone["midi"]) for tone in scheduled(page)] == expected
    eighth = 60 / 96 / 2
    first = scheduled(page)[0]["at"]
    starts = [(tone["at"] - first) / eighth for tone in scheduled(page)]
    assert starts == pytest.approx([0, 1, 2, 3, 4, 5, 6, 7, 7.5 + 0.0, 7.75, 8], abs=0.01)


def test_speed_stretches_time_and_leaves_pitch(page: Page) -> None:
    show(page, lesson(*run(4)))
    page.locator(".speed").focus()
    for _ in range(10):
        page.keyboard.press("ArrowLeft")
    expect(page.locator("output")).to_have_text("50 %")
    expect(page.locator(".speed")).to_have_attribute("aria-valuetext", "50 %")
    page.locator(".play").click()
    tones = scheduled(page)
    assert [tone["midi"] for tone in tones] == [56, 57, 58, 59]
    assert [tone["at"] - tones[0]["at"] for tone in tones] == pytest.approx([0, 1, 2, 3])


def test_the_speed_may_change_on_the_way(page: Page) -> None:
    show(page, lesson(*run(16)))
    page.locator(".play").click()
    page.wait_for_timeout(700)
    page.locator(".speed").fill("120")
    tones = scheduled(page)
    steps = [round(b["at"] - a["at"], 3) for a, b in pairwise(tones)]
    assert [tone["midi"] for tone in tones] == list(range(56, 72))
    assert steps[0] == 0.5 and steps[-1] == pytest.approx(0.5 / 1.2, abs=0.001)


def test_only_one_phrase_plays_and_the_keyboard_stops_it(page: Page) -> None:
    show(page, LESSON)
    buttons = page.locator(".play")
    buttons.nth(0).click()
    expect(buttons.nth(0)).to_have_text("Stop")
    buttons.nth(1).click()
    expect(buttons.nth(0)).to_have_text("Play")
    expect(buttons.nth(1)).to_have_text("Stop")
    page.keyboard.press("Escape")
    expect(buttons.nth(1)).to_have_text("Play")
    page.locator(".speed").nth(2).focus()
    page.keyboard.press("Space")
    expect(buttons.nth(2)).to_have_text("Stop")
    page.keyboard.press("Space")
    expect(buttons.nth(2)).to_have_text("Play")
    assert scheduled(page) == []


def test_the_note_that_sounds_is_marked_and_only_that(page: Page) -> None:
    show(page, lesson(*run(6)))
    marked = page.locator("[data-event].sounding")
    assert marked.count() == 0
    page.locator(".play").click()
    for name in ("e1", "e2", "e3"):
        page.wait_for_function(
            "name => [...document.querySelectorAll('.sounding')].map(e => e.dataset.event).join() === name",
            arg=name,
        )
    page.locator(".play").click()
    expect(marked).to_have_count(0)


def test_it_ends_by_itself(page: Page) -> None:
    show(page, lesson(*run(2), tempo=FAST))
    page.locator(".play").click()
    expect(page.locator(".play")).to_have_text("Stop")
    expect(page.locator(".play")).to_have_text("Play")
    expect(page.locator(".sounding")).to_have_count(0)


def test_a_loop_comes_round_on_the_beat_until_it_is_let_go(page: Page) -> None:
    show(page, lesson(*run(3), tempo=FAST))
    page.locator(".loop").click()
    page.locator(".play").click()
    tones = later(page, 3)
    starts = [tone["at"] for tone in tones if tone["event"] == "e1"]
    # Three eighths fill two beats.
    assert starts[1] - starts[0] == pytest.approx(2 * 60 / FAST)
    assert starts[2] - starts[1] == pytest.approx(2 * 60 / FAST)
    page.locator(".loop").click()
    expect(page.locator(".play")).to_have_text("Play")


def test_a_count_of_four_goes_before_the_first_round(page: Page) -> None:
    show(page, lesson(*run(3), tempo=120.0))
    page.locator(".click").check()
    before = page.evaluate("performance.now()")
    page.locator(".play").click()
    page.wait_for_function("document.querySelector('.sounding')")
    assert page.evaluate("performance.now()") - before > 4 * 500


def test_a_ladder_climbs_over_its_own_notes(page: Page) -> None:
    show(page, lesson(*run(4), tempo=FAST), LADDER)
    climb = page.locator("[data-ladder]")
    climb.click()
    page.wait_for_function("document.querySelector('#spot .sounding')")
    tones = later(page, 3)
    rounds = {(tone["round"], tone["event"], tone["speed"]) for tone in tones if tone["round"] < 3}
    expected = {(0, 60), (1, 100), (2, 100)}
    assert rounds == {(turn, name, speed) for turn, speed in expected for name in ("e2", "e3")}
    for shown in page.locator("output").all():
        expect(shown).to_have_text("100 %")
    expect(climb).to_have_attribute("aria-pressed", "true")
    expect(page.locator(".loop")).to_have_attribute("aria-pressed", "true")
    page.keyboard.press("Escape")
    expect(climb).to_have_attribute("aria-pressed", "false")
    expect(page.locator(".play")).to_have_text("Play")
    expect(page.locator("#spot output")).to_have_text("")
    expect(page.locator(".sounding")).to_have_count(0)


def test_nothing_shows_without_sound_and_nothing_is_read_out(page: Page) -> None:
    silent = event(1, 9, 5)
    assert len(STANDARD) < 9
    show(page, lesson(silent), LADDER)
    expect(page.locator(".player")).to_be_hidden()
    expect(page.locator("[data-ladder]")).to_be_hidden()
    show(page, lesson(*run(2)))
    expect(page.locator(".player")).to_be_visible()
    expect(page.locator("output")).to_have_attribute("aria-live", "off")


def test_more_phrases_can_be_attached_and_played_unseen(page: Page) -> None:
    show(page, lesson(*run(2)))
    page.evaluate("notesgen.attach(document, { option: { ...notesgen.sounds.p1 } })")
    page.evaluate("notesgen.play('option', { speed: 80 })")
    assert [tone["midi"] for tone in scheduled(page)] == [56, 57]
    page.evaluate("notesgen.stop()")
    assert scheduled(page) == []
