// The page of one lesson: keeps what the server told last, and lets the parts show it.

import { byId, counted, el } from "./dom.js";
import * as edits from "./edits.js";
import { NoteCard, inWords } from "./note.js";
import { Recording } from "./recording.js";
import { Lesson, Problem } from "./server.js";
import { Sheet } from "./sheet.js";
import { Slip, heading } from "./slip.js";
import { Sounder } from "./sound.js";
import { Words } from "./words.js";

const SCALE = 1.25; // the tab is drawn larger than on paper
const POINTS = 0.75; // a pixel, in points
const PREVIEW = 235; // points: how wide the answers are drawn
const FIGURES = 1200; // milliseconds in which a second figure joins the first

const oneColumn = () => matchMedia("(max-width: 46rem)").matches;

export class Proofing {
  #proof = { revision: -1, slips: [], strings: [] };
  #asked = null; // the id of the query that is shown
  #typed = null; // the fret that is being typed: {chosen, text, at, revision}
  #pending = 0; // acts that are not answered yet
  #heirs = new WeakMap(); // from a choice in the tab to the one that an act led on to

  constructor(name) {
    this.server = new Lesson(name);
    this.sounder = new Sounder(this.server, (message) => this.say(message));
    this.words = new Words(byId("words"), (second) => this.recording.seek(second));
    this.recording = new Recording(byId("recording"), (second) => this.words.runTo(second));
    this.sheet = new Sheet(byId("sheet"), () => this.#showNote());
    this.slip = new Slip(byId("slip"), {
      answer: (option) => this.answer(option),
      sound: (option) => this.soundAnswer(option),
      play: () => this.recording.playFrom(this.slip.query.start),
      next: () => this.askBeside(1),
      previous: () => this.askBeside(-1),
    });
    this.card = new NoteCard(byId("note"), {
      edit: (make) => this.edit(make),
      insert: (side) => this.insert(side),
      remove: () => this.#onPassage("delete"),
      recap: () => this.#onPassage("recap"),
      rename: (title) => this.edit(({ id }) => ({ act: "rename", event: id, title })),
      split: () => this.edit(({ id }) => ({ act: "split", event: id })),
      join: () => this.edit(({ id }) => ({ act: "join", event: id })),
      sound: () => this.soundPhrase(),
      play: () => this.recording.toggle(this.sheet.find(this.sheet.chosen.event).start),
      leave: () => this.leaveTab(),
      back: () => byId("sheet").focus({ preventScroll: true }),
    });
  }

  async start() {
    const told = await this.server.words();
    this.words.show(told.cues);
    if (told.recording) this.recording.open(told.recording);
    byId("no-recording").hidden = this.recording.isThere;
    await this.refresh(-1);
    this.#next();
    this.server.listen((revision) => revision > this.#proof.revision && this.refresh().catch(this.trouble));
  }

  // --- what the server tells ---

  // How wide (points) the tab is drawn, in steps, so that a few pixels more draw nothing anew.
  get width() {
    const pixels = byId("sheet").clientWidth / (oneColumn() ? 1 : SCALE);
    return Math.max(200, Math.floor((pixels * POINTS - 4) / 10) * 10);
  }

  async refresh(since = this.#proof.revision) {
    this.#take(await this.server.proof(since, this.width));
    this.#showSlip();
    this.#showNote();
  }

  // Does something, and shows what came of it. Keys may be faster than answers: `make()` gives the act only once
  // all acts before it are answered, or null where there is nothing to do; `amends()` gives the revision that it
  // corrects. `after()` is called when the new proof is there.
  async send(make, { amends = () => null, after = () => {} } = {}) {
    const pressed = performance.now();
    let act = null;
    let open = new Set();
    this.#pending += 1;
    try {
      const proof = await this.server.act(() => {
        act = make();
        open = new Set(this.open.map((query) => query.id));
        return act && { do: act, revision: this.#proof.revision, width: this.width, amends: amends() };
      });
      if (!proof) return;
      this.#take(proof);
      after();
    } catch (problem) {
      return this.trouble(problem);
    } finally {
      this.#pending -= 1;
    }
    this.#follow(act, open);
    performance.measure("answer", { start: pressed });
  }

  // Where the eye goes after an act: to the note that undo brought back, to the query that is open again, to the
  // next one.
  #follow(act, openBefore) {
    const { made } = this.#proof.told;
    if (made && this.sheet.chosen && act.act !== "insert") this.sheet.choose(made, { string: this.sheet.chosen.string });
    if (this.sheet.chosen) {
      this.#showSlip();
      return this.#showNote();
    }
    const again = act.act === "undo" && this.open.find((query) => !openBefore.has(query.id));
    return again ? this.ask(again.id) : this.#next();
  }

  #take(proof) {
    this.#proof = proof;
    byId("title").textContent = proof.title;
    document.title = `${proof.title}: answering`;
    byId("facts").replaceChildren(
      ...proof.facts.map(([name, value]) =>
        el("div", {}, el("dt", {}, `${name}:`), el("dd", { dir: "auto" }, value)),
      ),
    );
    byId("undo").disabled = !proof.can_undo;
    byId("redo").disabled = !proof.can_redo;
    byId("unplaced").hidden = proof.unplaced.length === 0;
    byId("unplaced-list").replaceChildren(...proof.unplaced.map((line) => el("li", { dir: "auto" }, line)));
    this.sheet.show(proof);
    this.sheet.pencil(proof.slips, heading, (id) => this.ask(id));
    this.sheet.flash(proof.told.changed);
    if (proof.told.message) this.say(proof.told.message);
  }

  // --- queries ---

  get open() {
    return this.#proof.slips.filter((query) => !query.answer);
  }

  // While an act is not answered, the query on the page may be settled already: nothing is chosen then.
  answer(option) {
    if (this.#pending) return;
    const query = this.slip.query.id;
    this.send(() => ({ act: "choose", query, option }));
  }

  soundAnswer(option) {
    if (!this.slip.count) return;
    this.sounder.choice(this.slip.query, option, this.#proof.revision, this.slip.drawnOf(option));
  }

  ask(id) {
    if (!id) return;
    if (this.sheet.chosen) this.sheet.choose(null);
    this.#asked = id;
    this.#showSlip(true);
  }

  // The query `by` places further on: of the open ones, or of all once none is open.
  askBeside(by) {
    const from = this.open.length ? this.open : this.#proof.slips;
    const at = from.findIndex((query) => query.id === this.#asked);
    this.ask(from[(at + by + from.length) % from.length]?.id);
  }

  // Stays on a query that is open; goes on from one that is answered. Without one, the pack can be made.
  #next() {
    if (!this.open.some((query) => query.id === this.#asked)) this.#asked = this.open[0]?.id ?? null;
    this.#showSlip(true);
    if (!this.#asked && !this.sheet.chosen) byId("pack").focus({ preventScroll: true });
  }

  #showSlip(fresh = false) {
    const left = this.open.length;
    const query = this.#proof.slips.find((one) => one.id === this.#asked);
    byId("left").textContent = left ? `${counted(left, "query", "queries")} left` : "All settled";
    byId("done").hidden = left > 0;
    byId("slip").hidden = !query || this.sheet.chosen !== null;
    if (!query) return;
    const held = document.activeElement?.closest("#slip") !== null;
    this.slip.show(query, this.words.around(query.start, query.end), left, this.recording.isThere);
    this.sheet.point(query);
    if (query.options.length) this.#drawChoices(query);
    if (fresh) this.#bringIn(query);
    if (fresh || held) this.slip.focus();
  }

  // On a phone, where all stands in one column, the question comes first: each choice is drawn in it.
  #bringIn(query) {
    this.words.mark(query.start, query.end);
    if (oneColumn()) byId("slip").scrollIntoView({ block: "start" });
    else if (query.events.length) this.sheet.bringIn(query.events[0]);
    else if (query.piece) this.sheet.bringInPiece(query.piece);
  }

  async #drawChoices(query) {
    try {
      this.slip.draw(query.id, await this.server.choices(query.id, PREVIEW, this.#proof.revision));
    } catch (problem) {
      this.trouble(problem);
    }
  }

  // --- notes ---

  get pitches() {
    return this.#proof.strings.map((string) => string.open);
  }

  // To the first note that the query is about.
  enterTab() {
    const query = this.#proof.slips.find((one) => one.id === this.#asked);
    const events = [...(query?.events ?? []), this.sheet.piece(query?.piece)?.events[0]?.id];
    const first = events.find((id) => id && this.sheet.find(id)) ?? this.sheet.events[0]?.id;
    if (!first) return;
    this.sheet.choose(first);
    byId("sheet").focus({ preventScroll: true });
  }

  leaveTab() {
    this.sheet.choose(null);
    this.#next();
  }

  // `make(event, string)` gives the act for the note that is chosen now, as the note is when its turn comes.
  edit(make, more = {}) {
    const { chosen } = this.sheet;
    return this.send(() => {
      const { event, string } = this.#heir(chosen);
      const found = this.sheet.find(event);
      return found && make(found, string);
    }, more);
  }

  // To a string nearby, at the same fret or at the same pitch.
  move(by, samePitch) {
    const { chosen } = this.sheet;
    const make = (event, string) => {
      const act = edits.string(event, string, string + by, this.pitches, samePitch);
      if (!act) this.say("The note cannot go to that string.");
      return act;
    };
    this.#typed = null;
    return this.edit(make, {
      after: () => {
        const { event, string } = this.#heir(chosen);
        this.#leadOn(chosen, event, string + by);
      },
    });
  }

  insert(side) {
    const { chosen } = this.sheet;
    return this.edit(({ id }) => ({ act: "insert", event: id, side }), {
      after: () => this.#leadOn(chosen, this.#proof.told.made, this.#heir(chosen).string),
    });
  }

  // What a choice in the tab has become: a key that was pressed before the answer came means the moved note, or
  // the new one.
  #heir(chosen) {
    let at = chosen;
    while (this.#heirs.has(at)) at = this.#heirs.get(at);
    return at;
  }

  // On to another note or string, unless something else was chosen meanwhile.
  #leadOn(chosen, event, string) {
    if (!event) return;
    const at = this.#heir(chosen);
    const stays = this.sheet.chosen === at;
    if (stays) this.sheet.choose(event, { string });
    this.#heirs.set(at, stays ? this.sheet.chosen : { event, string });
  }

  // A figure is written at once; a second one that follows soon makes a fret of two figures, in the same step.
  typeFigure(key) {
    const { chosen } = this.sheet;
    const [now, before] = [performance.now(), this.#typed];
    const goesOn = before && this.#heir(before.chosen) === chosen && now - before.at < FIGURES;
    const both = goesOn ? before.text + key : key;
    const joins = goesOn && Number(both) <= edits.HIGHEST && !before.text.startsWith("0");
    const text = joins ? both : key;
    const typed = { chosen, text, at: now, revision: null };
    this.#typed = typed;
    return this.edit((event, string) => edits.fret(event, string, Number(text)), {
      amends: () => (joins ? before.revision : null),
      after: () => (typed.revision = this.#proof.revision),
    });
  }

  soundPhrase() {
    const piece = this.sheet.pieceOf(this.sheet.chosen.event);
    this.sounder.phrase(piece, this.#proof.revision, byId("sheet"));
  }

  // Takes the passage out that is chosen now; what is gone already when its turn comes is passed over.
  #onPassage(act) {
    const passage = this.sheet.passage.map((event) => event.id);
    return this.send(() => {
      const events = passage.filter((id) => this.sheet.find(id));
      return events.length ? { act, events } : null;
    });
  }

  #showNote() {
    const { chosen } = this.sheet;
    byId("note").hidden = !chosen;
    byId("slip").hidden = Boolean(chosen) || !this.#asked;
    if (!chosen) return;
    const event = this.sheet.find(chosen.event);
    const names = this.#proof.strings.map((string) => string.name);
    const piece = this.sheet.pieceOf(event.id);
    this.card.show(event, chosen.string, piece, names, this.pitches, this.sheet.passage.length);
    byId("spoken").textContent = inWords(event, chosen.string, names);
  }

  // --- the pack ---

  async makePack() {
    this.say("Making the pack.");
    try {
      const made = await this.server.pack();
      byId("folder").textContent = `In the folder ${made.folder}:`;
      byId("files").replaceChildren(...made.files.map(fileEntry));
      byId("files").querySelector("a")?.focus();
      this.say("The pack is made.");
    } catch (problem) {
      this.trouble(problem);
    }
  }

  // --- the recording ---

  // One that the teacher gives to the page: the browser plays it by itself, and nothing is sent anywhere.
  openRecording(file) {
    if (!file) return;
    const kind = file.type.startsWith("audio/") ? "audio" : "video";
    this.recording.open({ url: URL.createObjectURL(file), name: file.name, kind });
    byId("no-recording").hidden = true;
    this.#showSlip();
  }

  // --- messages ---

  say(message, isProblem = false) {
    byId("told").textContent = message;
    byId("told").classList.toggle("problem", isProblem);
  }

  trouble = (problem) => {
    if (!(problem instanceof Problem)) throw problem;
    this.say(problem.message, true);
  };
}

function fileEntry(file) {
  const link = el("a", { href: file.link, target: "_blank", rel: "noopener" }, file.name);
  return el("li", {}, link, ` ${file.what}`);
}
