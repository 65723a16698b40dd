"""Chords as a hand holds them on six strings."""
import numpy as np

# Low string first; the first is standard tuning, the others are common practice.
TUNINGS = [(40, 45, 50, 55, 59, 64), (38, 45, 50, 55, 59, 64), (38, 45, 50, 55, 57, 62), (38, 43, 50, 55, 59, 62), (38, 45, 50, 54, 57, 62), (39, 44, 49, 54, 58, 63), (40, 47, 52, 56, 59, 64)]


def fretted(rng, notes, bass, strings):
    """Pitches low to high, or None where no hand was found in a few tries."""
    classes, open_ones = set(notes), rng.random() < 0.6
    needed = classes if len(classes) < 5 else set(notes[:4])
    needed = needed - {notes[2]} if len(classes) > 3 else needed
    for _ in range(10):
        string = int(rng.choice(3, p=[0.45, 0.4, 0.15]))
        fret = (bass - strings[string]) % 12
        base = 1 if open_ones and fret <= 3 else max(1, fret - int(rng.integers(3)))
        held = [strings[string] + fret]
        for s in strings[string + 1:]:
            frets = ([0] if base == 1 or rng.random() < 0.1 else []) + list(range(base, base + (3 if base == 1 else 4)))
            usable = [f for f in frets if (s + f) % 12 in classes]
            missing = [f for f in usable if (s + f) % 12 not in {p % 12 for p in held}]
            if usable and rng.random() < 0.94:
                held.append(s + int(rng.choice(missing if missing and rng.random() < 0.85 else usable)))
        if fret < 10 and len(held) >= 4 and needed <= {p % 12 for p in held}:
            return held
    return None
