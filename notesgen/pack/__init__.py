"""A lesson to the files that a teacher publishes. One file a format."""
