"""The page's script as it is put into the page."""

from __future__ import annotations

from notesgen.pack.layout.page.script import player_script


def test_it_can_stand_within_its_element() -> None:
    # HTML Living Standard, "Restrictions for contents of script elements".
    script = player_script()
    assert "</script" not in script.lower() and "<!--" not in script
    assert "http" not in script, "nothing is fetched from elsewhere"


def test_it_is_light() -> None:
    assert len(player_script().encode()) < 24_000
