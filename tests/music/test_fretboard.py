from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.music.fretboard import Fretboard
from notesgen.music.pitch import midi
from notesgen.music.tuning import standard

GUITAR = Fretboard(standard("guitar"))
INSTRUMENTS = st.sampled_from(["guitar", "bass", "5-string bass", "7-string guitar", "ukulele"])
BOARDS = st.builds(Fretboard, INSTRUMENTS.map(standard), st.integers(0, 7), st.integers(12, 24))


@pytest.mark.parametrize(
    ("string", "fret", "name"), [(1, 0, "E4"), (6, 0, "E2"), (6, 5, "A2"), (3, 9, "E4"), (1, 24, "E6")]
)
def test_pitch(string: int, fret: int, name: str) -> None:
    assert GUITAR.pitch(string, fret) == midi(name)


def test_places() -> None:
    assert GUITAR.places(midi("E4")) == ((1, 0), (2, 5), (3, 9), (4, 14), (5, 19), (6, 24))
    assert GUITAR.places(midi("C2")) == ()


def test_frets_count_from_the_capo() -> None:
    board = Fretboard(standard("guitar"), capo=2, frets=20)
    assert board.pitch(5, 3) == midi("D3")
    assert board.highest == 18
    assert board.has(1, 18)
    assert not board.has(1, 19)


@pytest.mark.parametrize(("string", "fret"), [(0, 5), (7, 5), (-1, 5), (1, -1), (1, 25)])
def test_off_the_neck(string: int, fret: int) -> None:
    assert not GUITAR.has(string, fret)
    with pytest.raises(ValueError, match="There is no fret"):
        GUITAR.pitch(string, fret)


@pytest.mark.parametrize(
    ("tuning", "capo", "message"),
    [
        ((), 0, "at least one string"),
        (("E4", "H3"), 0, "no pitch"),
        (("E4",), -1, "not on a neck"),
        (("E4",), 25, "not on a neck"),
    ],
)
def test_no_fretboard(tuning: tuple[str, ...], capo: int, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        Fretboard(tuning, capo)


@given(BOARDS, st.data())
def test_a_place_is_among_the_places_of_its_pitch(board: Fretboard, data: st.DataObject) -> None:
    string = data.draw(st.integers(1, board.strings))
    fret = data.draw(st.integers(0, board.highest))
    places = board.places(board.pitch(string, fret))
    assert (string, fret) in places
    assert {board.pitch(*place) for place in places} == {board.pitch(string, fret)}


def test_equal_boards_are_equal() -> None:
    assert Fretboard(standard("guitar")) == GUITAR
    assert hash(Fretboard(standard("guitar"))) == hash(GUITAR)
