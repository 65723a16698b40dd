"""Players: each turns harmony and a rhythm into notes (place in beats, length in beats, pitch, strength, delay in seconds)."""
import numpy as np

from harmony import near, voicing
from patterns import cells, melody_rhythm, mutated, thrown

DRUM = dict(k=[35, 36], s=[38, 40], h=[42], H=[42], o=[46], r=[51, 59, 53], c=[39], t=[41, 43, 45, 47], g=[70, 69, 54], w=[56, 75, 76, 77], q=[60, 61, 62, 63, 64, 67], l=[37], X=[38])


class Piece:
    """What the players share: bars, harmony, chance, and the notes played so far."""

    def __init__(self, rng, bars, harmony, division, beats):
        self.rng, self.bars, self.harmony, self.division, self.beats = rng, bars, harmony, division, beats
        self.notes = []

    def grid(self, text):
        """The cells of a rhythm; halves and thirds of the beat are read as the piece divides its beats."""
        count, row = cells(text, self.beats)
        per_beat = [len(bar) / self.beats for bar in text.split("|")]
        return count, [(b, align(at, per_beat[b], self.division), c, step) for b, at, c, step in row]

    def play(self, layer, place, length, pitch, strength, delay=0.0):
        self.notes.append((layer, place, length, int(pitch), strength, delay))


def align(at, per_beat, division):
    whole = int(at + 1e-6)
    part = at - whole
    if per_beat == 3 and division == 2:
        part = 0.25 if abs(part - 1 / 3) < 0.01 else 0.5 if abs(part - 2 / 3) < 0.01 else part
    elif per_beat == 2 and division == 3 and abs(part - 0.5) < 0.01:
        part = 2 / 3
    return whole + part


def pushes(rng, harmony, early, chance):
    """The chord changes that are played early, as {place: True}."""
    return {round(float(c), 3) for c in harmony.changes() if rng.random() < chance} if early else set()


def hits(piece, patterns, early=0.0, chance=0.0, vary=0.1, symbols=""):
    """Goes through the bars with one of the patterns a section; yields (place, symbol, length, chord). Pushed changes come early and are held over."""
    rng, harmony = piece.rng, piece.harmony
    pushed = pushes(rng, harmony, early, chance)
    section = 8 if rng.random() < 0.7 else 16
    chosen = {}
    for index, (start, beats) in enumerate(piece.bars):
        part = index // section
        if part not in chosen:
            texts = patterns[int(rng.integers(len(patterns)))] if part == 0 or rng.random() < 0.35 else chosen[part - 1]
            chosen[part] = texts
        count, grid = piece.grid(mutated(rng, chosen[part], symbols) if symbols and rng.random() < vary * 2 else chosen[part])
        row = [(at, c, step) for b, at, c, step in grid if b == index % count and at < beats]
        if rng.random() < vary and len(row) > 1:
            row.pop(int(rng.integers(len(row))))
        for k, (at, symbol, step) in enumerate(row):
            place = start + at
            following = row[k + 1][0] if k + 1 < len(row) else beats
            if early and round(place, 3) in pushed:
                continue
            if early and round(place + early, 3) in pushed:
                continue
            yield place, symbol, following - at, harmony.at(place)
    for change in pushed:
        if piece.bars[0][0] < change - early and change < piece.bars[-1][0]:
            yield change - early, "!", early + (1 if rng.random() < 0.7 else 0.5), harmony.at(change)


def strummer(piece, layer, patterns, early=0.0, chance=0.0, low=40, ring=True, soft=0.6, vary=0.1, symbols=""):
    rng = piece.rng
    spread = rng.uniform(0.003, 0.03)
    accents = rng.uniform(0, 0.5)
    back = rng.uniform(-0.2, 0.4)
    voices, last = {}, None
    strings = int(rng.integers(4, 7))
    turn, walk, power, choke, roll = 0, low + 5, int(rng.integers(2, 4)), rng.uniform(0.1, 0.5), rng.uniform(0.015, 0.05)
    for place, symbol, length, chord in hits(piece, patterns, early=early, chance=chance, vary=vary, symbols=symbols):
        if id(chord) not in voices:
            voices[id(chord)] = chord.fretted(rng, low + int(rng.integers(0, 5)), strings)
        notes = voices[id(chord)]
        on_beat = abs(place - round(place)) < 0.01
        strength = soft * (1 + (accents if on_beat else 0) + (back if on_beat and round(place) % 2 == 1 else 0)) * np.exp(rng.normal(0, 0.12))
        hold = max(length, 0.9) if ring else min(length, rng.uniform(0.15, 0.6))
        if symbol in "Dd!":
            picked, order = notes if symbol != "d" else notes[:3], 1
        elif symbol == "U":
            picked, order, strength = notes[-3:][::-1], 1, strength * 0.7
        elif symbol == "x":
            for pitch in notes[:4]:
                piece.play(layer, place, 0.06, pitch, strength * 0.5, rng.uniform(0, 0.01))
            piece.play("chuck", place, 0.1, 70, strength * 0.5)
            continue
        elif symbol in "bf":
            pitch = notes[0] if symbol == "b" else near(chord.notes[2], notes[0])
            piece.play(layer, place, max(length, 1.0), pitch, strength * 1.1)
            continue
        elif symbol == "B":
            piece.play(layer, place, 1.0, notes[0], strength * 1.1)
            picked = notes[-3:]
        elif symbol in "Pm":
            root = near(chord.root, low + 2)
            picked = [root] if symbol == "m" else [root, root + 7, root + 12][:power]
            hold = min(hold, 0.12) if symbol == "m" else length
        elif symbol == "w":
            walk = notes[0] if any(abs(place - c) < 0.01 for c in piece.harmony.starts) else int(np.clip(walk + rng.choice([-2, -1, 1, 2, 3, -3]), low, low + 17))
            piece.play(layer, place, length, walk, strength)
            continue
        elif symbol in "pca":
            hold = min(hold, choke) if symbol == "c" else hold
            picked = notes if symbol == "a" else notes[-int(rng.integers(2, 5)):]
        else:
            picked = [notes[-1 - (int(symbol) - 1) % (len(notes) - 1)]] if symbol.isdigit() else notes
        if symbol == "d":
            strength *= 0.6
        for k, pitch in enumerate(picked):
            piece.play(layer, place, hold, pitch, strength * (0.9 ** k), rng.uniform(0, 0.006) if symbol in "pcB" else k * (spread if symbol != "a" else roll))
        turn += 1


def bassist(piece, layer, patterns, early=0.0, chance=0.0):
    rng = piece.rng
    last = 40
    for place, symbol, length, chord in hits(piece, patterns, early=early, chance=chance, vary=0.06):
        root = near(chord.bass, 36 + int(chord.bass % 3))
        pitch = dict(r=root, f=near(chord.notes[2], root + 3), o=root + 12, t=near(chord.notes[1], root + 3)).get(symbol, root)
        if symbol == "a":
            pitch = last + int(rng.choice([-1, 1, 2, -2]))
        elif symbol == "w":
            starts = any(abs(place - c) < 0.01 for c in piece.harmony.starts)
            pitch = root if starts and rng.random() < 0.85 else last + int(rng.choice([-2, -1, 1, 2, 3, -3]))
        pitch = int(np.clip(pitch, 28, 55))
        last = pitch
        piece.play(layer, place, length * rng.uniform(0.5, 1.0), pitch, 0.8 * np.exp(rng.normal(0, 0.12)))


def drummer(piece, layer, grooves, skip=0.05):
    rng = piece.rng
    section = int(rng.choice([4, 8, 8, 16]))
    groove = grooves[int(rng.integers(len(grooves)))]
    drop = {v for v in groove if rng.random() < 0.08}
    pieces = {v: int(rng.choice(DRUM[v])) for v in DRUM}
    soft = {v: rng.uniform(0.5, 1.1) * (0.55 if v in "hHrgo" else 1) for v in DRUM}
    for index, (start, beats) in enumerate(piece.bars):
        if index % section == 0 and index and rng.random() < 0.25:
            groove = grooves[int(rng.integers(len(grooves)))]
        fill = index % section == section - 1 and rng.random() < 0.6
        if index % section == 0 and index and rng.random() < 0.5:
            piece.play(layer, start, 2, 49, 0.8)
        for voice, text in groove.items():
            if voice in drop:
                continue
            count, grid = piece.grid(text)
            for b, at, symbol, step in grid:
                if b != index % count or at >= beats or rng.random() < skip * 0.5 or (fill and at >= beats - 1.01 and voice != "k"):
                    continue
                piece.play(layer, start + at, 0.5, pieces[voice], soft[voice] * (1.3 if symbol == "X" else 0.6 if voice == "s" and "X" in text else 1) * np.exp(rng.normal(0, 0.15)))
        if fill:
            per = piece.division * int(rng.choice([1, 2])) if piece.division == 2 else 3
            for k in range(per):
                if rng.random() < 0.85:
                    piece.play(layer, start + beats - 1 + k / per, 0.5, int(rng.choice([38, 45, 43, 41, 47])), 0.8)


def singer(piece, layer, low, high, loose=0.0, ornaments=0.0, legato=1.0, division=None, gap=0.25, doubled=0.0):
    """A tune: motifs of one or two bars that come back, phrases with rests, pick-ups; loose phrases lie across the beat."""
    rng, harmony = piece.rng, piece.harmony
    division = division or piece.division
    beats = piece.beats
    motifs = []
    for _ in range(3):
        fine = division if rng.random() < 0.75 else 3 if rng.random() < 0.3 else {2: 4, 3: 3, 4: 2, 6: 3}[division]
        motifs.append([melody_rhythm(rng, beats, fine) for _ in range(int(rng.choice([1, 2, 4])))])
    phrase = int(rng.choice([2, 4, 4]))
    pitch = int(rng.integers(low + 3, high - 3))
    shift = rng.choice([0, 0, 0, -0.5, -1 / division, -1])
    places = []
    for index, (start, length) in enumerate(piece.bars):
        motif = motifs[(index // phrase) % 3] if rng.random() < 0.9 else [melody_rhythm(rng, beats, division)]
        last_bar = index % phrase == phrase - 1
        if last_bar and rng.random() < gap:
            continue
        for b, at, _, _ in cells(motif[index % len(motif)], beats)[1]:
            if at < length and not (last_bar and at > length / 2 and rng.random() < 0.6):
                places.append(start + at + shift)
    places = sorted(set(round(float(p), 4) for p in places))
    late = rng.uniform(-0.01, 0.03) if loose else 0
    for k, place in enumerate(places):
        length = min(places[k + 1] - place if k + 1 < len(places) else 1, 4)
        chord = harmony.at(place)
        strong = abs(place - round(place)) < 0.01
        step = int(rng.choice([-4, -2, -2, -1, -1, 0, 1, 1, 2, 2, 4, 7, -7]))
        pitch = int(np.clip(pitch + step, low, high))
        wanted = set(chord.notes) if strong and rng.random() < 0.6 else set(harmony.scale_at(place))
        toward = 1 if pitch < (low + high) / 2 else -1
        while pitch % 12 not in wanted:
            pitch += toward
        delay = rng.normal(late, loose) if loose else 0.0
        strength = 0.75 * (1.1 if strong else 0.95) * np.exp(rng.normal(0, 0.15))
        piece.play(layer, place, length * legato * rng.uniform(0.7, 1), pitch, strength, delay)
        if rng.random() < doubled:
            piece.play(layer, place, length, pitch - int(rng.choice([3, 4, 8, 9, 12])), strength * 0.8, delay)
        if rng.random() < ornaments and length > 0.4:
            piece.play(layer, place, 0.1, pitch + 2, strength * 0.7, delay - 0.06)


def pad(piece, layer, low=52, each=False, count=3, early=0.0, chance=0.0):
    """Held chords that change with the harmony."""
    rng = piece.rng
    changes = list(piece.harmony.changes()) + [piece.bars[-1][0] + piece.bars[-1][1]]
    pushed = pushes(rng, piece.harmony, early, chance)
    for a, b in zip(changes, changes[1:]):
        chord = piece.harmony.at(a)
        at = a - early if round(float(a), 3) in pushed else a
        for pitch in voicing(rng, chord, low, count):
            piece.play(layer, at, b - a, pitch, 0.5, rng.uniform(0, 0.03))


PIANO = {
    2: ["L.RRL.RR", "LRRRLRRR", "L.R.", "L.R.L.R.", "LR", "C.C.", "CC", "L.", "LRTRLRTR", "L.T.R.T.", "O.R.", "LTRT", "L.RTR.T."],
    3: ["L.R.R.", "LRTRTR", "L.....", "L.R.T.", "C.C.C.", "C..", "L.RRRR", "LTRTRT", "O.R.R.", "L....R", "LRTLRT", "LFEFEF", "L.F.R."],
    4: ["L.R.L.R.", "LTRTLTRT", "LRTRLRTR", "L...R...", "L.......", "C.C.C.C.", "C...C...", "L..R..R.", "L.T.R.T.", "LTRTRTRTLTRTRTRT", "O.R.O.R.", "L.RR.RR.", "L.T.R.T.L.T.R.T.", "L..RL.R.", "CCCCCCCC", "LTRTU.R.", "L.R.R.R.L.R.R.R.", "L.T.T.T.L.T.T.T.", "LTTRTTRT", "C.......", "O.......", "C.C.CCC.", "L..R..L.", "L.RTL.RT", "LTRTRTR.", "O.C.O.C.", "L...C...L...C.C.", "L..L..C.", "L..C..L..C..L.C.", "L..C..C.", "O...O..O", "O..OO..O", "L.C.LLC.", "LFEFRFEF", "L.FERFEF", "LFEFLFEF", "L.F.R.F.", "LFER.FER", "C.F.R.F."],
    6: ["LRTRTR", "L.RL.R", "L.....", "LRRLRR", "L..R..", "C..C..", "LTRTRT", "L.RRRR", "LRTLRT", "LFERFE", "LFEREF"],
    12: ["LRTRTRLRTRTR", "L..R..L..R..", "LTRLTRLTRLTR", "C..C..C..C..", "LRTLRTLRTLRT"],
}


def pianist(piece, layer, patterns, low=40, early=0.0, chance=0.0, pedal=0.6, shape=0.1):
    """Left-hand figures: L low note, F the fifth and E the octave above it, R the chord's upper notes, T one of them, O octave, C whole chord, U an inner tone."""
    rng = piece.rng
    held = rng.random() < pedal
    for place, symbol, length, chord in hits(piece, patterns, early=early, chance=chance, vary=0.08):
        root = near(chord.bass, low)
        upper = voicing(rng, chord, root + 7, 4)[1:]
        strength = 0.55 * np.exp(rng.normal(0, shape))
        length = max(length, 1.5) if held else length * 0.9
        if symbol in "LO!C":
            piece.play(layer, place, length, root, strength * 1.15, rng.uniform(0, 0.01))
            if symbol == "O":
                piece.play(layer, place, length, root - 12, strength * 1.15, rng.uniform(0, 0.01))
        if symbol in "RC!":
            for pitch in upper:
                piece.play(layer, place, length, pitch, strength * 0.85, rng.uniform(0, 0.012))
        if symbol in "FE":
            piece.play(layer, place, length, near(chord.notes[2], root + 7) if symbol == "F" else root + 12, strength)
        if symbol in "TU":
            piece.play(layer, place, length, upper[int(rng.integers(len(upper)))], strength * 0.85)


def random_patterns(rng, beats, division, symbols, obey=None):
    per = division if division == 3 else int(rng.choice([2, 2, 4]))
    obey = rng.uniform(-0.35, 0.8) if obey is None else obey
    return [thrown(rng, beats, per, rng.uniform(0.2, 0.75) * (2 / per if per > 2 else 1), obey, symbols, int(rng.choice([1, 1, 2]))) for _ in range(2)]
