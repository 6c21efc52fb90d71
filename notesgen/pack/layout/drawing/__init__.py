"""A passage of a lesson as an engraved tab, and a position as a diagram of the neck: vector drawings."""
