"""How text is cut into tokens, the same for captions and for the grammar's wordings.

spaCy's blank English tokenizer: "it's" is two tokens, "hammer-on" is three. Hyphens and slashes between
word parts are dropped, so that "hammer-on" and "hammer on" are read alike; so are "pullin'" and "pulling".
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from spacy.tokenizer import Tokenizer

_PLAIN = str.maketrans({"’": "'", "‘": "'", "–": "-", "—": "-", "♯": "#", "♭": "b"})
_JOINERS = frozenset("-/")
_UNIT = re.compile(r"(\d+)(?!st\b|nd\b|rd\b|th\b|s\b)([a-z]+)")
_INITIAL = re.compile(r"([a-z])\.")
_CLITICS = ("'m", "'ve")  # cut off from "i" and "we"; alone, as wordings write them, they would be cut in two
_DROPPED_G = re.compile(r"([a-z]{2}in)'(?![a-z])")


@lru_cache(maxsize=1)
def _tokenizer() -> Tokenizer:
    import spacy

    tokenizer: Tokenizer = spacy.blank("en").tokenizer
    for clitic in _CLITICS:
        tokenizer.add_special_case(clitic, [{"ORTH": clitic}])
    return tokenizer


@lru_cache(maxsize=65536)
def tokens(chunk: str) -> tuple[str, ...]:
    """The tokens of one white-space-free chunk: lower case, punctuation kept, hyphens and slashes dropped."""
    plain = chunk.translate(_PLAIN)
    spread = plain.lower().replace("-", " - ").replace("/", " / ").replace("…", "...")
    spread = _DROPPED_G.sub(r"\1g", spread)
    spread = _UNIT.sub(r"\1 \2", spread)
    spread = _INITIAL.sub(r"\1 .", spread) if len(spread) <= 3 else spread
    found = (token.text for token in _tokenizer()(spread))
    return tuple(text for text in found if text.strip() and text not in _JOINERS)
