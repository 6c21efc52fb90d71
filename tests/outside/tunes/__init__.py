"""The main job against music that nobody here wrote: tune, fingering, words, captions, draft, the same tune."""
