"""notes.md, read back by an independent CommonMark reader (markdown-it-py)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from msgspec.structs import replace

from notesgen.pack.layout.practice import practice
from notesgen.pack.markdown import escape, render
from tests.pack.rich import FACTS, LESSON

READER = MarkdownIt("commonmark").enable("table")


def inline_text(markdown: str) -> str:
    """The text of the first inline content, and only text: any markup is an error."""
    inline = next(token for token in READER.parse(markdown) if token.type == "inline")
    kinds = {child.type for child in inline.children or ()}
    assert kinds <= {"text", "text_special"}, kinds
    return "".join(child.content for child in inline.children or ())


@pytest.mark.parametrize(
    "text",
    [
        "*bold* _it_ `code`",
        "<b>bold</b> &amp; &lt;",
        "[link](http://x.example)",
        "a | b ~~c~~ # d",
        "\\* \\",
        "![x](y)",
    ],
)
def test_what_was_said_is_shown_as_it_is(text: str) -> None:
    assert inline_text(f"- 0:01 {escape(text)}") == f"0:01 {text}"


@given(st.text(st.characters(codec="utf-8", exclude_categories=["C"]), max_size=40))
def test_any_text_is_shown_as_it_is(text: str) -> None:
    flat = " ".join(text.split())
    assert inline_text(f"- 0:01 {escape(text)}.") == f"0:01 {flat}."


def test_the_structure_is_what_a_reader_sees() -> None:
    tokens = READER.parse(render(LESSON))
    headings = [tokens[i + 1].children for i, token in enumerate(tokens) if token.type == "heading_open"]
    titles = ["".join(child.content for child in children or ()) for children in headings]
    assert titles[0] == FACTS.title
    assert titles[1:4] == [
        "What you need",
        "Position: the box at 5 (0:42)",
        "0:58 Phrase one: up the A string",
    ]
    assert sum(token.type == "fence" for token in tokens) == len(LESSON.phrases) + len(practice(LESSON))
    assert sum(token.type == "table_open" for token in tokens) == len(FACTS.positions)
    assert not any(token.type == "html_block" for token in tokens)


def test_a_title_cannot_break_out_of_its_line() -> None:
    text = render(replace(LESSON, facts=replace(FACTS, title="One\n\n# Two\n<script>")))
    assert text.startswith("# One \\# Two &lt;script&gt;\n")
