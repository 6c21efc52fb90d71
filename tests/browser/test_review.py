"""The whole way of a teacher: captions dropped, every query answered by keyboard, a note put right by hand,
the server killed on the way, and the students' pack made."""

from __future__ import annotations

import tomllib
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from tests.browser.served import READY, drop, house, opened, served
from tests.review.pages import lesson


def left(page: Page) -> int:
    """The queries that are still open."""
    text = page.locator("#left").inner_text()
    return 0 if text == "All settled" else int(text.split()[0])


def decisions(folder: Path) -> int:
    return len(tomllib.loads((folder / "walk" / "decisions.toml").read_text("utf-8"))["decision"])


def frets(page: Page) -> list[str | None]:
    """All frets of the tab, in order of the drawing."""
    return [mark.get_attribute("data-fret") for mark in page.locator("#sheet [data-fret]").all()]


def answer_all(page: Page, key: str) -> int:
    """Presses the key on each query until none is left; how often."""
    pressed = 0
    while count := left(page):
        page.keyboard.press(key)
        pressed += 1
        expect(page.locator("#left")).not_to_have_text(f"{count} quer{'y' if count == 1 else 'ies'} left")
    return pressed


def test_from_captions_to_the_students_pack(browser: Browser, tmp_path: Path) -> None:
    folder = tmp_path / "lessons"
    folder.mkdir()
    captions = lesson(tmp_path)
    context = browser.new_context()
    page = context.new_page()
    with served(str(folder)) as first:
        opened(page, first.address)
        expect(page.get_by_role("heading", name="Lessons")).to_be_visible()
        drop(page, captions)
        page.wait_for_url("**/lesson/walk.txt")
        page.wait_for_selector(READY)
        asked = left(page)
        assert asked >= 2
        page.keyboard.press("b")
        expect(page.locator("#told")).to_contain_text("string")
        assert decisions(folder) == 1
        first.kill()
        page.keyboard.press("a")
        expect(page.locator("#told")).to_contain_text("does not answer any more")
    with served(str(folder / "walk.txt")) as again:
        opened(page, again.address)
        assert left(page) < asked
        answer_all(page, "a")
        expect(page.get_by_role("button", name="Make the pack")).to_be_focused()
        correct_by_hand(page)
        page.keyboard.press("Escape")
        answer_all(page, "a")  # what the hand raised anew
        expect(page.get_by_role("button", name="Make the pack")).to_be_focused()
        page.keyboard.press("Enter")
        see_the_pack(page, folder / "walk" / "student")
        opened(page, again.address.split("/start")[0])
        expect(page.locator("#lessons")).to_contain_text("all settled")
        status, output, errors = again.interrupt()
    assert (status, errors) == (0, "")
    assert "kept" in output
    context.close()


def correct_by_hand(page: Page) -> None:
    """A fret of two figures, undone and done again; another string, another technique, a note more."""
    before = frets(page)
    page.keyboard.press("n")
    page.keyboard.type("12")
    expect(page.locator('#sheet [data-fret="12"]')).to_have_count(1)
    page.keyboard.press("Control+z")
    expect(page.locator('#sheet [data-fret="12"]')).to_have_count(0)
    assert frets(page) == before
    page.keyboard.press("Control+y")
    expect(page.locator('#sheet [data-fret="12"]')).to_have_count(1)
    page.keyboard.press("ArrowDown")
    expect(page.locator('#sheet .held[data-fret="12"]')).to_have_attribute("data-string", "4")
    page.keyboard.press("b")
    expect(page.locator("#how")).to_have_value("bend")
    page.keyboard.press("a")
    expect(page.locator("#sheet [data-fret]")).to_have_count(len(before) + 1)
    page.keyboard.press("Delete")
    expect(page.locator("#sheet [data-fret]")).to_have_count(len(before))


def see_the_pack(page: Page, folder: Path) -> None:
    """Each file is there, and can be opened from the page."""
    expect(page.get_by_role("link", name="tab.txt")).to_be_visible()
    made = {link.inner_text() for link in page.locator("#files a").all()}
    assert made == {path.name for path in folder.iterdir()}
    with page.context.expect_page() as shown:
        page.get_by_role("link", name="tab.txt").click()
    assert "12" in shown.value.inner_text("body")
    with page.context.expect_page() as shown:
        page.get_by_role("link", name="notes.html").click()
    expect(shown.value.get_by_role("heading", name="walk")).to_be_visible()
    expect(shown.value.get_by_role("button", name="Play").first).to_be_visible()


def test_two_tabs_see_each_other(browser: Browser, tmp_path: Path) -> None:
    with house(lesson(tmp_path).parent) as address:
        context = browser.new_context()
        here, there = opened(context.new_page(), address), opened(context.new_page(), address)
        opened(here, here.url + "lesson/walk.txt")
        opened(there, there.url + "lesson/walk.txt")
        asked = left(here)
        here.keyboard.press("b")
        expect(there.locator("#left")).not_to_have_text(f"{asked} queries left")
        there.keyboard.press("n")
        there.keyboard.press("9")
        expect(here.locator('#sheet [data-fret="9"]')).to_have_count(1)
        assert frets(here) == frets(there)
        assert decisions(tmp_path) == 2
        context.close()
        stranger = browser.new_page()
        answer = stranger.goto(f"{address.split('/start')[0]}/lesson/walk.txt")
        assert answer is not None
        assert answer.status == 403
        stranger.close()
