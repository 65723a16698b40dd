"use strict";
const song = JSON.parse(document.getElementById("song").textContent);
const $ = id => document.getElementById(id);
const sound = $("sound"), lacksBars = song.bars.length === 0;
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const buttons = [...document.querySelectorAll("[data-bar]")];
let round = null;            // [first bar, last bar] that play goes round, or null
let marked = null;           // the bar touched last, from which shift extends
let choosing = null;         // the bars touched while a stretch is being chosen, or null
let shown = {};

function loadSound() {
  const text = atob($("bytes").textContent.trim()), bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  sound.src = URL.createObjectURL(new Blob([bytes], { type: $("bytes").dataset.type }));
  $("bytes").remove();
}

const startedBy = (list, time, start = x => x) => {
  let low = 0, high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (start(list[middle]) <= time) low = middle + 1; else high = middle;
  }
  return low;
};
const last = (list, time) => startedBy(list, time, x => x.start) - 1;
const clock = t => `${Math.floor(t / 60)}:${String(Math.floor(t % 60)).padStart(2, "0")}`;
const say = text => { $("say").textContent = text; };

for (const bar of song.bars) { bar.start = bar.beats[0]; bar.end = bar.beats[bar.beats.length - 1]; }
for (const section of song.sections)
  for (let i = section.first; i <= section.last; i++) song.bars[i].section = section;
const beatStarts = song.bars.flatMap(b => b.beats.slice(0, -1));
const musicStart = lacksBars ? 0 : song.bars[0].start, musicEnd = lacksBars ? 0 : song.bars[song.bars.length - 1].end;
const firstBeat = lacksBars ? 1 : Math.max(.05, song.bars[0].beats[1] - musicStart);
const beatsToStart = time => Math.max(0, Math.ceil((musicStart - time) / firstBeat - 1e-6));

/** Felt beats until a time, the one sounding included; before the music they are counted as long as its first. */
function beatsUntil(time, until) {
  const inside = Math.max(0, startedBy(beatStarts, until - .02) - startedBy(beatStarts, time));
  return inside + (time < musicStart ? beatsToStart(time) : 1);
}

const barNow = () => last(song.bars, sound.currentTime + 1e-3);

function go(index) {
  if (lacksBars) return;
  sound.currentTime = Math.max(0, song.bars[Math.max(0, Math.min(song.bars.length - 1, index))].start);
  show();
}

function step(by) {
  const now = barNow(), into = now >= 0 ? sound.currentTime - song.bars[now].start : 0;
  go(by < 0 && into > .6 ? now : now + by);
}

function touch(index, extend) {
  if (choosing) {
    choosing.push(index);
    if (choosing.length === 1) return say("Now the last bar.");
    setRound([Math.min(...choosing), Math.max(...choosing)]);
  } else if (extend && marked !== null) setRound([Math.min(marked, index), Math.max(marked, index)]);
  else {
    marked = index;
    if (round && (index < round[0] || index > round[1])) setRound(null);
    go(index);
  }
}

function setRound(range) {
  round = range;
  setChoosing(null);
  buttons.forEach((b, i) => b.classList.toggle("round", !!round && i >= round[0] && i <= round[1]));
  $("again").setAttribute("aria-pressed", String(!!round));
  say(round ? `Going round bars ${song.bars[round[0]].number} to ${song.bars[round[1]].number}.` : "");
  if (round && (sound.currentTime < song.bars[round[0]].start || sound.currentTime >= song.bars[round[1]].end)) go(round[0]);
}

function toggleRound() {
  if (round) return setRound(null);
  if (!lacksBars) { const s = song.bars[Math.max(0, barNow())].section; setRound([s.first, s.last]); }
}

function setChoosing(list) {
  choosing = list;
  $("choose").setAttribute("aria-pressed", String(!!list));
  if (list) say("Touch the first bar, then the last.");
}

function toggleChoosing() { if (choosing) { setChoosing(null); say(""); } else setChoosing([]); }

function setPace(percent) {
  const pace = Math.max(50, Math.min(100, percent));
  $("pace").value = pace;
  $("paceText").textContent = `${pace}%`;
  sound.preservesPitch = true;
  sound.playbackRate = pace / 100;
}

function toggle() {
  if (sound.paused) sound.play().catch(() => say("The browser did not start the sound; press Play."));
  else sound.pause();
}

const copy = drawing => $("d" + drawing).content.cloneNode(true);

function tuningCard() {
  const card = Object.assign(document.createElement("ol"), { className: "tuning" });
  card.append(...song.tuning.map(line => Object.assign(document.createElement("li"), { textContent: line })));
  return card;
}

function showChords(index) {
  const chord = song.chords[index], next = song.chords[index + 1];
  $("now").replaceChildren(...(chord && sound.currentTime < chord.end + .001 ? [copy(chord.drawing)] : []));
  $("next").replaceChildren(...(next ? [copy(next.drawing)] : []));
  const holds = $("now").firstChild, started = sound.currentTime >= musicStart, over = !lacksBars && sound.currentTime >= musicEnd;
  $("held").textContent = holds ? "hold" : over ? "the end" : started ? "no chord" : "get in tune";
  if (!holds && (over || !started)) $("now").replaceChildren(tuningCard());
  document.body.dataset.chord = chord ? chord.name : "";
}

function showBeats(index, bar, beat, wait) {
  const count = bar.beats.length - 1, list = $("beats");
  if (list.children.length !== count)
    list.replaceChildren(...Array.from({ length: count }, (_, i) => Object.assign(document.createElement("li"), { textContent: i + 1 })));
  const lit = index < 0 ? count - wait : beat;
  [...list.children].forEach((li, i) => li.classList.toggle("lit", i === lit));
  $("where").textContent = index < 0 ? (wait > count ? `the music starts in ${Math.ceil(wait * firstBeat)} s` : "count in")
    : beat >= count ? "the end" : `${bar.section.name}, bar ${bar.number} of ${song.bars.length}`;
}

/** Two bars of a section stand together, so that the eye can read on. */
function showLine(index) {
  const section = song.bars[index].section, first = index - (index - section.first) % 2;
  if (shown.first !== first) {
    $("line").replaceChildren(...song.bars.slice(first, Math.min(first + 2, section.last + 1)).map(bar => {
      const strip = document.createElement("div");
      strip.className = "strip";
      strip.append(copy(bar.drawing), Object.assign(document.createElement("small"), { textContent: bar.number }), document.createElement("i"));
      return strip;
    }));
    shown.first = first;
  }
  [...$("line").children].forEach((strip, i) => {
    strip.classList.toggle("here", first + i === index);
    strip.querySelector("i").hidden = first + i !== index;
  });
  return $("line").children[index - first].querySelector("i");
}

function place(bar, time) {
  let beat = startedBy(bar.beats, time) - 1;
  if (beat < 0) return bar.places[0];
  if (beat >= bar.places.length - 1) return bar.places[bar.places.length - 1];
  const within = calm.matches ? 0 : (time - bar.beats[beat]) / (bar.beats[beat + 1] - bar.beats[beat]);
  return bar.places[beat] + within * (bar.places[beat + 1] - bar.places[beat]);
}

function showUntil(time, next) {
  const beats = next ? beatsUntil(time, next.start) : 0;
  if (shown.until === beats) return;
  shown.until = beats;
  const number = Object.assign(document.createElement("strong"), { textContent: beats });
  $("until").replaceChildren(...(next ? ["next in ", number, beats === 1 ? " beat" : " beats"] : ["the last chord"]));
}

function showBreath(time) {
  if (!song.harp.length) return;
  const breath = song.harp[last(song.harp, time)], sounding = breath && time < breath.end, box = $("breath");
  box.hidden = false;
  box.className = "breath" + (sounding ? " " + breath.breath : "");
  box.firstChild.textContent = sounding ? `${breath.holes} ${breath.breath === "blow" ? "↑" : "↓"}` : "–";
  box.lastChild.textContent = sounding ? `harmonica, ${breath.breath}` : "harmonica rests";
}

function show() {
  const time = sound.currentTime, chord = last(song.chords, time), index = last(song.bars, time);
  const holds = chord >= 0 && time < song.chords[chord].end + .001;
  $("clock").textContent = `${clock(time)} / ${clock(song.length)}`;
  if (shown.chord !== chord || shown.holds !== holds) showChords(chord);
  Object.assign(shown, { chord, holds });
  showUntil(time, song.chords[chord + 1]);
  showBreath(time);
  if (lacksBars) return;
  const bar = song.bars[Math.max(0, index)], beat = startedBy(bar.beats, time) - 1, wait = beatsToStart(time);
  if (shown.bar !== index || shown.beat !== beat || shown.wait !== wait) showBeats(index, bar, beat, wait);
  if (shown.bar !== index) buttons.forEach((b, i) => b.classList.toggle("here", i === index));
  Object.assign(shown, { bar: index, beat, wait });
  const marker = showLine(Math.max(0, index));
  marker.style.left = `${100 * place(bar, time)}%`;
  marker.hidden = index < 0 || time >= musicEnd;
}

function frame() {
  if (round && sound.currentTime >= song.bars[round[1]].end - .01) go(round[0]);
  show();
  if (!sound.paused) requestAnimationFrame(frame);
}

buttons.forEach((button, i) => button.addEventListener("click", event => touch(i, event.shiftKey)));
sound.addEventListener("play", () => { $("play").firstChild.textContent = "Pause"; requestAnimationFrame(frame); });
sound.addEventListener("pause", () => { $("play").firstChild.textContent = "Play"; show(); });
sound.addEventListener("seeked", show);
sound.addEventListener("ended", () => { if (round) { go(round[0]); toggle(); } });
sound.addEventListener("error", () => { $("trouble").textContent = "This browser can't play the sound in this page. Another browser may."; $("trouble").hidden = false; });
for (const place of document.querySelectorAll("[data-go]")) place.addEventListener("click", () => go(Number(place.dataset.go)));
$("play").addEventListener("click", toggle);
$("back").addEventListener("click", () => step(-1));
$("on").addEventListener("click", () => step(1));
$("again").addEventListener("click", toggleRound);
$("choose").addEventListener("click", toggleChoosing);
$("pace").addEventListener("input", event => setPace(Number(event.target.value)));

const keys = {
  " ": toggle, r: toggleRound, b: toggleChoosing, ArrowLeft: () => step(-1), ArrowRight: () => step(1),
  ArrowUp: () => setPace(Number($("pace").value) + 5), ArrowDown: () => setPace(Number($("pace").value) - 5),
};
document.addEventListener("keydown", event => {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const act = keys[event.key.length === 1 ? event.key.toLowerCase() : event.key];
  const own = event.key === " " ? event.target.tagName === "BUTTON" : event.target === $("pace") && event.key.startsWith("Arrow");
  if (!act || own) return;
  event.preventDefault();
  act();
});
loadSound();
show();
