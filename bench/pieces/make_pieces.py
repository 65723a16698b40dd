#!/usr/bin/env python3
"""Composes pieces with a known truth, for measuring: each becomes NAME.wav and NAME.jams for `./harkbook eval FOLDER`.

    python3 make_pieces.py FOLDER --count 40 --seed 1 [--font FONT.sf2]

The music is invented by the program (progressions by function with borrowed chords, real guitar shapes, strums, picking, comping,
drums, bass, melodies, human timing); nothing here is used for training. fluidsynth plays it. Only Python's own library is needed.
"""
import argparse, json, math, random, struct, subprocess, sys
from pathlib import Path

NAMES = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'Gb', 'G', 'Ab', 'A', 'Bb', 'B']
KINDS = {'maj': (0, 4, 7), 'min': (0, 3, 7), '7': (0, 4, 7, 10), 'maj7': (0, 4, 7, 11), 'min7': (0, 3, 7, 10), 'sus4': (0, 5, 7),
         'sus2': (0, 2, 7), 'dim': (0, 3, 6), 'hdim7': (0, 3, 6, 10), 'maj6': (0, 4, 7, 9), 'min6': (0, 3, 7, 9), 'dim7': (0, 3, 6, 9), 'aug': (0, 4, 8),
         'maj(9)': (0, 4, 7, 2), '9': (0, 4, 7, 10, 2), 'sus4(b7)': (0, 5, 7, 10), '5': (0, 7)}
WIDE = {'maj': 24, 'min': 16, '7': 10, 'min7': 9, 'maj7': 8, 'sus4': 5, 'sus2': 4, 'maj6': 3, 'min6': 2, 'dim': 3, 'hdim7': 3, 'dim7': 2, 'aug': 2, 'maj(9)': 4,
        '9': 3, 'sus4(b7)': 2}
DEGREES = ['1', 'b2', '2', 'b3', '3', '4', 'b5', '5', 'b6', '6', 'b7', '7']
MODES = {'major': (0, 2, 4, 5, 7, 9, 11), 'minor': (0, 2, 3, 5, 7, 8, 10), 'mixolydian': (0, 2, 4, 5, 7, 9, 10), 'dorian': (0, 2, 3, 5, 7, 9, 10)}
# What may stand on each step, and how often it is used (own judgement, after common practice).
STEPS = {'major': [(0, 'maj', 10), (5, 'maj', 8), (7, 'maj', 8), (9, 'min', 6), (2, 'min', 4), (4, 'min', 2), (10, 'maj', 1), (5, 'min', 1), (2, 'maj', 1)],
         'minor': [(0, 'min', 10), (5, 'min', 5), (7, 'min', 3), (7, 'maj', 4), (8, 'maj', 6), (10, 'maj', 6), (3, 'maj', 6)],
         'mixolydian': [(0, 'maj', 10), (10, 'maj', 7), (5, 'maj', 6), (7, 'min', 3), (9, 'min', 2)],
         'dorian': [(0, 'min', 10), (5, 'maj', 6), (10, 'maj', 5), (3, 'maj', 3), (7, 'min', 3)]}
SEVENTHS = {'maj': 'maj7', 'min': 'min7', 'dim': 'hdim7'}
OPEN = {(0, 'maj'): 'x32010', (2, 'maj'): 'xx0232', (4, 'maj'): '022100', (7, 'maj'): '320003', (9, 'maj'): 'x02220', (2, 'min'): 'xx0231',
        (4, 'min'): '022000', (9, 'min'): 'x02210', (9, 'min7'): 'x02010', (4, 'min7'): '022030', (2, 'min7'): 'xx0211', (9, '7'): 'x02020',
        (4, '7'): '020100', (2, '7'): 'xx0212', (7, '7'): '320001', (0, '7'): 'x32310', (11, '7'): 'x21202', (0, 'maj7'): 'x32000',
        (2, 'sus4'): 'xx0233', (9, 'sus4'): 'x02230', (9, 'sus2'): 'x02200', (2, 'sus2'): 'xx0230', (5, 'maj7'): 'xx3210', (2, 'maj7'): 'xx0222'}
LOW = {'maj': (0, 2, 2, 1, 0, 0), 'min': (0, 2, 2, 0, 0, 0), '7': (0, 2, 0, 1, 0, 0), 'min7': (0, 2, 0, 0, 0, 0), 'maj7': (0, None, 1, 1, 0, None),
       'sus4': (0, 2, 2, 2, 0, 0), 'maj6': (0, None, 2, 1, 2, None)}
HIGH = {'maj': (None, 0, 2, 2, 2, 0), 'min': (None, 0, 2, 2, 1, 0), '7': (None, 0, 2, 0, 2, 0), 'min7': (None, 0, 2, 0, 1, 0),
        'maj7': (None, 0, 2, 1, 2, 0), 'sus4': (None, 0, 2, 2, 3, 0), 'sus2': (None, 0, 2, 2, 0, 0), 'dim': (None, 0, 1, 2, 1, None),
        'hdim7': (None, 0, 1, 0, 1, None), 'maj6': (None, 0, 2, 2, 2, 2)}
STRINGS = (40, 45, 50, 55, 59, 64)
STYLES = {  # meter (beats), tempo range, parts, sevenths' share
    'folk': (4, (80, 130), ('strum', 'harp'), .1), 'folk band': (4, (90, 150), ('strum', 'bass', 'harp'), .1),
    'waltz': (3, (90, 160), ('waltz', 'melody'), .15), 'pop': (4, (75, 140), ('drums', 'bass', 'strum', 'melody'), .2),
    'pop keys': (4, (70, 130), ('drums', 'bass', 'keys', 'melody'), .3), 'country': (4, (90, 190), ('boom', 'melody', 'bass'), .15),
    'comp': (4, (80, 180), ('comp',), .85), 'bossa': (4, (110, 170), ('bossa',), .85), 'picked': (4, (70, 130), ('picked',), .2),
    'rock': (4, (90, 170), ('drums', 'bass', 'power'), 0), 'six eight': (6, (140, 220), ('arpeggio', 'melody'), .15),
    'bass and chords': (4, (80, 140), ('comp', 'bass', 'melody'), .6)}
PROGRAMS = {'strum': (24, 25), 'waltz': (24, 25), 'boom': (25,), 'comp': (24, 26, 25), 'bossa': (24,), 'picked': (24, 25), 'power': (29, 30, 27),
            'arpeggio': (24, 25, 27), 'bass': (32, 33, 35), 'harp': (22,), 'melody': (40, 53, 54, 73, 65, 21), 'keys': (0, 4, 16)}


def shape(root, kind, bass, rng):
    """Six pitches or None, low string first: an open shape, a movable one, or any that a hand can hold."""
    if bass == root and (root, kind) in OPEN and rng.random() < .7:
        return [None if c == 'x' else STRINGS[i] + int(c) for i, c in enumerate(OPEN[root, kind])]
    low, high = (root - 4) % 12, (root - 9) % 12
    if bass == root and rng.random() < .75 and (kind in LOW or kind in HIGH):
        use_low = kind in LOW and (kind not in HIGH or low <= high)
        frets, base = (LOW[kind], low) if use_low else (HIGH[kind], high)
        return [None if f is None else STRINGS[i] + f + base for i, f in enumerate(frets)]
    return free_shape({(root + t) % 12 for t in KINDS[kind]}, (root + 7) % 12, bass, rng)


def free_shape(classes, fifth, bass, rng):
    for _ in range(60):
        string = rng.choice((0, 0, 1, 1, 2))
        fret = (bass - STRINGS[string]) % 12
        held = [None] * string + [STRINGS[string] + fret]
        base = max(1, fret - rng.randrange(3)) if fret else rng.choice((1, 1, 2))
        for s in range(string + 1, 6):
            usable = [f for f in (0, *range(base, base + 4)) if (STRINGS[s] + f) % 12 in classes and (f or base < 5)]
            missing = [f for f in usable if all(p is None or (p - STRINGS[s] - f) % 12 for p in held)]
            held.append(STRINGS[s] + rng.choice(missing or usable) if usable and rng.random() < .92 else None)
        if classes - {fifth} <= {p % 12 for p in held if p is not None} and sum(p is not None for p in held) >= min(4, len(classes) + 1):
            return held
    return [48 + (bass - 48) % 12] + [60 + (c - 60) % 12 for c in sorted(classes)]


class Piece:
    def __init__(self, seed, wide=False):
        self.rng = rng = random.Random(seed)
        self.wide = wide and rng.random() < .6  # any chord may follow any
        self.style = rng.choice(sorted(STYLES))
        self.per_bar, tempo, self.parts, self.sevenths = STYLES[self.style]
        self.bpm = rng.uniform(*tempo)
        self.mode = rng.choices(('major', 'minor', 'mixolydian', 'dorian'), (6, 3, 1, 1))[0]
        self.tonic = rng.randrange(12)
        self.notes = []                      # (channel, start s, end s, midi, velocity)
        self.program = {}
        self.sections, self.chords = self.form()
        self.times = self.clock(len(self.chords) * self.per_bar + 1)
        for part in self.parts:
            self.channel = len(self.program) if part != 'drums' else 9
            if part != 'drums':
                self.program[self.channel] = rng.choice(PROGRAMS[part])
            getattr(self, part)()

    # --- music
    def chord(self):
        root, kind = self.root_and_kind()
        bass = root
        if len(KINDS[kind]) > 2 and self.rng.random() < (.2 if self.wide else .1):
            bass = (root + self.rng.choice(KINDS[kind][1:] if self.wide else KINDS[kind][1:3])) % 12
        return root, kind, bass

    def root_and_kind(self):
        if self.wide:
            return self.rng.randrange(12), self.rng.choices(list(WIDE), WIDE.values())[0]
        step, kind, _ = self.rng.choices(STEPS[self.mode], [w for *_, w in STEPS[self.mode]])[0]
        if self.rng.random() < self.sevenths:
            kind = '7' if step == 7 and kind == 'maj' or self.mode == 'mixolydian' and step == 0 else SEVENTHS[kind]
        elif kind == 'maj' and self.rng.random() < .06:
            kind = self.rng.choice(('sus4', '7', 'sus2'))
        return ((self.tonic + step) % 12, kind)

    def block(self, bars):
        home = (self.tonic, STEPS[self.mode][0][1], self.tonic)
        row = [[self.chord()] for _ in range(bars)]
        if self.rng.random() < .8 and not self.wide:
            row[0] = [home if self.rng.random() > self.sevenths else (home[0], SEVENTHS[home[1]], home[2])]
        for bar in row:
            if self.per_bar == 4 and self.rng.random() < .2:
                bar.append(self.chord())
        return row

    def form(self):
        blocks = {'A': self.block(4) * 2, 'B': self.block(8)}
        order = self.rng.choice(('AAB', 'ABA', 'AB', 'ABAB'))
        sections, bars = [], []
        for name in order:
            sections.append((len(bars), len(bars) + 8, name))
            bars += blocks[name]
        return sections, bars

    def clock(self, beats):
        now, drift, times = self.rng.uniform(.3, 1.2), 0., []
        for _ in range(beats):
            times.append(now)
            drift = .92 * drift + self.rng.gauss(0, .006)
            now += 60 / self.bpm * (1 + drift)
        return times

    def at(self, bar, beat):
        place = bar * self.per_bar + beat
        i = min(int(place), len(self.times) - 2)
        return self.times[i] + (place - i) * (self.times[i + 1] - self.times[i])

    def sounding(self, bar, beat):
        chords = self.chords[bar]
        return chords[min(len(chords) - 1, int(beat / self.per_bar * len(chords)))]

    def add(self, bar, beat, length, midi, velocity, late=0.):
        start = max(0, self.at(bar, beat) + self.rng.gauss(0, .007) + late)
        end = max(start + .06, self.at(bar, beat + length))
        self.notes.append((self.channel, start, end, midi, max(8, min(127, int(velocity + self.rng.gauss(0, 6))))))

    def strike(self, bar, beat, length, velocity, up=False, ahead=None, part=None):
        pitches = [p for p in shape(*(ahead or self.sounding(bar, beat)), random.Random(str((self.style, self.bpm, ahead or self.sounding(bar, beat))))) if p is not None]
        if part:
            pitches = part(pitches)
        spread = self.rng.uniform(.006, .022)
        for i, p in enumerate(reversed(pitches) if up else pitches):
            self.add(bar, beat, length, p, velocity - (8 if up and i > 3 else 0), late=i * spread)

    def bars(self):
        return range(len(self.chords))

    # --- parts
    def strum(self):
        pattern = self.rng.choice(([(0, 0), (1, 0), (1.5, 1), (2.5, 1), (3, 0), (3.5, 1)], [(0, 0), (1, 0), (2, 0), (3, 0)],
                                   [(0, 0), (.5, 1), (1, 0), (1.5, 1), (2, 0), (2.5, 1), (3, 0), (3.5, 1)], [(0, 0), (1, 0), (1.5, 1), (2, 0), (3, 0), (3.5, 1)],
                                   [(0, 0), (.75, 0), (1.5, 1), (2, 0), (3, 0), (3.5, 1)]))
        for bar in self.bars():
            for i, (beat, up) in enumerate(pattern):
                following = pattern[i + 1][0] if i + 1 < len(pattern) else self.per_bar
                if self.rng.random() > .06:
                    self.strike(bar, beat, following - beat, 92 if beat in (0, 2) else 74, up, part=(lambda p: p[-4:]) if up else None)

    def waltz(self):
        for bar in self.bars():
            self.strike(bar, 0, 3, 92, part=lambda p: p[:1])
            for beat in (1, 2):
                self.strike(bar, beat, .8, 68, part=lambda p: p[-4:])

    def boom(self):
        for bar in self.bars():
            for beat in range(4):
                if beat % 2 == 0:
                    self.strike(bar, beat, 1.6, 92, part=lambda p, b=beat: [p[0] if b == 0 else p[1]])
                else:
                    self.strike(bar, beat, .7, 70, part=lambda p: p[-4:])

    def comp(self):
        pattern = self.rng.choice(([(0, 1.3), (1.5, .5), (3, .8)], [(0, .4), (1, .4), (2, .4), (3, .4)], [(.5, .5), (1.5, 1), (3.5, .5)],
                                   [(0, 1), (1.5, .4), (2.5, 1)], [(0, 1.4), (1.5, 2)]))
        for bar in self.bars():
            for beat, length in pattern:
                if self.rng.random() > .1:
                    self.strike(bar, beat, length, 80)

    def bossa(self):
        two_bars = ([(0, .5), (1, .5), (2.5, .5), (3.5, .8)], [(.5, .5), (1.5, .5), (2.5, 1)])
        for bar in self.bars():
            for beat in (0, 2):
                self.strike(bar, beat, 1.5, 80, part=lambda p, b=beat: [p[0] if b == 0 else p[1]])
            for beat, length in two_bars[bar % 2]:
                early = beat >= 3.5 and bar + 1 < len(self.chords)
                self.strike(bar, beat, length, 74, ahead=self.sounding(bar + 1, 0) if early else None, part=lambda p: p[1:][-4:])

    def picked(self):
        order = self.rng.choice(((0, 3, 1, 4, 0, 3, 1, 5), (0, 2, 3, 4, 5, 4, 3, 2), (0, 4, 2, 3, 1, 5, 2, 3)))
        for bar in self.bars():
            for i, string in enumerate(order):
                self.strike(bar, i / 2, 2 if string < 2 else 1, 86 if i % 4 == 0 else 70, part=lambda p, s=string: [p[min(s, len(p) - 1)]])

    def arpeggio(self):
        for bar in self.bars():
            for i, string in enumerate((0, 2, 3, 4, 3, 2)):
                self.strike(bar, i, 3, 88 if i % 3 == 0 else 70, part=lambda p, s=string: [p[min(s, len(p) - 1)]])

    def power(self):
        for bar in self.bars():
            for i in range(8):
                if self.rng.random() > .15 or i == 0:
                    root = 40 + (self.sounding(bar, i / 2)[0] - 4) % 12  # no third, no other bass
                    for p in (root, root + 7, root + 12):
                        self.add(bar, i / 2, .45, p, 84 if i % 2 == 0 else 72)

    def keys(self):
        for bar in self.bars():
            for beat in self.rng.choice(((0, 2), (0, 1, 2, 3), (0, 1.5, 3))):
                root, kind, bass = self.sounding(bar, beat)
                self.add(bar, beat, 1.4, 41 + (bass - 5) % 12, 72)
                for step in KINDS[kind]:
                    self.add(bar, beat, 1.4, 55 + (root + step - 7) % 12, 72)

    def bass(self):
        walking = self.rng.random() < .3
        for bar in self.bars():
            for beat in (range(self.per_bar) if walking else (0, 2) if self.per_bar == 4 else (0,)):
                root, kind, bass = self.sounding(bar, beat)
                step = (bass - root) % 12 if beat == 0 or len(self.chords[bar]) > 1 and beat == 2 else self.rng.choice((0, 7, KINDS[kind][1]))
                self.add(bar, beat, 1 if walking else self.per_bar / 2 - .2, 28 + (root + step - 4) % 12, 88)

    def drums(self):
        kind = self.rng.choice(('back', 'floor', 'half', 'train'))
        for bar in self.bars():
            for i in range(8):
                self.add(bar, i / 2, .2, 42, 60 if i % 2 == 0 else 46)
            kicks, snares = {'back': ((0, 1.5, 2), (1, 3)), 'floor': ((0, 1, 2, 3), (1, 3)), 'half': ((0, 2.5), (2,)), 'train': ((0, 2), (1, 1.5, 3, 3.5))}[kind]
            for beat in kicks:
                self.add(bar, beat, .2, 36, 92)
            for beat in snares:
                self.add(bar, beat, .2, 38, 86)
            if bar % 8 == 0:
                self.add(bar, 0, 1, 49, 80)

    def harp(self):
        self.melody()

    def melody(self):
        scale = [p for p in range(60, 84) if (p - self.tonic) % 12 in MODES[self.mode]]
        at = len(scale) // 2
        for bar in self.bars():
            if self.rng.random() < .2:
                continue
            beat = self.rng.choice((0, 0, .5, 1))
            while beat < self.per_bar:
                length = self.rng.choice((.5, .5, 1, 1, 1.5, 2))
                at = max(0, min(len(scale) - 1, at + self.rng.choice((-2, -1, -1, 0, 1, 1, 2, 3, -3))))
                root, kind, _ = self.sounding(bar, beat)
                if beat == int(beat) and self.rng.random() < .7:
                    at = min((i for i in range(len(scale)) if (scale[i] - root) % 12 in KINDS[kind]), key=lambda i: abs(i - at), default=at)
                if self.rng.random() > .15:
                    self.add(bar, beat, length * .9, scale[at], 84)
                beat += length

    # --- out
    def midi(self):
        events = [(0, bytes((0xC0 | c, p))) for c, p in self.program.items()]
        levels = {c: self.rng.randint(80, 118) for c in (*self.program, 9)}
        events += [(0, bytes((0xB0 | c, 7, v))) for c, v in levels.items()]
        for channel, start, end, midi, velocity in self.notes:
            events += [(start, bytes((0x90 | channel, midi, velocity))), (end, bytes((0x80 | channel, midi, 0)))]
        events.sort(key=lambda e: (e[0], e[1][0] & 0xF0 != 0x80))
        track, now = bytearray(b'\0\xFF\x51\x03' + (500000).to_bytes(3, 'big')), 0
        for time, message in events:
            tick = round(time * 1920)
            track += variable(tick - now) + message
            now = tick
        track += b'\x83\x60\xFF\x2F\0'
        return b'MThd' + struct.pack('>IHHH', 6, 0, 1, 960) + b'MTrk' + struct.pack('>I', len(track)) + bytes(track)

    def jams(self, length):
        def annotation(namespace, data):
            return {'namespace': namespace, 'data': data, 'annotation_metadata': {}, 'sandbox': {}, 'time': 0, 'duration': length}

        def span(time, end, value):
            return {'time': time, 'duration': max(0, end - time), 'value': value, 'confidence': 1.0}
        per, bars = self.per_bar, len(self.chords)
        stride = 3 if per == 6 else 1
        beats = [span(self.at(bar, b), self.at(bar, b), b // stride + 1) for bar in self.bars() for b in range(0, per, stride)]
        chords = []
        for bar, row in enumerate(self.chords):
            for i, (root, kind, bass) in enumerate(row):
                if 'power' in self.parts:
                    kind, bass = '5', root
                under = '' if bass == root else '/' + DEGREES[(bass - root) % 12]
                chords.append((self.at(bar, i * per / len(row)), self.at(bar, (i + 1) * per / len(row)), f'{NAMES[root]}:{kind}{under}'))
        mode = self.mode
        annotations = [annotation('beat', beats), annotation('tempo', [span(0, length, self.bpm / stride)]),
                       annotation('chord_harte', [span(*c) for c in chords]),
                       annotation('key_mode', [span(0, length, f'{NAMES[self.tonic]}:{mode}')]),
                       annotation('segment_open', [span(self.at(a, 0), self.at(b, 0), name) for a, b, name in self.sections])]
        for channel in sorted({n[0] for n in self.notes} - {9}):
            notes = sorted((s, e, m) for c, s, e, m, _ in self.notes if c == channel)
            annotations.append(annotation('note_midi', [span(s, e, m) for s, e, m in notes]))
        return {'annotations': annotations, 'file_metadata': {'title': f'{self.style} in {NAMES[self.tonic]} {mode}', 'duration': length, 'jams_version': '0.3.4'}, 'sandbox': {'reference_hz': 440.0}}


def variable(value):
    parts = [value & 0x7F]
    while value := value >> 7:
        parts.insert(0, value & 0x7F | 0x80)
    return bytes(parts)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument('folder', type=Path)
    parser.add_argument('--count', type=int, default=40)
    parser.add_argument('--seed', type=int, default=1)
    parser.add_argument('--wide', action='store_true', help='in most pieces any chord may follow any, for training')
    parser.add_argument('--rate', default='44100')
    parser.add_argument('--font', default='/usr/share/sounds/sf2/TimGM6mb.sf2')
    args = parser.parse_args()
    args.folder.mkdir(parents=True, exist_ok=True)
    for i in range(args.count):
        piece = Piece(args.seed * 1000 + i, args.wide)
        stem = args.folder / f'{i:03d} {piece.style}'
        midi = stem.with_suffix('.mid')
        midi.write_bytes(piece.midi())
        length = max(n[2] for n in piece.notes) + 1
        subprocess.run(['fluidsynth', '-q', '-ni', '-g', '0.5', '-r', args.rate, '-F', str(stem) + '.wav', args.font, str(midi)], check=True, stdout=subprocess.DEVNULL)
        midi.unlink()
        stem.with_suffix('.jams').write_text(json.dumps(piece.jams(length)))
        print(f'{stem.name}: {piece.bpm:.0f} beats a minute, {NAMES[piece.tonic]} {piece.mode}, {length:.0f} s', file=sys.stderr)


if __name__ == '__main__':
    main()
