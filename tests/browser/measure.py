"""How quick the page is, and how long its way: `python -m tests.browser.measure`.

The first table: from a key to the redrawn tab, on the practice lessons one after another until they last a
quarter of an hour, and on a made-up lesson of a thousand notes in as long. The second: a walk through each
practice lesson, the first answer to every query until the students' pack is made. Nobody's hands are that
quick: the seconds are those of the page.
"""

from __future__ import annotations

import random
import shutil
import tempfile
import time
from pathlib import Path
from statistics import median, quantiles

from playwright.sync_api import Page, expect, sync_playwright

from notesgen.captions.source import load_captions
from tests.browser.conftest import ARGUMENTS, NAMES
from tests.browser.served import opened, served
from tests.browser.test_review import left

LESSONS = Path(__file__).resolve().parents[2] / "fixtures" / "lessons"
PRACTICE = ("blues-a", "bends-d", "drop-d", "folk-g", "melody-bm", "riff-em")
QUARTER = 900.0  # seconds
STRINGS = ("high E", "B", "G", "D", "A", "low E")


def captions(name: str) -> Path:
    """The captions of a practice lesson."""
    return next(path for path in (LESSONS / name).iterdir() if path.suffix in (".vtt", ".srt", ".txt"))


def quarter() -> str:
    """Practice lessons one after another, as text with times."""
    lines: list[str] = []
    shift = 0.0
    for name in PRACTICE * 9:
        told = load_captions(str(captions(name)))
        lines += [f"[{_clock(shift + cue.start)}] {cue.text}" for cue in told.cues if cue.text]
        shift += told.duration + 3
        if shift > QUARTER:
            break
    return "\n".join(lines)


def thousand() -> str:
    """About a thousand notes in a quarter of an hour; some strings are left unsaid."""
    chance = random.Random(4)
    lines: list[str] = []
    for at in range(300):
        on, fret = chance.choice(STRINGS), chance.choice((5, 7, 8, 9, 10, 12))
        said = (
            f"On the {on} string, {fret}, hammer on to {fret + 2}, and {fret} again.",
            f"Then {fret} on the {on}, {fret + 2} on the {on}, {fret + 3}, and {fret}.",
            f"Slide from {fret} up to {fret + 2} on the {on}, then {fret}.",
            f"Then fret {fret}, and {fret + 2}, and {fret}.",
        )
        start = "" if at % 12 else f"Next phrase, number {at // 12 + 1}. "
        lines.append(f"[{_clock(at * 3.0)}] {start}{chance.choice(said)}")
    return "\n".join(lines)


def _clock(seconds: float) -> str:
    return f"{int(seconds // 60)}:{int(seconds % 60):02d}"


def answers(page: Page) -> list[float]:
    """Milliseconds from each key to the redrawn tab, until nothing is left to ask."""
    while count := left(page):
        page.keyboard.press("a")
        expect(page.locator("#left")).not_to_have_text(f"{count} quer{'y' if count == 1 else 'ies'} left")
    found: list[float] = page.evaluate("performance.getEntriesByName('answer').map((one) => one.duration)")
    return found


def quickness(page: Page, folder: Path) -> None:
    """The first table."""
    (folder / "quarter.txt").write_text(quarter(), encoding="utf-8")
    (folder / "thousand.txt").write_text(thousand(), encoding="utf-8")
    print(f"{'lesson':<10} {'notes':>6} {'answers':>8} {'median ms':>10} {'95th ms':>8}")
    with served(str(folder)) as one:
        address = one.address
        opened(page, address)
        for name in ("quarter", "thousand"):
            opened(page, f"{address.split('/start')[0]}/lesson/{name}.txt")
            notes = page.locator("#sheet [data-event]").count()
            took = answers(page)
            slow = quantiles(took, n=20)[-1]
            print(f"{name:<10} {notes:>6} {len(took):>8} {median(took):>10.0f} {slow:>8.0f}")


def walks(page: Page, folder: Path) -> None:
    """The second table."""
    print(f"{'lesson':<10} {'notes':>6} {'queries':>8} {'keys':>6} {'seconds':>8}")
    with served(str(folder)) as one:
        address = one.address
        opened(page, address)
        for name in PRACTICE:
            opened(page, f"{address.split('/start')[0]}/lesson/{captions(name).name}")
            notes, asked = page.locator("#sheet [data-event]").count(), left(page)
            began = time.monotonic()
            keys = len(answers(page)) + 1
            page.keyboard.press("Enter")
            expect(page.locator("#files a").first).to_be_visible()
            print(f"{name:<10} {notes:>6} {asked:>8} {keys:>6} {time.monotonic() - began:>8.1f}")


def main() -> None:
    """Prints both tables."""
    with tempfile.TemporaryDirectory() as made, sync_playwright() as playwright:
        folder = Path(made)
        for name in PRACTICE:
            shutil.copy(captions(name), folder)
        chromium = next(filter(None, map(shutil.which, NAMES)))
        browser = playwright.chromium.launch(executable_path=chromium, args=ARGUMENTS)
        page = browser.new_page()
        walks(page, folder)
        quickness(page, folder)
        browser.close()


if __name__ == "__main__":
    main()
