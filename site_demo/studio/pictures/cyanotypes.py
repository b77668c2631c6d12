"""Adjoa Merrin's cyanotypes: what lay on the sheet while the sun shone."""

import numpy as np

from ..cartoon import Cartoon, Motif
from ..hands.cyanotype import Cyanotype
from ..line import ellipse, ribbon
from ..motifs.creatures import fish
from ..motifs.growing import frond, seaweed, seed_head
from ..motifs.things import feather, key, scissors
from ..sheet import UPRIGHT, WIDE, blurred, filled
from .picture import Picture


def laid(size, motif: Motif, *places) -> list:
    """A motif's pieces at several places: (x, y, scale, turn) each."""
    art = Cartoon(size, "#ffffff")
    for x, y, scale, turn in places:
        art.place(motif, x, y, scale, turn)
    return art.pieces


def seaweeds(seed: int):
    """Two forked weeds from the lagoon."""
    art = Cyanotype(UPRIGHT, seed)
    art.lay(laid(UPRIGHT, seaweed("x", 5), (300, 560, 2.3, -8)), 0.93, 1.4)
    art.lay(laid(UPRIGHT, seaweed("x", 11), (540, 720, 1.5, 14)), 0.55, 3.0)
    art.lay(laid(UPRIGHT, seaweed("x", 23), (190, 800, 0.9, -26)), 0.8, 1.6)
    return art.washed()


def clocks(seed: int):
    """Dandelion clocks, seeds already leaving."""
    art = Cyanotype(UPRIGHT, seed)
    art.lay(laid(UPRIGHT, seed_head("x", "x"), (290, 420, 2.3, -4), (560, 620, 1.5, 8)), 0.92, 0.9)
    rng = np.random.default_rng(6)
    for x, y in rng.uniform((380, 110), (690, 400), (9, 2)):
        turn = rng.uniform(-0.6, 0.6)
        tip = np.array([np.sin(turn), -np.cos(turn)]) * 52
        hairs = [ribbon([(x, y) + tip, (x, y) + tip + (26 * np.sin(turn + a),
                                                       -26 * np.cos(turn + a))], 2)
                 for a in (-0.9, -0.45, 0, 0.45, 0.9)]
        seedlet = filled(UPRIGHT, ribbon([(x, y), (x, y) + tip], 2.2), *hairs,
                         ribbon([(x, y), (x, y) - tip * 0.3], 6, (0.4, 0.3)))
        art.veil(blurred(seedlet, 0.8), 0.9)
    return art.washed()


def sewing_box(seed: int):
    """Scissors, two keys, buttons, and a length of lace."""
    art = Cyanotype(WIDE, seed)
    art.lay(laid(WIDE, scissors("x", "x"), (240, 400, 1.7, 34)), 0.97, 0.8)
    art.lay(laid(WIDE, key("x"), (580, 230, 1.5, -70), (600, 450, 1.2, -104)), 0.97, 0.8)
    for x, y, r in ((800, 240, 46), (880, 350, 34), (780, 380, 28), (470, 560, 36)):
        art.veil(blurred(filled(WIDE, ellipse(x, y, r, r)), 1.0), 0.93)
        hole = r * 0.11
        art.light += filled(WIDE, *[ellipse(x + dx * r * 0.24, y + dy * r * 0.24, hole, hole)
                                    for dx in (-1, 1) for dy in (-1, 1)])
    lace = [ribbon(ellipse(90 + 62 * k, 650, 34, 40, 0, 180, 360), 6) for k in range(16)]
    lace += [ellipse(90 + 62 * k, 640, 9, 9) for k in range(16)]
    lace += [ribbon(ellipse(121 + 62 * k, 676, 16, 16), 4) for k in range(15)]
    art.veil(blurred(filled(WIDE, *lace, ribbon([(50, 656), (1010, 656)], 7)), 0.9), 0.85)
    art.light = np.clip(art.light, 0, 1)
    return art.washed()


def fern_shadow(seed: int):
    """A fern that moved when the wind came."""
    art = Cyanotype(UPRIGHT, seed)
    art.lay(laid(UPRIGHT, frond("x", 13, 92), (370, 540, 2.9, 4)), 0.9, 1.2, double=17)
    art.lay(laid(UPRIGHT, frond("x", 12, 60), (190, 780, 1.4, -38)), 0.5, 3.4)
    return art.washed()


def paper_fish(seed: int):
    """Three paper fish and the net that did not hold them."""
    art = Cyanotype(WIDE, seed)
    y, x = np.mgrid[0:750, 0:1050].astype(np.float32)
    bend = 16 * np.sin(x / 130) + 10 * np.sin(y / 90)
    mesh = np.minimum(np.abs((x + y + bend) % 78 - 39), np.abs((x - y + bend) % 78 - 39))
    art.veil(np.clip(2.6 - mesh, 0, 1), 0.6)
    for px, py, s, turn, seen in ((370, 250, 1.9, -8, 0.96), (690, 430, 1.6, 6, 0.93),
                                  (300, 560, 1.2, -4, 0.6)):
        pieces = laid(WIDE, fish("body", "fin", "scale", "belly"), (px, py, s, turn))
        solid = [one for one in pieces if one.tint in ("body", "fin", "belly")]
        art.lay([one for one in solid if one.tint != "fin"], seen, 1.0 + 3 * (seen < 0.7))
        art.lay([one for one in solid if one.tint == "fin"], seen * 0.62, 1.2)
        art.light += 0.75 * seen * filled(WIDE, *[outline for one in pieces for outline in
                                                  one.outlines if one.tint in ("scale", "#15171c")])
    art.light = np.clip(art.light, 0, 1)
    return art.washed()


def three_feathers(seed: int):
    """Three feathers, one on top of another."""
    art = Cyanotype(UPRIGHT, seed)
    for x, y, s, turn, dense in ((250, 520, 2.3, -16, 0.6), (420, 500, 2.6, 5, 0.7),
                                 (560, 560, 1.9, 26, 0.55)):
        pieces = laid(UPRIGHT, feather("vane", "quill"), (x, y, s, turn))
        art.lay([one for one in pieces if one.tint == "vane"], dense, 1.4)
        art.lay([one for one in pieces if one.tint == "quill"], 0.9, 0.8)
    return art.washed()


PICTURES = {
    "clocks": Picture(clocks),
    "fern-in-wind": Picture(fern_shadow),
    "lagoon-weed": Picture(seaweeds),
    "paper-fish": Picture(paper_fish, wide=True),
    "sewing-box": Picture(sewing_box, wide=True),
    "three-feathers": Picture(three_feathers),
}
