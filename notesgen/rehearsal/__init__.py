"""The grammar's own examples, played through every room: what was heard, expected, got."""
