"""What the formats of a pack share: a lesson laid out in passages, its facts in words, its tab as text."""
