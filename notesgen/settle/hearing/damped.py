"""Damped strokes, which have no pitch: counted at once, or announced and then counted."""

from __future__ import annotations

from itertools import takewhile

from msgspec.structs import replace

from notesgen.settle.hearing.telling import Telling
from notesgen.settle.step import Strings, Voice
from notesgen.settle.strings import SAME, SAME_PAIR
from notesgen.settle.told import Naming, read_count
from notesgen.speech.instructions import Instruction

TO_COME = "to come"  # the slot "side" of damping that is struck only after
RAKE = "rake"  # ... of damped strings struck one after the other
AGAIN = "again"  # ... of a dead stroke told before: "the slap again"
MUTED = "muted"  # ... of the note just told, muted and struck again
TOO = "too"  # ... of the note just told, muted as the one before was: "mute that one too"
ALONE = "alone"  # ... of a string with nothing but that it is muted: "the D string, muted"
QUIET = "quiet"  # the slot of words that tell which strings are muted
SUNG = "sung"  # ... of strokes told by their sound: "boom boom", "chk chk"
REACH = 12  # steps within which "the slap again" finds its slap
AT_ONCE = 6  # items between the strings that are muted and the strokes on them
NEAR = 2  # sentences within which the strokes come, or the chord lies that is damped


def dead(telling: Telling, said: Instruction) -> None:
    """Damped strokes: a count on one string or on several at once; a rake, one after the other."""
    strings = _of_the_chord(telling, said) or telling.strings_of(said)
    if said.text("side") == TO_COME:
        if _explains(telling, said):
            return
        telling.damped_at = said.start
        if strings:
            sentence = telling.sentences.of(said.start)
            telling.namings.append(Naming(said.start, said.end, strings, sentence))
        return
    if said.text("side") == ALONE:
        _strike_muted(telling, said, strings)
        return
    if said.text("side") == RAKE:
        raked = strings if len(said.all("string")) > 1 else ()  # named one by one, in their order
        for candidates in raked or sorted(strings or _kept_quiet(telling, said), reverse=True):
            telling.add(said, [Voice("x", candidates)])
        return
    if said.text("side") in (AGAIN, MUTED, TOO):
        _strike_once_more(telling, said, strings)
        return
    if not strings and _sounds_like(telling, said):
        return
    times, unsure = read_count(said.text("count"))
    if strings:
        _take_back_sung(telling, said, times)
    if not strings and _counts_told(telling, said, times, unsure):
        return
    _strike(
        telling,
        said,
        strings or _damped_by_name(telling) or _kept_quiet(telling, said) or _chord_in_force(telling, said),
        times,
        unsure,
    )


def _strike_muted(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> None:
    """Strikes the string that is muted, unless its fret follows, or it is only kept quiet among others."""
    last, coming, sentence = telling.last(), telling.coming, telling.sentences.of(said.start)
    onward = {*telling.words.moving_on}
    if coming is not None and telling.sentences.of(coming.start) == sentence and not coming.all("string"):
        leads = bool(coming.all("fret") or coming.all("from"))
        if leads and not telling.said_between(said.end, coming.end) & onward:
            telling.name_alone(said, strings)
            telling.next_marks = ("palm-mute",)
            return
    opens = last is None or last.sentence < sentence or last.frets == ("x",)
    if opens or telling.said_between(last.end if last else 0, said.end) & onward:
        _strike(telling, said, strings, 1, "")


def _strike_once_more(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> None:
    """A dead stroke told before, once more, or the last note struck while it is muted.

    "Mute that one too" and "the slap again" need a dead stroke before them: else they speak of other things.
    A "chick" may also be the chord that was called so.
    """
    recent, side = telling.steps[-REACH:], said.text("side")
    before = next((step for step in reversed(recent) if "x" in step.frets), None)
    chord = next((step for step in reversed(recent) if len(step.voices) > 1), None)
    if before is None and chord is not None and side == AGAIN and not strings:
        telling.add(said, chord.voices, origin="derived")
        return
    last = telling.last()
    if last is None or (before is None and side != MUTED):
        return
    model = before if before is not None and side == AGAIN else last
    voices = [Voice("x", one) for one in strings] or [Voice("x", voice.named) for voice in model.voices]
    telling.add(said, voices)
    if model is last and not strings:
        telling.change_last(by=SAME)


def _of_the_chord(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The strings of the chord or pair just played, where they are called "the same three strings"."""
    last = telling.last()
    if said.text("string") != SAME_PAIR or last is None or len(last.voices) == 1:
        return ()
    return tuple(voice.named for voice in last.voices)


def _take_back_sung(telling: Telling, said: Instruction, times: int) -> None:
    """Takes back strokes that were only sung, as they are counted right behind: "chk chk, two dead hits"."""
    before, last = telling.preceding, telling.last()
    if before is None or last is None or before.kind != "dead" or last.start != before.start:
        return
    told = sum(1 for step in telling.steps if step.start == before.start)
    sung = before.text("side") == SUNG and not before.all("string") and told == times
    if sung and said.start - before.end <= 1:
        del telling.steps[-times:]


def _kept_quiet(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The strings that were muted right before: "mute the D and the G, and sweep across those"."""
    quiet = telling.preceding
    if quiet is None or not quiet.all(QUIET) or said.start - quiet.end > AT_ONCE:
        return ()
    apart = telling.sentences.of(said.start) != telling.sentences.of(quiet.start)
    return () if apart and said.text("side") != RAKE else telling.strings_of(quiet, QUIET)


def _explains(telling: Telling, said: Instruction) -> bool:
    """Whether it only tells how strokes are damped that were told just before, in the same sentence."""
    last = telling.last()
    return last is not None and last.frets == ("x",) and telling.near(said, 0)


def _sounds_like(telling: Telling, said: Instruction) -> bool:
    """Whether "chk" only tells how the damped strokes sound that were just told: "hit it again, chk"."""
    last = telling.last()
    if last is None or last.frets[0] != "x" or not telling.near(said, 1):
        return False
    if telling.said_between(last.end, said.end) & set(telling.words.moving_on):
        return False
    if said.text("side") == SUNG:
        return True
    sound, told = telling.items[said.end - 1].text, telling.said_between(last.start, last.end)
    return not said.text("count") and said.start - last.end <= 1 and sound not in told


def _counts_told(telling: Telling, said: Instruction, times: int, unsure: str) -> bool:
    """Whether the strokes just sung are counted over, or left open: "bk, bk. One cluck or two"."""
    last = telling.last()
    if last is None or last.frets[0] != "x" or not said.text("count") or not telling.near(said, 1):
        return False
    if telling.said_between(last.end, said.end) & {*telling.words.moving_on, *telling.words.again}:
        return False
    told = sum(1 for _ in takewhile(lambda step: step.frets == last.frets, reversed(telling.steps)))
    if str(told) not in (unsure.split(" or ") if unsure else [str(times)]):
        return False
    if unsure:
        telling.change_last(unsure_count=unsure)
    return True


def strikes_damped(telling: Telling, said: Instruction, times: int, unsure: str) -> bool:
    """Whether "hit it twice" strikes strings that were just damped, not the last note again."""
    last = telling.last()
    quiet = _kept_quiet(telling, said)
    if quiet and telling.said_between(said.start, said.end) & {*telling.words.struck}:
        _strike(telling, said, quiet, times, unsure)
        return True
    if not _are_damped(telling, said):
        return False
    strings = _damped_by_name(telling)
    if not strings and not telling.named_since() and last is not None:
        strings = tuple(voice.named for voice in last.voices)
    _strike(telling, said, strings, times, unsure)
    return True


def strikes_string(telling: Telling, said: Instruction, strings: tuple[Strings, ...]) -> bool:
    """Whether "you hit the low E" strikes a string that was just damped."""
    if len(strings) != 1 or not _are_damped(telling, said):
        return False
    _strike(telling, said, strings, 1, "")
    return True


def _are_damped(telling: Telling, said: Instruction) -> bool:
    """Whether strings were just damped, and not struck since."""
    last = telling.last()
    if telling.damped_at < 0 or (last and last.start > telling.damped_at):
        return False
    return telling.sentences.of(said.start) - telling.sentences.of(telling.damped_at) <= NEAR


def _damped_by_name(telling: Telling) -> tuple[Strings, ...]:
    """The strings that were just damped by their names, where those are the last ones named."""
    naming = telling.namings[-1] if telling.namings else None
    return naming.strings if naming and naming.at == telling.damped_at >= 0 else ()


def _strike(
    telling: Telling, said: Instruction, strings: tuple[Strings, ...], times: int, unsure: str
) -> None:
    voices = [Voice("x", one) for one in strings] or [Voice("x")]
    for at in range(times):
        telling.add(said, voices, unsure_count=unsure)
        telling.steps[-1] = replace(telling.steps[-1], again=at > 0)


def _chord_in_force(telling: Telling, said: Instruction) -> tuple[Strings, ...]:
    """The strings of the chord or pair just played, unless a string was named since."""
    last = telling.last()
    if last is None or len(last.voices) < 2 or not telling.near(said, NEAR):
        return ()
    if last.section != len(telling.sections) or telling.named_since():
        return ()
    return tuple(voice.named for voice in last.voices)
