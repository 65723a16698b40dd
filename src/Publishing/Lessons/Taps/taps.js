"use strict";
const song = JSON.parse(document.getElementById("song").textContent);
const $ = id => document.getElementById(id);
const sound = $("sound"), clicks = $("clicks");
const element = (tag, properties) => Object.assign(document.createElement(tag), properties);
const say = text => { $("say").textContent = text; };
const time = t => { const ms = Math.round(Math.max(0, t) * 1000); return `${Math.floor(ms / 60000)}:${(ms % 60000 / 1000).toFixed(3).padStart(6, "0")}`; };

/* What can be tapped: syllables in order, and the song's beats, the first of each bar its line. The line after the last bar is the end. */
const beats = song.bars.flatMap(bar => bar.beats.slice(0, -1).map((at, beat) => ({ bar: bar.number, beat, at })));
if (beats.length) { const last = song.bars[song.bars.length - 1]; beats.push({ bar: last.number + 1, beat: 0, at: last.beats[last.beats.length - 1] }); }
const taps = { syllable: [], beat: [] };
const past = [];
let kind = "syllable", words = [], next = 0, chosen = null, trial = null, handed = true;

const row = () => kind === "syllable" ? "syllable" : "beat";
const list = () => taps[row()];
const takes = slot => kind !== "bar" || beats[slot].beat === 0;
const within = slot => slot >= 0 && (kind === "syllable" || slot < beats.length);
function beside(slot, by) { do slot += by; while (within(slot) && !takes(slot)); return slot; }
function label(row, slot) {
  if (row === "syllable") return words[slot] || "x";
  if (!beats[slot]) return "the end is tapped";
  const { bar, beat } = beats[slot];
  return beat ? `bar ${bar} beat ${beat + 1}` : bar > song.bars.length ? "the last bar's end" : `bar ${bar}`;
}
const atOf = tap => tap.raw - Number($("delay").value || 0) / 1000 * tap.pace;

/** Where tapping goes on from a time: behind the last tap before it, else at the nearest beat or the first syllable. */
function nextAt(at) {
  const before = list().filter(t => t.raw < at - .001).pop();
  if (before) return beside(before.slot, 1);
  if (kind === "syllable") return 0;
  const slot = beats.findIndex((b, i) => b.at > at - .25 && takes(i));
  return slot < 0 ? beats.length : slot;
}

/** Every change is remembered whole, so that taking back is exact. */
function change(act) {
  past.push(JSON.stringify({ taps, next, kind }));
  act();
  handed = false;
  show();
}
function undo() {
  if (!past.length) return say("There is nothing to take back.");
  const before = JSON.parse(past.pop());
  Object.assign(taps, before.taps);
  setKind(before.kind);
  next = before.next;
  show();
}

/** One tap for the next slot. It replaces an older one of that slot, and whatever would now be out of order. */
function tap(raw, pace) {
  if (!within(next)) return say("All bars are tapped. Go back to tap some again.");
  change(() => {
    taps[row()] = list().filter(t => t.slot < next ? t.raw < raw : t.slot > next && t.raw > raw);
    taps[row()].push({ slot: next, raw, pace });
    list().sort((a, b) => a.slot - b.slot);
    chosen = { row: row(), slot: next };
    next = beside(next, 1);
  });
}
function hit(event) {
  const playing = trial ? clicks : sound;
  const late = playing.paused ? 0 : Math.min(.2, Math.max(0, (performance.now() - event.timeStamp) / 1000));
  const raw = playing.currentTime - late * playing.playbackRate;
  if (trial) return tryTap(raw);
  tap(raw, sound.paused ? 0 : sound.playbackRate);
}

const chosenTap = () => chosen && taps[chosen.row].find(t => t.slot === chosen.slot);
function nudge(by) {
  const tap = chosenTap(), all = taps[chosen.row], i = all.indexOf(tap), raw = tap.raw + by;
  if (raw < 0 || (i > 0 && raw <= all[i - 1].raw) || (i + 1 < all.length && raw >= all[i + 1].raw)) return say("Another tap stands there.");
  change(() => { tap.raw = raw; });
}
function remove() { change(() => { taps[chosen.row] = taps[chosen.row].filter(t => t.slot !== chosen.slot); }); next = nextAt(sound.currentTime); show(); }
function removeRest() { change(() => { taps[row()] = list().filter(t => t.raw < sound.currentTime); }); next = nextAt(sound.currentTime); show(); }

/* The delay: taps along with clicks at known times, by way of the same loudspeaker and key. */
const period = .8, clickCount = 12;
function startTrial() {
  if (trial) return endTrial();
  sound.pause();
  trial = [];
  $("measure").setAttribute("aria-pressed", "true");
  say("Tap along with the clicks.");
  clicks.currentTime = 0;
  clicks.play().catch(() => { trial = null; $("measure").setAttribute("aria-pressed", "false"); say("The browser did not start the clicks; press Measure again."); });
}
function tryTap(raw) {
  const nearest = Math.max(1, Math.min(clickCount, Math.round(raw / period)));
  trial.push((raw - nearest * period) * 1000);
  say(`${trial.length} of 8 taps.`);
  if (trial.length === 8) endTrial();
}
function endTrial() {
  const offs = trial.sort((a, b) => a - b), middle = Math.round((offs[offs.length - 1 >> 1] + offs[offs.length >> 1]) / 2);
  trial = null;
  clicks.pause();
  $("measure").setAttribute("aria-pressed", "false");
  if (offs.length < 5) return say("That were too few taps to tell a delay; nothing is changed.");
  $("delay").value = middle;
  say(`Your taps came ${Math.abs(middle)} ms ${middle < 0 ? "before" : "after"} the clicks; that is taken off now.`);
  show();
}
function clickSound() {
  const rate = 8000, count = Math.round(rate * period * (clickCount + 1)), view = new DataView(new ArrayBuffer(44 + 2 * count));
  const text = (at, word) => [...word].forEach((c, i) => view.setUint8(at + i, c.charCodeAt(0)));
  text(0, "RIFF"); view.setUint32(4, 36 + 2 * count, true); text(8, "WAVEfmt "); view.setUint32(16, 16, true); view.setUint16(20, 1, true); view.setUint16(22, 1, true);
  view.setUint32(24, rate, true); view.setUint32(28, 2 * rate, true); view.setUint16(32, 2, true); view.setUint16(34, 16, true); text(36, "data"); view.setUint32(40, 2 * count, true);
  for (let click = 1; click <= clickCount; click++)
    for (let i = 0; i < 200; i++)
      view.setInt16(44 + 2 * (Math.round(click * period * rate) + i), 6000 * Math.exp(-i / 50) * Math.sin(2 * Math.PI * 1000 * i / rate), true);
  return new Blob([view], { type: "audio/wav" });
}

function readWords() {
  words = $("words").value.split(/\s+/).flatMap(word => word.match(/[^-]+-?/g) || []).map(s => s.replace(/^[|;]+/, "")).filter(s => s && s !== "-");
  show();
}
function setKind(value) {
  kind = value;
  document.querySelector(`[name=kind][value=${value}]`).checked = true;
  $("lyric").hidden = $("slots").hidden = value !== "syllable";
  next = nextAt(sound.currentTime);
}

/* Showing. */
const clock = t => `${Math.floor(t / 60)}:${String(Math.floor(t % 60)).padStart(2, "0")}`;
const line = element("b", { className: "line" });
const barAt = at => { let i = 0; while (i + 1 < song.bars.length && song.bars[i + 1].beats[0] <= at + .001) i++; return i; };
function placeIn(bar, at) {
  const count = bar.beats.length - 1;
  let beat = 0;
  while (beat + 1 < count && bar.beats[beat + 1] <= at) beat++;
  return 100 * Math.max(0, Math.min(1, (beat + (at - bar.beats[beat]) / (bar.beats[beat + 1] - bar.beats[beat])) / count));
}
function drawBars() {
  let section = "";
  for (const [i, bar] of song.bars.entries()) {
    if (bar.section !== section || (i && bar.first)) $("bars").append(element("h2", { textContent: bar.section }));
    section = bar.section;
    const box = element("div", { className: "bar" }), number = element("button", { type: "button", textContent: bar.number, className: "number" });
    number.setAttribute("aria-label", `Go to bar ${bar.number}`);
    number.addEventListener("click", () => goTo(i));
    box.append(number, ...bar.beats.slice(0, -1).map((_, b) => { const tick = element("i", {}); tick.style.left = `${100 * b / (bar.beats.length - 1)}%`; return tick; }));
    $("bars").append(box);
  }
}
const boxes = () => document.querySelectorAll("#bars .bar");
function mark(row, tap) {
  const at = atOf(tap), name = label(row, tap.slot), is = chosen && chosen.row === row && chosen.slot === tap.slot;
  const button = element("button", { type: "button", className: `mark ${row}${is ? " chosen" : ""}` });
  button.append(element("span", { textContent: row === "syllable" ? name : beats[tap.slot].beat ? "·" : "|" + beats[tap.slot].bar }));
  button.setAttribute("aria-label", `${name} at ${time(at)}`);
  button.style.left = `${placeIn(song.bars[barAt(at)], at)}%`;
  button.addEventListener("click", () => { chosen = { row, slot: tap.slot }; show(); });
  return button;
}
/** Words that would run out of their bar stand before their line; those that would overlap stand above each other. */
function spread(box) {
  const marks = [...box.querySelectorAll(".mark.syllable")], edge = box.getBoundingClientRect().right, ends = [];
  for (const mark of marks) mark.classList.toggle("before", mark.getBoundingClientRect().right > edge);
  const places = marks.map(mark => mark.firstChild.getBoundingClientRect()).map(({ left, right }) => {
    const free = ends.findIndex(end => end + 3 <= left), level = free < 0 ? ends.length : free;
    ends[level] = right;
    return level;
  });
  places.forEach((level, i) => marks[i].style.setProperty("--level", level));
  box.style.setProperty("--levels", ends.length);
}
function showSlots() {
  const tapped = new Map(taps.syllable.map(t => [t.slot, t]));
  $("slots").replaceChildren(...words.map((word, slot) => {
    const chip = element("button", { type: "button", textContent: word, className: (tapped.has(slot) ? "tapped" : "") + (slot === next ? " next" : "") });
    if (slot === next) chip.setAttribute("aria-current", "true");
    chip.addEventListener("click", () => chooseSlot(slot, tapped.get(slot)));
    return chip;
  }));
}
/** A tapped syllable is gone back to, a bar early; one that isn't is tapped next. */
function chooseSlot(slot, tap) {
  if (tap) { chosen = { row: "syllable", slot }; seek(Math.max(0, tap.raw - leadIn(barAt(tap.raw)))); }
  next = slot;
  show();
}
const text = () => {
  const lines = [...taps.syllable.map(t => [atOf(t), label("syllable", t.slot)]), ...taps.beat.map(t => { const b = beats[t.slot]; return [atOf(t), `|${b.bar}${b.beat ? "." + (b.beat + 1) : ""}`]; })];
  const delay = Number($("delay").value || 0);
  return lines.length ? `; taps on ${song.title}, ${delay} ms of delay taken off\n` + lines.sort((a, b) => a[0] - b[0]).map(l => `${time(l[0])} ${l[1]}\n`).join("") : "";
};
function show() {
  document.querySelectorAll(".mark").forEach(m => m.remove());
  const all = boxes();
  if (song.bars.length) for (const r of ["beat", "syllable"]) for (const t of taps[r]) all[barAt(atOf(t))].append(mark(r, t));
  all.forEach(spread);
  if (kind === "syllable") showSlots();
  $("next").textContent = label(row(), next);
  $("delayText").textContent = `${Number($("delay").value || 0)} ms`;
  if (kind === "syllable") follow();
  const at = chosenTap();
  $("chosen").textContent = at ? `Chosen: ${label(chosen.row, chosen.slot)} at ${time(atOf(at))}` : "No tap is chosen.";
  for (const id of ["earlier", "later", "remove"]) $(id).disabled = !at;
  const [syllables, lines] = [taps.syllable.length, taps.beat.length];
  $("count").textContent = syllables + lines === 0 ? "No taps yet." : [syllables && `${syllables} syllable${syllables > 1 ? "s" : ""}`, lines && `${lines} beat${lines > 1 ? "s" : ""} or bar line${lines > 1 ? "s" : ""}`].filter(x => x).join(" and ") + " tapped:";
  $("times").value = text();
  showTime();
}
function showTime() {
  const at = sound.currentTime;
  $("clock").textContent = `${clock(at)} / ${clock(song.length)}`;
  if (!song.bars.length) return;
  const index = barAt(at), box = boxes()[index];
  if (line.parentElement !== box) {
    box.append(line);
    follow();
  }
  line.style.left = `${placeIn(song.bars[index], at)}%`;
}

/** Keeps the bar that sounds and the syllable that comes in sight. */
function follow() {
  const bars = $("bars"), slots = $("slots"), box = line.parentElement, chip = slots.querySelector(".next");
  if (box) bars.scrollTop = box.offsetTop - (bars.clientHeight - box.offsetHeight) / 3;
  if (chip) slots.scrollTop = chip.offsetTop - 5;
}

/* Moving. */
const leadIn = index => song.bars.length ? Math.min(4, song.bars[index].beats[song.bars[index].beats.length - 1] - song.bars[index].beats[0]) : 2;
function seek(at) { sound.currentTime = Math.max(0, at); }
/** A bar early, so that the hand gets in; what is tapped next is that bar's. */
function goTo(index) {
  if (!song.bars.length) return;
  const bar = song.bars[Math.max(0, Math.min(song.bars.length - 1, index))];
  seek(bar.beats[0] - leadIn(barAt(bar.beats[0])));
  next = kind === "syllable" ? nextAt(bar.beats[0]) : beats.findIndex(b => b.bar === bar.number);
  show();
}
const barNow = () => barAt(sound.currentTime);
function step(by) { seek(song.bars[Math.max(0, Math.min(song.bars.length - 1, barNow() + by))]?.beats[0] ?? sound.currentTime + 2 * by); next = nextAt(sound.currentTime); show(); }
function play() { if (trial) endTrial(); sound.play().catch(() => say("The browser did not start the sound; press Play.")); }
function setPace(percent) {
  const pace = Math.max(25, Math.min(100, percent));
  $("pace").value = pace;
  $("paceText").textContent = `${pace}%`;
  sound.preservesPitch = true;
  sound.playbackRate = pace / 100;
}
function setPlaying(is) {
  document.body.classList.toggle("playing", is);
  $("play").firstChild.textContent = is ? "Stop" : "Play";
  $("playKey").textContent = is ? "esc" : "space";
  if (!is) document.querySelector(".work").scrollIntoView();
  follow();
}
function frame() { showTime(); if (!sound.paused) requestAnimationFrame(frame); }

/* Handing back. */
function save() {
  const link = element("a", { href: URL.createObjectURL(new Blob([text()], { type: "text/plain" })), download: song.file });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  handed = true;
}
function copy() {
  const chooseAll = () => { $("times").select(); say("The times are marked; copy them with your browser."); };
  if (!navigator.clipboard) chooseAll();
  else navigator.clipboard.writeText(text()).then(() => { handed = true; say("The times are copied."); }, chooseAll);
}

function listenToKeys() {
  const keys = { Escape: () => trial ? endTrial() : sound.pause(), Backspace: undo, ArrowLeft: () => step(-1), ArrowRight: () => step(1), ArrowUp: () => setPace(Number($("pace").value) + 5), ArrowDown: () => setPace(Number($("pace").value) - 5) };
  const busy = () => !sound.paused || trial !== null;
  document.addEventListener("keydown", event => {
    const typing = event.target.matches("textarea, input[type=number]"), choosing = event.target.matches("input") && event.key.startsWith("Arrow");
    if (event.ctrlKey || event.metaKey || event.altKey || typing || choosing) return;
    const key = event.key.length === 1 ? event.key.toLowerCase() : event.key, own = event.target.matches("button, summary, [type=radio]") && !busy();
    const act = key === "f" || key === "j" ? hit : key === " " ? (busy() ? hit : own ? null : play) : keys[key];
    if (!act) return;
    event.preventDefault();
    if (!event.repeat || key.startsWith("Arrow")) act(event);
  });
  // What was clicked keeps no claim on the space bar; what was reached by keys does.
  document.addEventListener("click", event => { if (event.detail > 0) event.target.closest("button, summary, label, [type=radio]")?.blur(); });
  // A space that tapped must not also press the button that has the focus when it is let go.
  document.addEventListener("keyup", event => { if (event.key === " " && busy() && event.target.tagName === "BUTTON") event.preventDefault(); });
}
function listen() {
  $("tap").addEventListener("pointerdown", event => { event.preventDefault(); hit(event); });
  $("tap").addEventListener("click", event => { if (event.detail === 0) hit(event); });
  $("play").addEventListener("click", () => sound.paused ? play() : sound.pause());
  for (const [id, act] of Object.entries({ back: () => step(-1), on: () => step(1), undo, measure: startTrial, earlier: () => nudge(-.01), later: () => nudge(.01), remove, rest: removeRest, save, copy }))
    $(id).addEventListener("click", act);
  $("before").addEventListener("click", () => { const to = beside(next, -1); if (within(to)) next = to; show(); });
  $("after").addEventListener("click", () => { if (within(next)) next = beside(next, 1); show(); });
  $("pace").addEventListener("input", event => setPace(Number(event.target.value)));
  $("delay").addEventListener("input", show);
  $("words").addEventListener("input", readWords);
  for (const radio of document.querySelectorAll("[name=kind]")) radio.addEventListener("change", () => { setKind(radio.value); show(); });
  sound.addEventListener("play", () => { setPlaying(true); requestAnimationFrame(frame); });
  sound.addEventListener("pause", () => { setPlaying(false); show(); });
  sound.addEventListener("seeked", showTime);
  sound.addEventListener("error", () => { $("trouble").textContent = "This browser can't play the sound in this page. Another browser may."; $("trouble").hidden = false; });
  clicks.addEventListener("ended", () => trial && endTrial());
  addEventListener("beforeunload", event => { if (!handed) event.preventDefault(); });
}
function loadSound() {
  const coded = atob($("bytes").textContent.trim()), bytes = Uint8Array.from(coded, c => c.charCodeAt(0));
  sound.src = URL.createObjectURL(new Blob([bytes], { type: $("bytes").dataset.type }));
  clicks.src = URL.createObjectURL(clickSound());
  $("bytes").remove();
}
drawBars();
listen();
listenToKeys();
loadSound();
setPace(100);
readWords();
