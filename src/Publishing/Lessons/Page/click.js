/* A click on the beats of the record's own times, made here. */
const ahead = .3;            // seconds of sound that clicks are laid out ahead of the ear
let clicks = null;           // the sound that the page makes itself; made when it is first asked for
let laid = [];               // clicks that have not sounded yet, { start, tone }
let nextBeat = 0;
const firsts = new Set(song.bars.map(bar => bar.start));

const loudness = id => (Number($(id).value) / 100) ** 2;

/** A short soft-edged tone so many seconds from now; the first of a bar is higher. */
function sayClick(wait, first) {
  if (!clicks) return;
  const tone = clicks.createOscillator(), gain = clicks.createGain();
  const start = Math.max(clicks.currentTime, clicks.currentTime + wait - (clicks.outputLatency || 0)), level = Math.max(1e-4, .5 * loudness("clickLoud"));
  tone.frequency.value = first ? 1600 : 1070;
  gain.gain.setValueAtTime(0, start);
  gain.gain.linearRampToValueAtTime(level, start + .002);
  gain.gain.exponentialRampToValueAtTime(1e-4, start + .06);
  tone.connect(gain).connect(clicks.destination);
  tone.start(start);
  tone.stop(start + .07);
  laid = laid.filter(t => t.start > clicks.currentTime);
  laid.push({ start, tone });
}

/** Browsers let a page sound only from a touch or a key on. */
function wakeClicks() {
  if (!$("click").checked && !$("before").value.startsWith("count")) return;
  clicks ??= window.AudioContext ? new AudioContext() : null;
  clicks?.resume();
}

function layClicks() {
  if (!$("click").checked || sound.paused || !clicks) return;
  const until = Math.min(sound.currentTime + ahead * sound.playbackRate, round ? roundEnd() : Infinity);
  for (; nextBeat < beatStarts.length && beatStarts[nextBeat] < until; nextBeat++)
    sayClick((beatStarts[nextBeat] - sound.currentTime) / sound.playbackRate, firsts.has(beatStarts[nextBeat]));
}

/** Takes back what was laid out, and begins again where the record now stands. */
function dropClicks() {
  for (const { start, tone } of laid) if (start > clicks.currentTime) tone.stop();
  laid = [];
  nextBeat = startedBy(beatStarts, sound.currentTime - .03);
}
