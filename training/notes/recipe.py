"""The parts of the recipe that can be left out, by name, to learn what each is worth (ablation.py)."""

PARTS = {
    "rooms": "rooms, strings that sound in sympathy",
    "colour": "equalisers, low cuts, dull recordings",
    "wear": "noise, hum, overdrive, compression, clipping, lossy coding",
    "drift": "clips off pitch, strings out of tune, plucks that start sharp, a tape's waver",
    "company": "other instruments and drums",
    "formulas": "plucked strings from formulas",
    "fonts": "guitars of a font",
    "ornaments": "hammer-ons, slides, bends, vibrato, harmonics, dead strokes, knocks, squeaks, ghosts",
}


def parts(names):
    """The named parts as a set; a name that isn't one is an error."""
    unknown = set(names) - set(PARTS)
    if unknown:
        raise ValueError(f"no part of the recipe: {', '.join(sorted(unknown))}; the parts are {', '.join(PARTS)}")
    return frozenset(names)
