/* Moves pitch and keeps time: a head reads the last moments of the sound at another rate, and now and then jumps back (or on) to where the wave is most
   alike, so that the two fade into one another. Its sound comes late by some 25 ms. */
const shortest = .012, longest = .045, fade = .008, reach = .016;

class Shift extends AudioWorkletProcessor {
  static get parameterDescriptors() { return [{ name: "cents", defaultValue: 0, minValue: -700, maxValue: 700, automationRate: "k-rate" }]; }

  constructor() {
    super();
    this.size = 1 << 14;
    this.rings = [new Float32Array(this.size), new Float32Array(this.size)];
    this.written = 0;
    this.behind = (shortest + longest) / 2 * sampleRate;   // of the head that reads
    this.old = 0;                                          // of the head that fades away
    this.left = 0;                                         // samples of the fade still to come
  }

  process([input], [output], { cents }) {
    const rate = 2 ** (cents[0] / 1200), length = Math.round(fade * sampleRate), count = output[0].length;
    for (let i = 0; i < count; i++) {
      for (let c = 0; c < 2; c++) this.rings[c][this.written % this.size] = (input[c] ?? input[0])?.[i] ?? 0;
      this.written++;
      const old = this.left / length;
      for (let c = 0; c < output.length; c++) {
        const now = this.at(c, this.behind);
        output[c][i] = this.left > 0 ? now * (1 - old) + this.at(c, this.old) * old : now;
      }
      this.behind += 1 - rate;
      if (this.left > 0) { this.left--; this.old += 1 - rate; }
      else if (this.behind < shortest * sampleRate) this.jump(longest, length);
      else if (this.behind > longest * sampleRate) this.jump(shortest + .002, length);
    }
    return true;
  }

  /** What one ring held so many samples ago, between samples too. */
  at(c, behind) {
    const place = this.written - 1 - behind, whole = Math.floor(place), part = place - whole, ring = this.rings[c], size = this.size;
    const a = ring[((whole % size) + size) % size], b = ring[(((whole + 1) % size) + size) % size];
    return a + part * (b - a);
  }

  /** To about so far behind, where the wave runs most as it does here. */
  jump(seconds, length) {
    const far = seconds * sampleRate, from = far > this.behind ? far - reach * sampleRate : far, to = from + reach * sampleRate;
    let best = far, most = -Infinity;
    for (let lag = Math.round(from); lag <= to; lag += 2) {
      let same = 0, power = 1e-9;
      for (let i = 0; i < length * 2; i += 4) {
        const a = this.at(0, this.behind + i) + this.at(1, this.behind + i), b = this.at(0, lag + i) + this.at(1, lag + i);
        same += a * b;
        power += b * b;
      }
      const alike = same / Math.sqrt(power);
      if (alike > most) { most = alike; best = lag; }
    }
    this.old = this.behind;
    this.behind = best;
    this.left = length;
  }
}

registerProcessor("shift", Shift);
