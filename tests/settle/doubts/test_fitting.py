"""Two tellings of one note: which of them fits the music."""

from __future__ import annotations

import pytest

from notesgen.pipeline import Given
from notesgen.rehearsal.run import hear

CASES = [
    ("C major", "5, 7 on the D. 7, 5 on the G. So that was 5, 7, 6, 5.", "By the music 7 fits better"),
    ("C major", "5, 7 on the D. 6, 5 on the G. So that was 5, 7, 7, 5.", "By the music 7 fits better"),
    (None, "5, 7 on the D. 6, 5 on the G. So that was 5, 7, 16, 5.", "it lies nearer to the notes around it"),
    (None, "5, 7 on the D. 6, 5 on the G. So that was 5, 7, 7, 5.", "The draft keeps the first."),
]


@pytest.mark.parametrize(("key", "heard", "says"), CASES)
def test_the_music_is_asked(key: str | None, heard: str, says: str) -> None:
    (flag,) = [one for one in hear(heard, Given(key=key)).lesson.flags if one.kind == "told-differently"]
    assert says in flag.message
    assert flag.options[0].change == ()
