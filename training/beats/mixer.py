"""Plays a composed stretch on the bank of single notes."""
import numpy as np

from bank import VOICES
from compose import RATE, SAMPLES

SUSTAINED = {f"gm{k}" for k in (16, 18, 21, 22, 40, 42, 48, 49, 52, 53, 56, 57, 61, 65, 66, 68, 71, 73, 75, 80, 81, 85, 88, 90, 109, 110)} | {f"voice{k}" for k in range(VOICES)}


class Mixer:
    def __init__(self, paths, capacity=1500):
        """paths: banks, with commas between."""
        self.rows, self.sounds = {}, []
        for path in paths.split(","):
            data = np.load(path)
            names = [str(n) for n in data["names"]]
            for (n, pitch, velocity, start, length), peak in zip(data["table"], data["peak"]):
                self.rows.setdefault(names[n], []).append((int(pitch), int(velocity), int(start), int(length), len(self.sounds), float(peak)))
            self.sounds.append(data["sound"])
        self.cache, self.capacity = {}, capacity

    def note(self, name, pitch, strong):
        key = (name, pitch, strong)
        found = self.cache.get(key)
        if found is None:
            if len(self.cache) > self.capacity:
                self.cache.clear()
            found = self.cache[key] = self.make(name, pitch, strong)
        return found

    def make(self, name, pitch, strong):
        if name == "chuck":
            rng = np.random.default_rng(pitch)
            time = np.arange(int(0.08 * RATE)) / RATE
            noise = np.convolve(rng.normal(0, 0.25, len(time)), [0.5, 0.5, 0.3, -0.2], "same")
            return (noise * np.exp(-time / 0.012)).astype(np.float32)
        if name == "squeak":
            return squeak(np.random.default_rng(pitch))
        rows = self.rows[name]
        velocities = sorted({r[1] for r in rows})
        wanted = velocities[-1] if strong else velocities[0]
        kit = name.startswith(("kit", "dead"))
        row = min((r for r in rows if r[1] == wanted), key=lambda r: (abs(r[0] - pitch), r[0]))
        coded = self.sounds[row[4]][row[2]:row[2] + row[3]].astype(np.float32) / 127
        sound = np.sign(coded) * np.expm1(np.abs(coded) * np.log(256)) / 255 * row[5]
        if not kit and row[0] != pitch:
            shift = 2 ** (np.clip(pitch - row[0], -9, 9) / 12)
            sound = np.interp(np.arange(0, len(sound) - 1, shift), np.arange(len(sound)), sound)
        sound = sound.astype(np.float32)
        return extended(sound) if name in SUSTAINED else sound

    def mix(self, notes):
        out = np.zeros(SAMPLES, np.float32)
        for name, start, length, pitch, strength in notes:
            sound = self.note(name, pitch, strength > 0.6)
            kit = name.startswith(("kit", "dead")) or name in ("chuck", "squeak")
            count = len(sound) if kit else min(len(sound), int((length + 0.15) * RATE))
            at = int(start * RATE)
            skip = max(0, -at)
            count = min(count, SAMPLES - at)
            if count - skip < 50:
                continue
            gain = np.float32(strength ** 1.3)
            if kit or count == len(sound):
                out[at + skip:at + count] += sound[skip:count] * gain
                continue
            tail = min(count, int(0.15 * RATE))
            body = count - tail
            if body > skip:
                out[at + skip:at + body] += sound[skip:body] * gain
            begin = max(skip, body)
            out[at + begin:at + count] += sound[begin:count] * (FADE[begin - body:tail] if tail == len(FADE) else FADE[-tail:][begin - body:]) * gain
        return out


FADE = (np.exp(-np.arange(int(0.15 * RATE)) / RATE / 0.04) * np.linspace(1, 0, int(0.15 * RATE))).astype(np.float32)


def squeak(rng):
    """A finger along a wound string: a band of noise that glides."""
    time = np.arange(int(rng.uniform(0.06, 0.18) * RATE)) / RATE
    pitch = rng.uniform(900, 3000) * np.exp(np.linspace(0, rng.uniform(-0.5, 0.5), len(time)))
    phase = 2 * np.pi * np.cumsum(pitch * (1 + 0.05 * rng.normal(0, 1, len(time)))) / RATE
    return (0.12 * (np.sin(phase) + 0.4 * np.sin(2 * phase)) * np.hanning(len(time))).astype(np.float32)


def extended(sound, seconds=4.5):
    """A held note made longer: its middle goes round with cross-fades."""
    a, b = int(0.45 * len(sound)), int(0.9 * len(sound))
    lap = (b - a) // 3
    rise = np.linspace(0, 1, lap, dtype=np.float32)
    out = sound[:b].copy()
    while len(out) < seconds * RATE:
        joined = out[-lap:] * (1 - rise) + sound[a:a + lap] * rise
        out = np.concatenate([out[:-lap], joined, sound[a + lap:b]])
    return out
