// The words of the recording, running beside it.

import { clock, el } from "./dom.js";

export class Words {
  #words = [];
  #spans = [];
  #marked = [];
  #spoken = null;

  // `seek(seconds)` moves the recording, and does nothing without one.
  constructor(place, seek) {
    this.place = place;
    this.seek = seek;
  }

  // `cues`: [{start, words: [{text, start, end}]}]
  show(cues) {
    this.#words = cues.flatMap((cue) => cue.words);
    this.#spans = [];
    this.place.replaceChildren(...cues.map((cue) => this.#cue(cue)));
  }

  #cue(cue) {
    const spans = cue.words.map((word) => el("span", { "data-at": this.#spans.length }, word.text));
    spans.forEach((span, index) => (span.dataset.at = this.#spans.length + index));
    this.#spans.push(...spans);
    const spaced = spans.flatMap((span) => [span, " "]);
    const from = el(
      "button",
      { type: "button", tabindex: "-1", class: "from", onclick: () => this.seek(cue.start) },
      clock(cue.start),
    );
    return el("li", {}, from, el("p", { dir: "auto" }, spaced));
  }

  // The words said from `start` to `end`, with some on either side: {before, marked, after} as texts.
  around(start, end, more = 9) {
    const [first, last] = this.#range(start, end);
    if (first > last) return null;
    const text = (from, to) => this.#words.slice(Math.max(0, from), to).map((word) => word.text).join(" ");
    return {
      before: text(first - more, first),
      marked: text(first, last + 1),
      after: text(last + 1, last + 1 + more),
    };
  }

  mark(start, end) {
    this.#marked.forEach((span) => span.classList.remove("doubtful"));
    const [first, last] = this.#range(start, end);
    this.#marked = this.#spans.slice(first, last + 1);
    this.#marked.forEach((span) => span.classList.add("doubtful"));
    this.#bringIn(this.#spans[Math.min(first, this.#spans.length - 1)]);
  }

  // The recording has come to this second.
  runTo(second) {
    const index = this.#at(second);
    const span = index >= 0 && this.#words[index].end + 1 > second ? this.#spans[index] : null;
    if (span === this.#spoken) return;
    this.#spoken?.classList.remove("spoken");
    span?.classList.add("spoken");
    this.#spoken = span;
    if (span) this.#bringIn(span);
  }

  #range(start, end) {
    const near = 0.002; // times are rounded to milliseconds
    if (end - start < near) {
      const at = this.#at(start + near);
      return [Math.max(at, 0), at];
    }
    let first = Math.max(this.#at(start + near), 0);
    while (first < this.#words.length && this.#words[first].end <= start + near) first += 1;
    return [first, this.#at(end - near)];
  }

  // The last word begun at that second, -1 before the first.
  #at(second) {
    let [low, high] = [0, this.#words.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#words[middle].start <= second) low = middle + 1;
      else high = middle;
    }
    return low - 1;
  }

  // Scrolls within the pane only: the page itself stays where the reader is.
  #bringIn(span) {
    if (!span || this.place.scrollHeight <= this.place.clientHeight) return;
    const [line, pane] = [span.getBoundingClientRect(), this.place.getBoundingClientRect()];
    if (line.top < pane.top + 20 || line.bottom > pane.bottom - 20)
      this.place.scrollTop += line.top - pane.top - pane.height / 3;
  }
}
