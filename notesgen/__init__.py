"""notesgen: the captions of a spoken guitar lesson in, a flagged draft tab and lesson notes out."""

__version__ = "0.1.0"
