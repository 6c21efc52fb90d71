"""Recaps: stretches that retell what was told, and so add no notes."""
