"""Composes a stretch of music with known beats and plays it on the bank."""
import numpy as np

from bank import STRINGS, VOICES
from clock import Clock
from comping import COMPING, clicked
from grooves import Grooves, played
from habits import likely
from hands import MANNERS
from harmony import Harmony
from patterns import BASS, DRUMS, STRUM, anticipated, grounded, thumbed
from players import PIANO, Piece, bassist, drummer, pad, pianist, random_patterns, singer, strummer
from soloists import soloist
from styles import STYLES
from weaving import Weave, riffer

PLUCKED = 140  # string instruments by formulas of the note network's training, where the bank has them
RATE, SECONDS, FRAME_RATE = 22050, 28, 50
SAMPLES, FRAMES = RATE * SECONDS, FRAME_RATE * SECONDS
STRUNG = [f"string{k}" for k in range(STRINGS)] + ["gm24", "gm25"] * 5 + ["gm26"]
GUITARS = [f"string{k}" for k in range(STRINGS)] + ["gm24", "gm25"] * 5 + ["gm26", "gm27"] * 2
ROCK = ["gm27", "gm29", "gm30", "gm28", "gm25", "gm26"]
BASSES = ["gm32", "gm33", "gm34", "gm35", "gm36", "gm38"]
PIANOS = ["gm0"] * 4 + ["gm1"] * 3 + ["gm4", "gm5", "gm6", "gm7"]
PADS = ["gm48", "gm49", "gm16", "gm18", "gm21", "gm52", "gm88", "gm90", "gm61", "gm4"]
GROUNDED = 0.45
PLAYED = {**MANNERS, **COMPING}
HALF_TIME_BELOW = 105  # above, people tap half as fast (our own judgement)
LEADS = ["gm22"] * 4 + [f"voice{k}" for k in range(VOICES)] * 2 + ["gm40", "gm110", "gm65", "gm66", "gm71", "gm73", "gm75", "gm56", "gm57", "gm80", "gm81", "gm85", "gm53", "gm11", "gm105", "gm21", "gm68", "gm0", "gm27", "gm29", "gm25", "gm24"]
METERS = {(2, 2): 0, (3, 2): 1, (4, 2): 2, (2, 3): 3, (4, 3): 4}
WEIGHTS = np.array([s["weight"] for s in STYLES], float)
# What of the human drummers' grooves goes with which of our drums.
HUMAN = dict(rock="rock", floor="rock", half="rock", train="rock", plain="rock", sixteen="sixteen", breakbeat="sixteen", chug="sixteen", swung16="sixteen", reggae="sixteen",
             house="sixteen", bossa="latin", samba="latin", samba2="latin", latin="latin", swing="swing", shuffle="swing", shuffle4="swing", waltz="rock", six="rock", half3="swing")
MOST_LIKELY = 3.0  # as often as this above our own styles' habit a tempo can be taken


class Ear:
    """What the composer was given: human grooves, or none; whether the bank has the plucked strings."""

    grooves, plucked = None, False


def drawn(rng):
    """A style with a tempo; tempi come out about as often as people say that music has them."""
    while True:
        style = STYLES[int(rng.choice(len(STYLES), p=WEIGHTS / WEIGHTS.sum()))]
        low, high = style["tempo"]
        tempo = float(np.exp(rng.uniform(np.log(low * 0.96), np.log(high * 1.04))))
        if "clicks" in style:
            return style, tempo
        if rng.random() * MOST_LIKELY < min(MOST_LIKELY, (likely(tempo) / OURS[int(np.clip(np.log2(tempo / 32) * 10, 0, 31))]) ** 0.85):
            return style, tempo


def ours(draws=20000):
    """How often our styles alone have each tempo, against an even spread over 3.2 octaves in tenths."""
    rng, counts = np.random.default_rng(3), np.ones(32)
    for style in rng.choice(len(STYLES), draws, p=WEIGHTS / WEIGHTS.sum()):
        low, high = STYLES[int(style)]["tempo"]
        counts[int(np.clip(np.log2(np.exp(rng.uniform(np.log(low * 0.96), np.log(high * 1.04))) / 32) * 10, 0, 31))] += 1
    return counts / counts.sum() * 32


OURS = ours()


def halves(rows):
    return [row if "|" in row else row[:len(row) // 2] + "|" + row[len(row) // 2:] for row in rows]


def guitar_patterns(rng, style, alone):
    """Rhythms for a guitar; one that nobody else gives the beat mostly strokes on it, or its thumb keeps the beat."""
    if alone and style.get("division", 2) == 2 and rng.random() < (0.4 if style["push"] >= 0.3 else 0.12):
        return [thumbed(rng, style["beats"]) for _ in range(3)]
    rows = style["weave"].guitar if "weave" in style else every_pattern(rng, style, alone)
    if alone and rng.random() < 0.1:
        chance = rng.uniform(0.2, 0.8)
        rows = [r if "|" in r else anticipated(rng, r, style["beats"], chance) for r in rows]
    return ([r for r in rows if grounded(r, style["beats"]) >= GROUNDED] or rows) if alone and rng.random() < 0.85 else rows


def every_pattern(rng, style, alone):
    obey = rng.uniform(0.15, 0.9) if alone else None
    if "piano" in style or style.get("thrown"):
        return random_patterns(rng, style["beats"], style.get("division", 2), str(rng.choice(["D", "DdU", "DUx", "p", "pb", "b123", "Bp.", "DDp", "1234", "cp", "PPm"])), obey)
    if style["guitar"] == "samba2":
        return halves([r for r in STRUM["samba"] if "|" not in r])
    if style["guitar"] == "march4":
        return [r * 2 for r in STRUM["march"]]
    rows = STRUM[style["guitar"]]
    return random_patterns(rng, style["beats"], style.get("division", 2), "DDdUp", obey) if rng.random() < 0.12 else rows


def off_the_beat(style):
    """Whether the style's guitar strokes between the beats only."""
    rows = STRUM.get(style.get("guitar"), [])
    return len(rows) > 0 and np.mean([grounded(r, style["beats"]) for r in rows]) < 0.3


def bass_patterns(rng, style):
    if "weave" in style:
        return style["weave"].bass
    name = style["bass"]
    if name == "samba2":
        return halves([r for r in BASS["samba"] if len(r) == 16])
    return random_patterns(rng, style["beats"], style.get("division", 2), "rrrf", rng.uniform(0.1, 0.8)) if rng.random() < 0.15 else BASS[name]


def drum_grooves(rng, style, tempo):
    rows = []
    if "weave" in style:
        return style["weave"].drums
    for name in style["drums"]:
        if name.startswith("half") and tempo > HALF_TIME_BELOW:
            continue
        if name == "samba2":
            for groove in DRUMS["samba"]:
                rows.append({v: halves([t])[0] for v, t in groove.items()})
        elif name == "shuffle4":
            rows += DRUMS["shuffle"]
        else:
            rows += DRUMS[name]
    if rng.random() < 0.12:
        rows = [{v: random_patterns(rng, style["beats"], style.get("division", 2), "x", o)[0] for v, o in (("k", 0.7), ("s", rng.uniform(-0.4, 0.5)), (str(rng.choice(list("hrgqw"))), 0.2))}]
    return rows


def clock_kind(rng, style):
    free = style.get("free", 0.03)
    x = rng.random()
    return "free" if x < free else "steady" if x < free + (1 - free) * 0.4 else "human"


class Track:
    """A composed stretch: notes in seconds, beats, downbeats, chord changes, who plays what, and the harmony with the clock of its places."""


def compose(rng, make_harmony=Harmony):
    style, tempo = drawn(rng)
    beats, division = style["beats"], style.get("division", 2)
    if "woven" in style:
        style = dict(style, weave=Weave(rng, beats, division, tempo), early=float(rng.choice([style["early"], style["early"], 0.25, 1.0])))
    from_start = rng.random() < 0.4
    first_time = rng.uniform(0.05, 1.6) if from_start else -rng.uniform(0, 14)
    reach = int((SECONDS - first_time) * tempo / 60 * 1.5) + 8
    odd = beats in (3, 4) and rng.random() < 0.05
    bars, at = [], 0
    while at < reach:
        length = beats if not odd or rng.random() > 0.06 else int(rng.choice([2, 3, 5, 6]))
        bars.append((at, length))
        at += length
    swing, unit = 0.5, 1.0
    if "swing" in style and rng.random() < 0.85:
        swing = rng.uniform(*style["swing"])
    elif "swing16" in style and rng.random() < (1.0 if style.get("always16") else 0.5):
        swing, unit = rng.uniform(*style["swing16"]), 0.5
    kind = clock_kind(rng, style)
    clock = Clock(rng, tempo, -8, at + 8, kind, beats, beats * int(rng.choice([2, 4, 8])), swing, unit)
    clock.start_at(0, first_time)
    ends = rng.random() < 0.15
    if ends:
        inside = [k for k, (s, _) in enumerate(bars) if 8 < clock.beat(s) < SECONDS - 2]
        ends = len(inside) > 0
        if ends:
            bars = bars[:inside[-1] - int(rng.integers(0, 2)) * (len(inside) > 2)] or bars[:1]
            if rng.random() < 0.6:
                clock.slow_down(bars[-1][0] + bars[-1][1], rng.integers(2, 6), rng.uniform(0.05, 0.6))
                clock.start_at(0, first_time)
    harmony = make_harmony(rng, [b[0] for b in bars], [b[1] for b in bars], str(rng.choice(style["rates"])))
    piece = Piece(rng, bars, harmony, division, beats)
    players, cast = ensemble(rng, style, piece, tempo, kind)
    for player in players:
        player()
    end = bars[-1][0] + bars[-1][1]
    if ends and cast and "clicks" not in style:
        finish(rng, piece, end, cast)
    return realise(rng, style, piece, clock, cast, tempo, end if ends else None, from_start)


def ensemble(rng, style, piece, tempo, kind):
    """Who plays: one guitar, a tune alone, a band, a piano, and so on. Returns calls to make, and instruments by layer."""
    piano_style, beats = "piano" in style, style["beats"]
    early, chance = style["early"], style["push"] * rng.uniform(0, 1.8)
    if rng.random() < 0.3:
        chance = 0.0
    calls, cast = [], {}
    if "clicks" in style:
        return [lambda: clicked(piece, cast)], cast
    choice = str(rng.choice(["solo", "band", "duo", "tune", "lead", "guitars", "rhythm", "chamber", "bassduo"], p=[0.26, 0.36, 0.09, 0.06, 0.07, 0.04, 0.04, 0.04, 0.04]))
    if kind == "free" and choice in ("band", "rhythm"):
        choice = "solo"
    if "hands" in style:
        choice = str(rng.choice(["solo", "duo", "guitars", "bassduo", "band"], p=[0.76, 0.1, 0.05, 0.03, 0.06]))
        choice = "solo" if "alone" in style and rng.random() < 0.8 else choice
    elif "solo" in style:
        choice = "lead"
    if choice in ("solo", "guitars", "duo") and "hands" not in style and off_the_beat(style) and rng.random() < 0.9:
        choice = "band"
    alone = choice in ("solo", "guitars", "duo")

    def riff(layer, db, instruments, low, power=0):
        cast[layer] = (str(rng.choice(instruments)), db)
        calls.append(lambda: riffer(piece, layer, style["weave"].riff, low + int(rng.integers(0, 5)), power, rng.random() < 0.6))

    def guitar(layer, db=0.0, low=40):
        if "hands" in style:
            manner, per = style["hands"][int(rng.integers(len(style["hands"])))]
            cast[layer] = (pick(STRUNG if not style.get("power") or rng.random() < 0.5 else ROCK), db)
            return calls.append(lambda: PLAYED[manner](piece, layer, per, low + int(rng.integers(-1, 5)) + (int(rng.integers(4, 20)) if manner == "licked" else 0), chance if chance or rng.random() < 0.5 else style["push"]))
        if "weave" in style and rng.random() < (0.3 if alone else 0.45):
            return riff(layer, db, ROCK if choice == "band" else GUITARS, low, int(rng.integers(0, 3)))
        cast[layer] = (pick(ROCK if choice == "band" and rng.random() < 0.4 else GUITARS), db)
        patterns = guitar_patterns(rng, style, alone)
        vary, symbols = (rng.uniform(0.05, 0.4), "".join(patterns).replace(".", "").replace("|", "")) if alone and rng.random() < 0.6 else (0.1, "")
        calls.append(lambda: strummer(piece, layer, patterns, early, chance, low, ring=rng.random() < 0.7, soft=0.6, vary=vary, symbols=symbols))

    def piano(layer, db=0.0):
        cast[layer] = (str(rng.choice(PIANOS if choice != "solo" else PIANOS[:7])), db)
        key = 12 if (style["beats"], style.get("division", 2)) == (4, 3) else 6 if style.get("division", 2) == 3 else style["beats"]
        rows = style["weave"].piano if "weave" in style else PIANO[key] if rng.random() < 0.85 else random_patterns(rng, style["beats"], style.get("division", 2), "LRTC")
        calls.append(lambda: pianist(piece, layer, rows, int(rng.integers(36, 48)), early, chance))

    def bass(db=0.0):
        if "weave" in style and rng.random() < 0.4:
            return riff("bass", db, BASSES, 28)
        cast["bass"] = (str(rng.choice(BASSES)), db)
        patterns = bass_patterns(rng, style)
        follow = chance if rng.random() < 0.4 else 0.0
        calls.append(lambda: bassist(piece, "bass", patterns, early, follow))

    def pick(pool):
        return f"pluck{int(rng.integers(PLUCKED))}" if Ear.plucked and pool is not ROCK and rng.random() < 0.75 else str(rng.choice(pool))

    def drums(db=0.0):
        kinds = {HUMAN.get(d) for d in style["drums"]}
        human = Ear.grooves and style.get("division", 2) in (2, 3) and rng.random() < 0.6 and Ear.grooves.draw(rng, kinds, beats, tempo)
        if human:
            cast["human drums"] = (f"kit{int(rng.choice([0, 8, 16, 24, 25, 32, 40, 48]))}", db)
            return calls.append(lambda: played(piece, "human drums", human, beats))
        cast["drums"] = (f"kit{int(rng.choice([0, 8, 16, 24, 25, 32, 40, 48]))}", db)
        grooves = drum_grooves(rng, style, tempo)
        calls.append(lambda: drummer(piece, "drums", grooves))

    def tune(layer, db=0.0, pool=LEADS, doubled=0.0):
        name = str(rng.choice(pool))
        cast[layer] = (name, db)
        sung = name.startswith("voice") or name in ("gm22", "gm40", "gm65", "gm66")
        loose = rng.uniform(0, 0.09) if sung and rng.random() < 0.7 else rng.uniform(0, 0.02)
        bottom = int(rng.integers(50, 66))
        per = piece.division if tempo > 120 or rng.random() < 0.4 else piece.division * 2 if piece.division == 2 else 3
        calls.append(lambda: singer(piece, layer, bottom, bottom + int(rng.integers(12, 20)), loose, rng.uniform(0, 0.15), rng.uniform(0.6, 1.1), per, rng.uniform(0, 0.6), doubled))

    def padding(db=-4.0):
        cast["pad"] = (str(rng.choice(PADS)), db)
        calls.append(lambda: pad(piece, "pad", int(rng.integers(48, 60)), early=early, chance=chance * 0.5))

    def improvise(layer, db, pool):
        cast[layer] = (str(rng.choice(pool)), db)
        bottom = int(rng.integers(50, 62))
        calls.append(lambda: soloist(piece, layer, bottom, bottom + int(rng.integers(16, 26)), tempo))

    if choice == "solo":
        if piano_style:
            piano("piano")
            if rng.random() < 0.85:
                cast["right"] = (cast["piano"][0], 2)
                bottom = int(rng.integers(62, 74))
                calls.append(lambda: singer(piece, "right", bottom, bottom + 17, rng.uniform(0, 0.015), rng.uniform(0, 0.2), 1.0, piece.division * (2 if rng.random() < 0.4 and piece.division == 2 else 1), rng.uniform(0, 0.3), rng.uniform(0, 0.5)))
        else:
            guitar("guitar")
            if rng.random() < (0.2 if "hands" not in style else 0.05):
                cast["melody"] = (cast["guitar"][0], 0)
                calls.append(lambda: singer(piece, "melody", 59, 78, 0.005, 0.05, 1.0, None, 0.4))
            if rng.random() < 0.08:
                cast["thump"] = (f"kit{int(rng.choice([0, 32, 40]))}", -8)
                calls.append(lambda: [piece.play("thump", s + b, 0.3, 35, 0.5) for s, n in piece.bars for b in range(int(n)) if b % 2 == 1])
    elif choice == "tune":
        tune("tune", 0, GUITARS if rng.random() < 0.65 else LEADS, rng.uniform(0, 0.3) if rng.random() < 0.4 else 0.0)
        if rng.random() < 0.12:
            bass(-6)
    elif choice == "lead":
        cast["lead"] = (pick(GUITARS) if rng.random() < 0.8 else str(rng.choice(LEADS)), 0)
        bottom = int(rng.integers(45, 60))
        calls.append(lambda: soloist(piece, "lead", bottom, bottom + int(rng.integers(16, 26)), tempo))
        if rng.random() < 0.15:
            guitar("guitar", rng.uniform(-8, -2), 43)
        elif rng.random() < 0.12:
            bass(-6)
    elif choice == "duo":
        piano("piano") if piano_style else guitar("guitar")
        tune("tune", rng.uniform(-4, 5))
        if rng.random() < 0.2:
            tune("tune2", rng.uniform(-6, 2))
    elif choice == "guitars":
        guitar("guitar")
        guitar("guitar2", rng.uniform(-6, 0), 45)
        if rng.random() < 0.5:
            tune("tune", rng.uniform(-3, 3), GUITARS)
    elif choice == "bassduo":
        bass(2)
        piano("piano") if piano_style else guitar("guitar")
    elif choice == "rhythm":
        drums()
        if rng.random() < 0.7:
            bass()
    elif choice == "chamber":
        padding(0)
        if rng.random() < 0.7:
            bass()
        piano("piano", -2) if rng.random() < 0.6 else guitar("guitar", -2)
        tune("tune", rng.uniform(-3, 4))
        if rng.random() < 0.4:
            tune("tune2", rng.uniform(-5, 0))
    else:
        drums(rng.uniform(-6, 4))
        if rng.random() < 0.9:
            bass(rng.uniform(-3, 3))
        if not piano_style and rng.random() < 0.85 or rng.random() < 0.3:
            guitar("guitar", rng.uniform(-6, 2))
        if piano_style or rng.random() < 0.35:
            piano("piano", rng.uniform(-6, 1))
        if rng.random() < 0.35:
            padding(rng.uniform(-9, -2))
        if rng.random() < 0.12:
            improvise("lead", rng.uniform(-3, 5), ROCK + LEADS)
        elif rng.random() < 0.65:
            tune("tune", rng.uniform(-3, 6))
        if rng.random() < 0.12:
            tune("tune2", rng.uniform(-6, 2))
    return calls, cast


def sounding(rng, layer, instrument, lasting):
    """What sounds a note: strings of formulas have damped and dead strokes of their own."""
    if layer in ("chuck", "squeak"):
        return instrument.replace("pluck", "dead") if layer == "chuck" and instrument.startswith("pluck") else layer
    return instrument.replace("pluck", "mute") if instrument.startswith("pluck") and lasting < 0.2 and rng.random() < 0.6 else instrument


def finish(rng, piece, end, cast):
    chord = piece.harmony.chords[0]
    for layer in cast:
        if layer in ("drums", "human drums", "thump"):
            piece.play(layer, end, 2, 49, 0.7)
        elif layer == "bass":
            piece.play(layer, end, 4, 36 + chord.root % 12, 0.8)
        else:
            for k, tone in enumerate(chord.notes[:1] if "tune" in layer else chord.notes[:3]):
                piece.play(layer, end, 4, 52 + (tone - 52) % 12, 0.6, 0.01 * k)


def realise(rng, style, piece, clock, cast, tempo, end, from_start):
    track = Track()
    track.style, track.tempo, track.end = style["name"], tempo, end
    track.cast, track.harmony, track.clock = cast, piece.harmony, clock
    track.meter = METERS[(style["beats"], style.get("division", 2))]
    layers = {layer: dict(instrument=name, gain=10 ** ((db + rng.normal(0, 2)) / 20), jitter=rng.uniform(0.0, 0.012 if rng.random() < 0.85 else 0.03), lag=rng.uniform(-0.006, 0.014) if len(cast) > 1 else 0.0) for layer, (name, db) in cast.items()}
    enter, leave = {}, {}
    if len(cast) > 2 and rng.random() < 0.35:
        for layer in cast:
            enter[layer] = piece.bars[min(len(piece.bars) - 1, int(rng.choice([0, 0, 1, 2, 4, 8])))][0] - 0.6
        enter[list(cast)[int(rng.integers(len(cast)))]] = -9
    if len(cast) > 1 and rng.random() < 0.25:
        gone = list(cast)[int(rng.integers(len(cast)))]
        k = int(rng.integers(len(piece.bars)))
        leave[gone] = (piece.bars[k][0], piece.bars[k][0] + 4 * style["beats"])
    track.notes, first, last, together = [], 1e9, -1e9, {}
    for layer, place, length, pitch, strength, delay in piece.notes:
        part = layers.get(layer) or (layers.get("guitar") if layer in ("chuck", "squeak") else None)
        if part is None or place < enter.get(layer, -9) or (layer in leave and leave[layer][0] <= place < leave[layer][1]):
            continue
        if end is not None and place > end + 0.01:
            continue
        if layer.startswith("human"):
            seconds = float(clock.beat(place))
        else:
            # Notes of one stroke miss their place together.
            stroke = together.setdefault((layer, round(place, 3)), rng.normal(0, part["jitter"]))
            seconds = float(clock.place(place)) + delay + part["lag"] + 0.85 * stroke + rng.normal(0, 0.3 * part["jitter"])
        lasting = float(clock.place(place + length) - clock.place(place))
        if seconds < SECONDS and seconds + lasting > 0:
            track.notes.append((sounding(rng, layer, part["instrument"], lasting), seconds, lasting, pitch, strength * part["gain"]))
            first, last = min(first, place), max(last, place + min(length, 2))
    beats = np.arange(int(np.floor(first + 0.26)), int(np.ceil(last - 0.05)) + 1) if track.notes else np.zeros(0, int)
    if end is not None:
        beats = beats[beats <= end]
    starts = {s for s, _ in piece.bars} | ({end} if end is not None else set())
    before = {-k * style["beats"] for k in range(1, 5)}
    after = {piece.bars[-1][0] + piece.bars[-1][1]}
    times = clock.beat(beats)
    inside = (times >= 0) & (times < SECONDS - 0.01)
    track.beats = times[inside]
    track.downbeats = np.array([t for b, t in zip(beats[inside], track.beats) if b in starts or b in before or b in after])
    track.places = np.array([place_in_bar(b, piece.bars, style["beats"]) for b in beats[inside]], int)
    changes = clock.beat(piece.harmony.changes())
    track.changes = changes[(changes >= 0) & (changes < SECONDS - 0.01)]
    return track


def place_in_bar(beat, bars, usual):
    """0 and 1 in bars of two beats, 2 to 4 in bars of three, 5 to 8 in bars of four; -1 in others."""
    start, length = next(((s, n) for s, n in reversed(bars) if s <= beat), (0, usual))
    start, length = (start + length, usual) if beat >= start + length else (start, length)
    return {2: 0, 3: 2, 4: 5}[length] + int((beat - start) % length) if length in (2, 3, 4) else -1

