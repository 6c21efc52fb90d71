"""Words to mentions to instructions. Knows how people talk, not what sounds right."""
