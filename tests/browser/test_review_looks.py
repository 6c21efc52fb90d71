"""The page as it looks and reads: axe-core finds nothing (WCAG 2.2, as far as a machine can see), narrow
screens hold it, hostile words stay words, and a recording plays from the place that is asked about."""

from __future__ import annotations

import wave
from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from notesgen.review.media import named
from tests.browser.served import READY, house, opened
from tests.review.pages import lesson

LONG = "a" * 400
HOSTILE = f"""[0:05] First phrase. <img src=x onerror=alert(1)> On the G string, 5, and hammer on to 7.
[0:10] Then it's 6, &lt;script&gt;alert(2)&lt;/script&gt; and 5 on the B, \u202eright to left\u202c.
[0:15] Second phrase. Fret 7, "&gt;&lt;svg onload=alert(3)&gt; on the D.
[0:20] Then fret 5 {LONG} and 8, {{{{7*7}}}} ' \" & &amp; and the {LONG}.
"""


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A shelf with two lessons, the first with a recording that plays, the other with one that does not."""
    folder = tmp_path_factory.mktemp("lessons")
    walk = lesson(folder)
    lesson(folder, "bad.txt", HOSTILE)
    (folder / "bad.mp4").write_bytes(b"no film at all")
    sound = folder / "take.wav"
    with wave.open(str(sound), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(1)
        file.setframerate(8000)
        file.writeframes(b"\x80" * 8000 * 40)
    with house(folder, walk, named(sound)) as served:
        yield served


def clean(page: Page) -> None:
    results = Axe().run(page, options={"resultTypes": ["violations"]})
    assert results.violations_count == 0, results.generate_report()
    width = page.viewport_size["width"] if page.viewport_size else 0
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def until(page: Page, expression: str) -> None:
    """Waits until it holds. The page's own policy forbids Playwright's way of waiting."""
    for _ in range(200):
        if page.evaluate(expression):
            return
        page.wait_for_timeout(50)
    raise AssertionError(expression)


@pytest.mark.parametrize(("scheme", "width"), [("light", 1280), ("dark", 390)])
def test_axe_finds_nothing(page: Page, address: str, scheme: str, width: int) -> None:
    page.emulate_media(color_scheme="dark" if scheme == "dark" else "light", reduced_motion="reduce")
    page.set_viewport_size({"width": width, "height": 850})
    opened(page, address)
    clean(page)
    page.get_by_role("link", name="walk").click()
    page.wait_for_selector(READY)
    page.wait_for_selector(".drawn svg")
    clean(page)
    page.keyboard.press("n")
    expect(page.get_by_label("Fret", exact=True)).to_be_visible()
    clean(page)
    page.keyboard.press("?")
    expect(page.get_by_role("dialog")).to_be_visible()
    clean(page)
    page.keyboard.press("Escape")
    expect(page.get_by_role("dialog")).to_be_hidden()


def test_a_phone_opens_on_the_question(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 390, "height": 800})
    opened(page, address)
    opened(page, page.url + "lesson/walk.txt")
    page.wait_for_selector(".drawn svg")
    expect(page.locator("#slip h2")).to_be_in_viewport()
    expect(page.locator("#slip button").first).to_be_in_viewport()


def test_hostile_words_stay_words(page: Page, address: str) -> None:
    dialogs: list[str] = []
    page.on("dialog", lambda dialog: (dialogs.append(dialog.message), dialog.dismiss()))
    page.set_viewport_size({"width": 320, "height": 700})
    opened(page, address)
    opened(page, page.url + "lesson/bad.txt")
    expect(page.locator("#words")).to_contain_text("<script>alert(2)</script>")
    assert page.locator("#words img, #words script, #words svg").count() == 0
    assert page.evaluate("document.documentElement.scrollWidth") <= 320
    expect(page.locator("#recording")).to_contain_text("cannot play bad.mp4")
    assert dialogs == []


def test_the_recording_plays_from_two_seconds_before(page: Page, address: str) -> None:
    opened(page, address)
    opened(page, page.url + "lesson/walk.txt")
    until(page, "document.querySelector('audio')?.readyState > 0")
    asked = page.locator("#slip .left").inner_text()
    page.keyboard.press("p")
    until(page, "!document.querySelector('audio').paused")
    page.wait_for_selector("#words .spoken")
    minutes, seconds = asked.split(" ")[0].split(":")
    at = page.evaluate("document.querySelector('audio').currentTime")
    assert int(minutes) * 60 + int(seconds) - 2.01 <= at <= int(minutes) * 60 + int(seconds) + 3
    page.keyboard.press("p")
    until(page, "document.querySelector('audio').paused")


def test_answers_and_phrases_are_heard(page: Page, address: str) -> None:
    opened(page, address)
    opened(page, page.url + "lesson/walk.txt")
    page.wait_for_selector(".drawn svg")
    page.keyboard.press("s")
    page.wait_for_selector("#slip li:first-child .sounding")
    page.keyboard.press("s")
    expect(page.locator(".sounding")).to_have_count(0)
    page.keyboard.press("n")
    page.keyboard.press("l")
    page.wait_for_selector("#sheet .sounding")


def test_notes_are_chosen_by_hand_and_by_key(page: Page, address: str) -> None:
    opened(page, address)
    opened(page, page.url + "lesson/walk.txt")
    page.locator("#sheet [data-fret]").nth(1).click()
    expect(page.locator("#sheet .chosen .held")).to_have_attribute("data-fret", "7")
    page.keyboard.press("ArrowLeft")
    expect(page.locator("#sheet .chosen .held")).to_have_attribute("data-fret", "5")
    page.keyboard.press("Shift+ArrowRight")
    expect(page.locator("#sheet .passage")).to_have_count(2)
    page.keyboard.press("e")
    page.keyboard.type("Slow climb")
    page.keyboard.press("Enter")
    expect(page.locator("#sheet h3").first).to_contain_text("Slow climb")
    expect(page.locator("#sheet")).to_be_focused()
    page.keyboard.press("Escape")
    page.keyboard.press("Control+z")
    expect(page.locator("#sheet h3").first).not_to_contain_text("Slow climb")
