"""The page that a student holds: what its script and its drawings share."""
