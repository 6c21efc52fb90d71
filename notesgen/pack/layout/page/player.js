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
//       The script sets aria-pressed. Speed and loop of the phrase's player follow along.
//
//   <script type="application/json" id="sounds">   what sounding.player_data.player_data(lesson) gives
//   <script>                                       what page.script.player_script() gives; at the end of body
//
// Keys, while the focus is within a player: Space plays and stops (on a button, it presses the button), Escape
// stops. One phrase plays at a time. Nothing plays by itself, and nothing is read out but what is pressed.
