"""A slip in a grammar file is told in plain words, with the file and, where it can be known, the line."""

from __future__ import annotations

from pathlib import Path

import pytest

from notesgen.errors import InputError
from notesgen.grammar.files import grammar_files, grammar_folder
from notesgen.grammar.index import in_order
from notesgen.grammar.load import load_grammar

GOOD = """
about = "Open strings."

[[phrase]]
name = "open"
value = 0
say = ["open"]

[[idiom]]
name = "open string"
kind = "note"
about = "A string by its letter."
say = [
  "[the] {open:fret} {letter:string}",
]
[[idiom.example]]
heard = "open A"
notes = ["5/0 pick"]
[[idiom.not]]
heard = "an open door"
why = "no string"
"""


def loaded(folder: Path, text: str) -> InputError:
    (folder / "mine.toml").write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as raised:
        load_grammar(folder=folder)
    return raised.value


def test_a_good_file_is_read_whole(tmp_path: Path) -> None:
    (tmp_path / "words").mkdir()
    (tmp_path / "words" / "mine.toml").write_text(GOOD)
    grammar = load_grammar(folder=tmp_path)
    idiom = grammar.idioms[0]
    assert (idiom.name, idiom.kind, idiom.file) == ("open string", "note", "mine.toml")
    assert (idiom.say[0].line, idiom.say[0].file) == (14, "mine.toml")
    assert idiom.examples[0].notes == ("5/0 pick",)
    assert idiom.nots[0].why == "no string"
    assert [phrase.name for phrase in grammar.phrases] == ["open"]


@pytest.mark.parametrize(
    ("slip", "mended", "told", "line"),
    [
        ('kind = "note"', 'kind = "yodel"', 'unknown kind "yodel"', 11),
        ("{letter:string}", "{letter:colour}", 'slot {colour} means nothing to the kind "note"', 14),
        ("{open:fret}", "{opened:fret}", '"opened" is no phrase', 14),
        ("[the] ", "[the ", "never closed", 14),
        ('say = ["open"]', "say = [open]", "not valid TOML", 7),
        ('about = "Open strings."', "about = “Open strings.”", "straight quotes", 2),
        ('why = "no string"', 'because = "no string"', '"because" is not known here', 21),
        ("value = 0", "valeu = 0", '"valeu" is not known here', 6),
        ('kind = "note"', "kind = 3", '"kind" cannot be read: expected text in quotes', 11),
        ('notes = ["5/0 pick"]', 'notes = ["5/0 pick"]\nsay = ["the open A"]', "move it above", 19),
        ('heard = "an open door"\n', "", 'has no "heard"', 19),
    ],
)
def test_a_slip_is_told(tmp_path: Path, slip: str, mended: str, told: str, line: int | None) -> None:
    assert slip in GOOD
    error = loaded(tmp_path, GOOD.replace(slip, mended))
    assert told in str(error)
    assert (error.file, error.line) == ("mine.toml", line)


def test_two_idioms_of_one_name_are_told_with_both_places(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text(GOOD, encoding="utf-8")
    error = loaded(tmp_path, GOOD.replace('"open"', '"opened"').replace("{open:", "{opened:"))
    assert (error.file, error.line) == ("mine.toml", 10)
    assert "a.toml:10" in str(error)


def test_a_slip_in_a_file_of_one_idiom_has_its_line(tmp_path: Path) -> None:
    text = 'name = "x"\nkind = "note"\nabout = ""\nsay = ["x"]\n[[example]]\nheard = "x"\nnoets = []\n'
    error = loaded(tmp_path, text)
    assert (error.file, error.line) == ("mine.toml", 7)


def test_phrases_that_need_one_another_are_told(tmp_path: Path) -> None:
    circle = '[[phrase]]\nname = "one"\nsay = ["<two>"]\n[[phrase]]\nname = "two"\nsay = ["<one> x"]\n'
    (tmp_path / "mine.toml").write_text(circle)
    with pytest.raises(InputError, match="circle"):
        in_order(load_grammar(folder=tmp_path))


def test_a_language_that_is_not_there() -> None:
    with pytest.raises(InputError, match="grammars/xx"):
        load_grammar("xx")


def test_files_stand_in_a_fixed_order() -> None:
    files = grammar_files(grammar_folder("en"))
    assert files == sorted(files)
    assert {"strings.toml", "hammer-ons.toml", "mishearings.toml"} <= {file.name for file in files}
