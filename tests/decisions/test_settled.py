"""Decisions on drafts of real captions: what they change, and what they may never break."""

from __future__ import annotations

import json
from functools import partial

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]

from notesgen.decisions.making import Maker
from notesgen.decisions.model import Added, Decision
from notesgen.decisions.settled import Applied, settled
from notesgen.lesson.model import Lesson
from notesgen.lesson.store import encode, schema
from tests.decisions.packs import LESSONS, all_answers, base, drafted

VALIDATOR = Draft202012Validator(schema())


def decisions_on(name: str) -> st.SearchStrategy[list[Decision]]:
    """Any answers to any queries, and edits of any events, in any order."""
    lesson = base(name)
    maker, ids = Maker(lesson), st.sampled_from([event.id for event in lesson.events])
    queries = [flag for flag in lesson.flags if flag.options]
    answered = st.sampled_from(queries).flatmap(
        lambda flag: st.integers(0, len(flag.options) - 1).map(partial(maker.answer, flag))
    )
    more = (Added(notes="2/8"), Added(notes="3/9:bend=2 2/7"))
    by_hand = st.one_of(
        ids.map(lambda name: maker.drop([name])),
        ids.map(maker.join),
        ids.map(maker.split),
        ids.map(lambda name: maker.rename(name, "Another")),
        ids.map(lambda name: maker.insert(name, before=more, after=more)),
        st.lists(ids, min_size=1, max_size=4, unique=True).map(maker.recap),
    )
    return st.lists(answered | by_hand, max_size=8)


@settings(deadline=None, max_examples=60, suppress_health_check=list(HealthCheck))
@given(st.data())
def test_any_decisions_leave_a_sound_lesson(data: st.DataObject) -> None:
    name = data.draw(st.sampled_from(LESSONS))
    made = data.draw(decisions_on(name))
    draft = drafted(name).drafted
    applied = settled(draft, made)
    assert all(one.rename or one.split or one.join for one in applied.unplaced), "only phrases can be gone"
    sound(applied.lesson)
    assert settled(draft, [*made, *made]) == applied, "what was decided twice is decided once"
    VALIDATOR.validate(json.loads(encode(applied.lesson)))


def sound(lesson: Lesson) -> None:
    """Ids are unique and lead somewhere; phrases hold all events in order."""
    ids = [event.id for event in lesson.events]
    flags = [flag.id for flag in lesson.flags]
    assert len(set(ids)) == len(ids) and len(set(flags)) == len(flags)
    assert [name for phrase in lesson.phrases for name in phrase.events] == ids
    assert {e.id: e.phrase for e in lesson.events} == {n: p.id for p in lesson.phrases for n in p.events}
    assert len({phrase.id for phrase in lesson.phrases}) == len(lesson.phrases)
    for repeat in lesson.repeats:
        assert ids.index(repeat.first) <= ids.index(repeat.last)
    assert {number.event for number in lesson.numbers} - {None} <= set(ids)
    assert {name for flag in lesson.flags for name in flag.events} <= set(ids)
    assert {name for event in lesson.events for name in event.flags} <= set(flags)


@pytest.mark.parametrize("name", LESSONS)
def test_a_draft_without_decisions_stays_as_it_is(name: str) -> None:
    assert settled(drafted(name).drafted, ()) == Applied(base(name))


@pytest.mark.parametrize("option", [0, 1, -1])
@pytest.mark.parametrize("name", LESSONS)
def test_every_query_of_a_draft_can_be_answered(name: str, option: int) -> None:
    """Each is answered, and keeps its id; what is still asked was raised by the answers, or made a query."""
    lesson, made = base(name), list(all_answers(base(name), option))
    found = settled(drafted(name).drafted, made).lesson
    asked = [flag.id for flag in lesson.flags]
    assert [flag.id for flag in found.flags][: len(asked)] == asked
    queries = {flag.id for flag in lesson.flags if flag.level == "query"}
    assert all(flag.decided for flag in found.flags if flag.id in queries)


@pytest.mark.parametrize("name", LESSONS)
def test_answers_that_keep_the_draft_keep_its_notes(name: str) -> None:
    found = settled(drafted(name).drafted, list(all_answers(base(name), 0))).lesson
    played = [(event.id, event.notes, event.how, event.bend) for event in base(name).events]
    assert [(event.id, event.notes, event.how, event.bend) for event in found.events] == played
    assert not any(flag.level == "query" and not flag.decided for flag in found.flags)
