"""Pitches, intervals, scales, tunings and the fretboard: numbers to numbers, no text and no lesson."""
