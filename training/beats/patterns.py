"""Rhythms as grids, one character a cell, | between bars; and rhythms thrown by chance with a feeling for the beat."""
import numpy as np

# D down stroke, d soft down, U up, x choked stroke, b bass, f the bass's fifth, B bass with chord, p pinched chord, c short pinched chord,
# a slow roll, P root and fifth, m damped root, w walking bass, 1-4 single treble strings
STRUM = {
    "eighths": ["D.DU.UDU", "D.DUD.DU", "DUDUDUDU", "D...D.DU", "D.D.D.D.", "D.DU.U.U", "D..U.UDU", "D.DDU.DU", "DDDDDDDD", "D..D..D.", "D...D...", "D.......", "D.xU.UxU", "D.x.D.xU", "DUxUDUxU", "D..UxU.U"],
    "sixteenths": ["D...D.D...D.D.DU", "D.DU..DUD.DU..DU", "D..UD.DUD..UD.DU", "D.dUx.dUD.dUx.dU", "D.DUDUDU.UDUDUDU", "D..D..D.D..D..D.", "D...x..U.UD.x.DU", "D.......D.....DU", "DUDUDUDUDUDUDUDU", "D.d.D.dUD.d.D.dU"],
    "funk": ["x.xxD.xxx.xUx.xx", "D.x.xxUx.xUx.x.x", "xxDxxxDxxUxxDxxx", "..D...D...D..UD.", "D..x.UxU.x.Ux.Dx", "x.D.x.D.x.D.x.DU", "DU.x.UDx.U.xDUxx", "....x..D....x..D|....x.D.....xUD."],
    "bossa": ["B..p..p.|b.p.b.p.", "B..pb.p.|.pb..pb.", "p..p..p.|..p.p...", "b.pp.bp.|bp.pb.p.", "B.p.bp.p|.pb.p.bp", "p.p..p..|p..p.p..", ".p.p.p..|p.p..p.p", "B..p.pb.|.p..B..p", "bp.pbp.p", "b.p..p.p|.p.pb.p."],
    "samba": ["B.p.bpp.b.ppb.p.", "p.pp.p.p.pp.pp.p", ".pp.p.p.p.pp.p.p", "b..pb.p.b.p.b.pp", "B.ppb.pp|bp.pb.pp"],
    "skank": ["..p...p.", ".p.p.p.p", "..pU..pU", "..p...p.|..pp..p.", ".x.p.x.p", "....p.......p...", "..p...p...p...p."],
    "charleston": ["p..p....", "p..p..p.", ".p...p..", "...p...p", "p.....p.|.p..p...", "..p..p..", ".p.p....", "p...p...", "p.p.p.p.", "..p....p|.....p..", "p..p....|.p..p..p"],
    "plain": ["D.D.D.D.", "D.d.D.d.", "p.p.p.p.", "D.d.d.d.", "B.p.p.p.", "DUDUDUDU", "D.DUD.DU", "b.b.b.b.", "D.D.D.DU", "b.1.2.1.", "b1b1b1b1", "D.d.D.dU"],
    "quarters": ["p.p.p.p.", "d.D.d.D.", "D.D.D.D.", "d.xUd.xU"],
    "boom": ["b.D.f.D.", "b.DUf.DU", "B.D.F.D.", "b.D.f.DU", "b.dUfUdU", "b.D.b.D.", "b1D2f1D2", "b...D...f...D.DU", "b.D.f.Df"],
    "boom2": ["b.D.", "bDfD", "b.DUf.DU", "b.D.f.D.", "bUDUfUDU"],
    "pick4": ["b213f213", "b.23f.23", "b2312312", "b.2.f.3.", "b312b312", "b2f1b2f1", "b.1.f23.", "b13b13b1", "b2132132", "B..2f.12", "b.21f.21", "b...2.1.3...2.1.", "b321f321b321f321", "b.2.f23.b.12f.3.", "b2f3b1f2b2f3b1f2", "B.2.f.1.b.2.f123"],
    "waltz": ["b.D.D.", "b.DUDU", "D.D.D.", "D.DUDU", "b.p.p.", "D.....", "b.p...", "D...D.", "b2.3.2", "b23123", "b.2.1.", "D.D.DU", "b..p.p", "p..p..", ".p..p.", "b...p.|b.p.p.", "b.1.2.|f.1.2."],
    "jig": ["D.UD.U", "D..D.U", "DUDUDU", "D..D..", "b.Df.D", "b23b23", "b21f21", "B.pb.p", "D.UDUD", "b12312", "D.....", "b.2.3."],
    "shuffle": ["D..D..D..D..", "D.UD.UD.UD.U", "D.UD..D.UD.U", "x.UD.Ux.UD.U", "b..D..f..D..", "..UD....UD..", "D..D.UD..D.U", "b.bf.fb.bf.f"],
    "march": ["b.D.", "D.D.", "bpfp", "D.DU", "D.DUDUDU", "B.p.f.p."],
    "clock12": ["D.....D.U.D.", "b23123f23123", "b12312b12312", "D..D.UD..D.U", "DUDUDUDUDUDU", "D..D..D..D.."],
    "jazzcomp": ["p.p.p.p.", "p.p.p.pp", "c.c.c.c.", "p..c....", "p..p..c.", "p...c..c", "c..c.c..", "..c...c.", "p.....c.|c..c....", "p..c..p.|..c..c..", "wpw.w.wp", "w.wpw.w.", "wcw.wcw.", "B.p.B.p.", "p.pcp.pc", "p...p..c|p..cp...", "c...c.c.", ".c..p...|p..c...c", "w.w.w.wc", "p.......|..c.c...", "B..p..p.|p..p.c..", "pcp.pcp.", "1.2.p..c", "p.1.2.1.", "p.12p.1."],
    "funkcomp": ["DxxxDxxxDxxxDxxx", "DxxUxxDxxUxxDxUx", "D.xxDUxxD.xUxUxx", "DUxxDUxxDUxxDUxx", "D.xUx.D.x.DUx.xx", "DxxUDxxxDxxUxxDU", "D...x.xUD...x.xU", "xxDUxxDUxxDUxxDU", "D..U..D.x.xUx.x.", "DxDxxUxUDxDxxUxU", "D.D.x.UxD.D.x.Ux", "c..c..c...c.c...", "bxcxb.cxb.cxbxcx", "b..cb.xcb..cb.xc", "D.xxUxD.xxUxD.xx", "1.2.D.x.1.2.DUx.", "D.......x.xUx.DU", "DxUx.xUxDxUx.xDU", "b.1.D.x2b.1.D.xU"],
    "rockcomp": ["PPPPPPPP", "PmmmPmmm", "PmPmPmPm", "P.PP.PP.", "P...P...", "P..P..P.", "PmmPmmPm", "P.......", "P.mmP.mm", "PP.PP.P.", "D.DU.UDU", "D.D.DUDU", "DDDDDDDD", "P...P.PP", "PmPP.mPm", "P.m.P.m.P.m.P.mm", "PmmmmmPmmmPmPmPm", "D.x.D.xU", "P.P.m.P.", "b1b2b1b2", "mmPmmmPm", "P..PP..P", "PxPxPxPx", "1.2.1.3.1.2.1.3."],
    "chug": ["PmmmPmmmPmmmPmmm", "PmmPmmPmmmPmmmPm", "PmPmmmPmPmPmmmPm", "P.mmP.mmP.mmP.mm", "PmmPmmPmmPmmPmPm", "P..PmmP.mmP.mmmm", "PPmPPmPPPPmPPmPP", "P.PmP.PmP.PmP.Pm", "PmmmmmmmPmmmmmPP", "D.DUDUDUD.DUDUDU", "P..P..P...P.P...", "P.......PmmPmmPm", "PmmmPmmmPmmmPPPP|PmmPmmPmmmmmPmmm"],
    "sscomp": ["D.D.D.DUDUD.D.DU", "D...D.DU..DUD.DU", "D.DUD.DUD.DUD.DU", "b...D...b...D.DU", "b.1.2.1.b.1.2.1.", "b.2.1.2.f.2.1.2.", "b13213b1", "b.D.bUDU", "b3213231", "b12b12b1", "B.1.2.1.", "B.2.3.2.1.2.", "D.xUD.xU", "B...2.1.p...2.1.", "b.p.f.p.", "bDfDbDfD", "D...D.DUx.DUD.DU", "b..1..2.b..1..2.", "a...1.2.", "a.......", "a...a...", "b1f1b2f2", "b.D.x.DU", "b.12f.21", "b2132132b2132132", "D.......D.D.D.DU", "b...x.1.b.2.x.1."],
}
# k kick, s snare, h closed hat, o open hat, r ride, c clap, t toms, g shaker or brush sweep, w wood or cowbell, q conga, l rim
DRUMS = {
    "rock": [dict(k="x...x...", s="..x...x.", h="xxxxxxxx"), dict(k="x....x..", s="..x...x.", h="xxxxxxxx"), dict(k="x..xx...", s="..x...x.", h="xxxxxxxx"), dict(k="x.x.x.x.", s="..x...x.", h="x.x.x.x."), dict(k="x...xx..", s="..x...x.", r="xxxxxxxx"), dict(k="xx..xx..", s="..x...x.", h="x.x.x.x."), dict(k="x..x.x..", s="..x...x.", o="x.x.x.x."), dict(k="x.....x.|x..x....", s="..x...x.", h="xxxxxxxx"), dict(k="x...x...", s="..xx..x.", h="x.x.x.x.")],
    "sixteen": [dict(k="x.....x...x.....", s="....x.......x...", h="xxxxxxxxxxxxxxxx"), dict(k="x..x......x.....", s="....x..x.x..x...", h="x.x.x.x.x.x.x.x."), dict(k="x.x.......x..x..", s="....x.......x..x", h="x.xxx.xxx.xxx.xx"), dict(k="x......xx.x.....", s="....x.......x...", h="x.x.x.x.x.x.x.x."), dict(k="x...........x.x.", s="........x.......", h="x.x.x.x.x.x.x.x."), dict(k="x..x..x.....x...", s="....x.......x...", g="xxxxxxxxxxxxxxxx"), dict(k="x.x...x..xx.....", s="....x..x....x..x", h="xxxxxxxxxxxxxxxx")],
    "chug": [dict(k="x.....x.x.x.....", s="....x.......x...", h="x.x.x.x.x.x.x.x."), dict(k="x..x..x...x..x..", s="....x.......x...", h="xxxxxxxxxxxxxxxx"), dict(k="x.xxx.xxx.xxx.xx", s="....x.......x...", r="x...x...x...x..."), dict(k="xxxxxxxxxxxxxxxx", s="....x.......x...", o="x...x...x...x..."), dict(k="x..x..x..x..x.x.", s="....x.......x..x", h="x.x.x.x.x.x.x.x."), dict(k="x......xxx......|x.....xx..x..x..", s="....x.......x...", o="x.x.x.x.x.x.x.x."), dict(k="xx....xx........", s="....x.......x...", r="x.x.x.x.x.x.x.x.")],
    "floor": [dict(k="x.x.x.x.", s="..x...x.", o=".x.x.x.x"), dict(k="x.x.x.x.", c="..x...x.", h="xxxxxxxx"), dict(k="x.x.x.x.", o=".x.x.x.x"), dict(k="x.x.x.x.", h=".x.x.x.x", w="x..x..x."), dict(k="x...x...x...x...", c="....x.......x...", h="..x...x...x...x.", g="xxxxxxxxxxxxxxxx"), dict(k="x...x...x...x..x", s="....x..x....x...", o="..x...x...x...x.")],
    "breakbeat": [dict(k="x.x.......xx....", s="....x..x.x..x..x", h="x.x.x.x.x.x.x.x."), dict(k="x.x.......x.....", s="....x.......x...", h="x.x.x.x.x.x.x.x."), dict(k="x.........x.....|x.x.......x.....", s="....x..x.x..x...", r="x.x.x.x.x.x.x.x.")],
    "reggae": [dict(k="....x...", l="....x...", h="x.xxx.xx"), dict(k="x...x...", s="....x...", h="xxxxxxxx"), dict(k="x.x.x.x.", l="....x...", h="x.x.x.x."), dict(k="....x.......x...", l="....x.......x...", h="x.x.x.xxx.x.x.x.")],
    "bossa": [dict(k="x..xx..x", l="x..x..x.|..x.x...", h="xxxxxxxx"), dict(k="x..xx..x", l="..x..x..|x..x..x.", g="xxxxxxxx"), dict(k="x...x...", l="x..x..x.|..x..x..", r="x.x.x.x.")],
    "samba": [dict(k="x..xx..xx..xx..x", s="x.x.xx.x.x.x.xx.", g="xxxxxxxxxxxxxxxx"), dict(k="....x.......x...", t="....x.......x..x", g="xxxxxxxxxxxxxxxx", w="x.x.x..x.x.xx.x."), dict(k="x..xx..x", s="xxxxxxxx", q="..x...xx"), dict(t="....x.......x...", s="x..x..x.x..x..x.", g="x.xxx.xxx.xxx.xx")],
    "latin": [dict(w="x.x.x.x.", q="..x...xx", g="xxxxxxxx"), dict(w="x..x..x...x.x...", q="....x.xx....x.xx", k="...x..x....x..x."), dict(l="x..x..x...x.x...", w="x.x.x.xx.xx.x.xx", q="..x...xx..x...xx"), dict(w="x.x.x.x.", q="x.xxx.xx", k="x...x..."), dict(q="xxxxxxxx", w="x...x...", g="x.xxx.xx"), dict(k="x...x...", l="..x...x.|..x.x...", h="x.x.x.x.", q="......xx")],
    "swing": [dict(r="x..x.xx..x.x", h="...x.....x.."), dict(r="x..x.xx..x.x", k="x..x..x..x..", h="...x.....x.."), dict(g="x..x..x..x..", h="...x.....x..", s=".....x......"), dict(k="x.....x.....", s="...x.....x..", r="x..x.xx..x.x"), dict(r="x.xx.xx.xx.x", s="...x.....x.."), dict(k="x..x..x..x..", s="...x.....x.x", h="x.xx.xx.xx.x")],
    "shuffle": [dict(k="x.....x.....", s="...x.....x..", h="x.xx.xx.xx.x"), dict(k="x....xx.....", s="...x.....x..", h="xxxxxxxxxxxx"), dict(k="x..x..x..x..", s="...x.....x..", r="x.xx.xx.xx.x")],
    "train": [dict(k="x.x.x.x.", s=".xXx.xXx"), dict(k="x...x...", s="xxXxxxXx"), dict(k="x.x.x.x.", s="..x...x.", g="xxxxxxxx"), dict(k="x...x...x...x...", s="xxXxxxXxxxXxxxXx"), dict(k="x...x...", l="..x...x.", h="x.x.x.x.")],
    "waltz": [dict(k="x.....", s="..x.x.", h="x.x.x."), dict(k="x.....", h="..x.x."), dict(k="x.....", s="....x.", h="xxxxxx"), dict(k="x.....", g="..x.x.", r="x.x.x."), dict(k="x..x..", s="..x.x.", r="x.xxx.")],
    "six": [dict(k="x.....", s="...x..", h="xxxxxx"), dict(k="x....x", s="...x..", h="x.xx.x"), dict(k="x..x..", s="..x..x", h="x.xx.x"), dict(k="x..x..", t="x.xx.x"), dict(k="x.....", s="...x..", r="xxxxxx")],
    "march": [dict(k="x...", s="..x."), dict(k="x.x.", s="xxxxxxxx"), dict(k="x...", s=".x.x"), dict(k="x...x...", s="..x...xx"), dict(k="x.x.", s=".x.x", h="xxxx")],
    "plain": [dict(w="x.x.x.x."), dict(k="x.x.x.x."), dict(c="x.x.x.x."), dict(l="x.x.x.x."), dict(w="X...x...x...x...", h="x...x...x...x..."), dict(k="x...x...", s="..x...x."), dict(h="x.x.x.x."), dict(g="xxxxxxxx", k="x.......")],
    "plain3": [dict(w="x.x.x."), dict(k="x.....", h="..x.x."), dict(l="x.x.x."), dict(k="x.x.x.")],
    "tango": [dict(k="x.x.x.x.", s="......xx"), dict(s="x..xx.x.", k="x...x..."), dict(l="x.x.x.xx")],
    "house": [dict(k="x.x.x.x.", o=".x.x.x.x", c="..x...x."), dict(k="x...x...x...x...", h="..x...x...x...x.", c="....x.......x...", g="x.xxx.xxx.xxx.xx"), dict(k="x...x...x...x.x.", o="..x...x...x...x.", l="...x..x....x..x."), dict(k="x...x...x...x...", h="xxxxxxxxxxxxxxxx", c="....x.......x..."), dict(k="x.x.x.x.", r=".x.x.x.x")],
    "swung16": [dict(k="x.....xx..x.....", s="....x.......x...", h="xxxxxxxxxxxxxxxx"), dict(k="x..x...x..x.....", s="....x..x....x..x", h="x.xxx.xxx.xxx.xx"), dict(k="x......x..xx...x", s="....x.......x...", r="x.xxx.xxx.xxx.xx"), dict(k="x.....x.x.......", s="....x.......x..x", h="x.x.x.xxx.x.x.xx"), dict(k="x..x....x..x....", s="....x.......x...", h="xxxxxxxxxxxxxxxx")],
    "half3": [dict(k="x.....x..x..", s="......x.....", h="x.xx.xx.xx.x"), dict(k="x....xx.....", s="......x.....", h="xxxxxxxxxxxx")],
    "half": [dict(k="x.......", s="....x...", h="xxxxxxxx"), dict(k="x..x....", s="....x...", h="x.x.x.x."), dict(k="x.....x.", s="....x...", h="xxxxxxxx"), dict(k="x..........x....", s="........x.......", h="x.x.x.x.x.x.xxx."), dict(k="x..x....", s="....x..x", r="x.x.x.x.")],
}
# r root, f fifth, o octave, t third, a approach, w walking tone
BASS = {
    "roots": ["r.......", "r...r...", "r.r.r.r.", "rrrrrrrr", "r..r....", "r...f...", "r..rr...", "r.....rr", "r..r.r..", "r...r.ra", "r..r..r.", "r.......|r.....ra"],
    "chug": ["rrrrrrrrrrrrrrrr", "r..r..r...r..r..", "r.rrr.rrr.rrr.rr", "r.....r.r.r.....", "r..r..r..r..r.r.", "r.r.r.r.r.r.r.ra", "r...r...r...r.oa", "r..rr.....r.r..."],
    "two": ["r...f...", "r...f..a", "r.r.f.f.", "r..rf..f", "r...r..."],
    "bossa": ["r..ff..r", "r..rf..f", "r..ff..a", "r...f...", "r..f....", "r..rf..."],
    "funk": ["r..r..o...r.f.a.", "r.....r..ro...fa", "r..rr.....o.r...", "rr...r..o.r..f..", "r...o..r..r.f..a", "r.r...r..o....ra", "r...............|..r.r.o...r...fa"],
    "house": [".r.r.r.r", "..r...r...r...r.", ".rr.rr.r", "r.r.r.r.", "r..r..r.", "r.r.r.o."],
    "swung16": ["r......r..r.....", "r..r...o..r.f..a", "r.....rr.......a", "r...r..rr...f..a", "r.......r..r...."],
    "walk": ["w.w.w.w.", "w.w.w.w.", "w.wwww.w", "w...w..."],
    "walk3": ["w..w..w..w..", "w..w.ww..w..", "w.....w....."],
    "reggae": ["r...r.f.", "r.rf..f.", "..r.r.f.", "r.......r..rf.o.", "....r.f.|r...r.o.", ".rr.f.r."],
    "tumbao": ["...f..o.", "r..f..o.", "...f..r.", "r..f..r."],
    "samba": ["r..ff..rr..ff..r", "r..rf..fr..rf..f", "r..ff..r"],
    "waltz": ["r.....", "r...f.", "r.r.r.", "r.....|f.....", "r....a", "w.w.w.", "r.f.f."],
    "six": ["r..f..", "r..r..", "r.rr.r", "r.....", "r..f.a", "r....a"],
    "shuffle": ["r..r..f..f..", "r.rr.rf.ff.f", "r.....f.....", "w..w..w..w..", "r..t..f..t.."],
    "march": ["r.f.", "r.r.", "r...", "r.fa"],
    "tango": ["r.r.f.r.", "r..rf.r.", "r...f.fa", "r.f.r.f."],
}


def cells(text, beats):
    """(bars, [(bar, place in beats, symbol, cell length)])"""
    bars = text.split("|")
    out = []
    for b, bar in enumerate(bars):
        step = beats / len(bar)
        out += [(b, k * step, c, step) for k, c in enumerate(bar) if c != "."]
    return len(bars), out


def weight(cell, per_beat, beats):
    """How strong a cell of the bar is: 4 the downbeat, 3 half the bar, 2 a beat, 1 half a beat, 0 the rest."""
    if cell == 0:
        return 4.0
    if cell % per_beat == 0:
        return 3.0 if beats == 4 and cell == 2 * per_beat else 2.0
    if per_beat % 2 == 0 and cell % (per_beat // 2) == 0:
        return 1.0
    return 0.7 if per_beat == 3 else 0.0


def thrown(rng, beats, per_beat, density, obey, symbols="DdUx", bars=1):
    """A rhythm thrown by chance; obey > 0 prefers strong places, < 0 weak ones."""
    count = beats * per_beat
    strength = np.array([weight(k, per_beat, beats) for k in range(count)])
    chance = np.exp(obey * (strength - strength.mean()))
    chance = np.clip(density * chance / chance.mean(), 0, 0.97)
    rows = []
    for _ in range(bars):
        hit = rng.random(count) < chance
        if not hit.any():
            hit[int(rng.integers(count))] = True
        rows.append("".join(symbols[int(rng.integers(len(symbols)))] if h else "." for h in hit))
    return "|".join(rows)


def melody_rhythm(rng, beats, per_beat):
    """One bar of a tune: the places of its notes."""
    return thrown(rng, beats, per_beat, rng.uniform(0.25, 0.7) * (2 / per_beat if per_beat > 2 else 1), rng.uniform(-0.1, 0.9), "m")


def grounded(text, beats):
    """The share of a rhythm's strokes that fall on beats."""
    row = cells(text, beats)[1]
    on = [abs(at - round(at)) < 0.01 for _, at, symbol, _ in row if symbol != "x"]
    return sum(on) / max(1, len(on))


def mutated(rng, text, symbols, chance=0.15):
    """A bar like another: a stroke more, fewer or elsewhere."""
    row = list(text)
    for k in range(len(row)):
        if row[k] not in ".|" and rng.random() < chance * 0.6:
            row[k] = "."
        elif row[k] == "." and rng.random() < chance * 0.4:
            row[k] = symbols[int(rng.integers(len(symbols)))]
    return "".join(row)


THUMBS = {4: ["b...b...", "b...f...", "b.b.b.b.", "b.f.b.f.", "b..bf..f", "b...f..b", "b...b..b", "b......."], 3: ["b.....", "b.b.b.", "b...f.", "b.f.f."], 2: ["b.b.", "b.f.", "b...", "b..f"]}
CHORDS = {4: [".p.p.p.p", "..p...p.", "..p..p..", "p..p..p.", "...p...p", ".p..p..p", "p..p...p", "..p..p.p", ".pp..pp.", "p...p..p", "..pp..pp", "...p..p.", ".p.pp.p.", "p.p..p.p", "..p....p|.p..p..."], 3: ["..p.p.", "...p.p", ".p.p.p", "..p..p", "p..p.p"], 2: [".p.p", "..p.", "...p", ".pp.", "p..p"]}


def thumbed(rng, beats):
    """A rhythm for a thumb that keeps to the beat and fingers that needn't."""
    low, high = (rows[beats][int(rng.integers(len(rows[beats])))] for rows in (THUMBS, CHORDS))
    if rng.random() < 0.3:
        high = "|".join(mutated(rng, bar, "p", 0.3) for bar in high.split("|"))
    return "|".join("".join("B" if a == "b" and b == "p" else b if b != "." else a for a, b in zip(low, bar)) for bar in high.split("|"))


def anticipated(rng, text, beats, chance):
    """Strokes of the fingers that fell on a beat come a cell early."""
    row = list(text)
    for k in range(len(row)):
        if row[k] in "pcD" and k and (k * beats % len(row)) == 0 and row[k - 1] == "." and rng.random() < chance:
            row[k - 1], row[k] = row[k], "."
    return "".join(row)
