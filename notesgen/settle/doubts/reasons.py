"""Why a note is in doubt, in a teacher's words: the clue that speaks loudest against it."""

from __future__ import annotations

from notesgen.settle.trust.clues import Clues
from notesgen.settle.trust.odds import Weights

SAID = (
    ("music.outside", "it is outside the key"),
    ("telling.pointing", 'you say "that", as of a note already told'),
    ("telling.article", 'you say "the", as of a note already told'),
    ("telling.alone", "it stands alone in its sentence"),
    ("telling.doubt", "the words around it are odd for a fret"),
    ("telling.derived", "it is worked out from what was told before"),
    ("telling.copied", "it is worked out from what was told before"),
    ("music.leap", "it is far from the notes before it"),
    ("music.leap_after", "it is far from the notes behind it"),
    ("around.unread", "the draft understood little of the sentence"),
    ("around.odd_company", "the draft did not understand the words around it"),
    ("around.hearing", "the sentence speaks of how it sounds or looks"),
    ("around.reason", "the sentence explains rather than tells"),
    ("around.supposing", 'you say it behind an "if"'),
    ("tellings.lately", "the same note was told just before"),
    ("tellings.echo", "the same note was told just before"),
    ("time.isolated", "it stands apart from the other notes"),
    ("time.early", "it comes early, where most talk is about the piece"),
    ("string.candidates", "no string was said for it"),
    ("string.close", "no string was said for it"),
    ("string.jump", "no string was said for it"),
    ("string.weakest", "no string was said for it"),
)
PLAIN = 0.5  # of a clue, from which a teacher can see it
UNKNOWN = "the words leave it open"


def reason(clues: Clues, weights: Weights) -> str:
    """The clue that speaks most for the note being wrong, as the second half of a sentence."""
    strength = dict(weights.clues.named())
    known = {name: value * strength[name] if value >= PLAIN else 0.0 for name, value in clues.named()}
    named = max(clues.string.said, clues.string.in_force) > 0
    said = [pair for pair in SAID if not (named and pair[0].startswith("string."))]
    loudest, words = max(said, key=lambda pair: known[pair[0]])
    return words if known[loudest] > 0 else UNKNOWN
