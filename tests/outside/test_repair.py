"""Self-repairs, after the types of Shriberg (1994), "Preliminaries to a theory of speech disfluencies".

The types (repetition, substitution, insertion, deletion) and the terms (reparandum, editing term, repair)
are from the thesis as remembered; the sentences are invented. So are those after Levelt (1983), "Monitoring
and self-repair in speech", Cognition 14, whose speakers described paths through coloured discs: his types
(error and appropriateness repairs, instant or retracing a word or more), and the shape of his examples ("from
left again to, uh, from pink again to blue"), are from memory.
"""

from __future__ import annotations

import pytest

from notesgen.rehearsal import notation
from notesgen.rehearsal.run import hear

REPETITION = [  # the repair says the reparandum over: nothing is added
    ("seven on the G, on the G", ["3/7"]),
    ("on the on the B string, 8", ["2/8"]),
    ("hammer hammer on from 5 to 7 on the D", ["4/5", "4/7 hammer-on"]),
    ("the the ninth fret on the G", ["3/9"]),
]
SUBSTITUTION = [  # the repair stands in place of the reparandum
    ("8, no, 10 on the B", ["2/10"]),
    ("nine on the G, sorry, on the D", ["4/9"]),
    ("12 on the B, I mean 13", ["2/13"]),
    ("8 on the G, pull off to 6, sorry, 5", ["3/8", "3/5 pull-off"]),
    ("5 on the D, wait, 7 on the G", ["3/7"]),
]
INSERTION = [  # the repair says the reparandum with something more in it
    ("on the E, sorry, the low E, 3", ["6/3"]),
    ("7, I mean 7 on the D", ["4/7"]),
    ("bend the 7 on the G, sorry, bend the 7 on the G a half step", ["3/7 bend=1"]),
]
DELETION = [  # the reparandum is dropped, and the talk begins afresh
    ("So then we, okay, 7 on the G", ["3/7"]),
    ("And now you take the, right, 5 on the A", ["5/5"]),
    ("On the B, no, wait. Let me start over. 7 on the D", ["4/7"]),
]
ERROR_INSTANT = [  # the wrong word alone is replaced
    ("7 on the G string, rather the D string", ["4/7"]),
    ("8 on the B, no, 10", ["2/10"]),
]
ERROR_RETRACING = [  # the repair goes back to words before the wrong one
    ("From 5, sorry, from 7 on the G, hammer on to 9", ["3/7", "3/9 hammer-on"]),
    ("From the 5, no, the 7 on the G, you slide to 9", ["3/7", "3/9 slide"]),
    ("7 on the D string, no, sorry, the G string", ["3/7"]),
]
APPROPRIATENESS = [  # what was said was right, and is now said more closely
    ("7 on the G, on the G string, and 5 on the D", ["3/7", "4/5"]),
    ("9 on the, um, on the G", ["3/9"]),
]
LEVELT = ERROR_INSTANT + ERROR_RETRACING + APPROPRIATENESS


def test_all_types_are_here() -> None:
    assert all((REPETITION, SUBSTITUTION, INSERTION, DELETION))
    assert all((ERROR_INSTANT, ERROR_RETRACING, APPROPRIATENESS))


@pytest.mark.parametrize(("heard", "notes"), REPETITION + SUBSTITUTION + INSERTION + DELETION + LEVELT)
def test_repair(heard: str, notes: list[str]) -> None:
    events = hear(heard).lesson.events
    wanted = [notation.parse(note) for note in notes]
    got = [str(notation.written(event)) for event in events]
    fits = [one.fits(event) for one, event in zip(wanted, events, strict=False)]
    assert len(wanted) == len(got) and all(fits), f"{heard}: {got}"


@pytest.mark.parametrize(
    ("heard", "slip"),
    [
        ("8, no, 10 on the B", "8"),
        ("12 on the B, I mean 13", "12"),
        ("nine on the G, sorry, on the D", "string 3"),
    ],
)
def test_the_reparandum_is_told(heard: str, slip: str) -> None:
    flags = [flag for flag in hear(heard).lesson.flags if flag.kind == "corrected"]
    assert [flag.level for flag in flags] == ["note"]
    assert f"You said {slip} first" in flags[0].message
