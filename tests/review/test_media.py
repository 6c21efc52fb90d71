"""The recording, sent by ranges (RFC 9110, section 14), so that a browser can seek in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesgen.errors import InputError
from notesgen.review.media import beside, named
from tests.review.pages import lesson, visitor

DATA = bytes(range(256)) * 100


@pytest.fixture
def recorded(tmp_path: Path) -> Path:
    """A lesson with a recording of another name, and a file beside it that is none of the page's business."""
    (tmp_path / "take 1.mp3").write_bytes(DATA)
    (tmp_path / "private.mp4").write_bytes(b"private")
    return lesson(tmp_path)


@pytest.mark.parametrize(
    ("wanted", "status", "sent", "told"),
    [
        (None, 200, DATA, None),
        ("bytes=0-9", 206, DATA[:10], "bytes 0-9/25600"),
        ("bytes=25590-", 206, DATA[-10:], "bytes 25590-25599/25600"),
        ("bytes=-5", 206, DATA[-5:], "bytes 25595-25599/25600"),
        ("bytes=99999-", 416, None, "bytes */25600"),
    ],
)
def test_ranges(
    recorded: Path, wanted: str | None, status: int, sent: bytes | None, told: str | None
) -> None:
    client = visitor(recorded.parent, recorded, named(recorded.parent / "take 1.mp3"))
    answer = client.get("/recording/walk.txt", headers={"range": wanted} if wanted else {})
    assert answer.status_code == status
    if sent is not None:
        assert answer.content == sent
        assert answer.headers["content-type"] == "audio/mpeg"
        assert answer.headers["accept-ranges"] == "bytes"
    assert answer.headers.get("content-range") == told


def test_only_the_named_recording_is_sent(recorded: Path) -> None:
    client = visitor(recorded.parent, recorded, named(recorded.parent / "take 1.mp3"))
    assert client.get("/recording/private.mp4").status_code == 404
    assert visitor(recorded.parent, recorded).get("/recording/walk.txt").status_code == 404


def test_a_recording_of_the_same_name_is_found(recorded: Path) -> None:
    (recorded.parent / "walk.webm").write_bytes(DATA)
    found = beside(recorded)
    assert found is not None
    assert (found.path.name, found.type, found.kind) == ("walk.webm", "video/webm", "video")
    told = visitor(recorded.parent).get("/api/lesson/walk.txt/words").json()["recording"]
    assert told == {"url": "/recording/walk.txt", "name": "walk.webm", "kind": "video"}


def test_a_recording_that_has_gone_is_told(recorded: Path) -> None:
    client = visitor(recorded.parent, recorded, named(recorded.parent / "take 1.mp3"))
    (recorded.parent / "take 1.mp3").unlink()
    assert client.get("/recording/walk.txt").status_code == 404


@pytest.mark.parametrize(("name", "told"), [("none.mp4", "no such file"), ("", "a folder")])
def test_a_recording_that_is_not_there_is_one_sentence(tmp_path: Path, name: str, told: str) -> None:
    with pytest.raises(InputError, match=told):
        named(tmp_path / name)
