"""A note called again by what it is: its name, how low it lies, what it was called, its number.

"The low D once more", "back to the low one", "then the root again", "the second note again".
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing import afterwards, gone_back, moved
from notesgen.settle.hearing.afterwards import NEXT
from notesgen.settle.hearing.begun import begun
from notesgen.settle.hearing.passages import passage
from notesgen.settle.hearing.recall import MEMORY, states
from notesgen.settle.hearing.restruck import strike_over
from notesgen.settle.hearing.slots import TELLS, frets_of, named_at, slot_of
from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Step, Strings
from notesgen.speech.instructions import Instruction

NAME, TITLE, NTH = "name", "title", "nth"  # the slot "side": how the note is called
HIGH = "high"  # the slot "label" of a note that lies high, not low
AT_ONCE = 3  # items between a letter and its fret within which it is a string's: "the B again, that's 3"
CLOSE = 2  # sentences within which the low one and the high one were told
ON_STRING = 7  # ... where a string has the same name: "back to the A, with the pinky on ten"
SPELLED = 10  # items within which the place of a note called by its letter is told after all
TITLED = 1  # ... within which a note is told what it is
OVER = ("once",)  # "once more"


def as_string(telling: Telling, said: Instruction) -> Instruction:
    """The words as of a string, where that has the name too: a fret follows, or no such note was told.

    A bare letter is the note's only where one was called so before; else the string is struck as it is held.
    """
    if said.kind != "recall" or said.text("side") != NAME:
        return said
    slot, letter = slot_of(said, "letter"), said.text("letter")
    code = f"{said.text('label')} {letter}" if said.all("label") else str(letter)
    if not telling.names.resolve(code, ()):
        return said
    string = replace(slot, name="string", value=code)
    spoken = telling.said_between(said.start, said.end)
    spelled = telling.said_between(said.end, said.end + 1) & set(telling.words.string)
    if not spelled and not _fret_comes(telling, said, ON_STRING):
        points = said.all("label") or spoken & {*telling.words.pointing, *telling.words.sameness}
        named = points or any(step.letter == letter for step in telling.steps[-MEMORY:])
        if named and _of_name(telling, said):
            return said
        strings = telling.names.resolve(code, ())
        if gone_back.left(telling, said, strings):
            return replace(said, kind="scope", slots=(string,))
        if gone_back.leads_back(telling, said, strings) and _of_name(telling, said):
            return said
    led = telling.said_between(said.start - 1, said.start) & {*telling.words.locating}
    if spelled or (said.all("label") and (led or not spoken & {*telling.words.again, *OVER})):
        return replace(said, kind="scope", slots=(string,))
    if not spoken & {*telling.words.again, *OVER} or spoken & set(telling.words.striking):
        return replace(said, kind="letter", slots=(slot, replace(slot, name="side", value=NEXT)))
    return replace(said, kind="stroke", slots=(string,))


def strike_called(telling: Telling, said: Instruction) -> None:
    """Strikes the note once more; asks about one that was not told, adds none that is spoken of."""
    called = _called(telling, said)
    if _is_spoken_of(telling, said, called):
        if said.text("side") == NAME:
            afterwards.letter(telling, said)
    elif _fret_comes(telling, said) or _is_told(telling, said, called):
        return
    elif called is None:
        telling.unwritten.append(said)
    else:
        letter = called.letter if said.all("label") else said.text("letter") or called.letter
        plain = replace(called, how="pick", bend=None, marks=(), letter=letter)
        strike_over(telling, said, [plain])
        if said.all("letter"):
            telling.lettered.add(said.start)


def _called(telling: Telling, said: Instruction) -> Step | None:
    match said.text("side"):
        case "name":
            return _of_name(telling, said)
        case "height":
            return _of_height(telling, said)
        case "title":
            return _of_title(telling, said)
    settled, count = _settled(telling), said.whole("count") or 0
    told = [settled[place] for place in passage(telling, whole=False)]
    told = begun(telling, told) if count == 1 else told
    return told[count - 1] if 0 < count <= len(told) else None


def _settled(telling: Telling) -> list[Step]:
    """The steps told so far, with the strings in force."""
    return moved.settled(telling.steps)


def _of_name(telling: Telling, said: Instruction) -> Step | None:
    """The note told last under that name; the lowest or the highest such where it is called so."""
    letter = said.text("letter") or ""
    recent = [step for step in _settled(telling)[-MEMORY:] if len(step.voices) == 1]
    named = [step for step in recent if step.letter == letter or _sounds(telling, step, letter)]
    if not named or not said.all("label"):
        return named[-1] if named else None
    return _outermost(telling, named, said.text("label"))


def _of_height(telling: Telling, said: Instruction) -> Step | None:
    """The lowest or the highest of the notes told in the last sentences, where they lie apart."""
    last = telling.last()
    told = [step for step in _settled(telling)[-MEMORY:] if len(step.voices) == 1 and _place(step)]
    near = [step for step in told if last and last.sentence - step.sentence <= CLOSE]
    if len({_pitch(telling, step) for step in near}) < 2:
        return None
    return _outermost(telling, near, said.text("label"))


def _outermost(telling: Telling, steps: Sequence[Step], label: str | None) -> Step:
    """The lowest of the notes, or the highest; of one pitch the one told last."""
    way = -1 if label == HIGH else 1
    return min(reversed(steps), key=lambda one: way * _pitch(telling, one))


def _of_title(telling: Telling, said: Instruction) -> Step | None:
    """The note beside which its title was said last: "7 on the D, that's the root"."""
    title = said.text("label")
    steps = _settled(telling)
    for at in range(said.start - 1, -1, -1):
        if telling.items[at].text != title:
            continue
        sentence = telling.sentences.of(at)
        near = [step for step in steps if abs(step.sentence - sentence) <= TITLED and len(step.voices) == 1]
        near = [step for step in near if step.sentence == sentence] or near
        if near:
            return min(near, key=lambda step: max(step.start - at, at - step.end + 1))
    return _bass_of_pinch(telling, steps) if title in telling.words.bass else None


def _bass_of_pinch(telling: Telling, steps: Sequence[Step]) -> Step | None:
    """The low note of the pinch told last: "then the bass alone"."""
    for step in reversed(steps[-MEMORY:]):
        voices = [voice for voice in step.voices if len(voice.named) == 1 and voice.fret != "x"]
        low = max(voices, key=lambda voice: voice.named[0], default=None)
        if low is not None and len(step.voices) > 1 and low.named[0] > telling.names.count // 2:
            return replace(step, voices=(low,))
    return None


def _place(step: Step) -> tuple[int, int] | None:
    """The one string and the fret of the note; None where either is open."""
    voice = step.voices[0]
    return None if len(voice.named) != 1 or voice.fret == "x" else (voice.named[0], int(voice.fret))


def _sounds(telling: Telling, step: Step, letter: str) -> bool:
    """Whether the note has that name, where its string is known."""
    place = _place(step)
    return place is not None and telling.names.gives(letter, *place)


def _pitch(telling: Telling, step: Step) -> int:
    string, fret = _place(step) or (1, 0)
    return telling.names.pitch(string, fret)


def _key(step: Step | None) -> tuple[Strings, Fret] | None:
    return None if step is None else (step.voices[0].named, step.voices[0].fret)


def _is_spoken_of(telling: Telling, said: Instruction, called: Step | None) -> bool:
    """Whether the words only say what a note is: "that's the root again", "the low D again is open".

    So it is where they only lead back to the note on which the line has just come to rest.
    """
    stating = set(telling.words.stating)
    first = named_at(said)
    lead = telling.said_between(said.start - 1, first)
    if lead & stating and not lead & set(telling.words.moving_on):
        return True
    if states(telling, said.end):
        return True
    last = _settled(telling)[-1] if telling.steps else None
    back = telling.said_between(said.start, said.end) & {*telling.words.again, *OVER}
    if last is None or back:
        return False
    bare = said.all("letter") and not said.all("label")
    sounds = bare and _sounds(telling, last, said.text("letter") or "")
    return bool(sounds) or (len(last.voices) == 1 and _key(last) == _key(called))


def _is_told(telling: Telling, said: Instruction, called: Step | None) -> bool:
    """Whether the place of a note called by its letter is told behind it: "F again, but on the third".

    The low E is not told by an E that lies high.
    """
    letter = said.text("letter")
    coming = next((one for one in telling.following if any(one.all(slot) for slot in TELLS)), None)
    if not letter or coming is None or coming.start - said.end > SPELLED:
        return False
    if telling.said_between(said.end, coming.start + 1) & set(telling.words.moving_on):
        return False
    frets = [fret for slot in TELLS for fret in frets_of(coming, slot) if fret != "x"]
    strings = telling.strings_of(coming)
    places = strings[0] if strings else range(1, telling.names.count + 1)
    if frets and said.all("label") and called is not None:
        pitch = _pitch(telling, called)
        return any(telling.names.pitch(string, int(frets[0])) == pitch for string in places)
    return any(telling.names.gives(letter, string, int(frets[0])) for string in places) if frets else False


def _fret_comes(telling: Telling, said: Instruction, within: int = AT_ONCE) -> bool:
    """Whether a fret without a string of its own follows at once: "back to the D, second fret"."""
    coming = telling.coming
    if coming is None or coming.all("string") or coming.start - said.end > within:
        return False
    if not any(coming.all(slot) for slot in TELLS):
        return False
    return not telling.said_between(said.end, coming.start + 1) & set(telling.words.moving_on)
