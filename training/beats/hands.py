"""One guitar as people play it alone: a strumming hand that keeps moving and touches the strings or not, chords that come early, a thumb with
fingers over it, brushes, ghosts, strokes on muted strings, squeaks. Nothing here is a loop that comes back note by note: a rhythm is a habit, and
each bar is played anew after it. Grids are cells of the beat: two, three or four."""
import numpy as np

from harmony import near
from patterns import weight


class Habit:
    """How likely a hand sounds each cell of one to four bars, and how hard."""

    def __init__(self, rng, beats, per, density, obey, loose):
        bars = int(rng.choice([1, 1, 2, 2, 4]))
        level = np.array([weight(k, per, beats) for k in range(beats * per)])
        pull = np.exp(obey * (level - level.mean()))
        usual = np.clip(density * pull / pull.mean(), 0.02, 0.98)
        self.rows = [rng.random(len(level)) < usual for _ in range(bars)]
        if bars > 1 and rng.random() < 0.5:
            self.rows[bars - 1 if bars == 2 else 2] = self.rows[0].copy()
        for row in self.rows:
            row[0] |= rng.random() < 0.35 + 0.5 * (obey > 0.2)
        self.usual, self.loose = usual, loose
        self.accent = np.exp(rng.normal(0, 0.18, len(level)) + rng.uniform(0, 0.12) * (level - level.mean()))
        if beats == 4 and rng.random() < 0.45:
            self.accent[per::2 * per] *= rng.uniform(1.1, 1.7)

    def bar(self, rng, index):
        row = self.rows[index % len(self.rows)]
        anew = rng.random(len(row)) < self.loose * (2.5 if rng.random() < 0.15 else 1)
        return np.where(anew, rng.random(len(row)) < self.usual, row)


class Hand:
    """What one player brings to every piece: time that leans and wanders, strokes unlike one another, a shape a chord."""

    def __init__(self, piece, layer, low, strings=None):
        rng = piece.rng
        self.piece, self.layer, self.rng = piece, layer, rng
        self.low, self.strings = low, strings or int(rng.integers(4, 7))
        self.spread, self.uneven = rng.uniform(0.004, 0.035), rng.uniform(0.08, 0.35)
        self.size, self.memory, self.off = rng.uniform(0.001, 0.009), rng.uniform(0.5, 0.95), 0.0
        self.lean = rng.normal(0, 0.008)
        self.ring = rng.random() < 0.65
        self.choke = rng.uniform(0.08, 0.6)
        self.scrape = rng.uniform(0, 0.4) if rng.random() < 0.4 else 0.0
        self.shapes, self.squeaks, self.last, self.squeak = {}, rng.uniform(0, 0.25) * (rng.random() < 0.5), None, False

    def shape(self, chord):
        """The pitches of the chord's shape, low to high; the same chord is mostly held the same way."""
        if id(chord) not in self.shapes or self.rng.random() < 0.04:
            self.shapes[id(chord)] = chord.fretted(self.rng, self.low + int(self.rng.integers(0, 6)), self.strings)
        if self.last is not None and self.last is not chord and self.rng.random() < self.squeaks:
            self.squeak = True
        self.last = chord
        return self.shapes[id(chord)]

    def moment(self, between):
        """Seconds by which the next stroke misses its place."""
        self.off = self.memory * self.off + self.rng.normal(0, self.size)
        return self.off + (self.lean if between else 0)

    def strength(self, accent):
        return 0.55 * accent * np.exp(self.rng.normal(0, self.uneven))

    def sound(self, place, length, pitches, strength, delay, spread):
        if self.scrape and len(pitches) > 2:
            self.dead(place, strength * self.scrape, delay)
        for k, pitch in enumerate(pitches):
            if len(pitches) > 3 and self.rng.random() < 0.06:
                continue
            self.piece.play(self.layer, place, length, pitch, strength * 0.93 ** k * np.exp(self.rng.normal(0, 0.1)), delay + k * spread / max(1, len(pitches) - 1) + self.rng.uniform(0, 0.002))

    def dead(self, place, strength, delay):
        self.piece.play("chuck", place, 0.1, int(self.rng.integers(60, 90)), strength, delay)

    def chord_at(self, place, early):
        return self.piece.harmony.at(place + early)


def early_changes(piece, chance):
    """The places of the chord changes that come a cell early."""
    return {round(float(c), 3) for c in piece.harmony.changes() if piece.rng.random() < chance}


def strummed(piece, layer, per, low=40, push=0.2):
    """A hand that goes down on the beat and up between, all the time; it sounds some strokes, brushes or mutes others."""
    rng, hand, beats = piece.rng, Hand(piece, layer, low), piece.beats
    habit = Habit(rng, beats, per, rng.uniform(0.3, 0.85) if per < 4 else rng.uniform(0.25, 0.7), rng.uniform(-0.1, 0.9), rng.uniform(0.02, 0.2))
    brush, mutes = rng.uniform(0, 0.5) * (rng.random() < 0.6), rng.random() < 0.4
    back = rng.random() < 0.3 and beats == 4
    bass = rng.uniform(0, 0.6) * (rng.random() < 0.5)
    cell, changes = 1 / per, early_changes(piece, push * rng.uniform(0, 2))
    for index, (start, count) in enumerate(piece.bars):
        row = habit.bar(rng, index)
        for k in range(min(len(row), int(count * per))):
            place, down = start + k * cell, k % per == 0 or (k % 2 == 0 if per != 3 else k % 3 == 0 or rng.random() < 0.3)
            held, early = round(place, 3) in changes, round(place + cell, 3) in changes
            delay = hand.moment(k % per != 0)
            if held and rng.random() < 0.7:
                continue
            if back and k % (2 * per) == per and rng.random() < 0.85:
                hand.dead(place, hand.strength(1.2), delay)
                if rng.random() < 0.5:
                    continue
            if not row[k] and not early:
                if rng.random() < brush:
                    strength = hand.strength(rng.uniform(0.15, 0.5))
                    if mutes or rng.random() < 0.5:
                        hand.dead(place, strength, delay)
                    else:
                        shape = hand.shape(hand.chord_at(place, 0))
                        hand.sound(place, cell, shape[-2:] if not down else shape[:2], strength, delay, hand.spread / 2)
                continue
            shape = hand.shape(hand.chord_at(place, cell if early else 0))
            strength = hand.strength(habit.accent[k] * (1.2 if early else 1))
            length = max(1.0, cell) if hand.ring else min(cell, hand.choke)
            if down and k % per == 0 and rng.random() < bass:
                hand.sound(place, 1.2, shape[:1] if rng.random() < 0.7 else shape[:2], strength * 1.1, delay, 0.004)
            elif down:
                some = shape if rng.random() < 0.7 else shape[:int(rng.integers(2, len(shape) + 1))]
                hand.sound(place, length, some, strength, delay, hand.spread * rng.uniform(0.6, 1.6))
            else:
                hand.sound(place, length, shape[::-1][:int(rng.integers(2, 5))], strength * rng.uniform(0.5, 0.9), delay, hand.spread * rng.uniform(0.4, 1.1))
        squeal(piece, hand, start)


def squeal(piece, hand, start):
    """A finger slides to the next shape."""
    if hand.squeak:
        piece.play("squeak", start - hand.rng.uniform(0.05, 0.2), 0.1, int(hand.rng.integers(100)), hand.rng.uniform(0.1, 0.5))
        hand.squeak = False


def comped(piece, layer, per, low=43, push=0.5):
    """Chords touched together, short and long, on the beat and early; sometimes a thumb walks or every beat is struck."""
    rng, hand, beats = piece.rng, Hand(piece, layer, low, int(piece.rng.integers(3, 5))), piece.beats
    manner = str(rng.choice(["free", "free", "habit", "four", "walk", "sparse"]))
    obey = dict(free=rng.uniform(-0.3, 0.5), habit=rng.uniform(-0.3, 0.6), four=1.2, walk=rng.uniform(-0.4, 0.3), sparse=rng.uniform(-0.2, 0.7))[manner]
    density = dict(free=0.38, habit=0.4, four=0.35, walk=0.3, sparse=0.2)[manner] * rng.uniform(0.7, 1.4) * (0.7 if per > 2 else 1)
    habit = Habit(rng, beats, per, density, obey, dict(free=0.8, habit=0.15, four=0.08, walk=0.5, sparse=0.5)[manner])
    cell, changes, short, walk = 1 / per, early_changes(piece, push * rng.uniform(0, 1.6)), rng.uniform(0.1, 0.9), low - 3
    dead = rng.uniform(0, 0.35) * (rng.random() < 0.5)
    for index, (start, count) in enumerate(piece.bars):
        row = habit.bar(rng, index).copy()
        if manner == "four":
            row[::per] = rng.random(len(row[::per])) < 0.97
        for k in range(min(len(row), int(count * per))):
            place = start + k * cell
            delay = hand.moment(k % per != 0)
            if manner == "walk" and k % per == 0:
                chord = hand.chord_at(place, 0)
                strong = any(abs(place - c) < 0.01 for c in piece.harmony.starts)
                walk = near(chord.bass, low - 2) if strong else int(np.clip(walk + rng.choice([-2, -1, 1, 2, 3, -3]), low - 6, low + 8))
                hand.sound(place, 0.95, [walk], hand.strength(1.0), delay, 0)
            held, early = round(place, 3) in changes, round(place + cell, 3) in changes
            if (held and rng.random() < 0.8) or (not row[k] and not early):
                if rng.random() < dead:
                    hand.dead(place, hand.strength(rng.uniform(0.2, 0.6)), delay)
                continue
            shape = hand.shape(hand.chord_at(place, cell if early else 0))
            shape = shape if manner != "walk" else shape[-3:]
            length = min(cell, 0.5) * rng.uniform(0.3, 1) if rng.random() < short else rng.uniform(0.6, 2)
            hand.sound(place, length, shape, hand.strength(habit.accent[k] * (1.25 if early else 1)), delay, rng.uniform(0, 0.012) if rng.random() < 0.7 else hand.spread)
        squeal(piece, hand, start)


def thumbing(piece, layer, per, low=40, push=0.3):
    """A thumb on the beats or every second, fingers between, together with it or before it: picking, bossa, ballads."""
    rng, hand, beats = piece.rng, Hand(piece, layer, low), piece.beats
    cell, changes = 1 / per, early_changes(piece, push * rng.uniform(0, 1.6))
    every = int(rng.choice([1, 2])) if beats == 4 else 1
    fifth, ahead = rng.random() < 0.6, rng.random() < 0.35  # the thumb's second note is the fifth; it comes a cell early
    together = rng.random() < 0.45  # fingers pinch, or roll
    fingers = Habit(rng, beats, per, rng.uniform(0.3, 0.9) * (0.75 if per == 4 else 1), rng.uniform(-0.6, 0.4), rng.uniform(0.02, 0.35))
    order, turn = rng.permutation(3), 0
    held_back = rng.uniform(0, 0.012)
    for index, (start, count) in enumerate(piece.bars):
        row = fingers.bar(rng, index)
        for k in range(min(len(row), int(count * per))):
            place, delay = start + k * cell, hand.moment(k % per != 0)
            early = round(place + cell, 3) in changes
            shape = hand.shape(hand.chord_at(place, cell if early else 0))
            beat = k // per
            if k % per == 0 and beat % every == 0 and rng.random() < 0.96:
                other = (beat // every) % 2 == 1
                pitch = near(hand.chord_at(place, 0).notes[2], shape[0] + 3) if other and fifth else shape[0]
                hand.sound(place, 1.5 * every, [pitch], hand.strength(1.15 if not other else 1.0), delay, 0)
            elif ahead and (k + 1) % per == 0 and (beat + 1) % every == 0 and rng.random() < 0.35:
                hand.sound(place, 0.5, [shape[0]], hand.strength(0.7), delay, 0)
            if row[k] or early:
                upper = shape[-3:]
                some = upper if together or early else [upper[order[turn % 3]]]
                turn += 1
                if not together and rng.random() < 0.15:
                    some = list(upper[-2:])
                hand.sound(place, 1.2 if hand.ring else min(cell, hand.choke), some, hand.strength(0.85 * fingers.accent[k]), delay + held_back, rng.uniform(0, 0.012) if together else 0)
        squeal(piece, hand, start)


CLIMBS = ([0, 2, 4, 7, 9], [0, 3, 5, 7, 10], [0, 3, 5, 6, 7, 10], [0, 2, 3, 4, 7, 9], None)


def licked(piece, layer, per, low=50, push=0.3):
    """A solo of short phrases over chords that nobody sounds: phrases start before, on or after a bar's first beat, aim at a long note, come back
    changed; pulled, hammered and bent notes start softly, double notes, quick notes before others; a beat is cut otherwise for a while."""
    rng, hand, beats = piece.rng, Hand(piece, layer, low), piece.beats
    climb = CLIMBS[int(rng.integers(len(CLIMBS)))]
    high = low + int(rng.integers(14, 26))
    classes = set(piece.harmony.scale) if climb is None else {(piece.harmony.key + s) % 12 for s in climb}
    ladder = [p for p in range(low, high + 1) if p % 12 in classes]
    rhythms = [Habit(rng, beats, cut, rng.uniform(0.3, 0.85) * (2.6 / cut if cut > 2 else 1), rng.uniform(-0.2, 0.8), rng.uniform(0.05, 0.5)) for cut in (per, per, {2: 4, 3: 3, 4: 2}[per])]
    cuts = (per, per, {2: 4, 3: 3, 4: 2}[per])
    soft, double, rest, graces = rng.uniform(0, 0.6), rng.uniform(0, 0.25) * (rng.random() < 0.5), rng.uniform(0.05, 0.45), rng.uniform(0, 0.12)
    aim, place_now, which = rng.uniform(0.2, 0.9), int(rng.integers(len(ladder))), 0
    for index, (start, count) in enumerate(piece.bars):
        if rng.random() < 0.3:
            which = int(rng.integers(3))
        row, cut = rhythms[which].bar(rng, index).copy(), cuts[which]
        if rng.random() < rest:
            silent = sorted(int(x) for x in rng.integers(0, len(row) + 1, 2))
            row[silent[0]:silent[1]] = False
        if rng.random() < 0.3:
            row[int(rng.integers(1, len(row))):] = False
        cells = [k for k in np.flatnonzero(row) if k < count * cut]
        direction = int(rng.choice([-1, 1]))
        for n, k in enumerate(cells):
            place, delay = start + k / cut, hand.moment(k % cut != 0)
            following = (cells[n + 1] - k) / cut if n + 1 < len(cells) else rng.uniform(0.3, 2.5)
            direction = -direction if rng.random() < 0.2 else direction
            place_now = int(np.clip(place_now + direction * int(rng.choice([0, 1, 1, 1, 1, 2, 3])), 0, len(ladder) - 1))
            pitch = ladder[place_now]
            if (k % cut == 0 or n == len(cells) - 1) and rng.random() < aim:
                tones = [p for p in range(low, high + 1) if p % 12 in piece.harmony.at(place).notes]
                pitch = min(tones, key=lambda p: abs(p - pitch)) if tones else pitch
            slurred = n > 0 and (cells[n] - cells[n - 1]) / cut <= 0.5 and rng.random() < soft * (0.5 if k % cut == 0 else 1)
            strength = hand.strength(rhythms[which].accent[k]) * (rng.uniform(0.25, 0.6) if slurred else 1.2)
            hand.sound(place, following * rng.uniform(0.6, 1.1), [pitch], strength, delay, 0)
            if rng.random() < graces:
                hand.sound(place, 0.1, [pitch - int(rng.integers(1, 3))], strength * 0.8, delay - rng.uniform(0.04, 0.1), 0)
            if not slurred and rng.random() < double:
                hand.sound(place, following, [pitch - int(rng.choice([3, 4, 5, 7, 12]))], strength * 0.8, delay, 0)
            if rng.random() < 0.02:
                hand.dead(place + 0.5 / cut, strength * 0.4, 0)


MANNERS = dict(licked=licked, strummed=strummed, comped=comped, thumbing=thumbing)
