"""Chords over beats: loops, blues, wanderings; every piece knows when its harmony changes."""
import numpy as np

MODES = {"major": [0, 2, 4, 5, 7, 9, 11], "minor": [0, 2, 3, 5, 7, 8, 10], "mixolydian": [0, 2, 4, 5, 7, 9, 10], "dorian": [0, 2, 3, 5, 7, 9, 10], "harmonic": [0, 2, 3, 5, 7, 8, 11]}
NEXT = {0: [3, 4, 5, 1, 2, 6], 1: [4, 4, 3, 0, 5], 2: [5, 3, 1], 3: [0, 4, 4, 1, 5], 4: [0, 0, 5, 3], 5: [3, 1, 4, 2, 0], 6: [0, 2, 5]}
BLUES = [0, 0, 0, 0, 3, 3, 0, 0, 4, 3, 0, 4]
# Forms that players share, as degrees: the cycle of fifths, the turnaround, the descending canon (common practice).
FORMS = {"cycle": [3, 6, 2, 5, 1, 4, 0, 0], "turn": [0, 5, 1, 4], "canon": [0, 4, 5, 2, 3, 0, 3, 4], "quick": [0, 3, 0, 0, 3, 3, 0, 5, 1, 4, 0, 4]}


class Chord:
    __slots__ = ("root", "notes", "bass")

    def __init__(self, root, notes, bass):
        self.root, self.notes, self.bass = root, notes, bass

    def fretted(self, rng, low, count):
        """Pitches for a guitar."""
        return voicing(rng, self, low, count)


class Harmony:
    """at(p) is the chord at a place in beats; changes are the places where it changes."""

    def __init__(self, rng, bar_starts, beats, rate):
        self.rng = rng
        self.key = int(rng.integers(12))
        self.mode = rng.choice(list(MODES), p=[0.5, 0.2, 0.1, 0.1, 0.1])
        self.scale = [(self.key + s) % 12 for s in MODES[self.mode]]
        self.rich = rng.random()
        loops = [self.loop(rate), self.loop(rate)]
        bars_a_section = int(rng.choice([4, 8, 8, 16]))
        self.starts, self.chords = [], []
        for k, (start, length) in enumerate(zip(bar_starts, beats)):
            loop = loops[(k // bars_a_section) % 2 if rng.random() < 0.97 else 0]
            for at, chord in loop[k % len(loop)]:
                if at < length:
                    self.starts.append(start + at)
                    self.chords.append(chord)
        self.starts = np.array(self.starts, float)

    def loop(self, rate):
        rng = self.rng
        if rate == "blues":
            return [[(0, self.chord(d, seventh=True))] for d in BLUES]
        if rate in FORMS:
            chords = [self.chord(d, seventh=rate == "quick" or rng.random() < 0.5) for d in FORMS[rate]]
            if rate != "quick" and rng.random() < 0.4:
                return [[(0, a), (2, b)] for a, b in zip(chords[::2], chords[1::2])]
            return [[(0, c)] if k == 0 or rng.random() < 0.9 else [] for k, c in enumerate(chords)]
        bars = int(rng.choice([1, 2, 4, 8], p=[0.05, 0.2, 0.5, 0.25]))
        out, degree = [], int(rng.choice([0, 0, 0, 3, 5, 1]))
        hold = 0
        for bar in range(bars):
            here = []
            if rate == "slow":
                cuts = [0] if hold == 0 else []
                hold = (hold + 1) % 2
            elif rate == "bar":
                cuts = [0]
            elif rate == "half":
                cuts = [0, 2] if rng.random() < 0.7 else [0]
            elif rate == "beat":
                cuts = [0, 1, 2, 3]
            else:
                cuts = [0] if rng.random() < 0.6 else [0, 2] if rng.random() < 0.6 else [0, 3] if rng.random() < 0.5 else []
            for at in cuts:
                here.append((at, self.chord(degree)))
                degree = int(rng.choice(NEXT[degree]))
            out.append(here)
        if not out[0]:
            out[0] = [(0, self.chord(0))]
        return out

    def chord(self, degree, seventh=False):
        rng = self.rng
        tones = [self.scale[(degree + k) % 7] for k in (0, 2, 4)]
        if seventh or rng.random() < self.rich * 0.8:
            tones.append(self.scale[(degree + 6) % 7])
        if rng.random() < self.rich * 0.4:
            tones.append(self.scale[(degree + 1) % 7])
        bass = tones[0] if rng.random() < 0.88 else tones[int(rng.integers(1, 3))]
        return Chord(tones[0], tones, bass)

    def at(self, p):
        k = int(np.searchsorted(self.starts, p + 1e-6, side="right")) - 1
        return self.chords[max(0, k)]

    def scale_at(self, p):
        return self.scale

    def changes(self):
        keep = [0] + [k for k in range(1, len(self.chords)) if self.chords[k] is not self.chords[k - 1]]
        return self.starts[keep]


def near(pitch_class, centre):
    """The pitch of this class nearest to a pitch."""
    return int(centre + (pitch_class - centre + 6) % 12 - 6)


def voicing(rng, chord, low, count):
    """Chord tones upward from low, guitar-like: skips now and then."""
    out, pitch = [near(chord.bass, low + 4)], 0
    pitch = out[0]
    while len(out) < count:
        pitch += int(rng.integers(2, 6))
        while pitch % 12 not in chord.notes:
            pitch += 1
        out.append(pitch)
    return out
