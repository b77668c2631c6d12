"""Farid Sulong's alcohol inks: what the ink did, and the few lines that made it something."""

import numpy as np

from ..hands.alcohol_ink import AlcoholInk
from ..line import blade, box, curve, ellipse, ribbon
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
        rings = [ellipse(x, y - 30 * s, 110 * s - 24 * k, 84 * s - 20 * k, 0, 200, 340)
                 for k in range(3)]
        art.thread("#f6e7b8", rings, 3)
    return art.done()


def strait_storm(seed: int):
    """A storm over the strait and one white sail."""
    art = AlcoholInk(WIDE, seed)
    art.pool("#c3ccd0", filled(WIDE, box(-200, -200, 1250, 950)), 0.9, 120, 3, 0.3)
    art.pool("#e8a83f", filled(WIDE, ellipse(720, 380, 460, 90)), 0.8, 60, 3, 0.35)
    art.pool("#4a5a86", filled(WIDE, ellipse(440, 90, 720, 130)), 1.1, 70, 5, 0.45)
    art.pool("#2a2f55", filled(WIDE, ellipse(180, 60, 380, 120)), 0.9, 60, 4, 0.5)
    art.pool("#1f7a86", filled(WIDE, ridge(WIDE, 510, 12, 3, 1)), 0.95, 40, 3, 0.35)
    art.pool("#14406a", filled(WIDE, ridge(WIDE, 640, 20, 6, 2)), 0.9, 60, 3, 0.4)
    art.thread("#3a4a72", [curve([(x, 190), (x - 14, 310), (x - 44, 490)]) for x in
                           range(60, 470, 34)], 2)
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
    rng = np.random.default_rng(4)
    for x, lean, high in ((150, 20, 330), (330, -26, 370), (520, 14, 320), (690, -10, 360),
                          (880, 30, 330)):
        roots = []
        for side in (-1, 1):
            for k in range(4):
                top, foot = high - 46 + 30 * k, (40 + 40 * k + rng.uniform(-14, 14)) * side
                roots.append(curve([(x, top), (x + foot * 0.5, top + 26), (x + foot * 0.92, 470),
                                    (x + foot, 532 + rng.uniform(-8, 8))]))
        art.thread("#4d7f88", [np.stack([r[:, 0] + 5 * np.sin(r[:, 1] / 9),
                                         536 + (536 - r[:, 1]) * 0.6], 1) for r in roots], 5)
        art.thread("#2a2420", [curve([(x + lean, 60), (x + lean * 0.4, 220), (x, high)])], 15)
        art.thread("#2a2420", roots, 6)
    art.drawn("#f6e3b0", *ripples((40, 540, 1010, 720), 24, 9, 130, 4), cover=0.7)
    return art.done()


def coral_garden(seed: int):
    """Coral, with fish drawn in gold pen."""
    art = AlcoholInk(UPRIGHT, seed)
    art.pool("#4fb0b8", filled(UPRIGHT, ellipse(375, 300, 460, 360)), 0.75, 110, 4, 0.45)
    rng = np.random.default_rng(5)
    for tint, x, y in (("#e85a4a", 200, 820), ("#f0953f", 470, 880), ("#b84a8a", 620, 760),
                       ("#e8b83f", 330, 950), ("#d83f5f", 90, 960)):
        art.blots(tint, [(x + rng.normal(0, 60), y - abs(rng.normal(0, 110)), rng.uniform(34, 84))
                         for _ in range(10)], 0.85, 26)
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
    heart = ellipse(350, 560, 300, 190, -34)
    art.pool("#8fa3d8", filled(UPRIGHT, box(-200, -200, 950, 1250)), 0.9, 120, 3, 0.3)
    art.pool("#e07aa0", filled(UPRIGHT, heart), 0.9, 110, 4, 0.35)
    art.pool("#f0a04a", filled(UPRIGHT, ellipse(320, 590, 150, 90, -34)), 0.9, 60, 3, 0.4)
    far = 1 - filled(UPRIGHT, ellipse(350, 560, 350, 230, -34))
    art.pool("#3a2f7a", far, 0.9, 90, 4, 0.15)
    art.pool("#141640", 1 - filled(UPRIGHT, ellipse(350, 560, 450, 330, -34)), 1.2, 60, 2, 0.1)
    art.cleared([(430, 480, 30), (250, 660, 22), (370, 640, 15)], 0.4)
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
