// The sound of a plucked string, sample by sample.
//
// A burst of noise runs round a delay line as long as a wave of the note, and loses its brightness on the way:
// K. Karplus and A. Strong, "Digital Synthesis of Plucked-String and Drum Timbres", Computer Music Journal 7:2
// (1983). The length of the line follows the pitch, so that bends and slides are heard as on a string.

const A4 = 440; // ISO 16
const RELEASE = 0.06; // seconds in which a string is damped
const HAND = 0.004; // seconds in which a hammer-on or pull-off changes the pitch
const BLOCK = 16; // samples between two looks at the pitch
const LINE = 8192; // samples, enough for the lowest note of any string

// How a string is set going, and how it dies away. `dark`: how much of the burst's brightness is taken before
// it starts; `loss`: how much is lost each time round; `lasts`: seconds until silence, at 110 Hz.
const VOICES = {
  string: { dark: 0.3, loss: 0.15, lasts: 9, gain: 1 },
  muted: { dark: 0.55, loss: 0.4, lasts: 0.6, gain: 1.1 },
  dead: { dark: 0.4, loss: 0.5, lasts: 0.08, gain: 1.2 },
  harmonic: { dark: 0.8, loss: 0.1, lasts: 8, gain: 1 },
};
const BURSTS = { plucked: 1, tapped: 0.7, slurred: 0.3, held: 0 };
const BRIGHT = 300; // hertz; above, less is lost each time round, since it goes round more often
const PICK = 0.13; // where the pick meets the string, as a share of its length

// Samples of a stroke (see schedule.js), at `rate` a second. The same stroke gives the same samples.
function pluck(stroke, rate) {
  const voice = VOICES[stroke.tones[0].voice];
  const out = new Float32Array(Math.ceil((stroke.seconds + RELEASE) * rate));
  const line = new Float32Array(LINE);
  const path = pitchPath(stroke);
  const pushed = bursts(stroke, voice, rate, out.length);
  const loss = voice.loss * Math.min(1, BRIGHT / hertz(stroke.tones[0].midi));
  let delay = 0;
  let target = 0;
  let step = 0;
  let gain = 1;
  let before = 0;
  for (let n = 0; n < out.length; n++) {
    if (n % BLOCK === 0) {
      const frequency = hertz(path((n + BLOCK) / rate));
      const there = lineLength(frequency, rate, loss);
      delay = n ? target : there;
      [step, target] = [(there - delay) / BLOCK, there];
      gain = 10 ** (-3 / (frequency * voice.lasts * Math.min(1.2, (110 / frequency) ** 0.5)));
    }
    const wave = read(line, n, delay);
    const back = gain * ((1 - loss) * wave + loss * before);
    before = wave;
    delay += step;
    line[n % LINE] = back + pushed[n];
    out[n] = line[n % LINE];
  }
  damp(out, stroke.seconds * rate);
  return out;
}

// A click: a short high knock, higher where a count begins.
function knock(first, rate) {
  const out = new Float32Array(Math.round(0.05 * rate));
  const pitch = first ? 1760 : 1320;
  for (let n = 0; n < out.length; n++) {
    out[n] = 0.5 * Math.sin((2 * Math.PI * pitch * n) / rate) * Math.exp((-n / rate) * 120) * (1 - n / out.length);
  }
  return out;
}

function hertz(midi) {
  return A4 * 2 ** ((midi - 69) / 12);
}

// Samples round the line for a frequency: a wave, less what the loss of brightness delays it.
function lineLength(frequency, rate, loss) {
  const turn = (2 * Math.PI * frequency) / rate;
  const late = Math.atan2(loss * Math.sin(turn), 1 - loss + loss * Math.cos(turn)) / turn;
  return Math.min(LINE - 4, Math.max(3, rate / frequency - late));
}

// The line `delay` samples ago, between two samples by a cubic through four (Lagrange).
function read(line, now, delay) {
  const whole = Math.floor(delay);
  const d = delay - whole + 1;
  const [a, b, c] = [d - 1, d - 2, d - 3];
  const at = now - whole + LINE;
  return (
    (-a * b * c * line[(at + 1) % LINE] + 3 * d * b * c * line[at % LINE]) / 6 +
    (-3 * d * a * c * line[(at - 1) % LINE] + d * a * b * line[(at - 2) % LINE]) / 6
  );
}

// The MIDI note, with its parts, at a time of the stroke. To be asked in the order of time.
function pitchPath(stroke) {
  const points = [];
  for (const tone of stroke.tones) {
    const start = tone.at - stroke.at;
    const curve = tone.curve.length ? tone.curve : [[0, 0]];
    const sounding = points.at(-1);
    if (sounding) points.push([start, sounding[1]]);
    const settled = sounding ? start + HAND : start;
    points.push([settled, tone.midi + curve[0][1]]);
    for (const [at, semitones] of curve) points.push([Math.max(settled, start + at), tone.midi + semitones]);
  }
  let next = 1;
  return (seconds) => {
    while (next < points.length && points[next][0] <= seconds) next++;
    const [start, low] = points[next - 1];
    if (next === points.length) return low;
    const [end, high] = points[next];
    return low + ((high - low) * Math.max(0, seconds - start)) / (end - start);
  };
}

// What is pushed into the line, sample by sample: a burst for each tone that a hand sets going.
function bursts(stroke, voice, rate, length) {
  const pushed = new Float32Array(length);
  let sounded = null;
  for (const tone of stroke.tones) {
    const [, begins] = tone.curve[0] ?? [0, 0];
    // A slide has arrived before its note begins: nothing sets the string going again.
    const arrived = sounded !== null && Math.abs(sounded - tone.midi - begins) < 0.01;
    const strength = arrived ? 0 : BURSTS[tone.begins] * tone.loud * voice.gain;
    if (strength > 0) burst(pushed, Math.round((tone.at - stroke.at) * rate), tone, strength, voice.dark, rate);
    sounded = tone.midi + (tone.curve.at(-1)?.[1] ?? 0);
  }
  return pushed;
}

// A wave of noise, darkened, as a pick at PICK of the string makes it: without the partials that have a node there.
function burst(pushed, start, tone, strength, dark, rate) {
  const period = Math.max(4, Math.round(rate / hertz(tone.midi + (tone.curve[0]?.[1] ?? 0))));
  const pick = Math.max(1, Math.round(period * PICK));
  const noise = seeded(tone.string * 128 + tone.midi);
  const wave = new Float32Array(period);
  let soft = 0;
  for (let n = 0; n < period; n++) {
    soft = (1 - dark) * (2 * noise() - 1) + dark * soft;
    wave[n] = soft;
  }
  const shaped = wave.map((value, n) => value - 0.8 * wave[(n - pick + period) % period]);
  const middle = shaped.reduce((sum, value) => sum + value, 0) / period;
  const power = Math.sqrt(shaped.reduce((sum, value) => sum + (value - middle) ** 2, 0) / period) || 1;
  for (let n = 0; n < period && start + n < pushed.length; n++) {
    pushed[start + n] += (0.25 * strength * (shaped[n] - middle)) / power;
  }
}

// Numbers from 0 to 1 that only look random (a 32-bit mix of a counter), the same ones for the same seed.
function seeded(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

function damp(out, from) {
  const first = Math.floor(from);
  for (let n = first; n < out.length; n++) out[n] *= 1 - (n - first) / (out.length - first);
}
