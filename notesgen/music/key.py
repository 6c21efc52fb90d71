"""Keys as people write them: "B minor", "Bb major", "F sharp minor", "A blues", "Am", "G"."""

from __future__ import annotations

import re

from notesgen.music.scale import is_mode

_TONIC = re.compile(r"([a-g])(?:(#|b)|[\s-]*(sharp|flat)\b)?(.*)", re.DOTALL)

# Other names of the modes, and the endings that stand close to the tonic ("F#m"). Common practice, no source.
_MODE_NAMES = {
    "": "major",
    "maj": "major",
    "m": "minor",
    "min": "minor",
    "ionian": "major",
    "aeolian": "minor",
    "natural minor": "minor",
    "pentatonic minor": "minor pentatonic",
    "pentatonic major": "major pentatonic",
    "minor blues": "blues",
}
_SHORT = frozenset({"", "m", "maj", "min"})


def parse_key(text: str) -> tuple[str, str] | None:
    """Tonic and mode of a key, the mode as in `scale.MODES`: "F sharp minor" -> ("F#", "minor").

    None if it is no key. A note alone is a major key.
    """
    plain = text.lower().replace("♯", "#").replace("♭", "b").strip()
    match = _TONIC.fullmatch(re.sub(r"^(the )?key of ", "", plain))
    if match is None:
        return None
    letter, sign, word, rest = match.groups()
    accidental = sign or {"sharp": "#", "flat": "b"}.get(word, "")
    mode = _mode(rest)
    return None if mode is None else (letter.upper() + accidental, mode)


def _mode(rest: str) -> str | None:
    """The mode that the text after the tonic names; only short forms may touch the tonic."""
    named = " ".join(re.sub(r"\b(scale|mode|key)\b", " ", rest).replace("-", " ").split())
    if rest[:1].isalnum() and named not in _SHORT:
        return None
    mode = _MODE_NAMES.get(named, named)
    return mode if is_mode(mode) else None
