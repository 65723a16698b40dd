"""Turns random playing into what the mixer plays (events) and what the network must say (labels)."""
import math
import random

import numpy as np

import guitar
from guitar import BEFORE, SPAN, Pluck

RATE = 22050
SAMPLES = 98304  # 384 frames of 256
FIELDS = 20
(CLIP, BUS, ROW, START, GAIN, SPEED, END, DAMP, ATTACK, SKIP, T1, W1, F1, T2, W2, F2, VDEPTH, VRATE, VDELAY, LENGTH) = range(FIELDS)
LOWEST, PITCHES = 36, 61


class Maker:
    """`without` names parts of the recipe (recipe.py) that are left out: drift, company, formulas, fonts, ornaments."""

    def __init__(self, facts, rng, families=("string", "guitar"), share=(0.55, 0.45), solo=0.55, without=frozenset()):
        self.facts, self.r, self.without = facts, rng, without
        self.solo = 1.0 if "company" in without else solo
        left_out = {family for part, family in (("formulas", "string"), ("fonts", "guitar")) if part in without}
        self.families = [(f, s) for f, s in zip(families, share) if f in facts.instruments and f not in left_out]
        self.weights = {f: [sum(len(rows) for _, rows in layers.values()) for layers in facts.instruments[f]] for f, _ in self.families}
        self.events, self.labels = [], []

    def clip(self, number):
        """Adds one clip's events and labels."""
        r = self.r
        self.number = number
        self.drift = 0 if "drift" in self.without else 1
        self.detune = self.drift * (r.gauss(0, 0.06) if r.random() < 0.93 else r.uniform(-0.25, 0.25))
        alone = r.random() < self.solo
        if alone or r.random() < 0.9:
            self.guitar(1.0)
            if r.random() < 0.04:
                self.guitar(10 ** (r.uniform(-8, 0) / 20))
        if not alone:
            self.others()

    # --- the guitar
    def guitar(self, gain):
        r = self.r
        family = r.choices([f for f, _ in self.families], [s for _, s in self.families])[0]
        layers = r.choices(self.facts.instruments[family], self.weights[family])[0]
        extra = r.choice(self.facts.instruments["string"]) if "string" in self.facts.instruments else None
        harmonics = self.facts.instruments.get("harmonic")
        mistuned = [self.drift * r.gauss(0, 0.04) for _ in range(6)] + [0]
        plucks = guitar.play(r)
        if "ornaments" in self.without:
            plucks = guitar.plain(plucks)
        allow = layers.get("hard")
        shift = 0
        if family == "guitar" and allow[0][0] > 50:  # a small instrument: play higher
            shift = 12
        for n in plucks:
            if n.layer in ("dead", "knock"):
                if extra is not None:
                    self.noise(extra, n, gain)
                continue
            sharp = mistuned[n.string] + self.drift * r.gauss(0, 0.03)
            if self.drift and not n.glide and r.random() < 0.5:  # a hard pluck starts sharp and relaxes
                rise = r.uniform(0, 0.12)
                sharp, strain = sharp + rise, ((0.0, r.uniform(0.08, 0.4), -rise),)
            else:
                strain = ()
            chosen = r.choice(harmonics) if n.harmonic and harmonics else layers
            self.note(0, chosen, n, gain, sharp, shift + (12 if n.harmonic else 0), not n.ghost, strain)
        if "ornaments" not in self.without and r.random() < 0.1:
            self.squeaks(gain)

    def noise(self, layers, n, gain):
        row = self.facts.row(layers, n.layer, 0)
        speed = 2 ** (self.r.uniform(-4, 4) / 12)
        self.event(0, row, n.at, gain * 10 ** ((n.gain - 4) / 20), speed, 1.0, 0.02)

    def squeaks(self, gain):
        for layers in self.facts.instruments.get("squeak", ()):
            for _ in range(self.r.randint(1, 5)):
                row = self.facts.row(layers, "hard", self.r.uniform(48, 84))
                self.event(0, row, self.r.uniform(-0.5, SPAN), gain * 10 ** (self.r.uniform(-24, -6) / 20), 2 ** self.r.uniform(-0.5, 0.7), 0.6, 0.05)

    # --- one note: its event and its labels
    def note(self, bus, layers, n, gain, off=0.0, shift=0, label=True, strain=()):
        facts, r = self.facts, self.r
        pitch = n.pitch + shift
        row = facts.row(layers, n.layer, pitch)
        speed = 2 ** ((pitch + self.detune + off - facts.pitch[row]) / 12)
        loud = gain * 10 ** (n.gain / 20)
        attack, skip, lead = 0.0, 0.0, facts.onset[row] / speed / RATE
        if n.legato:
            attack, skip, lead = r.uniform(0.002, 0.012), facts.onset[row] + r.uniform(200, 1200), 0.003
        ramps = (n.glide or strain)[:2]
        self.event(bus, row, n.at - lead, loud, speed, n.length + lead, n.damp, attack, skip, ramps, n.vibrato)
        if label:
            heard = n.at + max(0.05, (facts.audible(row, loud) - facts.onset[row]) / speed / RATE)
            self.label(n, pitch, min(n.at + n.length + 1.5 * n.damp, heard))

    def label(self, n, pitch, end):
        at, now, first = n.at, pitch, True
        for start, width, size in n.glide:
            turn = n.at + start + width * (0.8 if n.slide else 0.5)
            if abs(size) < 0.6 or turn >= end - 0.02:
                continue
            self.span(at, turn, now, first, n.slide)
            at, now, first = turn, now + size, n.slide
        self.span(at, end, now, first, True)

    def span(self, start, end, pitch, onset, offset):
        k = round(pitch) - LOWEST
        if 0 <= k < PITCHES and start < SPAN and end > -0.1:
            self.labels.append((self.number, k, start, end, onset, offset))

    def event(self, bus, row, at, gain, speed, length, damp, attack=0.0, skip=0.0, ramps=(), vibrato=()):
        total = min((length + 6 * damp) * RATE, (77000 - skip) / speed - 4)
        start = at * RATE
        if start + total < 0 or start > SAMPLES or total < 32:
            return
        e = [0.0] * FIELDS
        e[CLIP], e[BUS], e[ROW], e[START], e[GAIN], e[SPEED] = self.number, bus, row, start, gain, speed
        e[END], e[DAMP], e[ATTACK], e[SKIP], e[LENGTH] = length * RATE, max(damp * RATE, 1.0), attack * RATE, skip, total
        e[T1] = e[T2] = 1e9
        e[W1] = e[W2] = 1.0
        now = 1.0
        for k, (t, w, s) in enumerate(ramps):
            then = now * 2 ** (s / 12)
            e[T1 + 3 * k], e[W1 + 3 * k], e[F1 + 3 * k] = t * RATE, max(w * RATE, 1.0), then - now
            now = then
        e[VRATE] = 1e-3
        if vibrato:
            e[VDEPTH], e[VRATE], e[VDELAY] = vibrato[0] * math.log(2) / 12, 2 * math.pi * vibrato[1] / RATE, vibrato[2] * RATE
        self.events.append(e)

    # --- whatever else sounds
    def others(self):
        r, have = self.r, self.facts.instruments
        bpm = r.uniform(60, 170)
        level = 10 ** (r.uniform(-14, 5) / 20)
        parts = [("lead", 0.55), ("bass", 0.4), ("drum", 0.4), ("keys", 0.25), ("sustained", 0.2)]
        chosen = [name for name, chance in parts if r.random() < chance] or ["lead"]
        for name in chosen:
            own = level * 10 ** (r.uniform(-6, 3) / 20)
            if name == "lead":
                family = r.choices(["lead", "voice", "singer"], [0.5, 0.12, 0.38])[0]
                if family not in have:
                    family = "lead"
                self.line(r.choice(have[family]), own, bpm, *r.choice(((55, 79), (60, 88), (48, 70))), sung=family != "lead")
            elif name == "bass":
                self.line(r.choice(have["bass"]), own, bpm, 28, 52, sung=False, steady=True)
            elif name == "drum":
                self.drums(r.choice(have["drum"]), own, bpm)
            else:
                self.pads(r.choice(have[name]), own, bpm)

    def line(self, layers, gain, bpm, low, high, sung, steady=False):
        """A line of single notes, with glides and vibrato as voices and blown reeds have them."""
        r = self.r
        root, scale = r.randrange(12), r.choice(guitar.SCALES)
        reach = [m for m in range(low, high + 1) if (m - root) % 12 in scale]
        spot, at = r.randrange(len(reach)), -BEFORE
        wide, rest = r.choice((0.0, 0.3, 0.8)), r.choice((0.05, 0.2, 0.5))
        pair = not sung and not steady and r.random() < 0.2
        while at < SPAN:
            step = 60 / bpm * r.choice((0.5, 0.5, 1, 1, 2) if not steady else (0.5, 1, 1, 2))
            if r.random() < rest:
                at += step
                continue
            spot = min(len(reach) - 1, max(0, spot + r.choice((-3, -2, -1, -1, 0, 1, 1, 2, 3))))
            n = Pluck(at + r.gauss(0, 0.012), 0, reach[spot], r.gauss(0, 2), length=min(2.2, step * r.uniform(0.5, 1.0)), damp=r.uniform(0.01, 0.05))
            if r.random() < wide and not steady:
                n.vibrato = (r.uniform(0.1, 0.5), r.uniform(4, 7), r.uniform(0, 0.4))
            if r.random() < (0.35 if sung else 0.12):
                size = r.choice((-2, -1, -0.5, 0.5, 1, 2))
                n.pitch -= size
                n.glide = ((r.uniform(0, 0.05), r.uniform(0.03, 0.12), size),)
                self.scooped(layers, n, gain, size)
            else:
                self.note(1, layers, n, gain)
            if pair and spot + 2 < len(reach):
                self.note(1, layers, Pluck(n.at, 0, reach[spot + 2], n.gain, length=n.length, damp=n.damp), gain)
            at += step

    def scooped(self, layers, n, gain, size):
        """A note reached by a glide: labelled from its start at the pitch that it reaches."""
        facts = self.facts
        self.note(1, layers, n, gain, label=False)
        row = facts.row(layers, n.layer, n.pitch)
        end = min(n.at + n.length + n.damp, n.at + facts.audible(row, gain) / RATE)
        self.span(n.at + n.glide[0][0] + n.glide[0][1] * 0.5, end, n.pitch + size, True, True)

    def pads(self, layers, gain, bpm):
        """Chords of keys, organ or bowed strings."""
        r, at = self.r, -BEFORE
        while at < SPAN:
            length = 60 / bpm * r.choice((1, 2, 4))
            root = r.randint(40, 66)
            intervals = r.choices([q for q, _ in guitar.QUALITIES], [w for _, w in guitar.QUALITIES])[0]
            for i in intervals:
                pitch = root + i + r.choice((0, 0, 12))
                n = Pluck(at + abs(r.gauss(0, 0.01)), 0, pitch, r.gauss(0, 2), length=min(2.6, length * r.uniform(0.4, 1.0)), damp=r.uniform(0.02, 0.08))
                self.note(1, layers, n, gain * 0.6)
            at += length

    def drums(self, layers, gain, bpm):
        """A beat of a kit's sounds; nothing of it is labelled."""
        r = self.r
        pitches, rows = layers["hard"]
        voices = [(int(r.choice(rows)), [r.random() < 0.35 for _ in range(16)], r.uniform(-8, 3)) for _ in range(r.randint(2, 4))]
        step, k, at = 15 / bpm, 0, -BEFORE
        while at < SPAN:
            for row, pattern, loud in voices:
                if pattern[k % 16]:
                    self.event(1, row, at + r.gauss(0, 0.004), gain * 10 ** ((loud + r.gauss(0, 2)) / 20), 2 ** (r.uniform(-0.2, 0.2) / 12), 1.2, 0.05)
            at, k = at + step, k + 1

    def take(self):
        events = np.array(self.events, np.float32).reshape(-1, FIELDS)
        labels = np.array(self.labels, np.float32).reshape(-1, 6)
        self.events, self.labels = [], []
        return events, labels


def batch(facts, clips, seed, **options):
    """Events [e, FIELDS] and labels [l, 6] (clip, pitch index, start s, end s, has onset, has offset) of a batch."""
    maker = Maker(facts, random.Random(seed), **options)
    for number in range(clips):
        maker.clip(number)
    return maker.take()
