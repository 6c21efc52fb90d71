"""From what is written to what sounds: pitches, lengths and how they move, phrase by phrase."""
