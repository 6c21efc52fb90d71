"""The same recording's captions exported anew: other cue breaks, times moved, a few words heard otherwise."""

from __future__ import annotations

import random

from notesgen.captions.read import read_captions
from notesgen.captions.transcript import Transcript, Word

PAUSE = 1.2  # seconds without talk at which any captioner breaks
NUMBERS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
HEARD = {
    "and": "an",
    "then": "than",
    "okay": "ok",
    "so": "so,",
    "right": "alright",
    "just": "jus",
    "you": "ya",
}
"""Words that another listener writes otherwise, none of them about what is played."""


def reexported(
    transcript: Transcript,
    seed: int,
    moved: float = 0.0,
    spelled: bool = False,
    words: float = 0.0,
) -> Transcript:
    """Captions with cues of other lengths. `moved` in seconds; `spelled` writes numbers up to ten as words.

    `words` is the share of small words that are heard otherwise.
    """
    chance = random.Random(seed)
    cues: list[list[Word]] = []
    for word in transcript.words:
        fresh = not cues or word.start - cues[-1][-1].end > PAUSE or len(cues[-1]) >= chance.randint(5, 16)
        if fresh:
            cues.append([])
        cues[-1].append(word)
    blocks = ["WEBVTT"]
    for cue in cues:
        text = " ".join(_heard(word.text, chance, spelled, words) for word in cue)
        blocks.append(f"{_time(cue[0].start + moved)} --> {_time(cue[-1].end + moved)}\n{text}")
    return read_captions("\n\n".join(blocks).encode(), "again.vtt")


def _heard(text: str, chance: random.Random, spelled: bool, share: float) -> str:
    bare = text.strip(".,;:!?")
    if spelled and bare.isdecimal() and int(bare) < len(NUMBERS):
        return text.replace(bare, NUMBERS[int(bare)])
    if chance.random() < share:
        return text.replace(bare, HEARD.get(bare.lower(), bare))
    return text


def _time(seconds: float) -> str:
    minutes, rest = divmod(round(seconds * 1000), 60_000)
    return f"{minutes // 60:02d}:{minutes % 60:02d}:{rest // 1000:02d}.{rest % 1000:03d}"
