"""The likeliest way through, compared with trying all ways."""

from __future__ import annotations

from itertools import pairwise, product

from hypothesis import given
from hypothesis import strategies as st

from notesgen.decisions.chain import Candidate, best_chain

ROWS = st.lists(
    st.lists(
        st.builds(Candidate, st.integers(0, 5), st.sampled_from((0.5, 0.75, 1.0, 2.0))),
        max_size=3,
        unique_by=lambda candidate: candidate.rank,
    ),
    max_size=5,
)


@given(ROWS)
def test_no_other_chain_weighs_more(rows: list[list[Candidate]]) -> None:
    chosen = best_chain(rows)
    ranks = [rank for rank in chosen if rank is not None]
    assert ranks == sorted(set(ranks)), "in order, and no place twice"
    weights = [{one.rank: one.likeness for one in row} for row in rows]
    weight = sum(weights[at][rank] for at, rank in enumerate(chosen) if rank is not None)
    assert weight == max(map(_weight, product(*([None, *row] for row in rows))), default=0.0)


def _weight(ones: tuple[Candidate | None, ...]) -> float:
    taken = [one for one in ones if one is not None]
    rising = all(first.rank < second.rank for first, second in pairwise(taken))
    return sum(one.likeness for one in taken) if rising else 0.0
