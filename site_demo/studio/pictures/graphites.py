"""Halvard Myrtun's graphite drawings."""

import numpy as np

from ..grain import cloud
from ..hands.graphite import pencilled
from ..hands.tones import Study
from ..line import curve, ellipse, ribbon
from ..sheet import UPRIGHT, WIDE, blurred, filled, ramp
from .picture import Picture

FORE = [(378, 430), (420, 380), (520, 318), (640, 268), (694, 262), (690, 300), (664, 372),
        (620, 452), (556, 520), (470, 548), (396, 540)]
HIND = [(396, 530), (470, 540), (560, 520), (604, 548), (596, 620), (540, 690), (470, 706),
        (414, 660), (386, 590)]


def mirrored(points) -> np.ndarray:
    """The same outline on the other side of the moth."""
    return np.asarray(points, float) * [-1, 1] + [750, 0]


def moth(seed: int):
    """A hawk moth, wings open, pinned by nothing but a label."""
    study = Study(UPRIGHT)
    rng = np.random.default_rng(seed)
    shadow = filled(UPRIGHT, curve(FORE, True) + (16, 26), curve(mirrored(FORE), True) + (16, 26))
    under = filled(UPRIGHT, curve(HIND, True) + (16, 26), curve(mirrored(HIND), True) + (16, 26))
    study.put(blurred(np.maximum(shadow, under), 15), 0.24, 58)
    for flip in (lambda p: np.asarray(p, float), mirrored):
        slope = -24 if flip is mirrored else 24
        hind_wing(study, flip, slope)
        fore_wing(study, flip, -slope, rng)
    moth_body(study)
    study.line(np.array([(250, 872), (500, 872)], float), 1.6)
    for x, word in ((262, 58), (334, 92), (440, 50)):
        steps = np.arange(0, word, 1.6)
        study.line(np.stack([x + steps, 860 + 6 * np.sin(steps / 2.3) * np.cos(steps / 9)], 1), 1.5)
    return pencilled(study, seed)


def hind_wing(study: Study, flip, angle: float) -> None:
    """Pale, with two dark bands and an eye."""
    outline = flip(curve(HIND, True))
    mask = study.shape(outline, 0.30, 2.2, angle)
    for points, wide in (([(402, 610), (470, 640), (560, 600), (606, 570)], 26),
                         ([(420, 660), (480, 690), (560, 660), (600, 610)], 16)):
        study.shade(blurred(filled(UPRIGHT, ribbon(flip(curve(points)), wide)), 3) * mask, 0.44)
    study.shade(blurred(filled(UPRIGHT, flip(ellipse(452, 590, 60, 40))), 20) * mask, 0.28)
    eye = flip(ellipse(520, 588, 25, 23))
    study.shape(eye, 0.12, 2.0, angle)
    study.shape(flip(ellipse(520, 588, 13, 12)), 0.94, 1.2, angle)
    study.shape(flip(ellipse(515, 583, 4, 4)), 0.0, 0, angle)
    for end in ((590, 560), (592, 610), (556, 664), (498, 694)):
        study.line(flip(curve([(400, 552), ((400 + end[0]) / 2, (556 + end[1]) / 2 + 8), end])),
                   1.1)


def fore_wing(study: Study, flip, angle: float, rng) -> None:
    """Mottled like bark, scalloped bands, dark towards the tip."""
    mask = study.shape(flip(curve(FORE, True)), 0.46, 2.8, angle)
    study.shade(mask, 0.09 * cloud(UPRIGHT, 36, rng, 4))
    for points, wide, dark in (([(452, 366), (470, 450), (452, 546)], 24, 0.34),
                               ([(540, 312), (552, 400), (530, 528)], 34, 0.4),
                               ([(604, 288), (612, 370), (584, 486)], 12, -0.3),
                               ([(640, 276), (640, 350), (614, 440)], 20, 0.36),
                               ([(496, 338), (506, 430), (492, 536)], 10, -0.26)):
        line = curve(points)
        line[:, 0] += 5 * np.sin(np.arange(len(line)) / 3.2)
        study.shade(blurred(filled(UPRIGHT, ribbon(flip(line), wide)), 2.5) * mask, dark)
    study.shade(blurred(filled(UPRIGHT, flip(ellipse(690, 290, 60, 40))), 14) * mask, 0.3)
    study.shape(flip(ellipse(510, 392, 13, 9, -30)), 0.02, 1.6, angle)
    for end in ((684, 268), (672, 340), (636, 420), (580, 494), (500, 540)):
        study.line(flip(curve([(390, 466), ((390 + end[0]) / 2, (456 + end[1]) / 2), end])), 1.2)


def moth_body(study: Study) -> None:
    """Furred thorax, banded abdomen, feathered feelers."""
    study.shape(curve([(350, 520), (344, 600), (352, 690), (375, 760), (398, 690), (406, 600),
                       (400, 520)], True), 0.5, 2.4, 0)
    for y in range(556, 740, 28):
        half = 28 - max(0, y - 620) * 0.19
        band = ribbon(curve([(375 - half, y - 4), (375, y + 5), (375 + half, y - 4)]), 11)
        study.shade(blurred(filled(UPRIGHT, band), 1.6), 0.4)
    study.shape(curve([(336, 420), (332, 480), (348, 540), (375, 556), (402, 540), (418, 480),
                       (414, 420), (375, 392)], True), 0.62, 2.0, 80)
    study.shade(blurred(filled(UPRIGHT, ellipse(375, 460, 14, 60)), 8), -0.34)
    study.shape(ellipse(375, 388, 30, 24), 0.55, 2.0, 80)
    for x in (352, 398):
        study.shape(ellipse(x, 380, 9, 10), 0.95, 1.4)
    for turn in np.linspace(0, np.pi, 26):
        x, y = 375 + 40 * np.cos(turn), 470 - 66 * np.sin(turn)
        study.line(np.array([(x, y), (375 + 54 * np.cos(turn), 470 - 84 * np.sin(turn))]), 1.0)
    for flip in (lambda p: np.asarray(p, float), mirrored):
        feeler = flip(curve([(384, 368), (416, 316), (470, 280), (508, 276)]))
        study.line(feeler, 3.2)
        for point in feeler[4:-2:3]:
            study.line(np.array([point, point + (0, 15)]), 1.0)


def two_boats(seed: int):
    """Two boats moored in fog, the far shore almost gone."""
    study = Study(WIDE, 0.05)
    rng = np.random.default_rng(seed)
    shore = curve([(0, 290), (140, 262), (330, 276), (520, 240), (720, 268), (900, 250), (1050,
                                                                                          276),
                   (1050, 316), (0, 322)], step=6)
    study.shape(shore, 0.17, 0, 0, 3.0)
    for x in np.arange(30, 1040, 17):
        tip = 262 - rng.uniform(6, 46)
        study.shape([(x - 9, 296), (x, tip), (x + 9, 296)], 0.2, 0, 90, 2.0)
    water = ramp(WIDE, 0.05, 0.44) + 0.04 * cloud(WIDE, 30, rng, 3, (14, 1))
    study.put(filled(WIDE, [(0, 322), (1050, 322), (1050, 750), (0, 750)]), np.clip(water, 0, 1), 0)
    study.shade(blurred(filled(WIDE, [(0, 322), (1050, 322), (1050, 372), (0, 372)]), 12), 0.08)
    boat(study, 690, 424, 0.62, 0.44)
    boat(study, 400, 540, 1.0, 0.72)
    for x, top, tone in ((884, 340, 0.5), (132, 380, 0.84)):
        study.shape(ribbon(np.array([(x, top + 190), (x - 2, top)], float), 15), tone, 2.0, 90)
        wave = curve([(x, top + 192), (x + 5, top + 224), (x - 6, top + 250), (x + 3, top + 300)])
        study.shade(blurred(filled(WIDE, ribbon(wave, 14, (1, 0.2))), 3), 0.26)
    study.line(curve([(132, 420), (180, 470), (232, 484)]), 1.6)
    study.line(curve([(884, 372), (850, 410), (806, 414)]), 1.2)
    return pencilled(study, seed, smudge=0.52)


def boat(study: Study, x: float, y: float, s: float, dark: float) -> None:
    """A clinker-built rowing boat, seen from the quarter, with its reflection."""
    def at(points):
        return np.asarray(points, float) * s + (x, y)

    hull = curve([(-196, -44), (-150, -6), (-60, 14), (80, 16), (170, -6), (232, -66), (196, 30),
                  (130, 66), (-60, 70), (-140, 50)], True)
    inside = curve([(-196, -44), (-120, -62), (40, -66), (160, -62), (232, -66), (170, -6), (80,
                                                                                             16),
                    (-60, 14), (-150, -6)], True)
    mirror = np.asarray(hull) * [1, -0.85] + [0, 130]
    study.put(blurred(filled(WIDE, at(mirror)), 7 * s), 0.5 * dark + 0.42, 0)
    study.shape(at(inside), dark * 0.92, 2.2 * s, 60)
    for left in (-110, -10, 90):
        study.shape(at([(left, -60), (left + 34, -62), (left + 30, 10), (left - 8, 8)]),
                    dark * 0.36, 1.5 * s, 60)
    study.shape(at(hull), dark * 0.62, 2.8 * s, 8)
    study.shade(blurred(filled(WIDE, at([(-140, 50), (-60, 70), (130, 66), (196, 30), (190, 12),
                                         (100, 44), (-60, 46)])), 4), dark * 0.42)
    for drop in (17, 34):
        study.line(at(curve([(-172 + drop, -24 + drop), (-60, 14 + drop), (80, 16 + drop),
                             (168, -4 + drop), (222 - drop * 0.3, -56 + drop * 1.3)])), 1.5 * s)
    study.shape(at(ribbon(curve([(-196, -44), (-150, -6), (-60, 14), (80, 16), (170, -6),
                                 (232, -66)]), 9)), dark * 0.12, 1.5 * s, 8)
    study.shape(at(ribbon(np.array([(-60, -40), (276, -2)], float), 7)), 0.1, 1.6 * s, 8)


PICTURES = {
    "hawk-moth": Picture(moth),
    "two-boats": Picture(two_boats, wide=True),
}
