"""Grammar files to a checked Grammar. Every mistake is told with its file and line, in plain words."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import msgspec
from msgspec.structs import replace

from notesgen.errors import InputError
from notesgen.grammar.files import grammar_files, grammar_folder
from notesgen.grammar.kinds import KINDS, OPEN_KINDS
from notesgen.grammar.lines import line_at
from notesgen.grammar.model import Example, Grammar, Idiom, Mishearing, Not, Phrase, Template, WordLists
from notesgen.grammar.template import Ref, Slot, TemplateError, leaves, parse, without

BASE_SYMBOLS = frozenset(
    {
        "number",
        "fret_ordinal",
        "string_ordinal",
        "string_number",
        "fret_number",
        "finger_number",
        "degree_number",
        "big",
        "ordinal",
        "plural",
        "run",
        "letter",
        "things",
    }
)

TYPES = {
    "str": "text in quotes",
    "int": "a whole number",
    "float": "a number",
    "array": "a list in brackets",
    "bool": "true or false",
    "object": "an entry with fields",
    "null": "nothing",
}


class _PhraseData(msgspec.Struct, forbid_unknown_fields=True):
    name: str
    say: list[str]
    value: str | int | float | None = None
    cost: float = 0.0


class _IdiomData(msgspec.Struct, forbid_unknown_fields=True):
    name: str
    kind: str
    about: str
    say: list[str]
    set: dict[str, str | int | float] = {}
    cost: float = 0.0
    in_one_breath: bool = False
    example: list[Example] = []
    not_: list[Not] = msgspec.field(default_factory=list, name="not")


class _FileData(msgspec.Struct, forbid_unknown_fields=True):
    about: str = ""
    phrase: list[_PhraseData] = []
    idiom: list[_IdiomData] = []
    misheard: list[Mishearing] = []
    words: WordLists | None = None


def load_grammar(language: str = "en", folder: Path | None = None) -> Grammar:
    """Reads one language. Raises InputError naming file and line at the first mistake."""
    phrases: list[Phrase] = []
    idioms: list[Idiom] = []
    misheard: list[Mishearing] = []
    words = WordLists()
    named: dict[str, str] = {}
    for path in grammar_files(folder or grammar_folder(language)):
        source = _read(path)
        data = _decode(path, source)
        phrases += [Phrase(p.name, p.value, _templates(p.say, path, source), p.cost) for p in data.phrase]
        idioms += [_idiom(i, path, source) for i in data.idiom]
        _check_names(data.idiom, path, source, named)
        misheard += data.misheard
        words = data.words or words
    grammar = without_fillers(Grammar(language, tuple(phrases), tuple(idioms), tuple(misheard), words))
    _check_symbols(grammar)
    return grammar


def _read(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise InputError("this grammar file cannot be read as UTF-8 text", path.name) from error


def _decode(path: Path, source: str) -> _FileData:
    try:
        table = tomllib.loads(source)
    except tomllib.TOMLDecodeError as error:
        line = _toml_line(error)
        raise InputError(f"this is not valid TOML: {_plain(error, source)}", path.name, line) from error
    if "name" in table and "say" in table:
        table = {"idiom": [table]}
    try:
        return msgspec.convert(table, _FileData)
    except msgspec.ValidationError as error:
        told, _, place = str(error).partition(" - at ")
        field = re.search("field `(\\w+)`", told)
        line = line_at(source, f"{place}.{field[1]}" if field else place)
        raise InputError(_explain(told, place), path.name, line) from error


def _plain(error: tomllib.TOMLDecodeError, source: str) -> str:
    if "“" in source or "”" in source:
        return f'{error}; use straight quotes ("), not curly ones'
    return f"{error}; a missing comma or quote just before is the usual reason"


def _toml_line(error: tomllib.TOMLDecodeError) -> int | None:
    found = re.search(r"line (\d+)", str(error))
    return int(found[1]) if found else None


def _explain(told: str, place: str) -> str:
    """The library's words in ours. `place` is where it found the slip: "`$.idiom[1].example[0]`"."""
    if "unknown field `say`" in told and "example" in place:
        return 'a "say" stands after [[example]] and so belongs to it; move it above the first [[example]]'
    field = re.search("field `(\\w+)`", told)
    if field and "unknown" in told:
        return f'the field "{field[1]}" is not known here; mend its name, or take it out'
    if field:
        return f'this entry has no "{field[1]}"; add one'
    last = re.search(r"(\w+)[^\w]*$", place)
    expected = re.sub("`([^`]+)`", lambda kind: TYPES.get(kind[1], kind[1]), told.lower())
    return f'"{last[1]}" cannot be read: {expected}' if last else expected


def _check_names(idioms: list[_IdiomData], path: Path, source: str, named: dict[str, str]) -> None:
    """Raises InputError for a name that is taken. `named` maps each name to its place, and is added to."""
    for number, idiom in enumerate(idioms):
        line = line_at(source, f"$.idiom[{number}].name")
        if idiom.name in named:
            raise InputError(
                f'the name "{idiom.name}" is taken by the idiom at {named[idiom.name]}; choose another',
                path.name,
                line,
            )
        named[idiom.name] = f"{path.name}:{line}"


def _idiom(data: _IdiomData, path: Path, source: str) -> Idiom:
    if data.kind not in KINDS:
        known = ", ".join(sorted(KINDS))
        raise InputError(
            f'idiom "{data.name}" has the unknown kind "{data.kind}"; known kinds: {known}',
            path.name,
            _line_of(source, data.kind),
        )
    templates = _templates(data.say, path, source)
    for template in templates:
        _check_slots(data, template)
    return Idiom(
        name=data.name,
        kind=data.kind,
        about=data.about,
        say=templates,
        set=data.set,
        examples=tuple(data.example),
        nots=tuple(data.not_),
        file=path.name,
        cost=data.cost,
        in_one_breath=data.in_one_breath,
    )


def _check_slots(data: _IdiomData, template: Template) -> None:
    if data.kind in OPEN_KINDS:
        return
    for leaf in leaves(template.node):
        if isinstance(leaf, Slot) and leaf.name not in KINDS[data.kind]:
            slots = ", ".join(sorted(KINDS[data.kind])) or "none"
            raise InputError(
                f'the slot {{{leaf.name}}} means nothing to the kind "{data.kind}"; its slots: {slots}',
                template.file,
                template.line,
            )


def _templates(say: list[str], path: Path, source: str) -> tuple[Template, ...]:
    made = []
    for text in say:
        line = _line_of(source, text)
        try:
            made.append(Template(text, parse(text), path.name, line))
        except TemplateError as error:
            raise InputError(f'the wording "{text}" cannot be read: {error}', path.name, line) from error
    return tuple(made)


def _line_of(source: str, text: str) -> int:
    at = source.find(f'"{text}"')
    return source.count("\n", 0, at) + 1 if at >= 0 else 1


def _check_symbols(grammar: Grammar) -> None:
    known = BASE_SYMBOLS | {phrase.name for phrase in grammar.phrases}
    for template in grammar.wordings():
        for leaf in leaves(template.node):
            if isinstance(leaf, Slot | Ref) and leaf.symbol not in known:
                raise InputError(
                    f'"{leaf.symbol}" is no phrase of this grammar', template.file, template.line
                )


def without_fillers(grammar: Grammar) -> Grammar:
    """The grammar with fillers taken out of its wordings: they are dropped from the talk before reading."""
    fillers = frozenset(word for word in grammar.words.fillers if " " not in word)

    def heard(templates: tuple[Template, ...]) -> tuple[Template, ...]:
        return tuple(replace(template, node=without(template.node, fillers)) for template in templates)

    return replace(
        grammar,
        phrases=tuple(replace(phrase, say=heard(phrase.say)) for phrase in grammar.phrases),
        idioms=tuple(replace(idiom, say=heard(idiom.say)) for idiom in grammar.idioms),
    )
