"""The draft of one lesson: its model, and `lesson.json` in and out."""
