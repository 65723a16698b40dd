"""Writes composed clips as NAME.wav with NAME.jams beside them, for BeatChecks: in rooms and worn as while training, drummed by the human drummers that
training leaves out. Usage: clips.py BANK[,RECORDED] FOLDER COUNT SEED [GROOVES.npz]; the second bank has two guitars (recorded.py). Needs PyTorch."""
import json
import os
import sys
import wave

import numpy as np

import torch

import compose as composer
from compose import RATE, SECONDS, Ear, compose
from grooves import Grooves
from mixer import Mixer
from rooms import Rooms


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


def main(bank, folder, count, seed, grooves=None):
    os.makedirs(folder, exist_ok=True)
    mixer, made, tries = Mixer(bank), 0, 0
    composer.PLUCKED, Ear.plucked = 2, "," in bank
    Ear.grooves = Grooves(grooves, "test") if grooves else None
    torch.manual_seed(seed)
    rooms = Rooms("cpu", seed, 32)
    while made < count:
        track = compose(np.random.default_rng([seed, tries]))
        tries += 1
        sound = mixer.mix(track.notes)
        if len(track.beats) < 8 or len(track.downbeats) < 2 or np.abs(sound).max() < 1e-4:
            continue
        worn = rooms(torch.from_numpy(sound / np.abs(sound).max())[None].float())[0].numpy()
        write(folder, f"{seed}-{made:04d}-{track.style}", worn, track)
        made += 1


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4]), *sys.argv[5:])
