"""Renders single notes of a General MIDI sound font with fluidsynth into a packed bank.

    python3 fonts.py FONT.sf2 OUT.bank [train|held]

"train" takes many presets closely spaced; "held" a few, for validation with a font that training never heard.
"""
import os
import subprocess
import sys
import tempfile

import numpy as np
from scipy.io import wavfile
from scipy.signal import resample_poly

import bank

# family, bank, program, lowest, highest, step, velocities, seconds held
TRAIN = [
    ("guitar", 0, 24, 38, 86, 2, (40, 105), 3.4), ("guitar", 0, 25, 38, 86, 2, (40, 105), 3.4),
    ("guitar", 0, 26, 38, 84, 3, (45, 105), 3.2), ("guitar", 0, 27, 38, 84, 3, (45, 105), 3.2),
    ("guitar", 0, 28, 38, 80, 3, (60, 110), 1.0), ("guitar", 8, 28, 40, 82, 4, (100,), 2.0),
    ("guitar", 0, 29, 40, 82, 4, (100,), 3.0), ("guitar", 0, 30, 40, 82, 4, (100,), 2.5),
    ("guitar", 8, 24, 55, 86, 4, (50, 105), 2.0), ("guitar", 16, 25, 55, 88, 4, (50, 105), 2.0),
    ("guitar", 0, 105, 48, 80, 4, (90,), 2.0), ("guitar", 8, 26, 43, 81, 5, (90,), 2.5),
    ("harmonic", 0, 31, 52, 91, 4, (90,), 2.5),
    ("bass", 0, 32, 24, 58, 4, (90,), 2.0), ("bass", 0, 33, 24, 58, 4, (90,), 2.0), ("bass", 0, 34, 24, 58, 5, (90,), 2.0),
    ("bass", 0, 35, 26, 58, 5, (90,), 2.0), ("bass", 0, 38, 26, 55, 6, (90,), 1.5),
    ("keys", 0, 0, 30, 95, 4, (50, 105), 2.8), ("keys", 0, 4, 36, 90, 5, (80,), 2.5), ("keys", 0, 2, 36, 90, 6, (90,), 2.5),
    ("keys", 0, 6, 36, 90, 6, (90,), 2.0), ("keys", 0, 46, 36, 92, 5, (90,), 2.5), ("keys", 0, 11, 53, 90, 6, (90,), 2.0),
    ("keys", 0, 45, 40, 88, 6, (90,), 1.0),
    ("sustained", 0, 16, 36, 92, 6, (90,), 2.0), ("sustained", 0, 18, 36, 92, 6, (90,), 2.0), ("sustained", 0, 19, 36, 92, 7, (90,), 2.0),
    ("sustained", 0, 21, 42, 92, 6, (90,), 2.0), ("sustained", 0, 48, 36, 92, 6, (90,), 2.6), ("sustained", 0, 49, 36, 90, 7, (90,), 2.6),
    ("lead", 0, 22, 52, 93, 3, (60, 105), 2.4), ("lead", 0, 23, 50, 90, 5, (90,), 2.2), ("lead", 0, 40, 55, 95, 4, (90,), 2.4),
    ("lead", 0, 110, 55, 91, 5, (90,), 2.2), ("lead", 0, 42, 36, 76, 5, (90,), 2.4), ("lead", 0, 73, 60, 96, 4, (90,), 2.4),
    ("lead", 0, 74, 60, 96, 5, (90,), 2.2), ("lead", 0, 78, 62, 96, 6, (90,), 2.0), ("lead", 0, 71, 50, 88, 5, (90,), 2.2),
    ("lead", 0, 68, 58, 90, 5, (90,), 2.2), ("lead", 0, 65, 49, 82, 5, (90,), 2.2), ("lead", 0, 66, 42, 76, 5, (90,), 2.2),
    ("lead", 0, 56, 54, 86, 5, (90,), 2.2), ("lead", 0, 57, 40, 72, 5, (90,), 2.2),
    ("voice", 0, 52, 43, 84, 4, (90,), 2.6), ("voice", 0, 53, 43, 84, 4, (90,), 2.6), ("voice", 0, 85, 48, 84, 5, (90,), 2.4),
    ("drum", 128, 0, 35, 76, 1, (100,), 0.8), ("drum", 128, 40, 35, 53, 1, (100,), 0.8), ("drum", 128, 25, 35, 64, 2, (100,), 0.8),
    ("squeak", 0, 120, 48, 84, 4, (90,), 0.6),
]
HELD = [
    ("guitar", 0, 24, 38, 86, 3, (90,), 3.2), ("guitar", 0, 25, 38, 86, 3, (90,), 3.2), ("guitar", 0, 26, 38, 84, 4, (90,), 3.0),
    ("guitar", 0, 27, 38, 84, 4, (90,), 3.0), ("harmonic", 0, 31, 52, 88, 6, (90,), 2.5),
    ("bass", 0, 33, 24, 58, 5, (90,), 2.0), ("keys", 0, 0, 36, 92, 5, (90,), 2.5), ("sustained", 0, 48, 36, 92, 8, (90,), 2.2),
    ("lead", 0, 22, 52, 92, 5, (90,), 2.2), ("lead", 0, 73, 60, 96, 6, (90,), 2.2), ("voice", 0, 53, 46, 82, 6, (90,), 2.2),
    ("drum", 128, 0, 35, 59, 1, (100,), 0.8),
]
GAP = 0.4


def main(font, out, which):
    notes = []
    for family, group, program, low, high, step, velocities, held in TRAIN if which == "train" else HELD:
        plan = [(pitch, velocity) for pitch in range(low, high + 1, step) for velocity in velocities]
        sound = render(font, group, program, plan, held)
        every = int((held + GAP) * bank.RATE)
        for k, (pitch, velocity) in enumerate(plan):
            samples = trim(sound[k * every : k * every + int(held * bank.RATE)])
            if samples is not None:
                notes.append((dict(family=family, source=f"{group}:{program}", pitch=pitch, velocity=velocity), samples))
        print(family, group, program, len(notes), flush=True)
    bank.pack(notes, out)
    print(out, len(notes), "notes", os.path.getsize(out) / 2**20, "MiB")


def trim(samples):
    """Without the silence after a note has fallen 56 dB; none if the font has no sound there."""
    peak = np.abs(samples).max()
    if peak < 1e-5:
        return None
    loud = np.nonzero(np.abs(samples) > peak * 10 ** (-56 / 20))[0]
    return samples[: loud[-1] + 1]


def render(font, group, program, plan, held):
    with tempfile.TemporaryDirectory() as folder:
        midi, wave = os.path.join(folder, "a.mid"), os.path.join(folder, "a.wav")
        with open(midi, "wb") as file:
            file.write(midi_file(group, program, plan, held))
        subprocess.run(["fluidsynth", "-ni", "-q", "-R", "0", "-C", "0", "-g", "0.4", "-r", "44100", "-T", "wav", "-O", "float",
                        "-F", wave, font, midi], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        rate, sound = wavfile.read(wave)
    return resample_poly(sound.mean(1), 1, 2)


def midi_file(group, program, plan, held):
    """A format 0 Standard MIDI File whose tick is a millisecond."""
    channel = 9 if group == 128 else 0
    events = [(0, bytes([0xFF, 0x51, 3]) + (1000000).to_bytes(3, "big"))]
    if channel == 0:
        events.append((0, bytes([0xB0, 0, group])))
    events.append((0, bytes([0xC0 | channel, program])))
    for k, (pitch, velocity) in enumerate(plan):
        start = round(k * (held + GAP) * 1000)
        events += [(start, bytes([0x90 | channel, pitch, velocity])), (start + round(held * 1000), bytes([0x80 | channel, pitch, 0]))]
        events.append((start + round(held * 1000) + 5, bytes([0xB0 | channel, 120, 0])))
    track, now = b"", 0
    for at, body in events:
        track, now = track + variable(at - now) + body, at
    track += variable(int(GAP * 1000)) + bytes([0xFF, 0x2F, 0])
    return b"MThd" + (6).to_bytes(4, "big") + bytes([0, 0, 0, 1]) + (1000).to_bytes(2, "big") + b"MTrk" + len(track).to_bytes(4, "big") + track


def variable(value):
    out = bytes([value & 127])
    while value > 127:
        value >>= 7
        out = bytes([128 | (value & 127)]) + out
    return out


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], sys.argv[3] if len(sys.argv) > 3 else "train")
