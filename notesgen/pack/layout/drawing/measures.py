"""The measures of the page, in points. Chosen by eye, at reading distance on paper."""

from __future__ import annotations

SPACE = 12.0  # from string to string
SIZE = 13.5  # of the frets
CROSS = 17.0  # of the cross of a dead note, which is small in its own size
SMALL = 9.5  # of letters and amounts above the strings
TINY = 8.5  # of a fret in brackets beside another
HAIR = 0.5  # strings
FINE = 0.8  # slides, arrows, brackets
BAR = 2.4  # the thick stroke of a repeat

ROW = 11.0  # a row of letters above the strings
CLEAR = 13.0  # from the top string up to the first row
BELOW = 18.0  # a row of pencilled numbers under the strings
EDGE = 6.0  # blank above and below all

STEP = 26.0  # from note to note, where nothing asks for more
AIR = 7.0  # between what belongs to one note and what belongs to the next
JOINT = 14.0  # the same, where a slide or a release is drawn between them
LEAD = 10.0  # from a bar to the first note
STRETCH = 15.0  # so much may be added between two notes to fill a line
REPEAT = 9.0  # a repeat bar with its dots
TAIL = 9.0  # a slide from or to nowhere
HOOK = 13.0  # a bend, from its fret to its arrow
BRACKET = 5.0  # from a number to the bracket before it
TOE = 2.0  # between a number and its string
