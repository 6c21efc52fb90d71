"""The command line: one small module a command, and the only place that prints."""
