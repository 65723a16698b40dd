"""What the network is to say of a clip, from the times of its beats and changes: on the GPU, for a window that starts anywhere, at any speed."""
import torch

RATE = 50
PHASES = 12


def bells(times, frames):
    """(batch, events) in seconds to (batch, frames): bell-shaped about each time."""
    at = torch.arange(frames, device=times.device)
    nearest = torch.full((len(times), frames), 1e6, device=times.device)
    for part in times.split(16, 1):
        nearest = torch.minimum(nearest, (at[None, None] - part[:, :, None] * RATE).abs().amin(1))
    return torch.exp(-0.5 * (nearest / 0.8) ** 2) * (nearest < 3)


def labels(beats, places, changes, start, speed, frames):
    """
    Everything by frame: pulse (batch, frames, 3) of beat, downbeat and change; tempo's place in the list of tempi; place in the bar (0 to 8, -1 unknown);
    phase in the beat (0 to 11, -1 unknown). The window's time t is the clip's start + t * speed.
    """
    beats, changes = ((t - start[:, None]) / speed[:, None] for t in (beats, changes))
    down = torch.where((places == 0) | (places == 2) | (places == 5), beats, torch.full_like(beats, 1e6))
    pulse = torch.stack([bells(t, frames) for t in (beats, down, changes)], 2)
    time = (torch.arange(frames, device=beats.device) / RATE)[None].expand(len(beats), -1).contiguous()
    last = beats.shape[1] - 1
    after = torch.searchsorted(beats.contiguous(), time, right=True)
    before = (after - 1).clamp(0, last)
    count = (beats < 1e5).sum(1, keepdim=True)
    inside = (after > 0) & (after < count)
    safe = before.clamp(min=0).minimum((count - 2).clamp(min=0))
    from_beat, to_beat = beats.gather(1, safe), beats.gather(1, safe + 1)
    step = (to_beat - from_beat).clamp(0.1, 4)
    local = torch.nn.functional.avg_pool1d(torch.nn.functional.pad(step[:, None], (100, 100), mode="replicate"), 201, 1)[:, 0]
    tempo = (20 * torch.log2(60 / local / 32)).clamp(0, 63)
    place = torch.where(inside, places.long().gather(1, before), -1)
    phase = torch.where(inside, ((time - from_beat) / step * PHASES).long().clamp(0, PHASES - 1), -1)
    return pulse, tempo, place, phase
