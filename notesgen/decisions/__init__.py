"""What the teacher decided: kept in `decisions.toml`, found again in a new draft, and applied to it."""
