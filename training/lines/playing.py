"""Guitars with or without a line over them: harmonicas, singers, whistles, fiddles as they are played, for the mixer and as labels.

A label is (clip, kind, start s, end s, pitch, t1, w1, s1, t2, w2, s2, vibrato depth, rate, delay, has onset, onset's pitch): a pitch
that glides by s semitones from t seconds over w seconds after the start, and sways. Buses: 0 guitars, 1 company, 2 and 3 the lines.
"""
import math
import os
import sys
from dataclasses import dataclass

import numpy as np

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "notes"))
import clips  # noqa: E402
import guitar  # noqa: E402
from guitar import BEFORE, SPAN, Pluck  # noqa: E402

STRUCK, REED, VOICE, BLOWN, BOWED = range(5)
NAMES = ("struck", "reed", "voice", "blown", "bowed")
FIELDS = 16
BUSES = 4
BLOW = (0, 4, 7, 12, 16, 19, 24, 28, 31, 36)  # a Richter harmonica in C above its first hole: common practice
DRAW = (2, 7, 11, 14, 17, 21, 23, 26, 29, 33)
DRAW_BENDS = {1: (1,), 2: (1, 2), 3: (1, 2, 3), 4: (1,), 6: (1,)}
BLOW_BENDS = {8: (1,), 9: (1,), 10: (1, 2)}
ASTRAY = {REED: (0, 0.03, 0.06), VOICE: (0, 0.06, 0.12, 0.2), BLOWN: (0, 0.05, 0.1), BOWED: (0, 0.05, 0.1, 0.15)}
LOWEST_KEY = 55  # the G harmonica's first hole; F sharp is the highest
VOCABULARIES = {  # (hole, draw?, bend) that players lean on in a position; the rest of the scale comes too
    1: ((4, 0, 0), (4, 1, 0), (5, 0, 0), (5, 1, 0), (6, 0, 0), (6, 1, 0), (7, 1, 0), (7, 0, 0), (8, 1, 0), (8, 0, 0), (3, 0, 0), (3, 1, 0), (2, 0, 0), (2, 1, 0)),
    2: ((1, 1, 0), (2, 1, 0), (2, 1, 0), (2, 1, 2), (3, 1, 0), (3, 1, 1), (3, 1, 2), (4, 0, 0), (4, 1, 0), (4, 1, 1), (5, 1, 0), (6, 0, 0), (6, 1, 0), (3, 0, 0), (2, 0, 0)),
    3: ((1, 1, 0), (2, 1, 2), (3, 1, 2), (4, 1, 0), (5, 1, 0), (6, 0, 0), (6, 1, 0), (7, 1, 0), (8, 1, 0), (4, 0, 0), (5, 0, 0), (7, 0, 0), (4, 1, 1)),
}


@dataclass
class Way:
    """How one line is played: where its sound goes and what its player is wont to do."""

    kind: int
    bus: int
    layers: dict
    start: float
    end: float
    bpm: float
    shift: float  # semitones from a note to the row that sounds it: makes a font's throat or body smaller or larger
    astray: float  # how far notes lie off pitch, semitones
    takes: tuple = ("hard",)  # the layers that a note may take
    last: tuple = None  # the event and the label of the note before


class Playing(clips.Maker):
    def __init__(self, facts, rng, **options):
        super().__init__(facts, rng, **options)
        self.kind, self.bus = STRUCK, 0

    def clip(self, number):
        r = self.r
        self.number = number
        self.drift = 1
        self.detune = r.gauss(0, 0.05) if r.random() < 0.95 else r.uniform(-0.2, 0.2)
        self.kind, self.bus = STRUCK, 0
        strings = r.random()
        if strings < 0.84:
            self.guitar(1.0)
            if r.random() < 0.08:
                self.guitar(10 ** (r.uniform(-8, 0) / 20))
        if 0.8 < strings < 0.9:
            self.pads(r.choice(self.facts.instruments["keys"]), 1.0, r.uniform(60, 160))
        self.bus = 1
        if r.random() < 0.35:
            self.company()
        count = r.choices((0, 1, 2), (0.22, 0.5, 0.28))[0]
        kinds = r.choices((REED, VOICE, BLOWN, BOWED), (0.37, 0.36, 0.11, 0.16), k=2)
        turn = r.uniform(0.5, 4) if count == 2 and r.random() < 0.5 else None  # one after the other, or both at once
        for k in range(count):
            start, end = (-BEFORE, SPAN) if turn is None else ((-BEFORE, turn), (turn + r.uniform(-0.3, 0.3), SPAN))[k]
            self.second(kinds[k], 2 + k, start, end)

    def company(self):
        r, have = self.r, self.facts.instruments
        bpm = r.uniform(60, 170)
        if r.random() < 0.6:
            self.line(r.choice(have["bass"]), 1.0, bpm, 28, 52, sung=False, steady=True)
        if r.random() < 0.6:
            self.drums(r.choice(have["drum"]), 1.0, bpm)
        if r.random() < 0.25:
            self.pads(r.choice(have["keys"]), 1.0, bpm)
        if r.random() < 0.2:
            self.kind = None
            if r.random() < 0.6:
                self.pads(r.choice(have["organ"]), 1.0, bpm)
            else:
                self.line(r.choice(have["horn"]), 1.0, bpm, 50, 79, sung=False)
            self.kind = STRUCK
        if r.random() < 0.08:
            self.kind = BOWED
            strings = [i for i in have["bowed"]]
            self.pads(r.choice(strings), 1.0, bpm)
            self.kind = STRUCK

    # --- what the players of the notes' recipe call
    def note(self, bus, layers, n, gain, off=0.0, shift=0, label=True, strain=()):
        super().note(self.bus, layers, n, gain, off, shift, label, strain)

    def event(self, bus, row, *rest, **more):
        before = len(self.events)
        super().event(self.bus % 2, row, *rest, **more)
        if len(self.events) > before:
            self.events[-1][clips.CLIP] = 2 * self.number + self.bus // 2  # the mixer knows two buses a clip

    def span(self, start, end, pitch, onset, offset):
        if self.kind is not None and start < SPAN and end > -0.1:
            self.labels.append((self.number, self.kind, start, end, pitch, *(9.0, 1.0, 0.0) * 2, 0.0, 1.0, 9.0, onset, pitch))

    # --- one note of a line
    def held(self, way, at, end, pitch, gain, glides=(), vibrato=(), damp=0.02, target=None, legato=False):
        if end - at < 0.03:
            return
        r, facts = self.r, self.facts
        pitch += r.gauss(0, way.astray)
        row = facts.row(way.layers, r.choice(way.takes), (target or pitch) + way.shift)
        speed = 2 ** ((pitch + self.detune - facts.pitch[row]) / 12)
        skip = facts.onset[row] + r.uniform(200, 2500) if legato else 0.0
        end = min(end, at + (facts.audible(row, 1.0) - skip) / speed / clips.RATE)
        lead = 0.004 if legato else min(0.2, facts.onset[row] / speed / clips.RATE)
        if way.kind == VOICE and way.last and not legato:
            self.give_way(way.last, at - 0.7 * lead)
        late = lambda by: (tuple((t + by, w, s) for t, w, s in glides[:2]), (vibrato[0], vibrato[1], vibrato[2] + by) if vibrato else ())
        events, labels = len(self.events), len(self.labels)
        self.event(way.bus, row, at - lead, 10 ** (gain / 20), speed, end - at + lead, damp, r.uniform(0.004, 0.02) if legato else 0.0, skip, *late(lead))
        shown = min(lead, 0.03)  # a consonant has no pitch
        ramps, sway = late(shown)
        off = [x for t, w, s in ramps for x in (t, w, s)] + [9.0, 1.0, 0.0] * (2 - len(ramps))
        if at < SPAN and end > -0.1:
            self.labels.append((self.number, way.kind, at - shown, end + 0.7 * damp, pitch + self.detune, *off, *(sway or (0.0, 1.0, 9.0)), shown, target or pitch))
        way.last = (events, labels) if len(self.events) > events and len(self.labels) > labels else None

    def give_way(self, last, at):
        """A voice has one sound at a time: the note before ends where a consonant begins."""
        event, label = self.events[last[0]], list(self.labels[last[1]])
        length = max(0.03 * clips.RATE, at * clips.RATE - event[clips.START])
        if length < event[clips.END]:
            label[3] -= (event[clips.END] - length) / clips.RATE
            event[clips.END] = length
            self.labels[last[1]] = tuple(label)

    def second(self, kind, bus, start, end):
        r = self.r
        have, name = self.facts.instruments, NAMES[kind]
        shares = {"sung": 0.55, "made voice": 0.3, "voice": 0.15} if kind == VOICE else {name: 0.45 if kind == REED else 0.3, "made " + name: 0.55}
        shares = {family: share for family, share in shares.items() if have.get(family)}
        family = r.choices(list(shares), list(shares.values()))[0]
        layers = r.choice(have[family])
        self.bus = bus
        shift = max(-7, min(7, r.gauss(0, 3.5 if family == name else 1.5)))
        way = Way(kind, bus, layers, start, end, r.uniform(55, 160), shift, r.choice(ASTRAY[kind]), tuple(layers) if family == "sung" else ("hard",))
        (self.harmonica if kind == REED else self.melody_of)(way)

    def phrases(self, way):
        """(start, end) of sounding stretches with breaths between."""
        r, at = self.r, way.start + self.r.uniform(-0.5, 1.2)
        while at < way.end:
            length = r.uniform(0.5, 5)
            yield at, min(at + length, way.end)
            at += length + r.choice((0.15, 0.3, 0.6, 1.2, 2.0))

    def steps(self, way, start, end, quick):
        """(start, end of the note, start of the next) within a phrase."""
        r, beat, at = self.r, 60 / way.bpm, start
        while at < end - 0.08:
            step = max(0.09, beat * r.choice((0.25, 0.5, 0.5, 0.5, 1, 1, 1.5, 2, 3) if quick else (0.5, 0.5, 1, 1, 1, 1.5, 2, 4)))
            yield at + r.gauss(0, 0.01), min(at + step, end), at + step
            at += step

    # --- harmonica
    def harmonica(self, way):
        r = self.r
        if r.random() < 0.12:
            return self.squeezed(way)
        base = r.choice([LOWEST_KEY + k for k in range(12)] * 4 + [LOWEST_KEY - 2, LOWEST_KEY - 5])
        words = self.words()
        chordal, bends, scoops, shaky = r.choice((0.0, 0.15, 0.4, 0.8)), r.random(), r.random() * 0.5, r.choice((0, 0, 0.3, 0.8))
        joined, hole = r.uniform(0.7, 1.0), r.choice(words)
        for start, end in self.phrases(way):
            gain = r.gauss(0, 2)
            for at, stop, _ in self.steps(way, start, end, True):
                hole = self.next_hole(words, hole, bends)
                last = at + (stop - at) * r.uniform(joined - 0.15, min(1.0, joined + 0.05))
                self.breath(way, base, hole, at, last, gain + r.gauss(0, 1.5), chordal, scoops, shaky)

    def words(self):
        r = self.r
        words = list(VOCABULARIES[r.choices((1, 2, 3), (8, 7, 3))[0]])
        if r.random() < 0.4:  # elsewhere on the instrument
            words += [(r.randint(1, 10), r.randint(0, 1), 0) for _ in range(r.randint(3, 14))]
        if r.random() < 0.2:
            words += [(h, 1, b) for h, all_ in DRAW_BENDS.items() for b in all_] + [(h, 0, b) for h, all_ in BLOW_BENDS.items() for b in all_]
        return words

    def next_hole(self, words, before, bends):
        weights = [math.exp(-abs(tone(0, w) - tone(0, before)) / 3.5) * (1.6 if w[1] == before[1] else 1) * (0.4 if w == before else 1) * (bends if w[2] else 1) + 1e-6 for w in words]
        return self.r.choices(words, weights)[0]

    def breath(self, way, base, word, at, end, gain, chordal, scoops, shaky):
        r = self.r
        hole, draw, bend = word
        holes = [hole]
        if not bend and r.random() < chordal:
            down = r.choice((-1, 1))
            holes = [h for h in (hole, hole + down, hole + 2 * down, hole + 3 * down)[: r.choice((2, 2, 2, 3, 3, 4))] if 1 <= h <= 10]
            if len(holes) == 2 and r.random() < 0.15:
                holes = [hole, hole + 3] if hole <= 7 else holes  # an octave by blocking with the tongue
        glides, vibrato, start = (), (), 0.0
        if r.random() < scoops:
            size = r.choice((0.4, 0.7, 1.0, 1.0, 1.5, 2.0)) if not bend else -r.uniform(0.3, 1.2)
            glides, start = ((r.uniform(0, 0.03), r.uniform(0.03, 0.14), size),), -size
        elif bend and r.random() < 0.3 and end - at > 0.3:
            glides = ((r.uniform(0.1, 0.6) * (end - at), r.uniform(0.04, 0.2), bend),)  # the bend is let go
        elif not bend and end - at > 0.35 and r.random() < 0.12:
            glides = ((r.uniform(0.3, 0.7) * (end - at), r.uniform(0.05, 0.2), -r.choice((0.5, 1, 1))),)
        if end - at > 0.3 and r.random() < shaky:
            vibrato = (r.uniform(0.05, 0.3), r.uniform(4, 7), r.uniform(0.05, 0.4))
        for k, h in enumerate(holes):
            pitch = tone(base, (h, draw, bend))
            self.held(way, at + abs(r.gauss(0, 0.004)) * (k > 0), end, pitch + start, gain - (k and abs(r.gauss(2, 2.5))), glides, vibrato, r.uniform(0.006, 0.05), target=pitch)

    def squeezed(self, way):
        """Reeds under a bellows: a melody, chords now and then."""
        r = self.r
        chords = r.choice((0.0, 0.2, 0.7))
        for at, end, pitch, gain in self.tune(way, r.choice((53, 58)), 84):
            for i in (0,) + (r.choice(((4, 7), (3, 7), (5, 9), (12,))) if r.random() < chords else ()):
                self.held(way, at, end, pitch - i, gain - 2 * (i > 0), damp=r.uniform(0.01, 0.06))

    # --- singers, pipes, bows
    def tune(self, way, low, high):
        r = self.r
        root, scale = r.randrange(12), r.choice(guitar.SCALES[:6])
        reach = [m for m in range(low, high + 1) if (m - root) % 12 in scale]
        spot, joined = r.randrange(len(reach)), r.uniform(0.7, 1.0)
        repeat = r.choice((1, 4, 8) if way.kind == VOICE else (0, 1, 4))
        for start, end in self.phrases(way):
            loud = r.gauss(0, 1.5)
            for at, stop, _ in self.steps(way, start, end, way.kind != VOICE or r.random() < 0.5):
                spot = min(len(reach) - 1, max(0, spot + r.choice((-4, -3, -2, -1, -1, 1, 1, 2, 3, 4) + (0,) * repeat)))
                yield at, at + (stop - at) * r.uniform(joined - 0.2, min(1.0, joined + 0.05)), reach[spot], loud + r.gauss(0, 1.5)

    def melody_of(self, way):
        r = self.r
        lows = {VOICE: ((41, 62), (45, 67), (53, 74), (57, 81)), BLOWN: ((62, 84), (67, 91), (72, 96), (67, 91)), BOWED: ((55, 79), (55, 88), (62, 93), (38, 65))}
        low, high = r.choice(lows[way.kind])
        if len(way.takes) > 1:
            low = int(way.layers[way.takes[0]][0][0]) + r.randint(0, 9)
            high = low + r.randint(12, 21)
        wide, scoops, slurs = r.choice((0.3, 0.7, 0.95) if way.kind == BOWED else (0.0, 0.4, 0.9)), r.uniform(0, 0.5), r.choice((0.0, 0.2, 0.6))
        drone = low + r.choice((0, 7, 12)) if way.kind == BOWED and r.random() < 0.15 else None
        before = None
        for at, end, pitch, gain in self.tune(way, low, high):
            vibrato, glides, start = (), (), 0.0
            if end - at > 0.25 and r.random() < wide:
                vibrato = (r.uniform(0.1, 0.7 if way.kind == VOICE else 0.35), r.uniform(4.2, 7), r.uniform(0, 0.4))
            legato = before is not None and at - before[1] < 0.12 and before[0] != pitch and r.random() < slurs
            if r.random() < scoops and not legato:
                size = r.choice((0.5, 1, 1, 1.5, 2, 2, 3, -1, -0.5))
                glides, start = ((r.uniform(0, 0.05), r.uniform(0.04, 0.16), size),), -size
            elif legato and r.random() < 0.4:
                start = max(-5, min(5, before[0] - pitch))
                glides = ((0.0, r.uniform(0.03, 0.12), -start),)
            elif r.random() < 0.1:
                glides = ((0.8 * (end - at), r.uniform(0.05, 0.15), -r.choice((0.5, 1, 2))),)
            if way.kind == BLOWN and r.random() < 0.12:  # a cut: a finger flicked before the note
                self.held(way, at - 0.045, at - 0.004, pitch + r.choice((2, 3, 5)), gain - 2, damp=0.004)
            self.held(way, at, end, pitch + start, gain, glides, vibrato, r.uniform(0.01, 0.07), target=pitch, legato=legato)
            if drone is not None and abs(drone - pitch) > 2:
                self.held(way, at, end, drone, gain - 5, target=drone)
            before = (pitch, end)

    def take(self):
        events = np.array(self.events, np.float32).reshape(-1, clips.FIELDS)
        labels = np.array(self.labels, np.float32).reshape(-1, FIELDS)
        self.events, self.labels = [], []
        return events, labels


def tone(base, word):
    hole, draw, bend = word
    return base + (DRAW if draw else BLOW)[hole - 1] - bend


def batch(facts, count, seed, **options):
    """Events and labels of some clips; see the top."""
    import random

    maker = Playing(facts, random.Random(seed), **options)
    for number in range(count):
        maker.clip(number)
    return maker.take()
