"""What the grammar files hold, once read: phrases, idioms with their examples, misheard words, word lists."""

from __future__ import annotations

from msgspec import Struct

from notesgen.grammar.template import Node


class Example(Struct, frozen=True, forbid_unknown_fields=True):
    """Words and what they must give. See grammars/README.md for how `notes` and `gives` are written."""

    heard: str
    notes: tuple[str, ...] | None = None
    gives: tuple[str, ...] | None = None
    before: str = ""
    known_failure: str = ""


class Not(Struct, frozen=True, forbid_unknown_fields=True):
    """Words that the idiom must leave alone, and why."""

    heard: str
    why: str


class Template(Struct, frozen=True):
    """One wording: its source text, its parsed form, and where it stands."""

    text: str
    node: Node
    file: str
    line: int


class Phrase(Struct, frozen=True):
    """A named piece that templates refer to.

    `value` may quote its slots: "#{ordinal}". `cost` makes it a reading for good company only.
    """

    name: str
    value: str | int | float | None
    say: tuple[Template, ...]
    cost: float = 0.0


class Idiom(Struct, frozen=True):
    """A way of saying one thing. `kind` names the instruction that it becomes; `set` adds fixed slots.

    `cost` makes it a reading to be taken only where nothing better fits; `in_one_breath` allows no pause
    or comma inside it.
    """

    name: str
    kind: str
    about: str
    say: tuple[Template, ...]
    set: dict[str, str | int | float]
    examples: tuple[Example, ...]
    nots: tuple[Not, ...]
    file: str
    cost: float = 0.0
    in_one_breath: bool = False


class Mishearing(Struct, frozen=True, forbid_unknown_fields=True):
    """A word, or one of several, that captions write in place of another.

    `cost` is what the reading must be worth.

    Right behind one of the words `not_after` it is never read so; where `after` and `before` are given, only
    between a word of the one and a word of the other, or a pause. Right before one of `not_before` it is
    never read so either.

    A `word` is no slip: who comes from another English says so. Where `known` holds it is read so only in a
    talk that has the same word in surer company.
    """

    heard: str | tuple[str, ...]
    meant: str
    cost: float = 1.0
    not_after: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    not_before: tuple[str, ...] = ()
    word: bool = False
    known: bool = False


class WordLists(Struct, frozen=True, forbid_unknown_fields=True):
    """Plain lists of words that need no pattern; what each is for stands beside it in the grammar."""

    fillers: tuple[str, ...] = ()
    before_fret: tuple[str, ...] = ()
    after_fret: tuple[str, ...] = ()
    no_things: tuple[str, ...] = ()
    clause_openers: tuple[str, ...] = ()
    sentence_openers: tuple[str, ...] = ()
    sentence_joins: tuple[str, ...] = ()
    fact_names: tuple[str, ...] = ()
    naming_along: tuple[str, ...] = ()
    hesitations: tuple[str, ...] = ()
    stuttered: tuple[str, ...] = ()
    part_nouns: tuple[str, ...] = ()
    interjections: tuple[str, ...] = ()
    ahead: tuple[str, ...] = ()
    second_thoughts: tuple[str, ...] = ()
    scratching: tuple[str, ...] = ()
    mild: tuple[str, ...] = ()
    light: tuple[str, ...] = ()
    pointing: tuple[str, ...] = ()
    pointing_at_several: tuple[str, ...] = ()
    article: tuple[str, ...] = ()
    source: tuple[str, ...] = ()
    one: tuple[str, ...] = ()
    counted_next: tuple[str, ...] = ()
    reaching: tuple[str, ...] = ()
    linking: tuple[str, ...] = ()
    there: tuple[str, ...] = ()
    on_a_string: tuple[str, ...] = ()
    before_a_string: tuple[str, ...] = ()
    with_a_finger: tuple[str, ...] = ()
    between_frets: tuple[str, ...] = ()
    rising: tuple[str, ...] = ()
    falling: tuple[str, ...] = ()
    stating: tuple[str, ...] = ()
    placing: tuple[str, ...] = ()
    again: tuple[str, ...] = ()
    moving_on: tuple[str, ...] = ()
    coming_after: tuple[str, ...] = ()
    done: tuple[str, ...] = ()
    got: tuple[str, ...] = ()
    leading_on: tuple[str, ...] = ()
    differing: tuple[str, ...] = ()
    playing: tuple[str, ...] = ()
    turning_to: tuple[str, ...] = ()
    players: tuple[str, ...] = ()
    sameness: tuple[str, ...] = ()
    beginning: tuple[str, ...] = ()
    settling: tuple[str, ...] = ()
    affirming: tuple[str, ...] = ()
    going_back: tuple[str, ...] = ()
    going_over: tuple[str, ...] = ()
    crossing: tuple[str, ...] = ()
    arriving: tuple[str, ...] = ()
    having: tuple[str, ...] = ()
    there_are: tuple[str, ...] = ()
    determining: tuple[str, ...] = ()
    bend_nouns: tuple[str, ...] = ()
    changing: tuple[str, ...] = ()
    joining: tuple[str, ...] = ()
    together_with: tuple[str, ...] = ()
    going_with: tuple[str, ...] = ()
    striking: tuple[str, ...] = ()
    fingers_play: tuple[str, ...] = ()
    rolling: tuple[str, ...] = ()
    struck: tuple[str, ...] = ()
    strokes: tuple[str, ...] = ()
    damping: tuple[str, ...] = ()
    row_links: tuple[str, ...] = ()
    row_ends: tuple[str, ...] = ()
    at_one_time: tuple[str, ...] = ()
    first: tuple[str, ...] = ()
    by_ones: tuple[str, ...] = ()
    ranging_to: tuple[str, ...] = ()
    as_one: tuple[str, ...] = ()
    finger_nouns: tuple[str, ...] = ()
    thin_side: tuple[str, ...] = ()
    thick_side: tuple[str, ...] = ()
    chord_words: tuple[str, ...] = ()
    read_out: tuple[str, ...] = ()
    string: tuple[str, ...] = ()
    string_names: tuple[str, ...] = ()
    leading_to_fret: tuple[str, ...] = ()
    giving: tuple[str, ...] = ()
    inside: tuple[str, ...] = ()
    palm: tuple[str, ...] = ()
    sounding_on: tuple[str, ...] = ()
    resting: tuple[str, ...] = ()
    purposes: tuple[str, ...] = ()
    locating: tuple[str, ...] = ()
    at_a_fret: tuple[str, ...] = ()
    fret: tuple[str, ...] = ()
    supposing: tuple[str, ...] = ()
    speaker: tuple[str, ...] = ()
    listener: tuple[str, ...] = ()
    past: tuple[str, ...] = ()
    others: tuple[str, ...] = ()
    acting: tuple[str, ...] = ()
    fingering: tuple[str, ...] = ()
    hearing: tuple[str, ...] = ()
    negating: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()
    thumb: tuple[str, ...] = ()
    bass: tuple[str, ...] = ()
    upper: tuple[str, ...] = ()
    every: tuple[str, ...] = ()
    finger_numbers: tuple[str, ...] = ()
    pinching: tuple[str, ...] = ()
    by_means: tuple[str, ...] = ()
    in_voice: tuple[str, ...] = ()
    pinched: tuple[str, ...] = ()
    summing_up: tuple[str, ...] = ()
    idle_before_fret: tuple[str, ...] = ()
    whole: tuple[str, ...] = ()
    harmonics: tuple[str, ...] = ()
    nothing_else: tuple[str, ...] = ()
    each: tuple[str, ...] = ()
    shapes: tuple[str, ...] = ()
    taking_turns: tuple[str, ...] = ()
    upper_voice: tuple[str, ...] = ()
    lower_voice: tuple[str, ...] = ()
    upper_side: tuple[str, ...] = ()
    lower_side: tuple[str, ...] = ()
    apart: tuple[str, ...] = ()
    keeping_on: tuple[str, ...] = ()
    lasting: tuple[str, ...] = ()
    for_good: tuple[str, ...] = ()
    fifths: tuple[str, ...] = ()
    sounding: tuple[str, ...] = ()
    case_by_case: tuple[str, ...] = ()
    powered: tuple[str, ...] = ()
    moved_shape: tuple[str, ...] = ()
    flat: tuple[str, ...] = ()
    barred: tuple[str, ...] = ()
    laying: tuple[str, ...] = ()
    both: tuple[str, ...] = ()
    giving_names: tuple[str, ...] = ()
    ways_over: tuple[str, ...] = ()
    a_pair: tuple[str, ...] = ()
    two: tuple[str, ...] = ()
    so_that: tuple[str, ...] = ()
    now: tuple[str, ...] = ()
    three: tuple[str, ...] = ()
    open: tuple[str, ...] = ()
    denying: tuple[str, ...] = ()
    playing_in: tuple[str, ...] = ()
    naming_a_key: tuple[str, ...] = ()
    sliding: tuple[str, ...] = ()
    hammering: tuple[str, ...] = ()
    pulling: tuple[str, ...] = ()
    no_slide: tuple[str, ...] = ()
    own: tuple[str, ...] = ()
    elsewhere: tuple[str, ...] = ()
    history: tuple[str, ...] = ()
    might: tuple[str, ...] = ()
    following: tuple[str, ...] = ()
    asking: tuple[str, ...] = ()
    it: tuple[str, ...] = ()
    vowel_article: tuple[str, ...] = ()
    bass_things: tuple[str, ...] = ()
    key_things: tuple[str, ...] = ()
    tuning_words: tuple[str, ...] = ()
    basses: tuple[str, ...] = ()
    ukuleles: tuple[str, ...] = ()
    guitars: tuple[str, ...] = ()
    whose: tuple[str, ...] = ()
    no_frets: tuple[str, ...] = ()
    spelled: tuple[str, ...] = ()
    accidentals: tuple[str, ...] = ()
    field_words: tuple[str, ...] = ()
    guitar_words: tuple[str, ...] = ()


class Grammar(Struct, frozen=True):
    """One language, read from its folder."""

    language: str
    phrases: tuple[Phrase, ...]
    idioms: tuple[Idiom, ...]
    mishearings: tuple[Mishearing, ...]
    words: WordLists

    def wordings(self) -> tuple[Template, ...]:
        """Every wording of the language: those of the phrases, then those of the idioms."""
        owners: tuple[Phrase | Idiom, ...] = (*self.phrases, *self.idioms)
        return tuple(template for owner in owners for template in owner.say)
