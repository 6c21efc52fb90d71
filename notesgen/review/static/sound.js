// Phrases and answers to hear, one at a time. What sounds is marked in the drawing.

import { Playing } from "/engine.js";
import { Problem } from "./server.js";

export class Sounder {
  #playing = null; // {of, run}: what it is that plays

  // `say(message)` tells what cannot be sounded.
  constructor(server, say) {
    this.server = server;
    this.say = say;
  }

  // An answer of a query; `drawn` holds its drawing. What plays already is stopped.
  choice(query, option, revision, drawn) {
    return this.#toggle(`${query.id} ${option}`, { query: query.id, option, revision }, drawn);
  }

  phrase(piece, revision, drawn) {
    return this.#toggle(piece.id, { phrase: piece.id, revision }, drawn);
  }

  async #toggle(of, wanted, drawn) {
    const before = this.#playing;
    before?.run.stop();
    if (before?.of === of) return;
    try {
      const sound = await this.server.sounds(wanted);
      if (sound) this.#play(of, sound, drawn);
      else this.say("Nothing sounds here.");
    } catch (problem) {
      if (!(problem instanceof Problem)) throw problem;
      this.say(problem.message);
    }
  }

  #play(of, sound, drawn) {
    const mark = (events) =>
      drawn
        .querySelectorAll("[data-event]")
        .forEach((group) => group.classList.toggle("sounding", events.includes(group.dataset.event)));
    const done = () => (this.#playing = null);
    const wish = { speed: 100, from: 0, to: sound.beats, loop: false, click: false };
    this.#playing = { of, run: new Playing(sound, wish, { mark, done, pass() {} }) };
  }
}
