"""How far each drafted note can be trusted: what speaks for and against it, as a probability."""
