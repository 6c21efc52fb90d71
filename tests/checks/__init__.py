"""Checks: their cases, one file a check, and what holds for all of them."""
