"""What a player of the rows needs to know of them; no torch here, so that worker processes stay small."""
import numpy as np

FALLS = (8, 16, 24, 32, 40)  # decibels under a note's own loudest moment


class Facts:
    def __init__(self, pitch, onset, falls, instruments):
        self.pitch, self.onset, self.falls, self.instruments = pitch, onset, falls, instruments

    def row(self, layers, layer, pitch):
        """The nearest row of the layer (or of any that the instrument has)."""
        pitches, rows = layers.get(layer) or layers.get("hard") or next(iter(layers.values()))
        at = np.searchsorted(pitches, pitch)
        if at == len(pitches) or (at > 0 and pitch - pitches[at - 1] < pitches[at] - pitch):
            at -= 1
        return int(rows[at])

    def audible(self, row, gain):
        """Samples (at the row's own speed) until the note has fallen 32 dB, or to 46 dB under a note of gain 1."""
        fall = min(32.0, max(8.0, 46 + 20 * np.log10(max(gain, 1e-4))))
        return float(np.interp(fall, FALLS, self.falls[row]))
