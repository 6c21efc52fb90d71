"""Samples are sentences that the wording itself reads."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from notesgen.errors import InputError
from notesgen.grammar.load import BASE_SYMBOLS, load_grammar
from notesgen.rehearsal.run import hear
from notesgen.rehearsal.samples import BASE, named, samples
from notesgen.speech.items import Break, Item
from notesgen.speech.matching import matches
from notesgen.speech.reading import reader

GRAMMAR = load_grammar()
IDIOMS = {idiom.name: idiom for idiom in GRAMMAR.idioms}


def test_every_symbol_that_no_phrase_makes_has_samples() -> None:
    assert set(BASE) == BASE_SYMBOLS


def in_one_breath(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """The items as one sentence: a long sample has words in it that open sentences."""
    return tuple(replace(item, before=min(item.before, Break.SOFT)) for item in items)


@pytest.mark.parametrize("name", IDIOMS)
def test_a_wording_reads_what_it_is_said_to_say(name: str) -> None:
    for template in IDIOMS[name].say:
        for text in samples(GRAMMAR, [template], 1):
            items = in_one_breath(hear(f"{text}.").items)
            found = matches(reader("en").chart(items), template.node, 0)
            assert any(match.end == len(items) for match in found), f"{template.text}: {text}"


def test_the_same_samples_each_time() -> None:
    say = IDIOMS["trill"].say
    assert samples(GRAMMAR, say, 5) == samples(GRAMMAR, say, 5)
    assert len(set(samples(GRAMMAR, say, 5))) == 5


def test_a_part_of_a_name_finds_idioms_and_a_whole_name_only_itself() -> None:
    assert len(named(GRAMMAR, "hammer-on")) > 1
    assert [title for title, _ in named(GRAMMAR, "trill")] == ["trill (hammer-ons.toml)"]
    assert named(GRAMMAR, "<on>")[0][0] == "<on>"


def test_a_name_that_is_not_there() -> None:
    with pytest.raises(InputError, match=r"near it: .*hammer-on"):
        named(GRAMMAR, "hammer-in to a fret")
