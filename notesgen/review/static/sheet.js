// The tab: all phrases, the note that is chosen, and the passage around it.

import { clock, drawing, el } from "./dom.js";

export class Sheet {
  #pieces = new Map(); // id: {data, section}
  #order = [];
  #chosen = null; // {event, string, from}: `from` is where a passage begins, the same event for one note

  // `chose()` is called when another note is chosen, or none.
  constructor(place, chose) {
    this.place = place;
    this.chose = chose;
    place.addEventListener("click", (click) => this.#clicked(click));
  }

  show(proof) {
    for (const piece of proof.pieces) {
      const section = this.#section(piece);
      this.#pieces.get(piece.id)?.section.replaceWith(section);
      this.#pieces.set(piece.id, { data: piece, section });
    }
    const sections = proof.order.map((id) => this.#pieces.get(id).section);
    if (!same(sections, [...this.place.children])) this.place.replaceChildren(...sections);
    this.#order = proof.order;
    if (this.#chosen && !this.find(this.#chosen.event)) this.choose(null);
    else this.#tint();
  }

  get events() {
    return this.#order.flatMap((id) => this.#pieces.get(id).data.events);
  }

  find(event) {
    return this.events.find((one) => one.id === event) ?? null;
  }

  pieceOf(event) {
    const id = this.#order.find((one) => this.#pieces.get(one).data.events.some((each) => each.id === event));
    return id === undefined ? null : this.#pieces.get(id).data;
  }

  piece(id) {
    return this.#pieces.get(id)?.data ?? null;
  }

  get chosen() {
    return this.#chosen;
  }

  // All notes of the passage that is chosen, in order.
  get passage() {
    if (!this.#chosen) return [];
    const ids = this.events.map((event) => event.id);
    const ends = [ids.indexOf(this.#chosen.from), ids.indexOf(this.#chosen.event)].sort((a, b) => a - b);
    return this.events.slice(Math.max(ends[0], 0), ends[1] + 1);
  }

  choose(event, { string = null, from = event } = {}) {
    const found = event === null ? null : this.find(event);
    const held = found?.notes.some((note) => note.string === string) ? string : found?.notes[0].string;
    this.#chosen = found && { event, string: held, from: this.find(from) ? from : event };
    this.#tint();
    if (found) this.bringIn(event);
    this.chose();
  }

  // To the note `by` places further on; `stretch` keeps the passage's other end.
  step(by, stretch = false) {
    const events = this.events;
    const at = events.findIndex((event) => event.id === this.#chosen?.event);
    const next = events[Math.min(Math.max(at + by, 0), events.length - 1)];
    if (next) this.choose(next.id, { string: this.#chosen?.string, from: stretch ? this.#chosen.from : next.id });
  }

  // To the next string of notes that are struck together.
  nextString() {
    const strings = this.find(this.#chosen.event).notes.map((note) => note.string).sort((a, b) => a - b);
    const string = strings[(strings.indexOf(this.#chosen.string) + 1) % strings.length];
    this.choose(this.#chosen.event, { string, from: this.#chosen.from });
  }

  // The open queries in short, below the phrase that they are about.
  pencil(slips, heading, ask) {
    for (const id of this.#order) {
      const open = slips.filter((query) => query.piece === id && !query.answer);
      const notes = open.map((query) =>
        el(
          "button",
          { type: "button", "data-query": query.id, onclick: () => ask(query.id) },
          `${query.number}  ${heading(query)}`,
        ),
      );
      this.#pieces.get(id).section.querySelector(".pencilled").replaceChildren(...notes);
    }
  }

  // Shows which query is asked, and its notes.
  point(query) {
    this.#each(".asked", (group) => group.classList.remove("asked"));
    query.events.forEach((id) => this.#group(id)?.classList.add("asked"));
    this.#each("[data-query]", (note) => note.dataset.query === query.id ? note.setAttribute("aria-current", "true") : note.removeAttribute("aria-current"));
  }

  // Lets the notes that changed show for a moment.

  flash(events) {
    for (const id of events) {
      const group = this.#group(id);
      group?.classList.add("changed");
      setTimeout(() => group?.classList.remove("changed"), 1600);
    }
  }

  bringIn(event, block = "nearest") {
    const section = this.#pieces.get(this.pieceOf(event)?.id)?.section;
    const target = this.#group(event)?.closest("svg") ?? section;
    target?.scrollIntoView({ block, behavior: calm() ? "auto" : "smooth" });
  }

  bringInPiece(id) {
    this.#pieces.get(id)?.section.scrollIntoView({ block: "start", behavior: calm() ? "auto" : "smooth" });
  }

  #group(event) {
    return this.place.querySelector(`[data-event="${CSS.escape(event)}"]`);
  }

  #each(selector, doThis) {
    this.place.querySelectorAll(selector).forEach(doThis);
  }

  #tint() {
    this.#each(".chosen, .passage, .held", (mark) => mark.classList.remove("chosen", "passage", "held"));
    if (!this.#chosen) return;
    this.passage.forEach((event) => this.#group(event.id)?.classList.add("passage"));
    const group = this.#group(this.#chosen.event);
    group?.classList.add("chosen");
    group?.querySelector(`[data-string="${this.#chosen.string}"]`)?.classList.add("held");
  }

  #clicked(click) {
    const group = click.target.closest("[data-event]");
    if (!group) return;
    const string = Number(click.target.closest("[data-string]")?.dataset.string) || null;
    const stretch = click.shiftKey && this.#chosen;
    this.choose(group.dataset.event, { string, from: stretch ? this.#chosen.from : group.dataset.event });
    this.place.focus({ preventScroll: true });
  }

  #section(piece) {
    const title = piece.title || "Further notes";
    return el(
      "section",
      { class: "piece", "data-piece": piece.id },
      el("h3", {}, el("span", { class: "time" }, clock(piece.start)), " ", el("span", { dir: "auto" }, title)),
      piece.pictures.map((picture) => drawing(picture.svg)),
      el("div", { class: "pencilled" }),
    );
  }
}

const same = (some, others) => some.length === others.length && some.every((one, at) => one === others[at]);
const calm = () => matchMedia("(prefers-reduced-motion: reduce)").matches;
