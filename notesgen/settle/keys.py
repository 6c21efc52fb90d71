"""Which keys the talk names: the lesson's own, and those to which it changes.

A name with a mode is a key or a chord: "C minor". Early in the talk it is the key. Later it is one only where
the words say so ("now we're in C minor") and notes follow; a chord named on the way changes nothing.
"""

from __future__ import annotations

from bisect import bisect_left

from msgspec import Struct

from notesgen.grammar.model import WordLists
from notesgen.lesson.model import Key
from notesgen.music.scale import MODES, is_mode
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break, Item

KEY, NOTE = "key", "note"  # what may be denied
BLUES = "blues"
ARTICLE = "a"  # "a blues thing" names no key, "an A blues" does

_LATE = 0.35  # share of the talk within which the lesson's own key is named
_DENIED = 3  # items between a word that denies and what it denies: "I don't mean the plain A major"
_AT_ONCE = 12  # items behind a key within which its pentatonic is what was meant
_REFINED = 60  # items behind a key within which its mode alone may be told
_PLAYED = 3  # frets that are told before a key changes, and after it
_THIRD = 2  # a scale's third tone, from 0: semitones above the tonic tell major from minor


class Keys(Struct, frozen=True):
    """The lesson's key, None if none was named, and the changes, each with the item at which it is told."""

    main: Key | None
    changes: tuple[tuple[int, Key], ...]


class _Told(Struct, frozen=True):
    """A key as told at an item. `modal`: its mode was said; `sure`: the words can mean no chord.

    `of_note`: it was told of a note that is not in it, so what follows speaks of the note.
    """

    at: int
    key: Key
    modal: bool
    sure: bool
    of_note: bool = False


def said_keys(said: tuple[Instruction, ...], items: tuple[Item, ...], words: WordLists) -> Keys:
    """The keys of the talk. One with a mode counts before a bare letter, which changes nothing later on."""
    told = _told(said, items, words)
    early = [one for one in told if one.at <= _LATE * len(items)]
    main = next((one for one in early if one.modal), None) or next(iter(told), None)
    main = _as_scale(main, early) if main else None
    if main is None:
        return Keys(None, ())
    frets = [one.start for one in said if one.all("fret")]
    changes = [(main.at, main.key)]
    for one in told:
        since, after = bisect_left(frets, changes[-1][0]), bisect_left(frets, one.at)
        between = min(after - since, len(frets) - after) >= _PLAYED
        if one.at > main.at and one.modal and one.sure and between and one.key != changes[-1][1]:
            changes.append((one.at, one.key))
    return Keys(main.key, tuple(changes[1:]))


def _as_scale(main: _Told, early: list[_Told]) -> _Told:
    """The scale that the key is soon said to mean: "in A, so A blues", "E minor pentatonic, E blues"."""
    for one in early:
        if 0 < one.at - main.at <= _REFINED and one.key.tonic == main.key.tonic and _is_meant(one, main):
            return one
    return main


def _is_meant(scale: _Told, key: _Told) -> bool:
    """Whether the scale says more of the key that was told before: a blues, or a pentatonic right behind."""
    if scale.key.mode == BLUES:
        return not key.modal or key.key.mode.startswith("minor")
    return scale.key.mode == f"{key.key.mode} pentatonic" and scale.at - key.at <= _AT_ONCE


def _told(said: tuple[Instruction, ...], items: tuple[Item, ...], words: WordLists) -> list[_Told]:
    """Every key told and not denied.

    A mode alone says which scale of the key told before is meant: "in A minor, but harmonic minor".
    """
    keys: list[_Told] = []
    # "No" may be read as a correction, but it denies just as well.
    others = (one for one in said if one.kind != "correction")
    taken = frozenset(at for one in others for at in range(one.start, one.end))
    for one in said:
        denied = _denied(one, items, taken, words) if one.kind == "key" else KEY
        if denied == KEY or _is_article(one, items, words):
            continue
        mode = one.text("mode")
        if one.text("tonic"):
            spoken = {item.text for item in items[one.start : one.end]}
            sure = bool(spoken & set(words.naming_a_key))
            keys.append(_Told(one.start, _key_of(one), mode is not None, sure, denied == NOTE))
        elif (
            keys
            and mode
            and not keys[-1].of_note
            and one.start - keys[-1].at <= _REFINED
            and _refines(mode, keys[-1].key.mode)
        ):
            last = keys[-1]
            keys[-1] = _Told(last.at, Key(last.key.tonic, mode), True, last.sure)
    return keys


def _denied(said: Instruction, items: tuple[Item, ...], taken: frozenset[int], words: WordLists) -> str:
    """What the words right before, in the same clause, deny: the key, a note, or ("") nothing.

    "No harmonic minor business" and "we're not in B flat" deny the key, "it's not in B flat" a note.
    """
    for at in range(said.start - 1, max(-1, said.start - 2 - _DENIED), -1):
        if items[at + 1].before >= Break.SOFT or at in taken:
            return ""
        if items[at].text in words.denying:
            inside = {item.text for item in items[at : said.end]} & set(words.naming_a_key)
            playing = {item.text for item in items[max(0, at - 2) : at]} & set(words.playing_in)
            return NOTE if inside and not playing else KEY
    return ""


def _is_article(said: Instruction, items: tuple[Item, ...], words: WordLists) -> bool:
    """Whether what was read as the key of A is an article: "I've got a blues for you", "a minor tune"."""
    after = items[said.end].text if said.end < len(items) else ""
    described = said.text("mode") == BLUES or after in words.key_things
    if said.text("tonic") != ARTICLE.upper() or not described:
        return False
    at = next(slot.start for slot in said.slots if slot.name == "tonic")
    around = {item.text for item in items[max(0, at - 1) : said.end]}
    named = items[at].is_name or around & {*words.naming_a_key, *words.vowel_article}
    return items[at].text == ARTICLE and not named


def _refines(mode: str, of: str) -> bool:
    """Whether a mode can be what was meant by "major" or "minor": it has the same third."""
    if mode == BLUES:
        return of == "minor pentatonic"
    if of not in ("major", "minor") or not is_mode(mode):
        return False
    return MODES[mode][_THIRD] == MODES[of][_THIRD]


def _key_of(instruction: Instruction) -> Key:
    mode = instruction.text("mode") or instruction.text("style") or "major"
    return Key(instruction.text("tonic") or "C", mode if is_mode(mode) else "major")
