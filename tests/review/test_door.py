"""Who is let in.

Rules from outside: RFC 6265bis for the cookie's fields, W3C CSP level 3 for the policy, W3C Fetch Metadata
for Sec-Fetch-Site, RFC 6454 for the origin.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from notesgen.review.door import Key, new_key
from notesgen.review.headers import POLICY
from tests.review.pages import HERE, KEY, OWN, lesson, outsider, visitor

PATHS = ("/", "/api/shelf", "/static/lesson.js", "/lesson/walk.txt", "/recording/walk.txt", "/nowhere")


@pytest.mark.parametrize("path", PATHS)
def test_without_the_start_address_nothing_is_seen(tmp_path: Path, path: str) -> None:
    lesson(tmp_path)
    answer = outsider(tmp_path).get(path)
    assert answer.status_code == 403
    assert "walk" not in answer.text


def test_the_start_address_gives_a_cookie_that_only_this_page_sends(tmp_path: Path) -> None:
    answer = outsider(tmp_path).get("/start", params={"token": KEY.token, "to": "/lesson/walk.txt"})
    cookie = answer.headers["set-cookie"]
    assert (answer.status_code, answer.headers["location"]) == (303, "/lesson/walk.txt")
    assert "HttpOnly" in cookie
    assert "SameSite=strict" in cookie
    assert f"notesgen-{KEY.port}=" in cookie


@pytest.mark.parametrize("token", ["", "wrong", KEY.token + "x", "ä"])
def test_another_token_gives_nothing(tmp_path: Path, token: str) -> None:
    client = outsider(tmp_path)
    assert client.get("/start", params={"token": token}).status_code == 403
    client.cookies.set(f"notesgen-{KEY.port}", token.encode("ascii", "ignore").decode())
    assert client.get("/").status_code == 403


@pytest.mark.parametrize("to", ["//evil.test/", "https://evil.test/", "/\\evil.test", "evil.test"])
def test_the_start_address_leads_nowhere_else(tmp_path: Path, to: str) -> None:
    answer = outsider(tmp_path).get("/start", params={"token": KEY.token, "to": to})
    assert answer.headers["location"] == "/"


@pytest.mark.parametrize(
    "host", ["evil.test", "evil.test:4321", "127.0.0.1", "127.0.0.1:80", "[::1]:4321", ""]
)
def test_a_rebound_name_is_turned_away(tmp_path: Path, host: str) -> None:
    assert visitor(tmp_path).get("/", headers={"host": host}).status_code == 403


def test_this_machines_names_are_let_in(tmp_path: Path) -> None:
    client = visitor(tmp_path)
    assert client.get("/").status_code == 200
    cookie = {"cookie": f"notesgen-{KEY.port}={KEY.token}", "host": "localhost:4321"}
    assert client.get("/", headers=cookie).status_code == 200


@pytest.mark.parametrize("other", ['prefs={"theme": "dark"}', "a=b=c", "odd", "ä=1", '"=;,'])
def test_cookies_of_other_programs_do_not_lock_out(tmp_path: Path, other: str) -> None:
    """RFC 6265, section 4.2.1: cookies come apart by semicolons; one jar holds those of all ports."""
    for jar in (f"{other}; notesgen-{KEY.port}={KEY.token}", f"notesgen-{KEY.port}={KEY.token}; {other}"):
        assert outsider(tmp_path).get("/", headers={"cookie": jar.encode()}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.test"},
        {"origin": "http://127.0.0.1:9999"},
        {"origin": "https://127.0.0.1:4321"},
        {"origin": "null"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
)
def test_another_page_is_turned_away_with_the_cookie_too(tmp_path: Path, headers: dict[str, str]) -> None:
    lesson(tmp_path)
    client = visitor(tmp_path)
    assert client.get("/api/shelf", headers=headers).status_code == 403
    assert client.post("/api/shelf?name=a.txt", content=b"x", headers=headers).status_code == 403


def test_what_changes_something_must_say_where_it_comes_from(tmp_path: Path) -> None:
    client = visitor(tmp_path)
    assert client.post("/api/shelf?name=a.txt", content=b"[0:00] 5 on the G").status_code == 403
    assert client.post("/api/shelf?name=a.txt", content=b"[0:00] 5 on the G", headers=OWN).status_code == 200


def test_every_answer_carries_the_careful_headers(tmp_path: Path) -> None:
    lesson(tmp_path)
    client = visitor(tmp_path)
    answers = [client.get(path) for path in ("/", "/static/lesson.js", "/api/shelf", "/nowhere")]
    answers.append(outsider(tmp_path).get("/"))
    for answer in answers:
        assert answer.headers["content-security-policy"] == POLICY
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["referrer-policy"] == "no-referrer"
        assert answer.headers["cross-origin-resource-policy"] == "same-origin"
        assert answer.headers["cache-control"] == "no-store"


def test_the_policy_allows_no_inline_script_and_nothing_from_elsewhere() -> None:
    assert "unsafe" not in POLICY
    assert "http" not in POLICY
    assert "*" not in POLICY
    assert POLICY.startswith("default-src 'none'")


def test_the_pages_hold_no_inline_script_or_style() -> None:
    static = Path(__file__).resolve().parents[2] / "notesgen" / "review" / "static"
    for page in static.glob("*.html"):
        text = page.read_text(encoding="utf-8")
        assert "<style" not in text
        assert "style=" not in text
        assert text.count("<script") == text.count('<script type="module" src="/static/')
        assert "http" not in text
        assert re.findall(r"\son[a-z]+=", text) == []


def test_every_start_has_a_token_of_its_own() -> None:
    keys = {new_key(1).token for _ in range(50)}
    assert len(keys) == 50
    assert min(map(len, keys)) >= 32
    assert Key(80, "t").hosts >= {"127.0.0.1", "127.0.0.1:80"}
    assert HERE in KEY.address("/lesson/a b")
    assert "a+b" in KEY.address("/lesson/a b")
