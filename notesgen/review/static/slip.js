// The query that is asked: the words with the doubtful part marked, the doubt, and the answers drawn as tab.

import { clock, counted, drawing, el } from "./dom.js";

export const LETTERS = "abcdefghijklm";

export class Slip {
  #options = [];
  #query = null;

  // `does`: {answer(index), sound(index), play(), next(), previous()}
  constructor(place, does) {
    this.place = place;
    this.does = does;
  }

  get query() {
    return this.#query;
  }

  // `query` as the server tells it, `around` its words {before, marked, after}, `open` how many are left.
  show(query, around, left, canPlay) {
    this.#query = query;
    this.#options = query.options.map((label, index) => this.#option(label, index, query.answer));
    this.place.replaceChildren(
      el(
        "header",
        {},
        el("h2", { id: "asked" }, el("span", { class: "number" }, `${query.number}`), ` ${heading(query)}`),
        el("p", { class: "left" }, `${clock(query.start)} · ${counted(left, "query", "queries")} left`),
      ),
      around && el("blockquote", { dir: "auto" }, around.before, " ", el("mark", {}, around.marked), " ", around.after),
      el("p", { class: "doubt", dir: "auto" }, query.message),
      query.answer ? el("p", { class: "answered", dir: "auto" }, said(query)) : "",
      el("ol", { class: "options", "aria-labelledby": "asked" }, this.#options.map((option) => option.item)),
      el(
        "div",
        { class: "tools" },
        canPlay ? tool("Play from here", "p", () => this.does.play()) : "",
        tool("Previous", "←", () => this.does.previous()),
        tool("Next", "→", () => this.does.next()),
      ),
    );
  }

  // The drawings of the answers, which come a moment later: [[svg, ...], ...] in the order of the options.
  draw(query, choices) {
    if (query !== this.#query?.id) return;
    choices.forEach((pictures, index) => {
      const drawn = pictures.map((picture) => drawing(picture.svg, { hidden: true }));
      this.#options[index]?.drawn.replaceChildren(...(drawn.length ? drawn : [el("em", {}, "nothing is written")]));
    });
    for (const id of this.#query.events)
      this.place
        .querySelectorAll(`[data-event="${CSS.escape(id)}"]`)
        .forEach((group) => group.classList.add("asked"));
  }

  focus() {
    (this.#options[0]?.button ?? this.place.querySelector("button"))?.focus({ preventScroll: true });
  }

  // To the answer `by` places further down.
  step(by) {
    const count = this.#options.length;
    if (count) this.#options[(this.marked + by + count) % count].button.focus();
  }

  // The answer on which the keys stand.
  get marked() {
    return Math.max(0, this.#options.findIndex((option) => option.button === document.activeElement));
  }

  drawnOf(option) {
    return this.#options[option].drawn;
  }

  get count() {
    return this.#options.length;
  }

  #option(label, index, answer) {
    const drawn = el("span", { class: "drawn" });
    const button = el(
      "button",
      {
        type: "button",
        class: "option",
        "aria-pressed": answer ? String(answer === label) : null,
        onclick: () => this.does.answer(index),
      },
      el("span", { class: "letter" }, `${LETTERS[index] ?? "·"})`),
      el("span", { class: "label", dir: "auto" }, label, index === 0 ? el("em", {}, " as drafted") : ""),
      drawn,
    );
    const listen = el(
      "button",
      { type: "button", class: "plain listen", onclick: () => this.does.sound(index) },
      "Listen",
    );
    listen.setAttribute("aria-label", `Listen: ${label}`);
    return { button, drawn, item: el("li", {}, button, listen) };
  }
}

const HEADINGS = {
  "string-unsaid": "Which string?",
  "fret-unsure": "Which fret?",
  "count-unsure": "How often?",
  "technique-unsure": "How does it begin?",
  "amount-unsure": "How far is it bent?",
  "reference-unsure": "Which notes are meant?",
  misheard: "Heard rightly?",
  "outside-key": "Outside the key?",
  "outside-position": "Far from the hand?",
  "wrong-way": "The other way?",
  "across-strings": "From string to string?",
  "off-the-neck": "Off the neck?",
  "bend-misses": "Does the bend arrive?",
  "out-of-reach": "Out of reach?",
  "scale-slip": "A slip in the scale?",
  "told-differently": "Told in two ways?",
  "count-mismatch": "How many notes?",
};
export const heading = (query) => HEADINGS[query.kind] ?? "Is this right?";

const said = (query) => (query.by_the_way ? "Another answer settled this." : `You said: ${query.answer}.`);

function tool(label, key, run) {
  return el("button", { type: "button", class: "plain", onclick: run }, label, " ", el("kbd", {}, key));
}
