"""What the page is told of a query."""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.decisions.answered import BY_THE_WAY
from notesgen.pack.layout.sheet import all_queries
from notesgen.review.proofs import Proofs
from tests.pack.rich import LESSON


def test_a_query_that_another_answer_settled_is_told_apart() -> None:
    first, second, *_ = all_queries(LESSON)
    told = {first.id: BY_THE_WAY, second.id: second.options[0].label}
    lesson = replace(
        LESSON, flags=tuple(replace(flag, decided=told.get(flag.id, flag.decided)) for flag in LESSON.flags)
    )
    proofs = Proofs()
    proofs.note(lesson, 0)
    shown = {slip.id: slip for slip in proofs.proof(lesson, -1, 500).slips}
    assert [shown[name].by_the_way for name in told] == [True, False]
    assert all(shown[name].answer for name in told)
