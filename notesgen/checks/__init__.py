"""Checks read a settled lesson and raise flags. One file a check; none changes the lesson."""
