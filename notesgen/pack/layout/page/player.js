// The player of a phrase: play, stop, loop, speed, click, and the ladder of tempos.
//
// What the page holds for it. All of it stays hidden until this script has found the sound of the phrase.
//
//   <section data-phrase="p1">                     one a phrase; "rest" for the events that no phrase holds
//     <div class="player" data-phrase="p1" hidden>
//       <button type="button" class="play">Play</button>              its words change to Stop and back
//       <button type="button" class="loop" aria-pressed="false">Loop</button>
//       <label>Speed <input type="range" class="speed" min="40" max="120" step="5" value="100"></label>
//       <output></output>                                             the script writes "100 %"
//       <label><input type="checkbox" class="click"> Click</label>    count-in of four, then each beat
//     </div>
//     <svg> ... <g data-event="e7"> ... </g> ... </svg>               gets the class "sounding" while e7 sounds
//   </section>
//
//   <button type="button" data-ladder="60 5 2 100" data-phrase="p1" data-from="e3" data-to="e9" hidden>
//       Anywhere in the page. Plays p1, or its part from event e3 to event e9 (both may be left out), in a
//       loop that begins at 60 % and rises by 5 after every 2 rounds up to 100. Press it again to stop.
//       The script sets aria-pressed. Speed and loop of the phrase's player follow along. An <output> right
//       behind the button shows the speed while it plays. Events drawn in the nearest element around the
//       button that has any get the class "sounding", as those of the phrase do.
//
//   <script type="application/json" id="sounds">   what sounding.player_data.player_data(lesson) gives
//   <script>                                       what page.script.player_script() gives; at the end of body
//
// Keys, while the focus is within a player: Space plays and stops (on a button, it presses the button), Escape
// stops. One phrase plays at a time. Nothing plays by itself, nothing moves, and nothing is read out but what
// is pressed. `window.notesgen`, at the end, is for other scripts.

const sounds = {}; // by phrase, as player_data has them
const controls = new Map(); // by phrase
let playing = null; // { phrase, run, spot } of what plays now: there is only one

function stop() {
  playing?.run.stop();
}

// Plays a phrase. `views` show it; `spot` is the one of a ladder that was pressed for it.
function play(phrase, wish, views, spot = null) {
  stop();
  const sound = sounds[phrase];
  const told = {
    mark: (events) => views.forEach((view) => view.mark(events)),
    pass: (speed) => views.forEach((view) => view.showSpeed(speed)),
    done: () => {
      playing = null;
      views.forEach((view) => view.showPlaying(false));
    },
  };
  playing = { phrase, spot, run: new Playing(sound, { speed: 100, from: 0, to: sound.beats, ...wish }, told) };
  views.forEach((view) => view.showPlaying(true));
}

function markWithin(root, events) {
  for (const drawn of root.querySelectorAll("[data-event]")) {
    drawn.classList.toggle("sounding", events.includes(drawn.dataset.event));
  }
}

// The controls of one phrase, within `box`; what they mark lies within the section around it.
class Controls {
  constructor(box) {
    this.phrase = box.dataset.phrase;
    this.section = box.closest("section[data-phrase]") ?? box;
    this.button = box.querySelector(".play");
    this.loop = box.querySelector(".loop");
    this.slider = box.querySelector(".speed");
    this.output = box.querySelector("output");
    this.click = box.querySelector(".click");
    // The slider says its value itself; said once more by the output, it would be noise.
    this.output.setAttribute("aria-live", "off");
    this.button.addEventListener("click", () => this.toggle());
    this.loop.addEventListener("click", () => this.setLoop(!this.isLooping));
    this.slider.addEventListener("input", () => this.showSpeed(Number(this.slider.value)));
    this.slider.addEventListener("change", () => this.change({ speed: Number(this.slider.value), ladder: null }));
    this.click.addEventListener("change", () => this.change({ click: this.click.checked }));
    box.addEventListener("keydown", (key) => this.press(key));
    this.showSpeed(Number(this.slider.value));
    box.hidden = false;
  }

  get isPlaying() {
    return playing?.phrase === this.phrase;
  }

  get isLooping() {
    return this.loop.getAttribute("aria-pressed") === "true";
  }

  get wish() {
    return { speed: Number(this.slider.value), loop: this.isLooping, click: this.click.checked };
  }

  toggle() {
    if (this.isPlaying) stop();
    else play(this.phrase, this.wish, [this]);
  }

  change(wish) {
    if (this.isPlaying) playing.run.change(wish);
  }

  setLoop(on) {
    this.loop.setAttribute("aria-pressed", String(on));
    if (this.isPlaying) playing.run.wish.loop = on;
  }

  press(key) {
    const own = key.target.closest("button, input[type=checkbox]");
    if (key.key === "Escape" && this.isPlaying) stop();
    else if (key.key === " " && !own) this.toggle();
    else return;
    key.preventDefault();
  }

  showPlaying(on) {
    this.button.textContent = on ? "Stop" : "Play";
  }

  showSpeed(speed) {
    this.slider.value = speed;
    this.slider.setAttribute("aria-valuetext", `${speed} %`);
    this.output.value = `${speed} %`;
  }

  mark(events) {
    markWithin(this.section, events);
  }
}

// The button of a ladder.
class Spot {
  constructor(button) {
    this.button = button;
    this.drawn = button.closest(":has([data-event])");
    this.output = button.nextElementSibling?.matches("output") ? button.nextElementSibling : null;
    this.output?.setAttribute("aria-live", "off");
    button.addEventListener("click", () => this.toggle());
    button.addEventListener("keydown", (key) => {
      if (key.key === "Escape" && playing?.spot === this) stop();
    });
    this.showPlaying(false);
    button.hidden = false;
  }

  toggle() {
    if (playing?.spot === this) {
      stop();
      return;
    }
    const { phrase, ladder, from, to } = this.button.dataset;
    const shown = controls.get(phrase);
    stop();
    shown.setLoop(true);
    const wish = { ...shown.wish, ...part(sounds[phrase], from, to), ladder: ladderFrom(ladder) };
    play(phrase, wish, [shown, this], this);
  }

  showPlaying(on) {
    this.button.setAttribute("aria-pressed", String(on));
    if (this.output && !on) this.output.value = "";
  }

  showSpeed(speed) {
    if (this.output) this.output.value = `${speed} %`;
  }

  mark(events) {
    if (this.drawn) markWithin(this.drawn, events);
  }
}

// Sets up the players and ladders within `root` that are not set up yet; `more` are sounds by phrase.
function attach(root = document, more = {}) {
  Object.assign(sounds, more);
  const ready = (made) => made.hidden && Object.hasOwn(sounds, made.dataset.phrase);
  for (const box of [...root.querySelectorAll(".player")].filter(ready)) {
    controls.set(box.dataset.phrase, new Controls(box));
  }
  for (const button of [...root.querySelectorAll("[data-ladder]")].filter(ready)) {
    if (controls.has(button.dataset.phrase)) new Spot(button);
  }
}

if (typeof AudioContext === "function") {
  const data = document.getElementById("sounds");
  attach(document, data ? JSON.parse(data.textContent) : {});
}
addEventListener("pagehide", stop);

window.notesgen = {
  // For pages that draw phrases later, or play what they do not draw: attach(root, sounds), then play.
  attach,
  play: (phrase, wish) => play(phrase, wish, controls.has(phrase) ? [controls.get(phrase)] : []),
  stop,
  // For tests: what is played when, the samples that it makes, and what the present playing has laid so far.
  sounds,
  schedule: (phrase, options) => schedule(sounds[phrase], options),
  render: (phrase, options) => rendered(sounds[phrase], options),
  get scheduled() {
    return playing?.run.scheduled ?? [];
  },
};
