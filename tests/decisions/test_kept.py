"""The draft that a pack keeps: all that the checks need is in it, and an older one is still read."""

from __future__ import annotations

import json

from notesgen.decisions.kept import decode_draft, encode_draft
from notesgen.decisions.settled import checked
from notesgen.lesson.evidence import Counted, Evidence, LikelyKey, Spelled
from notesgen.lesson.model import Key, Played
from notesgen.rehearsal.run import hear
from notesgen.settle.settle import Settled

EVIDENCE = Evidence(
    outside=frozenset({"e1"}),
    sure=frozenset({"e2"}),
    counted=(Counted(4, 2.0, "that's four notes", (("e1", "e2"), ("e2",))),),
    spelled=(Spelled(("B", "A", "G"), ("e1", "e2"), 3.0, "B, A, G"),),
    heard=(Played(4.0, 5.0, 62.0),),
    likely=LikelyKey(Key("A", "minor"), 0.9, 18, 19),
)


def test_what_was_said_is_kept_whole() -> None:
    draft = Settled(hear("8, 7, 5 on the B").lesson, EVIDENCE)
    assert decode_draft(encode_draft(draft), "draft.json").evidence == EVIDENCE


def test_an_older_draft_is_read() -> None:
    kept = json.loads(encode_draft(Settled(hear("8, 7, 5 on the B").lesson, Evidence())))
    older = {name: kept[name] for name in ("format", "outside", "sure", "lesson")}
    assert decode_draft(json.dumps(older).encode(), "draft.json").evidence == Evidence()


def test_a_kept_draft_is_checked_alike() -> None:
    draft = Settled(hear("8, 7, 5 on the B").lesson, EVIDENCE)
    again = decode_draft(encode_draft(draft), "draft.json")
    assert [flag.kind for flag in checked(again).flags] == [flag.kind for flag in checked(draft).flags]
