"""Fits the network that weighs a beat's place in the bar (src/Listening/Estimators/Beats/bar-weights.txt) on what BeatChecks wrote of composed music.

Usage: bars.py OUT.txt KNOWN.csv,... OTHER.csv,... [JUDGE.csv ... [-v]], where KNOWN is music by the composer that trained the beat network

A stretch of beats has nine rows of places that it may hold (bars of two, three and four felt beats, from each place on); the network adds up
over its beats what each row says, and learns by the softmax over the nine to prefer the true row. The beat network is surer of music by the composer that it was
trained on than of any other, so in a share of those stretches what it says of downbeats is taken from other beats, and in a share hidden.
"""
import csv
import sys

import numpy as np
import torch

LENGTHS, STARTS = (2, 3, 4), (0, 2, 5)
KIND = [0, 0, 1, 1, 1, 2, 2, 2, 2]
UNITS, SHORTEST, LONGEST = 24, 12, 40
WRONG = HIDDEN = 0.3
# How usual bars of two, three and four felt beats are in what people bring (our own estimate; the composer has more twos and threes).
USUAL = (0.15, 0.15, 0.7)
PULSE, DOWNBEATS = slice(16, 20), slice(18, 20)


def read(path):
    """Pieces by name: (clues, true places, the program's places)."""
    pieces = {}
    with open(path) as file:
        for row in csv.reader(file):
            pieces.setdefault(row[0], []).append([float(v) for v in row[2:]])
    return {n: (np.array(r)[:, 2:].astype(np.float32), np.array(r)[:, 0].astype(int), np.array(r)[:, 1].astype(int)) for n, r in pieces.items()}


def following(place):
    start, length = STARTS[KIND[place]], LENGTHS[KIND[place]]
    return start + (place - start + 1) % length


def regular(places):
    """Runs of beats whose true places follow one another: (from, to)."""
    runs, start = [], 0
    for k in range(1, len(places) + 1):
        if k == len(places) or places[k] < 0 or places[k - 1] < 0 or places[k] != following(places[k - 1]):
            if places[start] >= 0 and k - start >= SHORTEST:
                runs.append((start, k))
            start = k
    return runs


def rows(count):
    """Shape (9, count): the nine regular rows of places."""
    out = np.zeros((9, count), int)
    for p in range(9):
        out[p, 0] = p
        for k in range(1, count):
            out[p, k] = following(out[p, k - 1])
    return out


ROWS = torch.tensor(rows(LONGEST))


class Weigher(torch.nn.Module):
    def __init__(self, mean, scale):
        super().__init__()
        self.mean, self.scale = torch.tensor(mean), torch.tensor(scale)
        self.hidden, self.output = torch.nn.Linear(len(mean), UNITS), torch.nn.Linear(UNITS, 9)

    def forward(self, x):
        return self.output(torch.relu(self.hidden((x - self.mean) * self.scale)))


def batch(rng, runs, size, known, mean):
    x, truth, length = np.zeros((size, LONGEST, runs[0][0].shape[1]), np.float32), np.zeros(size, int), np.zeros(size, int)
    by_kind = [[r for r in runs if KIND[r[1][0]] == kind] for kind in range(3)]
    for s in range(size):
        some = by_kind[rng.choice(3, p=USUAL)] or runs
        clues, places = some[rng.integers(len(some))]
        count = int(rng.integers(SHORTEST, min(LONGEST, len(places)) + 1))
        at = int(rng.integers(0, len(places) - count + 1))
        x[s, :count], truth[s], length[s] = clues[at:at + count], places[at], count
        if known and rng.random() < WRONG:
            x[s, :count, DOWNBEATS] = np.roll(x[s, :count, DOWNBEATS], int(rng.integers(1, 4)), 0)
        if known and rng.random() < HIDDEN:
            x[s, :count, PULSE] = mean[PULSE]
    return torch.tensor(x), torch.tensor(truth), torch.tensor(length)


def totals(network, x, length):
    places = network(x)
    kept = (torch.arange(LONGEST)[None] < length[:, None]).float()
    along = torch.stack([places.gather(2, ROWS[p].expand(len(x), -1)[:, :, None])[:, :, 0] for p in range(9)], 1)
    return (along * kept[:, None]).sum(2)


def decode(scores, cost):
    """Viterbi over places: bars run on, or are cut at a cost."""
    count = len(scores)
    best, back = np.zeros((count, 9)), np.zeros((count, 9), int)
    best[0] = scores[0]
    before = [p + LENGTHS[KIND[p]] - 1 if p in STARTS else p - 1 for p in range(9)]
    for k in range(1, count):
        top = int(best[k - 1].argmax())
        for p in range(9):
            source = before[p]
            value = best[k - 1][source]
            if p in STARTS and best[k - 1][top] - cost > value:
                source, value = top, best[k - 1][top] - cost
            best[k, p], back[k, p] = value + scores[k, p], source
    path = [int(best[-1].argmax())]
    for k in range(count - 1, 0, -1):
        path.append(int(back[k, path[-1]]))
    return np.array(path[::-1])


def downbeat_f(places, truth):
    """Of the beats that are true ones."""
    known = truth >= 0
    mine, real = np.isin(places[known], STARTS), np.isin(truth[known], STARTS)
    return 2 * (mine & real).sum() / max(1, mine.sum() + real.sum())


def judge(network, path, cost=6.0):
    before, after, good = [], [], []
    for name, (clues, truth, heard) in read(path).items():
        if (truth >= 0).mean() < 0.8:
            continue
        with torch.no_grad():
            places = decode(network(torch.tensor(clues)).numpy(), cost)
        before.append(downbeat_f(heard, truth)), after.append(downbeat_f(places, truth))
        if "-v" in sys.argv:
            print(f"    {before[-1]:.2f} {after[-1]:.2f} {name}")
    print(f"  {path}: {len(before)} pieces, downbeats {np.mean(before):.3f} before, {np.mean(after):.3f} now")


def write(network, path):
    line = lambda v: " ".join(f"{x:.6g}" for x in v)
    with open(path, "w") as file:
        file.write("# made by training/BeatChecks/bars.py\n")
        for v in (network.mean, network.scale, network.hidden.bias.detach(), *network.hidden.weight.detach(), network.output.bias.detach(), *network.output.weight.detach()):
            file.write(line(v.numpy()) + "\n")


def main(out, known, other, *judged):
    torch.manual_seed(1)
    torch.set_num_threads(1)
    rng, kinds = np.random.default_rng(1), []
    for paths, known in ((known, True), (other, False)):
        pieces = [piece for path in paths.split(",") for piece in read(path).values()]
        runs = [(c[a:b], t[a:b]) for c, t, _ in pieces for a, b in regular(t)]
        kinds.append((runs, known))
        print(paths, len(pieces), "pieces", len(runs), "runs", [sum(KIND[t[0]] == k for _, t in runs) for k in range(3)], "of bars of two, three, four")
    every = np.concatenate([c for runs, _ in kinds for c, _ in runs])
    network = Weigher(every.mean(0), (1 / (every.std(0) + 1e-6)).astype(np.float32))
    optimiser = torch.optim.AdamW(network.parameters(), lr=3e-3, weight_decay=0.05)
    steps = 800
    schedule = torch.optim.lr_scheduler.CosineAnnealingLR(optimiser, steps)
    for step in range(steps):
        parts = [batch(rng, runs, 48, known, every.mean(0)) for runs, known in kinds]
        x, truth, length = (torch.cat([p[k] for p in parts]) for k in range(3))
        loss = torch.nn.functional.cross_entropy(totals(network, x, length), truth)
        optimiser.zero_grad()
        loss.backward()
        optimiser.step()
        schedule.step()
        if step % 250 == 249:
            print(step + 1, round(float(loss), 3), flush=True)
    write(network, out)
    for path in judged:
        if path != "-v":
            judge(network, path)


if __name__ == "__main__":
    main(*sys.argv[1:])
