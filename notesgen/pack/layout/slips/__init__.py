"""Slips of the tongue: what the teacher said and what it should be, as sentences to paste."""
