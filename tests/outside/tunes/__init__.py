"""The main job against music that nobody here wrote: a tune in words and captions, and back."""
