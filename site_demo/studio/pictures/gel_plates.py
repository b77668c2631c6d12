"""Joren Valkema's gel plate prints: the weeds of one dyke, layer over layer."""

import numpy as np

from ..cartoon import Cartoon, Motif
from ..hands.gel_plate import GelPlate
from ..line import ellipse
from ..motifs.creatures import bird
from ..motifs.growing import frond, ginkgo, oak_leaf, umbel
from ..sheet import UPRIGHT, WIDE, blurred, filled
from .grounds import ridge, tufts
from .picture import Picture


def laid(size, motif: Motif, *places) -> list:
    """A motif's pieces at several places: (x, y, scale, turn) each."""
    art = Cartoon(size, "#ffffff")
    for x, y, scale, turn in places:
        art.place(motif, x, y, scale, turn)
    return art.pieces


def split(pieces) -> tuple[list, list]:
    """The bodies of leaves and their veins."""
    return ([one for one in pieces if one.tint == "body"],
            [one for one in pieces if one.tint == "vein"])


def ginkgo_layers(seed: int):
    """Fan leaves in three layers: yellow, blue, and where they were not."""
    art = GelPlate(UPRIGHT, seed)
    plate = art.plate()
    art.pull("#e9c24a", plate, 0.95, "#e58a4a")
    body, vein = split(laid(UPRIGHT, ginkgo("body", "vein"), (190, 260, 1.3, -30),
                            (560, 200, 1.1, 24), (400, 560, 1.8, 8), (170, 780, 1.1, 60),
                            (610, 830, 1.25, -40)))
    stem = art.shapes(vein)
    art.pull("#2f6f86", plate * (1 - art.shapes(body)) * (1 - stem * 0.9), 0.88, "#1f3d63")
    body2, vein2 = split(laid(UPRIGHT, ginkgo("body", "vein"), (330, 380, 1.2, 160),
                              (620, 560, 0.9, 100)))
    art.ghost("#16283f", art.shapes(body2), art.shapes(vein2), 0.55)
    art.ghost("#8a4a2a", art.shapes(body), art.shapes(vein), 0.4)
    return np.clip(art.sheet, 0, 1)


def hogweed(seed: int):
    """Hogweed against a red evening."""
    art = GelPlate(UPRIGHT, seed)
    plate = art.plate()
    art.pull("#f0b35a", plate, 0.95, "#c8442f")
    sun = filled(UPRIGHT, ellipse(500, 300, 120, 120))
    art.pull("#d9402c", sun, 0.9)
    art.pull("#4a2747", plate * filled(UPRIGHT, ridge(UPRIGHT, 830, 30, 3, 2)), 0.85)
    heads = laid(UPRIGHT, umbel("body", "body"), (260, 380, 1.7, -6), (540, 560, 1.3, 9),
                 (130, 640, 0.9, -14), (400, 760, 0.8, 4))
    art.pull("#241a33", art.shapes(heads) * plate, 0.97)
    art.pull("#241a33", filled(UPRIGHT, *tufts((40, 940, 710, 1010), 60, 5, 190, 9)) * plate, 0.95)
    return np.clip(art.sheet, 0, 1)


def ferns_negative(seed: int):
    """Ferns that kept the green out."""
    art = GelPlate(UPRIGHT, seed)
    plate = art.plate()
    art.pull("#f3dfb0", plate, 0.9, "#f0b7a0")
    art.pull("#b9d2b0", plate * art.comb(34, 62, 0.4), 0.7)
    ferns = laid(UPRIGHT, frond("body"), (240, 560, 2.7, -10), (520, 640, 2.2, 16))
    art.pull("#245848", plate * (1 - art.shapes(ferns)), 0.9, "#12363c")
    art.ghost("#12363c", art.shapes(laid(UPRIGHT, frond("body", 11, 60), (600, 300, 1.3, 40))),
              None, 0.8)
    return np.clip(art.sheet, 0, 1)


def oak_ghosts(seed: int):
    """Oak leaves, then what the oak leaves left behind."""
    art = GelPlate(WIDE, seed)
    plate = art.plate()
    art.pull("#d9d2b4", plate, 0.95, "#b7c2a8")
    art.pull("#d98a3c", plate * art.comb(52, 12, 0.5), 0.75)
    where = ((220, 360, 2.3, -40), (560, 330, 2.6, 12), (850, 420, 2.2, 50))
    body, vein = split(laid(WIDE, oak_leaf("body", "vein"), *where))
    art.pull("#7a3524", art.shapes(body), 0.9, "#40221f")
    art.resist(art.shapes(vein), "#e7c58a", 0.85)
    body2, vein2 = split(laid(WIDE, oak_leaf("body", "vein"), (390, 500, 1.7, 120),
                              (720, 560, 1.5, -100), (960, 180, 1.3, 160), (90, 640, 1.3, 30)))
    art.ghost("#2f2a33", art.shapes(body2), art.shapes(vein2), 0.75)
    return np.clip(art.sheet, 0, 1)


def dyke_geese(seed: int):
    """Grass on the dyke, three birds resting, fog rolled on with a wet brayer."""
    art = GelPlate(WIDE, seed)
    plate = art.plate()
    art.pull("#c7d6d8", plate, 0.95, "#8fa9b4", 0)
    art.pull("#e8dfc4", plate * blurred(filled(WIDE, ellipse(760, 230, 90, 90)), 3), 0.95)
    for y, tint, seed_of in ((430, "#7f9a94", 4), (520, "#4f7068", 6), (600, "#2b4741", 9)):
        art.pull(tint, plate * filled(WIDE, ridge(WIDE, y, 24, seed_of, 2)), 0.88)
    birds = laid(WIDE, bird("body", "body", "body", "body"), (250, 500, 1.1, 0), (440, 520, 1.0, 0),
                 (620, 498, 1.05, 0))
    art.pull("#1b2a2c", art.shapes(birds) * plate, 0.96)
    grass = filled(WIDE, *tufts((30, 640, 1020, 730), 150, 3, 170, 7))
    art.pull("#10201f", grass * plate, 0.95)
    art.resist(filled(WIDE, *tufts((30, 690, 1020, 740), 60, 8, 150, 6)) * plate, "#c9b45c", 0.8)
    return np.clip(art.sheet, 0, 1)


PICTURES = {
    "birds-on-the-dyke": Picture(dyke_geese, wide=True),
    "ferns-left-out": Picture(ferns_negative),
    "ginkgo-three-layers": Picture(ginkgo_layers),
    "hogweed-evening": Picture(hogweed),
    "oak-ghosts": Picture(oak_ghosts, wide=True),
}
