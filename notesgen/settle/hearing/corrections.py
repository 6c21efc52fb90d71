"""Slips put right: what the repair says replaces what the slip said, and the rest of the slip stands.

The terms are Shriberg's (1994, "Preliminaries to a theory of speech disfluencies"): the reparandum is the
step told last, the editing term the words of the correction, the repair the step that comes now.
"""

from __future__ import annotations

from msgspec.structs import replace

from notesgen.settle.step import Step, Voice


def corrected(wrong: Step, step: Step) -> Step:
    """The repair, with what it leaves out taken from the slip: string, technique, bend, marks, partner."""
    how = wrong.how if step.how == "pick" else step.how
    bend = wrong.bend if step.bend is None and how == wrong.how else step.bend
    return replace(
        step,
        voices=_voices(wrong, step),
        how=how,
        bend=bend,
        marks=(*wrong.marks, *(mark for mark in step.marks if mark not in wrong.marks)),
        corrected=_slip(wrong, step),
        before=step.before or wrong.before,
    )


def _slip(wrong: Step, step: Step) -> str:
    """What was said first, in words: the frets, or the string where only that was put right."""
    named, slip = step.voices[0].named, wrong.voices[0].named
    if step.frets != wrong.frets:
        return told(wrong)
    return f"string {slip[0]}" if named and slip and named != slip else told(wrong) if named else ""


def told(step: Step) -> str:
    """The frets of a step in words; a chord at one fret by that fret."""
    return " and ".join(dict.fromkeys(str(fret) for fret in step.frets))


def _voices(wrong: Step, step: Step) -> tuple[Voice, ...]:
    """The repair's voices; one voice puts the second of a pair right, and keeps an unsaid string.

    A chord, and what was moved as a whole, moves as a whole.
    """
    if len(step.voices) != 1:
        return step.voices
    voice = step.voices[0]
    whole = len(wrong.voices) > 2 or (len(wrong.voices) == 2 and wrong.origin == "derived")
    if whole and not voice.named and voice.fret != "x" and "x" not in wrong.frets:
        by = int(voice.fret) - int(wrong.voices[0].fret)
        return tuple(replace(v, fret=max(0, int(v.fret) + by)) for v in wrong.voices)
    slip = wrong.voices[-1]
    mended = voice if voice.named else replace(voice, named=slip.named)
    return (wrong.voices[0], mended) if len(wrong.voices) == 2 else (mended,)
