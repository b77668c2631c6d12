"""The one card of the starter board."""

import numpy as np

from ..grain import cloud
from ..hands.ink_pen import penned
from ..hands.tones import Study
from ..line import blade, box, curve, ellipse, ribbon
from ..sheet import UPRIGHT, blurred, colour, filled, glazed, ramp
from .picture import Picture


def jar_of_brushes(seed: int):
    """A jam jar of brushes and pencils, a blank card leaning against it."""
    study = Study(UPRIGHT)
    rng = np.random.default_rng(seed)
    wall = ramp(UPRIGHT, 0.05, 0.36) + 0.05 * cloud(UPRIGHT, 260, rng, 3)
    study.put(filled(UPRIGHT, box(34, 34, 716, 800)), wall)
    study.put(blurred(filled(UPRIGHT, ellipse(350, 380, 240, 300)), 80), 0.04)
    study.shape([(34, 800), (716, 800), (716, 880), (34, 880)], 0.12, 2.4)
    study.shape([(34, 880), (716, 880), (716, 1016), (34, 1016)], 0.78, 2.4)
    study.shade(blurred(filled(UPRIGHT, ellipse(480, 836, 190, 22)), 7), 0.5)
    red = brushes(study)
    jar(study)
    study.shape([(470, 640), (606, 660), (584, 848), (448, 828)], 0.0, 3.0)
    study.shade(filled(UPRIGHT, [(606, 660), (640, 700), (612, 848), (584, 848)]), 0.5)
    study.line(np.vstack([box(34, 34, 716, 1016), [(34, 34)]]), 2.4)
    art = penned(study, seed, "#23262e")
    return glazed(art, colour("#d8432f"), blurred(red, 0.8) * 0.95)


def brushes(study: Study):
    """What stands in the jar; returns the mask of the one brush that is coloured."""
    for foot, tip, wide, tone in (((300, 700), (190, 250), 15, 0.3), ((330, 700), (300, 190), 18,
                                                                      0.1),
                                  ((390, 700), (470, 220), 15, 0.5), ((420, 700), (560, 320), 18,
                                                                      0.2)):
        foot, tip = np.array(foot, float), np.array(tip, float)
        study.shape(ribbon(np.linspace(foot, tip, 12), wide), tone, 2.2)
        hair = tip + (tip - foot) * 0.2
        study.shape(ribbon(np.linspace(tip - (tip - foot) * 0.1, tip, 6), wide + 6), 0.55, 2.0)
        study.shape(blade(tip, hair, wide * 2.1, 4), 0.82, 2.2)
    shaft = ribbon(curve([(360, 700), (372, 420), (392, 150)]), np.linspace(20, 15, len(
        curve([(360, 700), (372, 420), (392, 150)]))))
    study.shape(shaft, 0.0, 2.4)
    study.shape([(382, 156), (402, 156), (396, 96)], 0.0, 2.2)
    study.shape([(391, 118), (399, 118), (396, 92)], 0.95, 1.2)
    above = ramp(UPRIGHT, 1, 0) * 0 + (np.mgrid[0:1050, 0:750][0] < 520)
    return filled(UPRIGHT, shaft) * above.astype(np.float32)


def jar(study: Study) -> None:
    """The glass: rim, shoulders, water line, the shafts seen through it, two lights."""
    body = curve([(236, 540), (238, 580), (222, 620), (220, 800), (236, 836), (360, 846), (484,
                                                                                           836),
                  (500, 800), (498, 620), (482, 580), (484, 540)], step=5)
    study.shape(body, 0.13, 3.0)
    for foot, top in (((310, 800), (286, 600)), ((352, 806), (358, 600)), ((402, 800), (424, 600))):
        study.shape(ribbon(np.linspace(foot, top, 8), 17), 0.42, 1.5)
    water = box(222, 690, 498, 832)
    study.shade(filled(UPRIGHT, water), 0.16)
    study.line(ellipse(360, 690, 138, 15), 1.8)
    study.shape(ellipse(360, 540, 125, 24), 0.08, 2.6)
    study.shape(box(234, 540, 486, 560), 0.3, 1.6)
    study.shade(filled(UPRIGHT, ribbon(np.array([(252, 620), (250, 800)], float), 20)), -0.6)
    study.shade(filled(UPRIGHT, ribbon(np.array([(474, 630), (474, 760)], float), 26)), 0.4)


PICTURES = {"first-card": Picture(jar_of_brushes)}
