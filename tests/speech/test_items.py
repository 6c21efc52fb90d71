"""Items: breaks from punctuation and from pauses, fillers dropped, words that open clauses."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.grammar.model import WordLists
from notesgen.speech.items import Break
from tests.speech.talk import cut, line, transcript

LISTS = WordLists(
    fillers=("um", "like", "you know", "you know what i mean", "kind of"),
    clause_openers=("then", "and", "but"),
    sentence_openers=("so", "okay"),
    sentence_joins=("so it sounds", "so that"),
)

PUNCTUATION = [
    ("7, 9. Then 5!", "7 , 9 |  then 5"),
    ("7; 9: 10.", "7 , 9 , 10"),
    ("7? 9... 10.", "7 |  9 , 10"),
    ("7 (or 9) then.", "7 , or 9 , then"),
    ('he said "now" twice.', "he said , now , twice"),
    ("play '7' on the 'G'.", "play 7 on the g"),
    ("hammer-on 5/7.", "hammer on 5 7"),
    ("it's the 7th.", "it 's the 7th"),
    ("don't.", "do n't"),
    ("F# and B♭.", "f # and bb"),
    ("7th, 9s.", "7th , 9s"),
    ("12bpm.", "12 bpm"),
    ("- 7 – 9.", "7 9"),
]


def tidy(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(("text", "expected"), PUNCTUATION)
def test_punctuation_becomes_breaks(text: str, expected: str) -> None:
    assert tidy(line(cut(text))) == tidy(expected)


PAUSES = [
    ("no pause", "7 9 10", "7 9 10"),
    ("a short pause says nothing", "7 (0.3) 9", "7 9"),
    ("a longer one is a comma", "7 (0.5) 9", "7 , 9"),
    ("a long one ends the sentence", "7 (0.7) 9", "7 | 9"),
    ("playing is a gap", "7 (4) 9", "7 || 9"),
    ("with punctuation a long pause is a comma only", "7 (0.7) 9. 10. 12.", "7 , 9 | 10 | 12"),
    ("with punctuation a gap is one all the same", "7 (4) 9. 10.", "7 || 9 | 10"),
    ("the stronger of two breaks counts", "7. (0.5) 9.", "7 | 9"),
]


@pytest.mark.parametrize(("why", "text", "expected"), PAUSES)
def test_pauses_are_breaks_where_nothing_is_punctuated(why: str, text: str, expected: str) -> None:
    assert tidy(line(cut(text))) == expected, why


FILLERS = [
    ("one word", "7 um 9.", "7 9"),
    ("several words", "7 you know 9.", "7 9"),
    ("the longest filler is taken", "7 you know what I mean 9.", "7 9"),
    ("part of a filler stays", "7 you 9.", "7 you 9"),
    ("fillers in a row", "um like 7 kind of um 9.", "7 9"),
    ("the break before a filler moves on", "7. Um 9.", "7 | 9"),
    ("so do the breaks inside", "7 you, know 9.", "7 , 9"),
    ("the end of a sentence is no part of a filler", "7 you. Know 9.", "7 you | know 9"),
    ("nothing but fillers", "um. like.", ""),
]


@pytest.mark.parametrize(("why", "text", "expected"), FILLERS)
def test_fillers_are_dropped(why: str, text: str, expected: str) -> None:
    assert tidy(line(cut(text, LISTS))) == expected, why


OPENERS = [
    ("a clause", "7 then 9 and 10", "7 , then 9 , and 10"),
    ("a sentence", "7 so 9", "7 | so 9"),
    ("two openers are one break", "7 and then 9", "7 , and then 9"),
    ("an opener after an opener of clauses is none", "7 and so 9", "7 , and so 9"),
    ("words that go on", "7 so it sounds good", "7 so it sounds good"),
    ("a pause is stronger than a clause", "7 (0.7) then 9", "7 | then 9"),
    ("punctuated talk needs no openers", "7 then 9. So 10.", "7 then 9 | so 10"),
]


@pytest.mark.parametrize(("why", "text", "expected"), OPENERS)
def test_words_open_clauses_where_nothing_is_punctuated(why: str, text: str, expected: str) -> None:
    assert tidy(line(cut(text, LISTS))) == expected, why


def test_the_talk_begins_with_a_break() -> None:
    assert cut("7 9")[0].before == Break.HARD


def test_items_know_their_word_and_its_time() -> None:
    found = cut("it's on (0.5) the G")
    assert [(item.text, item.word, round(item.start, 3)) for item in found] == [
        ("it", 0, 0.0),
        ("'s", 0, 0.0),
        ("on", 1, 0.2),
        ("the", 2, 0.9),
        ("g", 3, 1.1),
    ]


def test_capitals_are_kept_for_the_first_token_of_a_word() -> None:
    assert [(item.text, item.capital) for item in cut("A string, the E's.")] == [
        ("a", True),
        ("string", False),
        ("the", False),
        ("e", True),
        ("'s", False),
    ]


CHUNKS = "7 9, 10. then and so um like you know G it's (0.4) (0.8) (3) ... hammer-on 7th"
TALKS = st.lists(st.sampled_from(CHUNKS.split()), max_size=25).map(" ".join)


@given(TALKS)
def test_items_stand_in_the_order_of_the_talk(text: str) -> None:
    words = transcript(text).words
    found = cut(text, LISTS)
    assert [item.word for item in found] == sorted(item.word for item in found)
    for item in found:
        assert (item.start, item.end) == (words[item.word].start, words[item.word].end)


@given(TALKS)
def test_what_is_dropped_is_a_filler(text: str) -> None:
    everything = [item.text for item in cut(text)]
    kept = [item.text for item in cut(text, LISTS)]
    fillers = {part for filler in LISTS.fillers for part in filler.split()}
    assert [one for one in everything if one not in fillers] == [one for one in kept if one not in fillers]
