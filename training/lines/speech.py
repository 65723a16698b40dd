"""Syllables that people spoke, as spectra: from recordings of speech into one small file, of which `sung.py` makes singing.

    python3 speech.py OUT.npz SPEAKER=FOLDER ... [VOICE ...]

A SPEAKER's FOLDER holds WAV or G.722 files; a VOICE is one of Festival's, which puts recorded speech together. Of each syllable the consonant
before its vowel and the vowel's steady part are kept, a spectral envelope every 10 ms. The envelope is pitch-adaptive: a window of three
periods, smoothed over two thirds of the pitch and lifted (Morise, "CheapTrick, a spectral envelope estimator for high-quality speech synthesis",
Speech Communication 67, 2015); the pitch is the highest peak of the normalised autocorrelation (Boersma, IFA Proceedings 17, 1993).
"""
import os
import random
import subprocess
import sys
import tempfile
from concurrent.futures import ProcessPoolExecutor

import numpy as np

RATE, HOP = 16000, 80
BANDS, FRAMES = 48, 30  # of an envelope; frames of 10 ms of a syllable
EACH = 420  # syllables of a speaker
MEL = np.linspace(0, 2595 * np.log10(1 + 7900 / 700), BANDS)
CENTRES = 700 * (10 ** (MEL / 2595) - 1)
WORDS = "ba da ga la ma na ra sa ta ka pa fa ha va za lo mo no so to ko po le me ne se te ke pe li mi ni si ti ki lu mu nu su tu ku".split()


def samples(path):
    raw = ["-f", "g722"] if path.endswith("g722") else []
    sound = subprocess.run(["ffmpeg", "-v", "error", *raw, "-i", path, "-ac", "1", "-ar", str(RATE), "-f", "s16le", "-"], capture_output=True).stdout
    return np.frombuffer(sound, np.int16).astype(float) / 32768


def spoken(voice, seed):
    """What a voice of Festival says: invented words."""
    r = random.Random(seed)
    text = " ".join("".join(r.choice(WORDS) for _ in range(r.randint(1, 3))) for _ in range(40))
    with tempfile.TemporaryDirectory() as folder:
        out = os.path.join(folder, "said.wav")
        with open(os.path.join(folder, "say.scm"), "w") as file:
            file.write(f'(voice_{voice})\n(utt.save.wave (SynthText "{text}") "{out}" \'riff)\n')
        subprocess.run(["festival", "-b", file.name], stderr=subprocess.DEVNULL)
        return samples(out) if os.path.exists(out) else np.zeros(0)


def pitch(x):
    """Hertz, how periodic (0 to 1), level and level of the upper part (dB) of each frame of 5 ms."""
    size = 800
    count = max(0, (len(x) - size) // HOP)
    frames = x[np.arange(count)[:, None] * HOP + np.arange(size)] * np.hanning(size)
    power = np.abs(np.fft.rfft(frames, 2048)) ** 2
    window = np.fft.irfft(np.abs(np.fft.rfft(np.hanning(size), 2048)) ** 2)
    lags = np.fft.irfft(power)[:, :300] / np.maximum(window[:300] / window[0], 0.05)
    lags = lags / np.maximum(lags[:, :1], 1e-9)
    low, high = RATE // 420, RATE // 70
    part = lags[:, low:high]
    best = part.max(1)
    peak = (part >= 0.88 * best[:, None]) & (part >= lags[:, low - 1 : high - 1]) & (part >= lags[:, low + 1 : high + 1])
    at = np.where(peak.any(1), peak.argmax(1), part.argmax(1)) + low
    bright = np.diff(frames, axis=1, prepend=0)  # a vowel is brighter than the hum of a consonant before it
    return RATE / at, np.clip(best, 0, 1), 10 * np.log10((frames**2).mean(1) + 1e-10), 10 * np.log10((bright**2).mean(1) + 1e-10)


def envelopes(x, at, hertz):
    """Log power (dB) at CENTRES of the frames that begin at samples `at` (their middle 400 later)."""
    out = np.zeros((len(at), BANDS))
    kinds = np.round(12 * np.log2(hertz / 70)).astype(int)
    for kind in np.unique(kinds):
        mine = np.nonzero(kinds == kind)[0]
        f0 = 70 * 2 ** (kind / 12)
        half = int(1.5 * RATE / f0)
        place = np.clip(at[mine][:, None] + 400 + np.arange(-half, half + 1), 0, len(x) - 1)
        window = np.hanning(2 * half + 3)[1:-1]
        power = np.abs(np.fft.rfft(x[place] * window / np.sqrt((window**2).sum()), 1024)) ** 2 + 1e-10
        width = max(1, int(round(2 / 3 * f0 / (RATE / 1024))))
        power = np.apply_along_axis(lambda row: np.convolve(np.pad(row, width, "reflect"), np.ones(width) / width, "same")[width:-width], 1, power)
        cepstrum = np.fft.irfft(np.log(power))
        q = np.minimum(np.arange(1024), 1024 - np.arange(1024)) / RATE
        lift = np.sinc(f0 * q) * (1.18 - 0.18 * np.cos(2 * np.pi * f0 * q))
        log = np.fft.rfft(cepstrum * lift).real * 10 / np.log(10)
        out[mine] = np.stack([np.interp(CENTRES, np.arange(513) * RATE / 1024, row) for row in log])
    return out


def syllables(x):
    """(envelopes uint8, consonant's frames, vowel's frames, how periodic, Hertz) of each syllable."""
    if len(x) < RATE // 4:
        return
    hertz, periodic, loud, bright = pitch(x)
    smooth = np.convolve(np.where(periodic > 0.55, loud, -90), np.ones(9) / 9, "same")
    n, last = len(smooth), -100
    for k in range(12, n - 20):
        if smooth[k] < loud.max() - 25 or smooth[k] < smooth[k - 12 : k + 13].max() or k - last < 16:
            continue
        steady = lambda i: periodic[i] > 0.6 and loud[i] > loud[k] - 5 and bright[i] > bright[k] - 6
        first, end = k, k
        while first > max(last, k - 30) and steady(first - 1):
            first -= 1
        while end < min(n - 2, k + 30) and steady(end + 1):
            end += 1
        start = min(first, max(0, last + 6, first - 28))
        quiet = np.nonzero(loud[start:first] < loud[k] - 38)[0]
        start = start + quiet[-1] + 1 if len(quiet) else start + int(np.argmin(loud[start : first + 1]))
        last = end
        if end - first < 7:
            continue
        frames = np.r_[np.arange(start, first, 2), np.arange(first, end + 1, 2)][:FRAMES]
        consonant = len(np.arange(start, first, 2))
        vowel = len(frames) - consonant
        if vowel < 4:
            continue
        shape = envelopes(x, frames * HOP, np.where(periodic[frames] > 0.5, hertz[frames], 250))
        shape = np.clip((shape - shape.max() + 85) * 3, 0, 255).astype(np.uint8)
        rows = np.zeros((FRAMES, BANDS), np.uint8)
        rows[: len(frames)] = shape
        tone = np.zeros(FRAMES, np.uint8)
        tone[: len(frames)] = 255 * np.clip((periodic[frames] - 0.4) / 0.55, 0, 1)
        yield rows, consonant, vowel, tone, np.median(hertz[first : end + 1])


def speaker(task):
    name, folder = task
    r, kept = random.Random(name), []
    files = sorted(os.path.join(root, f) for root, _, names in os.walk(folder) for f in names if f.endswith((".wav", ".g722"))) if folder else range(40)
    for file in r.sample(list(files), len(files)):
        kept += syllables(samples(file) if folder else spoken(name, file))
        if len(kept) >= 2 * EACH:
            break
    kept = r.sample(kept, min(EACH, len(kept)))
    print(name, len(kept), "syllables,", round(float(np.median([k[4] for k in kept])) if kept else 0), "Hz", flush=True)
    return name, kept


def main(out, names):
    with ProcessPoolExecutor(2) as pool:
        found = [s for s in pool.map(speaker, [(n.split("=")[0], n.split("=")[1] if "=" in n else None) for n in names]) if len(s[1]) > 60]
    every = [k for _, kept in found for k in kept]
    np.savez_compressed(out, names=[n for n, _ in found], speaker=np.repeat(np.arange(len(found)), [len(k) for _, k in found]).astype(np.uint8),
                        envelope=np.stack([k[0] for k in every]), consonant=np.array([k[1] for k in every], np.uint8),
                        vowel=np.array([k[2] for k in every], np.uint8),
                        tone=np.stack([k[3] for k in every]), hertz=np.array([k[4] for k in every], np.float32), centres=CENTRES)
    print(out, len(every), os.path.getsize(out))


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2:])
