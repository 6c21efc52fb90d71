"""lesson.mid as an independent reader has it: music21's own parser of MIDI files (raw events)."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from msgspec import Struct
from music21.midi import ChannelVoiceMessages, MetaEvents, MidiFile
from music21.pitch import Pitch

NOTES = ("NOTE_ON", "NOTE_OFF", "PITCH_BEND")
SENSITIVITY = (0, 0)
"""RPN 0: pitch bend sensitivity (MIDI 1.0 Detailed Specification, registered parameter numbers)."""


class Heard(Struct, frozen=True):
    """One event: its track and tick, its channel from 1 as people count them (0 without one), what it is,
    and its data. A wheel's data is one number of 14 bits, 8192 in the middle."""

    track: int
    tick: int
    channel: int
    kind: str
    data: tuple[int, ...] | str


class Turn(Struct, frozen=True):
    """A note from its beginning to its end, and where the wheel stood before it ended: (tick, semitones)."""

    note: int
    start: int
    end: int
    wheel: tuple[tuple[int, float], ...]


def read(data: bytes) -> list[Heard]:
    """All events, track by track."""
    file = MidiFile()
    file.readstr(data)
    return [heard for number, track in enumerate(file.tracks) for heard in _track(number, track)]


def turns(heard: list[Heard], channel: int) -> list[Turn]:
    """The notes of a channel, in the order in which they begin."""
    mine = [one for one in heard if one.channel == channel]
    reach = _reach(mine)
    sounding: dict[int, tuple[int, list[tuple[int, float]]]] = {}
    done: list[Turn] = []
    at = 0.0
    for one in mine:
        if one.kind == "PITCH_BEND":
            at = round((int(one.data[0]) - 8192) / 8192 * reach, 2)
            for _, wheel in sounding.values():
                wheel.append((one.tick, at))
        elif one.kind == "NOTE_ON":
            assert one.data[0] not in sounding, "a note begins while it sounds"
            sounding[int(one.data[0])] = (one.tick, [(one.tick, at)])
        elif one.kind == "NOTE_OFF":
            start, wheel = sounding.pop(int(one.data[0]))
            heard = tuple(move for move in wheel if move[0] < one.tick)
            done.append(Turn(int(one.data[0]), start, one.tick, heard))
    assert not sounding, "a note never ends"
    return sorted(done, key=lambda turn: turn.start)


def _reach(mine: list[Heard]) -> int:
    """Semitones that the wheel of a channel reaches, as registered parameter 0 has it; 2 if it is not set."""
    chosen = [127, 127]
    reach = 2
    for one in mine:
        if one.kind == "CONTROLLER_CHANGE":
            control, value = int(one.data[0]), int(one.data[1])
            if control in (101, 100):
                chosen[101 - control] = value
            elif control == 6 and tuple(chosen) == SENSITIVITY:
                reach = value
    return reach


def _track(number: int, track: Any) -> Iterator[Heard]:
    tick = 0
    for event in track.events:
        if event.isDeltaTime():
            tick += event.time
            continue
        yield Heard(number, tick, event.channel or 0, event.type.name, _data(event))


def _data(event: Any) -> tuple[int, ...] | str:
    if isinstance(event.type, MetaEvents):
        texts = ("TEXT_EVENT", "SEQUENCE_TRACK_NAME", "MARKER")
        return event.data.decode() if event.type.name in texts else tuple(event.data)
    if event.type == ChannelVoiceMessages.PITCH_BEND:
        return (event.parameter1 + (event.parameter2 << 7),)
    return tuple(value for value in (event.parameter1, event.parameter2) if value is not None)


def readable(heard: list[Heard]) -> str:
    """All of it as text, for people to compare: a line an event, a line a note, wheels by their corners."""
    lines = []
    for track in sorted({one.track for one in heard}):
        mine = [one for one in heard if one.track == track]
        channel = next((one.channel for one in mine if one.kind == "NOTE_ON"), 0)
        lines.append(f"track {track}" + (f", channel {channel}, wheel {_reach(mine)}" if channel else ""))
        lines += [f"  {one.tick:6} {one.kind} {_text(one.data)}" for one in mine if one.kind not in NOTES]
        lines += map(_line, turns(mine, channel) if channel else ())
    return "\n".join(lines) + "\n"


def corners(wheel: tuple[tuple[int, float], ...]) -> list[tuple[int, float]]:
    """Where the wheel begins, turns and ends, without the steps between."""
    moves = [0.0, *(there[1] - here[1] for here, there in pairwise(wheel)), 0.0]
    turning = [move for n, move in enumerate(wheel) if moves[n] * moves[n + 1] <= 0]
    return [move for n, move in enumerate(turning) if n == 0 or move[1] != turning[n - 1][1]]


def _line(turn: Turn) -> str:
    moves = corners(turn.wheel)
    still = len(moves) == 1 and moves[0][1] == 0
    told = "" if still else " ".join(f"{semitones:+g}@{tick}" for tick, semitones in moves)
    return f"  {turn.start:6} to {turn.end:6} {Pitch(turn.note).nameWithOctave:4} {told}".rstrip()


def _text(data: tuple[int, ...] | str) -> str:
    return data if isinstance(data, str) else " ".join(map(str, data))
