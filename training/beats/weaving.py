"""Music woven of unlike rhythms: loops of groups of three and two, evenly spread strokes, strokes thrown by chance, and riffs of one to four
bars. What says where the bar stands is left to few: a riff's first note, a bass, a drum, the harmony. Evenly spread strokes after
G. Toussaint, "The Euclidean algorithm generates traditional musical rhythms", Bridges 2005."""
import numpy as np

from patterns import mutated, thrown

GROUPS = ([3, 3, 2], [3, 3, 2], [3, 3, 3, 3, 2, 2], [3, 2, 3], [2, 3, 3], [3], [3, 3, 4], [4, 3, 3, 3, 3], [5, 3], [3, 3, 3, 3, 4], [6, 6, 4])


def additive(rng, count):
    """Groups of cells one after another from the bar's start, now and then from elsewhere."""
    groups, row, at = GROUPS[int(rng.integers(len(GROUPS)))], np.zeros(count, bool), 0
    k, scale = 0, 2 if count >= 12 and rng.random() < 0.3 else 1
    while at < count:
        row[at] = True
        at += groups[k % len(groups)] * scale
        k += 1
    return np.roll(row, int(rng.integers(count))) if rng.random() < 0.2 else row


def even(rng, count):
    """So many strokes spread as evenly as cells allow."""
    strokes = int(rng.integers(2, max(3, count * 3 // 4)))
    row = np.array([(k * strokes) % count < strokes for k in range(count)])
    return np.roll(row, -int(rng.choice(np.flatnonzero(row)))) if rng.random() < 0.8 else np.roll(row, int(rng.integers(count)))


def steady(rng, count, per):
    """Every cell, every second or every beat; on the beat or off it."""
    step = int(rng.choice([1, max(1, per // 2), per]))
    row = np.zeros(count, bool)
    row[(per // 2 if rng.random() < 0.15 else 0)::step] = True
    return row


def one_bar(rng, beats, per):
    kind, count = rng.random(), beats * per
    if kind < 0.3 and per != 3:
        return additive(rng, count)
    if kind < 0.5:
        return even(rng, count)
    if kind < 0.6:
        return steady(rng, count, per)
    return np.array([c != "." for c in thrown(rng, beats, per, rng.uniform(0.2, 0.7) * min(1, 2.5 / per), rng.uniform(-0.2, 0.8), "x")])


def woven(rng, beats, per, symbols="x", fill=""):
    """A loop of bars as text: a stroke is one of symbols, all else fill or rest; bars come back, some changed a little."""
    rows = [one_bar(rng, beats, per)]
    for _ in range(int(rng.choice([1, 2, 4], p=[0.45, 0.38, 0.17])) - 1):
        rows.append(rows[0] if rng.random() < 0.5 else one_bar(rng, beats, per))
    first = symbols[int(rng.integers(len(symbols)))]
    texts = ["".join((first if rng.random() < 0.7 else symbols[int(rng.integers(len(symbols)))]) if hit else fill or "." for hit in row) for row in rows]
    if not any(c != "." for c in "".join(texts)):
        texts[0] = first + texts[0][1:]
    return "|".join(mutated(rng, t, symbols) if k and rng.random() < 0.4 else t for k, t in enumerate(texts))


def row_of(count, places, symbol="x"):
    return "".join(symbol if k in places else "." for k in range(count))


def snare(rng, beats, per, tempo):
    """Mostly where dancers clap: on every second beat; half or twice as often only where another pulse would be too fast or slow to tap."""
    count, kind = beats * per, rng.random()
    claps = {4: [per, 3 * per], 3: [per, 2 * per] if rng.random() < 0.5 else [2 * per] if rng.random() < 0.5 else [per], 2: [per]}[beats]
    if kind < 0.55:
        return row_of(count, claps)
    if kind < 0.67 and beats == 4 and tempo < 100:
        return row_of(count, [2 * per])
    if kind < 0.72 and per % 2 == 0 and tempo < 84:
        return row_of(count, range(per // 2, count, per))
    if kind < 0.77:
        return row_of(count, range(0, count, per))
    if kind < 0.88:
        return "".join("x" if a == "x" or b == "x" else "." for a, b in zip(row_of(count, claps), thrown(rng, beats, per, 0.2, -0.3, "x")))
    return woven(rng, beats, per)


def groove(rng, beats, per, riff, tempo):
    """One groove of a drummer; the kick often goes with the riff."""
    count, kind = beats * per, rng.random()
    voices = {}
    if rng.random() < 0.88:
        voices["s" if rng.random() < 0.8 else str(rng.choice(list("clt")))] = snare(rng, beats, per, tempo)
    if kind < 0.2:
        voices["k"] = row_of(count, range(0, count, per))
    elif kind < 0.45:
        voices["k"] = "".join(c if c in ".|" else "x" for c in riff)
    elif kind < 0.9:
        bars = [thrown(rng, beats, per, rng.uniform(0.15, 0.5) * min(1, 2.5 / per), rng.uniform(0, 0.9), "x") for _ in range(int(rng.choice([1, 1, 2])))]
        voices["k"] = "|".join("x" + b[1:] if rng.random() < 0.75 else b for b in bars)
    if rng.random() < 0.85:
        step = int(rng.choice([1, max(1, per // 2), max(1, per // 2), per]))
        voices[str(rng.choice(list("hhhorg")))] = row_of(count, range(step // 2 if rng.random() < 0.12 else 0, count, step)) if rng.random() < 0.85 else woven(rng, beats, per)
    if rng.random() < 0.25:
        voices[str(rng.choice(list("wqgt")))] = woven(rng, beats, per)
    return voices or {"k": row_of(count, [0])}


class Weave:
    """The rhythms of one piece: what its riff, guitars, bass, piano and drums play."""

    def __init__(self, rng, beats, division, tempo):
        per = 3 if division == 3 else 4 if rng.random() < np.clip((150 - tempo) / 70, 0.05, 0.95) else 2
        self.riff = woven(rng, beats, per, "x")
        chugging = rng.random() < 0.35
        self.guitar = [woven(rng, beats, per, "P" if chugging else str(rng.choice(["D", "DU", "DdU", "p", "Pb", "b12", "B1p", "1234", "c"])), "m" if chugging else "") for _ in range(2)]
        self.bass = [self.strokes("rrrf") if rng.random() < 0.4 else woven(rng, beats, per, "rrrfo") for _ in range(2)]
        self.piano = [woven(rng, beats, per, str(rng.choice(["C", "LRT", "LC", "CT"]))) for _ in range(2)]
        self.drums = [groove(rng, beats, per, self.riff, tempo)]
        if rng.random() < 0.5:
            self.drums.append({v: mutated(rng, t, "x") for v, t in self.drums[0].items()})
        if rng.random() < 0.3:
            self.guitar[0] = self.strokes("P" if chugging else "D", "m" if chugging else "")

    def strokes(self, symbols, fill=""):
        return "".join("|" if c == "|" else symbols[0] if c == "x" else fill or "." for c in self.riff)


def riffer(piece, layer, text, low, power=0, follow=True):
    """A riff: the same pitches each time it comes back, moved with the chords or not; it mostly starts on the root."""
    rng, harmony = piece.rng, piece.harmony
    count, grid = piece.grid(text)
    steps = [0, 3, 5, 7, 10, 12] if harmony.mode in ("minor", "dorian", "harmonic") or rng.random() < 0.3 else [0, 2, 4, 7, 9, 12]
    place, pitches = 0, []
    for b, at, _, _ in grid:
        place = 0 if at < 0.01 and rng.random() < 0.8 else int(np.clip(place + rng.choice([-2, -1, 0, 0, 0, 1, 1, 2]), 0, len(steps) - 1)) if rng.random() < 0.8 else 0
        pitches.append(steps[place])
    short, tonic = rng.uniform(0.4, 1), low + (harmony.key - low) % 12
    for index, (start, beats) in enumerate(piece.bars):
        row = [(k, at) for k, (b, at, _, _) in enumerate(grid) if b == index % count and at < beats]
        for n, (k, at) in enumerate(row):
            if rng.random() < 0.03:
                continue
            following = row[n + 1][1] if n + 1 < len(row) else beats
            root = low + (harmony.at(start + at).root - low) % 12 if follow else tonic
            strength = 0.75 * (1.15 if at < 0.01 else 1) * np.exp(rng.normal(0, 0.12))
            for extra in [0, 7, 12][:1 + power]:
                piece.play(layer, start + at, min(following - at, 2) * short, root + pitches[k] + extra, strength * (0.85 if extra else 1), rng.uniform(0, 0.006))
