/* What is seen: the chord to hold and the next, the count, the rows, the breath. */
const small = matchMedia("(max-width: 44rem), (max-height: 30rem)");
const calm = matchMedia("(prefers-reduced-motion: reduce)");
const buttons = [...document.querySelectorAll("[data-bar]")];
let shown = {};

const clock = t => `${Math.floor(t / 60)}:${String(Math.floor(t % 60)).padStart(2, "0")}`;
const say = text => { $("say").textContent = text; };

function tuningCard() {
  const card = element("ol", { className: "tuning" });
  card.append(...song.tuning.map(line => element("li", { textContent: line })));
  card.style.setProperty("--lines", song.tuning.length);
  return card;
}

function showChords(index) {
  const chord = song.chords[index], next = song.chords[index + 1];
  $("now").replaceChildren(...(chord && sound.currentTime < chord.end + .001 ? [copy(chord.drawing)] : []));
  $("next").replaceChildren(...(next ? [copy(next.drawing)] : []));
  const holds = $("now").firstChild, started = sound.currentTime >= musicStart, over = !lacksBars && sound.currentTime >= musicEnd;
  $("held").textContent = holds ? "hold" : over ? "the end" : started ? (song.silences.includes(index) ? "silence" : "no chord") : "get in tune";
  if (!holds && (over || !started)) $("now").replaceChildren(tuningCard());
  document.body.dataset.chord = chord ? chord.name : "";
}

function showBeats(index, bar, beat, wait) {
  const count = bar.beats.length - 1, list = $("beats");
  if (list.children.length !== count)
    list.replaceChildren(...Array.from({ length: count }, (_, i) => element("li", { textContent: i + 1 })));
  list.style.setProperty("--count", count);
  const lit = waiting ? waiting.beat : index < 0 ? count - wait : beat;
  [...list.children].forEach((li, i) => li.classList.toggle("lit", i === lit));
  $("where").textContent = waiting ? waiting.words
    : index < 0 ? (wait > count ? `the music starts in ${Math.ceil(wait * firstBeat)} s` : "count in")
    : beat >= count ? "the end" : `${bar.section.name}, bar ${bar.number} of ${allBars()}`;
}

/** A hand-out keeps the song's numbers: "9 to 12"; a whole song is "all 30". */
function allBars() {
  const first = song.bars[0].number, last = song.bars[song.bars.length - 1].number;
  return first === 1 ? `all ${last}` : `${first} to ${last}`;
}

function showUntil(time, next) {
  const beats = next ? beatsUntil(time, next.start) : 0;
  if (shown.until === beats) return;
  shown.until = beats;
  $("until").replaceChildren(...(next ? ["next in ", element("strong", { textContent: beats }), beats === 1 ? " beat" : " beats"] : ["the last chord"]));
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
  if (shown.bar !== index || shown.beat !== beat || shown.wait !== wait || shown.waiting !== waiting) showBeats(index, bar, beat, wait);
  if (shown.bar !== index) buttons.forEach((b, i) => b.classList.toggle("here", i === index));
  Object.assign(shown, { bar: index, beat, wait, waiting });
  showRows(Math.max(0, index), round);
  moveMarker(time, index >= 0 && time < musicEnd, calm.matches);
}

function fit() { fitRows(); shown = {}; show(); }
