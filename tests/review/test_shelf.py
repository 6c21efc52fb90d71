"""The folder of lessons: what is on the shelf, what is not, and what is dropped on it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.review.pages import OWN, TALK, act, lesson, visitor

OUTSIDE = (
    "..%2Fsecret.vtt", "%2e%2e%2fsecret.vtt", "..%5Csecret.vtt", "%2Fetc%2Fpasswd", "secret.vtt",
    ".hidden.vtt", "link.vtt", "walk", "walk.txt%00", "prose.txt",
)  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with one lesson, beside a file that is none of the page's business."""
    shelf = tmp_path / "lessons"
    shelf.mkdir()
    secret = lesson(tmp_path, "secret.vtt")
    lesson(shelf)
    lesson(shelf, ".hidden.vtt")
    lesson(shelf, "prose.txt", "Notes to myself, with no times in them.")
    (shelf / "link.vtt").symlink_to(secret)
    return shelf


def test_the_shelf_holds_captions_only(folder: Path) -> None:
    found = visitor(folder).get("/api/shelf").json()
    assert found["folder"] == str(folder)
    assert found["lessons"] == [{"name": "walk.txt", "title": "walk", "queries": None}]


@pytest.mark.parametrize("name", OUTSIDE)
@pytest.mark.parametrize("path", ["/lesson/{}", "/api/lesson/{}", "/api/lesson/{}/words", "/recording/{}"])
def test_nothing_beyond_the_folder_is_reached(folder: Path, path: str, name: str) -> None:
    assert visitor(folder).get(path.format(name)).status_code == 404


@pytest.mark.parametrize(
    "file", ["..%2F..%2Fsecret.vtt", "decisions.toml", "..%2Fwalk.txt", "%2Fetc%2Fpasswd", "lesson.json"]
)
def test_only_files_of_the_pack_are_shown(folder: Path, file: str) -> None:
    assert visitor(folder).get(f"/pack/walk.txt/{file}").status_code == 404


@pytest.mark.parametrize("path", ["..%2Fapp.py", "%2e%2e/app.py", "../app.py"])
def test_no_static_path_leads_out(folder: Path, path: str) -> None:
    assert visitor(folder).get(f"/static/{path}").status_code == 404


def test_captions_that_are_dropped_become_a_lesson(folder: Path) -> None:
    client = visitor(folder)
    added = client.post("/api/shelf?name=C%3A%5Ctakes%5Cnew.txt", content=TALK.encode(), headers=OWN)
    again = client.post("/api/shelf?name=new.txt", content=TALK.encode(), headers=OWN)
    other = client.post("/api/shelf?name=new.txt", content=b"[0:01] 7 on the G string", headers=OWN)
    assert [answer.json()["name"] for answer in (added, again, other)] == [
        "new.txt",
        "new.txt",
        "new-2.txt",
    ]


@pytest.mark.parametrize(
    ("name", "data", "told"),
    [
        ("walk.exe", b"[0:01] 7", "its name ends in"),
        ("../up.sh", b"[0:01] 7", "its name ends in"),
        (".txt", b"[0:01] 7", "its name ends in"),
        ("a.vtt", b"\x00\x01", "a.vtt"),
        ("a.vtt", b"", "a.vtt"),
        ("a.vtt", b"WEBVTT\n", "no captions"),
    ],
)
def test_what_is_no_captions_is_told_and_not_kept(folder: Path, name: str, data: bytes, told: str) -> None:
    before = set(folder.parent.rglob("*"))
    answer = visitor(folder).post("/api/shelf", params={"name": name}, content=data, headers=OWN)
    assert answer.status_code == 422
    assert told in answer.json()["message"]
    assert set(folder.parent.rglob("*")) == before


def test_a_name_that_climbs_stays_in_the_folder(folder: Path) -> None:
    answer = visitor(folder).post(
        "/api/shelf", params={"name": "../../up.txt"}, content=TALK.encode(), headers=OWN
    )
    assert answer.json()["name"] == "up.txt"
    assert (folder / "up.txt").exists()


def test_uploads_are_bounded(folder: Path) -> None:
    client = visitor(folder)
    large = b"[0:01] " + b"7 " * 5_000_000
    assert client.post("/api/shelf?name=a.txt", content=large, headers=OWN).status_code == 413
    assert client.post("/api/lesson/walk.txt/act", content=large, headers=OWN).status_code == 413
    pieces = (b"[0:01] 7 " * 1000 for _ in range(2000))  # sent without saying how long it is
    assert client.post("/api/shelf?name=a.txt", content=pieces, headers=OWN).status_code == 413
    assert not (folder / "a.txt").exists()


def test_the_shelf_tells_what_is_left_also_after_a_restart(folder: Path) -> None:
    client = visitor(folder)
    asked = client.get("/api/lesson/walk.txt").json()["slips"]
    assert client.get("/api/shelf").json()["lessons"][0]["queries"] == len(asked)
    act(client, "walk.txt", {"act": "choose", "query": asked[0]["id"], "option": 1}, 0)
    left = client.get("/api/shelf").json()["lessons"][0]["queries"]
    assert left < len(asked)
    assert visitor(folder).get("/api/shelf").json()["lessons"][0]["queries"] == left


def test_files_of_a_pack_are_no_lessons(folder: Path) -> None:
    for name in ("captions.vtt", "chapters.txt"):
        lesson(folder, name)
    assert len(visitor(folder).get("/api/shelf").json()["lessons"]) == 3
    (folder / "draft.json").write_text("{}")
    client = visitor(folder)
    assert [one["name"] for one in client.get("/api/shelf").json()["lessons"]] == ["walk.txt"]
    for name in ("chapters.txt", "tab.txt"):  # one that is there, and one that is not
        added = client.post(f"/api/shelf?name={name}", content=TALK.encode(), headers=OWN).json()["name"]
        assert client.get(f"/api/lesson/{added}").status_code == 200


def test_no_two_lessons_share_the_folder_of_a_pack(folder: Path) -> None:
    client = visitor(folder)
    cues = "WEBVTT\n\n00:01.000 --> 00:04.000\nPlay 7 on the G string.\n"
    added = client.post("/api/shelf?name=walk.vtt", content=cues.encode(), headers=OWN)
    assert added.json()["name"] == "walk-2.vtt"
    assert client.get("/api/lesson/walk.txt").status_code == 200
    draft = (folder / "walk" / "draft.json").read_bytes()
    (folder / "walk.vtt").write_text(cues)
    refused = client.get("/api/lesson/walk.vtt")
    assert (refused.status_code, "walk.txt; rename" in refused.json()["message"]) == (422, True)
    assert (folder / "walk" / "draft.json").read_bytes() == draft


def test_captions_that_come_back_find_their_pack(folder: Path) -> None:
    client = visitor(folder)
    client.get("/api/lesson/walk.txt")
    (folder / "walk.txt").unlink()
    added = client.post("/api/shelf?name=walk.txt", content=TALK.encode(), headers=OWN)
    assert added.json()["name"] == "walk.txt"
