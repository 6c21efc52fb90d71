"""What the settling is unsure of, as flags with ready answers."""
