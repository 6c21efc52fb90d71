// When things sound, in seconds. Pure: nothing here touches the page or makes a sound.
//
// A sound is a phrase as player_data gives it: tempo, beats, and tones that count in beats. A stroke is one
// pluck of a string with all that sounds on from it: hammer-ons, pull-offs, slides, releases.

const COUNT_IN = 4;
const NEAR = 1e-6;

// One pass through a sound, or through its part from beat `from` to beat `to`; all times from the pass's start.
//   seconds  until the next pass: the part is filled up to whole beats, counted from `start`
//   strokes  [{ string, at, seconds, tones: [{ event, string, midi, begins, voice, loud, at, seconds, curve }] }]
//            a tone's `at` counts from the pass, its curve's times from the tone: [seconds, semitones]
//   marks    [{ event, at, seconds }], what is played when: each until the next one begins
//   clicks   [{ at, first }], one a beat where `click` is wanted
// `speed` in per cent of the tempo. A part and a `loop` end on their beat; else the last tones may ring on.
function schedule(sound, { speed = 100, from = 0, to = sound.beats, start = from, click, loop } = {}) {
  const beat = 6000 / (sound.tempo * speed);
  const close = start + Math.ceil(to - start - NEAR);
  const end = loop || to < sound.beats - NEAR ? close : Infinity;
  const tones = sound.tones
    .filter((tone) => tone.beat > from - NEAR && tone.beat < to - NEAR)
    .map((tone) => timed(tone, from, end, beat));
  return {
    seconds: (close - from) * beat,
    strokes: strokes(tones),
    marks: marks(tones),
    clicks: click ? clicks(from, close, beat) : [],
  };
}

// The clicks before the first pass, the first of them at 0.
function countIn(sound, speed) {
  const beat = 6000 / (sound.tempo * speed);
  const counted = Array.from({ length: COUNT_IN }, (_, n) => ({ at: n * beat, first: n === 0 }));
  return { seconds: COUNT_IN * beat, clicks: counted };
}

// The beats from event `first` to event `last` where they first come; the whole sound where they are not said.
function part(sound, first, last) {
  const start = first ? sound.tones.findIndex((tone) => tone.event === first) : 0;
  if (start < 0) return { from: 0, to: sound.beats };
  const from = sound.tones[start].beat;
  const rest = last ? sound.tones.slice(start).filter((tone) => tone.event === last) : [];
  if (!rest.length) return { from, to: sound.beats };
  const next = sound.tones.find((tone) => tone.beat > rest[0].beat + NEAR && tone.event !== last);
  const ends = next ? next.beat : Math.max(...rest.map((tone) => tone.beat + tone.length));
  return { from, to: ends };
}

// The speed of a round, the first being 0: "50 10 3 100" begins at 50 % and rises by 10 after every 3 rounds.
function rung(ladder, round) {
  return Math.min(ladder.top, ladder.start + ladder.step * Math.floor(round / ladder.rounds));
}

function ladderFrom(text) {
  const [start, step, rounds, top] = text.trim().split(/\s+/).map(Number);
  return { start, step, rounds: Math.max(1, rounds || 1), top: top || 100 };
}

function timed(tone, from, end, beat) {
  const length = Math.min(tone.length, end - tone.beat);
  return {
    event: tone.event,
    string: tone.string,
    midi: tone.midi,
    begins: tone.begins ?? "plucked",
    voice: tone.voice ?? "string",
    loud: tone.loud,
    at: (tone.beat - from) * beat,
    seconds: length * beat,
    curve: (tone.curve ?? []).map(([at, semitones]) => [at * beat, semitones]),
  };
}

function strokes(tones) {
  const made = [];
  const last = new Map();
  for (const tone of tones) {
    const open = last.get(tone.string);
    const joined = tone.begins === "slurred" || tone.begins === "held";
    if (open && joined && Math.abs(open.at + open.seconds - tone.at) < 1e-3) {
      open.tones.push(tone);
      open.seconds = tone.at + tone.seconds - open.at;
    } else {
      const stroke = { string: tone.string, at: tone.at, seconds: tone.seconds, tones: [tone] };
      made.push(stroke);
      last.set(tone.string, stroke);
    }
  }
  return made;
}

function marks(tones) {
  const made = [];
  for (const tone of tones) {
    const last = made.at(-1);
    if (last && last.event === tone.event && tone.at <= last.at + last.seconds + 1e-3) {
      last.seconds = Math.max(last.seconds, tone.at + tone.seconds - last.at);
    } else {
      if (last) last.seconds = Math.min(last.seconds, tone.at - last.at);
      made.push({ event: tone.event, at: tone.at, seconds: tone.seconds });
    }
  }
  return made;
}

function clicks(from, to, beat) {
  const first = Math.ceil(from - NEAR);
  return Array.from({ length: Math.max(0, Math.ceil(to - NEAR) - first) }, (_, n) => ({
    at: (first + n - from) * beat,
    first: false,
  }));
}
