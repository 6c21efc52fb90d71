"""Strings named on their own: for the notes to come, for those just told, or in place of a slip."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.hearing import abreast, drones, gone_back, grips, own_shapes
from notesgen.settle.hearing.abreast import announce, announced, announced_before
from notesgen.settle.hearing.arrival import arrives
from notesgen.settle.hearing.by_name import letter_of, names_last
from notesgen.settle.hearing.counts import strokes
from notesgen.settle.hearing.gone_over import goes_over, lay_back, lay_copy, leave, says_it_stays
from notesgen.settle.hearing.harmonics import touch
from notesgen.settle.hearing.lettered import letters_alone, tell_letters
from notesgen.settle.hearing.slots import slot_of
from notesgen.settle.hearing.spoken_of import is_only_spoken_of
from notesgen.settle.hearing.telling import CORRECTION_REACH, Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.settle.strings import SAME, SAME_PAIR
from notesgen.settle.told import Naming
from notesgen.speech.instructions import Instruction, SlotValue
from notesgen.speech.items import Break

ORDINAL = "ordinal"  # the slot "side" of a bare ordinal
FIRST = "#1"  # how the grammar writes a string called by its number, or that something comes first
ALONE_WITHIN = 3  # items behind a string within which it is said to be alone
LISTED_WITHIN = 7  # items between the frets of a list, and between the list and its strings
NEXT_TO = 4  # items within which a pair of strings belongs to the fret before it


def scope(telling: Telling, said: Instruction) -> None:
    """Strings named on their own; in a list of harmonics, each is struck."""
    strings = telling.strings_of(said) + telling.strings_of(said, "other_string")
    if said.text("side") == own_shapes.NAMED and own_shapes.define(telling, said):
        return
    if telling.correcting is not None and _corrects_string(telling, said, strings[0] if strings else ()):
        return
    if touch(telling, said, strings) or drones.named_with(telling, said, strings):
        return
    if arrives(telling, said, letter_of(telling, said) or "") or says_it_stays(telling, said):
        return
    if gone_back.strikes(telling, said, strings):
        return
    if over := goes_over(telling, said):
        leave(telling, said)
    if said.text("side") == abreast.MOVES and abreast.leads_pair(telling, said, strings):
        return
    next_voice = _is_next_voice(telling, said, strings)
    if not next_voice and names_last(telling, said):
        telling.change_last(letter=letter_of(telling, said))
        return
    if is_only_spoken_of(telling, said, strings):
        telling.spoken_of.append(
            Naming(said.start, said.end, strings, telling.sentences.of(said.start), aside=True)
        )
        return
    if not next_voice and said.kind == "scope" and _is_struck(telling, said, strings):
        return
    if said.text("string") == SAME_PAIR:
        strings = _same_pair(telling, said, strings)
    _name(telling, said, strings, over)


def _same_pair(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> tuple[Strings, ...]:
    """The strings struck as one before, for the list just told and for what comes."""
    three = telling.said_between(said.start, said.end) & {*telling.words.three}
    strings = abreast.row_of_section(telling, 2 + bool(three)) or strings
    if strings:
        _lay_list(telling, said, strings)
    if abreast.is_for_good(telling, said):
        announce(telling, strings, said.start, lasts=True)
    return strings


def _name(telling: Telling, said: Instruction, strings: tuple[Strings, ...], over: bool) -> None:
    """Gives the strings to the note just told, or keeps them for those to come; it goes `over` to them."""
    if len(strings) > 1 and _lays_flat(telling, said):
        telling.change_last(voices=_laid(telling.steps[-1], strings))
    if len(strings) == 1 and _is_alone(telling, said, strings[0]):
        telling.change_last(voices=(replace(telling.steps[-1].voices[0], named=strings[0]),), end=said.end)
        telling.namings.append(Naming(said.start, said.end, strings, telling.sentences.of(said.start)))
    elif len(strings) == 1 and not over and _is_of_last(telling, said):
        _put_last_on(telling, said, strings[0])
    elif strings:
        gives = telling.said_between(said.end, said.end + 1) & set(telling.words.giving)
        turns = telling.said_between(said.start, said.end) & set(telling.words.turning_to)
        ahead = over or bool(turns or gives)
        sentence = telling.sentences.of(said.start)
        strings = _with_the_one_joined(telling, said, strings)
        naming = Naming(said.start, said.end, strings, sentence, ahead, telling.relation_of(said))
        if announced_before(telling, said):
            announce(telling, _with_the_one_before(telling, naming), said.start)
        telling.namings.append(naming)


def _is_next_voice(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Whether the string is the other of those struck as one, and its fret follows: "the G has seven"."""
    row, last = announced(telling, said), telling.last()
    if len(strings) != 1 or last is None or len(last.voices) > 1 or len(row) < 2:
        return False
    held = last.voices[0].named or last.before
    other = [one for one in row if not {*one} & {*held}]
    return any({*one} & {*strings[0]} for one in other) and grips.fret_follows(telling, said)


def names_voice(telling: Telling, said: Instruction) -> bool:
    """Whether "and one on the B" names the other string of those struck as one, and no first fret."""
    strings, naming = telling.strings_of(said), telling.namings[-1] if telling.namings else None
    if len(strings) != 1 or said.whole("fret") != 1 or not announced_before(telling, said):
        return False
    alone = naming is not None and naming.at > telling.together_at and len(naming.strings) == 1
    if naming is None or not alone or telling.items[slot_of(said, "fret").start].text.isdigit():
        return False
    here = Naming(said.start, said.end, strings, telling.sentences.of(said.start))
    announce(telling, _with_the_one_before(telling, here), said.start)
    telling.namings.append(here)
    return True


def _with_the_one_before(telling: Telling, naming: Naming) -> tuple[Strings, ...]:
    """The strings named, with the one named just before them: "one on the A, and the other on the G"."""
    before = telling.namings[-1] if telling.namings else None
    alone = before is not None and len(before.strings) == len(naming.strings) == 1
    if before is None or not alone or before.at < telling.together_at:
        return naming.strings
    return naming.strings if naming.strings[0] in before.strings else (*before.strings, *naming.strings)


def _with_the_one_joined(
    telling: Telling, said: Instruction, strings: tuple[Strings, ...]
) -> tuple[Strings, ...]:
    """The string with the one named right before it, where both are struck: "on the G and the B, both"."""
    before, coming = telling.namings[-1] if telling.namings else None, telling.coming
    if before is None or before.end != said.start or coming is None or coming.kind != "together":
        return strings
    joined = telling.items[said.start].text in telling.words.joining and coming.start - said.end <= 1
    alone = len(before.strings) == len(strings) == 1 and before.strings != strings
    return (*before.strings, *strings) if joined and alone else strings


def letters(telling: Telling, said: Instruction) -> None:
    """Letters alone: notes, or names of those just told; else the string of that letter, named on its own."""
    named = [slot for slot in said.slots if slot.name == "letter"]
    if arrives(telling, said, str(named[0].value)):
        return
    if tell_letters(telling, said, [str(slot.value) for slot in named]) or len(named) > 1:
        return
    letter = str(named[0].value)
    begins = telling.said_between(named[0].start - 1, named[0].end) & set(telling.words.article)
    opens = telling.said_between(said.end, said.end + 1) & set(telling.words.open)
    if (begins or opens) and telling.names.resolve(letter, ()):
        scope(telling, replace(said, kind="scope", slots=(replace(named[0], name="string"),)))


def names_strings(telling: Telling, said: Instruction) -> bool:
    """Whether letters name the strings to which a pair moves over: "you move in one, so it's the G and B"."""
    letters = [slot for slot in said.slots if slot.name == "letter"]
    if telling.moved_over < telling.together_at or not letters or not announced_before(telling, said):
        return False
    for one in letters:
        scope(telling, replace(said, kind="scope", slots=(replace(one, name="string"),)))
    return True


def that_string(telling: Telling, said: Instruction) -> None:
    """The string of the notes just told, said after them; it holds for those to come as well."""
    strings = telling.strings_of(said)
    sentence = telling.sentences.of(said.start)
    if not strings:
        return
    if telling.correcting is not None and _corrects_string(telling, said, strings[0]):
        return
    if telling.harmonic_listed and touch(telling, said, strings):
        return
    telling.namings.append(Naming(said.start, said.end, strings, sentence))
    if lay_copy(telling, strings[0]):
        return
    if not _tells_where_next(telling, said):
        lay_back(telling, strings[0], sentence)


def _tells_where_next(telling: Telling, said: Instruction) -> bool:
    """Whether the sentence goes on with its frets, and had none before: "it's all on the A: 5, 7"."""
    last, coming, sentence = telling.last(), telling.coming, telling.sentences.of(said.start)
    if coming is None or coming.start != said.end or not coming.all("fret"):
        return False
    return telling.sentences.of(coming.start) == sentence and (last is None or last.sentence != sentence)


def _is_of_last(telling: Telling, said: Instruction) -> bool:
    """Whether the string belongs to the note before: no pause leads to it, and one follows."""
    last = telling.last()
    if last is None or telling.note_until != said.start or len(last.voices) != 1 or last.voices[0].named:
        return False
    after = telling.items[said.end].before if said.end < len(telling.items) else Break.HARD
    return telling.items[said.start].before == Break.NONE and after > Break.NONE


def _is_alone(telling: Telling, said: Instruction, strings: Strings) -> bool:
    """Whether the fret just laid on all strings is of this one alone: "then seven, on the G on its own"."""
    last = telling.last()
    if last is None or len(last.voices) < 2 or telling.pair_open != len(telling.steps):
        return False
    spoken = telling.said_between(said.start, said.end + ALONE_WITHIN)
    if said.start - last.end > 1 or spoken & {*telling.words.moving_on}:
        return False
    words = spoken & {*telling.words.apart}
    return bool(words) and any({*voice.named} & {*strings} for voice in last.voices)


def _put_last_on(telling: Telling, said: Instruction, strings: Strings) -> None:
    """Gives the last note its string, with all its strokes: "7 twice on the B"."""
    for back in range(1, strokes(telling) + 1):
        step = telling.steps[-back]
        voices = (replace(step.voices[0], named=strings),)
        telling.steps[-back] = replace(step, voices=voices, end=said.end, closes=True)


def _is_struck(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Whether the words strike notes, and do not only name strings; adds those notes."""
    told = letters_alone(telling, said)
    if (len(told) > 1 or _is_bare_letter(said)) and tell_letters(telling, said, told):
        return True
    if grips.strike_pair(telling, said, strings) or grips.pick(telling, said, strings):
        return True
    if len(strings) != 1:
        return False
    if _sounds_alone(telling, said):
        telling.add(said, [Voice(0, strings[0])])
        return True
    if not _has_the_same_fret(telling, said, strings[0]):
        return False
    telling.add(said, [Voice(telling.steps[-1].voices[0].fret, strings[0])], closes=True)
    return True


def _sounds_alone(telling: Telling, said: Instruction) -> bool:
    """Whether the string itself is what is struck, open: "first the low E by itself, then 2 on the D"."""
    words = telling.said_between(said.start, said.end)
    last, behind = telling.last(), telling.items[said.end : said.end + 1]
    opens_with = telling.items[said.start].text
    named = words & {*telling.words.string, *telling.words.string_names}  # "the D alone" may be a note
    if not named or not words & {*telling.words.apart} or opens_with in telling.words.locating:
        return False
    if last is not None and last.end == said.start and telling.items[said.start].before < Break.SOFT:
        return False
    leads_on = {*telling.words.turning_to, *telling.words.joining}
    return all(item.before >= Break.HARD or item.text in leads_on for item in behind)


def _has_the_same_fret(telling: Telling, said: Instruction, strings: Strings) -> bool:
    """Whether the fret told last goes on over a row of strings: "5 on the high E, on the B, and on the G"."""
    last, coming = telling.last(), telling.coming
    if last is None or not last.closes or last.how != "pick" or len(last.voices) != 1:
        return False
    if set(strings) & set(last.voices[0].named) or _is_passed_over(telling, said):
        return False
    link = telling.said_between(last.end, slot_of(said, "string").start)
    row = said.start - last.end <= 1 and link <= set(telling.words.joining)
    settled = coming is None or coming.kind != "correction"
    return row and settled and telling.near(said, 0) and not grips.fret_follows(telling, said)


def _is_passed_over(telling: Telling, said: Instruction) -> bool:
    """Whether the words only tell how far the next note lies: "skip a string, 9 on the high E"."""
    by = telling.relation_of(said)
    return by is not None and 1 not in map(abs, by.ways) and by != SAME


def _is_bare_letter(said: Instruction) -> bool:
    """Whether the string is named by a letter alone, as notes are: "then the A"."""
    slot = slot_of(said, "string") if said.all("string") else None
    return slot is not None and len(str(slot.value)) == 1 and slot.end - slot.start == 1


def _lay_list(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> None:
    """Lays each fret of the list told just before on all of the strings: "7, 5, 2, the same two strings"."""
    after = said.start
    for at in range(len(telling.steps) - 1, -1, -1):
        step = telling.steps[at]
        bare = len(step.voices) == 1 and not step.voices[0].named and step.how == "pick"
        if not bare or step.sentence != telling.sentences.of(said.start) or after - step.end > LISTED_WITHIN:
            return
        telling.steps[at], after = replace(step, voices=_laid(step, strings)), step.start


def _laid(step: Step, strings: tuple[Strings, ...]) -> tuple[Voice, ...]:
    """The fret of the step on all of the strings."""
    return tuple(Voice(step.voices[0].fret, one) for one in strings)


def _lays_flat(telling: Telling, said: Instruction) -> bool:
    """Whether the pair of strings only says where the finger of the last, lone fret lies."""
    last = telling.last()
    if last is None or len(last.voices) != 1 or last.voices[0].named or last.how != "pick":
        return False
    return last.sentence == telling.sentences.of(said.start) and said.start - last.end <= NEXT_TO


def corrects_to_letter(telling: Telling, said: Instruction, letter: str) -> bool:
    """ "12 on the G, no, it's the D": the letter is a string's, for it puts one right that was just named."""
    last = telling.last()
    spoken = telling.said_between(said.start, said.end) & set(telling.words.article)
    if telling.correcting is None or last is None or not last.closes or not spoken:
        return False
    strings = telling.names.resolve(letter, last.voices[0].named)
    return len(strings) == 1 and _corrects_string(telling, said, strings[0])


def told_in_order(telling: Telling, said: Instruction) -> Instruction:
    """The note without "first" as its string, where another was just named: "the D string. Open first"."""
    naming = telling.named_since()
    if naming is None or len(said.all("fret")) != 1 or not said.all("string"):
        return said
    slot = slot_of(said, "string")
    bare = slot.end - slot.start == 1 and telling.items[slot.start].text in telling.ordinals
    if bare and any(_opens_frets(telling, said, slot, strings) for strings in naming.strings):
        fret = replace(slot, name="fret", value=telling.values.get(telling.items[slot.start].text, 0))
        return replace(said, slots=(*(one for one in said.slots if one != slot), fret))
    behind = slot_of(said, "fret").end <= slot.start
    first = said.text("string") == FIRST
    if not bare or not first or not behind or any(1 in strings for strings in naming.strings):
        return said
    return replace(said, slots=tuple(one for one in said.slots if one != slot))


def _opens_frets(telling: Telling, said: Instruction, slot: SlotValue, strings: Strings) -> bool:
    """Whether frets told as ordinals begin behind "open": "the high E, open, second, third"."""
    coming = telling.coming
    goes_on = coming is not None and coming.start == said.end and coming.text("side") == ORDINAL
    elsewhere = said.text("string") not in {f"#{string}" for string in strings}
    return goes_on and elsewhere and slot_of(said, "fret").start < slot.start


def comes_back_to(telling: Telling, said: Instruction, letter: str) -> bool:
    """ "it's the B again, 12, 10": the letter is a string's: a fret follows, and the note told is another."""
    last, coming = telling.last(), telling.coming
    words = telling.said_between(said.start, said.end)
    if last is None or coming is None or not grips.fret_follows(telling, said):
        return False
    spoken = words & set(telling.words.again) and words & set(telling.words.article)
    if not spoken or coming.start - said.end > 1:
        return False
    strings = telling.names.resolve(letter, last.voices[0].named)
    fret, held = last.frets[0], last.voices[0].named
    told = fret != "x" and len(held) == 1 and telling.names.gives(letter, held[0], int(fret))
    if not strings or told:
        return False
    telling.name_alone(said, strings)
    return True


def corrects_to_ordinal(telling: Telling, said: Instruction, nth: int) -> bool:
    """ "On the fifth string, no, the sixth": a bare ordinal puts right the string told just before as one."""
    last = telling.last()
    if telling.correcting is None or last is None or not last.voices[0].named:
        return False
    begins = last.end - 2 if last.closes else last.start
    counted = telling.said_between(begins, last.end) & telling.ordinals
    if not counted or not (last.closes or last.frets == (0,)):
        return False
    strings = telling.names.resolve(str(nth), ())
    return len(strings) == 1 and _corrects_string(telling, said, strings[0])


def _corrects_string(telling: Telling, said: Instruction, strings: tuple[int, ...]) -> bool:
    """ "on the G, sorry, the D": the string of the notes last told in one go is put right."""
    last = telling.last()
    correction = telling.correcting
    telling.correcting = None
    if last is None or correction is None or len(last.voices) != 1 or not strings:
        return False
    if last.end < correction.start - 1 or not last.voices[0].named:
        return False
    if said.start - correction.end > CORRECTION_REACH:
        return False
    if telling.said_between(correction.end, said.start) & set(telling.words.moving_on):
        return False
    slip = last.voices[0].named
    for back in range(1, len(telling.steps) + 1):
        step = telling.steps[-back]
        if step.start != last.start or len(step.voices) != 1 or step.voices[0].named != slip:
            break
        mended = (replace(step.voices[0], named=strings),)
        telling.steps[-back] = replace(step, voices=mended, corrected=f"string {slip[0]}")
    return True
