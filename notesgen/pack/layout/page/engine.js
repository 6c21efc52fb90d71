// Playing: passes laid end to end on the clock of the Web Audio API, a little ahead of time.

const AHEAD = 1; // seconds of sound prepared before they are heard
const OFTEN = 150; // milliseconds between two looks at the clock
const LEAD = 0.08; // seconds from the press of a key to the first sound
const KEPT = 60; // seconds after which what was laid is forgotten
const DAMP = 0.05; // seconds in which all strings are damped when it stops

let shared = null;

// The page's audio, made when it is first asked for: browsers keep it silent before the reader has pressed a key.
function audio() {
  shared ??= new AudioContext();
  if (shared.state === "suspended") shared.resume();
  return shared;
}

// The way to the loudspeaker: the body of an instrument, roughly. Its resonances are common practice, no source.
function body(context) {
  const stages = [
    new BiquadFilterNode(context, { type: "peaking", frequency: 110, gain: 3, Q: 1.2 }),
    new BiquadFilterNode(context, { type: "peaking", frequency: 220, gain: 2, Q: 1.2 }),
    new BiquadFilterNode(context, { type: "lowpass", frequency: 6500, Q: 0.5 }),
    new GainNode(context, { gain: 0.45 }),
  ];
  stages.reduce((from, to) => from.connect(to)).connect(context.destination);
  return { first: stages[0], level: stages.at(-1).gain };
}

function source(context, samples, at, out) {
  const buffer = new AudioBuffer({ length: samples.length, sampleRate: context.sampleRate });
  buffer.copyToChannel(samples, 0);
  const node = new AudioBufferSourceNode(context, { buffer });
  node.connect(out);
  node.start(at);
  return node;
}

// A sound to samples, faster than it plays: a promise of an AudioBuffer. `options` as for schedule.
function rendered(sound, options = {}, rate = 44100) {
  const pass = schedule(sound, options);
  const ends = Math.max(pass.seconds, ...pass.strokes.map((stroke) => stroke.at + stroke.seconds + RELEASE));
  const context = new OfflineAudioContext(1, Math.ceil(ends * rate), rate);
  const out = body(context).first;
  for (const stroke of pass.strokes) source(context, pluck(stroke, rate), stroke.at, out);
  for (const click of pass.clicks) source(context, knock(click.first, rate), click.at, out);
  return context.startRendering();
}

function inOrder(one, other) {
  return one.at - other.at || other.string - one.string;
}

// One playing of a sound, from the press of Play until it stops.
//   wish  { speed, loop, click, from, to, ladder }; may be changed through change() while it plays
//   told  { mark(events), pass(speed, round), done() }: what to do when notes sound, a pass begins, all is over
class Playing {
  constructor(sound, wish, told) {
    Object.assign(this, { sound, wish, told, context: audio() });
    this.out = body(this.context);
    this.coming = []; // { at, make } still to be made into sound
    this.nodes = new Set();
    this.marks = [];
    this.passes = [];
    this.scheduled = []; // what was laid, for whoever wants to compare it with the lesson
    this.round = 0;
    this.shown = "";
    const start = this.context.currentTime + LEAD;
    this.lay(wish.from, wish.click ? this.count(start) : start);
    this.timer = setInterval(() => this.look(), OFTEN);
    this.look();
    this.draw();
  }

  get speed() {
    return this.wish.ladder ? rung(this.wish.ladder, this.round) : this.wish.speed;
  }

  // Lays the count-in at `at`; gives the time at which it is over.
  count(at) {
    const counted = countIn(this.sound, this.speed);
    this.knock(counted.clicks, at);
    return at + counted.seconds;
  }

  knock(clicks, at) {
    for (const click of clicks) {
      this.coming.push({ at: at + click.at, make: (rate) => knock(click.first, rate) });
    }
  }

  // Lays a pass from beat `from` on, to begin at `at`.
  lay(from, at) {
    const { to, click, loop } = this.wish;
    const speed = this.speed;
    const pass = schedule(this.sound, { speed, from, to, start: this.wish.from, click, loop });
    for (const stroke of pass.strokes) {
      this.coming.push({ at: at + stroke.at, make: (rate) => pluck(stroke, rate) });
    }
    const tones = pass.strokes.flatMap((stroke) => stroke.tones);
    for (const { event, string, midi, at: then, seconds } of tones.sort(inOrder)) {
      this.scheduled.push({ event, string, midi, at: at + then, seconds, round: this.round, speed });
    }
    this.knock(pass.clicks, at);
    this.coming.sort((one, other) => one.at - other.at);
    this.marks.push(...pass.marks.map((mark) => ({ ...mark, at: at + mark.at })));
    const rings = Math.max(0, ...pass.strokes.map((stroke) => stroke.at + stroke.seconds));
    this.passes.push({ at, from, speed, round: this.round, ends: at + pass.seconds, silent: at + rings });
  }

  look() {
    const now = this.context.currentTime;
    for (const pass of this.passes.filter((one) => !one.begun && one.at <= now)) {
      pass.begun = true;
      this.told.pass(pass.speed, pass.round);
    }
    while (this.wish.loop && this.passes.at(-1).ends < now + AHEAD) {
      this.round++;
      this.lay(this.wish.from, this.passes.at(-1).ends);
    }
    this.forget(now);
    while (this.coming.length && this.coming[0].at < now + AHEAD) this.make(this.coming.shift());
    const last = this.passes.at(-1);
    if (!this.wish.loop && now > Math.max(last.ends, last.silent) + RELEASE) this.stop();
  }

  // A loop may go on for an evening.
  forget(now) {
    this.passes = this.passes.filter((pass) => pass.ends > now - KEPT || pass === this.passes.at(-1));
    this.scheduled = this.scheduled.filter((tone) => tone.at > now - KEPT);
  }

  make({ at, make }) {
    const { currentTime, sampleRate } = this.context;
    const node = source(this.context, make(sampleRate), Math.max(at, currentTime), this.out.first);
    this.nodes.add(node);
    node.onended = () => this.nodes.delete(node);
  }

  // Goes on from here with other wishes: speed, click, ladder. `wish.loop` may be set as it is.
  change(wish) {
    const now = this.context.currentTime;
    const here = this.passes.findLast((pass) => pass.at <= now) ?? this.passes[0];
    const beat = here.from + (Math.max(0, now - here.at) * this.sound.tempo * here.speed) / 6000;
    Object.assign(this.wish, wish);
    this.hush();
    this.out = body(this.context);
    this.round = here.round;
    this.scheduled = this.scheduled.filter((tone) => tone.at <= now);
    this.lay(Math.min(beat, this.wish.to), now + LEAD);
  }

  // Takes back all that is laid, and damps what sounds.
  hush() {
    const now = this.context.currentTime;
    this.out.level.setTargetAtTime(0, now, DAMP / 4);
    for (const node of this.nodes) node.stop(now + DAMP);
    this.nodes.clear();
    this.coming = [];
    this.marks = [];
    this.passes = [];
  }

  stop() {
    clearInterval(this.timer);
    cancelAnimationFrame(this.frame);
    this.hush();
    this.told.mark([]);
    this.told.done();
  }

  draw() {
    const now = this.context.currentTime - (this.context.outputLatency || 0);
    this.marks = this.marks.filter((mark) => mark.at + mark.seconds > now);
    const sounding = this.marks.filter((mark) => mark.at <= now).map((mark) => mark.event);
    if (sounding.join() !== this.shown) {
      this.shown = sounding.join();
      this.told.mark(sounding);
    }
    this.frame = requestAnimationFrame(() => this.draw());
  }
}
