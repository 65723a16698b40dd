"use strict";
/* The song's data, and where a time stands in it. */
const $ = id => document.getElementById(id);
const song = JSON.parse($("song").textContent);
let widthIndex = 0;           // which of the widths that each bar is drawn in the screen takes
const sound = $("sound"), lacksBars = song.bars.length === 0;

/** How many of the rising starts are at or before a time. */
const startedBy = (list, time, start = x => x) => {
  let low = 0, high = list.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (start(list[middle]) <= time) low = middle + 1; else high = middle;
  }
  return low;
};
const last = (list, time) => startedBy(list, time, x => x.start) - 1;
const element = (name, more) => Object.assign(document.createElement(name), more);
const copy = drawing => $("d" + drawing).content.cloneNode(true);

for (const bar of song.bars) { bar.start = bar.beats[0]; bar.end = bar.beats[bar.beats.length - 1]; }
for (const section of song.sections)
  for (let i = section.first; i <= section.last; i++) song.bars[i].section = section;
const beatStarts = song.bars.flatMap(b => b.beats.slice(0, -1));
const musicStart = lacksBars ? 0 : song.bars[0].start, musicEnd = lacksBars ? 0 : song.bars[song.bars.length - 1].end;
const firstBeat = lacksBars ? 1 : Math.max(.05, song.bars[0].beats[1] - musicStart);
// Times are told in whole milliseconds, so a beat may seem to last a little longer than it does.
const beatsToStart = time => Math.max(0, Math.ceil((musicStart - time) / firstBeat - .02));

/** Felt beats until a time, the one sounding included; before the music they are counted as long as its first. */
function beatsUntil(time, until) {
  const inside = Math.max(0, startedBy(beatStarts, until - .02) - startedBy(beatStarts, time));
  return inside + (time < musicStart ? beatsToStart(time) : 1);
}

const barNow = () => last(song.bars, sound.currentTime + 1e-3);

/** Where a time stands across a bar's drawing, 0 to 1; with less motion it steps from beat to beat. */
function place(bar, time, calm) {
  const beat = startedBy(bar.beats, time) - 1;
  const { places } = bar.widths[widthIndex];
  if (beat < 0) return places[0];
  if (beat >= places.length - 1) return places[places.length - 1];
  const within = calm ? 0 : (time - bar.beats[beat]) / (bar.beats[beat + 1] - bar.beats[beat]);
  return places[beat] + within * (places[beat + 1] - places[beat]);
}

function loadSound() {
  const text = atob($("bytes").textContent.trim()), bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  sound.src = URL.createObjectURL(new Blob([bytes], { type: $("bytes").dataset.type }));
  $("bytes").remove();
}
