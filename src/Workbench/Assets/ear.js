/* What is heard: the record at its pace with its pitch kept, the claims sounded beside it, a click on the song's own beats. */
const ahead = .25;           // seconds of clicks that are laid out ahead of the ear
const chunk = 32;            // bars of the claims that are sounded at once
const apart = .04;           // seconds that the claims may run off the record before they are set right

const late = .028;           // seconds that moved pitch comes late

const sides = { both: [1, 0, 0, 1], left: [1, 0, 1, 0], right: [0, 1, 0, 1], mid: [.5, .5, .5, .5], side: [.5, -.5, .5, -.5] };
const bands = { all: [], low: [["lowpass", 250]], middle: [["highpass", 250], ["lowpass", 2000]], high: [["highpass", 2000]] };

/** A place of the stereo picture and a band of frequencies, 24 dB an octave at its edges. */
export function portion(context, side, band) {
  const input = new GainNode(context, { channelCount: 2, channelCountMode: "explicit" });
  const splitter = new ChannelSplitterNode(context, { numberOfOutputs: 2 }), merger = new ChannelMergerNode(context, { numberOfInputs: 2 });
  input.connect(splitter);
  sides[side].forEach((gain, i) => { if (gain) splitter.connect(new GainNode(context, { gain }), i % 2).connect(merger, 0, i >> 1); });
  let output = merger;
  for (const [type, frequency] of bands[band])
    for (const Q of [-5.3, 2.3]) output = output.connect(new BiquadFilterNode(context, { type, frequency, Q }));
  return { input, output };
}

export class Ear {
  round = null;
  countIn = false;
  #song; #record; #own = new Audio(); #told; #times = { bars: [], beats: [], firsts: [] };
  #from = 1; #to = 0; #pace = 1; #mode = "record"; #balance = .5; #loud = .36; #clicks = false; #nextBeat = 0;
  #side = "both"; #band = "all"; #of = ""; #cents = 0; #offline = 0; #asked = 0; #shifts = null; #other = null;
  #context = null; #parts = {}; #laid = []; #frame = 0; #waiting = 0; #base = 0; #version = 0;

  constructor(song, hasRecord, told) {
    this.#song = song;
    this.#told = told;
    this.#record = hasRecord ? new Audio(this.#address("", 0)) : null;
    this.#mode = hasRecord ? "record" : "own";
    for (const sound of [this.#record, this.#own].filter(Boolean)) {
      sound.preload = "auto";
      sound.preservesPitch = true;
      sound.addEventListener("error", () => this.#trouble(sound));
    }
    this.#main.addEventListener("ended", () => this.#ended());
    this.#main.addEventListener("seeked", () => this.#told(this.now, this.playing));
  }

  /** The clock: the record, or where there is none, the claims. */
  get #main() { return this.#record ?? this.#own; }
  get now() { return this.#record ? this.#record.currentTime : this.#base + this.#own.currentTime; }
  get playing() { return this.#waiting !== 0 || !this.#main.paused; }

  /** The time in the record that sounds at this moment. */
  get heard() { return Math.max(0, this.now - (this.playing ? this.#behind * this.#pace : 0)); }

  get #behind() { return (this.#context?.outputLatency || 0) + (this.#cents !== this.#offline ? late : 0); }

  take(times) {
    this.#times = times;
    this.#version++;
    this.#to = 0;
    if (!this.#record && times.bars.length) this.#load(1);
    else if (this.playing) this.#loadFor(this.now);
  }

  toggle() { if (this.playing) this.stop(); else this.play(); }

  stop() {
    clearTimeout(this.#waiting);
    this.#waiting = 0;
    this.#main.pause();
    this.#own.pause();
    this.#dropClicks();
    this.#told(this.now, false);
  }

  play() {
    this.#wake();
    const start = this.round ? this.#times.bars[this.round[0] - 1] : null;
    if (start !== null && (this.now < start - .05 || this.now >= this.#times.bars[this.round[1]] - .02)) this.seek(start);
    if (this.countIn) this.#countIn(); else this.#start();
  }

  seek(time) {
    if (time === undefined) return;
    const to = Math.max(0, time);
    if (this.#record) this.#record.currentTime = to; else this.#seekOwn(to);
    this.#dropClicks();
    this.#loadFor(to);
    this.#told(to, this.playing);
  }

  setRound(bars) {
    this.round = bars;
    if (bars && this.playing) this.seek(this.#times.bars[bars[0] - 1]);
    if (bars) this.#loadFor(this.#times.bars[bars[0] - 1]);
  }

  setPace(pace) {
    this.#pace = pace;
    for (const sound of [this.#record, this.#own].filter(Boolean)) sound.playbackRate = pace;
    this.#dropClicks();
  }

  /** Where in the stereo picture, and of which frequencies, the record is heard. */
  setPortion(side, band) { [this.#side, this.#band] = [side, band]; this.#wake(); this.#wire(); }

  /** @param of "" for all of the record, "struck" or "held" for what is so in it. */
  setOf(of) { this.#of = of; this.#prepare(); }

  /** At once by the browser; then, where it can be had, by the finer way. */
  async setShift(cents) {
    this.#cents = cents;
    this.#wake();
    if (cents !== this.#offline && !this.#shifts) {
      this.#shifts = {};
      try {
        await this.#context.audioWorklet.addModule("/assets/shift.js");
        for (const name of Object.keys(this.#parts)) this.#shifts[name] = new AudioWorkletNode(this.#context, "shift", { outputChannelCount: [2] });
      } catch { this.#shifts = null; this.#say("This browser can't move the pitch."); return; }
    }
    this.#wire();
    clearTimeout(this.#asked);
    this.#asked = setTimeout(() => this.#prepare(), 600);
  }

  /** Goes round these bars and, after each time, the bars that are gone round now; null for no longer. */
  setOther(bars) { this.#other = bars; }
  get other() { return this.#other; }

  /** Another sounding of the record, as soon as it is there; what plays goes on. */
  async #prepare() {
    if (!this.#record) return;
    const [of, cents] = [this.#of, this.#cents], address = this.#address(of, cents);
    if (this.#record.getAttribute("src") === address) return;
    this.#say(of ? `Taking what is ${of} out of the record…` : "");
    const answer = await fetch(address, { headers: { Range: "bytes=0-0" } }).catch(() => null);
    if (of !== this.#of || cents !== this.#cents) return;
    this.#say(answer?.ok || !of ? "" : "This part could not be taken out of the record.");
    if (!answer?.ok) return;
    const at = this.#record.currentTime, plays = !this.#record.paused;
    this.#offline = cents;
    this.#record.src = address;
    this.#record.currentTime = at;
    this.#record.playbackRate = this.#pace;
    this.#wire();
    if (plays) this.#record.play().then(() => this.#run(), () => {});
  }

  #address(of, cents) {
    return `/sounds/record?song=${encodeURIComponent(this.#song)}${of ? `&of=${of}` : ""}${cents ? `&cents=${cents}` : ""}`;
  }

  setClick(on) { this.#clicks = on; this.#wake(); this.#dropClicks(); }

  /** @param balance 0 for the claims alone, 1 for the record alone. */
  setHearing(mode, balance, loud) {
    [this.#mode, this.#balance, this.#loud] = [mode, balance, loud];
    this.#level();
    this.#loadFor(this.now);
    if (this.playing && this.#record) this.#follow();
  }

  /** Something short, by its address. */
  sound(address) {
    this.#wake();
    const sound = new Audio(address);
    sound.volume = Math.min(1, Math.sqrt(this.#loud) * .9);
    sound.play().catch(() => {});
  }

  close() { this.stop(); clearTimeout(this.#asked); cancelAnimationFrame(this.#frame); this.#context?.close(); for (const s of [this.#record, this.#own]) s?.removeAttribute("src"); }

  #wake() {
    if (!this.#context) {
      this.#context = new AudioContext();
      for (const [name, sound] of [["record", this.#record], ["own", this.#own]].filter(([, s]) => s)) {
        const gain = this.#context.createGain(), side = this.#context.createStereoPanner();
        side.connect(this.#context.destination);
        this.#parts[name] = { gain, side, source: this.#context.createMediaElementSource(sound) };
      }
      this.#wire();
      this.#level();
    }
    this.#context.resume();
  }

  /** From each sounding, by the portion and the moved pitch where these are wanted, to its level. */
  #wire() {
    for (const [name, part] of Object.entries(this.#parts)) {
      part.source.disconnect();
      part.portion?.output.disconnect();
      this.#shifts?.[name]?.disconnect();
      let from = part.source;
      if (name === "record" && (this.#side !== "both" || this.#band !== "all")) {
        part.portion = portion(this.#context, this.#side, this.#band);
        from.connect(part.portion.input);
        from = part.portion.output;
      }
      const cents = this.#cents - (name === "record" ? this.#offline : 0);
      if (cents && this.#shifts?.[name]) {
        this.#shifts[name].parameters.get("cents").value = cents;
        from = from.connect(this.#shifts[name]);
      }
      from.connect(part.gain);
      part.gain.connect(part.side);
    }
  }

  #level() {
    const both = this.#mode === "both" || this.#mode === "ears", sides = this.#mode === "ears";
    const record = this.#mode === "own" ? 0 : both ? Math.min(1, 2 * this.#balance) : 1;
    const own = this.#mode === "record" ? 0 : both ? Math.min(1, 2 * (1 - this.#balance)) : 1;
    for (const [name, level, side] of [["record", record, 1], ["own", own, -1]]) {
      const part = this.#parts[name];
      if (!part) continue;
      part.gain.gain.setTargetAtTime(level * this.#loud * 1.6, this.#context.currentTime, .02);
      part.side.pan.value = sides ? side : 0;
    }
  }

  get #hearsOwn() { return this.#mode !== "record"; }

  #start() {
    this.#main.playbackRate = this.#own.playbackRate = this.#pace;
    this.#main.play().then(() => this.#run(), refusal => {
      if (refusal.name !== "AbortError") this.#say("The browser did not start the sound; press Play again.");
    });
    this.#loadFor(this.now);
    this.#follow();
  }

  /** One bar counted at the pace, then the sound. */
  #countIn() {
    const bars = this.#times.bars, at = Math.max(0, upTo(bars, this.now + .01) - 1);
    const beats = this.#times.beats.filter(b => b >= bars[at] - .01 && b < bars[at + 1] - .01);
    const length = (bars[at + 1] - bars[at]) / this.#pace;
    beats.forEach((b, i) => this.#say1((b - bars[at]) / this.#pace + .05, i === 0));
    this.#waiting = setTimeout(() => { this.#waiting = 0; this.#start(); }, length * 1000 + 50);
    this.#told(this.now, true);
  }

  #run() {
    cancelAnimationFrame(this.#frame);
    const step = () => {
      if (this.#main.paused) return this.#told(this.now, this.playing);
      this.#turn();
      this.#layClicks();
      this.#follow();
      this.#told(this.now, true);
      this.#frame = requestAnimationFrame(step);
    };
    step();
  }

  #turn() {
    if (!this.round || this.now < this.#times.bars[this.round[1]] - .004) return;
    if (this.#other) [this.round, this.#other] = [this.#other, this.round];
    const start = this.#times.bars[this.round[0] - 1];
    if (!this.countIn) return this.seek(start);
    this.#main.pause();
    this.#own.pause();
    this.seek(start);
    this.#countIn();
  }

  #ended() {
    if (!this.#record && this.#to < this.#times.bars.length - 1) { this.#load(this.#to + 1); this.#start(); return; }
    if (this.round) { this.seek(this.#times.bars[this.round[0] - 1]); this.#start(); return; }
    this.stop();
  }

  /** The claims of the bars from the one at a time on. */
  #loadFor(time) {
    if (!this.#record || !this.#hearsOwn || this.#times.bars.length < 2) return;
    const bar = Math.max(1, Math.min(this.#times.bars.length - 1, upTo(this.#times.bars, time + .01)));
    if (bar < this.#from || bar > this.#to) this.#load(bar);
  }

  #load(bar) {
    const first = this.round && bar >= this.round[0] && bar <= this.round[1] ? this.round[0] : bar;
    this.#from = first;
    this.#to = Math.min(this.#times.bars.length - 1, first + chunk - 1);
    this.#base = this.#times.bars[first - 1];
    this.#own.src = `/sounds/own?song=${encodeURIComponent(this.#song)}&first=${first}&last=${this.#to}&version=${this.#version}`;
    this.#own.playbackRate = this.#pace;
  }

  #seekOwn(time) {
    const bar = Math.max(1, Math.min(this.#times.bars.length - 1, upTo(this.#times.bars, time + .01))), plays = !this.#own.paused;
    if (bar < this.#from || bar > this.#to) this.#load(bar);
    this.#own.currentTime = Math.max(0, time - this.#base);
    if (plays) this.#own.play().catch(() => {});
  }

  /** The claims keep to the record. */
  #follow() {
    if (!this.#record) return;
    const own = this.#own, wanted = this.now - this.#base;
    if (!this.#hearsOwn || this.#record.paused) { if (!own.paused) own.pause(); return; }
    this.#loadFor(this.now);
    if (own.readyState < 2 || wanted < 0) return;
    if (wanted > own.duration) { if (!own.paused) own.pause(); return; }
    if (Math.abs(own.currentTime - wanted) > apart && !own.seeking) own.currentTime = wanted + .01;
    if (own.paused) own.play().catch(() => {});
  }

  #layClicks() {
    if (!this.#clicks || !this.#context) return;
    const { beats, firsts, bars } = this.#times, end = this.round ? bars[this.round[1]] - .01 : Infinity, until = Math.min(this.now + ahead * this.#pace, end);
    for (; this.#nextBeat < beats.length && beats[this.#nextBeat] < until; this.#nextBeat++)
      this.#say1((beats[this.#nextBeat] - this.now) / this.#pace, firsts[this.#nextBeat]);
  }

  /** A short soft-edged tone so many seconds from now; the first of a bar is higher. */
  #say1(wait, first) {
    if (!this.#context) return;
    const tone = this.#context.createOscillator(), gain = this.#context.createGain();
    const start = Math.max(this.#context.currentTime, this.#context.currentTime + wait);
    tone.frequency.value = first ? 1600 : 1070;
    gain.gain.setValueAtTime(0, start);
    gain.gain.linearRampToValueAtTime(Math.max(1e-4, .5 * this.#loud), start + .002);
    gain.gain.exponentialRampToValueAtTime(1e-4, start + .06);
    tone.connect(gain).connect(this.#context.destination);
    tone.start(start);
    tone.stop(start + .07);
    this.#laid = this.#laid.filter(t => t.start > this.#context.currentTime);
    this.#laid.push({ start, tone });
  }

  #dropClicks() {
    for (const { start, tone } of this.#laid) if (start > this.#context.currentTime) tone.stop();
    this.#laid = [];
    this.#nextBeat = upTo(this.#times.beats, this.now - .03);
  }

  #trouble(sound) {
    if (!sound.getAttribute("src")) return;
    this.#say(sound === this.#record ? "The browser can't play this recording; its file may have moved." : "The claims could not be sounded.");
  }

  #say(words) { document.getElementById("earTrouble").textContent = words; }
}

function upTo(list, value) {
  let low = 0, high = list.length;
  while (low < high) { const middle = (low + high) >> 1; if (list[middle] <= value) low = middle + 1; else high = middle; }
  return low;
}
