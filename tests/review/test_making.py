"""The pack as the page makes it."""

from __future__ import annotations

from pathlib import Path

from tests.review.pages import OWN, act, lesson, visitor


def test_a_pack_is_never_made_from_answers_that_were_taken_back(tmp_path: Path) -> None:
    """Somebody changes the decisions while the page is open, and nothing was looked at since."""
    lesson(tmp_path)
    client = visitor(tmp_path)
    shown = client.get("/api/lesson/walk.txt").json()
    while still := [query for query in shown["slips"] if not query["answer"]]:
        do = {"act": "choose", "query": still[0]["id"], "option": 0}
        shown = act(client, "walk.txt", do, shown["revision"])
    (tmp_path / "walk" / "decisions.toml").unlink()
    made = client.post("/api/lesson/walk.txt/pack", content="{}", headers=OWN)
    assert (made.status_code, "still open" in made.json()["message"]) == (422, True)
    assert not (tmp_path / "walk" / "student").exists()


def test_the_links_to_the_files_can_be_followed(tmp_path: Path) -> None:
    """A name with what means something in an address (RFC 3986, section 2.2)."""
    name = "take #2 100%.txt"
    lesson(tmp_path, name, "[0:05] Standard tuning. On the G string, 5, and hammer on to 7.\n")
    client = visitor(tmp_path)
    made = client.post("/api/lesson/take%20%232%20100%25.txt/pack", content="{}", headers=OWN).json()
    assert made["files"]
    assert all(client.get(file["link"]).status_code == 200 for file in made["files"])
