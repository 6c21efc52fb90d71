"""Shapes told by one of their frets: power chords by the root, octaves by the lower note, moved shapes."""

from __future__ import annotations

from itertools import pairwise

from msgspec.structs import replace

from notesgen.lesson.model import Fret
from notesgen.settle.hearing import scopes
from notesgen.settle.hearing.telling import LOOK_BACK, Telling
from notesgen.settle.step import Abreast, Rooted, Step, Strings, Voice
from notesgen.speech.instructions import Instruction

Rises = tuple[tuple[int, int | None], ...]

FIFTH: Rises = ((0, 0), (1, 2))
POWER: Rises = ((0, 0), (1, 2), (2, 2))
OCTAVE: Rises = ((0, 0), (2, None))
ROOT = "root"  # the slot "side" of a fret that is called the root, or "the one", of a chord
SPELLED = 24  # items around "only the root" within which is told of how many notes the chord is
JUST_BEHIND = 3  # items behind a fret within which "with that shape" is of it
BEHIND = 6  # items behind a chord's fret within which it still is
MOVED_WITHIN = 30  # items behind a stroke within which the same shape is told elsewhere
TOLD_WITHIN = 14  # items behind "that shape" within which its place is told
ABSORBED = 6  # items behind a shape within which its other notes are only spelled out
CHROMATIC = 12


def by_root(telling: Telling, said: Instruction) -> None:
    """From here on only one fret of each stroke is told, that of its lowest note."""
    strings, row = telling.strings_of(said), telling.abreast
    here = len(telling.sections)
    if not _tells_of_shapes(telling, said):
        scopes.scope(telling, said)
        return
    if _is_convention(telling, said):
        telling.fifth = FIFTH if _is_of_two(telling, said) else telling.fifth or POWER
        return
    pair = sorted({one[0] for one in row.strings if len(one) == 1}) if row.section == here else []
    home = strings[0][-1:] if strings else (pair[-1],) if pair else _root_of(telling)
    if telling.rooted.section == here and not pair:
        now = telling.rooted
        rises: Rises = FIFTH if now.rises == POWER and _is_of_two(telling, said) else now.rises
        telling.rooted = replace(now, rises=rises, home=strings[0] if strings else now.home)
        return
    if telling.octaves_in == here:
        over = pair[-1] - pair[0] if len(pair) == len(OCTAVE) else OCTAVE[-1][0]
        rises = ((0, 0), (over, None))
    else:
        rises = FIFTH if _is_of_two(telling, said) or telling.fifth == FIFTH else POWER
        telling.fifth = rises
    telling.rooted = Rooted(rises, home, here, said.start)
    telling.abreast, telling.shape = Abreast(), ()


def _tells_of_shapes(telling: Telling, said: Instruction) -> bool:
    """Whether chords or octaves were spoken of, or struck, so far: else a root is one note."""
    if any(len(step.voices) > 1 for step in telling.steps):
        return True
    words = telling.words
    shapes = {*words.powered, *words.shapes, *words.fifths, *words.chord_words}
    return bool(telling.said_between(0, said.end) & (shapes - {*words.sounding}))


def _is_convention(telling: Telling, said: Instruction) -> bool:
    """Whether it holds where a power chord is called one: "when I say power chord, I only give the root"."""
    before = telling.said_between(telling.sentences.start(telling.sentences.of(said.start)), said.start)
    return bool(before & {*telling.words.powered}) and bool(before & {*telling.words.case_by_case})


def power(telling: Telling, said: Instruction, root: int) -> Rises:
    """How a power chord rises above its root; flat where that string is tuned a fifth below the next."""
    if not telling.fifth and _is_of_two(telling, said, BEHIND):
        telling.fifth = FIFTH
    rises = telling.fifth or POWER
    return tuple((over, 0) for over, _ in rises) if telling.drop == root else rises


def _is_of_two(telling: Telling, said: Instruction, behind: int = SPELLED) -> bool:
    """Whether the chord is said to be of two notes: "root and fifth", "two strings", "the other note"."""
    words = telling.words
    around = [item.text for item in telling.items[max(0, said.start - SPELLED) : said.end + behind]]
    chords, one = {*words.chord_words, *words.powered, *words.shapes}, {*words.string[:1]}
    pairs = {
        word
        for word, after, then in zip(around, around[1:], [*around[2:], ""], strict=False)
        if after in words.sounding and (after not in one or then in chords)  # no string called "two string"
    }
    things = {*words.fret, *words.string, *words.chord_words}
    named = {word for word, after in pairwise(around) if after not in things}
    of_two = named & {*words.fifths} or pairs & {*words.two}
    return bool(of_two or said.all("rise"))


def home(telling: Telling, said: Instruction) -> int:
    """The string on which a power chord lies that is told by its fret alone: as others do, or as the last."""
    if telling.rooted.section == len(telling.sections) and telling.rooted.home:
        return telling.rooted.home[-1]
    last = telling.last()
    if last is None or len(last.voices) < len(FIFTH) or not telling.near(said, 1) or "x" in last.frets:
        return telling.names.count
    lowest = max(last.voices, key=lambda voice: voice.named)
    return lowest.named[-1] if lowest.named else telling.names.count


def _root_of(telling: Telling) -> Strings:
    """The string of the last note, or of the string named since: where a root that is told alone lies."""
    naming, last = telling.named_since(), telling.last()
    if naming is not None and len(naming.strings) == 1:
        octave = telling.octaves_in == len(telling.sections)
        return (_lower_of_two(telling) if octave else ()) or naming.strings[0]
    return last.voices[0].named if last is not None else ()


def _lower_of_two(telling: Telling) -> Strings:
    """The thicker of the two strings that were named for the fingers of an octave shape; else ()."""
    alone = [one.strings[0] for one in telling.namings[-2:] if len(one.strings) == 1]
    two = sorted(one[0] for one in alone if len(one) == 1)
    return (two[-1],) if len(two) == 2 and 0 < two[-1] - two[0] <= OCTAVE[-1][0] else ()


def spread(telling: Telling, said: Instruction, told: int) -> None:
    """Gives the lone notes told behind step `told` the rest of the shape that is told by its root."""
    mended = 0 < told == len(telling.steps) and bool(telling.steps[-1].corrected)
    for place in range(told - mended, len(telling.steps)):
        step = telling.steps[place]
        called = _called_root(telling, said, step)
        rises, home = called or _rises(telling, place)  # none on the thin strings: there a melody has begun
        if not rises or len(step.voices) > 1 or not _is_root(telling, step):
            continue
        root = step.voices[0].named or _named_since(telling) or home
        voices = _voices(telling, root, step.frets[0], rises)
        if rises in (FIFTH, POWER) and root and root[0] <= telling.names.count // 2:
            telling.rooted = Rooted()
        elif voices:
            telling.steps[place] = replace(step, voices=voices)
            telling.root_at = place
            if telling.rooted.section == len(telling.sections) and step.voices[0].named:
                telling.rooted = replace(telling.rooted, home=root)


def _called_root(telling: Telling, said: Instruction, step: Step) -> tuple[Rises, Strings] | None:
    """The power chord of which a note is called the root, "root on 5", and the string where that may lie."""
    if said.text("side") != ROOT and not _is_announced_alone(telling, said):
        return None
    if not _speaks_of_power(telling, said):
        return _one_finger(telling, said, step)
    chord = next((one for one in reversed(telling.steps[-LOOK_BACK:]) if len(one.voices) > 1), None)
    last = max(voice.named for voice in chord.voices) if chord and chord.section == step.section else ()
    home = step.before if len(step.before) == 1 else last[-1:] or (telling.names.count,)
    return power(telling, said, (step.voices[0].named or home)[-1]), home


def _is_announced_alone(telling: Telling, said: Instruction) -> bool:
    """Whether a power chord was announced right before the note, and no other note of it follows: it is
    told by its root, "power chord, 5 on the A".
    """
    before, strings = telling.preceding, telling.strings_of(said)
    if before is None or before.kind != "shape" or before.all("fret") or before.end != said.start:
        return False
    if len(strings) != 1 or not telling.said_between(before.start, before.end) & {*telling.words.powered}:
        return False
    coming = telling.coming
    if coming is None or coming.start - said.end > TOLD_WITHIN:
        return True
    lead = min((slot.start for slot in coming.slots if slot.name in ("fret", "string")), default=coming.start)
    moved = telling.said_between(said.end, lead + 1) & {*telling.words.moving_on}
    return bool(moved) or coming.kind == "shape"


def _one_finger(telling: Telling, said: Instruction, step: Step) -> tuple[Rises, Strings] | None:
    """The chord of one finger, and its lowest string, where "the chord on eight" means that one: the last of
    its kind, or in a drop tuning that of the lowest strings.
    """
    if not telling.said_between(said.start, said.end) & {*telling.words.shapes} or step.voices[0].named:
        return None
    flat = next((one for one in reversed(telling.steps) if _lies_flat(one)), None)
    if flat is not None:
        lowest = max(voice.named[0] for voice in flat.voices)
        return tuple(sorted((lowest - voice.named[0], 0) for voice in flat.voices)), (lowest,)
    return (power(telling, said, telling.drop), (telling.drop,)) if telling.drop else None


def _lies_flat(step: Step) -> bool:
    """Whether one finger holds all of the chord: one fret on strings side by side, or none on any."""
    strings = sorted(voice.named[0] for voice in step.voices if len(voice.named) == 1)
    beside = strings == list(range(strings[0], strings[0] + len(step.voices))) if strings else False
    return len(step.voices) > 1 and beside and len({*step.frets}) == 1 and step.frets[0] != "x"


def _speaks_of_power(telling: Telling, said: Instruction) -> bool:
    """Whether power chords are spoken of in this section."""
    return bool(telling.said_between(telling.sections[-1].end, said.end) & {*telling.words.powered})


def _named_since(telling: Telling) -> Strings:
    """The one string that is in force for the note, where it was named behind the words for the root."""
    before = telling.last(2)
    since = max(telling.rooted.at, before.start if before is not None else -1)
    fresh = (one for naming in telling.namings if naming.at > since for one in naming.strings)
    named = {one[0] for one in fresh if len(one) == 1}
    return (max(named),) if named and max(named) - min(named) <= OCTAVE[-1][0] else ()


def _rises(telling: Telling, place: int) -> tuple[Rises, Strings]:
    """How far the shape in force rises above its root, and the root's string; () where none is in force."""
    if telling.rooted.section == len(telling.sections):
        return telling.rooted.rises, telling.rooted.home
    before, step = telling.steps[place - 1] if place else None, telling.steps[place]
    if before is None or len(before.voices) < len(FIFTH) or "x" in before.frets:
        return (), ()
    if any(len(voice.named) != 1 for voice in before.voices) or step.section != before.section:
        return (), ()
    if step.start - before.end > MOVED_WITHIN or not _is_shape_told(telling, before, step):
        return (), ()
    if telling.said_between(before.end, step.end) & {*telling.words.powered}:
        return telling.fifth or POWER, ()
    lowest = max(before.voices, key=lambda voice: voice.named[0])
    string, fret = lowest.named[0], int(lowest.fret)
    rest = [voice for voice in before.voices if voice != lowest]
    over = tuple((string - voice.named[0], int(voice.fret) - fret) for voice in rest)
    return ((0, 0), *over), lowest.named


def _is_shape_told(telling: Telling, before: Step, step: Step) -> bool:
    """Whether the note tells where "the same shape" goes that was spoken of since: nothing else came then."""
    shapes = {*telling.words.moved_shape}
    if telling.said_between(step.end, step.end + JUST_BEHIND) & shapes:
        return True
    spoken = [at for at in range(before.end, step.end) if telling.items[at].text in shapes]
    if not spoken or step.start - spoken[-1] > TOLD_WITHIN:
        return False
    return not telling.said_between(spoken[-1], step.start + 1) & {*telling.words.moving_on}


def _is_root(telling: Telling, step: Step) -> bool:
    """Whether a lone note may stand for a shape: fretted, struck or slid to, and not said to be alone."""
    if step.frets[0] in (0, "x") or step.how not in ("pick", "slide") or step.stroke or step.marks:
        return False
    return not telling.said_between(step.start - 2, step.end + 1) & {*telling.words.apart}


def _voices(telling: Telling, root: Strings, fret: Fret, rises: Rises) -> tuple[Voice, ...]:
    """The strokes' voices on the strings over the root; () where the shape leaves the strings."""
    if len(root) != 1 or fret == "x":
        return ()
    strings = [root[0] - over for over, _ in rises]
    if min(strings) < 1:
        return ()
    classes = telling.names.classes
    up = [
        (classes[root[0] - 1] - classes[string - 1]) % CHROMATIC if rise is None else rise
        for string, (_, rise) in zip(strings, rises, strict=True)
    ]
    return tuple(Voice(int(fret) + rise, (string,)) for string, rise in zip(strings, up, strict=True))


def spells_out(telling: Telling, said: Instruction, frets: list[Fret], strings: tuple[Strings, ...]) -> bool:
    """Whether the fret is one of those that the shape told just before has anyway: "..., and 7 on the D"."""
    last = telling.last()
    if last is None or telling.root_at != len(telling.steps) - 1 or len(frets) != 1 or len(last.voices) < 2:
        return False
    between = telling.said_between(last.end, said.end)
    summed = not strings and between & {*telling.words.summing_up}
    if said.start - last.end > (SPELLED if summed else ABSORBED) or telling.correcting is not None:
        return False
    if between & {*telling.words.moving_on, *telling.words.again}:
        return False
    fits = [voice for voice in last.voices[not strings :] if voice.fret == frets[0]]
    if strings:
        fits = [voice for voice in fits if set(voice.named) & set(strings[0])]
    elif not between & {*telling.words.joining}:
        return False
    if fits:
        telling.change_last(end=said.end)
    return bool(fits)
