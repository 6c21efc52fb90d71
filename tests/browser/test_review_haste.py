"""Keys that are faster than the answers: each still does what the teacher meant by it."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.served import house, opened
from tests.review.pages import lesson

SLOW = 150  # milliseconds that an answer takes on its way


@pytest.fixture
def slow(browser: Browser, tmp_path: Path) -> Iterator[Page]:
    """The page of a lesson whose acts are answered slowly."""
    with house(lesson(tmp_path).parent) as address:
        context = browser.new_context()
        page = opened(context.new_page(), address)
        opened(page, page.url + "lesson/walk.txt")
        page.evaluate(
            """(slow) => {
                const straight = window.fetch;
                window.fetch = async (...asked) => {
                    if (String(asked[0]).endsWith("/act"))
                        await new Promise((on) => setTimeout(on, slow));
                    return straight(...asked);
                };
            }""",
            SLOW,
        )
        yield page
        context.close()


def at_rest(page: Page) -> None:
    """Waits until every act is answered."""
    page.wait_for_timeout(SLOW * 6)


def strings(page: Page) -> list[str | None]:
    return [mark.get_attribute("data-string") for mark in page.locator("#sheet [data-fret]").all()]


def test_a_second_answer_does_not_fall_on_the_first_query(slow: Page, tmp_path: Path) -> None:
    asked = slow.locator("#left").inner_text()
    slow.keyboard.type("ba")
    expect(slow.locator("#left")).not_to_have_text(asked)
    at_rest(slow)
    kept = tomllib.loads((tmp_path / "walk" / "decisions.toml").read_text("utf-8"))["decision"]
    shown = slow.evaluate("fetch('/api/lesson/walk.txt').then((answer) => answer.json())")
    first = next(query for query in shown["slips"] if query["answer"])
    assert [one["answer"] for one in kept] == [first["options"][1]]


def test_two_moves_go_two_strings_far(slow: Page) -> None:
    slow.keyboard.press("n")
    before = slow.locator("#sheet .held")
    string = int(before.get_attribute("data-string") or 0)
    by, key = (-2, "ArrowUp") if string > 2 else (2, "ArrowDown")
    slow.keyboard.press(key)
    slow.keyboard.press(key)
    expect(slow.locator("#sheet .held")).to_have_attribute("data-string", str(string + by))


def test_two_marks_are_both_kept(slow: Page) -> None:
    slow.keyboard.press("n")
    for name in ("palm mute", "accent"):
        slow.get_by_role("button", name=name, exact=True).click()
    at_rest(slow)
    for name in ("palm mute", "accent"):
        expect(slow.get_by_role("button", name=name, exact=True)).to_have_attribute("aria-pressed", "true")


def test_figures_typed_after_a_new_note_are_the_new_note_s(slow: Page) -> None:
    slow.keyboard.press("n")
    chosen = slow.locator("#sheet .chosen").first
    fret = chosen.locator("[data-fret]").first.get_attribute("data-fret")
    event = chosen.get_attribute("data-event")
    slow.keyboard.type("a11v")
    expect(slow.locator('#sheet .chosen [data-fret="11"]')).to_have_count(1)
    at_rest(slow)
    first = slow.locator(f'#sheet [data-event="{event}"] [data-fret]')
    expect(first).to_have_attribute("data-fret", str(fret))
    expect(slow.get_by_role("button", name="vibrato", exact=True)).to_have_attribute("aria-pressed", "true")
    slow.keyboard.press("Control+z")
    slow.keyboard.press("Control+z")
    expect(slow.locator('#sheet [data-fret="11"]')).to_have_count(0)


def test_a_note_is_taken_out_once(slow: Page) -> None:
    count = len(strings(slow))
    slow.keyboard.press("n")
    slow.keyboard.press("Delete")
    slow.keyboard.press("Delete")
    expect(slow.locator("#sheet [data-fret]")).to_have_count(count - 1)
    at_rest(slow)
    expect(slow.locator("#told")).not_to_have_class("problem")
