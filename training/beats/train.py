"""Trains the beat network on music that it composes as it goes. Usage: train.py BANK OUT SECONDS [WORKERS] [BATCH] [SLOTS] [GPUS] [RESUME.pt] [RATE] [SEED]
Workers compose on the CPU and fill slots of shared memory; the trainer copies them to the GPU and draws each several times, every time in
another room. With several GPUs each has its own workers and draws, and gradients are averaged. Stops by the clock; keeps a checkpoint."""
import math
import mmap
import multiprocessing as mp
import os
import subprocess
import sys
import threading
import time
import traceback

os.environ.setdefault("OMP_NUM_THREADS", "1")
import numpy as np

SEED = int(sys.argv[10]) if len(sys.argv) > 10 else 20261125


def worker(number, workers, first, slots, sound_map, target_map, meta_map, counter, stop, bank):
    os.nice(5)
    from compose import FRAMES, SAMPLES, STYLES, compose, targets
    from mixer import Mixer
    sound = np.frombuffer(sound_map, np.int16).reshape(slots, SAMPLES)
    target = np.frombuffer(target_map, np.uint8).reshape(slots, FRAMES, 3)
    meta = np.frombuffer(meta_map, np.float32).reshape(slots, FRAMES + 4)
    names = [s["name"] for s in STYLES]
    mixer, mine, made, number_made = Mixer(bank), list(range(number, slots, workers)), 0, 0
    while not stop.value:
        try:
            rng = np.random.default_rng([SEED, first + number, number_made])
            track = compose(rng)
            wave = mixer.mix(track.notes)
            slot = mine[made % len(mine)]
            top = float(np.abs(wave).max())
            if len(track.beats) < 6 or top < 1e-4:
                made_ok = False
            else:
                made_ok = True
                sound[slot] = np.round(wave * (32000 / top)).astype(np.int16)
                target[slot] = targets(track)
                meta[slot, :4] = (track.meter, names.index(track.style), 0, 0)
                steps = np.diff(track.beats)
                middles = (track.beats[1:] + track.beats[:-1]) / 2
                local = np.interp(np.arange(FRAMES) / 50, middles, steps)
                smooth = np.convolve(np.pad(local, 100, mode="edge"), np.ones(201) / 201, "valid")
                meta[slot, 4:] = np.clip(20 * np.log2(60 / smooth / 32), 0, 63)
        except Exception:
            traceback.print_exc()
            made_ok = False
        number_made += 1
        if made_ok:
            counter[number] += 1
            made += 1


class Rooms:
    """Rooms, equalisers, noise and compression, on the GPU."""

    def __init__(self, torch, device, count=256, length=8192):
        generator = torch.Generator().manual_seed(SEED)
        time_axis = torch.arange(length) / 22050
        rooms = []
        for _ in range(count):
            u = torch.rand(4, generator=generator)
            decay = 0.08 + 0.9 * u[0] ** 2
            tail = torch.randn(length, generator=generator) * torch.exp(-6.9 * time_axis / decay)
            tail[: int(22050 * 0.002 * (1 + 8 * u[1]))] = 0
            tail = tail / (tail.pow(2).sum().sqrt() + 1e-9) * (u[2] * 0.9 if u[3] > 0.3 else 0)
            tail[0] = 1
            rooms.append(tail)
        self.rooms, self.torch, self.device = torch.stack(rooms).to(device), torch, device

    def __call__(self, sound):
        torch, size = self.torch, sound.shape[1]
        batch = len(sound)
        spectrum = torch.fft.rfft(sound, size) * torch.fft.rfft(self.rooms[torch.randint(len(self.rooms), (batch,), device=self.device)], size)
        curve = torch.randn(batch, 1, 12, device=self.device) * (torch.rand(batch, 1, 1, device=self.device) * 6)
        tilt = torch.linspace(-1, 1, 12, device=self.device) * torch.randn(batch, 1, 1, device=self.device) * 6
        octaves = (torch.log2(torch.linspace(0, 11025, size // 2 + 1, device=self.device) + 20) - math.log2(20)) / math.log2(11045 / 20)
        place = octaves * 11
        low = place.floor().clamp(0, 10).long()
        part = (place - low)[None]
        decibels = (curve + tilt)[:, 0]
        gain = 10 ** ((decibels[:, low] * (1 - part) + decibels[:, low + 1] * part) / 20)
        sound = torch.fft.irfft(spectrum * gain, size)
        sound = sound / (sound.pow(2).mean(1, keepdim=True).sqrt() + 1e-9)
        drive = torch.rand(batch, 1, device=self.device) * 1.5 + 0.3
        squeezed = torch.tanh(sound * drive) / drive
        sound = torch.where(torch.rand(batch, 1, device=self.device) < 0.3, squeezed, sound)
        noise = torch.randn_like(sound)
        noise = torch.where(torch.rand(batch, 1, device=self.device) < 0.5, noise, torch.nn.functional.avg_pool1d(noise[:, None], 9, 1, 4)[:, 0] * 3)
        return sound + noise * 10 ** (-(torch.rand(batch, 1, device=self.device) * 55 + 18) / 20)


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


def main():
    bank, out, limit = sys.argv[1], sys.argv[2], float(sys.argv[3])
    workers = int(sys.argv[4]) if len(sys.argv) > 4 else 15
    batch = int(sys.argv[5]) if len(sys.argv) > 5 else 64
    slots = int(sys.argv[6]) if len(sys.argv) > 6 else 12000
    world = int(sys.argv[7]) if len(sys.argv) > 7 else 1
    resume = sys.argv[8] if len(sys.argv) > 8 and sys.argv[8] != "none" else None
    top = float(sys.argv[9]) if len(sys.argv) > 9 else 2e-3
    began = time.time()
    rank = int(os.environ.get("RANK_OF_TRAINER", "0"))
    if rank == 0:
        for k in range(1, world):
            subprocess.Popen([sys.executable, *sys.argv], env={**os.environ, "RANK_OF_TRAINER": str(k)})
    from compose import FRAMES, SAMPLES, STYLES
    sound_map, target_map, meta_map = mmap.mmap(-1, slots * SAMPLES * 2), mmap.mmap(-1, slots * FRAMES * 3), mmap.mmap(-1, slots * (FRAMES + 4) * 4)
    counter, stop = mp.Array("l", workers, lock=False), mp.Value("b", 0, lock=False)
    crew = [mp.Process(target=worker, args=(k, workers, rank * workers, slots, sound_map, target_map, meta_map, counter, stop, bank), daemon=True) for k in range(workers)]
    for process in crew:
        process.start()
    import torch
    from features import Features
    from network import BeatNetwork, Exported
    torch.manual_seed(SEED)
    device = f"cuda:{rank}" if torch.cuda.is_available() else "cpu"
    if world > 1:
        torch.distributed.init_process_group("nccl" if device != "cpu" else "gloo", init_method="tcp://127.0.0.1:29517", world_size=world, rank=rank)
    if device != "cpu":
        torch.cuda.set_device(rank)
        torch.backends.cuda.matmul.allow_tf32 = torch.backends.cudnn.allow_tf32 = True
        torch.backends.cudnn.benchmark = True
    log = open(os.path.join(out, "train.log"), "a") if rank == 0 else None

    def say(*words):
        if rank:
            return
        line = f"{time.time() - began:6.1f} " + " ".join(str(w) for w in words)
        print(line, flush=True)
        log.write(line + "\n")
        log.flush()

    sound_host = np.frombuffer(sound_map, np.int16).reshape(slots, SAMPLES)
    target_host = np.frombuffer(target_map, np.uint8).reshape(slots, FRAMES, 3)
    meta_host = np.frombuffer(meta_map, np.float32).reshape(slots, FRAMES + 4)
    held = min(256, slots // 10)
    sound = torch.zeros((slots, SAMPLES), dtype=torch.int16, device=device)
    target = torch.zeros((slots, FRAMES, 3), dtype=torch.uint8, device=device)
    meta = torch.zeros((slots, FRAMES + 4), device=device)
    network = BeatNetwork().to(device)
    if device != "cpu":
        network = network.to(memory_format=torch.channels_last)
    if resume:
        network.load_state_dict(torch.load(resume, map_location=device))
    average = BeatNetwork().to(device)
    average = average.to(memory_format=torch.channels_last) if device != "cpu" else average
    average.load_state_dict(network.state_dict())
    for p in average.parameters():
        p.requires_grad_(False)
    features, rooms = Features().to(device), Rooms(torch, device)
    optimiser = torch.optim.AdamW(network.parameters(), lr=top, weight_decay=0.01)
    say(device, sum(p.numel() for p in network.parameters()), "parameters", "batch", batch, "slots", slots)
    seen, have, filled = [0] * workers, [], set()

    def gather():
        """Copies finished slots to the GPU, some at a time, in a thread of its own."""
        pinned = torch.zeros((16, SAMPLES), dtype=torch.int16, pin_memory=device != "cpu")
        while not stop.value:
            fresh = []
            for k in range(workers):
                while seen[k] < counter[k] and len(fresh) < 16:
                    slot = k + workers * (seen[k] % len(range(k, slots, workers)))
                    seen[k] += 1
                    if slot >= held or slot not in filled:
                        fresh.append(slot)
            if not fresh:
                time.sleep(0.02)
                continue
            for row, slot in enumerate(fresh):
                pinned[row].copy_(torch.from_numpy(sound_host[slot]))
            places = torch.tensor(fresh, device=device)
            sound[places] = pinned[:len(fresh)].to(device)
            target[places] = torch.from_numpy(target_host[fresh]).to(device)
            meta[places] = torch.from_numpy(meta_host[fresh]).to(device)
            if device != "cpu":
                torch.cuda.current_stream().synchronize()
            for slot in fresh:
                if slot not in filled:
                    filled.add(slot)
                    if slot >= held:
                        have.append(slot)

    def gathering():
        if device == "cpu":
            return gather()
        torch.cuda.set_device(rank)
        with torch.cuda.stream(torch.cuda.Stream()):
            gather()

    def forward(net, slot, augment):
        x = sound[slot].float() / 32768
        if augment:
            x = rooms(x)
        gain = torch.exp(torch.randn(len(x), 1, device=device) * 0.3) if augment else None
        f = features(x, gain)[:, :FRAMES]
        if device != "cpu":
            with torch.autocast("cuda", torch.bfloat16):
                a, b, c = net(f)
            return a.float(), b.float(), c.float()
        return net(f)

    tempo_axis = torch.arange(64, device=device)

    def loss_of(slot):
        pulse, meter, tempo = forward(network, slot, True)
        wanted = target[slot].float() / 255
        bce = torch.nn.functional.binary_cross_entropy_with_logits(pulse, wanted, pos_weight=torch.tensor([3.0, 6.0, 6.0], device=device), reduction="none").mean((0, 1))
        kind = meta[slot, 0].long()
        meter_loss = torch.nn.functional.cross_entropy(meter.flatten(0, 1), kind[:, None].expand(-1, FRAMES).flatten())
        true_tempo = torch.softmax(-0.5 * ((tempo_axis - meta[slot, 4:, None]) / 0.8) ** 2, 2)
        tempo_loss = -(true_tempo * torch.log_softmax(tempo, 2)).sum(2).mean()
        return bce[0] * 2 + bce[1] * 1.5 + bce[2] * 0.4 + meter_loss * 0.08 + tempo_loss * 0.06, bce.detach(), meter_loss.detach(), tempo_loss.detach()

    def validate():
        average.eval()
        rows, names = {}, [s["name"] for s in STYLES]
        ready = sorted(s for s in filled if s < held)
        with torch.no_grad():
            for k in range(0, len(ready), 32):
                part = ready[k:k + 32]
                pulse, meter, _ = forward(average, torch.tensor(part, device=device), False)
                beats = pulse.sigmoid().cpu().numpy()
                meters = meter.softmax(2).mean(1).argmax(1).cpu().numpy()
                truths, metas = target[part].float().cpu().numpy() / 255, meta[part, :2].cpu().numpy()
                for j, slot in enumerate(part):
                    truth = truths[j]
                    fb = f_measure(peaks(truth[:, 0], 0.7, 2), peaks(beats[j, :, 0]))
                    fd = f_measure(peaks(truth[:, 1], 0.7, 2), peaks(beats[j, :, 1]))
                    rows.setdefault(names[int(metas[j, 1])], []).append((fb, fd, float(meters[j] == metas[j, 0])))
        every = np.array([r for v in rows.values() for r in v])
        if len(every):
            say("validation", len(every), "beat", round(every[:, 0].mean(), 3), "downbeat", round(every[:, 1].mean(), 3), "meter", round(every[:, 2].mean(), 3), " ".join(f"{n}:{np.mean([r[0] for r in v]):.2f}" for n, v in sorted(rows.items())))

    def save(last=False):
        average.eval()
        torch.save(average.state_dict(), os.path.join(out, "beats.pt"))
        if last:
            copy = BeatNetwork()
            copy.load_state_dict({k: v.cpu() for k, v in average.state_dict().items()})
            copy.eval()
            extra = {"dynamo": False} if int(torch.__version__.split(".")[0]) >= 2 else {}
            torch.onnx.export(Exported(copy), torch.zeros(1, 500, 104), os.path.join(out, "beats.onnx"), input_names=["bands"], output_names=["pulse"], dynamic_axes={"bands": {1: "frames"}, "pulse": {1: "frames"}}, opset_version=17 if extra else 15, **extra)

    threading.Thread(target=gathering, daemon=True).start()
    while len(have) < min(8 * batch, slots // 4):
        time.sleep(0.1)
    say("first", len(have), "clips")
    torch.manual_seed(SEED + 1 + rank)
    parameters = list(network.parameters())
    floats = [(a, b) for (_, a), (_, b) in zip(average.state_dict().items(), network.state_dict().items()) if a.dtype.is_floating_point]
    averaged, current = [a for a, _ in floats], [b for _, b in floats]
    sizes = [p.numel() for p in parameters]
    step, checked, saved, done = 0, time.time(), time.time(), 0.0
    budget = limit - 15 if limit > 60 else limit
    training_from = time.time() - began
    while True:
        rate = top * min(1, (step + 1) / 200) * (0.5 * (1 + math.cos(math.pi * min(1, done))) * 0.985 + 0.015)
        for group in optimiser.param_groups:
            group["lr"] = rate
        network.train()
        slot = torch.tensor(np.array(have)[np.random.default_rng([SEED, rank, step]).integers(0, len(have), batch)], device=device)
        loss, bce, meter_loss, tempo_loss = loss_of(slot)
        optimiser.zero_grad()
        loss.backward()
        passed = (time.time() - began - training_from) / (budget - training_from)
        flat = torch.cat([*(p.grad.flatten() for p in parameters), torch.tensor([passed], device=device)]) / world
        if world > 1:
            torch.distributed.all_reduce(flat)
        for p, g in zip(parameters, flat[:-1].split(sizes)):
            p.grad.copy_(g.view_as(p))
        torch.nn.utils.clip_grad_norm_(parameters, 1.0)
        optimiser.step()
        with torch.no_grad():
            keep = min(0.999, 1 - 1 / (step + 2))
            torch._foreach_mul_(averaged, keep)
            torch._foreach_add_(averaged, current, alpha=1 - keep)
        step += 1
        if step % 5 == 0 or device == "cpu":
            done = float(flat[-1])
            if done >= 1:
                break
        if step % 100 == 0 or device == "cpu":
            say("step", step, "made", sum(counter), "loss", round(float(loss.detach()), 4), *[round(float(b), 4) for b in bce], round(float(meter_loss), 3), round(float(tempo_loss), 3))
        if rank == 0 and time.time() - checked > 75:
            validate()
            checked = time.time()
        if rank == 0 and time.time() - saved > 100:
            save()
            saved = time.time()
    if rank:
        stop.value = 1
        os._exit(0)
    stop.value = 1
    say("steps", step, "clips made", sum(counter), "drawn", step * batch * world)
    validate()
    save(last=True)
    say("done")
    os._exit(0)


if __name__ == "__main__":
    main()
