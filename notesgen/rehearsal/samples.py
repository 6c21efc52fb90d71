"""What wordings can say: a spread of sentences that a template reads, the same ones each time."""

from __future__ import annotations

import random
from collections.abc import Sequence
from difflib import get_close_matches

from notesgen.errors import InputError
from notesgen.grammar.model import Grammar, Phrase, Template
from notesgen.grammar.template import Choice, Node, Ref, Seq, Slot, Word
from notesgen.speech.mentions import TOGETHER

BASE = {
    "number": ("3", "5", "7", "8", "10", "12"),
    "fret_number": ("3", "5", "7", "8", "10", "12"),
    "string_number": ("2", "3", "5", "6"),
    "finger_number": ("1", "2", "3", "4"),
    "degree_number": ("1", "3", "5", "7"),
    "big": ("60", "92", "120"),
    "ordinal": ("second", "fifth", "seventh", "12th"),
    "fret_ordinal": ("third", "fifth", "seventh", "12th"),
    "string_ordinal": ("second", "third", "fifth", "6th"),
    "things": ("delays", "repeats"),
    "plural": ("sevens", "5s"),
    "run": ("810", "5787"),
    "letter": ("E", "A", "D", "G", "B"),
}
_NAMES = frozenset((*BASE["letter"], *BASE["string_ordinal"], *BASE["string_number"], *BASE["ordinal"]))
_TRIES = 20  # for each sentence wanted, since many come out twice


def named(grammar: Grammar, name: str) -> list[tuple[str, tuple[Template, ...]]]:
    """Title and wordings of each idiom or phrase of that name, else of each idiom whose name holds it.

    Raises InputError when there is none.
    """
    idioms = [(f"{idiom.name} ({idiom.file})", idiom.name, idiom.say) for idiom in grammar.idioms]
    phrases = [(_title(phrase), phrase.name, phrase.say) for phrase in grammar.phrases]
    exact = [(title, say) for title, called, say in idioms + phrases if called == name.strip("<>{}")]
    found = exact or [(title, say) for title, called, say in idioms if name.lower() in called.lower()]
    if not found:
        near = get_close_matches(name, [called for _, called, _ in idioms], n=5, cutoff=0.3)
        hint = f"; near it: {'; '.join(near)}" if near else ""
        raise InputError(f'there is no idiom or phrase called "{name}"{hint}')
    return found


def _title(phrase: Phrase) -> str:
    return f"<{phrase.name}>" + (f" = {phrase.value}" if phrase.value is not None else "")


def samples(grammar: Grammar, wordings: Sequence[Template], number: int) -> list[str]:
    """At most so many different sentences, taken from all the wordings in turn."""
    chance = random.Random(0)
    said: dict[str, None] = {}
    for turn in range(number * _TRIES):
        template = wordings[turn % len(wordings)]
        said.setdefault(_joined(_say(grammar, template.node, chance)))
        if len(said) == number:
            break
    return list(said)


def _say(grammar: Grammar, node: Node, chance: random.Random) -> list[str]:
    match node:
        case Word(text=text):
            return [text]
        case Slot(symbol=symbol, many=many):
            parts = [_symbol(grammar, symbol, chance) for _ in range(chance.randint(2, 3) if many else 1)]
            return [word for part in parts for word in part]
        case Ref(symbol=symbol):
            return _symbol(grammar, symbol, chance)
        case Choice(options=options):
            return _say(grammar, chance.choice(options), chance)
        case Seq(parts=parts):
            return _say_in_a_row(grammar, parts, chance)


def _say_in_a_row(grammar: Grammar, parts: Sequence[Node], chance: random.Random) -> list[str]:
    """The parts one after another; strings that stand together are different ones."""
    words: list[str] = []
    taken: set[str] = set()
    for part in parts:
        said = _say(grammar, part, chance)
        if isinstance(part, Slot) and part.name in TOGETHER:
            for _ in range(_TRIES):
                said = _say(grammar, part, chance) if taken & {*said} else said
            taken |= {*said} & _NAMES
        words += said
    return words


def _symbol(grammar: Grammar, symbol: str, chance: random.Random) -> list[str]:
    if symbol in BASE:
        return [chance.choice(BASE[symbol])]
    wordings = [template for phrase in grammar.phrases if phrase.name == symbol for template in phrase.say]
    return _say(grammar, chance.choice(wordings).node, chance)


def _joined(words: Sequence[str]) -> str:
    """The words as written: "it 's" and "do n't" put together again."""
    return " ".join(words).replace(" '", "'").replace(" n't", "n't")
