"""What each kind of playing instruction adds to the telling."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from msgspec.structs import replace

from notesgen.lesson.model import Fret, How, Mark
from notesgen.settle.repeats import read_count
from notesgen.settle.step import Step, Strings, Voice
from notesgen.settle.telling import Telling
from notesgen.speech.instructions import Instruction
from notesgen.speech.items import Break

CHORD_NEAR = 12  # items within which an announced power chord begins to be spelled out
RESTATED = 8  # items within which a corrected note is said over
SPOKEN_OF = 4  # frets back to which a sentence that begins with "the 7" may speak
LOOK_BACK = 8  # steps within which "that 7" finds its 7, and a release its bend


def frets_of(instruction: Instruction, slot: str) -> list[Fret]:
    """The frets in a slot, in the order said."""
    return [int(value) for value in instruction.all(slot) if isinstance(value, int | float)]


def marks_of(instruction: Instruction) -> tuple[Mark, ...]:
    """The mark that the idiom sets, if any."""
    mark = instruction.text("mark")
    return (cast(Mark, mark),) if mark else ()


def note(telling: Telling, said: Instruction) -> None:
    """One picked fret after another; on several strings at once where the words name a pair."""
    frets = frets_of(said, "fret")
    strings = telling.strings_of(said)
    if said.text("side") == "lowest":
        strings = strings or (_muted_string(telling),)
    if telling.correcting is not None:
        frets = list(dict.fromkeys(frets))
        if len(frets) == 1 and strings and _corrects_pair(telling, said, frets[0], strings):
            return
    if _points_back(telling, said, frets):
        return
    if len(frets) == 1 and not strings and _opens_pair(telling, said):
        telling.add(said, [Voice(frets[0], one) for one in telling.namings[-1].strings])
        telling.pair_open = len(telling.steps)
        return
    if len(frets) == 1 and _joins_pair(telling, said, frets[0], strings):
        return
    if telling.shape and not strings and said.idiom == "bare fret":
        for fret in frets:
            telling.add(said, [replace(v, fret=int(v.fret) + int(fret)) for v in telling.shape if fret != "x"])
        return
    telling.shape = () if strings else telling.shape
    _restate(telling, said, frets, strings)
    if not strings and _is_plural(telling, said):
        strings = _pair_in_force(telling)
    if len(strings) > 1:
        _group(telling, said, frets, strings)
        return
    times, unsure = read_count(said.text("count")) if said.text("count") else (1, "")
    named = strings[0] if strings else _string_of_that(telling, said, frets)
    for fret in frets * times:
        telling.add(said, [Voice(fret, named)], marks=marks_of(said), unsure_count=unsure, again=_says_again(telling, said) or times > 1)


def pair(telling: Telling, said: Instruction) -> None:
    """Two or more strings struck together."""
    frets = frets_of(said, "fret") + frets_of(said, "other_fret")
    strings = telling.strings_of(said) + telling.strings_of(said, "other_string")
    if said.text("fret") is None and not frets:
        frets = [0]
    _group(telling, said, frets, strings or _pair_in_force(telling))


def shape(telling: Telling, said: Instruction) -> None:
    """A power chord by the fret of its root."""
    frets = frets_of(said, "fret")
    if not frets:
        telling.chord_at, telling.chord_voices = said.end, 3
        return
    root_fret = frets[0]
    strings = telling.strings_of(said)
    root = strings[0][-1] if strings else telling.names.count
    rises = (0, 0, 0) if telling.drop == root else (0, 2, 2)
    voices = [
        Voice(int(root_fret) + rise, (root - over,))
        for over, rise in enumerate(rises)
        if root - over >= 1
    ]
    telling.add(said, voices)
    telling.shape = tuple(replace(v, fret=int(v.fret) - int(root_fret)) for v in voices)


def dead(telling: Telling, said: Instruction) -> None:
    """Damped strokes: a count on one string, or one on each of several strings."""
    strings = telling.strings_of(said)
    if len(strings) > 1:
        ordered = sorted(strings, reverse=True)
        for candidates in ordered:
            telling.add(said, [Voice("x", candidates)])
        return
    times, unsure = read_count(said.text("count"))
    for _ in range(times):
        telling.add(said, [Voice("x", strings[0] if strings else ())], unsure_count=unsure)


def legato(telling: Telling, said: Instruction) -> None:
    """A hammer-on, pull-off or slide, from a fret that is said or just played, to one or more frets."""
    how = cast(How, said.kind)
    strings = telling.strings_of(said)
    named = strings[0] if len(strings) == 1 else ()
    start = frets_of(said, "from")
    targets = frets_of(said, "to")
    correcting = telling.correcting is not None
    if start and not (correcting and not targets) and not _source_stands(telling, said, start[0]):
        telling.add(said, [Voice(start[0], named)])
    if not targets:
        if said.idiom == "pull-off, no fret said" and _was_pulled(telling):
            telling.change_last(how="pull-off")
            return
        targets = _back_to(telling)
    last = telling.last()
    if how == "slide" and last and len(last.voices) > 1 and targets and not start:
        _slide_group(telling, said, last, int(targets[0]))
        return
    for fret in targets:
        telling.add(said, [Voice(fret, named)], how=how)


def chain(telling: Telling, said: Instruction) -> None:
    """A picked or tapped fret, hammered up and pulled off again."""
    strings = telling.strings_of(said)
    named = strings[0] if strings else ()
    first: How = "tap" if said.text("side") == "tap" else "pick"
    start = frets_of(said, "fret")
    if start and not _source_stands(telling, said, start[0], "fret"):
        telling.add(said, [Voice(start[0], named)], how=first)
    for fret in frets_of(said, "to"):
        telling.add(said, [Voice(fret, named)], how="hammer-on")
    for fret in frets_of(said, "via") or (start if said.all("to") else []):
        telling.add(said, [Voice(fret, named)], how="pull-off")


def trill(telling: Telling, said: Instruction) -> None:
    """Two frets in alternation: one step that holds the other fret."""
    _one(telling, said, "trill", to=said.whole("to"))


def tap(telling: Telling, said: Instruction) -> None:
    """A tapped fret."""
    _one(telling, said, "tap")


def harmonic(telling: Telling, said: Instruction) -> None:
    """A harmonic on one string, or on several at once; without a string, those named next."""
    strings = telling.strings_of(said)
    fret = said.whole("fret")
    if fret is None:
        telling.harmonics_from = telling.sentences.of(said.start)
        return
    if not strings:
        telling.harmonic_fret = fret
        return
    telling.add(said, [Voice(fret, candidates) for candidates in strings], how="harmonic")


def shift(telling: Telling, said: Instruction) -> None:
    """What was just played, so many frets up or down."""
    last = telling.last()
    if last is None or "x" in last.frets:
        return
    target = said.whole("fret")
    by = target - int(last.frets[0]) if target is not None else read_count(said.text("by"))[0]
    down = said.text("side") == "down" or telling.items[said.start].text == "down"
    moved = [replace(v, fret=int(v.fret) + (-by if down else by)) for v in last.voices if v.fret != "x"]
    if any(int(v.fret) < 0 for v in moved):
        return
    how: How = "slide" if said.text("how") == "slide" else last.how
    telling.add(said, moved, how=how, bend=last.bend, origin="derived")


def _one(telling: Telling, said: Instruction, how: How, **more: object) -> None:
    strings = telling.strings_of(said)
    for fret in frets_of(said, "fret"):
        telling.add(said, [Voice(fret, strings[0] if strings else ())], how=how, **more)


def _group(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> None:
    """One step on several strings: one fret for all, or a fret each."""
    if not frets or not strings:
        return
    if len(frets) not in (1, len(strings)):
        for fret in frets:
            telling.add(said, [Voice(fret)])
        return
    spread = frets * len(strings) if len(frets) == 1 else frets
    voices = [Voice(fret, candidates) for fret, candidates in zip(spread, strings, strict=True)]
    telling.add(said, voices, marks=marks_of(said))


def _pair_in_force(telling: Telling) -> tuple[Strings, ...]:
    """The strings of the pair last named or played."""
    for naming in reversed(telling.namings[-2:]):
        if len(naming.strings) > 1:
            return naming.strings
    for step in reversed(telling.steps[-LOOK_BACK:]):
        if len(step.voices) > 1:
            return tuple(voice.named for voice in step.voices)
    return ()


def _slide_group(telling: Telling, said: Instruction, last: Step, target: int) -> None:
    """All voices of the last step slide as far as its first voice does."""
    first = last.voices[0].fret
    if first == "x":
        return
    by = target - int(first)
    voices = [replace(v, fret=int(v.fret) + by) for v in last.voices if v.fret != "x" and int(v.fret) + by >= 0]
    telling.add(said, voices, how="slide", origin="derived")


def _source_stands(telling: Telling, said: Instruction, fret: Fret, slot: str = "from") -> bool:
    """Whether the fret that a legato starts from is the note just played, not a new one."""
    last = telling.last()
    if last is None or fret not in last.frets:
        return False
    if last.corrected and last.frets == (fret,) and said.start - last.end <= 2 * RESTATED:
        return True
    at = next(s.start for s in said.slots if s.name == slot)
    return telling.anaphoric(at) and telling.sentences.of(at) - last.sentence <= 1


def _back_to(telling: Telling) -> list[Fret]:
    """Where a pull-off goes that says no fret: to the note before the last, else to the open string."""
    before = telling.last(2)
    last = telling.last()
    if last is None or last.frets[0] in ("x", 0) or len(last.voices) > 1:
        return []
    if before and last.how == "hammer-on" and before.frets[0] != "x" and int(before.frets[0]) < int(last.frets[0]):
        return [before.frets[0]]
    return [0]


def _was_pulled(telling: Telling) -> bool:
    """Whether the last two notes, told in one sentence on one string, fall: then they are the pull-off."""
    last, before = telling.last(), telling.last(2)
    if last is None or before is None or before.sentence != last.sentence or last.how != "pick":
        return False
    if "x" in last.frets + before.frets or len(last.voices) > 1 or len(before.voices) > 1:
        return False
    one, two = before.voices[0].named or before.before, last.voices[0].named or last.before
    same = not two or not one or bool(set(one) & set(two))
    return same and int(last.frets[0]) < int(before.frets[0])


def _says_again(telling: Telling, said: Instruction) -> bool:
    """Whether "again" or "another" stands right around the words."""
    around = telling.items[max(0, said.start - 1) : said.end + 1]
    return any(item.text in ("again", "another", "more") for item in around)


def _string_of_that(telling: Telling, said: Instruction, frets: list[Fret]) -> Strings:
    """The string of an earlier note that "that 7 again" or "back to the 7" speaks of; () when it is new."""
    if len(frets) != 1 or telling.correcting is not None:
        return ()
    slot = next(s for s in said.slots if s.name == "fret")
    words = {item.text for item in telling.items[max(0, said.start - 1) : slot.start]}
    if telling.items[slot.start].text != "that" and "back" not in words:
        return ()
    for step in reversed(telling.steps[-LOOK_BACK:]):
        if step.frets == tuple(frets):
            return step.voices[0].named
    return ()


def _corrects_pair(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """"4 on the G, and 4 on, sorry, 3 on the E": the second voice of a pair put right before it was one."""
    correcting, wrong = telling.correcting, telling.steps.pop()
    telling.correcting = None
    last = telling.last()
    pair = _pair_in_force(telling)
    if last and len(last.voices) == 1 and len(pair) == 2 and _covers(pair, last.voices[0].named, strings[0]):
        slip = " and ".join(str(f) for f in wrong.frets)
        telling.change_last(voices=(last.voices[0], Voice(fret, strings[0])), end=said.end, corrected=slip)
        return True
    telling.steps.append(wrong)
    telling.correcting = correcting
    return False


def _is_plural(telling: Telling, said: Instruction) -> bool:
    """Whether the fret is named in the plural, "the sevens": both strings at that fret."""
    slot = next(s for s in said.slots if s.name == "fret")
    return slot.end > slot.start and telling.items[slot.end - 1].text.endswith("s")


def _opens_pair(telling: Telling, said: Instruction) -> bool:
    """Whether a pair of strings was named in this very sentence, and this is the first fret for it."""
    naming = telling.namings[-1] if telling.namings else None
    last = telling.last()
    if naming is None or len(naming.strings) != 2 or telling.correcting is not None:
        return False
    fresh = last is None or last.start < naming.at
    return fresh and naming.sentence == telling.sentences.of(said.start)


def _muted_string(telling: Telling) -> Strings:
    """The string of the open notes last palm-muted, or the lowest."""
    for step in reversed(telling.steps):
        if "palm-mute" in step.marks and step.frets == (0,) and step.voices[0].named:
            return step.voices[0].named
    return (telling.names.count,)


def _joins_pair(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Makes one step of "seven and seven" where a pair of strings is in force, and of "9 with 9"."""
    last = telling.last()
    if last is None or telling.correcting or said.start - last.end > 1:
        return False
    if _joins_chord(telling, said, fret, strings):
        return True
    if telling.pair_open == len(telling.steps) and not strings and telling.items[said.start].text == "and":
        telling.change_last(voices=(last.voices[0], replace(last.voices[1], fret=fret)), end=said.end)
        telling.pair_open = -1
        return True
    if len(last.voices) != 1:
        return False
    slot = next(s for s in said.slots if s.name == "fret")
    link = {item.text for item in telling.items[last.end : slot.start]}
    pair = _pair_in_force(telling)
    if link & {"then", "next"}:
        return False
    if "with" in link and len(strings) <= 1 and (last.voices[0].named or pair):
        voices = (last.voices[0], Voice(fret, strings[0] if strings else _other_of(pair, last.voices[0].named)))
    elif "and" in link and len(pair) == 2 and not strings and not last.voices[0].named:
        voices = (replace(last.voices[0], named=pair[0]), Voice(fret, pair[1]))
    elif len(pair) == 2 and strings and _covers(pair, last.voices[0].named, strings[0]):
        voices = (last.voices[0], Voice(fret, strings[0]))
    else:
        return False
    telling.change_last(voices=voices, end=said.end)
    return True


def _joins_chord(telling: Telling, said: Instruction, fret: Fret, strings: tuple[Strings, ...]) -> bool:
    """Adds a string to a power chord that was announced and is being spelled out."""
    last = telling.steps[-1]
    near = telling.chord_at <= last.start < telling.chord_at + CHORD_NEAR
    named = {string for voice in last.voices for string in voice.named}
    if not near or len(strings) != 1 or len(last.voices) >= telling.chord_voices or not named or set(strings[0]) & named:
        return False
    telling.change_last(voices=(*last.voices, Voice(fret, strings[0])), end=said.end)
    return True


def _covers(pair: tuple[Strings, ...], one: Strings, two: Strings) -> bool:
    """Whether two namings are the two strings of the pair, one each."""
    return any(set(a) & set(one) and set(b) & set(two) for a, b in (pair, pair[::-1]))


def _other_of(pair: tuple[Strings, ...], named: Strings) -> Strings:
    """The string of the pair that is not the named one; () when no pair holds."""
    others = [strings for strings in pair if strings != named]
    return others[0] if len(others) == 1 else ()


def _restate(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> None:
    """Takes back a note just corrected when the next words say it over: "sorry, 15. 15 on the B"."""
    last = telling.last()
    if last is None or not last.corrected or len(last.voices) != 1 or last.frets[:1] != tuple(frets[:1]):
        return
    if said.start - last.end <= RESTATED and not _says_again(telling, said):
        telling.steps.pop()
        telling.restated = last


def _points_back(telling: Telling, said: Instruction, frets: list[Fret]) -> bool:
    """Whether a bare "that 7" or "the 7" only speaks of a note already told."""
    if said.idiom != "bare fret" or len(frets) != 1 or _says_again(telling, said) or telling.correcting:
        return False
    slot = next(s for s in said.slots if s.name == "fret")
    word = telling.items[slot.start].text
    recent = [f for step in telling.steps[-LOOK_BACK:] for f in step.frets]
    if word in ("that", "this") and slot.start == said.start:
        return frets[0] in recent
    verbs = {i.text for i in telling.items[said.start : slot.start]} - {"and", "so", "but", "you", "pick"}
    last = telling.last()
    if word != "the" or verbs or last is None:
        return False
    opens = telling.items[said.start].before >= Break.HARD
    return last.frets == (frets[0],) or (opens and frets[0] in recent[-SPOKEN_OF:])


PLAYED: dict[str, Callable[[Telling, Instruction], None]] = {
    "note": note,
    "pair": pair,
    "shape": shape,
    "dead": dead,
    "hammer-on": legato,
    "pull-off": legato,
    "slide": legato,
    "legato": chain,
    "trill": trill,
    "tap": tap,
    "harmonic": harmonic,
    "shift": shift,
}
