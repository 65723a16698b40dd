"""Plays events from the table of notes into clips, all on the GPU: each event reads its row at a changing speed."""
import math

import torch

from clips import (ATTACK, BUS, CLIP, DAMP, END, F1, F2, FIELDS, GAIN, LENGTH, ROW, SAMPLES, SKIP, SPEED, START, T1, T2, VDELAY, VDEPTH, VRATE, W1,
                   W2)

try:
    import triton
    import triton.language as tl
except ImportError:
    triton = None


def mix(data, events, clips):
    """data [rows, length] half; events [n, FIELDS] -> sound [clips, 2 buses, SAMPLES]"""
    out = torch.zeros(clips, 2, SAMPLES, device=data.device)
    if not len(events):
        return out
    if data.is_cuda and triton is not None:
        span = int(events[:, LENGTH].max()) + 1
        grid = (len(events), triton.cdiv(span, 1024))
        play_kernel[grid](data, events, out, data.shape[1], SAMPLES, FIELDS, BLOCK=1024)
        return out
    for event in events:
        play(data, event, out)
    return out


def difference(data, events):
    """The largest difference between the kernel and the plain form, over a few clips."""
    events = torch.from_numpy(events).to(data.device)
    clips = int(events[:, CLIP].max()) + 1
    plain = torch.zeros(clips, 2, SAMPLES, device=data.device)
    for event in events:
        play(data, event, plain)
    return float((mix(data, events, clips) - plain).abs().max()), float(plain.abs().max())


def play(data, event, out):
    """The plain form of the kernel below, for a machine without a GPU and as its check."""
    e = event.tolist()
    first = math.ceil(e[START])
    i = torch.arange(max(0, int(e[LENGTH])), device=data.device)
    t = i + (first - e[START])
    at = e[SKIP] + e[SPEED] * (t + ramp(t, e[T1], e[W1], e[F1]) + ramp(t, e[T2], e[W2], e[F2]) + sway(t, e[VDEPTH], e[VRATE], e[VDELAY]))
    j = at.floor().long()
    x = (at - j).float()
    inside = (j >= 1) & (j + 2 < data.shape[1]) & (first + i >= 0) & (first + i < out.shape[2])
    j, x, t, i = j[inside], x[inside], t[inside], i[inside]
    row = data[int(e[ROW])].float()
    a, b, c, d = row[j - 1], row[j], row[j + 1], row[j + 2]
    sound = b + 0.5 * x * (c - a + x * (2 * a - 5 * b + 4 * c - d + x * (3 * (b - c) + d - a)))
    envelope = torch.exp(-(t - e[END]).clamp_min(0) / e[DAMP]) * (t / max(e[ATTACK], 1.0)).clamp_max(1.0) * e[GAIN]
    out[int(e[CLIP]), int(e[BUS]), first + i] += sound * envelope


def ramp(t, start, width, factor):
    """The extra way travelled when the speed rises by `factor` from `start` over `width`."""
    into = (t - start).clamp_min(0)
    return factor * (into.clamp_max(width).square() / (2 * width) + (into - width).clamp_min(0))


def sway(t, depth, rate, delay):
    return depth * (1 - torch.cos(rate * (t - delay).clamp_min(0))) / rate


if triton is not None:

    @triton.jit
    def play_kernel(data, events, out, length, samples, fields: tl.constexpr, BLOCK: tl.constexpr):
        # the field numbers are those of clips.py
        e = events + tl.program_id(0).to(tl.int64) * fields
        total = tl.load(e + 19)
        start = tl.load(e + 3)
        begin = tl.program_id(1) * BLOCK
        first = tl.ceil(start)
        if (begin < total) & (first + begin < samples) & (first + begin + BLOCK > 0):
            clip = tl.load(e + 0).to(tl.int64)
            bus = tl.load(e + 1).to(tl.int64)
            row = tl.load(e + 2).to(tl.int64)
            i = begin + tl.arange(0, BLOCK)
            t = i.to(tl.float32) + (first - start)
            w1 = tl.load(e + 11)
            w2 = tl.load(e + 14)
            into1 = tl.maximum(t - tl.load(e + 10), 0.0)
            into2 = tl.maximum(t - tl.load(e + 13), 0.0)
            near1 = tl.minimum(into1, w1)
            near2 = tl.minimum(into2, w2)
            way1 = tl.load(e + 12) * (near1 * near1 / (2 * w1) + tl.maximum(into1 - w1, 0.0))
            way2 = tl.load(e + 15) * (near2 * near2 / (2 * w2) + tl.maximum(into2 - w2, 0.0))
            rate = tl.load(e + 17)
            way3 = tl.load(e + 16) * (1 - tl.cos(rate * tl.maximum(t - tl.load(e + 18), 0.0))) / rate
            at = tl.load(e + 9) + tl.load(e + 5) * (t + way1 + way2 + way3)
            base = tl.floor(at)
            x = at - base
            j = base.to(tl.int32)
            place = first.to(tl.int32) + i
            ok = (i < total.to(tl.int32)) & (j >= 1) & (j + 2 < length) & (place >= 0) & (place < samples)
            source = data + row * length + j
            a = tl.load(source - 1, mask=ok, other=0.0).to(tl.float32)
            b = tl.load(source, mask=ok, other=0.0).to(tl.float32)
            c = tl.load(source + 1, mask=ok, other=0.0).to(tl.float32)
            d = tl.load(source + 2, mask=ok, other=0.0).to(tl.float32)
            sound = b + 0.5 * x * (c - a + x * (2 * a - 5 * b + 4 * c - d + x * (3 * (b - c) + d - a)))
            envelope = tl.exp(-tl.maximum(t - tl.load(e + 6), 0.0) / tl.load(e + 7)) * tl.load(e + 4)
            envelope = envelope * tl.minimum(t / tl.maximum(tl.load(e + 8), 1.0), 1.0)
            tl.atomic_add(out + (clip * 2 + bus) * samples + place, sound * envelope, mask=ok)
