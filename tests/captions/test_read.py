"""What every format shares: detection, encodings, errors, time taken."""

from __future__ import annotations

import codecs
import io
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from notesgen.captions.read import read_captions
from notesgen.captions.source import load_captions
from notesgen.errors import InputError

VTT = "WEBVTT\n\n00:01.000 --> 00:02.000\nopen D\n"


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        (VTT, "webvtt"),
        ("1\n00:00:01,000 --> 00:00:02,000\nopen D\n", "srt"),
        ("[0:01] open D\n", "text"),
    ],
)
@pytest.mark.parametrize(
    "encode",
    [
        lambda text: text.encode(),
        lambda text: text.encode("utf-8-sig"),
        lambda text: text.encode("utf-16"),
        lambda text: codecs.BOM_UTF16_BE + text.encode("utf-16-be"),
        lambda text: text.replace("\n", "\r\n").encode(),
    ],
    ids=["utf-8", "utf-8-bom", "utf-16-le", "utf-16-be", "crlf"],
)
def test_format_by_content_in_each_encoding(body: str, kind: str, encode) -> None:  # type: ignore[no-untyped-def]
    transcript = read_captions(encode(body), "lesson.bin")
    assert transcript.format == kind
    assert [word.text for word in transcript.words] == ["open", "D"]
    assert transcript.source == "lesson.bin"


BAD = [
    ("empty", b"", "lesson.vtt: The file is empty"),
    ("white space", b" \n\n", "lesson.vtt: The file is empty"),
    ("a picture", b"\x89PNG\r\n\x1a\n" + b"x" * 40, "lesson.vtt: This is a picture"),
    ("NUL bytes", b"\0\1\2\0" * 20, "lesson.vtt: This is a picture, a recording or other"),
    ("UTF-16 without a mark", VTT.encode("utf-16-le"), "lesson.vtt: This is a picture, a recording or other"),
    ("Latin-1", VTT.encode() + "é\n".encode("latin-1"), "lesson.vtt:5: This is not UTF-8 text (byte 0xE9"),
    ("Latin-1 after a mark", b"\xef\xbb\xbfa\n\xe9", "lesson.vtt:2: This is not UTF-8 text (byte 0xE9"),
    ("half a UTF-16 character", b"\xff\xfeW\0\n\0a", "lesson.vtt:2: This is not UTF-16 text"),
    ("only controls", b"\x01\x02\x03", "lesson.vtt: There is no text"),
    ("header only", b"WEBVTT\n", "lesson.vtt: The file has a WebVTT header, but no captions"),
    ("header cut off", b"WEBVTT - les", "lesson.vtt: The file has a WebVTT header, but no captions"),
    (
        "comments only",
        b"WEBVTT\n\nNOTE nothing\n",
        "lesson.vtt: The file has a WebVTT header, but no captions",
    ),
    ("cut off in a time", b"WEBVTT\n\n00:01.000 --> 00:0", "lesson.vtt: No caption in the file can be read"),
    ("cues without text", b"WEBVTT\n\n00:01.000 --> 00:02.000\n\n", "lesson.vtt: The captions hold no talk"),
    ("labels only", b"WEBVTT\n\n00:01.000 --> 00:02.000\n[Music]\n", "lesson.vtt: The captions hold no talk"),
    ("text without times", b"so today we play a riff\n", "lesson.vtt: No caption was found"),
    ("markup", b"<?xml version='1.0'?><tt><body/></tt>", "lesson.vtt: No caption was found"),
]


@pytest.mark.parametrize(("data", "message"), [case[1:] for case in BAD], ids=[case[0] for case in BAD])
def test_bad_input(data: bytes, message: str) -> None:
    with pytest.raises(InputError) as caught:
        read_captions(data, "lesson.vtt")
    assert str(caught.value).startswith(message)


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    for head in (b"", b"WEBVTT\n\n00:01.000 --> 00:02.000\n", b"1\n0:00:01,0 --> 0:00:02,0\n", b"[0:01] "):
        try:
            read_captions(head + data, "lesson")
        except InputError:
            continue


@pytest.mark.parametrize("reference", ["&#0;", "&#" + "9" * 5000 + ";", "&#xD800;", "&#x0B;", "&#x200B;"])
def test_no_forbidden_character_comes_through(reference: str) -> None:
    body = f"{VTT}\n00:03.000 --> 00:04.000\n\x01A\0 fif{reference}th \x0bfret\x0c\u200b\n".encode()
    text = read_captions(body, "lesson.vtt").cues[1].text
    # XML 1.0, production [2] Char.
    assert all(character >= " " and not 0xD800 <= ord(character) <= 0xDFFF for character in text)
    assert text.replace("\ufffd", "") == "A fifth fret" or text == "A fif th fret"


def test_line_separators_of_other_worlds_do_not_shift_the_lines() -> None:
    body = "WEBVTT\n\n00:01.000 --> 00:02.000\na\u2028b\x85c\n\n00:03.000 --> 00:04.000\nd\n"
    transcript = read_captions(body.encode(), "lesson.vtt")
    assert [word.text for word in transcript.words] == ["a", "b", "c", "d"]
    assert [cue.line for cue in transcript.cues] == [4, 7]


def test_load_from_a_file(tmp_path: Path) -> None:
    path = tmp_path / "harbour.vtt"
    path.write_text(VTT)
    assert load_captions(str(path)).source == "harbour.vtt"


def test_load_from_standard_input(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(VTT.encode())))
    assert load_captions("-").source == "standard input"


@pytest.mark.parametrize(
    ("error", "message"),
    [
        (FileNotFoundError(), "There is no such file"),
        (IsADirectoryError(), "This is a folder"),
        (PermissionError(), "This file may not be read"),
        (OSError("disk"), "This file cannot be read"),
    ],
)
def test_what_cannot_be_opened(error: OSError, message: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(self: Path) -> bytes:
        raise error

    monkeypatch.setattr(Path, "read_bytes", refuse)
    with pytest.raises(InputError, match=message):
        load_captions("harbour.vtt")


def test_a_path_no_system_takes() -> None:
    with pytest.raises(InputError):
        load_captions("har\0bour.vtt")


def test_same_bytes_same_transcript() -> None:
    assert read_captions(VTT.encode(), "a") == read_captions(VTT.encode(), "a")
