"""One guitar that keeps a figure of one or two bars as players do who accompany: accents on the first beat and the back beats, ghost strokes and
brushes where the figure is silent, a turn at the end of four bars, chords that all come early or none; chords that are only held; clicks."""
import numpy as np

from hands import Hand, early_changes, squeal
from harmony import near
from patterns import STRUM, THUMBS, mutated, thumbed

# Two bars of a bossa's or a samba's upper notes, in eighths, with their other halves first as well (common practice).
CLAVES = ["p..p..p...p..p..", "..p.p...p..p..p.", "p..p..p..p..p.p.", ".p.p..p.p..p..p.", "p...p..p..p.p..p", "..p..p..p..p..pp", ".p..p..pp..p..p."]
FIGURES = dict(sixteen=[r for r in STRUM["sixteenths"] + STRUM["sscomp"] if len(r) == 16], eight=[r for r in STRUM["eighths"] + STRUM["sscomp"] if len(r) == 8],
               funk=[r for r in STRUM["funk"] + STRUM["funkcomp"] if "|" not in r], jazz=STRUM["jazzcomp"] + STRUM["charleston"], rock=STRUM["rockcomp"] + STRUM["chug"][:6],
               boom=STRUM["boom"], waltz=STRUM["waltz"], four=["D.D.D.D.", "D.x.D.x.", "p.p.p.p.", "DUD.DUD.", "D.DUD.DU"])


def bossa(rng):
    """A thumb on the beat or every second one under two bars of upper notes."""
    clave, thumb = CLAVES[int(rng.integers(len(CLAVES)))], THUMBS[4][int(rng.integers(4))]
    clave = clave[8:] + clave[:8] if rng.random() < 0.5 else clave
    return "|".join("".join("B" if (t, c) == ("b", "p") else t if c == "." else c if t == "." else "F" for t, c in zip(thumb, bar)) for bar in (clave[:8], clave[8:]))


def figure(rng, kind, beats):
    if kind == "bossa":
        return bossa(rng) if rng.random() < 0.75 else thumbed(rng, beats)
    rows = FIGURES[kind]
    return rows[int(rng.integers(len(rows)))]


class Figure:
    """A hand that plays one figure, with what stands between its strokes."""

    def __init__(self, piece, layer, kind, low, push):
        rng = self.rng = piece.rng
        self.piece, self.hand = piece, Hand(piece, layer, low)
        self.main = figure(rng, kind, piece.beats)
        other = figure(rng, kind, piece.beats) if rng.random() < 0.4 else mutated(rng, self.main, self.main.replace(".", "").replace("|", ""), 0.5)
        self.turn = other if len(other.split("|")[0]) == len(self.main.split("|")[0]) else self.main
        self.every = int(rng.choice([2, 4, 4, 8, 999]))
        self.back, self.first = rng.uniform(1, 1.8) if rng.random() < 0.55 else 1.0, rng.uniform(1, 1.5)
        self.ghosts, self.mutes = rng.uniform(0, 0.6) * (rng.random() < 0.6), rng.random()
        self.changes = early_changes(piece, float(rng.choice([0.0, push, 1.0])))
        self.steady, self.roll = rng.uniform(0.9, 1.0), rng.uniform(0.015, 0.05)
        self.walk, self.power = low + 3, int(rng.integers(2, 4))
        self.ring = dict(D=1.0, p=0.5, P=1.0)[str(rng.choice(["D", "p", "P"]))] * (1 if self.hand.ring else 0.4)

    def play(self):
        for index, (start, count) in enumerate(self.piece.bars):
            text = self.turn if index % self.every == self.every - 1 else self.main
            bars = text.split("|")
            row = bars[index % len(bars)]
            per = len(row) / self.piece.beats
            for k, symbol in enumerate(row):
                if k < count * per:
                    self.cell(start, k, per, symbol)
            squeal(self.piece, self.hand, start)

    def cell(self, start, k, per, symbol):
        rng, hand, place = self.rng, self.hand, start + k / per
        unit = 0.5 if per < 3 else 0.25 if per == 4 else 1 / per
        held, early = round(place, 3) in self.changes, round(place + unit, 3) in self.changes
        delay = hand.moment(k % per != 0)
        if early:
            symbol = symbol if symbol in "DpcPU" else "D"
        elif held and symbol not in "bfBFwx.":
            symbol = "b" if symbol == "B" else "."
        if symbol == "." or rng.random() > self.steady:
            return self.ghost(place, delay)
        beat = k / per
        accent = (self.first if k == 0 else 1) * (self.back if beat in (1, 3) and self.piece.beats == 4 else 1) * (1.2 if early else 1) * (0.85 if k % per else 1)
        self.stroke(symbol, place, 1 / per, hand.shape(hand.chord_at(place, unit if early else 0)), hand.strength(accent), delay)

    def ghost(self, place, delay):
        rng, hand = self.rng, self.hand
        if rng.random() >= self.ghosts:
            return
        strength = hand.strength(rng.uniform(0.1, 0.45))
        if rng.random() < self.mutes:
            hand.dead(place, strength, delay)
        else:
            hand.sound(place, 0.2, hand.shape(hand.chord_at(place, 0))[-2:], strength, delay, hand.spread / 2)

    def stroke(self, symbol, place, cell, shape, strength, delay):
        rng, hand = self.rng, self.hand
        length = max(cell, self.ring)
        if symbol == "x":
            hand.dead(place, strength, delay)
        elif symbol in "bfw":
            pitch = shape[0] if symbol == "b" else near(hand.chord_at(place, 0).notes[2], shape[0])
            if symbol == "w":
                pitch = self.walk = int(np.clip(self.walk + rng.choice([-2, -1, 1, 2, 3, -3]), hand.low - 3, hand.low + 12)) if rng.random() < 0.75 else shape[0]
            hand.sound(place, 1.5, [pitch], strength * 1.1, delay, 0)
        elif symbol in "BF":
            hand.sound(place, 1.5, [shape[0]], strength * 1.1, delay, 0)
            hand.sound(place, self.ring, shape[-3:], strength * 0.8, delay + rng.uniform(0, 0.01), 0.004)
        elif symbol in "Pm":
            root = near(hand.chord_at(place, 0).root, hand.low + 2)
            hand.sound(place, 0.12 if symbol == "m" else length, [root, root + 7, root + 12][:1 if symbol == "m" else self.power], strength * (0.7 if symbol == "m" else 1.1), delay, 0.004)
        elif symbol.isdigit():
            hand.sound(place, 1.2, [shape[-1 - (int(symbol) - 1) % (len(shape) - 1)]], strength * 0.8, delay, 0)
        elif symbol in "pca":
            hand.sound(place, 0.2 if symbol == "c" else length, shape if symbol == "a" else shape[-4:], strength, delay, self.roll if symbol == "a" else 0.006)
        else:
            some = shape[::-1][:int(rng.integers(2, 5))] if symbol == "U" else shape if symbol == "D" or rng.random() < 0.5 else shape[:3]
            hand.sound(place, length, some, strength * dict(U=0.75, d=0.5).get(symbol, 1), delay, hand.spread * rng.uniform(0.6, 1.5))


def kept(piece, layer, kind, low=40, push=0.3):
    Figure(piece, layer, kind, low, push).play()


def held(piece, layer, every, low=36, push=0.0):
    """Long chords or low notes on every beat or second beat, with nothing between."""
    rng, hand = piece.rng, Hand(piece, layer, low)
    hand.ring, low_only, roll = True, rng.random() < 0.3, rng.uniform(0, 0.05)
    for start, count in piece.bars:
        for k in range(0, int(count), every):
            shape = hand.shape(hand.chord_at(start + k, 0))
            hand.sound(start + k, every * rng.uniform(0.8, 1.1), shape[:1] if low_only else shape, hand.strength(1.2 if k == 0 else 1), hand.moment(False), roll)


CLICKS = [("kit0", 37), ("kit0", 75), ("kit0", 76), ("kit0", 56), ("kit0", 42), ("kit0", 39), ("kit0", 77), ("kit0", 36), ("kit0", 38), ("gm24", 52), ("gm25", 40), ("gm0", 60), ("gm0", 84),
          ("gm11", 77), ("gm12", 72), ("gm15", 79), ("chuck", 66), ("gm25", 64), ("gm26", 45), ("gm32", 40)]


def clicked(piece, cast):
    """Nothing but the beat, the first of a bar perhaps stronger or another sound."""
    rng = piece.rng
    (name, pitch), other = CLICKS[int(rng.integers(len(CLICKS)))], CLICKS[int(rng.integers(len(CLICKS)))]
    cast["clicks"], cast["first clicks"] = (name, 0), (other[0] if rng.random() < 0.3 else name, 0)
    accent, higher, length = rng.uniform(1, 1.8) * (rng.random() < 0.5) or 1.0, int(rng.choice([0, 0, 5, 12])), rng.uniform(0.05, 0.6)
    for start, count in piece.bars:
        for k in range(int(count)):
            first = k == 0 and (accent > 1 or higher)
            piece.play("first clicks" if first else "clicks", start + k, length, pitch + (higher if first and not name.startswith(("kit", "chuck")) else 0), 0.6 * (accent if k == 0 else 1))


COMPING = dict(kept=kept, held=held)
