"""A small grammar of the tests' own, so that no change to the real one moves them."""

from __future__ import annotations

from pathlib import Path

from notesgen.grammar.load import load_grammar
from notesgen.grammar.model import Grammar

PHRASES = """
[[phrase]]
name = "string"
value = "{letter}"
say = ["the {letter} [string]"]
[[phrase]]
name = "string"
value = "#{ordinal}"
say = ["the {ordinal} string"]
[[phrase]]
name = "fret"
say = ["[fret] {fret_number:number}", "<nothing>"]
[[phrase]]
name = "nothing"
value = 0
say = ["open"]
[[phrase]]
name = "pair"
value = "{string}+{other}"
say = ["{string} and {string:other}"]
[[phrase]]
name = "dear"
cost = 0.7
say = ["{fret_ordinal}"]
[[phrase]]
name = "amount"
value = 2
say = ["a (whole|full) step"]
[[phrase]]
name = "fixed"
say = ["up and down"]
"""
IDIOMS = """
[[idiom]]
name = "a fret"
kind = "note"
about = "x"
say = ["{fret+:fret}"]
[[idiom]]
name = "a fret on a string"
kind = "note"
about = "x"
say = ["{fret+:fret} on {string}", "on {string} {fret+:fret}"]
[[idiom]]
name = "a bend"
kind = "bend"
about = "x"
say = ["bend {fret} [{amount}]"]
[[idiom]]
name = "a mark"
kind = "mark"
about = "x"
say = ["shake it"]
set = { mark = "vibrato" }
[[idiom]]
name = "an aside"
kind = "aside"
about = "x"
say = ["{number:years} years"]
"""
OTHERS = """
[[misheard]]
heard = "ate"
meant = "8"
cost = 0.3
[[misheard]]
heard = "gee"
meant = "G"
cost = 0.4
[[misheard]]
heard = "band"
meant = "bend"
cost = 0.8
[words]
before_fret = ["then", "on"]
after_fret = ["on", "then", "bend"]
light = ["then"]
one = ["one"]
linking = ["and", "then"]
article = ["the"]
"""


def small(folder: Path) -> Grammar:
    """The grammar, written to the folder and read back as any other."""
    for name, text in (("phrases", PHRASES), ("idioms", IDIOMS), ("others", OTHERS)):
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")
    return load_grammar("en", folder)
