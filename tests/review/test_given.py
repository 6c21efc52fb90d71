"""What was given with the draft stays when the page is opened; options that nothing takes are refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesgen.captions.source import load_captions
from notesgen.decisions.folder import open_pack
from notesgen.decisions.settled import settled
from notesgen.errors import InputError
from notesgen.pack.layout.style import Style
from notesgen.packing import write_pack
from notesgen.pipeline import Given, rooms
from notesgen.review.desk import Desk
from notesgen.review.session import Session
from tests.review.pages import lesson

GIVEN = Given(key="B minor", tuning="drop D", capo=3, title="The long way")


def drafted(folder: Path, given: Given) -> Path:
    """Captions with a pack beside them, as `notesgen draft` leaves it."""
    captions = lesson(folder)
    made = rooms(load_captions(str(captions)), given).drafted
    write_pack(settled(made, ()).lesson, folder / "walk", Style(), [], made)
    return captions


def test_the_page_keeps_what_the_draft_was_given(tmp_path: Path) -> None:
    captions = drafted(tmp_path, GIVEN)
    before = (tmp_path / "walk" / "draft.json").read_bytes()
    facts = Desk(captions).lesson.facts
    assert (str(facts.key), facts.capo, facts.title) == ("B minor", 3, "The long way")
    assert facts.tuning[-1] == "D2"
    assert (tmp_path / "walk" / "draft.json").read_bytes() == before


def test_what_is_given_now_counts_more(tmp_path: Path) -> None:
    captions = drafted(tmp_path, GIVEN)
    facts = Desk(captions, Given(capo=0, instrument="bass")).lesson.facts
    assert (facts.capo, str(facts.key), len(facts.tuning)) == (0, "B minor", 4)
    assert open_pack(tmp_path / "walk").lesson.facts.capo == 0


def test_what_the_captions_say_is_read_anew(tmp_path: Path) -> None:
    captions = drafted(tmp_path, Given())
    text = captions.read_text(encoding="utf-8")
    captions.write_text(text.replace("no capo", "capo at the second fret"), encoding="utf-8")
    assert Desk(captions).lesson.facts.capo == 2


def test_options_of_a_lesson_are_refused_for_a_folder(tmp_path: Path) -> None:
    lesson(tmp_path)
    with pytest.raises(InputError, match="give its captions"):
        Session(tmp_path, None, Given(capo=2), 0)
