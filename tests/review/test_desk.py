"""Answers on the page: each is kept at once, settles the draft anew, and can be undone."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from tests.review.pages import OWN, act, lesson, visitor

Proof = dict[str, Any]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with one lesson that asks something."""
    lesson(tmp_path)
    return tmp_path


def proof(client: Any, since: int = -1) -> Proof:
    return client.get(f"/api/lesson/walk.txt?since={since}&width=500").json()


def places(shown: Proof) -> list[str]:
    """All notes as string/fret, in order."""
    by_id = {piece["id"]: piece for piece in shown["pieces"]}
    events = [event for name in shown["order"] for event in by_id[name]["events"]]
    return [f"{note['string']}/{note['fret']}" for event in events for note in event["notes"]]


def events(shown: Proof) -> list[Any]:
    return [event for piece in shown["pieces"] for event in piece["events"]]


def kept(folder: Path) -> list[Any]:
    return tomllib.loads((folder / "walk" / "decisions.toml").read_text("utf-8")).get("decision", [])


def test_the_proof_has_all_that_is_drawn_and_asked(folder: Path) -> None:
    shown = proof(visitor(folder))
    assert shown["title"] == "walk"
    assert places(shown)[:2] == ["3/5", "3/7"]
    assert all("<svg" in piece["pictures"][0]["svg"] for piece in shown["pieces"])
    assert [string["open"] for string in shown["strings"]] == [64, 59, 55, 50, 45, 40]
    query = shown["slips"][0]
    assert query["options"]
    assert query["answer"] == ""


def test_an_answer_is_on_the_disk_before_it_is_told(folder: Path) -> None:
    client = visitor(folder)
    query = proof(client)["slips"][0]
    shown = act(client, "walk.txt", {"act": "choose", "query": query["id"], "option": 1}, 0)
    assert [decision["answer"] for decision in kept(folder)] == [query["options"][1]]
    answered = next(slip for slip in shown["slips"] if slip["id"] == query["id"])
    assert answered["answer"] == query["options"][1]
    assert shown["told"]["changed"]
    assert set(shown["told"]["changed"]) <= set(query["events"])
    assert shown["told"]["message"].lower().startswith(query["options"][1].lower())


def test_only_phrases_that_changed_are_drawn_again(folder: Path) -> None:
    client = visitor(folder)
    before = proof(client)
    event = before["pieces"][1]["events"][0]["id"]
    notes = [{"string": 2, "fret": 9}]
    shown = act(client, "walk.txt", {"act": "write", "event": event, "notes": notes}, 0)
    assert [piece["id"] for piece in shown["pieces"]] == [before["order"][1]]
    assert shown["order"] == before["order"]


def test_a_note_can_be_changed_in_every_way(folder: Path) -> None:
    client = visitor(folder)
    first, second, third, *_ = (event["id"] for event in events(proof(client)))
    steps = [
        {"act": "write", "event": first, "notes": [{"string": 3, "fret": 4}]},
        {"act": "write", "event": first, "how": "bend", "bend": 2.0},
        {"act": "write", "event": first, "notes": [{"string": 3, "fret": "x"}]},
        {"act": "write", "event": first, "how": "pick", "bend": 0.0, "marks": ["vibrato"]},
        {"act": "insert", "event": first, "side": "after"},
        {"act": "insert", "event": f"{first}a1", "side": "after"},
        {"act": "insert", "event": first, "side": "before"},
        {"act": "delete", "events": [second]},
        {"act": "split", "event": third},
        {"act": "rename", "event": third, "title": "  Slow   turn "},
    ]
    for revision, step in enumerate(steps):
        shown = act(client, "walk.txt", step, revision)
    shown = proof(client)
    assert places(shown)[:4] == ["3/x"] * 4
    assert next(event for event in events(shown) if event["id"] == first)["marks"] == ["vibrato"]
    assert "Slow turn" in [piece["title"] for piece in shown["pieces"]]
    joined = act(client, "walk.txt", {"act": "join", "event": third}, len(steps))
    assert "Slow turn" not in [piece["title"] for piece in joined["pieces"]]


def test_the_last_word_on_a_note_counts(folder: Path) -> None:
    client = visitor(folder)
    first = events(proof(client))[0]["id"]
    act(client, "walk.txt", {"act": "write", "event": first, "notes": [{"string": 3, "fret": 4}]}, 0)
    act(client, "walk.txt", {"act": "write", "event": first, "how": "bend", "bend": 1.0}, 1)
    act(client, "walk.txt", {"act": "write", "event": first, "how": "slide"}, 2)
    shown = act(client, "walk.txt", {"act": "write", "event": first, "notes": [{"string": 3, "fret": 6}]}, 3)
    event = events(shown)[0]
    assert (event["notes"][0]["fret"], event["how"], event["bend"]) == (6, "slide", None)


def test_a_passage_told_over_is_taken_out(folder: Path) -> None:
    client = visitor(folder)
    before = proof(client)
    ids = [event["id"] for event in events(before)[:2]]
    act(client, "walk.txt", {"act": "recap", "events": ids}, 0)
    assert places(proof(client)) == places(before)[2:]
    assert kept(folder)[0]["recap"] is True


def test_undo_and_redo_have_no_end(folder: Path) -> None:
    client = visitor(folder)
    seen = [places(proof(client))]
    event = events(proof(client))[2]["id"]
    for revision, fret in enumerate((1, 2, 3, 4)):
        act(
            client,
            "walk.txt",
            {"act": "write", "event": event, "notes": [{"string": 2, "fret": fret}]},
            revision,
        )
        seen.append(places(proof(client)))
    for back in (3, 2, 1, 0):
        act(client, "walk.txt", {"act": "undo"}, 0)
        assert places(proof(client)) == seen[back]
    assert act(client, "walk.txt", {"act": "undo"}, 0)["can_undo"] is False
    for on in (1, 2, 3, 4):
        act(client, "walk.txt", {"act": "redo"}, 0)
        assert places(proof(client)) == seen[on]
    assert act(client, "walk.txt", {"act": "redo"}, 0)["can_redo"] is False


def test_a_restart_keeps_answers_and_can_undo_them(folder: Path) -> None:
    client = visitor(folder)
    before = places(proof(client))
    event = events(proof(client))[2]["id"]
    act(client, "walk.txt", {"act": "write", "event": event, "notes": [{"string": 6, "fret": 3}]}, 0)
    again = visitor(folder)
    assert "6/3" in places(proof(again))
    act(again, "walk.txt", {"act": "undo"}, 0)
    assert places(proof(again)) == before


def test_two_figures_of_one_fret_are_one_step(folder: Path) -> None:
    client = visitor(folder)
    before = proof(client)
    event = events(before)[0]["id"]
    write = {"act": "write", "event": event}
    act(client, "walk.txt", write | {"notes": [{"string": 3, "fret": 1}]}, 0)
    act(client, "walk.txt", write | {"notes": [{"string": 3, "fret": 12}]}, 1, amends=1)
    assert places(proof(client))[0] == "3/12"
    act(client, "walk.txt", {"act": "undo"}, 2)
    assert places(proof(client)) == places(before)


def test_neither_of_two_tabs_loses_an_answer(folder: Path) -> None:
    """Both act on what they saw first."""
    client = visitor(folder)
    before = proof(client)
    first, last = events(before)[0]["id"], events(before)[-1]["id"]
    act(client, "walk.txt", {"act": "delete", "events": [first]}, 0)
    act(client, "walk.txt", {"act": "write", "event": last, "notes": [{"string": 1, "fret": 3}]}, 0)
    assert places(proof(client)) == [*places(before)[1:-1], "1/3"]


def test_what_another_program_decides_is_seen(folder: Path) -> None:
    """Two servers over one folder, as when the page was started twice."""
    one, two = visitor(folder), visitor(folder)
    event = events(proof(one))[0]["id"]
    proof(two)
    act(one, "walk.txt", {"act": "write", "event": event, "notes": [{"string": 6, "fret": 3}]}, 0)
    assert places(proof(two))[0] == "6/3"
    last = events(proof(two))[-1]["id"]
    act(two, "walk.txt", {"act": "write", "event": last, "notes": [{"string": 6, "fret": 1}]}, 1)
    assert places(proof(one))[0] == "6/3"
    assert places(proof(one))[-1] == "6/1"


def test_a_query_whose_notes_are_gone_has_no_answer(folder: Path) -> None:
    client = visitor(folder)
    query = proof(client)["slips"][0]
    shown = act(client, "walk.txt", {"act": "delete", "events": query["events"]}, 0)
    assert next(slip for slip in shown["slips"] if slip["id"] == query["id"])["answer"]
    sent = {"do": {"act": "choose", "query": query["id"], "option": 0}, "revision": 1, "width": 500}
    answer = client.post("/api/lesson/walk.txt/act", json=sent, headers=OWN)
    assert (answer.status_code, "not in the draft" in answer.json()["message"]) == (422, True)


@pytest.mark.parametrize(
    "do",
    [
        {"act": "write", "event": "e999"},
        {"act": "delete", "events": ["e999"]},
        {"act": "choose", "query": "f999", "option": 0},
        {"act": "choose", "query": "f1", "option": 99},
        {"act": "rename", "event": "e1", "title": "  "},
        {"act": "write", "event": "e1", "notes": [{"string": 2, "fret": 3}, {"string": 2, "fret": 5}]},
        {"act": "write", "event": "e1", "notes": [{"string": 2, "fret": -1}]},
        {"act": "write", "event": "e1", "notes": [{"string": 7, "fret": 1}]},
        {"act": "write", "event": "e1", "notes": [{"string": 2, "fret": 1, "how": "bend", "bend": 1e-7}]},
    ],
)
def test_what_cannot_be_done_is_one_sentence_and_changes_nothing(folder: Path, do: dict[str, Any]) -> None:
    client = visitor(folder)
    sent = {"do": do, "revision": 0, "width": 500}
    own = {"origin": "http://127.0.0.1:4321"}
    answer = client.post("/api/lesson/walk.txt/act", json=sent, headers=own)
    assert answer.status_code == 422
    assert answer.json()["message"].endswith(".")
    assert str(folder) not in answer.json()["message"]
    assert not (folder / "walk" / "decisions.toml").exists()


@pytest.mark.parametrize(("name", "side"), [("a1", "before"), ("", "after")])
def test_a_note_never_lands_elsewhere_than_it_was_meant(folder: Path, name: str, side: str) -> None:
    client = visitor(folder)
    first = events(proof(client))[0]["id"]
    act(client, "walk.txt", {"act": "insert", "event": first, "side": "after"}, 0)
    before = places(proof(client))
    sent = {"do": {"act": "insert", "event": first + name, "side": side}, "revision": 1, "width": 500}
    answer = client.post("/api/lesson/walk.txt/act", json=sent, headers=OWN)
    assert (answer.status_code, "Between these notes" in answer.json()["message"]) == (422, True)
    assert places(proof(client)) == before


@pytest.mark.parametrize(
    "content",
    [b"", b"{", b"[]", b'{"do": {"act": "sing"}, "revision": 0, "width": 500}',
     b'{"do": {"act": "undo"}, "revision": 0, "width": 1e9}', b'{"do": {"act": "undo"}}'],
)  # fmt: skip
def test_what_is_no_act_is_refused(folder: Path, content: bytes) -> None:
    own = {"origin": "http://127.0.0.1:4321"}
    assert visitor(folder).post("/api/lesson/walk.txt/act", content=content, headers=own).status_code == 400


def test_each_choice_is_drawn_and_sounds(folder: Path) -> None:
    client = visitor(folder)
    query = proof(client)["slips"][0]
    drawn = client.get(f"/api/lesson/walk.txt/choices?query={query['id']}&width=250&revision=0").json()
    assert len(drawn) == len(query["options"])
    written = [pictures[0]["svg"] for pictures in drawn if pictures]
    assert len(set(written)) == len(written) > 1
    heard = client.get(f"/api/lesson/walk.txt/sounds?query={query['id']}&option=1&revision=0").json()
    assert heard["tones"]
    for beyond in (-1, -9, 99):
        told = client.get(f"/api/lesson/walk.txt/sounds?query={query['id']}&option={beyond}&revision=0")
        assert (told.status_code, told.json()) == (200, None)
    phrase = proof(client)["order"][0]
    assert client.get(f"/api/lesson/walk.txt/sounds?phrase={phrase}&revision=0").json()["tones"]
