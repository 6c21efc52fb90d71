"""A lesson as a score of two staves, notes above tab: what MusicXML is made of."""
