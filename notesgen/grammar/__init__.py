"""The grammar files: found, read, compiled to idioms, and tested by their own examples."""
