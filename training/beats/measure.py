"""Beats by plain peak picking, with no decoder, and their F-measure (70 ms)."""
import numpy as np


def peaks(activation, threshold=0.3, reach=5):
    out = []
    for f in range(len(activation)):
        a = activation[f]
        if a > threshold and a == activation[max(0, f - reach):f + reach + 1].max():
            out.append(f / 50)
    return np.array(out)


def f_measure(truth, found):
    if not len(truth) or not len(found):
        return 0.0
    hits = sum(np.abs(truth - t).min() <= 0.07 for t in found)
    return 2 * min(hits, len(truth)) / (len(truth) + len(found))


def score(pulse, place, meter, truth):
    """One clip: F of beats and of downbeats, the share of frames at the right place of the bar, whether the meter is right."""
    wanted, places, kind = truth
    known = places >= 0
    return (f_measure(peaks(wanted[:, 0], 0.7, 2), peaks(pulse[:, 0])), f_measure(peaks(wanted[:, 1], 0.7, 2), peaks(pulse[:, 1])),
            float((place[known] == places[known]).mean()) if known.any() else 0.0, float(meter == kind))


def validate(torch, lesson, network, say):
    """Says how the network does on the clips that are held out, in all and by kind of music."""
    from compose import STYLES
    network.eval()
    names, rows = [s["name"] for s in STYLES], {}
    ready = sorted(s for s in lesson.clips.filled if s < lesson.clips.held)
    with torch.no_grad():
        for k in range(0, len(ready), 32):
            bands, wanted, kinds = lesson.draw(torch.tensor(ready[k:k + 32], device=lesson.device), False)
            out = lesson.hear(network, bands)
            pulse, place, meter = out["pulse"].sigmoid().cpu().numpy(), out["place"].argmax(2).cpu().numpy(), out["meter"].softmax(2).mean(1).argmax(1).cpu().numpy()
            truth, places, kinds = wanted[0].cpu().numpy(), wanted[2].cpu().numpy(), kinds.cpu().numpy()
            for j in range(len(kinds)):
                rows.setdefault(names[kinds[j, 1]], []).append(score(pulse[j], place[j], meter[j], (truth[j], places[j], kinds[j, 0])))
    every = np.array([r for v in rows.values() for r in v])
    if len(every):
        say("validation", len(every), *(f"{n} {x:.3f}" for n, x in zip(("beat", "downbeat", "place", "meter"), every.mean(0))), " ".join(f"{n}:{np.mean([r[0] for r in v]):.2f}" for n, v in sorted(rows.items())))
