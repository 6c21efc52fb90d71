"""How the player sounds: rendered in a real browser, its pitches measured.

Pitches are those of music21, which follows ISO 16 (A4 = 440 Hz) in equal temperament.
"""

from __future__ import annotations

import pytest
from music21.pitch import Pitch
from playwright.sync_api import Page

from notesgen.lesson.model import Event, Note
from tests.browser.sounding_page import STANDARD, cents, event, heard, lesson, loud, show

NEAR = 3.0
"""Cents. Ears tell about 5 apart at best (common practice, no source)."""


def hertz(string: int, fret: float) -> float:
    sounding = Pitch()
    sounding.ps = Pitch(STANDARD[string - 1]).ps + fret
    return float(sounding.frequency)


def test_every_note_is_in_tune(page: Page) -> None:
    places = [(string, fret) for string in range(6, 0, -1) for fret in (0, 1, 7, 12, 19)]
    show(page, lesson(*(event(n, string, fret) for n, (string, fret) in enumerate(places))))
    samples = heard(page)
    off = {place: cents(samples, n / 2 + 0.05, n / 2 + 0.45, hertz(*place)) for n, place in enumerate(places)}
    assert {place: far for place, far in off.items() if abs(far) > NEAR} == {}


@pytest.mark.parametrize(
    ("events", "sounding"),
    # Where the pitch is, in frets above the open G string, during the last tenth of each event.
    [
        ([event(1, 3, 7, how="bend", bend=2.0)], [9]),
        ([event(1, 3, 7, how="bend", bend=0.5)], [7.5]),
        ([event(1, 3, 7, how="bend", bend=2.0), event(2, 3, 7, how="release")], [9, 7]),
        ([event(1, 3, 7, how="pre-bend", bend=2.0), event(2, 3, 7, how="release")], [9, 7]),
        ([event(1, 3, 5), event(2, 3, 7, how="hammer-on"), event(3, 3, 5, how="pull-off")], [5, 7, 5]),
        ([event(1, 3, 0), event(2, 3, 12, how="slide")], [None, 12]),
        ([event(1, 3, 9, marks=("slide-in",))], [9]),
        ([event(1, 3, 12, how="harmonic")], [12]),
        ([event(1, 3, 7, how="harmonic")], [19]),
        ([event(1, 3, 5, how="harmonic")], [24]),
    ],
)
def test_the_pitch_moves_as_the_hand_does(page: Page, events: list[Event], sounding: list[float]) -> None:
    show(page, lesson(*events))
    samples = heard(page)
    for n, fret in enumerate(sounding):
        end = n / 2 + 0.5
        if fret is not None:
            assert abs(cents(samples, end - 0.1, end - 0.005, hertz(3, fret))) < NEAR


def test_a_bend_begins_unbent_and_moves_no_other_string(page: Page) -> None:
    show(page, lesson(event(1, 3, 7, how="bend", bend=2.0), tempo=30.0))
    assert abs(cents(heard(page), 0.0, 0.06, hertz(3, 7.15))) < 50
    both = (Note(2, 10, how="pick"), Note(3, 12, how="bend", bend=3.0))
    show(page, lesson(event(1, 2, 10, notes=both)))
    samples = heard(page)
    show(page, lesson(event(1, 3, 12, how="bend", bend=3.0)))
    rest = samples - heard(page)
    assert abs(cents(rest, 0.4, 0.9, hertz(2, 10))) < NEAR


def test_slower_is_not_lower(page: Page) -> None:
    show(page, lesson(event(1, 3, 5), event(2, 2, 5)))
    samples = heard(page, speed=40)
    assert abs(cents(samples, 0.1, 1.2, hertz(3, 5))) < NEAR
    assert abs(cents(samples, 1.3, 2.4, hertz(2, 5))) < NEAR


def test_muted_and_dead_strings_die_away_sooner(page: Page) -> None:
    def faded(*told: Event) -> float:
        show(page, lesson(*told))
        samples = heard(page)
        return loud(samples, 0.3, 0.4) / loud(samples, 0.0, 0.05)

    ringing = faded(event(1, 6, 3))
    muted = faded(event(1, 6, 3, marks=("palm-mute",)))
    dead = faded(event(1, 6, "x"))
    assert ringing > 3 * muted > 9 * dead


def test_an_accent_is_louder_and_a_slur_is_softer(page: Page) -> None:
    show(page, lesson(event(1, 3, 5), event(2, 2, 5, marks=("accent",)), event(3, 4, 5)))
    samples = heard(page)
    assert loud(samples, 0.5, 0.6) > loud(samples, 0.0, 0.1)
    show(page, lesson(event(1, 3, 5), event(2, 3, 7, how="hammer-on")))
    samples = heard(page)
    assert loud(samples, 0.45, 0.5) < loud(samples, 0.5, 0.55) < loud(samples, 0.0, 0.05)


def test_clicks_fall_on_the_beat(page: Page) -> None:
    show(page, lesson(*(event(n, 3, "x") for n in range(8))))
    knocks = heard(page, click=True) - heard(page)
    for beat in range(4):
        assert loud(knocks, beat, beat + 0.03) > 0.01
        assert loud(knocks, beat + 0.2, beat + 0.9) < 0.001


def test_the_same_phrase_sounds_the_same(page: Page) -> None:
    show(page, lesson(event(1, 3, 7, how="bend", bend=2.0), event(2, 2, 5)))
    assert (heard(page) == heard(page)).all()
