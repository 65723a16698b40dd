"""Harmony that knows its names: loops, tunes, cadences, blues and wanderings in many kinds of chord, over bass notes and with changes of key.

Takes the place of training/beats' Harmony in its composer. The progressions are common practice; how often each is drawn is our own judgement.
"""
import re

import numpy as np

from harmony import MODES, Chord, voicing
from shapes import TUNINGS, fretted

# The first 17 are what the network tells apart, in the order of its outputs (ChordVocabulary in the program).
KINDS = {"maj": (0, 4, 7), "min": (0, 3, 7), "7": (0, 4, 7, 10), "min7": (0, 3, 7, 10), "maj7": (0, 4, 7, 11), "sus4": (0, 5, 7), "sus2": (0, 2, 7), "5": (0, 7, 7),
         "6": (0, 4, 7, 9), "min6": (0, 3, 7, 9), "dim": (0, 3, 6), "hdim7": (0, 3, 6, 10), "dim7": (0, 3, 6, 9), "aug": (0, 4, 8), "add9": (0, 4, 7, 2),
         "9": (0, 4, 7, 10, 2), "7sus4": (0, 5, 7, 10),
         "maj9": (0, 4, 7, 11, 2), "69": (0, 4, 7, 9, 2), "min9": (0, 3, 7, 10, 2), "min11": (0, 3, 7, 10, 5), "minadd9": (0, 3, 7, 2), "minmaj7": (0, 3, 7, 11),
         "13": (0, 4, 7, 10, 9), "7b9": (0, 4, 7, 10, 1), "7#9": (0, 4, 7, 10, 3), "aug7": (0, 4, 8, 10)}
TOLD = 17
CALLED = {"maj9": "maj7", "69": "6", "min9": "min7", "min11": "min7", "minadd9": "min", "minmaj7": "min", "13": "7", "7b9": "7", "7#9": "7", "aug7": "aug"}
NUMBER = {k: list(KINDS).index(CALLED.get(k, k)) for k in KINDS}
FLAVOURS = {
    "plain": dict(maj=dict(maj=93, sus4=2, add9=2, **{"5": 2, "7": 1}), min=dict(min=94, min7=6), dom={"maj": 60, "7": 38, "sus4": 2}, dim=dict(dim=70, hdim7=15, dim7=15)),
    "coloured": dict(maj={"maj": 50, "maj7": 13, "sus2": 8, "sus4": 7, "add9": 10, "6": 5, "5": 3, "maj9": 3, "69": 1}, min=dict(min=50, min7=33, min9=6, minadd9=4, min6=2, min11=5),
                     dom={"maj": 34, "7": 30, "7sus4": 12, "sus4": 12, "9": 8, "aug": 2, "13": 2}, dim=dict(dim=30, hdim7=40, dim7=30)),
    "sevenths": dict(maj={"maj7": 50, "6": 20, "maj9": 12, "69": 8, "maj": 10}, min=dict(min7=65, min9=12, min6=8, min=8, minmaj7=3, min11=4),
                     dom={"7": 50, "9": 17, "13": 10, "7sus4": 6, "7b9": 7, "aug7": 3, "7#9": 3, "maj": 2, "aug": 2}, dim=dict(hdim7=50, dim7=40, dim=10)),
    "blues": dict(maj={"7": 70, "9": 15, "maj": 10, "13": 5}, min=dict(min7=70, min=30), dom={"7": 75, "9": 15, "7#9": 5, "maj": 5}, dim=dict(dim7=60, hdim7=40)),
    "rock": dict(maj={"5": 45, "maj": 50, "sus4": 3, "sus2": 2}, min={"5": 45, "min": 55}, dom={"5": 30, "maj": 60, "7": 10}, dim=dict(dim=100)),
}
ANY = {"maj": 24, "min": 16, "7": 10, "min7": 9, "maj7": 8, "sus4": 5, "sus2": 4, "6": 3, "min6": 2, "dim": 3, "hdim7": 3, "dim7": 2, "aug": 2, "add9": 4, "9": 3, "7sus4": 2, "min9": 2, "maj9": 2, "13": 1}
LOOPS = {
    "major": """I V vi IV|vi IV I V|I vi IV V|I IV V IV|I IV I V|I V IV IV|I iii IV V|IV I V vi|I bVII IV I|I ii IV V|I vi ii V|I IV vi V|I V ii IV|vi V IV V|I III7 vi IV|I II7 IV I
        |I IV iv I|I I IV IV|I V I V|IV V iii vi|IV iv I VI7|I bVI bVII I|I iii vi IV|vi ii V I|IV V vi vi|I V vi iii IV I IV V|I V/3 vi I/5 IV I/3 ii V|I I/7 vi IV|I IV/5 V I|IV V/4 I/3 vi
        |I/3 IV V I|I V/3 bVII IV|ii V I I|I vi IV iv|I IV ii V|I iii7 vi I7 IV iv I V|I/5 V I I|I ii/1 V/1 I|I bIII IV I|I v IV IV|IV/6 I V IV|I #ivo7 IV I|I V/5 IV/6 I""",
    "minor": """i bVI bIII bVII|i bVII bVI V7|i iv v i|i bVII bVI bVII|i iv bVII bIII|i iv V7 i|i bIII bVII iv|i v bVI bVII|i bVI iv V7|i iio V7 i|iv i V7 i|bVI bVII i i|i i iv i V7 iv i i
        |i i/b7 bVI V7|i V7/3 i/b3 iv|i bIII/5 bVI iv|i bVII/2 bIII iv|i V7 i bVII bIII bVII i V7|bVI bIII bVII i|i IV bVI V7|i i bVI bVI|i bVII i V7|i bII V7 i""",
    "mixolydian": "I bVII IV I|I bVII I bVII|I IV bVII I|I v IV I|I bVII IV IV|I I bVII I|I bVII bVI V|I IV I bVII|I I bVII bVII|I ii bVII I|bVII IV I I",
    "dorian": "i IV i IV|i bVII IV i|i bIII IV i|i ii i IV|i bVII i bVII|i IV bVII i|i i bVII bVII|i v i bVII|i bVII bIII IV|i ii bIII IV",
}
LOOPS["harmonic"] = LOOPS["minor"]
TUNES = {
    "major": """I I IV I I I V I|I IV I V I IV V I|I I IV V I I V I|I V I V I IV V I|I vi IV V I vi V I|I I V V IV I V I|I IV I I IV I V V|I I II7 V I IV V I|I I I V I I V I|I IV V I IV I V I
        |I V I IV I V I I|I ii V I I ii V I|I iii IV I ii V I I|IV I V I IV I V I|I I V V V V I I|I vi ii V I IV V I|V V I I II7 II7 V V|I IV I VI7 ii V I I|I V vi IV I V I I""",
    "minor": "i i bVII i i bVII v i|i V7 i V7 i iv V7 i|i iv i V7 i iv V7 i|i bVII bVI bVII i bVII i i|i bIII bVII i i bIII v i|bIII bVII i V7 bIII bVII V7 i",
    "mixolydian": "I I bVII bVII I I bVII I|I bVII I IV I bVII bVII I|I I IV bVII I bVII I I",
    "dorian": "i i bVII bVII i i bVII i|i bVII i IV i bVII v i|i bIII bVII i i IV bVII i",
}
TUNES["harmonic"] = TUNES["minor"]
JAZZ = {
    "major": """ii V I I|ii V I VI7|iii VI7 ii V|I VI7 ii V|I #io7 ii V|I bIIIo7 ii V|ii bII7 I I|I IV iii VI7 ii V I I|I I7 IV iv I VI7 ii V|IV bVII7 I I|I vi ii V|iio V7 I I|#ivo iv iii bIIIo7 ii V I VI7
        |I II7 ii V|III7 VI7 II7 V|I/3 bIIIo7 ii V|I iiio VI7 ii|IV #ivo7 I/5 VI7 ii V I I|vi II7 ii V""",
    "minor": "iio V7 i i|i iv iio V7|i bVI iio V7|iv bVII7 bIII bVI iio V7 i i|i i iv iv iio V7 i V7|i IV7 iio V7|i bII7 i V7",
}
JAZZ.update(harmonic=JAZZ["minor"], dorian=LOOPS["dorian"], mixolydian=LOOPS["mixolydian"])
BLUES = "I I I I IV IV I I V IV I V|I IV I I IV IV I I V IV I I|I I I I IV #ivo7 I VI7 ii V I V|i i i i iv iv i i bVI V7 i V7|I IV I V|I I IV I"
STEPS = dict(zip(("i", "ii", "iii", "iv", "v", "vi", "vii"), (0, 2, 4, 5, 7, 9, 11)))
DEGREES = {"1": 0, "2": 2, "b3": 3, "3": 4, "4": 5, "5": 7, "6": 9, "b7": 10, "7": 11}
AWAY = {"major": [(7, "major"), (5, "major"), (9, "minor"), (2, "major"), (1, "major"), (0, "minor"), (3, "major"), (8, "major")], "minor": [(3, "major"), (5, "minor"), (7, "minor"), (0, "major"), (1, "minor"), (2, "minor")]}
SYMBOL = re.compile(r"([b#]?)([iv]+)(o?)(7?)(?:/(.+))?$", re.I)


def minor(mode):
    return mode in ("minor", "dorian", "harmonic")


def drawn(rng, weights):
    names = list(weights)
    share = np.array([weights[n] for n in names], float)
    return names[int(rng.choice(len(names), p=share / share.sum()))]


class NamedChord(Chord):
    """A chord with its kind: number is 1 + 17 root + kind; over, the bass in semitones above the root. sounded may differ from the name (a fourth hung before the third)."""

    __slots__ = ("number", "over", "hand")

    def __init__(self, root, kind, over, hand, sounded=None):
        super().__init__(root, [(root + t) % 12 for t in KINDS[sounded or kind]], (root + over) % 12)
        self.number, self.over, self.hand = 1 + TOLD * root + NUMBER[kind], over % 12, hand

    def fretted(self, rng, low, count):
        strings, share, bare = self.hand
        notes = self.notes[1:] if bare and len(self.notes) > 3 and rng.random() < 0.5 else self.notes
        held = fretted(rng, notes, self.bass if notes is self.notes else notes[int(rng.choice([0, -1]))], strings) if rng.random() < share else None
        return held or voicing(rng, self, low, count)


class Progression:
    """What the players ask: at(p), the chord at a place in beats; starts, chords, changes(), scale_at(p); and key_at(p), for the labels."""

    def __init__(self, rng, bar_starts, beats, rate):
        self.rng = rng
        tuning = TUNINGS[int(rng.integers(len(TUNINGS)))] if rng.random() < 0.25 else TUNINGS[0]
        capo = int(rng.choice([0, 0, 0, 1, 2, 3, 4, 5, 7, -1]))
        self.flavour = "blues" if rate == "blues" and rng.random() < 0.8 else drawn(rng, dict(plain=46, coloured=25, sevenths=21, rock=8))
        self.hand = (tuple(s + capo for s in tuning), rng.choice([1.0, 0.8, 0.3]), self.flavour == "sevenths" and rng.random() < 0.15)
        self.grammar = "blues" if rate == "blues" else drawn(rng, dict(loop=34, tune=22, jazz=26 if self.flavour == "sevenths" else 6, walk=18, any=13))
        self.turned = rng.uniform(0, {"plain": 0.15, "coloured": 0.35, "sevenths": 0.15}.get(self.flavour, 0.1)) * (rng.random() < 0.6)
        self.mode = str(rng.choice(list(MODES), p=[0.5, 0.19, 0.12, 0.1, 0.09]))
        self.key = int(rng.integers(12))
        self.sections(bar_starts, beats, rate)
        if rng.random() < 0.25:
            self.decorate(rng.uniform(0.1, 0.6))
        self.starts = np.array(self.starts, float)

    def sections(self, bar_starts, beats, rate):
        rng = self.rng
        size = int(rng.choice([4, 8, 8, 16]))
        home, away = (self.key, self.mode), (self.key, self.mode)
        if rng.random() < 0.25:
            step, mode = AWAY["minor" if minor(self.mode) else "major"][int(rng.choice(6))]
            away = ((self.key + step) % 12, mode)
        parts = [(home, self.loop(home, rate)), (away, self.loop(away, rate))]
        stay = away != home and rng.random() < 0.5
        self.starts, self.chords, self.keys = [], [], []
        for k, (start, length) in enumerate(zip(bar_starts, beats)):
            part = k // size
            key, loop = parts[min(part, 1) if stay else part % 2]
            self.keys.append((start, key))
            for at, chord in loop[k % size % len(loop)]:
                if at < length:
                    self.starts.append(start + at)
                    self.chords.append(chord)

    def loop(self, key, rate):
        rng = self.rng
        bars = int(rng.choice([2, 4, 4, 8])) if rate != "blues" else 12
        symbols = self.symbols(key[1])
        if self.grammar == "tune":
            bars = 8
        elif rate in ("slow", "bar") and self.grammar != "walk" and len(symbols) > bars:
            bars = len(symbols)
        made, out, k, pedal = {}, [], 0, self.rng.random() < 0.05
        for bar in range(bars):
            here = []
            for at in self.cuts(rate, bar):
                symbol = symbols[k % len(symbols)]
                if symbol not in made or rng.random() < 0.2:
                    made[symbol] = self.chord(key, symbol)
                chord = made[symbol]
                if pedal:
                    chord = NamedChord(chord.root, list(KINDS)[(chord.number - 1) % TOLD], key[0] - chord.root, self.hand)
                here.append((at, chord))
                k += 1
            out.append(here)
        if not out[0]:
            out[0] = [(0, self.chord(key, symbols[0]))]
        return out

    def cuts(self, rate, bar):
        rng = self.rng
        if rate == "slow":
            return [0] if bar % 2 == 0 else []
        if rate == "half":
            return [0, 2] if rng.random() < 0.6 else [0]
        if rate == "beat":
            return [0, 1, 2, 3] if rng.random() < 0.6 else [0, 2]
        if rate == "mixed":
            return [0] if rng.random() < 0.6 else [0, 2] if rng.random() < 0.6 else [0, 3] if rng.random() < 0.5 else []
        return [0] if rng.random() < 0.92 else [0, 2]

    def symbols(self, mode):
        rng = self.rng
        if self.grammar in ("loop", "tune", "jazz", "blues"):
            rows = BLUES if self.grammar == "blues" else dict(loop=LOOPS, tune=TUNES, jazz=JAZZ)[self.grammar][mode]
            rows = rows.split("|")
            row = rows[int(rng.integers(len(rows)))].split()
            if rng.random() < 0.15:
                shift = int(rng.integers(len(row)))
                row = row[shift:] + row[:shift]
            return row
        if self.grammar == "any":
            return [f"?{k}" for k in range(int(rng.integers(3, 9)))]
        pool = dict(major="I I IV IV V V vi vi ii iii V/3 I/3 bVII iv II7 VI7 III7 bVI", minor="i i iv iv bVI bVI bVII bVII bIII V7 v iio bII", mixolydian="I I bVII bVII IV IV v vi ii",
                    dorian="i i IV IV bVII bVII bIII v ii").get(mode, "i i iv V7 V7 bVI bVII iio").split()
        return [pool[0]] + [pool[int(rng.integers(len(pool)))] for _ in range(int(rng.choice([3, 7, 7])))]

    def chord(self, key, symbol):
        rng = self.rng
        if symbol[0] == "?":
            root, kind, over = int(rng.integers(12)), drawn(rng, ANY), 0
        else:
            sign, numeral, dim, seventh, slash = SYMBOL.match(symbol).groups()
            step = STEPS[numeral.lower()] + {"b": -1, "#": 1, "": 0}[sign]
            if minor(key[1]) and not sign and numeral.lower() in ("iii", "vi", "vii") and not dim:
                step -= 1
            root = (key[0] + step) % 12
            family = "dim" if dim else "min" if numeral.islower() else "dom" if numeral == "V" or seventh else "maj"
            kind = drawn(rng, FLAVOURS[self.flavour][family])
            if seventh and family == "dom" and self.flavour not in ("rock", "blues") and rng.random() < 0.6:
                kind = "7"
            elif seventh and family == "dim":
                kind = "dim7"
            over = DEGREES[slash] if slash else 0
        if over == 0 and kind != "5" and rng.random() < (0.25 if symbol[0] == "?" else self.turned):
            tones = KINDS[kind]
            over = int(tones[1 + int(rng.choice(len(tones) - 1))]) if rng.random() < 0.93 else int(rng.choice([2, 5, 10]))
        return NamedChord(root, kind, over, self.hand)

    def decorate(self, chance):
        """Fourths, seconds, sixths and ninths that come and go inside a chord that keeps its name."""
        rng = self.rng
        starts, chords = [], []
        ends = self.starts[1:] + [self.starts[-1] + 4]
        for start, end, chord in zip(self.starts, ends, self.chords):
            starts.append(start)
            chords.append(chord)
            kind = (chord.number - 1) % TOLD
            if kind in (0, 1) and end - start >= 2 and rng.random() < chance:
                sounded = str(rng.choice(["sus4", "sus4", "sus2", "add9", "6"] if kind == 0 else ["sus4", "sus2", "min7", "minadd9", "min6"]))
                at = start + float(rng.choice([0.5, 1, 1, 1.5, 2])) * (1 if end - start < 4 else rng.choice([1, 1.5]))
                until = at + float(rng.choice([0.5, 1, 1]))
                if at < end:
                    starts.append(at)
                    chords.append(NamedChord(chord.root, list(KINDS)[kind], chord.over, self.hand, sounded))
                if until < end:
                    starts.append(until)
                    chords.append(chord)
        self.starts, self.chords = starts, chords

    def at(self, p):
        return self.chords[max(0, int(np.searchsorted(self.starts, p + 1e-6, side="right")) - 1)]

    def key_at(self, p):
        """The keynote and whether it is minor."""
        found = self.keys[0][1]
        for start, key in self.keys:
            if start <= p + 1e-6:
                found = key
        return found[0], minor(found[1])

    def scale_at(self, p):
        """The scale of the key, bent to the chord: its notes, and none a semitone from one that isn't of the key."""
        tonic, mode = next((key for start, key in reversed(self.keys) if start <= p + 1e-6), self.keys[0][1])
        scale, notes = {(tonic + s) % 12 for s in MODES[mode]}, set(self.at(p).notes)
        bent = {n + d for n in notes - scale for d in (-1, 1)}
        return (scale - {b % 12 for b in bent}) | notes

    @property
    def scale(self):
        return sorted((self.key + s) % 12 for s in MODES[self.mode])

    def changes(self):
        keep = [0] + [k for k in range(1, len(self.chords)) if (self.chords[k].number, self.chords[k].over) != (self.chords[k - 1].number, self.chords[k - 1].over)]
        return self.starts[keep]
