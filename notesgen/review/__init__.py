"""The page on which a teacher answers: a small server for one folder of lessons, on this machine only."""
