"""How long tones sound, and how they begin."""

from __future__ import annotations

from hypothesis import given
from msgspec.structs import replace

from notesgen.lesson.model import Event, Facts, Lesson, Mark, Note, Source
from notesgen.pack.layout.sounding.phrases import sounds
from notesgen.pack.layout.sounding.tone import Tone
from tests.pack.layout.test_staff import STANDARD, event
from tests.pack.lessons import lessons


def made(*events: Event) -> list[Tone]:
    facts = Facts("A lesson", "guitar", STANDARD)
    return list(sounds(Lesson(source=Source("a.vtt"), facts=facts, events=events))[0].tones)


def lengths(*events: Event) -> list[float]:
    return [tone.length for tone in made(*events)]


def marked(number: int, string: int, mark: Mark) -> Event:
    return event(number, (string, 5), marks=(mark,))


def test_a_note_sounds_until_the_next_and_the_last_one_a_beat() -> None:
    assert lengths(event(1, (3, 5)), event(2, (2, 5)), event(3, (2, 6))) == [0.5, 0.5, 1.0]


def test_marks_change_how_long_a_note_sounds() -> None:
    assert lengths(marked(1, 3, "let-ring"), event(2, (2, 5)), event(3, (3, 5)))[0] == 1.0
    assert lengths(marked(1, 3, "let-ring"), event(2, (2, 5)))[0] == 4.0
    assert lengths(marked(1, 3, "staccato"), event(2, (2, 5)))[0] == 0.25
    assert lengths(event(1, (3, "x")), event(2, (2, 5)))[0] == 0.25


def test_a_bend_is_held_for_its_release_while_another_string_is_played() -> None:
    bent, _, released = made(
        event(1, (3, 7), how="bend", bend=2.0), event(2, (2, 8)), event(3, (3, 7), how="release")
    )
    assert bent.length == 1.0
    assert released.begins == "held"
    assert (bent.last_offset, released.curve[0], released.last_offset) == (2.0, (0.0, 2.0), 0.0)


def test_a_release_to_another_fret_comes_down_to_it() -> None:
    _, released = made(event(1, (3, 7), how="bend", bend=2.0), event(2, (3, 8), how="release"))
    assert (released.begins, released.curve[0], released.last_offset) == ("slurred", (0.0, 1.0), 0.0)


def test_what_has_nothing_to_go_on_from_begins_by_itself() -> None:
    assert made(event(1, (3, 7), how="hammer-on"))[0].begins == "tapped"
    assert made(event(1, (3, 7), how="pull-off"))[0].begins == "plucked"
    assert made(event(1, (3, 7), how="slide"))[0].curve == ((0.0, -2.0), (0.4, 0.0))
    assert made(event(1, (3, "x")), event(2, (3, 7), how="hammer-on"))[1].begins == "tapped"
    late = [event(n, (2, 5)) for n in range(2, 10)]
    assert made(event(1, (3, 5)), *late, event(10, (3, 7), how="hammer-on"))[-1].begins == "tapped"


def test_how_notes_sound() -> None:
    muted, dead, harmonic = made(
        marked(1, 6, "palm-mute"), event(2, (3, "x")), event(3, (3, 12), how="harmonic")
    )
    assert [tone.voice for tone in (muted, dead, harmonic)] == ["muted", "dead", "harmonic"]
    assert made(marked(1, 3, "accent"))[0].loud > made(event(1, (3, 5)))[0].loud


def test_a_string_named_twice_in_one_event_sounds_once() -> None:
    assert len(made(Event("e1", 1.0, 2.0, "", (Note(3, 5), Note(3, 7))))) == 1


@given(lessons())
def test_a_string_sounds_one_tone_at_a_time_and_curves_run_forward(lesson: Lesson) -> None:
    for sound in sounds(lesson):
        ends: dict[int, float] = {}
        for tone in sound.tones:
            assert tone.length > 0
            assert tone.beat >= ends.get(tone.string, 0.0) - 1e-9
            ends[tone.string] = tone.end
            times = [beat for beat, _ in tone.curve]
            assert times == sorted(times)
            assert not times or (times[0] >= 0 and times[-1] <= tone.length + 1e-3)
            if tone.joined:
                assert tone.voice != "dead"
        assert all(tone.beat < sound.beats for tone in sound.tones if not tone.joined)


def test_lessons_without_sound_are_silent() -> None:
    nowhere = replace(event(1, (1, 5)), notes=(Note(12, 5), Note(1, 400)))
    facts = Facts("A lesson", "guitar", STANDARD)
    assert sounds(Lesson(source=Source("a.vtt"), facts=facts, events=(nowhere,))) == []
    assert sounds(Lesson(source=Source("a.vtt"), facts=facts)) == []
