"""Writes composed clips as NAME.wav with NAME.jams beside them, for BeatChecks: in rooms and worn as while training, drummed by the human drummers that
training leaves out. Usage: clips.py BANK[,RECORDED] FOLDER COUNT SEED [GROOVES.npz [dry]]; the second bank has two guitars (recorded.py). Dry clips are in
no room; the others need PyTorch."""
import json
import os
import sys
import wave

import numpy as np

import compose as composer
from compose import RATE, SECONDS, Ear, compose
from grooves import Grooves
from mixer import Mixer


def write(folder, name, sound, track):
    with wave.open(os.path.join(folder, name + ".wav"), "wb") as w:
        w.setnchannels(1), w.setsampwidth(2), w.setframerate(RATE)
        w.writeframes(np.round(sound * (30000 / np.abs(sound).max())).astype("<i2").tobytes())
    downbeats, position, beats = {round(float(t), 6) for t in track.downbeats}, 0, []
    for t in track.beats:
        position = 1 if round(float(t), 6) in downbeats else position + 1 if position else 0
        beats.append(dict(time=float(t), duration=0.0, value=position or None, confidence=1.0))
    part = dict(namespace="beat", data=beats, annotation_metadata={}, sandbox={})
    with open(os.path.join(folder, name + ".jams"), "w") as file:
        json.dump(dict(annotations=[part], file_metadata=dict(title=name, duration=SECONDS), sandbox={}), file)


def in_rooms(seed):
    import torch
    from rooms import Rooms
    torch.manual_seed(seed)
    rooms = Rooms("cpu", seed, 32)
    return lambda sound: rooms(torch.from_numpy(sound)[None].float())[0].numpy()


def main(bank, folder, count, seed, grooves=None, dry=None):
    os.makedirs(folder, exist_ok=True)
    mixer, made, tries = Mixer(bank), 0, 0
    composer.PLUCKED, Ear.plucked = 2, "," in bank
    Ear.grooves = Grooves(grooves, "test") if grooves else None
    worn = (lambda sound: sound) if dry else in_rooms(seed)
    while made < count:
        track = compose(np.random.default_rng([seed, tries]))
        tries += 1
        sound = mixer.mix(track.notes)
        if len(track.beats) < 8 or len(track.downbeats) < 2 or np.abs(sound).max() < 1e-4:
            continue
        write(folder, f"{seed}-{made:04d}-{track.style}", worn(sound / np.abs(sound).max()), track)
        made += 1


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4]), *sys.argv[5:])
