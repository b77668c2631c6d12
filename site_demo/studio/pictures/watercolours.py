"""Tam Ferrow's watercolours: few washes, much paper."""

import numpy as np

from ..hands.watercolour import Watercolour
from ..line import blade, box, curve, ellipse, ribbon
from ..sheet import UPRIGHT, WIDE, blurred, filled, ramp
from .picture import Picture


def estuary(seed: int):
    """Low tide: rain going over, channels in the mud, three posts."""
    art = Watercolour(WIDE, seed)
    rng = art.rng
    art.wash("#c9d6dc", filled(WIDE, box(22, 22, 1028, 372)) * ramp(WIDE, 1.0, 0.2), 1.0, 0.3, 0.3,
             6)
    art.wash("#f3d3a8", filled(WIDE, box(22, 190, 1028, 372)) * ramp(WIDE, 0.0, 1.2), 0.8, 0.0,
             0.2, 8)
    for x, y, wide, tall in ((250, 110, 190, 46), (420, 150, 150, 34), (760, 96, 210, 54)):
        art.bleed("#7f8fa0", filled(WIDE, ellipse(x, y, wide, tall)), 0.85, 26)
    rain = [ribbon(np.array([(x, 130), (x - 70, 352)], float), 9) for x in range(690, 960, 26)]
    art.bleed("#8d9cab", filled(WIDE, *rain), 0.5, 9)
    far = curve([(0, 352), (160, 318), (330, 336), (470, 300), (600, 338), (790, 312), (1050, 346),
                 (1050, 380), (0, 380)], step=6)
    art.wash("#7b93a8", filled(WIDE, far), 0.85, 0.5, 0.5, 3)
    near = curve([(0, 366), (210, 344), (340, 372), (430, 384), (0, 398)], step=6)
    art.wash("#4f6b66", filled(WIDE, near), 1.0, 0.6, 0.5, 3)
    mudflats(art)
    posts_and_birds(art, rng)
    art.spatter("#5b5348", 26, 0.7, 3.4)
    return np.clip(art.sheet, 0, 1)


def mudflats(art: Watercolour) -> None:
    """Sand and mud, left dry where the channels shine."""
    flats = filled(WIDE, curve([(22, 398), (500, 384), (1028, 384), (1028, 728), (22, 728)],
                               step=8))
    channel = filled(WIDE, curve([(1040, 424), (820, 416), (640, 430), (560, 462), (640, 506),
                                  (720, 560), (600, 640), (380, 700), (300, 760), (620, 760),
                                  (880, 650), (930, 560), (800, 496), (760, 462), (860, 446),
                                  (1040, 452)], True, 6))
    side = filled(WIDE, ribbon(curve([(120, 430), (260, 446), (380, 470), (600, 480)]), 9, (0.2,
                                                                                            1)))
    land = np.clip(flats - np.maximum(channel, side), 0, 1)
    art.wash("#d8bd93", land, 0.85, 0.55, 0.6, 3, 0.3)
    art.wash("#9b7f63", land * ramp(WIDE, 0.0, 0.95), 0.75, 0.3, 0.75, 4, 0.4)
    art.wash("#bcd0d8", channel, 0.55, 0.3, 0.3, 2)
    art.bleed("#6f5642", filled(WIDE, ellipse(170, 676, 150, 36), ellipse(960, 690, 90, 40)), 0.9,
              24)
    art.bleed("#5d7a5b", filled(WIDE, ellipse(150, 520, 120, 14), ellipse(420, 560, 90, 12)), 0.8,
              14)
    art.backrun(filled(WIDE, ellipse(330, 622, 60, 32)), 0.5)


def posts_and_birds(art: Watercolour, rng) -> None:
    """Three posts and their reflections, wading birds as single touches."""
    for x, top, base, wide in ((706, 420, 566, 15), (768, 434, 540, 11), (816, 444, 522, 9)):
        art.wash("#453c38", filled(WIDE, ribbon(np.array([(x, base), (x + 3, top)], float), wide)),
                 1.15, 0.8, 0.4, 1.0)
        art.bleed("#6d6a6b", filled(WIDE, ribbon(np.array([(x, base + 4), (x - 3, base + 70)],
                                                          float),
                                                 wide * 0.7)), 0.9, 5)
    for x, y in ((176, 572), (262, 590), (352, 566), (452, 596), (516, 552)):
        bird = [blade((x + 16, y - 10), (x - 22, y + 6), 17, 3), ellipse(x + 17, y - 14, 5.5, 5),
                blade((x + 20, y - 14), (x + 42, y - 4), 4.0, 3),
                ribbon(np.array([(x - 1, y + 2), (x - 4, y + 27)], float), 2.2),
                ribbon(np.array([(x + 5, y + 2), (x + 6, y + 27)], float), 2.2)]
        art.wash("#3c3a40", filled(WIDE, *bird), 1.3, 0.5, 0.2, 0.6)
    for x, y, s in ((560, 196, 1), (600, 172, 0.8), (646, 206, 0.7)):
        wing = curve([(x - 20 * s, y - 6), (x - 8 * s, y - 9), (x, y), (x + 9 * s, y - 10),
                      (x + 22 * s, y - 4)], step=3)
        art.wash("#4a4f5a", filled(WIDE, ribbon(wing, 4 * s, (0.3, 0.3))), 1.6, 0.3, 0.2, 0.5)


def three_pears(seed: int):
    """Three pears on a sill, one leaning."""
    art = Watercolour(UPRIGHT, seed)
    art.wash("#b9c9c4", filled(UPRIGHT, curve([(70, 110), (390, 70), (690, 120), (704, 520),
                                               (660, 690), (90, 684), (50, 420)], True)),
             0.8, 0.5, 0.5, 9, 0.45)
    art.bleed("#6f8f92", filled(UPRIGHT, ellipse(190, 250, 100, 70), ellipse(600, 420, 60, 110)),
              0.6, 44)
    art.backrun(filled(UPRIGHT, ellipse(540, 206, 84, 56)), 0.55)
    art.wash("#d9c7a8", filled(UPRIGHT, [(60, 690), (700, 676), (716, 950), (40, 964)]), 0.7, 0.5,
             0.5, 7, 0.35)
    for x, y, wide in ((330, 846, 150), (560, 872, 150), (214, 902, 150)):
        art.bleed("#6b6a80", filled(UPRIGHT, ellipse(x + 46, y, wide, 28)), 0.95, 13)
    pear(art, 350, 650, 1.0, 0, "#c8c05a", "#8a9b42", "#c4703c")
    pear(art, 560, 690, 0.94, 15, "#d9c25c", "#a39a3f", "#b8503a")
    pear(art, 208, 736, 0.9, -9, "#b9bf62", "#6f8a45", "#c98a45")
    art.spatter("#8a7a52", 34, 0.7, 4.2)
    return np.clip(art.sheet, 0, 1)


def pear(art: Watercolour, x: float, y: float, s: float, turn: float, body: str, shade: str,
         blush: str) -> None:
    """One pear: a wash, shade dropped in wet on the right, a blush on the left, a lit spot."""
    from ..line import rotated

    def at(points):
        return rotated(np.asarray(points, float) * s, turn) + (x, y)

    outline = at(curve([(0, -252), (46, -230), (62, -160), (84, -60), (138, 30), (146, 120),
                        (90, 190), (0, 206), (-92, 190), (-146, 116), (-132, 24), (-80, -60),
                        (-56, -160), (-40, -232)], True))
    mask = filled(UPRIGHT, outline)
    art.lift(mask, 0.82, 1.5)
    light = blurred(filled(UPRIGHT, at(ellipse(-52, 40, 34, 62, 16))), 12)
    art.wash(body, mask * (1 - 0.72 * light), 1.05, 0.7, 0.35, 2.5, 0.2)
    side = filled(UPRIGHT, at(curve([(30, -180), (70, -60), (136, 40), (140, 120), (80, 186),
                                     (20, 196), (70, 120), (64, 30), (30, -60)], True)))
    art.bleed(shade, blurred(side, 4) * mask, 1.1, 17 * s)
    art.bleed(blush, filled(UPRIGHT, at(ellipse(-84, 116, 40, 52))) * mask, 0.8, 22 * s)
    art.wash("#5a4632", filled(UPRIGHT, at(ribbon(curve([(0, -246), (8, -286), (26, -318)]), 11,
                                                  (0.7, 1)))), 1.6, 0.6, 0.3, 1)
    specks = [ellipse(*(at([(dx, dy)])[0]), 2.2, 2.2, count=10)
              for dx, dy in art.rng.normal((6, 80), (60, 70), (36, 2))]
    art.wash("#7d6a35", filled(UPRIGHT, *specks) * mask, 0.9, 0.1, 0.2, 0.4)


PICTURES = {
    "estuary": Picture(estuary, wide=True),
    "three-pears": Picture(three_pears),
}
