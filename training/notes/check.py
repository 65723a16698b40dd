"""Quick checks of the recipe's parts on a CPU: python3 check.py"""
import os
import random
import tempfile

import numpy as np
import torch

import bank
import features
import guitar
import mix
import network
import parity
import recipe
import score
import supply
from effects import Effects
from clips import FIELDS, GAIN, LENGTH, SPEED, START, T1, T2, VRATE, W1, W2, DAMP, END


def packing_keeps_a_sound():
    """Within the step that bank.py promises: 60 dB under each block's peak."""
    t = np.arange(9000) / bank.RATE
    sound = np.exp(-3 * t) * np.sin(2 * np.pi * 220 * t)
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "a.bank")
        bank.pack([(dict(pitch=57), sound)], path)
        facts, back = bank.unpack(path)[0]
    assert facts["pitch"] == 57
    assert np.abs(back[:9000] - sound / np.abs(sound).max()).max() <= 1 / bank.STEPS


def features_by_matrix_equal_the_definition():
    sound = parity.sound()
    plain = features.reference(sound, parity.A4)
    quick = features.Features(parity.A4)(torch.tensor(sound * features.level(sound), dtype=torch.float32)[None])[0].numpy()
    assert np.abs(plain - quick).max() < 1e-4


def a_sine_shows_its_amplitude():
    """0.2 at 440 Hz reads 20 log10 0.2 = -13.98 dB in the bin of MIDI 69, whatever the window."""
    made = features.Features()(torch.tensor(0.2 * np.sin(2 * np.pi * 440 * np.arange(22050) / 22050), dtype=torch.float32)[None])
    decibels = made[0, :, 43, 3 * (69 - 34)] * 60 - 50
    assert (decibels - 20 * np.log10(0.2)).abs().max() < 0.2, decibels


def an_event_sounds_its_pitch_at_its_time():
    """A row of 441 Hz at speed 2 gives 882 Hz, from the sample where it starts."""
    data = torch.sin(2 * torch.pi * 441 * torch.arange(77000) / 22050)[None].half()
    event = np.zeros((1, FIELDS), np.float32)
    event[0, [START, GAIN, SPEED, END, DAMP, LENGTH, W1, W2, T1, T2, VRATE]] = 5000, 1, 2, 20000, 10, 20000, 1, 1, 1e9, 1e9, 1e-3
    sound = mix.mix(data, torch.from_numpy(event), 1)[0, 0].numpy()
    assert np.abs(sound[:5000]).max() == 0 and np.abs(sound[5001:5100]).max() > 0.5
    spectrum = np.abs(np.fft.rfft(sound[6000 : 6000 + 11025]))
    assert spectrum.argmax() == 441  # bins of 2 Hz


def effects_left_out_leave_the_sound():
    """Without any of them the sound of both buses comes back, but for its level."""
    torch.manual_seed(4)
    buses = torch.randn(3, 2, 30000)
    plain = buses.sum(1)
    bare = Effects("cpu", 1, rooms=2, sympathies=1, without=recipe.parts(["rooms", "colour", "wear", "drift"]))(buses)
    whole = Effects("cpu", 1, rooms=2, sympathies=1)(buses)
    alike = lambda sound: torch.nn.functional.cosine_similarity(sound, plain)
    assert (alike(bare) > 0.9999).all() and (alike(whole) < 0.999).all(), (alike(bare), alike(whole))


def plain_playing_has_no_ornaments():
    """Random players use ornaments; what is left without them is plucked, and at the same places."""
    kinds = lambda n: n.legato or n.glide or n.vibrato or n.harmonic or n.ghost or n.layer in ("dead", "knock")
    played = [n for seed in range(20) for n in guitar.play(random.Random(seed))]
    plain = guitar.plain(played)
    assert any(kinds(n) for n in played) and not any(kinds(n) for n in plain)
    assert {(n.at, n.pitch) for n in plain} < {(n.at, n.pitch) for n in played}


def targets_peak_at_the_moment():
    labels = torch.tensor([[0, 33, 1.0, 2.0, 1, 1]], dtype=torch.float32)
    made = supply.targets(labels, 1)[0]
    assert made[0, :, 33].argmax() == round(22050 / 256) and made[2, :, 33].argmax() == round(2 * 22050 / 256)
    assert made[1, :, 33].sum() == 86 and made[1].sum() == 86


def matching_is_the_largest_one():
    """Two notes and two estimates, one of which fits both notes: a greedy choice would find one pair."""
    assert score.matched([(60, 0.0, 1.0), (60, 0.06, 1.0)], [(60, 0.03, 1.0), (60, -0.04, 1.0)])[0] == 2
    assert score.matched([(60, 0.0, 1.0)], [(60, 0.051, 1.0)])[0] == 0
    assert score.matched([(60, 0.0, 1.0)], [(60, 0.0, 1.25)], True)[0] == 0
    assert score.matched([(60, 0.0, 1.0)], [(60, 0.0, 1.15)], True)[0] == 1


def the_network_moves_with_time():
    """Sound two frames later gives the same answer two frames later; any number of frames goes in."""
    torch.manual_seed(3)
    shipped = network.Shipped(network.Network().eval())
    sound = torch.rand(1, 2, 241, 264) - 0.5
    with torch.no_grad():
        whole, later = shipped(sound)[0], shipped(sound[:, :, 2:])[0]
    assert whole.shape == (1, 241, 61)
    assert (whole[0, 102:140] - later[0, 100:138]).abs().max() < 1e-5


if __name__ == "__main__":
    for name, check in list(globals().items()):
        if callable(check) and getattr(check, "__module__", "") == "__main__":
            check()
            print("ok", name)
