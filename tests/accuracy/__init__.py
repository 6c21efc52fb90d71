"""How near a draft comes to a lesson transcribed by hand: `python -m tests.accuracy`."""
