"""The little language of wordings: `[optional]`, `(a|b)`, `{slot}`, `{slot:name}`, `{slot+}`, `<phrase>`."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from notesgen.grammar.tokens import tokens


class Word(Struct, frozen=True, tag=True):
    """A word that must be heard as written (case does not matter)."""

    text: str


class Slot(Struct, frozen=True, tag=True):
    """A place for a value: `symbol` is what fits, `name` is what the instruction calls it."""

    symbol: str
    name: str
    many: bool = False


class Ref(Struct, frozen=True, tag=True):
    """A phrase whose value does not matter."""

    symbol: str


class Seq(Struct, frozen=True, tag=True):
    """Parts that follow one another."""

    parts: tuple[Node, ...]


class Choice(Struct, frozen=True, tag=True):
    """One of several; an empty `Seq` among them makes the choice optional."""

    options: tuple[Node, ...]


Node = Word | Slot | Ref | Seq | Choice

_PIECE = re.compile(r"\s*([\[\]()|]|\{[^{}]*\}|<[^<>]*>|[^\s\[\](){}<>|]+)")
_SLOT = re.compile(r"\{([a-z_]+)(\+?)(?::([a-z_]+))?\}")
_REF = re.compile(r"<([a-z_]+)>")


class TemplateError(ValueError):
    """A wording that cannot be read; the message says why in plain words."""


def parse(text: str) -> Node:
    """Reads one wording. Raises TemplateError on unmatched brackets and malformed slots."""
    pieces = _pieces(text)
    node, rest = _choice(pieces, 0)
    if rest != len(pieces):
        raise TemplateError(f'"{pieces[rest]}" closes nothing')
    if isinstance(node, Seq) and not node.parts:
        raise TemplateError("the wording is empty")
    return node


def without(node: Node, words: frozenset[str]) -> Node:
    """The wording without words that are never heard, such as fillers dropped before reading."""
    match node:
        case Seq(parts=parts):
            return Seq(tuple(without(part, words) for part in parts if not _is_word(part, words)))
        case Choice(options=options):
            kept = tuple(without(option, words) for option in options if not _is_word(option, words))
            return Choice(kept) if kept else Seq(())
        case _:
            return node


def _is_word(node: Node, words: frozenset[str]) -> bool:
    return isinstance(node, Word) and node.text in words


def leaves(node: Node) -> Iterator[Word | Slot | Ref]:
    """Every word, slot and phrase reference in the wording, from left to right."""
    match node:
        case Seq(parts=inner) | Choice(options=inner):
            for part in inner:
                yield from leaves(part)
        case _:
            yield node


def _pieces(text: str) -> list[str]:
    """The brackets, bars, slots, phrase references and words of a wording, in order."""
    pieces, at = [], 0
    while at < len(text.rstrip()):
        found = _PIECE.match(text, at)
        if not found:
            raise TemplateError(f'"{text[at:].strip()[:12]}" cannot be read: a bracket is left open')
        pieces.append(found[1])
        at = found.end()
    return pieces


def _choice(pieces: list[str], at: int) -> tuple[Node, int]:
    options = []
    while True:
        node, at = _sequence(pieces, at)
        options.append(node)
        if at < len(pieces) and pieces[at] == "|":
            at += 1
            continue
        return (options[0] if len(options) == 1 else Choice(tuple(options))), at


def _sequence(pieces: list[str], at: int) -> tuple[Node, int]:
    parts: list[Node] = []
    while at < len(pieces) and pieces[at] not in ("]", ")", "|"):
        piece = pieces[at]
        if piece in ("[", "("):
            close = "]" if piece == "[" else ")"
            node, end = _choice(pieces, at + 1)
            if end >= len(pieces) or pieces[end] != close:
                raise TemplateError(f'"{piece}" is never closed by "{close}"')
            parts.append(Choice((node, Seq(()))) if piece == "[" else node)
            at = end + 1
        else:
            parts.append(_leaf(piece))
            at += 1
    return (parts[0] if len(parts) == 1 else Seq(tuple(parts))), at


def _leaf(piece: str) -> Node:
    if piece.startswith("{"):
        found = _SLOT.fullmatch(piece)
        if not found:
            raise TemplateError(f"{piece} is no slot: write {{fret}} or {{fret:from}}")
        return Slot(symbol=found[1], name=found[3] or found[1], many=bool(found[2]))
    if piece.startswith("<"):
        found = _REF.fullmatch(piece)
        if not found:
            raise TemplateError(f"{piece} names no phrase: write <on_the>")
        return Ref(symbol=found[1])
    return _spoken(piece)


def _spoken(text: str) -> Node:
    """A word, or several where the captions' own cutting makes several of it: "it's", "hammer-on"."""
    words = tuple(Word(part) for part in tokens(text))
    if not words:
        raise TemplateError(f'"{text}" holds nothing that can be heard')
    return words[0] if len(words) == 1 else Seq(words)
