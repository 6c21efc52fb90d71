"""A bare page around the player, built from the contract at the top of player.js, and ears for it."""

from __future__ import annotations

import base64

import numpy as np
from msgspec.structs import replace
from playwright.sync_api import Page

from notesgen.lesson.model import Event, Facts, Lesson, Note, Phrase, Source
from notesgen.pack.layout.page.script import player_script
from notesgen.pack.layout.sounding.player_data import player_data

RATE = 44100
STANDARD = ("E4", "B3", "G3", "D3", "A2", "E2")
PLAYER = """<section data-phrase="{id}">
<div class="player" data-phrase="{id}" hidden>
<button type="button" class="play">Play</button>
<button type="button" class="loop" aria-pressed="false">Loop</button>
<label>Speed <input type="range" class="speed" min="40" max="120" step="5" value="100"></label>
<output></output>
<label><input type="checkbox" class="click"> Click</label>
</div><svg>{drawn}</svg></section>"""
READ = """async ([phrase, options]) => {
  const samples = (await notesgen.render(phrase, options)).getChannelData(0);
  const bytes = new Uint8Array(samples.buffer);
  let text = "";
  for (let n = 0; n < bytes.length; n += 32768) text += String.fromCharCode(...bytes.subarray(n, n + 32768));
  return btoa(text);
}"""


def lesson(*events: Event, tempo: float = 60.0) -> Lesson:
    """One phrase, p1, at a beat a second unless told otherwise."""
    return Lesson(
        source=Source("a.vtt"),
        facts=Facts("A lesson", "guitar", STANDARD, tempo=tempo),
        phrases=(Phrase("p1", "One", 0.0, 1.0, tuple(event.id for event in events)),),
        events=events,
    )


def event(number: int, string: int, fret: int | str, **told: object) -> Event:
    """Event e<number>."""
    return replace(Event(f"e{number}", 1.0, 2.0, "p1", (Note(string, fret),)), **told)


def show(page: Page, made: Lesson, more: str = "") -> None:
    """The lesson's players, and `more` markup, in the browser."""
    sections = [
        PLAYER.format(id=phrase.id, drawn="".join(f'<g data-event="{name}"/>' for name in phrase.events))
        for phrase in made.phrases
    ]
    data = f'<script type="application/json" id="sounds">{player_data(made)}</script>'
    page.set_content("".join(sections) + more + data + f"<script>{player_script()}</script>")


def heard(page: Page, phrase: str = "p1", **options: object) -> np.ndarray:
    """What a phrase sounds like, rendered in the browser: samples at RATE."""
    return np.frombuffer(base64.b64decode(page.evaluate(READ, [phrase, options])), dtype="<f4")


def loud(samples: np.ndarray, start: float, end: float) -> float:
    """Root mean square from `start` to `end` seconds."""
    return float(np.sqrt(np.mean(samples[int(start * RATE) : int(end * RATE)] ** 2)))


def cents(samples: np.ndarray, start: float, end: float, hertz: float) -> float:
    """How far the pitch from `start` to `end` seconds lies above `hertz`, looked for within a semitone.

    By the peak of the autocorrelation, evened out for the window and put between samples by a parabola.
    """
    x = samples[int(start * RATE) : int(end * RATE)].astype(float)
    window = np.hanning(len(x))
    alike = _autocorrelation((x - x.mean()) * window) / _autocorrelation(window)
    lowest, highest = int(RATE / hertz * 2 ** (-1 / 12)), int(RATE / hertz * 2 ** (1 / 12)) + 2
    peak = lowest + int(np.argmax(alike[lowest:highest]))
    before, at, after = alike[peak - 1 : peak + 2]
    period = peak + 0.5 * (before - after) / (before - 2 * at + after)
    return 1200 * float(np.log2(RATE / period / hertz))


def _autocorrelation(x: np.ndarray) -> np.ndarray:
    spectrum = np.fft.rfft(x, 2 * len(x))
    return np.fft.irfft(np.abs(spectrum) ** 2)[: len(x) // 2]
