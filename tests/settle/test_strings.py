"""What the strings of each instrument answer to."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.music.tuning import parse_tuning, standard
from notesgen.settle.step import Strings
from notesgen.settle.strings import StringNames


def names(tuning: str, instrument: str = "guitar") -> StringNames:
    return StringNames(parse_tuning(tuning, instrument), standard(instrument))


GUITAR = names("standard")
DROP_D = names("drop D")
DADGAD = names("DADGAD")
BASS = names("standard", "bass")
UKULELE = names("standard", "ukulele")
SEVEN = names("standard", "7-string guitar")

CASES = [
    # letters
    (GUITAR, "G", (), ((3,),)),
    (GUITAR, "E", (), ((1, 6),)),
    (GUITAR, "high E", (), ((1,),)),
    (GUITAR, "low E", (), ((6,),)),
    (GUITAR, "low A", (), ((5,),)),
    (GUITAR, "high B", (), ((2,),)),
    (GUITAR, "low B", (), ()),
    (GUITAR, "high A", (), ()),
    (GUITAR, "C", (), ()),
    (GUITAR, "H", (), ()),
    (BASS, "G", (), ((1,),)),
    (BASS, "E", (), ((4,),)),
    (BASS, "low E", (), ((4,),)),
    (BASS, "B", (), ()),
    (DROP_D, "low D", (), ((6,),)),
    (DROP_D, "D", (), ((4, 6),)),
    (DROP_D, "low E", (), ((6,),)),
    (DROP_D, "high E", (), ((1,),)),
    (DADGAD, "D", (), ((1, 4, 6),)),
    (DADGAD, "low D", (), ((6,),)),
    (DADGAD, "high D", (), ((1,),)),
    (DADGAD, "A", (), ((2, 5),)),
    (DADGAD, "B", (), ((2,),)),  # by its usual name, since no string sounds B
    (UKULELE, "G", (), ((4,),)),
    (UKULELE, "A", (), ((1,),)),
    (SEVEN, "B", (), ((2, 7),)),
    (SEVEN, "low B", (), ((7,),)),
    # numbers, from the thin side
    (GUITAR, "#3", (), ((3,),)),
    (GUITAR, "3", (), ((3,),)),
    (GUITAR, "#7", (), ()),
    (GUITAR, "#0", (), ()),
    (BASS, "#4", (), ((4,),)),
    (BASS, "#5", (), ()),
    # from the string before
    (GUITAR, "same", (3,), ((3,),)),
    (GUITAR, "same", (), ()),
    (GUITAR, "thicker", (3,), ((4,),)),
    (GUITAR, "thinner", (3,), ((2,),)),
    (GUITAR, "thicker", (6,), ()),
    (GUITAR, "thinner", (1,), ()),
    (GUITAR, "thicker", (), ()),
    (BASS, "thicker", (4,), ()),
    (GUITAR, "next", (3,), ((4, 2),)),
    (GUITAR, "below", (3,), ((4, 2),)),
    (GUITAR, "above", (3,), ((2, 4),)),
    (GUITAR, "next", (6,), ((5,),)),
    (GUITAR, "next", (1,), ((2,),)),
    (GUITAR, "next", (), ()),
    # several
    (GUITAR, "G+B", (), ((3,), (2,))),
    (GUITAR, "G + high E", (), ((3,), (1,))),
    (GUITAR, "#3+#2", (), ((3,), (2,))),
    (GUITAR, "D+G+B", (), ((4,), (3,), (2,))),
    (GUITAR, "G+H", (), ()),
    (GUITAR, "top 2", (), ((2,), (1,))),
    (GUITAR, "top 3", (), ((3,), (2,), (1,))),
    (GUITAR, "bottom 2", (), ((6,), (5,))),
    (GUITAR, "bottom 3", (), ((6,), (5,), (4,))),
    (BASS, "bottom 3", (), ((4,), (3,), (2,))),
    (GUITAR, "same pair", (3, 2), ((3,), (2,))),
    (GUITAR, "same pair", (), ()),
]


@pytest.mark.parametrize(("strings", "code", "last", "found"), CASES)
def test_name(strings: StringNames, code: str, last: Strings, found: tuple[Strings, ...]) -> None:
    assert strings.resolve(code, last) == found


CODES = st.one_of(
    st.sampled_from([code for _, code, _, _ in CASES]),
    st.text(alphabet="ABCDEFG#b+ 0123456789", max_size=8),
)


@given(st.sampled_from([GUITAR, DROP_D, DADGAD, BASS, UKULELE, SEVEN]), CODES, st.lists(st.integers(1, 4)))
def test_only_strings_of_the_instrument_are_found(strings: StringNames, code: str, last: list[int]) -> None:
    for candidates in strings.resolve(code, tuple(last)):
        assert candidates
        assert all(1 <= string <= strings.count for string in candidates)
        assert len(set(candidates)) == len(candidates)
