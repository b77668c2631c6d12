"""Halvard Myrtun's pen drawings: hatched by tone."""

import numpy as np

from ..grain import cloud
from ..hands.ink_pen import penned
from ..hands.tones import Study
from ..line import box, curve, ellipse, ribbon
from ..sheet import UPRIGHT, WIDE, blurred, filled, ramp
from .picture import Picture


def last_tram(seed: int):
    """The last tram at the end of the line, rails wet, two lamps."""
    study = Study(WIDE)
    rng = np.random.default_rng(seed)
    study.put(filled(WIDE, box(30, 30, 1020, 720)), 0.0)
    sky = ramp(WIDE, 0.88, 0.34) + 0.05 * cloud(WIDE, 160, rng, 3, (3, 1))
    study.put(filled(WIDE, box(30, 30, 1020, 470)), sky)
    houses(study, rng)
    study.put(filled(WIDE, [(30, 470), (1020, 470), (1020, 720), (30, 720)]),
              ramp(WIDE, 0.0, 0.62))
    street(study)
    tram(study)
    lamp(study, 150, 590, 196)
    lamp(study, 930, 540, 236)
    study.line(np.vstack([box(30, 30, 1020, 720), [(30, 30)]]), 2.4)
    return penned(study, seed)


def houses(study: Study, rng) -> None:
    """A row of gabled fronts, a few windows lit."""
    for x, top, wide in ((30, 250, 120), (150, 204, 110), (260, 268, 96), (752, 226, 104),
                         (856, 258, 84), (940, 190, 82)):
        front = [(x, 480), (x, top), (x + wide / 2, top - 58), (x + wide, top), (x + wide, 480)]
        study.shape(front, 0.5, 2.2)
        study.shape([(x - 4, top + 3), (x + wide / 2, top - 66), (x + wide + 4, top + 3),
                     (x + wide, top + 12), (x + wide / 2, top - 50), (x, top + 12)], 0.95, 1.2)
        for column in range(2):
            for row in range(3):
                at = (x + 18 + column * (wide - 56), top + 26 + row * 66)
                pane = box(*at, at[0] + 22, at[1] + 34)
                study.shape(pane, 0.0 if rng.random() < 0.34 else 0.92, 1.5)
                study.line(np.array([(at[0] + 11, at[1]), (at[0] + 11, at[1] + 34)]), 1.2)


def street(study: Study) -> None:
    """Rails running to the tram, kerbs, the shine under it."""
    for left, right in (((420, 470), (250, 720)), ((600, 470), (770, 720))):
        for shift, tone in ((0, 0.95), (11, 0.0)):
            study.put(filled(WIDE, [(left[0] + shift, left[1]), (left[0] + shift + 5, left[1]),
                                    (right[0] + shift * 1.6 + 9, 720),
                                    (right[0] + shift * 1.6, 720)]), tone)
        study.line(np.array([left, right], float), 2.2)
    shine = filled(WIDE, [(400, 560), (620, 560), (690, 720), (330, 720)])
    study.shade(blurred(shine, 26), -0.34)
    for y in (512, 548, 600, 664):
        study.line(curve([(30, y), (200, y + 4), (250 - (y - 500) * 0.3, y - 3)]), 1.2)
        study.line(curve([(770 + (y - 500) * 0.4, y - 4), (900, y + 4), (1020, y)]), 1.2)


def tram(study: Study) -> None:
    """The tram head on: lit windows, lamp, destination board, wire and pole."""
    study.put(blurred(filled(WIDE, ellipse(510, 360, 260, 250)), 60), 0.16)
    study.shape(curve([(384, 586), (376, 420), (384, 250), (420, 214), (510, 204), (600, 214),
                       (636, 250), (644, 420), (636, 586)], step=5), 0.42, 3.0)
    study.shape(box(404, 222, 616, 262), 0.96, 1.6)
    study.shape(box(452, 230, 568, 255), 0.0, 1.4)
    for left, right in ((400, 456), (464, 556), (564, 620)):
        study.shape(box(left, 278, right, 396), 0.0, 2.2)
    driver = curve([(486, 396), (490, 356), (504, 346), (500, 326), (512, 314), (526, 326),
                    (522, 346), (538, 358), (540, 396)], step=4)
    study.shape(driver, 0.84, 1.6)
    study.shape(box(380, 410, 640, 432), 0.05, 1.8)
    study.shape(box(378, 432, 642, 560), 0.52, 1.8)
    study.shape(ellipse(510, 490, 30, 30), 0.0, 2.6)
    study.shape(ellipse(510, 490, 17, 17), 0.0, 1.6)
    for x in (420, 600):
        study.shape(ellipse(x, 500, 11, 11), 0.9, 1.6)
    study.shape(box(396, 560, 624, 592), 0.97, 2.0)
    study.shape([(420, 592), (600, 592), (620, 612), (400, 612)], 0.9, 1.6)
    study.line(np.array([(510, 204), (540, 120)], float), 2.2)
    study.line(np.array([(500, 120), (580, 120)], float), 2.6)
    study.line(np.array([(540, 120), (548, 30)], float), 1.4)
    study.line(curve([(30, 96), (300, 110), (540, 120), (800, 104), (1020, 88)]), 1.5)


def lamp(study: Study, x: float, base: float, top: float) -> None:
    """A street lamp and the light about it."""
    glow = filled(study.size, ellipse(x, top + 16, 66, 66))
    study.shade(blurred(glow, 24), -0.75)
    study.shape(ribbon(np.array([(x, base), (x, top + 40)], float), 7), 0.97, 1.2)
    study.shape([(x - 13, top + 40), (x - 18, top), (x + 18, top), (x + 13, top + 40)], 0.0, 1.8)
    study.shape([(x - 22, top), (x, top - 22), (x + 22, top)], 0.95, 1.4)
    study.shape(box(x - 13, base - 10, x + 13, base + 4), 0.9, 1.4)


def lighthouse(seed: int):
    """A lighthouse on its skerry, swell and gulls."""
    study = Study(UPRIGHT)
    rng = np.random.default_rng(seed)
    sky = ramp(UPRIGHT, 0.5, 0.02) + 0.10 * cloud(UPRIGHT, 240, rng, 4, (2.4, 1))
    study.put(filled(UPRIGHT, box(30, 30, 720, 740)), np.clip(sky, 0, 0.72))
    for beam in ([(402, 262), (720, 120), (720, 300), (402, 286)],
                 [(348, 262), (30, 180), (30, 330), (348, 286)]):
        study.put(blurred(filled(UPRIGHT, beam), 5), 0.0)
    waves(study)
    rocks(study, rng)
    lighthouse_tower(study)
    for x, y, s in ((170, 420, 1.0), (232, 372, 0.7), (590, 452, 0.9), (120, 510, 0.6)):
        wing = curve([(x - 34 * s, y - 8 * s), (x - 16 * s, y - 16 * s), (x, y), (x + 16 * s,
                     y - 18 * s), (x + 36 * s, y - 10 * s)], step=3)
        study.put(filled(UPRIGHT, ribbon(wing, 17 * s, (0.4, 0.4))), 0.0)
        study.line(wing, 3.4 * s)
    study.line(np.vstack([box(30, 30, 720, 1020), [(30, 30)]]), 2.4)
    return penned(study, seed, "#20242b", "#f4efe2")


def waves(study: Study) -> None:
    """Swell: each wave dark under its crest, paler towards the next."""
    for number, y in enumerate(np.linspace(720, 990, 9)):
        x = np.arange(30, 722, 6.0)
        lift = (8 + number * 2.2) * np.sin(x / (52 + number * 9) + number * 1.7)
        crest = np.stack([x, y + lift + 3 * np.sin(x / 17 + number)], 1)
        wave = np.vstack([crest, [(720, 1020), (30, 1020)]])
        mask = filled(UPRIGHT, wave)
        depth = np.clip((np.mgrid[0:1050, 0:750][0] - y - 6) / (46 + number * 4), 0, 1)
        study.put(mask, (0.62 - 0.6 * depth).astype(np.float32))
        study.line(crest, 2.0)


def rocks(study: Study, rng) -> None:
    """The skerry: facets, light from the left."""
    study.shape([(120, 850), (164, 776), (226, 742), (262, 690), (330, 668), (430, 662), (500, 694),
                 (548, 752), (610, 790), (640, 856), (540, 892), (400, 880), (260, 900)], 0.5, 2.6)
    for facet, tone in (([(262, 690), (330, 668), (340, 730), (280, 770), (226, 742)], 0.06),
                        ([(164, 776), (226, 742), (280, 770), (236, 850), (120, 850)], 0.22),
                        ([(430, 662), (500, 694), (548, 752), (470, 776), (420, 720)], 0.66),
                        ([(548, 752), (610, 790), (640, 856), (540, 892), (470, 776)], 0.92),
                        ([(280, 770), (340, 730), (420, 720), (470, 776), (400, 880), (300, 850)],
                         0.42)):
        study.shape(np.array(facet, float), tone, 1.7)
    for _ in range(22):
        x, y = rng.uniform(160, 600), rng.uniform(860, 900)
        foam = ellipse(x, y + rng.normal(0, 6), rng.uniform(10, 30), rng.uniform(5, 11), 0, 180,
                       360)
        study.put(filled(UPRIGHT, foam), 0.0)
        study.line(foam, 1.4)


def lighthouse_tower(study: Study) -> None:
    """Banded tower, gallery, lantern, and the keeper's house."""
    x = np.mgrid[0:1050, 0:750][1]
    round_shade = np.clip((x - 330) / 110, 0, 1).astype(np.float32) ** 1.3 * 0.62
    study.shape([(322, 672), (345, 330), (405, 330), (428, 672)], round_shade, 2.6)
    for top, bottom in ((372, 430), (492, 554), (612, 672)):
        left, right = 345 - (top - 330) * 0.067, 405 + (top - 330) * 0.067
        low = (345 - (bottom - 330) * 0.067, 405 + (bottom - 330) * 0.067)
        study.shape([(left, top), (right, top), (low[1], bottom), (low[0], bottom)],
                    np.clip(round_shade + 0.58, 0, 0.97), 1.8)
    study.shape(box(330, 316, 420, 331), 0.5, 2.0)
    study.shape(box(349, 250, 401, 316), 0.0, 2.0)
    study.shape([(342, 250), (375, 208), (408, 250)], 0.9, 2.0)
    study.line(np.array([(375, 208), (375, 178)], float), 2.2)
    for bar in (362, 375, 388):
        study.line(np.array([(bar, 250), (bar, 316)], float), 1.3)
    study.shape(box(366, 452, 382, 478), 0.95, 1.4)
    study.shape(box(364, 632, 388, 672), 0.1, 1.6)
    study.shape([(446, 690), (446, 640), (530, 640), (530, 704)], 0.12, 2.0)
    study.shape([(438, 642), (464, 606), (520, 606), (538, 642)], 0.84, 2.0)
    study.shape(box(470, 656, 488, 678), 0.95, 1.4)


PICTURES = {
    "last-tram": Picture(last_tram, wide=True),
    "lighthouse": Picture(lighthouse),
}
