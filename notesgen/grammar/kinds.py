"""The instructions that an idiom may become, and the slots that each may fill."""

from __future__ import annotations

NOTE_SLOTS = frozenset(
    {
        "fret",
        "from",
        "to",
        "via",
        "string",
        "other_string",
        "other_fret",
        "amount",
        "target",
        "count",
        "finger",
        "letter",
        "mark",
        "side",
        "denied",
    }
)

KINDS: dict[str, frozenset[str]] = {
    # what is played
    "note": NOTE_SLOTS,
    "lettered": frozenset({"place"}),
    "pair": NOTE_SLOTS,
    "shape": NOTE_SLOTS,
    "chord": frozenset({"chord"}),
    "dead": NOTE_SLOTS,
    "hammer-on": NOTE_SLOTS,
    "pull-off": NOTE_SLOTS,
    "slide": NOTE_SLOTS,
    "bend": NOTE_SLOTS,
    "pre-bend": NOTE_SLOTS,
    "release": NOTE_SLOTS,
    "trill": NOTE_SLOTS,
    "tap": NOTE_SLOTS,
    "harmonic": NOTE_SLOTS,
    "legato": NOTE_SLOTS,
    "stroke": NOTE_SLOTS,
    "run": NOTE_SLOTS,
    # how what was just named, or comes next, is played
    "how": frozenset({"how", "count", "fret", "to", "side"}),
    "either": frozenset({"fret", "count", "how"}),
    "mark": frozenset({"mark", "side"}),
    "together": frozenset({"side", "string", "held"}),
    "keep": frozenset({"held", "string"}),
    "owns": frozenset({"finger", "string"}),
    "strum": frozenset(),
    "open-rest": frozenset(),
    "octaves": frozenset(),
    "by-root": frozenset({"string", "other_string", "rise"}),
    "unplayed": frozenset({"side"}),
    "placing": frozenset({"finger"}),
    # where
    "scope": frozenset({"string", "other_string", "count", "rise", "side"}),
    "grip": frozenset({"chord", "finger", "fret", "string", "label"}),
    "position": frozenset({"fret"}),
    "box": frozenset({"fret"}),
    # how often, and again
    "count": frozenset({"count", "side"}),
    "repeat": frozenset({"count"}),
    "recap": frozenset({"label"}),
    "anew": frozenset({"label"}),
    "rest": frozenset({"count"}),
    "again": frozenset({"count", "side"}),
    "recall": frozenset({"fret", "letter", "count", "how", "string", "label", "side", "part"}),
    "earlier": frozenset({"fret", "string"}),
    "same": frozenset(
        {"string", "other_string", "by", "side", "label", "fret", "piece", "count", "how", "part"}
    ),
    "away": frozenset({"over", "back", "by", "down", "rise", "side", "string", "label", "letter"}),
    "shift": frozenset({"by", "how", "side", "fret", "label"}),
    # about the talk itself
    "correction": frozenset({"what", "string", "nth", "fret", "how"}),
    "that-string": frozenset({"string"}),
    "section": frozenset({"label"}),
    "frame": frozenset({"extent", "what"}),
    "aside": frozenset(),
    # facts
    "tuning": frozenset({"tuning", "letters", "order", "string", "to", "each", "amount", "side", "label"}),
    "capo": frozenset({"capo"}),
    "key": frozenset({"tonic", "mode", "style"}),
    "tempo": frozenset({"tempo"}),
    "instrument": frozenset({"instrument", "label"}),
    "naming": frozenset({"naming", "letter"}),
    "letter": frozenset({"letter", "side"}),
    "outside": frozenset({"degree"}),
}

OPEN_KINDS = frozenset({"aside"})  # any slot: its name is the role that the number gets in the ledger
