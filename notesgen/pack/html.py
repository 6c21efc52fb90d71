"""The lesson as one page that stands alone: tab, words, sound and practice, without a network."""

from __future__ import annotations

from base64 import b64encode
from hashlib import sha256
from importlib.resources import files

from notesgen.lesson.model import Lesson
from notesgen.pack.layout.footnotes import NOTHING_FOUND, RIGHTS, UNSETTLED
from notesgen.pack.layout.page.script import player_script
from notesgen.pack.layout.page.view import view
from notesgen.pack.layout.practice import EARS, HANDS, METHOD
from notesgen.pack.layout.sounding.player_data import player_data
from notesgen.pack.layout.style import PLAIN, Style

FILE = "notes.html"


def render(lesson: Lesson, style: Style = PLAIN) -> str:
    """The page as HTML. Whatever comes from the talk is escaped; only our own style and script may act, by
    their hashes (Content Security Policy Level 3, W3C)."""
    # Imported here, for the command line that only asks for help.
    from jinja2 import Environment, StrictUndefined

    environment = Environment(
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    css, script = _asset("page.css"), player_script()
    return environment.from_string(_asset("notes.html")).render(
        page=view(lesson, style),
        css=css,
        style_hash=_hash(css),
        script=script,
        script_hash=_hash(script),
        sounds=player_data(lesson),
        method=METHOD,
        cautions=(*HANDS, *EARS),
        rights=RIGHTS,
        unsettled=UNSETTLED,
        advice=NOTHING_FOUND if style.shows_flags else (),
    )


def _asset(name: str) -> str:
    """A file of the page's folder; where it begins a page, its blank first lines are left out."""
    return files("notesgen.pack.layout.page").joinpath(name).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"
