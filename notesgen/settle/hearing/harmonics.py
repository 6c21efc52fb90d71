"""Harmonics: one fret touched on one string after another, and stretches in which all notes are harmonics."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing.grips import fret_follows
from notesgen.settle.hearing.row import NUMBER, Struck, read_row
from notesgen.settle.hearing.rows import NAMES_STRINGS
from notesgen.settle.hearing.slots import frets_of
from notesgen.settle.hearing.telling import HARMONIC_FRETS, Telling
from notesgen.settle.step import Strings, Voice
from notesgen.speech.instructions import Instruction

NAMING = ("scope", "stroke")  # what names the strings of a list
BEGUN_WITHIN = 3  # sentences behind "harmonics!" in which the first of them is told
OPENED_WITHIN = 2  # sentences behind the word for harmonics in which their first string is named
NEXT_TO = 1  # items behind a harmonic within which its strings are named
MOST_STRINGS_APART = 4  # items between one string of the list and the next, told by number


def harmonic(telling: Telling, said: Instruction) -> None:
    """A harmonic on one string, or on several at once; without a string, those named next."""
    strings = telling.strings_of(said)
    if len(strings) <= 1 and _told_in_a_row(telling, said, strings):
        return
    fret = said.whole("fret")
    if fret is None and strings and _touches_last(telling, said, strings):
        return
    if fret is None and strings and telling.harmonic_listed and telling.harmonic_fret is not None:
        telling.add(said, [Voice(telling.harmonic_fret, one) for one in strings], how="harmonic")
        return
    if fret is None:
        _announce(telling, said)
        if telling.said_between(said.start - 1, said.end) & set(telling.words.nothing_else):
            telling.harmonics_in = len(telling.sections)
        return
    if strings or _is_string_named(telling) or _stays_on_string(telling, said):
        telling.add(said, [Voice(fret, one) for one in strings or ((),)], how="harmonic")
    telling.harmonic_fret, telling.harmonic_listed = fret, not strings
    if fret in HARMONIC_FRETS and len(strings) == 1 and _are_several(telling, said):
        telling.harmonics_at = said.start
        telling.harmonics_from = telling.sentences.of(said.start) - 1  # for the sentence, and no further


def _told_in_a_row(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Whether several frets are told for one string, and so are touched one by one: "at 12, 7 and 5"."""
    slots = [slot for slot in said.slots if slot.name == "fret"]
    frets = frets_of(said, "fret")
    if len(frets) < 2 or len(frets) != len(slots):
        return False
    for slot, fret in zip(slots, frets, strict=True):
        place = replace(said, start=slot.start, end=slot.end, slots=())
        telling.add(place, [Voice(fret, strings[0] if strings else ())], how="harmonic")
    return True


def _are_several(telling: Telling, said: Instruction) -> bool:
    return bool(telling.said_between(said.start, said.end) & {*telling.words.harmonics})


def _announce(telling: Telling, said: Instruction) -> None:
    """The notes to come are harmonics; the next one alone, where the words speak of one."""
    telling.harmonics_from = telling.sentences.of(said.start)
    telling.harmonics_at = said.start if _are_several(telling, said) else -1


def keep_on(telling: Telling, said: Instruction) -> None:
    """Lets harmonics that were announced hold for a note some sentences behind: for the first one, and then
    from sentence to sentence, as long as the frets are those of harmonics.
    """
    apart, last = telling.sentences.of(said.start) - telling.harmonics_from, telling.last()
    if telling.harmonics_at < 0 or said.kind != "note" or apart < 1:
        return
    if telling.harmonics_from < telling.sentences.of(telling.harmonics_at):
        return
    frets, goes_on = frets_of(said, "fret"), apart <= BEGUN_WITHIN
    if last is not None and last.start >= telling.harmonics_at and frets:
        goes_on = last.how == "harmonic" and telling.near(said, 1) and {*frets} <= HARMONIC_FRETS
    telling.harmonics_from = telling.sentences.of(said.start) if goes_on else -2


def _touches_last(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Whether the fret was told just before, and here its strings: "the twelfth fret, harmonics on ..."."""
    last = telling.last()
    if last is None or len(last.voices) != 1 or last.voices[0].named or "x" in last.frets:
        return False
    if last.how != "pick" or not telling.near(said, 1):
        return False
    fret = last.voices[0].fret
    telling.change_last(voices=tuple(Voice(fret, one) for one in strings), how="harmonic", end=said.end)
    telling.harmonic_fret, telling.harmonic_listed = int(fret), False
    return True


def _is_string_named(telling: Telling) -> bool:
    """Whether a string was named for it since the note before, and none is named next."""
    naming = telling.named_since()
    follows = telling.coming is not None and telling.coming.kind == "scope"
    return naming is not None and len(naming.strings) == 1 and not follows


def _stays_on_string(telling: Telling, said: Instruction) -> bool:
    """Whether one more harmonic is told on the string of the last: "..., then the 7th fret harmonic"."""
    last, coming = telling.last(), telling.coming
    follows = coming is not None and coming.kind in NAMING and coming.start - said.end <= NEXT_TO
    return last is not None and last.how == "harmonic" and telling.near(said, 0) and not follows


def touch(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Strikes strings named while a list of harmonics goes on; False where none does."""
    fret = telling.harmonic_fret
    if fret is None or not strings or not (telling.harmonic_listed or not fret_follows(telling, said)):
        return False
    voices = [Voice(fret, candidates) for candidates in strings]
    at_once = telling.coming is not None and telling.coming.kind == "together"
    for chord in [voices] if at_once else [[voice] for voice in voices]:
        telling.add(said, chord, how="harmonic")
    return True


def goes_on(telling: Telling, said: Instruction) -> bool:
    """Takes the fret for strings named next, or the strings themselves, while harmonics are listed."""
    if telling.harmonic_fret is None:
        return _opens_list(telling, said)
    if _counts_one(telling, said):
        return True
    row = _strings_listed(telling, said)
    if row and _ends_chord(telling, said, row):
        voices = [Voice(telling.harmonic_fret, on) for one in row for on in one.strings]
        telling.change_last(voices=(*telling.steps[-1].voices, *voices), end=row[-1].end)
        telling.row_until = row[-1].end
        return True
    for one in row:
        place = replace(said, start=one.start, end=one.end, slots=())
        telling.add(place, [Voice(telling.harmonic_fret, on) for on in one.strings], how="harmonic")
        telling.row_until = one.end
    return bool(row)


def _counts_one(telling: Telling, said: Instruction) -> bool:
    """Touches one string of those announced with a fret: "harmonics at 12, one on the G, one on the B"."""
    fret, strings = telling.harmonic_fret, telling.strings_of(said)
    before, last = telling.preceding, telling.last()
    counted = telling.said_between(said.start, said.end) & {*telling.words.one}
    if fret is None or not telling.harmonic_listed or len(strings) != 1:
        return False
    if not counted or frets_of(said, "fret") != [1]:
        return False
    begins = before is not None and before.kind == "harmonic"
    if not begins and not (last is not None and last.how == "harmonic" and telling.near(said, 1)):
        return False
    telling.add(said, [Voice(fret, strings[0])], how="harmonic")
    return True


def _ends_chord(telling: Telling, said: Instruction, row: list[Struck]) -> bool:
    """Whether "all together" stands behind the list: its first string, told already, is one of them."""
    last, words = telling.last(), telling.words
    if last is None or last.how != "harmonic" or not telling.near(said, 0):
        return False
    alone = len(last.voices) == 1 and last.voices[0].fret == telling.harmonic_fret
    apart = last.voices[0].named not in [on for one in row for on in one.strings]
    turned = telling.said_between(last.end, row[-1].end) & {*words.moving_on}
    behind = telling.said_between(row[-1].end, row[-1].end + 2)
    return alone and apart and not turned and bool(behind & {*words.every}) and bool(behind & {*words.as_one})


def _opens_list(telling: Telling, said: Instruction) -> bool:
    """Whether a bare number is the fret of harmonics whose strings are named next."""
    frets = frets_of(said, "fret")
    coming = next((one for one in telling.following if one.kind not in ("aside", "how")), None)
    if said.kind != "note" or len(frets) != 1 or said.all("string") or frets[0] == "x":
        return False
    announced = telling.sentences.of(said.start) - telling.harmonics_from in (0, 1)
    if not announced or coming is None or coming.kind not in NAMING or fret_follows(telling, coming):
        return False
    telling.harmonic_fret, telling.harmonic_listed = int(frets[0]), True
    return True


def _strings_listed(telling: Telling, said: Instruction) -> list[Struck]:
    """The strings of the list that are named here by letters or ordinals; numbers where one went before."""
    last = telling.last()
    if said.kind not in NAMES_STRINGS - {"scope", "pair"} or telling.correcting is not None:
        return []
    if said.all("fret") and said.all("string"):
        return []
    sentence = telling.sentences.of(said.start)
    first = telling.harmonic_listed and sentence - telling.harmonics_from <= OPENED_WITHIN
    goes_on = last is not None and last.how == "harmonic" and said.start - last.end <= MOST_STRINGS_APART
    if not first and not goes_on:
        return []
    start = last.end if last is not None and goes_on else telling.sentences.start(sentence)
    row = read_row(telling, max(start, telling.heard_until), said.end)
    numbered = last is not None and goes_on and last.sentence == sentence
    numbered = numbered and bool(telling.said_between(start - 2, start) & telling.numbers)
    told = all(one.by != NUMBER or (numbered and telling.harmonic_listed) for one in row)
    inside = bool(row) and telling.coming is not None and telling.coming.start < row[-1].end
    return row if told and (telling.harmonic_listed or inside or not fret_follows(telling, said)) else []
