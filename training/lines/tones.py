"""Renders single notes of what holds its tone (reeds, voices, pipes, bowed strings, organs, horns) from a General MIDI font into a bank.

    python3 tones.py FONT.sf2 OUT.bank [train|held]
"""
import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes"))

import bank  # noqa: E402
from fonts import GAP, render, trim  # noqa: E402

# family, bank, program, lowest, highest, step, velocities, seconds held
TRAIN = [
    ("reed", 0, 22, 52, 97, 2, (50, 80, 110), 3.0), ("reed", 0, 23, 48, 96, 4, (70, 105), 2.6), ("reed", 0, 21, 43, 96, 4, (90,), 2.6),
    ("reed", 0, 20, 48, 96, 5, (90,), 2.6),
    ("voice", 0, 52, 41, 84, 3, (90,), 3.0), ("voice", 0, 53, 41, 84, 3, (90,), 3.0), ("voice", 0, 54, 43, 84, 4, (90,), 2.6),
    ("voice", 0, 85, 43, 84, 4, (90,), 2.6),
    ("blown", 0, 72, 67, 97, 4, (90,), 2.4), ("blown", 0, 73, 60, 97, 3, (60, 105), 2.6), ("blown", 0, 74, 60, 97, 4, (90,), 2.6),
    ("blown", 0, 75, 58, 93, 5, (90,), 2.4), ("blown", 0, 77, 55, 88, 5, (90,), 2.6), ("blown", 0, 78, 60, 97, 4, (90,), 2.4),
    ("blown", 0, 79, 60, 96, 5, (90,), 2.4),
    ("bowed", 0, 40, 55, 96, 3, (60, 105), 2.8), ("bowed", 0, 41, 48, 84, 4, (90,), 2.8), ("bowed", 0, 42, 36, 76, 4, (90,), 2.8),
    ("bowed", 0, 110, 55, 93, 4, (90,), 2.4), ("bowed", 0, 48, 40, 92, 6, (90,), 2.6),
    ("organ", 0, 16, 36, 92, 6, (90,), 2.4), ("organ", 0, 18, 36, 92, 6, (90,), 2.4), ("organ", 0, 19, 36, 92, 7, (90,), 2.4),
    ("organ", 0, 89, 40, 84, 8, (90,), 2.6),
    ("horn", 0, 56, 54, 86, 5, (90,), 2.2), ("horn", 0, 65, 49, 82, 5, (90,), 2.2), ("horn", 0, 71, 50, 90, 5, (90,), 2.2),
    ("horn", 0, 68, 58, 90, 6, (90,), 2.2),
]
HELD = [
    ("reed", 0, 22, 52, 97, 4, (90,), 2.6), ("voice", 0, 53, 43, 84, 4, (90,), 2.6), ("voice", 0, 52, 43, 84, 5, (90,), 2.6),
    ("blown", 0, 73, 60, 97, 4, (90,), 2.4), ("blown", 0, 78, 60, 97, 5, (90,), 2.4), ("bowed", 0, 40, 55, 96, 4, (90,), 2.4),
    ("organ", 0, 16, 36, 92, 8, (90,), 2.2),
]


def main(font, out, which):
    notes = []
    for family, group, program, low, high, step, velocities, held in TRAIN if which == "train" else HELD:
        plan = [(pitch, velocity) for pitch in range(low, high + 1, step) for velocity in velocities]
        sound = render(font, group, program, plan, held)
        every = int((held + GAP) * bank.RATE)
        for k, (pitch, velocity) in enumerate(plan):
            samples = trim(sound[k * every : k * every + int(held * bank.RATE)])
            if samples is not None:
                notes.append((dict(family=family, source=f"{group}:{program}:{velocity}", pitch=pitch, velocity=100), samples))
        print(family, group, program, len(notes), flush=True)
    bank.pack(notes, out)
    print(out, len(notes), "notes", os.path.getsize(out) / 2**20, "MiB")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], sys.argv[3] if len(sys.argv) > 3 else "train")
