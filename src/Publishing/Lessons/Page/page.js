"use strict";
const song = JSON.parse(document.getElementById("song").textContent);
const $ = id => document.getElementById(id);
const sound = $("sound");
let round = null;            // [first bar, last bar] that play goes round, or null
let marked = null;           // the bar touched last, from which shift extends
let shown = {};

const last = (list, time) => {
  let low = 0, high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (list[middle].start <= time) low = middle + 1; else high = middle;
  }
  return low - 1;
};
const barEnd = bar => bar.beats[bar.beats.length - 1];
const clock = t => `${Math.floor(t / 60)}:${String(Math.floor(t % 60)).padStart(2, "0")}`;

for (const bar of song.bars) bar.start = bar.beats[0];
const buttons = [];
for (const section of song.sections) {
  const head = document.createElement("h2");
  head.textContent = section.name;
  const list = document.createElement("div");
  list.className = "bars";
  for (let i = section.first; i <= section.last; i++) {
    const bar = song.bars[i], button = document.createElement("button");
    button.innerHTML = `<small></small>`;
    button.firstChild.textContent = bar.number;
    for (const name of bar.names) {
      const b = document.createElement("b");
      b.textContent = name;
      button.append(b);
    }
    button.setAttribute("aria-label", `bar ${bar.number}, ${bar.names.join(" then ") || "no new chord"}`);
    button.addEventListener("click", event => touch(i, event.shiftKey));
    buttons.push(button);
    list.append(button);
  }
  $("form").append(head, list);
}

function touch(index, extend) {
  if (extend && marked !== null) setRound([Math.min(marked, index), Math.max(marked, index)]);
  else { marked = index; if (round && (index < round[0] || index > round[1])) setRound(null); go(index); }
}

function setRound(range) {
  round = range;
  buttons.forEach((b, i) => b.classList.toggle("round", !!round && i >= round[0] && i <= round[1]));
  $("again").setAttribute("aria-pressed", String(!!round));
  if (round && (sound.currentTime < song.bars[round[0]].start || sound.currentTime >= barEnd(song.bars[round[1]]))) go(round[0]);
}

function go(index) {
  const bar = song.bars[Math.max(0, Math.min(song.bars.length - 1, index))];
  if (bar) sound.currentTime = Math.max(0, bar.start);
  show();
}

const barNow = () => last(song.bars, sound.currentTime + 1e-3);
function step(by) {
  const now = barNow(), into = now >= 0 ? sound.currentTime - song.bars[now].start : 0;
  go(by < 0 && into > 0.6 ? now : now + by);
}

function setPace(percent) {
  const pace = Math.max(50, Math.min(100, percent));
  $("pace").value = pace;
  $("paceText").textContent = `${pace}%`;
  sound.preservesPitch = true;
  sound.playbackRate = pace / 100;
}

function toggle() { if (sound.paused) sound.play(); else sound.pause(); }

function put(holder, chord) {
  holder.replaceChildren();
  if (chord) holder.append(document.getElementById("d" + chord.diagram).content.cloneNode(true));
}

function show() {
  const time = sound.currentTime;
  const barIndex = last(song.bars, time), bar = song.bars[Math.max(0, barIndex)];
  const chordIndex = last(song.chords, time), chord = song.chords[chordIndex], next = song.chords[chordIndex + 1];
  if (shown.chord !== chordIndex) {
    put($("now"), chord);
    put($("next"), next);
    document.body.dataset.chord = chord ? chord.name : "";
  }
  const beat = barIndex < 0 ? -1 : bar.beats.filter(t => t <= time).length - 1;
  if (bar && (shown.bar !== barIndex || shown.beat !== beat)) {
    const section = song.sections.find(s => barIndex <= s.last) || song.sections[song.sections.length - 1];
    $("where").textContent = barIndex < 0 ? "count in" : `${section.name}, bar ${bar.number} of ${song.bars.length}`;
    const count = bar.beats.length - 1;
    if ($("beats").children.length !== count) $("beats").replaceChildren(...Array.from({ length: count }, (_, i) => { const li = document.createElement("li"); li.textContent = i + 1; return li; }));
    [...$("beats").children].forEach((li, i) => li.classList.toggle("lit", i === Math.min(beat, count - 1) && time < barEnd(bar)));
    const until = next ? song.bars.flatMap(b => b.beats.slice(0, -1)).filter(t => t > time + 1e-3 && t < next.start - .02).length + 1 : 0;
    $("until").innerHTML = next ? `in <strong>${until}</strong> ${until === 1 ? "beat" : "beats"}` : "the end";
  }
  if (shown.bar !== barIndex && bar) {
    buttons.forEach((b, i) => b.classList.toggle("here", i === barIndex));
    if (!sound.paused && barIndex >= 0) buttons[barIndex].scrollIntoView({ block: "nearest" });
    drawRuler(bar);
  }
  const marker = $("ruler").querySelector("i");
  if (marker && bar) marker.style.left = `${100 * place(bar, time)}%`;
  showBreath(time);
  $("clock").textContent = `${clock(time)} / ${clock(song.length)}`;
  shown = { bar: barIndex, beat, chord: chordIndex };
}

function place(bar, time) {
  const count = bar.beats.length - 1;
  let beat = 0;
  while (beat + 1 < count && time >= bar.beats[beat + 1]) beat++;
  const within = (time - bar.beats[beat]) / (bar.beats[beat + 1] - bar.beats[beat]);
  return Math.max(0, Math.min(1, .01 + .98 * (beat + Math.max(0, Math.min(1, within))) / count));
}

function drawRuler(bar) {
  const ruler = $("ruler");
  ruler.replaceChildren();
  const add = (kind, at, text) => {
    const span = document.createElement("span");
    span.className = kind;
    span.textContent = text;
    span.style.left = `${1 + 98 * at}%`;
    ruler.append(span);
  };
  for (const c of bar.counts) add(c.beat ? "count beat" : "count", c.at, c.word);
  for (const s of bar.strokes) add("stroke", s.at, s.text);
  for (const s of bar.sung) add("sung", s.at, s.text);
  ruler.append(document.createElement("i"));
}

function showBreath(time) {
  if (!song.harp.length) return;
  const breath = song.harp[last(song.harp, time)], sounding = breath && time < breath.end;
  const box = $("breath");
  box.hidden = false;
  box.className = "breath" + (sounding ? " " + breath.breath : "");
  box.innerHTML = "<span></span><small></small>";
  box.firstChild.textContent = sounding ? `${breath.holes} ${breath.breath === "blow" ? "↑" : "↓"}` : "–";
  box.lastChild.textContent = sounding ? `harmonica, ${breath.breath}` : "harmonica rests";
}

function frame() {
  if (round) {
    const end = barEnd(song.bars[round[1]]);
    if (sound.currentTime >= end - .01) go(round[0]);
  }
  show();
  if (!sound.paused) requestAnimationFrame(frame);
}

sound.addEventListener("play", () => { $("play").firstChild.textContent = "Pause "; requestAnimationFrame(frame); });
sound.addEventListener("pause", () => { $("play").firstChild.textContent = "Play "; show(); });
sound.addEventListener("seeked", show);
sound.addEventListener("ended", () => { if (round) { go(round[0]); sound.play(); } });
$("play").addEventListener("click", toggle);
$("back").addEventListener("click", () => step(-1));
$("on").addEventListener("click", () => step(1));
$("again").addEventListener("click", toggleRound);
$("pace").addEventListener("input", e => setPace(Number(e.target.value)));

function toggleRound() {
  if (round) return setRound(null);
  const now = Math.max(0, barNow()), section = song.sections.find(s => now <= s.last);
  if (section) setRound([section.first, section.last]);
}

document.addEventListener("keydown", event => {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const inPace = event.target === $("pace");
  const keys = { " ": toggle, r: toggleRound, R: toggleRound };
  if (!inPace) Object.assign(keys, { ArrowLeft: () => step(-1), ArrowRight: () => step(1), ArrowUp: () => setPace(Number($("pace").value) + 5), ArrowDown: () => setPace(Number($("pace").value) - 5) });
  const act = keys[event.key];
  if (!act || (event.key === " " && event.target.tagName === "BUTTON" && event.target !== $("play"))) return;
  event.preventDefault();
  act();
});
show();
