// The card of the note that is chosen: all that can be changed about it, for the mouse and for the finger.
// Each has a key too, which stands beside it.

import { clock, el } from "./dom.js";
import * as edits from "./edits.js";

const HOWS = {
  pick: "picked",
  "hammer-on": "hammer-on",
  "pull-off": "pull-off",
  slide: "slide",
  bend: "bend",
  "pre-bend": "pre-bend",
  release: "release",
  trill: "trill",
  tap: "tapped",
  harmonic: "harmonic",
};
const AMOUNTS = { 0.5: "a quarter tone", 1: "a half step", 1.5: "¾ of a step", 2: "a whole step", 3: "a step and a half", 4: "two whole steps" };
const MARKS = {
  vibrato: "vibrato",
  "palm-mute": "palm mute",
  "let-ring": "let ring",
  "slide-in": "slide in",
  "slide-out": "slide off",
  staccato: "short",
  accent: "accent",
  rake: "rake",
};

export class NoteCard {
  #event = null;
  #string = null;

  // `does`: {edit(make), insert(side), remove(), recap(), rename(title), split(), join(), sound(), play(), leave(),
  // back()}: `leave` goes to the queries, `back` to the tab.
  constructor(place, does) {
    this.does = does;
    // What the field holds is read at once: it is filled anew with each proof.
    const picked = (make) => (change) => {
      const { value } = change.target;
      does.edit((event, string) => make(event, string, value));
    };
    this.head = el("p", { class: "left" });
    this.fret = el("input", { id: "fret", inputmode: "numeric", size: 3, maxlength: 2, autocomplete: "off", onchange: () => this.#typedFret() });
    this.strings = el("select", { id: "string", onchange: picked((event, string, value) => edits.string(event, string, Number(value), this.open)) });
    this.how = choice("how", HOWS, picked(edits.how));
    this.bend = choice("bend", AMOUNTS, picked((event, string, value) => edits.how(event, string, edits.howOf(event, string), Number(value))));
    this.to = el("input", { id: "to", inputmode: "numeric", size: 3, maxlength: 2, autocomplete: "off", onchange: () => this.#typedTrill() });
    this.marks = Object.entries(MARKS).map(([name, label]) => [name, el("button", { type: "button", class: "plain", "aria-pressed": "false", onclick: () => does.edit((event) => edits.mark(event, name)) }, label)]);
    this.title = el("input", { id: "title", size: 24, maxlength: 200, autocomplete: "off", dir: "auto", onchange: () => does.rename(this.title.value) });
    place.addEventListener("keydown", (press) => {
      if (press.key !== "Enter" || !press.target.matches("input")) return;
      press.target.blur(); // what was typed is taken in
      does.back();
    });
    this.rows = { bend: row("Bent by", this.bend), to: row("Trill with", this.to) };
    place.replaceChildren(
      el("header", {}, el("h2", {}, "This note"), this.head),
      el("div", { class: "fields" }, row("Fret", this.fret, "0–9 x"), row("String", this.strings, "↑ ↓"), row("Begins", this.how, "o h p s b r t"), this.rows.bend, this.rows.to),
      el("div", { class: "tools", role: "group", "aria-label": "Marks" }, this.marks.map(([, button]) => button)),
      tools("Notes", ["Insert before", "i", () => does.insert("before")], ["Insert after", "a", () => does.insert("after")], ["Delete", "Del", () => does.remove()], ["Told over: take out", "m", () => does.recap()]),
      el("div", { class: "fields" }, row("Phrase", this.title, "e")),
      tools("Phrase", ["Begin a phrase here", "[", () => does.split()], ["Join with the one before", "]", () => does.join()]),
      tools("Hear it", ["Listen", "l", () => does.sound()], ["Play the recording", "Space", () => does.play(), "needs-recording"], ["Back to the queries", "Esc", () => does.leave()]),
    );
  }

  // `names` are the strings' names, `open` their pitches; `count` notes are in the passage.
  show(event, string, piece, names, open, count) {
    [this.#event, this.#string, this.open] = [event, string, open];
    this.head.textContent = count > 1 ? `${count} notes, the last at ${clock(event.start)}` : `at ${clock(event.start)}`;
    this.fret.value = edits.fretOf(event, string);
    if (this.strings.options.length !== names.length)
      this.strings.replaceChildren(...names.map((name, at) => el("option", { value: at + 1 }, name)));
    this.strings.value = string;
    this.how.value = edits.howOf(event, string);
    const bend = edits.bendOf(event, string);
    this.bend.value = bend ?? "";
    this.to.value = event.to ?? "";
    this.rows.bend.hidden = !["bend", "pre-bend"].includes(this.how.value);
    this.rows.to.hidden = this.how.value !== "trill";
    for (const [name, button] of this.marks) button.setAttribute("aria-pressed", event.marks.includes(name));
    this.title.value = piece.title;
  }

  #typedFret() {
    const fret = readFret(this.fret.value);
    if (fret === null) this.fret.value = edits.fretOf(this.#event, this.#string);
    else this.does.edit((event, string) => edits.fret(event, string, fret));
  }

  #typedTrill() {
    const fret = readFret(this.to.value);
    if (fret === null || fret === "x") this.to.value = this.#event.to ?? "";
    else this.does.edit((event) => edits.trillTo(event, fret));
  }
}

// A note in words, for the ear: "fret 6 on the B string, hammer-on".
export function inWords(event, string, names) {
  const bend = edits.bendOf(event, string);
  const place = edits.fretOf(event, string);
  const how = edits.howOf(event, string);
  const told = [
    `${place === "x" ? "dead note" : `fret ${place}`} on the ${names[string - 1] ?? `string ${string}`}`,
    HOWS[how] + (bend && AMOUNTS[bend] ? ` by ${AMOUNTS[bend]}` : ""),
    ...event.marks.map((mark) => MARKS[mark]),
  ];
  if (event.notes.length > 1) told.push(`one of ${event.notes.length} struck together`);
  return told.join(", ");
}

function readFret(typed) {
  const text = typed.trim().toLowerCase();
  if (text === "x") return "x";
  return /^\d{1,2}$/.test(text) && Number(text) <= edits.HIGHEST ? Number(text) : null;
}

function choice(id, labels, onchange) {
  return el("select", { id, onchange }, Object.entries(labels).map(([value, label]) => el("option", { value }, label)));
}

function row(label, field, keys = "") {
  return el("p", { class: "field" }, el("label", { for: field.id }, label), field, keys ? el("kbd", {}, keys) : "");
}

function tools(label, ...buttons) {
  return el(
    "div",
    { class: "tools", role: "group", "aria-label": label },
    buttons.map(([words, key, run, kind = ""]) =>
      el("button", { type: "button", class: `plain ${kind}`, onclick: run }, words, " ", el("kbd", {}, key)),
    ),
  );
}
