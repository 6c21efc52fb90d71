"""Captions in: bytes to one transcript with a time for each word."""
