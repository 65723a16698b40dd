"""Trains the chord network on music that it composes, plays and hears as it goes.

    train.py BANK OUT SECONDS [WORKERS] [SEED] [RESUME.pt or none] [RATE] [NOTES.pt ...]

Workers compose on the CPU; the GPU puts each clip in a room, hears its notes with the note network and cuts them to spans, which are
kept; the chord network learns from all that is kept. Stops by the clock; keeps a checkpoint. At the end it writes spans for trials on a CPU.
"""
import importlib.util
import multiprocessing as mp
import os
import sys
import time
import traceback
from pathlib import Path

os.environ.setdefault("OMP_NUM_THREADS", "1")
import numpy as np

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "beats"))
SPANS = 128
HELD = 768


def beside(folder, name):
    """A module of another training folder whose name this one has too."""
    spec = importlib.util.spec_from_file_location(f"{folder}_{name}", HERE.parent / folder / f"{name}.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def labels(track, starts, end):
    """For each span: chord, bass above its root (-1 with no chord), share of the span, key, and whether the chord changes at its start."""
    harmony, clock = track.harmony, track.clock
    times, chords = clock.beat(harmony.starts), list(harmony.chords)
    sounding = [n for n in track.notes if not n[0].startswith("kit") and n[0] != "chuck"]
    if not sounding:
        times, chords = np.array([0.0]), [None]
    begin, stop = (min(n[1] for n in sounding), max(n[1] + n[2] for n in sounding)) if sounding else (0, 0)
    if track.end is not None:
        keep = times < clock.beat(track.end) - 1e-6
        times, chords = np.append(times[keep], clock.beat(track.end)), [c for c, k in zip(chords, keep) if k] + [chords[0]]
    edges = np.append(times, 1e9)
    edges[0] = -1e9
    out, before = [], None
    for a, b in zip(starts, np.append(starts[1:], end)):
        shares = {}
        for k in range(max(0, np.searchsorted(edges, a) - 1), len(chords)):
            if edges[k] >= b:
                break
            chord = chords[k]
            shared = min(b, edges[k + 1], stop) - max(a, edges[k], begin)
            if chord is not None and shared > 0:
                name = (chord.number, chord.over)
                shares[name] = shares.get(name, 0) + shared
        name, shared = max(shares.items(), key=lambda s: s[1]) if shares else ((0, -1), b - a)
        silent = b - a - sum(shares.values())
        if silent > shared:
            name, shared = (0, -1), silent
        place = float(np.interp((a + b) / 2, clock.times, clock.first + np.arange(len(clock.times))))
        tonic, is_minor = harmony.key_at(place)
        out.append((*name, min(1, shared / (b - a)), tonic + 12 * is_minor, before is not None and name != before))
        before = name
    return np.array(out, np.float32)


def worker(number, workers, seed, queue, stop, bank):
    os.nice(5)
    from compose import FRAME_RATE, SECONDS, compose
    from mixer import Mixer
    from progressions import Progression
    from spans import frames, marks, misheard
    mixer, made = Mixer(bank), number
    while not stop.value:
        rng = np.random.default_rng([seed, made])
        made += workers
        try:
            track = compose(rng, Progression)
            if len(track.beats) < 6 or len(track.cast) == 1 and next(iter(track.cast)) in ("tune", "lead") and rng.random() < 0.5:
                continue
            wave = mixer.mix(track.notes)
            top = float(np.abs(wave).max())
            if top < 1e-4:
                continue
            beats, places = misheard(rng, track.beats, track.downbeats) if rng.random() > 0.04 else (np.zeros(0), np.zeros(0, int))
            starts, places = marks(beats, places, SECONDS)
            starts, places = starts[:SPANS], places[:SPANS]
            end = SECONDS if len(starts) < SPANS else starts[-1] + 0.5
            first, last = frames(starts, end, len(wave) // 256 + 1)
            queue.put((made, track.style, np.round(wave * (32000 / top)).astype(np.int16), first, last, np.diff(np.append(starts, end)), places, labels(track, starts, end)))
        except Exception:
            traceback.print_exc()


def main():
    bank, out, limit = sys.argv[1], Path(sys.argv[2]), float(sys.argv[3])
    workers, seed = int(sys.argv[4]) if len(sys.argv) > 4 else 15, int(sys.argv[5]) if len(sys.argv) > 5 else 20261127
    resume, rate = sys.argv[6] if len(sys.argv) > 6 else "none", float(sys.argv[7]) if len(sys.argv) > 7 else 3e-3
    weights = sys.argv[8:] or [HERE.parent / "notes" / "runs" / "2-average.pt"]
    began = time.time()
    queue, stop = mp.Queue(maxsize=256), mp.Value("b", 0, lock=False)
    crew = [mp.Process(target=worker, args=(k, workers, seed, queue, stop, bank), daemon=True) for k in range(workers)]
    for process in crew:
        process.start()
    import torch
    from learn import Learner
    from hear import Ears
    device = "cuda" if torch.cuda.is_available() else "cpu"
    torch.manual_seed(seed)
    log = open(out / "train.log", "a")

    def say(*words):
        line = f"{time.time() - began:6.1f} " + " ".join(str(w) for w in words)
        print(line, flush=True)
        log.write(line + "\n")
        log.flush()

    small = device == "cpu"
    ears = Ears(torch, device, weights, beside("notes", "network"), beside("notes", "features"), seed)
    learner = Learner(torch, device, slots=200 if small else 120000, held=16 if small else HELD, batch=16 if small else 256, rate=rate, say=say)
    if resume != "none":
        learner.resume(resume)
    group, step, checked = 4 if small else 48, 0, time.time()
    say(device, sum(p.numel() for p in learner.network.parameters()), "parameters")
    while (done := (time.time() - began) / (limit - (20 if limit > 60 else 0))) < 1:
        clips = [queue.get() for _ in range(group)]
        learner.keep(*ears.hear(clips))
        if learner.count < (24 if small else 1500):
            continue
        for _ in range(1 if small else 4):
            losses = learner.learn(done)
            step += 1
        if step % (2 if small else 200) == 0:
            say("step", step, "clips", learner.count, "waiting", queue.qsize(), "loss", *(round(float(v), 4) for v in losses))
        if time.time() - checked > 60:
            learner.validate()
            learner.save(out)
            checked = time.time()
    stop.value = 1
    say("steps", step, "clips", learner.count)
    learner.validate()
    learner.save(out, spans=True)
    say("done")
    os._exit(0)


if __name__ == "__main__":
    try:
        main()
    except Exception:
        traceback.print_exc()
        os._exit(1)
