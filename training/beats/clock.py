"""When each beat falls: steady, human, or free."""
import numpy as np


class Clock:
    """Times of beats first, first + 1, …; place(p) gives the seconds of any place in beats, bent by swing."""

    def __init__(self, rng, tempo, first, last, kind, bar, phrase, swing, swing_unit):
        self.first = first
        count = last - first + 2
        step = 60 / tempo
        bend = np.zeros(count)
        if kind == "human":
            bend += drift(rng, count, rng.uniform(0.004, 0.02), 0.6) + np.cumsum(rng.normal(0, rng.uniform(0, 0.004), count))
        elif kind == "free":
            bend += drift(rng, count, rng.uniform(0.02, 0.10), 0.75)
            pauses = 0.01 if rng.random() < 0.3 else 0.0
            depth, arch, leaning = rng.uniform(0.05, 0.45), rng.uniform(-0.05, 0.25), rng.uniform(0, 0.12)
            for k in range(count):
                place = (first + k) % phrase
                bend[k] += arch * (np.cos(2 * np.pi * (place + 0.5) / phrase)) / 2 * rng.uniform(0.6, 1.2)
                bend[k] += leaning * rng.uniform(0, 1) if place % bar == 0 else 0
                bend[k] += rng.uniform(0.2, 0.6) if rng.random() < pauses else 0
                if place >= phrase - 2:
                    bend[k] += depth * (place - phrase + 3) / 2 * rng.uniform(0.3, 1)
        if rng.random() < 0.08:
            bend += np.linspace(0, rng.uniform(-0.2, 0.2), count)
        self.steps = step * np.exp(bend)
        self.swing, self.unit = swing, swing_unit
        self.times = np.concatenate([[0], np.cumsum(self.steps)])

    def slow_down(self, end, beats, depth):
        """The last beats before end broaden."""
        for k in range(len(self.steps)):
            left = end - (self.first + k)
            if left <= beats:
                self.steps[k] *= 1 + depth * np.clip(1 - left / beats, 0, 1.3)
        self.times = np.concatenate([[0], np.cumsum(self.steps)])

    def start_at(self, beat, seconds):
        self.times += seconds - self.beat(beat)

    def beat(self, p):
        return np.interp(p, self.first + np.arange(len(self.times)), self.times)

    def place(self, p):
        if self.swing != 0.5:
            whole = np.floor(p / self.unit + 1e-6)
            part = p / self.unit - whole
            part = np.where(part < 0.5, part * 2 * self.swing, self.swing + (part - 0.5) * 2 * (1 - self.swing))
            p = (whole + part) * self.unit
        return self.beat(p)


def drift(rng, count, size, memory):
    out, now = np.zeros(count), 0.0
    for k in range(count):
        now = memory * now + rng.normal(0, size)
        out[k] = now
    return out
