"""From activations to notes, and the notes' scores as mir_eval's transcription measures define them (Raffel et al., ISMIR 2014):
onset within 50 ms, pitch within 50 cents, offset within 50 ms or 20% of the note's length; frames on a grid of 10 ms here."""
import numpy as np

HOP = 256 / 22050


def pick(onset, frame, threshold=0.4, hold=0.4):
    """Notes (pitch, start, end) in seconds from activations [frames, 61]."""
    frames = len(onset)
    padded = np.pad(onset, ((2, 2), (0, 0)))
    peak = (onset >= threshold) & (onset >= padded[1:-3]) & (onset > padded[3:-1]) & (onset >= padded[:-4]) & (onset > padded[4:])
    notes = []
    for k in range(onset.shape[1]):
        starts = np.nonzero(peak[:, k])[0]
        for i, t in enumerate(starts):
            stop = starts[i + 1] if i + 1 < len(starts) else frames
            end = t + 2
            while end < stop and (frame[end, k] >= hold or (end + 1 < stop and frame[end + 1, k] >= hold)):
                end += 1
            a, b, c = padded[t + 1, k], padded[t + 2, k], padded[t + 3, k]
            shift = 0.5 * (a - c) / min(a - 2 * b + c, -1e-6)
            notes.append((36 + k, (t + float(np.clip(shift, -0.5, 0.5))) * HOP, min(end, stop) * HOP))
    return notes


def matched(reference, estimate, offsets=False):
    """The size of the largest matching, and the onset differences (estimate - reference) of its pairs."""
    edges = []
    by_pitch = {}
    for j, (pitch, start, end) in enumerate(estimate):
        by_pitch.setdefault(pitch, []).append((j, start, end))
    for pitch, start, end in reference:
        near = [(j, s) for whole in (np.floor(pitch), np.ceil(pitch)) if abs(whole - pitch) <= 0.5 for j, s, e in by_pitch.get(int(whole), ())
                if abs(s - start) <= 0.05 and (not offsets or abs(e - end) <= max(0.05, 0.2 * (end - start)))]
        edges.append([j for j, _ in sorted(set(near), key=lambda pair: abs(pair[1] - start))])
    owner = {}

    def take(i, seen):
        for j in edges[i]:
            if j not in seen:
                seen.add(j)
                if j not in owner or take(owner[j], seen):
                    owner[j] = i
                    return True
        return False

    size = sum(take(i, set()) for i in range(len(reference)))
    return size, [estimate[j][1] - reference[i][1] for j, i in owner.items()]


class Tally:
    def __init__(self):
        self.hits = self.held = self.references = self.estimates = 0
        self.lags, self.frames = [], np.zeros(3)

    def add(self, reference, estimate, seconds):
        size, lags = matched(reference, estimate)
        self.hits += size
        self.lags += lags
        self.held += matched(reference, estimate, True)[0]
        self.references += len(reference)
        self.estimates += len(estimate)
        a, b = roll(reference, seconds), roll(estimate, seconds)
        self.frames += ((a & b).sum(), a.sum(), b.sum())

    def measures(self):
        f = lambda hits, r, e: 2 * hits / max(1, r + e)
        return dict(onset=f(self.hits, self.references, self.estimates), precision=self.hits / max(1, self.estimates),
                    recall=self.hits / max(1, self.references), offset=f(self.held, self.references, self.estimates),
                    frame=f(*self.frames), lag_ms=1000 * float(np.median(self.lags)) if self.lags else 0.0)


def roll(notes, seconds):
    out = np.zeros((int(seconds * 100) + 1, 128), bool)
    for pitch, start, end in notes:
        out[max(0, int(start * 100)) : max(0, int(end * 100)), int(round(pitch))] = True
    return out


def text(measures):
    return " ".join(f"{k} {v:.3f}" if k != "lag_ms" else f"lag {v:+.1f} ms" for k, v in measures.items())
