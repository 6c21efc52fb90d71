"""The files of a pack, so that a new format need not be told to every test."""

from __future__ import annotations

from notesgen.pack.outputs import outputs

PACK = sorted(["draft.json", "lesson.json", *(output.file for output in outputs().values())])
