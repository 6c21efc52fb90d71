"""Sentences to instructions: with a small grammar, and with the English one end to end."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from notesgen.rehearsal.wanted import told
from notesgen.speech.reading import ASIDE_COMMA, Reader, reader
from notesgen.speech.surroundings import ODD_NEIGHBOUR
from tests.speech.grammar import small
from tests.speech.talk import cut


@pytest.fixture(scope="module")
def reads(tmp_path_factory: pytest.TempPathFactory) -> Reader:
    return Reader(small(tmp_path_factory.mktemp("grammar")))


SMALL = [
    ("7", ["note fret=7"]),
    ("7 9 10", ["note fret=7 9 10"]),
    ("7 on the G", ["note fret=7 string=G"]),
    ("on the third string 7", ["note string=#3 fret=7"]),
    ("7 on the G. 9", ["note fret=7 string=G", "note fret=9"]),
    ("bend 7 a full step", ["bend fret=7 amount=2"]),
    ("bend 7 then shake it", ["bend fret=7", "mark mark=vibrato"]),
    ("band 7", ["bend fret=7"]),
    ("7 years", ["aside years=7"]),
    ("hello there", []),
    ("", []),
]


@pytest.mark.parametrize(("text", "expected"), SMALL)
def test_small_grammar(reads: Reader, text: str, expected: list[str]) -> None:
    assert [told(said) for said in reads.read(cut(text))] == expected


def test_an_instruction_knows_where_it_comes_from(reads: Reader) -> None:
    (said,) = reads.read(cut("then ate on the gee"))
    assert (said.start, said.end) == (1, 5)
    assert (said.idiom, said.wording) == ("a fret on a string", "{fret+:fret} on {string}")
    assert said.misheard == ('"ate" for "8"', '"gee" for "G"')
    assert said.doubt == pytest.approx(0.3 + 0.4)


def test_odd_company_is_doubt(reads: Reader) -> None:
    (said,) = reads.read(cut("since 7 then"))
    assert said.doubt == ODD_NEIGHBOUR


def test_a_comma_is_a_little_doubt(reads: Reader) -> None:
    (said,) = reads.read(cut("7, 9"))
    assert 0 < said.doubt < 0.1


ENGLISH = [
    ("So we start with 7 on the G string.", ["note fret=7 string=G"]),
    ("Hammer on from 5 to 7 on the G string.", ["hammer-on from=5 to=7 string=G"]),
    ("8, no, 10 on the B.", ["note fret=8", "correction", "note fret=10 string=B"]),
    ("7 on the G three times.", ["note fret=7 string=G", "count count=3"]),
    ("Do that three times.", ["repeat count=3"]),
    ("Sorry, the D string.", ["correction", "scope string=D"]),
    ("It's in B minor, and the capo's on the second fret.", ["key tonic=B mode=minor", "capo capo=2"]),
    ("Take it at 92 beats per minute.", ["tempo tempo=92"]),
    ("We're in drop D.", ["tuning tuning=drop D"]),
    ("Same on the G.", ["same string=G"]),
    ("That's an F sharp.", ["letter letter=F#"]),
]


@pytest.mark.parametrize(("text", "expected"), ENGLISH)
def test_english(text: str, expected: list[str]) -> None:
    read = reader()
    assert [told(said) for said in read.read(cut(text, read.grammar.words))] == expected


IN_ROWS = [
    ("one, flat three, five, flat seven", 1),
    ("one, two, three, four", 1),
    ("five, four, flat three, two, one", 1),
    ("the flat three, five on the A", 2),
]


@pytest.mark.parametrize(("text", "pieces"), IN_ROWS)
def test_commas_in_a_row_of_numbers_tear_nothing(text: str, pieces: int) -> None:
    read = reader()
    row, *others = read.read(cut(text, read.grammar.words))
    assert (row.kind, len(others)) == ("aside", pieces - 1)
    assert row.doubt < ASIDE_COMMA


def test_a_reader_is_made_once() -> None:
    assert reader("en") is reader("en")


WORDS = """
7 nine on the G string then hammer pull off to and bend a whole step no sorry twice . , so
"""


@settings(deadline=None)
@given(st.lists(st.sampled_from(WORDS.split()), max_size=20).map(" ".join))
def test_instructions_lie_side_by_side(text: str) -> None:
    items = cut(text)
    at = 0
    for said in reader().read(items):
        assert at <= said.start < said.end <= len(items)
        assert all(said.start <= slot.start <= slot.end <= said.end for slot in said.slots)
        at = said.end
