"""Notes told by their letters alone, once a teacher tells notes so: "A, B, and then back to the G".

A letter says no place. It is looked for where notes of that name were told before, then around the hand, and
taken where it lies nearest to the note before; where two places are about as near, a query offers the other.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.settle.hearing.grips import fret_follows
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.settle.told import Naming
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

Place = tuple[int, int]
"""String and fret."""

LETTERS = ("letter", "string")  # the slots in which a letter stands, whatever it names
OCTAVE = 12  # frets, or semitones
HABIT = 6  # notes back that show whether notes are told by their letters
LEAST = 2  # ... of which so many must have been, and half of them
MEMORY = 60  # notes back to which the place of a letter is remembered
SPAN = 4  # frets around the hand in which a letter is looked for
REACH = 7  # ... in which a place told before is still taken
STEP = 2  # semitones to a place that is meant before one told long ago, an octave and more away
AS_NEAR = 3  # semitones by which two places are about as near
LED_WITHIN = 8  # ... in one sentence, where nothing else was told since
IN_FRONT = 2  # items before a letter within which its string is named
BEHIND = 2  # items behind the letter of a string within which its fret begins
NAMED_WITHIN = 3  # items behind a note within which its name is told
SPELLED_WITHIN = 5  # items before letters within which it is said that they spell a chord
RUN_WITHIN = 8  # ... the names of a run
LONG = 5  # letters in a row that are mostly told over, unless they are said to be played
RUN = 3  # letters from which a run may be one told before
ALIKE = 0.75  # ... of which so many must be alike
LEFT_OUT = 1  # notes between two letters that such a run may leave out


def tell_letters(telling: Telling, said: Instruction, letters: Sequence[str]) -> bool:
    """Whether the letters are notes to play, or names of those just told; adds or names these."""
    if not letters or not all(map(telling.names.is_letter, letters)) or is_string(telling, said, letters):
        return False
    if _is_article(telling, said):
        return False
    if _names_told(telling, said, letters) or _told_over(telling, said, letters):
        return True
    string = string_in_front(telling, said, letters)
    if not (string or tells_by_letter(telling, said, len(letters))) or _speaks_of_them(telling, said):
        return False
    if len(letters) >= LONG and not _is_struck(telling, said):
        return False
    told = _told(telling)
    again = [] if string else retold(telling, letters, told)
    first = _ranked(telling, letters[0], string, told)
    lines = [_line(telling, letters, place, string, told) for place in first]
    _add(telling, said, letters, [again] if again else lines, string)
    return True


def _is_struck(telling: Telling, said: Instruction) -> bool:
    """Whether the sentence says up to the letters that something is played."""
    start = telling.sentences.start(telling.sentences.of(said.start))
    return bool(telling.said_between(start, said.end) & set(telling.words.striking))


def is_string(telling: Telling, said: Instruction, letters: Sequence[str]) -> bool:
    """Whether the letter is that of a string, named for the fret that comes behind it."""
    if len(letters) > 1 or not telling.names.resolve(letters[0], ()):
        return False
    following = telling.said_between(said.end, said.end + BEHIND)
    return fret_follows(telling, said) and bool(following & (telling.numbers | set(telling.words.open)))


def _is_article(telling: Telling, said: Instruction) -> bool:
    """Whether the last letter is the article: "then you get a" goes on with what there is."""
    if said.end >= len(telling.items) or telling.items[said.end - 1].text != "a":
        return False
    words, following = telling.words, telling.items[said.end]
    ends = {*words.joining, *words.moving_on, *words.again, *words.open, *telling.numbers}
    capital = telling.items[said.end - 1].is_name
    return not capital and following.before == Break.NONE and following.text not in ends


def _told_over(telling: Telling, said: Instruction, letters: Sequence[str]) -> bool:
    """Whether a run of letters stands in a sentence that tells over what was told."""
    cues = [cue for cue in telling.recaps[-1:] if not cue.weak]
    sentence = telling.sentences.of(said.start)
    return len(letters) > 1 and any(telling.sentences.of(cue.at) == sentence for cue in cues)


def _add(
    telling: Telling, said: Instruction, letters: Sequence[str], lines: list[list[Place]], string: Strings
) -> None:
    """Adds the letters as notes, on the first line of places; a second one is where they may lie too.

    The `string` on which they are told, if any, holds for letters to come.
    """
    again = bool(telling.said_between(said.start, said.end + 1) & set(telling.words.again))
    for at, letter in enumerate(letters):
        chosen, *others = (Voice(line[at][1], (line[at][0],)) for line in lines)
        elsewhere = tuple((other,) for other in others)
        telling.add(said, [chosen], origin="derived", letter=letter, elsewhere=elsewhere, again=again)
    if string:
        telling.change_last(before=string)
    telling.named_alone = len(telling.steps)
    telling.lettered.add(said.start)


def tells_by_letter(telling: Telling, said: Instruction, size: int = 1) -> bool:
    """Whether the notes before were told by their letters first, with or without their places behind.

    The note just told is enough for one more or two, not for a longer run.
    """
    recent = telling.steps[-HABIT:]
    called = sum(step.start in telling.lettered for step in recent)
    goes_on = telling.named_alone == len(telling.steps) and telling.near(said, 1) and size <= LEAST
    return bool(recent) and (goes_on or (called >= LEAST and called * 2 >= len(recent)))


def _speaks_of_them(telling: Telling, said: Instruction) -> bool:
    """Whether the letters are only spoken of: a chord's or a key's, where a bend leads, what one leaves."""
    words, last = telling.words, telling.last()
    start = telling.sentences.start(telling.sentences.of(said.start))
    if telling.said_between(max(start, said.start - SPELLED_WITHIN), said.end + 1) & set(words.spelled):
        return True
    before = telling.said_between(max(start, said.start - 1), said.start)
    goes_on = telling.said_between(max(start, said.start - IN_FRONT), said.start) & set(words.moving_on)
    stated = before & set(words.stating) and not goes_on
    if stated or before & {*words.naming_a_key, *words.source, *words.pointing}:
        return True
    own = telling.said_between(said.start, said.end)
    arrives = last is not None and last.is_bent and (own | before) & set(words.reaching)
    return bool(own & set(words.pointing)) or bool(arrives)


def string_in_front(telling: Telling, said: Instruction, letters: Sequence[str]) -> Strings:
    """The string named on its own right in front of the letters that are struck, or in force since then.

    The string's own letter behind its name is another name for it, unless it is struck.
    """
    last = telling.last()
    for naming in telling.namings[-1:]:
        if len(naming.strings) == 1 and _holds(telling, naming, said):
            struck = telling.said_between(naming.end, said.end) & set(telling.words.striking)
            alias = any(telling.names.gives(letters[0], string, 0) for string in naming.strings[0])
            told = struck or (
                not alias and (tells_by_letter(telling, said) or _in_a_row(telling, naming, said))
            )
            return naming.strings[0] if told else ()
    if last is None or not last.letter or not telling.near(said, 0):
        return ()
    if last.origin != "derived" and telling.named_alone != len(telling.steps):
        return ()
    spelled = telling.said_between(last.start, last.end) & {*telling.words.string}
    held = last.voices[0].named if spelled else last.before
    return held if len(held) == 1 else ()


def _in_a_row(telling: Telling, naming: Naming, said: Instruction) -> bool:
    """Whether only letters are told of the string, up to the end: "on the A string, F, then the G"."""
    end = telling.sentences.end(telling.sentences.of(said.start))
    spoken = telling.said_between(naming.end, end)
    if not telling.said_between(naming.at, naming.end) & {*telling.words.string}:
        return False
    if spoken & {*telling.numbers, *telling.words.string, *telling.words.open, *telling.words.fret}:
        return False
    row = [one for one in (said, *telling.following) if one.start < end and one.kind in ("letter", "scope")]
    return sum(len(letters_alone(telling, one)) for one in row) >= LEAST


def letters_alone(telling: Telling, said: Instruction) -> tuple[str, ...]:
    """The letters of which nothing is said but that they are notes or strings: "the D and the E"."""
    told = [one for slot in said.slots if slot.name in LETTERS for one in str(slot.value).split("+")]
    spoken = [item.text for item in telling.items[said.start : said.end]]
    alone = all(map(telling.names.is_letter, told)) and not {*spoken} & {*telling.words.string}
    return tuple(told) if alone else ()


def _holds(telling: Telling, naming: Naming, said: Instruction) -> bool:
    """Whether the string was named right in front, or in the sentence with nothing told since."""
    last, apart = telling.last(), said.start - naming.end
    since = last is None or last.start < naming.at
    here = since and naming.sentence == telling.sentences.of(said.start) and apart <= LED_WITHIN
    return apart >= 0 and (apart <= IN_FRONT or here)


def _names_told(telling: Telling, said: Instruction, letters: Sequence[str]) -> bool:
    """Whether the letters are those of the last notes, in order, and only say what these are called."""
    run = [(step, voice) for step in telling.steps[-len(letters) :] for voice in step.voices][-len(letters) :]
    words = telling.said_between(said.start - 1, said.end + 1)
    fresh = {*telling.words.moving_on, *telling.words.again, *telling.words.going_back}
    if len(run) < len(letters) or words & fresh or not telling.near(said, 1):
        return False
    if len(letters) == 1 and telling.names.resolve(letters[0], ()) and not _is_on_a_string(*run[0]):
        return False
    long = len(letters) > 1 or run[-1][0].copied  # a copy is named behind more words: "and you arrive on a G"
    if said.start - run[-1][0].end > (RUN_WITHIN if long else NAMED_WITHIN):
        return False
    if not all(_may_sound(telling, *one, letter) for one, letter in zip(run, letters, strict=True)):
        return False
    for back, letter in enumerate(reversed(letters), start=1):
        step = run[-back][0]
        if step is telling.last(back) and len(step.voices) == 1 and not step.letter:
            telling.steps[-back] = replace(step, letter=letter)
    return True


def _is_on_a_string(step: Step, voice: Voice) -> bool:
    """Whether a string is known for the note: else a letter may name it."""
    return bool(voice.named or step.before)


def _may_sound(telling: Telling, step: Step, voice: Voice, letter: str) -> bool:
    """Whether the note, wherever the words allow it, has that name."""
    if voice.fret == "x":
        return False
    if step.letter and not voice.named:
        return step.letter == letter
    strings = voice.named or step.before or range(1, telling.names.count + 1)
    return any(telling.names.gives(letter, string, int(voice.fret)) for string in strings)


def _told(telling: Telling) -> list[Place]:
    """The places of the single notes told so far, last first; a string holds until another is named."""
    places: list[Place] = []
    string = telling.names.count
    for step in telling.steps[-MEMORY:]:
        voice = step.voices[0]
        named = voice.named or step.before
        string = named[0] if len(named) == 1 else string
        if len(step.voices) > 1 or voice.fret == "x":
            continue
        fret = int(voice.fret)
        if step.letter and not telling.names.gives(step.letter, string, fret):
            every = range(1, telling.names.count + 1)
            fitting = [one for one in named or every if telling.names.gives(step.letter, one, fret)]
            string = _nearest_to(string, fitting) if fitting else string
        places.append((string, fret))
    return places[::-1]


def _nearest_to(string: int, strings: Sequence[int]) -> int:
    return min(strings, key=lambda one: abs(one - string))


def retold(telling: Telling, letters: Sequence[str], told: list[Place]) -> list[Place]:
    """The places of a run of letters that reads like one told before; [] where none does.

    The run may leave notes out, and name a few that were not told.
    """
    forward = told[::-1]
    best: list[Place | None] = []
    for start in range(len(forward) if len(letters) >= RUN else 0):
        found = _followed(telling, letters, forward[start:])
        if sum(map(bool, found)) >= sum(map(bool, best)):
            best = found
    if sum(map(bool, best)) < ALIKE * len(letters) or not best:
        return []
    line: list[Place] = []
    for letter, place in zip(letters, best, strict=True):
        line.append(place or _ranked(telling, letter, (), told, line[-1] if line else None)[0])
    return line


def _followed(telling: Telling, letters: Sequence[str], run: list[Place]) -> list[Place | None]:
    """For each letter the place that follows in the run, a note of it left out; else None."""
    at, found = 0, list[Place | None]()
    for letter in letters:
        ahead = range(at, min(at + LEFT_OUT + 1, len(run)))
        match = next((one for one in ahead if telling.names.gives(letter, *run[one])), None)
        found.append(None if match is None else run[match])
        at = at if match is None else match + 1
    return found


def _line(
    telling: Telling, letters: Sequence[str], first: Place, string: Strings, told: list[Place]
) -> list[Place]:
    """The places of the letters, each as near as may be to the one before."""
    line = [first]
    for letter in letters[1:]:
        line.append(_ranked(telling, letter, string, told, line[-1])[0])
    return line


def _ranked(
    telling: Telling, letter: str, string: Strings, told: list[Place], last: Place | None = None
) -> list[Place]:
    """The place of the letter, and another one where that is about as near.

    A place that was told before goes before all others, if the hand is still there.
    """
    before = last or (told[0] if told else None)
    hand = before[1] if before else 0
    known = [place for place in dict.fromkeys(told) if telling.names.gives(letter, *place)]
    known = [place for place in known if (not string or place[0] in string) and abs(place[1] - hand) <= REACH]
    around = [
        (one, fret)
        for one in (string or range(1, telling.names.count + 1))
        for fret in _frets(telling, letter, one, hand, bool(string))
    ]
    beside = [place for place in around if _distance(telling, place, before) <= STEP] if before else []
    away = min((_distance(telling, place, before) for place in known), default=0)
    places = known if known and not (beside and away > OCTAVE) else list(dict.fromkeys([*known, *around]))
    places = places or [(1, telling.names.lowest_fret(letter, 1))]
    best, *others = sorted(places, key=lambda place: _distance(telling, place, before))
    least = _distance(telling, best, before)
    near = [place for place in others if _distance(telling, place, before) - least <= AS_NEAR]
    return [best, *[place for place in near if _pitch(telling, place) != _pitch(telling, best)][:1]]


def _frets(telling: Telling, letter: str, string: int, hand: int, named: bool) -> tuple[int, ...]:
    """The frets at which the string gives the letter within reach of the hand; the nearest if it is named."""
    lowest = telling.names.lowest_fret(letter, string)
    frets = sorted((lowest, lowest + OCTAVE), key=lambda fret: abs(fret - hand))
    return tuple(frets[:1]) if named else tuple(fret for fret in frets if abs(fret - hand) <= SPAN)


def _pitch(telling: Telling, place: Place) -> int:
    return telling.names.pitch(*place)


def _distance(telling: Telling, place: Place, before: Place | None) -> int:
    return abs(_pitch(telling, place) - _pitch(telling, before)) if before else place[1]
