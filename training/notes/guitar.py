"""Random guitar playing: tunings, voicings, strokes, picking, melodies and their ornaments, as a list of plucks.

Times are seconds in the clip (music starts before 0 and goes on after its end), gains are decibels.
"""
import random
from dataclasses import dataclass, field, replace

STANDARD = (40, 45, 50, 55, 59, 64)
TUNINGS = [  # common altered tunings, low to high
    (38, 45, 50, 55, 59, 64), (38, 45, 50, 55, 57, 62), (38, 43, 50, 55, 59, 62), (38, 45, 50, 54, 57, 62), (40, 47, 52, 56, 59, 64),
    (40, 45, 52, 57, 61, 64), (36, 43, 48, 55, 60, 64), (39, 44, 49, 54, 58, 63), (38, 43, 48, 53, 57, 62), (38, 45, 50, 55, 59, 62),
    (38, 43, 50, 55, 58, 62), (38, 45, 50, 53, 57, 62), (36, 43, 50, 55, 57, 62), (36, 43, 48, 55, 58, 63), (40, 47, 52, 55, 59, 64),
    (38, 45, 50, 55, 60, 64), (36, 45, 50, 55, 59, 64), (38, 45, 50, 56, 57, 62), (36, 43, 50, 55, 59, 64), (37, 42, 47, 52, 56, 61),
]
QUALITIES = [  # intervals, weight
    ((0, 4, 7), 30), ((0, 3, 7), 24), ((0, 4, 7, 10), 12), ((0, 4, 7, 11), 7), ((0, 3, 7, 10), 9), ((0, 5, 7), 4), ((0, 2, 7), 4), ((0, 2, 4, 7), 4),
    ((0, 4, 7, 9), 3), ((0, 3, 6), 2), ((0, 4, 8), 1), ((0, 7), 5), ((0, 2, 4, 7, 10), 4), ((0, 3, 6, 10), 2), ((0, 3, 6, 9), 2), ((0, 3, 7, 9), 2),
]
SCALES = [(0, 2, 4, 5, 7, 9, 11), (0, 2, 3, 5, 7, 8, 10), (0, 3, 5, 7, 10), (0, 2, 4, 7, 9), (0, 2, 3, 5, 7, 9, 10), (0, 3, 5, 6, 7, 10), (0, 1, 3, 5, 7, 8, 10),
          tuple(range(12))]
BEFORE, SPAN = 2.6, 4.6  # music from -BEFORE to SPAN seconds


@dataclass
class Pluck:
    at: float
    string: int
    pitch: float
    gain: float
    length: float = 9.0  # seconds until the player damps it, if nothing else ends it
    layer: str = "hard"  # soft, hard, muted, dead, knock
    legato: bool = False  # a hammer-on or pull-off: no fresh pick
    glide: tuple = ()  # ((seconds after the start, seconds long, semitones), ...)
    slide: bool = False  # the glide's end counts as a new note
    vibrato: tuple = ()  # depth in semitones, hertz, delay
    damp: float = 0.02  # seconds of the damped string's decay
    harmonic: bool = False
    ghost: bool = False  # faint sound that no player would write down


@dataclass
class Player:
    r: random.Random
    tuning: tuple = STANDARD
    capo: int = 0
    bpm: float = 100.0
    loose: float = 0.008  # timing spread, seconds
    spread: float = 2.0  # loudness spread, decibels
    plucks: list = field(default_factory=list)

    @property
    def beat(self):
        return 60 / self.bpm

    def pluck(self, at, string, fret, gain, **more):
        r = self.r
        at += r.gauss(0, self.loose)
        pitch = self.tuning[string] + self.capo + fret
        layer = more.pop("layer", None) or ("soft" if gain + r.gauss(0, 3) < -6 else "hard")
        self.plucks.append(Pluck(at, string, pitch, gain + r.gauss(0, self.spread), layer=layer, **more))

    def dead(self, at, gain, strings):
        for string in strings:
            self.plucks.append(Pluck(at + self.r.uniform(0, 0.012), string, 0, gain + self.r.gauss(0, 3), length=0.3, layer="dead"))


def player(r):
    tuning = STANDARD if r.random() < 0.5 else r.choice(TUNINGS)
    if r.random() < 0.06:
        tuning = tuple(sorted(max(34, t + r.randint(-5, 4)) for t in STANDARD))
    capo = 0 if r.random() < 0.6 else r.randint(1, 8)
    return Player(r, tuning, capo, r.uniform(55, 190), abs(r.gauss(0, 0.01)), abs(r.gauss(1.5, 1.5)))


def voicing(p, root=None):
    """A fret (or None) for each string: what a hand can hold of a random chord."""
    r = p.r
    for _ in range(20):
        base = 0 if r.random() < 0.5 else r.randint(1, 10)
        start = r.randrange(12) if root is None else root
        intervals = r.choices([q for q, _ in QUALITIES], [w for _, w in QUALITIES])[0]
        tones = {(start + i) % 12 for i in intervals}
        frets = []
        for string in range(6):
            low = p.tuning[string] + p.capo
            reach = [f for f in ({0} if base < 5 or r.random() < 0.4 else set()) | set(range(base, base + 4)) if (low + f) % 12 in tones]
            if r.random() < 0.05:
                reach.append(0)
            frets.append(r.choice(reach) if reach and r.random() > 0.08 else None)
        while r.random() < 0.35 and sum(f is not None for f in frets) > 3:
            frets[next(s for s in range(6) if frets[s] is not None)] = None
        if sum(f is not None for f in frets) >= 3:
            return frets
    return [0, 2, 2, 1, 0, 0]


def chords(p):
    """(time, seconds, frets) from before the clip to its end."""
    at, out = -BEFORE - p.r.uniform(0, 2), []
    shapes = [voicing(p) for _ in range(p.r.randint(1, 4))]
    while at < SPAN:
        length = p.beat * p.r.choice((1, 2, 2, 4, 4, 4, 8))
        out.append((at, length, p.r.choice(shapes)))
        at += length
    return out


def stroke(p, at, frets, down, gain, width, some=None, **more):
    strings = [s for s in range(6) if frets[s] is not None and (some is None or s in some)]
    if not down:
        strings.reverse()
    slant, curve = p.r.uniform(-1.5, 1.0), p.r.uniform(0.7, 1.4)
    for k, s in enumerate(strings):
        lag = width * (k / max(1, len(strings) - 1)) ** curve
        p.pluck(at + lag, s, frets[s], gain + slant * k, **more)


def strum(p):
    """Strummed chords: down on the beat, up between, accents, strokes over some strings, choked and dead strokes."""
    r = p.r
    slots = r.choice((1, 2, 2, 4, 4)) if p.bpm < 130 else r.choice((1, 2, 2))
    pattern = [r.random() < 0.75 if k % slots else r.random() < 0.95 for k in range(4 * slots)]
    accents = [r.gauss(0, 2) + (1.5 if k % slots == 0 else -1.5) for k in range(4 * slots)]
    dead = r.choice((0, 0, 0.1, 0.25))
    choke = r.choice((None, None, None, r.uniform(0.05, 0.5)))
    width = r.choice((r.uniform(0.004, 0.02), r.uniform(0.012, 0.045), r.uniform(0.02, 0.09)))
    bass = r.random() < 0.25
    muted = r.random() < 0.08
    p.loose *= 0.5
    for at, length, frets in chords(p):
        for k in range(int(length / p.beat * slots + 0.5)):
            if not pattern[k % len(pattern)]:
                continue
            down, when = (k % 2 == 0 or slots == 1), at + k * p.beat / slots
            gain = accents[k % len(pattern)]
            if r.random() < dead:
                p.dead(when, gain - r.uniform(0, 8), r.sample(range(6), r.randint(2, 5)))
                continue
            some = None
            if bass and k % (2 * slots) == 0:
                some = [s for s in range(6) if frets[s] is not None][: r.randint(1, 2)]
            elif r.random() < 0.35 or not down:
                cut = r.randint(1, 4)
                some = range(cut, 6) if (not down or r.random() < 0.4) else range(0, 6 - cut)
            more = dict(layer="muted") if muted else {}
            if choke:
                more["length"] = choke * p.beat * r.uniform(0.7, 1.4)
            stroke(p, when, frets, down, gain, width * r.uniform(0.6, 1.5), some, **more)


def stabs(p):
    """Chords plucked together and cut short, as in swing or bossa; often off the beat."""
    r = p.r
    short = r.uniform(0.1, 0.9)
    for at, length, frets in chords(p):
        keep = r.sample([s for s in range(6) if frets[s] is not None], r.randint(3, sum(f is not None for f in frets)))
        when = 0.0
        while when < length:
            if r.random() < 0.8:
                gain = r.gauss(0, 2)
                stroke(p, at + when, frets, r.random() < 0.8, gain, r.uniform(0, 0.025), keep, length=short * p.beat * r.uniform(0.6, 1.3))
            when += p.beat * r.choice((0.5, 1, 1, 1.5))


def picking(p):
    """Finger patterns over held chords: thumb on the low strings, fingers above, pinches; strings ring on."""
    r = p.r
    slots = r.choice((2, 2, 3, 4)) if p.bpm < 125 else r.choice((1, 2, 2))
    size = r.choice((6, 8, 8, 12, 16))
    plan = [(r.random() < 0.15, r.random(), r.random() < 0.85) for _ in range(size)]
    climb = r.random() < 0.3
    lift = r.gauss(0, 2.5)
    for at, length, frets in chords(p):
        strings = [s for s in range(6) if frets[s] is not None]
        low, high = strings[: max(1, len(strings) // 3)], strings[max(1, len(strings) // 3) :] or strings
        for k in range(int(length / p.beat * slots + 0.5)):
            pinch, which, plays = plan[k % size]
            when = at + k * p.beat / slots
            if climb:
                order = strings + strings[-2:0:-1]
                p.pluck(when, order[k % len(order)], frets[order[k % len(order)]], r.gauss(0, 1))
                continue
            if k % slots == 0:
                p.pluck(when, low[int(k / slots) % len(low)], frets[low[int(k / slots) % len(low)]], lift)
            if plays and (k % slots or pinch):
                s = high[int(which * len(high))]
                ornament(p, when, s, frets[s], p.beat / slots, r.gauss(0, 1.5))
            if pinch and len(high) > 1:
                s = high[int(which * len(high)) - 1]
                p.pluck(when, s, frets[s], r.gauss(-1, 1.5))


def ornament(p, at, string, fret, step, gain):
    """A plain pluck, or one that hammers, pulls, slides or bends."""
    r = p.r
    kind = r.random()
    if kind < 0.06 and fret is not None:
        rise = r.choice((1, 2, 2, 3))
        p.pluck(at, string, fret, gain)
        p.pluck(at + step * r.choice((0.25, 0.5)), string, fret + rise, gain - r.uniform(1, 7), legato=True)
    elif kind < 0.09 and fret > 2:
        p.pluck(at, string, fret, gain)
        p.pluck(at + step * 0.5, string, fret - r.choice((1, 2)), gain - r.uniform(1, 7), legato=True)
    elif kind < 0.11:
        p.pluck(at, string, fret, gain, glide=((step * 0.4, r.uniform(0.04, 0.12), r.choice((-2, -1, 1, 2, 3))),), slide=True)
    elif kind < 0.14:
        p.pluck(at, string, max(0, fret - r.choice((1, 2))), gain)
        p.pluck(at + r.uniform(0.03, 0.08), string, fret, gain - r.uniform(0, 5), legato=True)
    else:
        p.pluck(at, string, fret, gain)


def melody(p, low=None, high=None, gain=0.0, strings=range(6), dense=None):
    """A line with long and short notes, runs and every ornament."""
    r = p.r
    root, scale = r.randrange(12), r.choice(SCALES)
    dense = dense or r.choice((1, 1, 2, 2, 2, 3, 4, 4))
    short = r.choice((None, None, r.uniform(0.15, 0.95)))
    bendy, legato, wide = r.random() * 0.25, r.random() * 0.35, r.choice((0.0, 0.0, 0.3, 0.8))
    muted = r.random() < 0.1
    reach = [m for m in range(low or 44, (high or 84) + 1) if (m - root) % 12 in scale]
    spot = r.randrange(len(reach))
    at, before = -BEFORE, None
    while at < SPAN:
        step = p.beat / dense * r.choice((1, 1, 1, 1, 2, 2, 4, 0.5 if dense < 4 else 1))
        if r.random() < 0.08:
            at += step
            continue
        spot = min(len(reach) - 1, max(0, spot + r.choice((-4, -3, -2, -2, -1, -1, -1, 0, 1, 1, 1, 2, 2, 3, 4))))
        pitch = reach[spot]
        string = place(p, pitch, strings, before)
        if string is None:
            spot = r.randrange(len(reach))
            continue
        fret = pitch - p.tuning[string] - p.capo
        more = dict(layer="muted") if muted else {}
        more["length"] = step * (short * r.uniform(0.7, 1.3) if short else r.uniform(0.9, 1.15))
        if r.random() < wide:
            more["vibrato"] = (r.uniform(0.05, 0.4), r.uniform(3.5, 7), r.uniform(0, 0.3))
        kind = r.random()
        if kind < bendy and fret > 1:
            more["glide"] = bend(r, step)
        elif kind < bendy * 1.5 and step > 0.15:
            more["glide"], more["slide"] = ((step * r.uniform(0.2, 0.6), r.uniform(0.03, 0.15), r.choice((-3, -2, -2, -1, 1, 2, 2, 3, 4))),), True
        joined = before is not None and before[0] == string and before[1] != pitch and r.random() < legato
        p.pluck(at, string, fret, gain + r.gauss(0, 1.5) - (r.uniform(1, 6) if joined else 0), legato=joined, **more)
        before = (string, pitch)
        at += step


def bend(r, step):
    kind = r.random()
    size = r.choice((0.3, 0.5, 1, 1, 2, 2, 2))
    if kind < 0.6:
        return ((step * r.uniform(0, 0.4), r.uniform(0.05, 0.25), size),)
    return ((step * r.uniform(0, 0.2), r.uniform(0.05, 0.15), size), (step * r.uniform(0.45, 0.7), r.uniform(0.05, 0.2), -size))


def place(p, pitch, strings, before):
    fits = [s for s in strings if 0 <= pitch - p.tuning[s] - p.capo <= 17]
    if not fits:
        return None
    if before and before[0] in fits and p.r.random() < 0.5:
        return before[0]
    return p.r.choice(fits)


def melody_and_bass(p):
    melody(p, 57, 86, 1.5, range(2, 6))
    melody(p, 36, 55, p.r.uniform(-3, 2), range(0, 3), dense=1)
    if p.r.random() < 0.5:
        for at, length, frets in chords(p):
            if p.r.random() < 0.6:
                stroke(p, at + p.beat * p.r.choice((0, 0.5, 1)), frets, True, -3, 0.02, range(2, 5))


def doubles(p):
    """Two notes at a time: thirds, fourths, fifths, sixths, octaves, tenths."""
    r = p.r
    gap = r.choice((3, 4, 5, 7, 8, 9, 12, 12, 16))
    at, pitch = -BEFORE, r.randint(48, 70)
    while at < SPAN:
        pitch = min(80, max(42, pitch + r.choice((-5, -3, -2, -1, 0, 1, 2, 3, 5))))
        step = p.beat * r.choice((0.5, 0.5, 1, 1, 2))
        low = place(p, pitch, range(0, 5), None)
        upper = pitch + gap + r.choice((0, 0, 0, -1, 1)) * (gap not in (12, 7))
        high = place(p, upper, range((low or 0) + 1, 6), None) if low is not None else None
        length = step * r.uniform(0.4, 1.1)
        if low is not None:
            p.pluck(at, low, pitch - p.tuning[low] - p.capo, 0, length=length)
        if high is not None:
            p.pluck(at + r.uniform(0, 0.02), high, upper - p.tuning[high] - p.capo, 0, length=length)
        at += step


def bass_run(p):
    melody(p, 36, 60, 0, range(0, 4), dense=p.r.choice((1, 1, 2)))


def fast(p):
    p.bpm = p.r.uniform(90, 170)
    melody(p, dense=4)


def repeated(p):
    """One or two strings struck again and again."""
    r = p.r
    at, frets = -BEFORE, voicing(p)
    strings = [s for s in range(6) if frets[s] is not None]
    chosen = r.sample(strings, min(len(strings), r.randint(1, 2)))
    slots, length = r.choice((2, 2, 3, 4)), r.choice((9.0, r.uniform(0.05, 0.3)))
    layer = r.choice((None, None, "muted"))
    while at < SPAN:
        if r.random() < 0.15:
            frets = voicing(p)
        for s in chosen:
            if frets[s] is not None:
                p.pluck(at, s, frets[s], r.gauss(0, 2), length=length, layer=layer)
        at += p.beat / slots


def scattered(p):
    """Single notes anywhere, long and short, loud and soft."""
    r = p.r
    at = -BEFORE
    rate = r.uniform(1.5, 9)
    while at < SPAN:
        at += r.expovariate(rate)
        length = r.choice((9.0, r.uniform(0.05, 0.5), r.uniform(0.2, 2)))
        p.pluck(at, r.randrange(6), r.randint(0, 17), r.gauss(-2, 4), length=length, harmonic=r.random() < 0.04)


TEXTURES = [(strum, 26), (picking, 20), (stabs, 10), (melody, 18), (melody_and_bass, 10), (doubles, 4), (bass_run, 4), (fast, 7), (repeated, 3), (scattered, 8)]


def play(r):
    """Plucks of one random player, in time order, each string's earlier note ended by the next."""
    p = player(r)
    r.choices([t for t, _ in TEXTURES], [w for _, w in TEXTURES])[0](p)
    if r.random() < 0.06:
        melody(p, 60, 88, 2)
    if r.random() < 0.12:
        for _ in range(r.randint(1, 8)):
            p.plucks.append(Pluck(r.uniform(-0.5, SPAN), -1, 0, r.uniform(-12, 3), layer="knock"))
    ring = r.random() < 0.85
    p.plucks.sort(key=lambda n: n.at)
    last = {}
    for n in p.plucks:
        if n.string in last and n.string >= 0:
            end_before(last[n.string], n, r)
        if n.string >= 0:
            last[n.string] = n
    if not ring:
        cut(p, r)
    return p.plucks + ghosts(p, r)


def plain(plucks):
    """The same plucks without ornaments, and nothing else that a hand does."""
    return [replace(n, legato=False, glide=(), slide=False, vibrato=(), harmonic=False) for n in plucks if n.layer not in ("dead", "knock") and not n.ghost]


def end_before(old, new, r):
    gap = 0.0 if new.legato else (r.uniform(0.0, 0.03) if r.random() < 0.6 else 0.0)
    old.length = min(old.length, max(0.02, new.at - old.at - gap))
    old.damp = r.uniform(0.003, 0.012)


def cut(p, r):
    """A hand that damps everything now and then."""
    at = r.uniform(-1, 1)
    while at < SPAN:
        for n in p.plucks:
            if n.at < at < n.at + n.length:
                n.length = at - n.at
                n.damp = r.uniform(0.01, 0.05)
        at += r.uniform(0.4, 2.5)


def ghosts(p, r):
    """What the hands do between notes: an open string that a lifted finger leaves humming, a finger that lands before its pluck,
    fingers that touch strings. Nobody writes these down."""
    out, much = [], r.choice((0.0, 0.05, 0.15, 0.35))
    for n in p.plucks:
        if n.string < 0 or n.layer in ("dead", "knock"):
            continue
        opened = p.tuning[n.string] + p.capo
        if n.pitch > opened and r.random() < much:
            out.append(Pluck(n.at + n.length, n.string, opened, n.gain - r.uniform(15, 34), length=r.uniform(0.03, 0.25), layer="soft", legato=True, ghost=True))
        if n.pitch > opened and r.random() < much * 0.7:
            early = r.uniform(0.03, 0.13)
            out.append(Pluck(n.at - early, n.string, n.pitch, n.gain - r.uniform(16, 34), length=early, layer="soft", legato=True, ghost=True))
        if r.random() < much:
            out.append(Pluck(n.at - r.uniform(0.01, 0.08), n.string, 0, n.gain - r.uniform(12, 34), length=0.2, layer="dead"))
    return out
