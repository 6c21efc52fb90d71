"""Where sentences and stretches of talk begin and end."""

from __future__ import annotations

from notesgen.settle.sentences import Sentences
from tests.speech.talk import cut

TALK = Sentences(cut("So 7, 9. Then 10! (4) 12 now."))  # so 7 9 | then 10 || 12 now


def test_sentences() -> None:
    assert [TALK.of(item) for item in range(7)] == [0, 0, 0, 1, 1, 2, 2]
    assert [(TALK.start(n), TALK.end(n)) for n in range(3)] == [(0, 3), (3, 5), (5, 7)]


def test_stretches_between_gaps() -> None:
    assert [TALK.stretch(item) for item in range(7)] == [0, 0, 0, 0, 0, 1, 1]
