"""The lesson as a printed hand-out: what stands on it, and the template that sets it."""
