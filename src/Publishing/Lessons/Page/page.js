/* The player and its controls. */
let running = false;         // playing, or waiting before a round
let lock = null;             // keeps the screen awake
let drawing = 0;             // the next frame's number

function go(index) {
  if (lacksBars) return;
  sound.currentTime = Math.max(0, song.bars[Math.max(0, Math.min(song.bars.length - 1, index))].start);
  dropClicks();
  show();
}

function step(by) {
  const now = barNow(), into = now >= 0 ? sound.currentTime - song.bars[now].start : 0;
  go(by < 0 && into > .6 ? now : now + by);
}

function setRunning(on) {
  running = on;
  document.body.classList.toggle("playing", on);
  $("play").firstChild.textContent = on ? "Pause" : "Play";
  keepAwake();
}

function toggle() {
  if (running) {
    stopWaiting();
    sound.pause();
    return setRunning(false);
  }
  wakeClicks();
  setRunning(true);
  if (round && Math.abs(sound.currentTime - song.bars[round[0]].start) < .05) startRound();
  else playOn();
}

function playOn() {
  sound.play().catch(refusal => {
    if (refusal.name === "AbortError") return;
    setRunning(false);
    say("The browser did not start the sound; press Play.");
  });
}

async function keepAwake() {
  try {
    if (running && !lock && !document.hidden) lock = await navigator.wakeLock?.request("screen");
    if (!running || document.hidden) { const held = lock; lock = null; await held?.release(); }
  } catch { lock = null; }   // A browser may refuse, with a low battery for one; the screen then goes dark as it would.
}

function follow() {
  if (roundIsOver()) return nextRound();
  layClicks();
}

function frame() {
  follow();
  show();
  cancelAnimationFrame(drawing);
  if (!sound.paused) drawing = requestAnimationFrame(frame);
}

function setPractise(open) {
  $("practise").hidden = !open;
  $("how").setAttribute("aria-expanded", String(open));
  if (open) $("practise").scrollIntoView({ block: "nearest" });
}

/** The pace stands in the row where there is room for it, else with the rest of the practising. */
function settle() { (small.matches ? $("paceHome") : $("paceRow")).append($("paceLabel")); }

buttons.forEach((button, i) => button.addEventListener("click", event => touch(i, event.shiftKey)));
for (const place of document.querySelectorAll("[data-go]")) place.addEventListener("click", () => go(Number(place.dataset.go)));
sound.addEventListener("pause", () => { dropClicks(); if (running && !waiting && !sound.ended) setRunning(false); });
sound.addEventListener("play", () => { stopWaiting(); if (!running) setRunning(true); frame(); });
sound.addEventListener("seeked", () => { dropClicks(); show(); });
sound.addEventListener("timeupdate", follow);
sound.addEventListener("ended", () => { if (sound.ended && round) nextRound(); else if (sound.ended) setRunning(false); });
sound.addEventListener("error", () => { $("trouble").textContent = "This browser can't play the sound in this page. Another browser may."; $("trouble").hidden = false; });
document.addEventListener("visibilitychange", keepAwake);
small.addEventListener("change", settle);
$("play").addEventListener("click", toggle);
$("back").addEventListener("click", () => step(-1));
$("on").addEventListener("click", () => step(1));
$("again").addEventListener("click", toggleRound);
$("choose").addEventListener("click", toggleChoosing);
$("how").addEventListener("click", () => setPractise($("practise").hidden));
$("pace").addEventListener("input", event => setPace(Number(event.target.value)));
$("bars").addEventListener("click", roundFromFields);
for (const id of ["faster", "from", "rounds", "to"]) $(id).addEventListener("change", setFaster);
for (const id of ["click", "before"]) $(id).addEventListener("change", () => { wakeClicks(); dropClicks(); });
$("soundLoud").addEventListener("input", () => { sound.volume = loudness("soundLoud"); });

const keys = {
  " ": toggle, r: toggleRound, b: toggleChoosing, h: () => setPractise($("practise").hidden), c: () => $("click").click(),
  ArrowLeft: () => step(-1), ArrowRight: () => step(1),
  ArrowUp: () => setPace(Number($("pace").value) + 5), ArrowDown: () => setPace(Number($("pace").value) - 5),
  Escape: () => { setPractise(false); $("how").focus(); },
};
/** A button that was clicked keeps no claim on the space bar; one that was reached by keys does. */
document.addEventListener("click", event => { if (event.detail > 0) event.target.closest("button, summary")?.blur(); });
document.addEventListener("keydown", event => {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const act = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key], target = event.target;
  const typed = target.matches("input:not([type=range]), select") && event.key !== "Escape";
  const own = event.key === " " ? target.matches("button, summary") : target.matches("input[type=range]") && event.key.startsWith("Arrow");
  if (!act || typed || own) return;
  event.preventDefault();
  act();
});
loadSound();
setPace(fastest);
settle();
fit();
const sizes = new ResizeObserver(fit);
for (const id of ["stage", "count"]) sizes.observe($(id));
