"""A player alone who plays a tune or a solo: runs in one division of the beat, phrases with an aim, rests, double notes, slurs."""
import numpy as np

STEPS = ([1, 1, 1, -1, -1, 2, -2, 3], [-1, -1, -1, 1, 1, -2, 2, -3])
LADDERS = {"pentatonic": {"major": [0, 2, 4, 7, 9], "minor": [0, 3, 5, 7, 10]}, "blues": {"major": [0, 2, 3, 4, 7, 9], "minor": [0, 3, 5, 6, 7, 10]}}


def ladder(rng, harmony, low, high):
    """The pitches that a solo climbs on, rising."""
    kind = str(rng.choice(["scale", "scale", "pentatonic", "blues"]))
    minor = "minor" if harmony.mode in ("minor", "dorian", "harmonic") else "major"
    classes = set(harmony.scale) if kind == "scale" else {(harmony.key + s) % 12 for s in LADDERS[kind][minor if rng.random() < 0.8 else "minor"]}
    return [p for p in range(low, high + 1) if p % 12 in classes]


def divisions(rng, piece, tempo):
    """How a player may cut the beat, favourites of this piece first."""
    if piece.division == 3:
        return [3, 3, 1, 6] if tempo < 80 else [3, 3, 3, 1]
    if tempo > 150:
        return [2, 2, 2, 1, 3]
    return [4, 4, 2, 2, 3, 1] if tempo < 115 else [2, 2, 2, 4, 3, 1]


def phrase_places(rng, start, beats, cuts):
    """Onsets of one phrase within so many beats, each with the step to the next."""
    begin = float(rng.choice([0, 0, 0, 1, 0.5, 0.5, 1.5, 2, -0.5, -1]))
    stop = beats - rng.choice([0.0, 0.5, 1, 1, 1.5, 2])
    at, out = begin, []
    cut = int(rng.choice(cuts))
    while at < stop:
        on_beat = abs(at - round(at)) < 0.01
        if on_beat and rng.random() < 0.35:
            cut = int(rng.choice(cuts))
        step = 1 / cut
        long = rng.random()
        if long < (0.12 if on_beat else 0.06):
            step = float(rng.choice([1, 1.5, 2]))
        elif not on_beat and long < 0.16:
            step = np.ceil(at + 0.01) - at
        elif cut == 2 and on_beat and long > 0.9:
            step = 1.5
        elif cut == 4 and on_beat and long > 0.8:
            step = float(rng.choice([0.5, 0.75]))
        if cut in (3, 6) and not on_beat and step >= 1:
            step = np.ceil(at + 0.01) - at
        elif cut == 4 and abs(at * 2 - round(at * 2)) > 0.01 and step > 0.25:
            step = 0.25
        out.append((start + at, step))
        at += step
    return out


def soloist(piece, layer, low, high, tempo):
    rng, harmony = piece.rng, piece.harmony
    pitches = ladder(rng, harmony, low, high)
    cuts = divisions(rng, piece, tempo)
    double, slurs, laid, rests = rng.uniform(0, 0.3) if rng.random() < 0.35 else 0.0, rng.uniform(0, 0.5), rng.uniform(-0.005, 0.02), rng.uniform(0, 0.3)
    accent = rng.uniform(0, 0.35)
    place_now, bar, saved = int(rng.integers(len(pitches))), 0, None
    while bar < len(piece.bars):
        length = int(rng.choice([1, 2, 2, 4]))
        start = piece.bars[bar][0]
        beats = sum(b for _, b in piece.bars[bar:bar + length])
        if saved and saved[1] == beats and rng.random() < 0.35:
            row = [(start + at - saved[0], step) for at, step in saved[2]]
        else:
            row = phrase_places(rng, start, beats, cuts)
        saved = (start, beats, row)
        bar += length
        if rng.random() < rests * 0.5:
            continue
        climb = STEPS[int(rng.integers(2))]
        for k, (at, step) in enumerate(row):
            if rng.random() < 0.15:
                climb = STEPS[int(rng.integers(2))]
            chord, on_beat = harmony.at(at), abs(at - round(at)) < 0.01
            place_now = int(np.clip(place_now + rng.choice(climb), 0, len(pitches) - 1))
            pitch = pitches[place_now]
            if (on_beat or k == len(row) - 1) and rng.random() < 0.6:
                pitch = min((p for p in range(low, high + 1) if p % 12 in chord.notes), key=lambda p: abs(p - pitch))
            slurred = k > 0 and rng.random() < slurs * (0.3 if on_beat else 1) and row[k - 1][1] <= 0.5
            strength = 0.75 * (1 + (accent if on_beat else 0)) * (0.5 if slurred else 1) * np.exp(rng.normal(0, 0.15))
            piece.play(layer, at, step * rng.uniform(0.7, 1.1), pitch, strength, laid)
            if rng.random() < double and not slurred:
                piece.play(layer, at, step, pitch - int(rng.choice([3, 4, 5, 8, 9, 12])), strength * 0.8, laid)
