"""Where the grammar files are: inside the installed package, or beside it in a checkout."""

from __future__ import annotations

from pathlib import Path

from notesgen.errors import InputError

_PACKAGE = Path(__file__).resolve().parent.parent


def grammar_folder(language: str = "en") -> Path:
    """The folder of one language's grammar. Raises InputError when there is none."""
    for root in (_PACKAGE / "grammars", _PACKAGE.parent / "grammars"):
        if (root / language).is_dir():
            return root / language
    raise InputError(
        f'there is no grammar for the language "{language}": the folder grammars/{language} is missing'
    )


def grammar_files(folder: Path) -> list[Path]:
    """Every grammar file below the folder, in a fixed order."""
    return sorted(folder.rglob("*.toml"))
