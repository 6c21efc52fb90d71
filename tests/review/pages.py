"""A page over a folder of lessons, asked without a network."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from starlette.testclient import TestClient

from notesgen.review.app import app
from notesgen.review.door import Key
from notesgen.review.media import Recording
from notesgen.review.room import Room
from notesgen.review.shelf import Shelf

KEY = Key(port=4321, token="a-token-for-tests")
HERE = f"http://127.0.0.1:{KEY.port}"
OWN = {"origin": HERE, "sec-fetch-site": "same-origin"}
TALK = """[0:05] This one is in D minor, standard tuning, no capo.
[0:10] First phrase. On the G string, 5, and hammer on to 7.
[0:20] Then it's 6, and 5, and you land on 7 on the G.
[0:30] Second phrase. Then fret 5, and 8.
"""


def lesson(folder: Path, name: str = "walk.txt", talk: str = TALK) -> Path:
    """Captions in a folder."""
    path = folder / name
    path.write_text(talk, encoding="utf-8")
    return path


def outsider(folder: Path, named: Path | None = None, recording: Recording | None = None) -> TestClient:
    """A browser that was not given the start address."""
    room = Room(Shelf(folder, named, recording))
    return TestClient(app(room, KEY), base_url=HERE, follow_redirects=False, raise_server_exceptions=False)


def visitor(folder: Path, named: Path | None = None, recording: Recording | None = None) -> TestClient:
    """A browser that has opened the start address."""
    client = outsider(folder, named, recording)
    assert client.get("/start", params={"token": KEY.token}).status_code == 303
    return client


def act(client: TestClient, name: str, do: dict[str, Any], revision: int, **more: Any) -> Any:
    """The proof after an act."""
    sent = {"do": do, "revision": revision, "width": 500, **more}
    answer = client.post(f"/api/lesson/{name}/act", json=sent, headers=OWN)
    assert answer.status_code == 200, answer.text
    return answer.json()
