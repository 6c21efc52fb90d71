"""Bytes to transcript: the one way in for captions."""

from __future__ import annotations

from itertools import pairwise

from msgspec.structs import replace

from notesgen.captions import srt, text, webvtt
from notesgen.captions.arrows import mended
from notesgen.captions.caption import Caption, Reading, Warned
from notesgen.captions.decode import decode
from notesgen.captions.gaps import gaps
from notesgen.captions.rollup import unrolled
from notesgen.captions.timing import Run, runs, timed, windows
from notesgen.captions.transcript import CaptionFormat, Cue, Gap, Transcript, Word
from notesgen.errors import InputError


def read_captions(data: bytes, source: str) -> Transcript:
    """The transcript of a caption file in any format known here, told by its content.

    `source` is the file's name, for messages and for `Transcript.source`. Raises InputError if the data is
    empty, binary, in an unknown encoding or format, or holds no caption with text.
    """
    content, slips = mended(decode(data, source))
    kind, reading = _read(content, source)
    transcript = _transcript(replace(reading, warnings=(*slips, *reading.warnings)), kind, source)
    if not transcript.words:
        raise InputError(_nothing(kind, reading), source)
    return transcript


def _read(content: str, source: str) -> tuple[CaptionFormat, Reading]:
    if webvtt.is_webvtt(content):
        return "webvtt", webvtt.read(content, source)
    if srt.is_srt(content):
        return "srt", srt.read(content)
    if text.is_text(content):
        return "text", text.read(content)
    raise InputError(
        "No caption was found; give WebVTT, SRT, or text whose lines begin with a time like [1:02].", source
    )


def _nothing(kind: CaptionFormat, reading: Reading) -> str:
    if reading.warnings and not reading.captions:
        return "No caption in the file can be read; export the captions again."
    if not reading.captions:
        return "The file has a WebVTT header, but no captions; it may have been cut off, so export it again."
    return "The captions hold no talk; give the captions of a spoken lesson."


def _transcript(reading: Reading, kind: CaptionFormat, source: str) -> Transcript:
    warnings = sorted((*reading.warnings, *_order_warnings(reading.captions)), key=lambda told: told.line)
    ordered = tuple(sorted(reading.captions, key=lambda caption: caption.start))
    captions = ordered if kind == "text" else unrolled(ordered)
    talk = [runs(caption) for caption in captions]
    spans = windows(captions, talk)
    words, labels = _timed(talk, spans, reading.paced)
    cues = tuple(_cue(caption, end) for caption, (_, end) in zip(captions, spans, strict=True))
    duration = max((cue.end for cue in cues), default=0.0)
    return Transcript(
        source=source,
        format=kind,
        cues=cues,
        words=words,
        gaps=gaps(words, sorted(labels, key=lambda label: label.start), duration),
        duration=duration,
        language=reading.language,
        warnings=tuple(f"{source}:{told.line}: {told.text}" for told in warnings),
    )


def _timed(
    talk: list[tuple[Run, ...]], spans: list[tuple[float, float]], paced: bool
) -> tuple[tuple[Word, ...], list[Gap]]:
    """The words of all captions and the stretches that labels name, from each caption's runs and window."""
    words: list[Word] = []
    labels: list[Gap] = []
    for number, (of_caption, (start, end)) in enumerate(zip(talk, spans, strict=True)):
        held = [replace(run, start=min(max(run.start, start), end)) for run in of_caption]
        ends = [*(run.start for run in held[1:]), end]
        for run, run_end in zip(held, ends, strict=False):
            found = timed(run, run_end, number, paced)
            words.extend(found.words)
            labels.extend(found.labels)
    return tuple(words), labels


def _cue(caption: Caption, talk_end: float) -> Cue:
    texts = [row.text for row in caption.rows if row.text]
    line = next((row.line for row in caption.rows if row.text), caption.line)
    end = caption.end if caption.end > caption.start else round(talk_end, 3)
    return Cue(caption.start, end, " ".join(texts), line)


def _order_warnings(captions: tuple[Caption, ...]) -> list[Warned]:
    found = [
        Warned(caption.line, "This caption ends before it begins; its end was estimated.")
        for caption in captions
        if caption.end < caption.start
    ]
    return found + [
        Warned(caption.line, "This caption begins before the one above it; they were put in order.")
        for former, caption in pairwise(captions)
        if caption.start < former.start
    ]
