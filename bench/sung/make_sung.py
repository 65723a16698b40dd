#!/usr/bin/env python3
"""Makes sung tunes with a known truth, for measuring: each becomes NAME.wav and NAME.jams for `./harkbook eval FOLDER`.

    python3 make_sung.py FOLDER --count 12 --seed 1 [--voices kal,ked,lp,pc]

The voices are people's: Festival's diphone voices (Debian festival, festvox-kallpc16k, festvox-kdlpc16k, festvox-italp16k,
festvox-itapc16k) put recorded speech together in its singing mode. Tunes and words are invented here. What a singer adds is laid on
by changing the sound's pace from moment to moment, truth and all: notes a little sharp or flat, begun from below, held with vibrato.
A note begins where its vowel does (Sundberg and Bauer-Huppmann, "When does a sung tone start?", Journal of Voice 21, 2007), or, on a
syllable held over several notes, halfway between two pitches. Only Python's own library is needed.
"""
import argparse, array, json, math, random, subprocess, tempfile, wave
from bisect import bisect_right
from pathlib import Path

WORDS = {'english': ('low tide may wander river stone when morning comes along the harbour wall no letter home my window light away '
                     'so far we sing again').split(),
         'italian': 'mare luna vento sera vela notte porto fiume dove canto mano solo remo lume'.split()}
SYLLABLES = {'wander': 2, 'river': 2, 'morning': 2, 'along': 2, 'harbour': 2, 'letter': 2, 'window': 2, 'away': 2, 'again': 2}
VOWELS = set('aa ae ah ao aw ax ay eh er ey ih iy ow oy uh uw a e i o u a1 e1 i1 o1 u1 E O E1 O1'.split())
VOICES = {'kal': (45, 62, 'english'), 'ked': (43, 60, 'english'), 'pc': (45, 62, 'italian'), 'lp': (55, 72, 'italian')}
SCALES = [(0, 2, 4, 5, 7, 9, 11), (0, 2, 3, 5, 7, 8, 10), (0, 3, 5, 7, 10), (0, 2, 4, 7, 9), (0, 2, 4, 5, 7, 9, 10)]


def tune(rng, lowest, highest, language, seconds):
    """Lines of words: (word, [[(midi, seconds), ... a note of a syllable] a syllable]), or a rest in seconds."""
    scale, tonic = rng.choice(SCALES), rng.randrange(12)
    pitches = [m for m in range(lowest, highest + 1) if (m - tonic) % 12 in scale]
    at, beat, sung, out = rng.randrange(len(pitches) // 3, 2 * len(pitches) // 3), rng.uniform(.4, .8), 0, []
    while sung < seconds:
        for _ in range(rng.randint(4, 8)):
            word, syllables = rng.choice(WORDS[language]), []
            for _ in range(2 if language == 'italian' else SYLLABLES.get(word, 1)):
                notes = []
                for _ in range(2 if rng.random() < .15 else 1):
                    steps = [s for s in (-3, -2, -1, 0, 1, 2, 3) if 0 <= at + s < len(pitches) and (s or not notes)]
                    at += rng.choices(steps, [(5, 7, 3, 1)[abs(s)] for s in steps])[0]
                    notes.append((pitches[at], beat * rng.choices((.5, 1, 1.5, 2), (6, 6, 1, 2))[0]))
                sung += sum(d for _, d in notes)
                syllables.append(notes)
            out.append((word, syllables))
        rest = rng.uniform(.4, 1.2)
        sung += rest
        out.append(rest)
    return out


def sing(lines, voice, folder):
    """Samples at 16 kHz and the phones with their ends."""
    rows = ['<?xml version="1.0"?>', '<!DOCTYPE SINGING PUBLIC "-//SINGING//DTD SINGING mark up//EN" "Singing.v0_1.dtd" []>', '<SINGING BPM="60">']
    for line in lines:
        if isinstance(line, float):
            rows.append(f'<REST SECONDS="{line:.3f}"></REST>')
        else:
            word, syllables = line
            pitch = ','.join('+'.join(f'{440 * 2 ** ((m - 69) / 12):.3f}' for m, _ in s) for s in syllables)
            length = ','.join('+'.join(f'{d:.3f}' for _, d in s) for s in syllables)
            rows.append(f'<PITCH FREQ="{pitch}"><DURATION SECONDS="{length}">{word}</DURATION></PITCH>')
    (folder / 'song.xml').write_text('\n'.join(rows + ['</SINGING>']))
    (folder / 'song.scm').write_text(f'''(voice_{voice}_diphone)
(set! tts_hooks (list utt.synth (lambda (utt) (utt.save.segs utt "{folder}/song.seg") (utt.save.wave utt "{folder}/song.wav" 'riff) utt)))
(tts_file "{folder}/song.xml" 'singing)''')
    subprocess.run(['festival', '-b', str(folder / 'song.scm')], check=True, stderr=subprocess.DEVNULL)
    with wave.open(str(folder / 'song.wav')) as file:
        samples = array.array('h', file.readframes(file.getnframes()))
    segments = [line.split() for line in (folder / 'song.seg').read_text().splitlines() if len(line.split()) == 3]
    return samples, [(float(end), phone) for end, _, phone in segments]


def truth(lines, phones):
    """(midi, onset, end) of every note: a vowel's start, and on it further pitches in proportion. Phones of two vowels are one."""
    vowels, before, pause = [], 0, True
    for end, phone in phones:
        if phone in VOWELS:
            if vowels and vowels[-1][1] == before and not pause:
                vowels[-1][1] = end
            else:
                vowels.append([before, end])
            pause = False
        elif phone in ('pau', '#'):
            pause = True
        before = end
    syllables = [s for line in lines if not isinstance(line, float) for s in line[1]]
    if len(vowels) != len(syllables):
        return None
    notes = []
    for (start, end), parts in zip(vowels, syllables):
        whole = sum(d for _, d in parts)
        for midi, length in parts:
            stop = start + (end - start) * length / whole
            notes.append((midi, start, stop))
            start, end, whole = stop, end, whole - length
    return notes


def humanize(samples, notes, rng, rate=16000):
    """The same sound at a pace that bends its pitch; the notes at their new times with their new pitches."""
    tuned = [(rng.gauss(0, 12), rng.random() < .35, rng.uniform(60, 180), rng.uniform(.06, .14), rng.uniform(4.8, 6.2), rng.uniform(20, 55),
              rng.random() < .6) for _ in notes]
    onsets = [n[1] for n in notes]
    out, place, moved, now = array.array('h'), 0.0, [], 0
    spans = [[None, None] for _ in notes]
    while place < len(samples) - 3:
        t = place / rate
        i, cents = bisect_right(onsets, t) - 1, 0.0
        if i >= 0 and t < notes[i][2] + .05:
            off, scoop, depth, length, speed, wide, sways = tuned[i]
            since = t - onsets[i]
            cents = off - (depth * (1 - since / length) if scoop and since < length else 0)
            if sways and since > .3:
                cents += wide * min(1, (since - .3) / .3) * math.sin(2 * math.pi * speed * since)
            if spans[i][0] is None:
                spans[i][0] = len(out) / rate
            if t <= notes[i][2]:
                spans[i][1] = len(out) / rate
        k, f = int(place), place - int(place)
        a, b, c, d = samples[k - 1] if k else 0, samples[k], samples[k + 1], samples[k + 2]
        value = b + .5 * f * (c - a + f * (2 * a - 5 * b + 4 * c - d + f * (3 * (b - c) + d - a)))
        out.append(max(-32768, min(32767, round(value))))
        place += 2 ** (cents / 1200)
    return out, [(midi + t[0] / 100, *span) for (midi, _, _), t, span in zip(notes, tuned, spans)]


def jams(title, length, notes):
    part = {'namespace': 'note_midi', 'annotation_metadata': {'data_source': 'program'}, 'sandbox': {'instrument': 'voice'}, 'time': 0, 'duration': length,
            'data': [{'time': round(on, 4), 'duration': round(end - on, 4), 'value': round(midi, 3), 'confidence': 1} for midi, on, end in notes]}
    metadata = {'title': title, 'artist': '', 'release': '', 'duration': length, 'identifiers': {}, 'jams_version': '0.3.4'}
    return {'annotations': [part], 'file_metadata': metadata, 'sandbox': {'second_instruments': ['voice']}}


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument('folder', type=Path)
    parser.add_argument('--count', type=int, default=12)
    parser.add_argument('--seed', type=int, default=1)
    parser.add_argument('--voices', default='kal,ked,lp,pc')
    args = parser.parse_args()
    args.folder.mkdir(parents=True, exist_ok=True)
    voices, made, tried = args.voices.split(','), 0, 0
    while made < args.count:
        rng, tried = random.Random(args.seed * 1000 + tried), tried + 1
        voice = voices[made % len(voices)]
        with tempfile.TemporaryDirectory() as scratch:
            lines = tune(rng, *VOICES[voice], 25)
            samples, phones = sing(lines, voice, Path(scratch))
            notes = truth(lines, phones)
        if notes is None:
            continue  # the voice speaks a word otherwise than it is written here
        samples, notes = humanize(samples, notes, rng)
        loudest = max(1, max(map(abs, samples)))
        sound = array.array('h', (max(-32768, min(32767, round(s * 20000 / loudest + rng.gauss(0, 12)))) for s in samples))
        name = f'sung-{args.seed}-{made:02}-{voice}'
        with wave.open(str(args.folder / f'{name}.wav'), 'wb') as file:
            file.setnchannels(1), file.setsampwidth(2), file.setframerate(16000), file.writeframes(sound.tobytes())
        (args.folder / f'{name}.jams').write_text(json.dumps(jams(name, len(sound) / 16000, notes), indent=1))
        made += 1
        print(name, len(notes), 'notes')


main()
