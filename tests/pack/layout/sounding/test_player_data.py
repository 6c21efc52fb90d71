"""What the page's player reads."""

from __future__ import annotations

import json

from hypothesis import given
from msgspec.structs import replace

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.sounding.player_data import player_data
from tests.pack.lessons import lessons
from tests.pack.rich import LESSON


def test_each_phrase_has_its_tones() -> None:
    told = json.loads(player_data(LESSON))
    assert list(told) == ["p1", "p2", "p3"]
    assert told["p1"]["tempo"] == 96
    assert told["p1"]["even"] is True
    first = {"event": "e1", "beat": 0.0, "length": 0.5, "string": 5, "midi": 52, "loud": 0.8}
    assert told["p1"]["tones"][0] == first


@given(lessons())
def test_it_is_json_that_cannot_leave_its_script_element(lesson: Lesson) -> None:
    # HTML Living Standard, "Restrictions for contents of script elements".
    hostile = "</script><!-- \u2028"
    titled = replace(lesson, phrases=tuple(replace(phrase, title=hostile) for phrase in lesson.phrases))
    text = player_data(titled)
    assert "<" not in text and "\u2028" not in text
    assert all(told["title"] == hostile for told in json.loads(text).values())
