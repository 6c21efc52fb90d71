"""What each way of filling a hole costs: every number that the search uses, with its reason.

Language costs come from what was said and how far away; music costs from the key, the hand and the neck.
Where the hand goes and how far it stretches is no cost: the frets are said, and a fret lies where it lies on
every string. All are in one unit: a margin of about 1 is a clear preference. What a margin is worth as a
probability is not said here: it is one clue among others in `settle/trust`, fitted to right answers.
"""

from __future__ import annotations

CLEAR = 0.9  # margin from which a string that was not said is clear enough to know a retelling by it

# language
SAME_CLAUSE = 0.0  # the string of the note before, in the same sentence
FROM_PAIR = 1.2  # ... one of the two of the pair before: which of them is as open as whether it holds
NEXT_SENTENCE = 0.35  # ... in the next one: the string mostly still holds
NEW_SECTION = 0.9  # ... after a heading or a demonstration: a fresh start
OTHER_STRING = 2.0  # a string that nobody named, in the middle of a sentence
OTHER_LATER = 1.2  # ... at the start of a sentence or a section, where a new one is likelier
SPOKEN_OF = 0.6  # ... that an aside named since: a finger waits there, and the talk may come to it
IN_FORCE = 0.0  # the string named on its own before the note
NOT_IN_FORCE = 4.0  # any other string, while one is in force
NOT_LEFT = 1.0  # the notes before "over to the A string" on the A already; less than leaving a named one
OPEN_NOT_LOWEST = 0.2  # a lesson that begins "open, open, 3" off the lowest string; less than one STRING_JUMP
UNRELATED = 4.0  # a string that is not "one string up" from the one before, or not "the same", as was said
TURNED_BACK = 0.3  # "the next string" against the way in which the run went so far
UP_BY_HAND = (
    1.0  # "up a string" meant towards the thick ones, all through a lesson; most teachers go by pitch
)
NAMED_AFTER = 0.0  # the string that closes the note's own list: "7, 9, 10 on the B"
NAMED_LATER = 0.8  # ... behind a "then"
NOT_NAMED_AFTER = 1.0  # a string carried over from another sentence, when the list is closed by its own
NOT_NAMED_LATER = 0.2  # ... behind a "then"
NAMED_AFTER_OTHER = 0.7  # a string that is neither

# music
OUTSIDE_KEY = 1.4  # a pitch that is not in the declared key
LEADING_NOTE = 1.05  # ... the raised seventh of a minor key, which melodies use freely
BEND_OUTSIDE = 0.7  # ... where a bend arrives; less, since how far it goes is often told roughly
OTHER_NOTE = 2.2  # a pitch that is not the note that the teacher named
OUTSIDE_BOX = 0.7  # a fret that the declared box does not have on that string
SKIPPED_STRING = 0.35  # each string left out between two that are struck together
STRING_JUMP = 0.25  # each string that the picking hand crosses
LEGATO_ACROSS = 9.0  # a hammer-on, pull-off, slide or release cannot change strings
