"""One real browser for all tests of this folder: Chromium as the machine has it, driven by Playwright."""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

NAMES = ("chromium", "chromium-browser")
# A page may sound without a click; a container has no place for Chromium's own sandbox.
ARGUMENTS = ["--no-sandbox", "--autoplay-policy=no-user-gesture-required"]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Fails where no Chromium is installed: a test that is passed over tells nothing."""
    found = next((path for name in NAMES if (path := shutil.which(name))), None)
    assert found, "These tests need Chromium: apt-get install chromium"
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=found, args=ARGUMENTS)
        yield launched
        launched.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A new page; at its end, nothing may have been written to the console as an error or a warning."""
    opened = browser.new_page()
    said: list[str] = []
    opened.on("console", lambda message: said.append(f"{message.type}: {message.text}"))
    opened.on("pageerror", lambda error: said.append(f"error: {error}"))
    yield opened
    opened.close()
    assert [line for line in said if line.startswith(("error", "warning"))] == []
