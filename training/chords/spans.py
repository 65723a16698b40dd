"""Beats as they may be misheard, the spans between them, and what the network sees of the notes in each: ChordInput in the program computes the same rows."""
import numpy as np
import torch

HOP = 256 / 22050
LOWEST = 36
ROWS, SCALARS = 11, 5
LOW_BELOW, HIGH_FROM = 52, 65
SLOW_BEAT, FIXED = 0.75, 0.5
NONE, BETWEEN, BEAT, DOWNBEAT = range(4)


def misheard(rng, beats, downbeats):
    """Beats and where they stand (DOWNBEAT or BEAT), as a listener may take them: mostly right, else off, twice or half as many, or with bars elsewhere."""
    first = np.isin(beats, downbeats)
    kind = rng.choice(["right", "off", "double", "half", "drifting"], p=[0.68, 0.08, 0.09, 0.08, 0.07])
    if kind == "off":
        beats = beats[:-1] + np.diff(beats) * rng.choice([0.5, 0.5, 0.33, 0.67])
        first = first[:-1]
    elif kind == "double":
        beats = np.stack([beats[:-1], (beats[:-1] + beats[1:]) / 2], 1).ravel()
        first = np.stack([first[:-1], np.zeros(len(first) - 1, bool)], 1).ravel()
    elif kind == "half":
        start = int(rng.integers(2))
        beats, first = beats[start::2], first[start::2]
    elif kind == "drifting":
        beats = beats + np.interp(np.arange(len(beats)), [0, len(beats) / 2, len(beats)], rng.uniform(-0.25, 0.25, 3))
    x = rng.random()
    if x < 0.15:
        first = np.roll(first, int(rng.integers(1, 4)))
    elif x < 0.25:
        every = int(rng.choice([2, 3, 4]))
        first = np.arange(len(beats)) % every == int(rng.integers(every))
    beats = beats + rng.uniform(-0.03, 0.03) + rng.normal(0, rng.choice([0.005, 0.012, 0.03]), len(beats))
    order = np.argsort(beats)
    return beats[order], np.where(first[order], DOWNBEAT, BEAT)


def marks(beats, places, end):
    """Starts of the spans in seconds and where each stands: beats, halved where they are slow; the recording's start stands as a downbeat does."""
    if len(beats) < 4:
        return np.arange(0, end, FIXED), np.full(int(np.ceil(end / FIXED)), NONE)
    if (beats[-1] - beats[0]) / (len(beats) - 1) > SLOW_BEAT:
        beats = np.append(np.stack([beats[:-1], (beats[:-1] + beats[1:]) / 2], 1).ravel(), beats[-1])
        places = np.append(np.stack([places[:-1], np.full(len(places) - 1, BETWEEN)], 1).ravel(), places[-1])
    inside = beats < end
    beats, places = beats[inside], places[inside]
    if len(beats) == 0 or beats[0] > 0.05:
        beats, places = np.append(0, beats), np.append(DOWNBEAT, places)
    beats = beats.copy()
    beats[0] = 0
    return beats, places


def frames(starts, end, count):
    """First frames and the frames after the last, at least one a span; halves round to even, as in the program."""
    at = np.clip(np.round(np.append(starts, end) / HOP), 0, count - 1).astype(np.int64)
    return at[:-1], np.minimum(np.maximum(at[:-1] + 1, at[1:]), count)


def rows(sounding, onset, first, last, seconds, places):
    """[clips, spans, 12 ROWS + SCALARS] of [clips, frames, pitches] and [clips, spans]; spans that don't exist have last = first + 1 and are to be masked."""
    device = sounding.device
    middle = first + (last - first) // 2
    plain, cubed = torch.cumsum(torch.nn.functional.pad(sounding.double(), (0, 0, 1, 0)), 1), torch.cumsum(torch.nn.functional.pad(sounding.double() ** 3, (0, 0, 1, 0)), 1)

    def mean(sums, a, b):
        wide = lambda i: i[..., None].expand(-1, -1, sums.shape[2])
        return (sums.gather(1, wide(b)) - sums.gather(1, wide(a))) / (b - a)[..., None]

    loud, steady = mean(cubed, first, last).clamp_min(0).pow(1 / 3).clamp_max(0.999).float(), mean(plain, first, last).clamp(0, 0.999).float()
    one, two = (mean(plain, a, b).clamp(0, 0.999).float() for a, b in ((first, torch.maximum(first + 1, middle)), (torch.minimum(middle, last - 1), last)))
    frame = torch.arange(sounding.shape[1], device=device).expand(len(first), -1).contiguous()
    span = (torch.searchsorted(first.contiguous(), frame, right=True) - 1).clamp_min(0)
    inside = frame < last.gather(1, span)
    struck = torch.zeros(*first.shape, sounding.shape[2], device=device).scatter_reduce(
        1, span[..., None].expand(-1, -1, sounding.shape[2]), onset.float() * inside[..., None], "amax").clamp_max(0.999)
    below = lambda x: torch.cumprod(torch.nn.functional.pad(1 - x, (1, 0), value=1.0), 2)[..., :-1]
    above = lambda x: below(x.flip(2)).flip(2)
    pitch = LOWEST + torch.arange(sounding.shape[2], device=device)
    low, high = pitch < LOW_BELOW, pitch >= HIGH_FROM
    lowest = steady * below(steady)
    table = [either(loud), fold(loud), fold(lowest), fold(steady * above(steady)), fold(steady * low), fold(steady * ~(low | high)), fold(steady * high), either(struck),
             fold(struck * below(struck)), fold(one), fold(two)]
    scalars = [1 - lowest.sum(2), torch.log2(seconds.float())] + [(places == p).float() for p in (BETWEEN, BEAT, DOWNBEAT)]
    return torch.cat([torch.cat(table, 2), torch.stack(scalars, 2)], 2)


def fold(x):
    """Sums over octaves, C first."""
    padded = torch.nn.functional.pad(x, (LOWEST % 12, -(LOWEST + x.shape[2]) % 12))
    return padded.unflatten(2, (-1, 12)).sum(2)


def either(x):
    """The chance that any octave sounds."""
    padded = torch.nn.functional.pad(1 - x, (LOWEST % 12, -(LOWEST + x.shape[2]) % 12), value=1.0)
    return 1 - padded.unflatten(2, (-1, 12)).prod(2)
