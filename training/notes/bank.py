"""Short recordings of single notes in one file: packed on one machine, unpacked where the network is trained."""
import json
import lzma

import numpy as np

RATE = 22050
BLOCK = 2048
STEPS = 1 << 10  # steps from a block's peak to zero: noise about 60 dB under it


def pack(notes, path):
    """notes: list of (facts, samples); facts is a dict that JSON can hold, samples are floats."""
    heads, small, large = [], [], []
    for facts, samples in notes:
        blocks = -(-len(samples) // BLOCK)
        padded = np.zeros(blocks * BLOCK)
        padded[: len(samples)] = samples / max(np.abs(samples).max(), 1e-9)
        table = padded.reshape(blocks, BLOCK)
        power = np.ceil(np.log2(np.maximum(np.abs(table).max(1), 2.0**-10))).astype(int)
        whole = np.rint(table * STEPS / 2.0 ** power[:, None]).astype(np.int64)
        best = [differences(whole, k) for k in range(4)]
        order = np.argmin([np.abs(d).sum(1) for d in best], 0)
        code = np.stack([best[k][i] for i, k in enumerate(order)]).astype(np.int16).reshape(-1)
        small.append((code & 255).astype(np.uint8))
        large.append((code >> 8).astype(np.int8).view(np.uint8))
        heads.append(dict(facts, blocks=int(blocks), power=power.tolist(), order=order.tolist()))
    body = np.concatenate(small).tobytes() + np.concatenate(large).tobytes()
    head = json.dumps(heads).encode()
    with lzma.open(path, "wb", preset=6) as file:
        file.write(len(head).to_bytes(8, "little") + head + body)


def unpack(path):
    """The (facts, samples) of a packed file; samples are float32 with a peak of 1, 22 050 a second."""
    data = lzma.open(path).read()
    size = int.from_bytes(data[:8], "little")
    heads = json.loads(data[8 : 8 + size])
    body = np.frombuffer(data, np.uint8, offset=8 + size)
    half = len(body) // 2
    code = body[:half].astype(np.int64) + 256 * body[half:].view(np.int8).astype(np.int64)
    notes, at = [], 0
    for head in heads:
        table = code[at : at + head["blocks"] * BLOCK].reshape(-1, BLOCK)
        at += table.size
        sums = np.stack([undo(row, k) for row, k in zip(table, head["order"])])
        samples = sums * 2.0 ** np.array(head["power"])[:, None] / STEPS
        notes.append((head, samples.reshape(-1).astype(np.float32)))
    return notes


def differences(table, order):
    for _ in range(order):
        table = np.diff(table, axis=1, prepend=0)
    return table


def undo(row, order):
    for _ in range(order):
        row = np.cumsum(row)
    return row
