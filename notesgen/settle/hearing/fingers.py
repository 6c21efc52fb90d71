"""Notes told by a finger: the fret is where that finger is, on the string in force.

A finger's name stands for a note only where the words play it; beside a fret it tells which finger that is,
and elsewhere it is talk about the hand.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from notesgen.lesson.model import LEGATO, Fret, How
from notesgen.settle.hearing import grips, picking
from notesgen.settle.hearing.hand import FINGERS, SPAN
from notesgen.settle.hearing.slots import TELLS, frets_of
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Step, Strings, Voice
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

BESIDE = 3  # items between a fret and the finger for it
STRUCK_WITHIN = 4  # items behind a finger's string within which it is said to be struck
SPELLED_WITHIN = 5  # items behind a finger's note within which its fret is told after all


def fingers_in(said: Instruction) -> list[int]:
    """The fretting fingers that the instruction names, 1 to 4."""
    return [FINGERS[str(name)] for name in said.all("finger") if str(name) in FINGERS]


def finger_named(telling: Telling, said: Instruction) -> None:
    """A finger named by itself: it belongs to a fret beside it, or is played, or only spoken of."""
    picking.finger(telling, said)
    named = fingers_in(said)
    places = frets_of(said, "place") + frets_of(said, "held")
    if not named:
        return
    if places and places[0] != "x":
        if strings := telling.strings_of(said):
            telling.name_alone(said, strings)
        telling.fretting = telling.fretting.put(named[0], int(places[0]), _strings_about(telling, said))
    elif len(named) == 1 and _tells_of_last(telling, said):
        _label_last(telling, named[0])
    elif _is_for_coming(telling, said):
        telling.finger_ahead = (said.end, named[-1])
    elif _is_played(telling, said):
        for one in named:
            _strike(telling, said, one)


def hand_placed(telling: Telling, said: Instruction) -> None:
    """The hand in a position, what it grips, or a finger put down for the fret that follows."""
    if said.kind == "position":
        telling.fretting = telling.fretting.at(said.whole("fret") or 1)
        return
    if said.kind == "grip":
        grips.grip(telling, said)
    telling.placing_at = said.end
    if named := fingers_in(said):
        telling.finger_ahead = (said.end, named[-1])


def comes_down(telling: Telling, said: Instruction, how: How, strings: Strings) -> bool:
    """Tells a hammer-on or pull-off that leads to a finger; False where no finger does."""
    ordinal, last = said.whole("to"), telling.last()
    named = fingers_in(said) or ([ordinal] if ordinal else [])
    if not named or last is None or len(last.voices) > 1 or last.frets[0] == "x":
        return False
    start, sounding = int(last.frets[0]), _strings_of(last)
    withdrawn = telling.coming is not None and telling.coming.kind == "correction"
    if withdrawn or (sounding and not set(sounding) & set(strings or telling.last_strings() or sounding)):
        return False
    for fret, sure in _guesses(telling, named[-1], start):
        if (how == "hammer-on" and fret > start) or (how == "pull-off" and fret < start):
            _add(telling, said, named[-1], fret, sure, strings, how)
            return True
    return False


def reaches(telling: Telling, said: Instruction) -> bool:
    """Whether a finger moves so many frets and is played there: "the first finger reaches back one fret"."""
    by, named = said.whole("count"), fingers_in(said)
    if by is None or not named or said.all("fret"):
        return False
    guess = next(_guesses(telling, named[0], None), None)
    if guess is None:
        return True
    fret = guess[0] + (by if said.text("side") == "up" else -by)
    if fret > 0:
        _add(telling, said, named[0], fret, guess[1])
    return True


def is_counted(telling: Telling, said: Instruction, how: How, fret: Fret) -> bool:
    """Whether a bare ordinal is a finger: as a fret, "hammer the third" would not rise from the last note."""
    last = telling.last()
    if how != "hammer-on" or last is None or last.frets[0] == "x" or fret not in FINGERS.values():
        return False
    words = telling.said_between(said.start, said.end)
    by_ordinal = bool(words & telling.ordinals) and not words & set(telling.words.fret)
    return by_ordinal and int(last.frets[0]) >= int(fret)


def spells_out(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether a fret only says where the finger came down that was just named: "your pinky, that's 8"."""
    last = telling.last()
    if last is None or not last.by_finger or len(frets) != 1 or frets[0] == "x":
        return False
    link = telling.said_between(last.end, said.end)
    moves_on = link & {*telling.words.moving_on, *telling.words.striking}
    moves_on |= link & set(telling.words.joining) if frets != list(last.frets) else set()
    near = 0 <= said.start - last.end <= SPELLED_WITHIN and telling.near(said, 0)
    if not near or moves_on or not _leads_on(last.how, telling.last(2), int(frets[0])):
        return False
    named = strings[0] if len(strings) == 1 else last.voices[0].named
    fret = int(frets[0])
    told = replace(last, voices=(Voice(fret, named),), end=said.end, origin="said")
    telling.steps[-1] = replace(told, by_finger=False, unsure_hand=False)
    telling.fretting = telling.fretting.put(last.finger, fret, _strings_of(telling.steps[-1]))
    return True


def _leads_on(how: How, before: Step | None, fret: int) -> bool:
    """Whether a hammer-on to the fret rises, and a pull-off falls."""
    if before is None or before.frets[0] == "x":
        return True
    rise = fret - int(before.frets[0])
    return {"hammer-on": rise > 0, "pull-off": rise < 0}.get(how, True)


def _strike(telling: Telling, said: Instruction, finger: int) -> None:
    guess = next(_guesses(telling, finger, None), None)
    if guess is None:
        return
    fret, sure = guess
    coming = telling.coming
    strings = telling.strings_of(coming) if coming and _on_string(telling, said) else ()
    _add(telling, said, finger, fret, sure, strings[0] if len(strings) == 1 else ())


def _add(
    telling: Telling,
    said: Instruction,
    finger: int,
    fret: int,
    sure: bool,
    strings: Strings = (),
    how: How = "pick",
) -> None:
    """Adds the note of a finger; it is asked about where the hand's place was not said."""
    telling.add(
        said,
        [Voice(fret, strings)],
        how,
        origin="derived",
        finger=finger,
        by_finger=True,
        unsure_hand=not sure,
    )


def _guesses(telling: Telling, finger: int, start: int | None) -> Iterator[tuple[int, bool]]:
    """Where the finger may be, the likeliest first, each with whether it is sure; `start` is sounding."""
    hand = telling.fretting
    known = hand.fret_of(finger)
    if known is not None:
        yield known, hand.is_sure_of(finger)
    if start is not None and finger in hand.fingers and hand.base is not None:
        yield hand.base + finger - 1, hand.declared
    lowest = _lowest_lately(telling)
    if known is None and lowest is not None:
        yield lowest + finger - 1, False
    if start is not None and finger > 1:
        yield start + finger - 1, False


def _lowest_lately(telling: Telling) -> int | None:
    """The lowest fret of the last notes that one place of the hand holds; None where these say too little."""
    reach: list[int] = []
    for step in reversed(telling.steps[-LOOK_BACK:]):
        fretted = [int(fret) for fret in step.frets if fret not in ("x", 0)]
        if max(reach + fretted, default=0) - min(reach + fretted, default=0) > SPAN:
            break
        reach += fretted
    return min(reach) if len(set(reach)) > 1 else None


def _label_last(telling: Telling, finger: int) -> None:
    step = telling.steps[-1]
    telling.change_last(finger=finger)
    if step.frets[0] not in ("x", 0):
        telling.fretting = telling.fretting.put(finger, int(step.frets[0]), _strings_of(step))


def _strings_of(step: Step) -> Strings:
    return step.voices[0].named or step.before


def _strings_about(telling: Telling, said: Instruction) -> Strings:
    """The strings that the words name, else those in force."""
    strings = telling.strings_of(said)
    return strings[0] if len(strings) == 1 else telling.last_strings()


def _tells_of_last(telling: Telling, said: Instruction) -> bool:
    """Whether the finger is that of the fret just told: "9 on the G with the third finger"."""
    last = telling.last()
    if last is None or last.finger or last.by_finger or len(last.voices) > 1:
        return False
    link = telling.said_between(last.end, said.start)
    if not 0 <= said.start - last.end <= BESIDE or link & {*telling.words.moving_on, *telling.words.joining}:
        return False
    parts = [item.before for item in telling.items[last.end : said.start + 1]]
    return Break.HARD not in parts and Break.GAP not in parts


def _is_for_coming(telling: Telling, said: Instruction) -> bool:
    """Whether a fret follows that the finger is for: "your ring finger plays the 7"."""
    coming = telling.coming
    if coming is None or not any(coming.all(slot) for slot in TELLS):
        return False
    if _slurs_on(telling, said, coming):
        return False
    link = telling.said_between(said.end, coming.start + 1)
    return coming.start - said.end <= BESIDE and not link & {*telling.words.moving_on, *telling.words.joining}


def _slurs_on(telling: Telling, said: Instruction, coming: Instruction) -> bool:
    """ "B string, first finger, hammer 8": the finger begins the string just named, and the slur goes on."""
    named, to = fingers_in(said), coming.whole("to")
    if telling.named_since() is None or to is None or coming.all("from") or coming.kind not in LEGATO:
        return False
    guess = next(_guesses(telling, named[-1], None), None)
    part = telling.items[coming.start].before > Break.NONE
    return part and guess is not None and guess[1] and guess[0] != to


def _is_played(telling: Telling, said: Instruction) -> bool:
    """Whether the words play the finger: a verb leads to it, a string was just named, or a row goes on."""
    words, last, naming = telling.words, telling.last(), telling.namings[-1] if telling.namings else None
    if telling.said_between(*_sentence(telling, said)) & set(words.thumb) or not _ends_clause(telling, said):
        return False
    leads = telling.said_between(said.start - 1, said.start)
    in_row = last is not None and last.by_finger and said.start - last.end <= BESIDE
    if in_row or leads & set(words.fingers_play):
        return True
    if _on_string(telling, said):
        return bool(leads & set(words.turning_to)) or _is_struck_then(telling)
    opens = telling.items[said.start].before >= Break.SOFT
    if naming is not None and 0 <= said.start - naming.end <= (BESIDE if opens else 1):
        return True
    return bool(leads & set(words.moving_on)) and _goes_on(telling, said)


def _on_string(telling: Telling, said: Instruction) -> bool:
    """Whether a string follows at once: as often told of where fingers go as played."""
    coming = telling.coming
    return coming is not None and coming.kind == "scope" and coming.start == said.end


def _is_struck_then(telling: Telling) -> bool:
    """Whether the finger's string, which comes, is struck at once: "first finger on the high E, hit that"."""
    if telling.coming is None:
        return False
    behind = telling.items[telling.coming.end : telling.coming.end + STRUCK_WITHIN]
    spoken = [item.text for item in behind if item.before < Break.HARD]
    verb = next((at for at, text in enumerate(spoken) if text in telling.words.striking), None)
    return verb is not None and any(text in telling.words.struck for text in spoken[verb + 1 : verb + 2])


def _goes_on(telling: Telling, said: Instruction) -> bool:
    """Whether nothing of weight was said since the last note, or since the sentence began."""
    last = telling.last()
    start = max(last.end if last else 0, _sentence(telling, said)[0])
    return telling.said_between(start, said.start) <= {*telling.words.light, *telling.words.moving_on}


def _sentence(telling: Telling, said: Instruction) -> tuple[int, int]:
    at = telling.sentences.of(said.start)
    return telling.sentences.start(at), telling.sentences.end(at)


def _ends_clause(telling: Telling, said: Instruction) -> bool:
    """Whether nothing more is said of the finger: a break, a further note or a string follows."""
    if said.end == len(telling.items) or telling.items[said.end].before >= Break.SOFT:
        return True
    words, coming = telling.words, telling.coming
    follows = telling.items[said.end].text
    return follows in {*words.moving_on, *words.joining, *words.again} or (
        coming is not None and coming.start == said.end
    )
