"""One lesson on the desk: its draft, the decisions made on it, and the proof of both.

All of it is worked out anew after each answer; only drawings are kept.
"""

from __future__ import annotations

import gc
from collections import deque
from pathlib import Path

from msgspec.structs import replace

from notesgen.captions.source import load_captions
from notesgen.decisions import kept
from notesgen.decisions.making import Maker
from notesgen.decisions.model import Decision
from notesgen.decisions.settled import checked, settled
from notesgen.decisions.store import FILE
from notesgen.lesson.files import write_whole
from notesgen.lesson.model import Lesson
from notesgen.pack.layout.clock import clock
from notesgen.pack.layout.sheet import lay_out
from notesgen.packing import make_folder, pack_folder
from notesgen.pipeline import Given, rooms
from notesgen.review.acts import Choose, Redo, Sent, Undo
from notesgen.review.deciding import Deed, entry_of, query_of
from notesgen.review.easel import drawn
from notesgen.review.given import as_before
from notesgen.review.previews import previews
from notesgen.review.proof import Picture, Proof, Told
from notesgen.review.proofs import Proofs
from notesgen.review.steps import Steps
from notesgen.review.telling import told

REMEMBERED = 50  # revisions that a tab may lie behind


class Desk:
    """A lesson while it is answered. One thread at a time. Raises InputError where the captions or the
    decisions cannot be read."""

    def __init__(self, captions: Path, given: Given | None = None) -> None:
        self.captions = captions
        self.folder = pack_folder(str(captions))
        self.transcript = load_captions(str(captions))
        self._draft = rooms(self.transcript, as_before(captions, self.folder, given)).drafted
        self._base = checked(self._draft)
        self._maker = Maker(self._base)
        self._steps = Steps(self.folder / FILE)
        self._proofs = Proofs()
        self._seen: deque[Lesson] = deque(maxlen=REMEMBERED)
        self._revision = -1
        self._settle()
        self._keep_draft()
        gc.freeze()  # grammar and draft stay as long as the page: not to be walked through at each answer

    @property
    def lesson(self) -> Lesson:
        """The draft with all decisions made."""
        return self._seen[-1]

    @property
    def revision(self) -> int:
        """Counts from 0, one more with each change."""
        return self._revision

    def look(self) -> int:
        """Takes in what somebody else wrote into the decisions, and returns the revision."""
        if self._steps.decisions() != self._decided:
            self._settle()
        return self.revision

    def proof(self, since: int, width: float, news: Told | None = None) -> Proof:
        """The proof, with the phrases that have changed after the revision `since`."""
        made = self._proofs.proof(self.lesson, since, width)
        return replace(
            made,
            unplaced=tuple(map(_line, self._unplaced)),
            can_undo=self._steps.can_undo,
            can_redo=self._steps.can_redo,
            told=news or Told(),
        )

    def act(self, sent: Sent) -> Proof:
        """Does what the teacher wants; it is on the disk when this returns. Raises InputError."""
        before, do = self.lesson, sent.do
        if isinstance(do, Undo | Redo):
            decision = self._steps.undo() if isinstance(do, Undo) else self._steps.redo()
            word = "Taken back" if isinstance(do, Undo) else "Again"
            message = f"{word}: {decision.answer}." if decision else "There is nothing more to take back."
        else:
            message = self._make(do, sent)
        self._settle()
        answered = do.query if isinstance(do, Choose) else ""
        return self.proof(sent.revision, sent.width, told(message, before, self.lesson, answered))

    def choices(self, query: str, revision: int, width: float) -> tuple[tuple[Picture, ...], ...]:
        """The pictures of each option of a query, in their order."""
        lesson = self.at(revision)
        flag = query_of(lesson, query)
        sheet = lay_out(lesson, flagged=False)
        bare = replace(sheet, opening=frozenset(), closing={})
        return tuple(drawn(passage, bare, width) for passage in previews(lesson, flag))

    def _make(self, deed: Deed, sent: Sent) -> str:
        entry = entry_of(deed, self.at(sent.revision), self._maker)
        self._steps.make(entry, amends=sent.amends == self.revision)
        return f"{entry.decision.answer[:1].upper()}{entry.decision.answer[1:]}."

    def _keep_draft(self) -> None:
        """Lets the shelf, and `notesgen answer`, know the lesson from now on."""
        file, data = self.folder / kept.FILE, kept.encode_draft(self._draft)
        make_folder(self.folder)
        if not file.is_file() or file.read_bytes() != data:
            write_whole(file, data)

    def _settle(self) -> None:
        self._decided = self._steps.decisions()
        applied = settled(self._draft, self._decided, self._base)
        self._unplaced = applied.unplaced
        self._seen.append(applied.lesson)
        self._revision += 1
        self._proofs.note(applied.lesson, self.revision)

    def at(self, revision: int) -> Lesson:
        """The lesson as a tab saw it, which may lie behind; the present one where that is forgotten."""
        back = self._revision - revision
        return self._seen[-1 - back] if 0 <= back < len(self._seen) else self.lesson


def _line(decision: Decision) -> str:
    return f"{clock(decision.at)} “{decision.words}”: {decision.answer}"
