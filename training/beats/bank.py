"""Makes the bank of single notes and drum hits that the composer plays on: FluidR3 (Debian fluid-soundfont-gm, MIT)
through fluidsynth, and plucked strings of our own. Mono, 22.05 kHz, 8-bit mu-law. Usage: bank.py FONT OUT.npz"""
import os
import struct
import subprocess
import sys
import tempfile
import wave

import numpy as np

RATE = 22050
GUITARS = {24: (40, 84), 25: (40, 84), 26: (40, 84), 27: (40, 84), 28: (40, 76), 29: (40, 84), 30: (40, 80)}
BASSES = {32: (28, 52), 33: (28, 52), 34: (28, 52), 35: (28, 52), 36: (28, 52), 38: (28, 52)}
KEYS = {0: (28, 96), 1: (28, 92), 4: (32, 88), 5: (32, 88), 6: (36, 84), 7: (36, 72), 16: (36, 88), 18: (36, 84), 21: (40, 88)}
PLUCKED = {11: (53, 89), 12: (48, 84), 15: (48, 84), 45: (36, 84), 46: (36, 88), 105: (48, 84), 107: (48, 80)}
SUNG = {22: (55, 91), 40: (55, 91), 42: (36, 68), 48: (36, 88), 49: (36, 84), 52: (48, 80), 53: (48, 80), 56: (54, 82), 57: (40, 66),
        61: (40, 80), 65: (50, 80), 66: (46, 76), 68: (58, 86), 71: (50, 86), 73: (60, 92), 75: (60, 92), 80: (48, 88), 81: (48, 88),
        85: (48, 80), 88: (40, 84), 90: (40, 84), 109: (60, 84), 110: (55, 91)}
KITS = [0, 8, 16, 24, 25, 32, 40, 48]
HITS = [35, 36, 37, 38, 39, 40, 41, 42, 43, 44, 45, 46, 47, 48, 49, 50, 51, 53, 54, 56, 57, 60, 61, 62, 63, 64, 67, 68, 69, 70, 73, 75, 76, 77]
STEP = 4
STRINGS, VOICES = 30, 10


def variable(n):
    out = [n & 0x7F]
    while n > 0x7F:
        n >>= 7
        out.insert(0, (n & 0x7F) | 0x80)
    return bytes(out)


def midi(events):
    """events: (tick, bytes), 480 ticks a beat of half a second."""
    data, last = b"", 0
    for tick, message in sorted(events, key=lambda e: e[0]):
        data += variable(tick - last) + message
        last = tick
    data += b"\x00\xff\x2f\x00"
    return b"MThd" + struct.pack(">IHHH", 6, 0, 1, 480) + b"MTrk" + struct.pack(">I", len(data)) + data


def render(font, program, channel, notes, hold, gap):
    """One note after the other; a row of samples each."""
    ticks = lambda s: int(round(s * 960))
    events = [(0, bytes([0xC0 | channel, program]))]
    for k, (pitch, velocity) in enumerate(notes):
        at = 0.1 + k * gap
        events += [(ticks(at), bytes([0x90 | channel, pitch, velocity])), (ticks(at + hold), bytes([0x80 | channel, pitch, 0]))]
    with tempfile.TemporaryDirectory() as folder:
        source, target = os.path.join(folder, "a.mid"), os.path.join(folder, "a.wav")
        open(source, "wb").write(midi(events))
        subprocess.run(["fluidsynth", "-ni", "-q", "-r", str(RATE), "-R", "0", "-C", "0", "-g", "0.7", "-F", target, font, source], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        with wave.open(target) as w:
            both = np.frombuffer(w.readframes(w.getnframes()), np.int16).reshape(-1, w.getnchannels()).astype(np.float32).mean(1) / 32768
    rows = []
    for k in range(len(notes)):
        start = int(round((0.1 + k * gap) * RATE))
        rows.append(both[start:start + int(hold * RATE)])
    return rows


def pluck(rng, hertz, seconds, character):
    """A plucked string: partials of a string picked at one place, each with its own decay, and the pick's noise."""
    time = np.arange(int(seconds * RATE)) / RATE
    count = max(1, min(40, int(9500 / hertz)))
    n = np.arange(1, count + 1)
    frequency = n * hertz * np.sqrt(1 + character["stiff"] * n * n)
    level = np.abs(np.sin(np.pi * n * character["place"])) / n ** character["dull"]
    level = level * np.exp(rng.normal(0, 0.25, count)) * np.interp(np.log(frequency), np.log(character["body"][0]), character["body"][1])
    decay = character["decay"] * (110 / hertz) ** 0.35 / (1 + character["damp"] * (frequency / 1000) ** 1.3)
    sound = np.zeros(len(time))
    for f, a, d in zip(frequency, level, decay):
        if f < 10500:
            sound += a * np.exp(-time / d) * np.sin(2 * np.pi * f * time + rng.uniform(0, 6.28))
    noise = rng.normal(0, 1, len(time)) * np.exp(-time / 0.004) * character["pick"]
    rise = np.minimum(1, time / character["rise"])
    return ((sound + noise) * rise).astype(np.float32)


def strings(rng):
    body = np.sort(np.exp(rng.uniform(np.log(80), np.log(9000), 9)))
    return dict(stiff=10 ** rng.uniform(-5.5, -3.8), place=rng.uniform(0.06, 0.35), dull=rng.uniform(0.5, 1.8), decay=rng.uniform(0.25, 2.2),
                damp=rng.uniform(0.3, 4), pick=rng.uniform(0.0, 0.5), rise=rng.uniform(0.0008, 0.004), body=(body, np.exp(rng.normal(0, 0.5, 9))))


def sing(rng, hertz, seconds, character):
    """A voice-like tone: harmonics under wandering formants, a soft start, vibrato that grows."""
    time = np.arange(int(seconds * RATE)) / RATE
    depth = character["vibrato"] * np.clip(time / 0.5, 0, 1)
    bend = 1 + depth * np.sin(2 * np.pi * character["speed"] * time) - character["scoop"] * np.exp(-time / 0.06)
    phase = 2 * np.pi * np.cumsum(hertz * bend) / RATE
    sound = np.zeros(len(time))
    for n in range(1, min(30, int(6000 / hertz)) + 1):
        formant = sum(g / (1 + ((n * hertz - f) / w) ** 2) for f, w, g in character["formants"])
        sound += formant / n ** 0.6 * np.sin(n * phase + n)
    breath = rng.normal(0, 1, len(time)) * (character["breath"] + character["consonant"] * np.exp(-time / 0.03))
    return ((sound + breath) * np.minimum(1, time / character["rise"])).astype(np.float32)


def voice(rng):
    formants = [(rng.uniform(300, 900), rng.uniform(60, 150), 1), (rng.uniform(900, 2200), rng.uniform(90, 250), rng.uniform(0.2, 0.7)), (rng.uniform(2300, 3300), 250, rng.uniform(0.1, 0.4))]
    return dict(vibrato=rng.uniform(0, 0.02), speed=rng.uniform(4.5, 6.5), scoop=rng.uniform(0, 0.06), formants=formants, breath=rng.uniform(0, 0.03), consonant=rng.uniform(0, 0.3), rise=rng.uniform(0.015, 0.09))


def mulaw(sound):
    sound = np.clip(sound, -1, 1)
    return np.round(np.sign(sound) * np.log1p(255 * np.abs(sound)) / np.log(256) * 127).astype(np.int8)


class Bank:
    def __init__(self):
        self.parts, self.index, self.length = [], [], 0

    def add(self, name, pitches, rows):
        top = np.median([np.sqrt(np.mean(r[:4000] ** 2)) for r in rows]) + 1e-9
        for (pitch, velocity), row in zip(pitches, rows):
            fade = min(400, len(row))
            row = row * (0.1 / top)
            row[-fade:] *= np.linspace(1, 0, fade, dtype=np.float32)
            peak = max(1e-6, float(np.abs(row).max()))
            self.index.append((name, pitch, velocity, self.length, len(row), peak))
            self.parts.append(mulaw(row / peak))
            self.length += len(row)


def main(font, out):
    bank, rng = Bank(), np.random.default_rng(11)
    for group, hold, velocities in ((GUITARS, 1.7, (60, 110)), (BASSES, 1.1, (95,)), (KEYS, 1.7, (55, 105)), (PLUCKED, 1.1, (95,)), (SUNG, 1.5, (90,))):
        for program, (low, high) in group.items():
            notes = [(p, v) for v in velocities for p in range(low, high + 1, STEP)]
            bank.add(f"gm{program}", notes, render(font, program, 0, notes, hold, hold + 1.0))
    for kit in KITS:
        long = {46, 49, 51, 53, 57}
        notes = [(p, 100) for p in HITS]
        rows = render(font, kit, 9, notes, 1.2, 2.0)
        rows = [r if p in long else r[:int(0.4 * RATE)] for (p, _), r in zip(notes, rows)]
        bank.add(f"kit{kit}", notes, rows)
    for k in range(STRINGS):
        character = strings(rng)
        notes = [(p, 90) for p in range(38, 85, STEP)]
        bank.add(f"string{k}", notes, [pluck(rng, 440 * 2 ** ((p - 69) / 12), 1.5, character) for p, _ in notes])
    for k in range(VOICES):
        character = voice(rng)
        notes = [(p, 90) for p in range(45, 82, STEP)]
        bank.add(f"voice{k}", notes, [sing(rng, 440 * 2 ** ((p - 69) / 12), 1.5, character) for p, _ in notes])
    names = sorted({i[0] for i in bank.index})
    table = np.array([(names.index(n), p, v, s, l) for n, p, v, s, l, _ in bank.index], np.int64)
    np.savez(out, sound=np.concatenate(bank.parts), names=np.array(names), table=table, peak=np.array([i[5] for i in bank.index], np.float32))
    print(len(bank.index), "notes", bank.length / RATE, "s", os.path.getsize(out) / 1e6, "MB")


if __name__ == "__main__":
    main(*sys.argv[1:])
