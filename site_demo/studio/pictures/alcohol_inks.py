"""Farid Sulong's alcohol inks: what the ink did, and the few lines that made it something."""

import numpy as np

from ..hands.alcohol_ink import AlcoholInk
from ..line import blade, curve, ellipse, ribbon
from ..sheet import UPRIGHT, WIDE, filled
from .grounds import ridge, ripples, stars
from .picture import Picture


def jellyfish(seed: int):
    """Two jellyfish drifting up."""
    art = AlcoholInk(UPRIGHT, seed)
    art.pool("#7fc4d6", filled(UPRIGHT, ellipse(375, 560, 420, 560)), 0.7, 120, 4, 0.5)
    art.pool("#3a5fa8", filled(UPRIGHT, ellipse(640, 900, 260, 240)), 0.8, 90, 3)
    art.cleared([(560, 170, 26), (620, 240, 14), (90, 760, 30), (150, 840, 16), (660, 420, 12)])
    for x, y, s, tint in ((310, 330, 1.0, "#b8459a"), (560, 640, 0.55, "#7a4ab0")):
        bell = curve([(x - 170 * s, y + 60 * s), (x - 150 * s, y - 70 * s), (x, y - 150 * s),
                      (x + 150 * s, y - 70 * s), (x + 170 * s, y + 60 * s),
                      (x + 80 * s, y + 40 * s), (x, y + 66 * s), (x - 80 * s, y + 40 * s)], True)
        art.pool(tint, filled(UPRIGHT, bell), 0.95, 14 * s + 10, 3, 0.7)
        for k in range(7):
            root = x + (k - 3) * 42 * s
            line = curve([(root, y + 50 * s), (root + 30 * s, y + 190 * s),
                          (root - 26 * s, y + 330 * s), (root + 20 * s, y + 480 * s)])
            art.drawn(tint, ribbon(line, 6 * s + 1, (1, 0.2)), cover=0.6)
        art.thread("#f6e7b8", [ellipse(x, y - 30 * s, 110 * s - 24 * k, 84 * s - 20 * k, 0, 200, 340)
                               for k in range(3)], 3)
    return art.done()


def strait_storm(seed: int):
    """A storm over the strait and one white sail."""
    art = AlcoholInk(WIDE, seed)
    art.pool("#e8b45a", filled(WIDE, ellipse(700, 380, 420, 130)), 0.8, 80, 3, 0.4)
    art.pool("#4a5a86", filled(WIDE, ellipse(400, 120, 700, 210)), 1.1, 110, 5, 0.45)
    art.pool("#2a2f55", filled(WIDE, ellipse(200, 70, 360, 150)), 0.9, 90, 4, 0.5)
    art.pool("#1f7a86", filled(WIDE, ridge(WIDE, 510, 12, 3, 1)), 0.95, 40, 3, 0.35)
    art.pool("#14406a", filled(WIDE, ridge(WIDE, 640, 20, 6, 2)), 0.9, 60, 3, 0.4)
    art.thread("#f7f2e2", [curve([(x, 150), (x - 14, 300), (x - 40, 480)]) for x in
                           (120, 190, 250, 330, 410)], 2)
    art.drawn("#ffffff", [(760, 520), (760, 400), (824, 512)], [(748, 520), (748, 424), (706, 514)])
    art.drawn("#3a2a2a", curve([(694, 528), (840, 524), (812, 550), (722, 552)], True))
    art.drawn("#ffffff", *ripples((40, 560, 1010, 720), 16, 5, 150, 4), cover=0.7)
    return art.done()


def mangrove(seed: int):
    """Mangroves standing on their own reflections."""
    art = AlcoholInk(WIDE, seed)
    art.pool("#f2c06a", filled(WIDE, ellipse(540, 330, 620, 240)), 0.7, 120, 4, 0.5)
    art.pool("#3f8a5a", filled(WIDE, *[ellipse(x, y, w, h) for x, y, w, h in
                                       ((160, 170, 190, 110), (460, 130, 210, 100),
                                        (800, 180, 220, 120))]), 1.0, 60, 4, 0.5)
    art.pool("#2f6a78", filled(WIDE, ridge(WIDE, 520, 8, 4, 1)), 0.8, 60, 4, 0.5)
    for x in (170, 300, 470, 640, 830):
        roots = [curve([(x, 330), (x + dx * 0.5, 400), (x + dx, 530)]) for dx in
                 (-90, -54, -20, 22, 60, 96)]
        art.thread("#2a2420", [curve([(x + 6, 120), (x - 4, 240), (x, 340)]), *roots], 7)
        art.thread("#2a3a40", [np.stack([r[:, 0], 1060 - r[:, 1]], 1) for r in roots], 3)
    art.drawn("#f6e3b0", *ripples((40, 540, 1010, 720), 24, 9, 130, 4), cover=0.7)
    return art.done()


def coral_garden(seed: int):
    """Coral, with fish drawn in gold pen."""
    art = AlcoholInk(UPRIGHT, seed)
    art.pool("#4fb0b8", filled(UPRIGHT, ellipse(375, 300, 460, 360)), 0.75, 110, 4, 0.45)
    rng = np.random.default_rng(5)
    for tint, x, y in (("#e85a4a", 200, 820), ("#f0953f", 470, 880), ("#b84a8a", 620, 760),
                       ("#e8b83f", 330, 950), ("#d83f5f", 90, 960)):
        art.blots(tint, [(x + rng.normal(0, 60), y - abs(rng.normal(0, 110)), rng.uniform(22, 62))
                         for _ in range(9)], 0.85, 30)
    art.cleared([(x, y, r) for x, y, r in ((220, 760, 24), (510, 800, 20), (610, 700, 16),
                                           (360, 880, 18), (150, 880, 14))])
    for x, y, s in ((260, 320, 1.0), (480, 230, 0.7), (560, 450, 0.85), (180, 500, 0.6)):
        body = curve([(x - 70 * s, y), (x - 10 * s, y - 34 * s), (x + 70 * s, y - 4 * s),
                      (x - 10 * s, y + 34 * s)], True)
        art.thread("#b58a2a", [np.vstack([body, body[:1]]),
                               np.array([(x - 66 * s, y), (x - 110 * s, y - 34 * s),
                                         (x - 104 * s, y + 34 * s), (x - 66 * s, y)]),
                               *[ellipse(x - 34 * s + 26 * s * k, y, 12 * s, 20 * s, 0, -70, 70)
                                 for k in range(3)]], 4)
        art.drawn("#3a2a12", ellipse(x + 44 * s, y - 6 * s, 5, 5))
    return art.done()


def orchids(seed: int):
    """A spray of orchids, dropped rather than painted."""
    art = AlcoholInk(UPRIGHT, seed)
    art.pool("#d9e6c8", filled(UPRIGHT, ellipse(420, 560, 330, 460)), 0.5, 120, 3, 0.5)
    stem = curve([(160, 1040), (240, 760), (360, 480), (560, 250), (700, 210)])
    for x, y, s in ((250, 700, 1.1), (390, 500, 1.25), (470, 760, 0.8), (540, 320, 1.0),
                    (230, 440, 0.7), (660, 480, 0.75)):
        petals = [ellipse(x + 66 * s * np.cos(a), y + 66 * s * np.sin(a), 58 * s, 34 * s,
                          np.degrees(a)) for a in np.radians((-90, -18, 54, 126, 198))]
        for petal in petals:
            art.pool("#c04a9a", filled(UPRIGHT, petal), 0.7, 18, 2, 0.75)
        art.blots("#e8b02f", [(x, y, 20 * s)], 1.0, 10)
        art.drawn("#7a1f4a", *[ellipse(x + 14 * s * np.cos(a), y + 14 * s * np.sin(a), 3, 3)
                               for a in np.arange(0, 6, 1.2)])
    art.drawn("#4a6a3a", ribbon(stem, 9, (1, 0.4)), cover=0.8)
    art.drawn("#4f7f4a", blade((170, 1000), (420, 1010), 60, 20), blade((180, 980), (60, 780), 54),
              cover=0.75)
    return art.done()


def dust_cloud(seed: int):
    """A cloud in the sky at night, farther than any night goes."""
    art = AlcoholInk(UPRIGHT, seed)
    art.pool("#23245a", filled(UPRIGHT, ellipse(375, 525, 460, 620)), 1.5, 60, 2, 0.15)
    art.pool("#7a2f86", filled(UPRIGHT, ellipse(260, 640, 260, 200, -30)), 0.7, 110, 4, 0.4)
    art.pool("#1a1a3a", filled(UPRIGHT, ellipse(560, 230, 260, 200)), 0.9, 90, 3, 0.3)
    art.cleared([(300, 560, 70), (410, 480, 44), (220, 700, 36), (490, 620, 30), (350, 690, 24)],
                0.55)
    art.blots("#e87a5a", [(310, 560, 46), (420, 490, 26)], 0.6, 30)
    art.drawn("#ffffff", *stars((20, 20, 730, 1030), 170, 6, 5))
    art.thread("#f6e7b8", [ellipse(560, 800, 84, 26, -20, 160, 380)], 4)
    art.drawn("#f0c88a", ellipse(560, 800, 44, 44))
    return art.done()


PICTURES = {
    "coral-garden": Picture(coral_garden),
    "dust-cloud": Picture(dust_cloud),
    "jellyfish": Picture(jellyfish),
    "mangroves": Picture(mangrove, wide=True),
    "orchids-dropped": Picture(orchids),
    "storm-over-the-strait": Picture(strait_storm, wide=True),
}
