"""Tam Ferrow's burnt drawings on thin slips of wood."""

import numpy as np

from ..grain import cloud
from ..hands.pyrography import burnt
from ..hands.tones import Study
from ..line import blade, box, curve, ellipse, ribbon
from ..sheet import UPRIGHT, WIDE, blurred, filled
from .picture import Picture


def barn_owl(seed: int):
    """A barn owl on a beam, looking straight out."""
    study = Study(UPRIGHT)
    rng = np.random.default_rng(seed)
    study.put(blurred(filled(UPRIGHT, ellipse(375, 480, 280, 400)), 70), 0.16)
    body = curve([(250, 420), (214, 560), (232, 720), (300, 840), (375, 872), (450, 840), (518,
                                                                                           720),
                  (536, 560), (500, 420)], True)
    mask = study.shape(body, 0.06, 3.4)
    study.shade(blurred(filled(UPRIGHT, ellipse(480, 700, 80, 200)), 34) * mask, 0.42)
    study.shade(blurred(filled(UPRIGHT, ellipse(375, 470, 130, 46)), 18) * mask, 0.4)
    breast_specks(study, rng)
    for sign in (-1, 1):
        owl_wing(study, sign)
    owl_face(study)
    owl_beam(study, rng)
    return burnt(study, seed)


def breast_specks(study: Study, rng) -> None:
    """Small drops down the breast."""
    for row, y in enumerate(range(500, 830, 38)):
        for x in np.arange(300 + (row % 2) * 22, 460, 44):
            x += rng.normal(0, 4)
            study.shape(curve([(x, y - 8), (x + 5, y + 3), (x, y + 9), (x - 5, y + 3)], True), 0.8,
                        1.4)


def owl_wing(study: Study, sign: int) -> None:
    """A folded wing: scapulars over long flight feathers."""
    def at(points):
        return np.asarray(points, float) * [sign, 1] + [375, 0]

    study.shape(at(curve([(112, 424), (164, 500), (190, 640), (164, 800), (108, 900), (84, 800),
                          (92, 660), (86, 540)], True)), 0.46, 3.2)
    for number in range(4):
        top, x = 600 + number * 26, 164 - number * 20
        feather = at(blade((x - 6, top - 70), (x - 44 + number * 3, 896 - number * 10), 30, 14))
        study.shape(feather, 0.34 + 0.08 * (number % 2), 2.2)
        for y in range(top + 30, 860 - number * 12, 46):
            bar = at([(x - 26, y), (x - 4, y - 8), (x - 4, y + 6), (x - 26, y + 14)])
            study.shade(blurred(filled(UPRIGHT, bar), 1.5), 0.42)
    for row in range(4):
        for column in range(3):
            x, y = 112 + column * 22 + row * 6, 458 + row * 46 + column * 12
            scale = at(curve([(x - 18, y), (x - 12, y + 30), (x, y + 40), (x + 12, y + 28),
                              (x + 16, y)
                              ], True))
            study.shape(scale, 0.3, 2.0)
            study.shade(filled(UPRIGHT, at(ellipse(x, y + 22, 4, 6))), 0.5)


def owl_face(study: Study) -> None:
    """The heart of the face, rays of feather, dark eyes, bill."""
    study.shape(curve([(375, 176), (470, 190), (536, 262), (532, 360), (470, 440), (375, 476),
                       (280, 440), (218, 360), (214, 262), (280, 190)], True), 0.42, 3.4)
    heart = curve([(375, 244), (420, 212), (488, 236), (506, 310), (470, 394), (375, 456), (280,
                                                                                            394),
                   (244, 310), (262, 236), (330, 212)], True)
    study.shape(heart, 0.03, 3.2)
    for sign in (-1, 1):
        eye = (375 + sign * 60, 312)
        study.shade(blurred(filled(UPRIGHT, ellipse(*eye, 46, 52)), 15), 0.30)
        for turn in range(0, 360, 15):
            c, s = np.cos(np.radians(turn)), np.sin(np.radians(turn))
            if abs(eye[0] + 64 * c - 375) > 14:
                study.line(np.array([(eye[0] + 35 * c, eye[1] + 37 * s), (eye[0] + 60 * c,
                                     eye[1] + 64 * s)]), 1.3)
        study.shape(ellipse(*eye, 27, 29), 1.0, 3.0)
        study.shape(ellipse(eye[0] - 8, eye[1] - 10, 6, 6), 0.0, 0)
    study.shape(curve([(375, 318), (391, 360), (386, 396), (375, 412), (364, 396), (359, 360)],
                      True),
                0.32, 2.6)
    study.shade(filled(UPRIGHT, [(376, 330), (390, 362), (384, 396), (376, 408)]), 0.3)
    for turn in range(200, 341, 9):
        c, s = np.cos(np.radians(turn)), np.sin(np.radians(turn))
        study.line(np.array([(375 + 150 * c, 330 + 136 * s), (375 + 128 * c, 330 + 112 * s)]), 1.8)


def owl_beam(study: Study, rng) -> None:
    """The beam, its grain and knot, and the claws over it."""
    study.shape([(30, 872), (720, 858), (720, 972), (30, 980)], 0.30, 3.2)
    study.shade(filled(UPRIGHT, [(30, 940), (720, 926), (720, 972), (30, 980)]), 0.34)
    for y in range(886, 976, 15):
        study.line(curve([(34, y + 6), (200, y + rng.normal(0, 4)), (400, y + rng.normal(0, 5)),
                          (716, y - 6)]), 1.4)
    for turn in (9, 17, 26):
        study.line(ellipse(596, 912, turn * 1.5, turn * 0.7, -4), 1.6)
    for x in (318, 400):
        for toe in range(3):
            at = x + toe * 22
            study.shape(curve([(at - 8, 858), (at + 8, 856), (at + 10, 886), (at, 912), (at - 8,
                                                                                         886)],
                              True), 0.55, 2.4)


def pass_hut(seed: int):
    """A hut under the pass, first snow, smoke."""
    study = Study(WIDE)
    rng = np.random.default_rng(seed)
    ridge = [(30, 420), (130, 330), (196, 360), (300, 214), (352, 262), (436, 110), (516, 214),
             (566, 180), (664, 320), (738, 262), (836, 356), (920, 290), (1020, 380)]
    study.shape(np.array([*ridge, (1020, 560), (30, 560)], float), 0.10, 0)
    study.line(np.array(ridge, float), 3.4)
    for peak, right in (((436, 110), (500, 420)), ((300, 214), (340, 430)),
                        ((738, 262), (800, 440)), ((920, 290), (980, 450)),
                        ((566, 180), (640, 400)), ((130, 330), (190, 440))):
        mid = ((peak[0] + right[0]) / 2 - 14, (peak[1] + right[1]) / 2)
        face = np.array([peak, (right[0] + 60, (peak[1] + right[1]) / 2 + 40), right, mid], float)
        study.shade(blurred(filled(WIDE, face), 3), 0.44)
        study.line(curve([peak, (peak[0] - 6, peak[1] + 40), mid, right]), 2.0)
        for number in range(4):
            x, y = peak[0] - 12 - number * 15, peak[1] + 44 + number * 30
            study.line(np.array([(x, y), (x - 18, y + 30), (x - 10, y + 40)], float), 1.4)
    slopes(study, rng)
    hut(study)
    smoke = curve([(640, 440), (654, 400), (636, 362), (660, 320), (648, 286)])
    study.line(smoke, 2.4)
    study.line(smoke + np.linspace(6, 16, len(smoke))[:, None] * [1, 0], 1.6)
    return burnt(study, seed, False)


def slopes(study: Study, rng) -> None:
    """Meadow, path, and pines from far to near."""
    brow = curve([(30, 520), (220, 490), (480, 530), (760, 496), (1020, 530)], step=6)
    study.shape(np.vstack([brow, [(1020, 750), (30, 750)]]), 0.05, 0)
    study.line(brow, 2.6)
    study.shade(blurred(filled(WIDE, [(40, 640), (1010, 660), (1010, 712), (40, 712)]), 20)
                * (1 + 0.2 * cloud(WIDE, 60, rng, 3)), 0.3)
    for row, (base, tall, places) in enumerate(((512, 76, range(60, 330, 34)),
                                                (520, 70, range(800, 1010, 36)),
                                                (610, 130, range(60, 260, 62)),
                                                (640, 160, range(866, 1010, 66)))):
        for x in places:
            pine(study, x + rng.normal(0, 6), base + rng.normal(0, 8), tall * rng.uniform(0.8, 1.2),
                 0.5 + 0.14 * (row > 1))
    study.line(curve([(540, 722), (500, 660), (560, 616), (600, 590)]), 2.4)
    study.line(curve([(620, 722), (560, 664), (600, 624), (622, 596)]), 2.4)


def pine(study: Study, x: float, base: float, tall: float, tone: float) -> None:
    """A pine in tiers."""
    steps = np.linspace(0, 1, 6)
    right = [(x + tall * 0.26 * s * k, base - tall * (1 - s)) for s in steps[1:] for k in (1, 0.55)]
    left = [(2 * x - px, py) for px, py in reversed(right)]
    study.shape(np.array([(x, base - tall), *right, *left], float), tone, 1.8)
    study.shade(filled(WIDE, [(x, base - tall), (x + tall * 0.26, base), (x + 2, base)]), 0.26)


def hut(study: Study) -> None:
    """Logs, a shingled roof under snow, one lit window."""
    study.shape(box(560, 520, 700, 602), 0.34, 2.6)
    study.shape([(700, 520), (770, 506), (770, 584), (700, 602)], 0.62, 2.6)
    for y in range(534, 602, 14):
        study.line(np.array([(560, y), (700, y)], float), 1.8)
        study.line(np.array([(700, y), (770, y - 14)], float), 1.6)
    study.shape([(546, 526), (590, 456), (742, 446), (784, 508), (704, 524)], 0.03, 2.8)
    study.shape([(704, 524), (742, 446), (784, 508)], 0.5, 2.4)
    for x in range(566, 700, 17):
        study.line(np.array([(x, 524), (x + 34, 456)], float), 1.2)
    study.shape(box(630, 424, 652, 462), 0.6, 2.2)
    study.shape(box(580, 540, 612, 570), 0.0, 2.4)
    study.line(np.array([(596, 540), (596, 570)], float), 1.6)
    study.shape(box(640, 544, 672, 602), 0.8, 2.4)
    study.shape(ribbon(np.array([(726, 536), (742, 532)], float), 20), 0.0, 2.0)


PICTURES = {
    "barn-owl": Picture(barn_owl, edge="rounded"),
    "pass-hut": Picture(pass_hut, wide=True),
}
