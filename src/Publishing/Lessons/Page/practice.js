/* Going round: which bars, what comes before each round, how the pace grows. */
const slowest = 25, fastest = 100;
let round = null;            // [first bar, last bar] that play goes round, or null
let marked = null;           // the bar touched last, from which shift extends
let choosing = null;         // the bars touched while a stretch is being chosen, or null
let grown = null;            // the pace that rounds have grown to, before it is rounded
let waiting = null;          // { words, beat, timer } in the rest or the count before a round

function setPace(percent) {
  const pace = Math.max(slowest, Math.min(fastest, Math.round(percent)));
  $("pace").value = pace;
  $("paceText").textContent = `${pace}%`;
  $("tempo").textContent = `${Math.round(song.tempo * pace / 10) / 10} beats a minute`;
  sound.preservesPitch = true;
  sound.playbackRate = pace / 100;
}

function setRound(range) {
  round = range;
  if (!round && waiting) { stopWaiting(); playOn(); }
  setChoosing(null);
  buttons.forEach((b, i) => b.classList.toggle("round", !!round && i >= round[0] && i <= round[1]));
  $("again").setAttribute("aria-pressed", String(!!round));
  if (round) [$("first").value, $("last").value] = round.map(i => song.bars[i].number);
  say(round ? `Going round bars ${song.bars[round[0]].number} to ${song.bars[round[1]].number}.` : "");
  if (round && (sound.currentTime < song.bars[round[0]].start || sound.currentTime >= song.bars[round[1]].end)) go(round[0]);
  else show();
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

/** The bars written in the two fields; a number that is no bar is put right. */
function roundFromFields() {
  if (lacksBars) return;
  const bars = [$("first"), $("last")].map(field => Math.max(1, Math.min(song.bars.length, Math.round(field.valueAsNumber) || 1)) - 1);
  setRound([Math.min(...bars), Math.max(...bars)]);
}

const roundEnd = () => Math.min(song.bars[round[1]].end, sound.duration || Infinity) - .01;
const roundIsOver = () => round && !waiting && sound.currentTime >= roundEnd();

function nextRound() {
  if ($("faster").checked) {
    const pace = Number($("pace").value), to = percentIn("to"), step = (to - percentIn("from")) / (roundsIn() - 1);
    grown = (Math.round(grown) === pace ? grown : pace) + step;
    if (pace < to) setPace(Math.min(to, grown));
    say(`Next at ${$("pace").value}%.`);
  }
  startRound();
}

/** Goes to the round's first bar, by way of what was asked for before each round. */
function startRound() {
  go(round[0]);
  const [kind, size] = $("before").value.split(" ");
  const bar = song.bars[round[0]], beats = bar.beats.length - 1;
  if (kind === "rest") wait(Number(size), 1, left => ({ words: `again in ${left} s`, beat: -1 }));
  else if (kind === "count") wait(Number(size) * beats, (bar.end - bar.start) / beats / sound.playbackRate, left => {
    const beat = (beats - left % beats) % beats;
    sayClick(0, beat === 0);
    return { words: "count in", beat };
  });
  else playOn();
}

/** Shows and sounds what is left before a round, one step at a time, then plays. */
function wait(left, seconds, tell) {
  waiting = left > 0 ? tell(left) : null;
  if (!waiting) return playOn();
  sound.pause();
  waiting.timer = setTimeout(wait, seconds * 1000, left - 1, seconds, tell);
  show();
}

function stopWaiting() { if (waiting) { clearTimeout(waiting.timer); waiting = null; show(); } }

const percentIn = id => Math.max(slowest, Math.min(fastest, Math.round($(id).valueAsNumber) || fastest));
const roundsIn = () => Math.max(2, Math.min(99, Math.round($("rounds").valueAsNumber) || 2));

function setFaster() {
  if (!$("faster").checked) return;
  $("rounds").value = roundsIn();
  for (const id of ["from", "to"]) $(id).value = percentIn(id);
  if (percentIn("from") >= percentIn("to")) say("Start from a slower pace than the one to reach.");
  setPace(grown = percentIn("from"));
  if (!round) toggleRound();
}
