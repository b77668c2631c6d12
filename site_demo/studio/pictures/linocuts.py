"""Ines Okafor's linocuts: two blocks each, printed one over the other."""

import cv2
import numpy as np

from ..grain import paper
from ..hands.linocut import Linocut
from ..lettering import lettered
from ..line import along, blade, curve, ellipse, ribbon, wobble
from ..sheet import UPRIGHT, WIDE, colour, filled, over, stamped
from .picture import Picture

HERON = [(540, 402), (462, 366), (424, 334), (378, 336), (340, 378), (322, 440), (286, 520),
         (268, 610), (216, 736), (300, 704), (362, 676), (424, 622), (458, 540), (452, 470),
         (440, 424), (468, 410)]
CAP = [(470, 372), (430, 337), (380, 338), (342, 380), (336, 404), (372, 392), (412, 384),
       (448, 388)]
MANTLE = [(332, 420), (384, 446), (398, 520), (372, 606), (318, 668), (226, 730), (272, 616),
          (290, 520)]
FOX = [(784, 396), (738, 352), (722, 338), (722, 284), (694, 326), (676, 322), (660, 274),
       (640, 334), (610, 356), (530, 352), (450, 352), (404, 372), (330, 362), (240, 384),
       (172, 434), (140, 500), (214, 486), (300, 462), (372, 446), (386, 486), (352, 528),
       (336, 586), (322, 616), (354, 618), (380, 560), (424, 508), (462, 462), (540, 474),
       (606, 466), (632, 520), (664, 570), (684, 606), (714, 606), (694, 560), (668, 508),
       (668, 452), (706, 426), (750, 420)]
FAR_LEGS = ([(412, 470), (440, 520), (442, 556), (464, 608), (494, 608), (470, 556), (474, 520),
             (486, 468)],
            [(600, 466), (598, 516), (578, 560), (552, 608), (582, 608), (606, 560), (630, 516),
             (644, 470)])


def night_heron(seed: int):
    """A night heron on a mooring post, the moon low behind it."""
    art = Linocut(UPRIGHT, seed)
    rng = art.rng
    moon = ellipse(498, 330, 186, 186)
    gold = np.zeros(UPRIGHT[::-1], np.float32)
    art.leave(gold, art.cut(moon, 1.2))
    for y in np.arange(812, 1000, 21):
        reach = rng.uniform(40, 170) * (1 - (y - 812) / 420)
        bar = blade((498 - reach, y), (498 + reach * rng.uniform(0.7, 1.1), y + 2), 13)
        art.leave(gold, filled(UPRIGHT, bar))
    art.clear(gold, filled(UPRIGHT, curve(HERON, True)))
    art.pull(gold, "#e0a63a", (1.6, -1.2))
    key = art.block()
    art.clear(key, art.cut(moon, 1.2))
    heron_sky(art, key, rng)
    heron_water(art, key, rng)
    heron_bird(art, key)
    art.pull(key, "#14323d")
    return art.sheet


def heron_sky(art: Linocut, key, rng) -> None:
    """Rings of short gouges about the moon, and reeds black before it, white beside it."""
    for ring, radius in enumerate(range(212, 640, 29)):
        count = int(radius / 9)
        for step in range(count):
            start = step / count * 360 + rng.uniform(0, 5) + ring * 7
            arc = ellipse(498, 330, radius, radius, 0, start, start + 3000 / radius * rng.uniform(
                0.5, 1.1) * 0.42, 9)
            if arc[:, 1].max() < 778 and arc[:, 1].min() > 46 and arc[:, 0].min() > 46 and \
                    arc[:, 0].max() < 704 and rng.random() > ring * 0.055:
                art.gouge(key, [arc], 7.5 - ring * 0.3)
    for x, top, bow, width in ((604, 150, 40, 20), (640, 250, 44, 17), (566, 262, -40, 15),
                               (690, 190, -14, 16), (118, 300, 34, 19), (78, 420, -22, 16),
                               (168, 478, 52, 15)):
        reed = blade((x - bow * 0.5, 1000), (x, top), width, bow)
        art.clear(key, filled(UPRIGHT, np.asarray(reed) + (5, 0)))
        art.leave(key, filled(UPRIGHT, reed) if x > 500 else filled(UPRIGHT, reed) * 0)
    for x, y in ((612, 178), (120, 330)):
        head = ribbon(curve([(x, y - 56), (x + 2, y), (x - 3, y + 62)]), 30, (0.5, 0.5))
        art.clear(key, filled(UPRIGHT, head * [1.0, 1.0]))
        inner = ribbon(curve([(x, y - 48), (x + 2, y), (x - 3, y + 54)]), 21, (0.5, 0.5))
        art.leave(key, art.cut(inner, 0.8))


def heron_water(art: Linocut, key, rng) -> None:
    """Still water below the bank, cut in long level strokes, and the post."""
    lines = []
    for y in np.arange(792, 1006, 11.5):
        x = rng.uniform(20, 70)
        while x < 700:
            reach = rng.uniform(50, 210)
            lines.append([(x, y), (x + reach / 2, y + rng.normal(0, 2)), (min(x + reach, 716), y)])
            x += reach + rng.uniform(12, 60)
    art.gouge(key, lines, 5.4)
    post = [(322, 772), (438, 766), (446, 1010), (312, 1010)]
    art.clear(key, art.cut(np.asarray(post, float) + [(-7, -6), (7, -6), (7, 6), (-7, 6)], 1))
    art.leave(key, art.cut(post, 1.5))
    grain = [[(x, 796 + rng.uniform(0, 40)), (x + rng.normal(0, 3), 880), (x, 1000)]
             for x in range(338, 436, 15)]
    art.gouge(key, grain, 4.4)
    art.gouge(key, [[(330, 782), (380, 776), (430, 779)]], 5)


def heron_bird(art: Linocut, key) -> None:
    """The bird: white of the paper, its cap, back and bill left standing."""
    body = art.cut(curve(HERON, True), 1.0)
    halo = cv2.dilate(body, np.ones((7, 7)))
    art.clear(key, halo)
    art.leave(key, art.cut(curve(CAP, True), 0.8))
    art.leave(key, art.cut(curve(MANTLE, True), 1.0))
    art.leave(key, art.cut([(458, 372), (498, 380), (552, 404), (500, 402), (452, 400)], 0.6))
    art.gouge(key, [[(300, 560), (330, 600), (322, 650)], [(330, 500), (352, 560), (344, 622)],
                    [(352, 462), (376, 520), (366, 590)], [(282, 612), (296, 640), (288, 680)]], 6)
    art.gouge(key, [[(338, 392), (286, 452), (258, 540)], [(334, 400), (296, 470), (276, 556)]], 7)
    art.clear(key, filled(UPRIGHT, ellipse(436, 372, 12, 12)))
    art.leave(key, filled(UPRIGHT, ellipse(438, 372, 6.5, 6.5)))
    for x in (362, 398):
        leg = ribbon(curve([(x + 4, 640), (x, 700), (x - 4, 772)]), 12, (1, 1))
        art.clear(key, filled(UPRIGHT, ribbon(curve([(x + 4, 650), (x, 700), (x - 4, 768)]), 22)))
        art.leave(key, art.cut(leg, 0.6))
    feathers = [[(424, 470 + d), (434 - d / 9, 490 + d), (428 - d / 6, 512 + d)]
                for d in (0, 40, 80, 120)]
    for feather in feathers:
        art.leave(key, filled(UPRIGHT, ribbon(curve(feather), 3.4, (0.2, 0.2))))


def river_fox(seed: int):
    """A fox on its way along the river at dusk."""
    art = Linocut(WIDE, seed, "#f2e8d4")
    rust = np.zeros(WIDE[::-1], np.float32)
    art.leave(rust, art.cut(curve(FOX, True, 5), 0.8))
    for leg in FAR_LEGS:
        art.leave(rust, art.cut(curve(leg, True, 5), 0.8))
    art.leave(rust, art.cut(ellipse(852, 168, 78, 78), 0.8))
    art.clear(rust, art.cut(curve([(150, 498), (176, 440), (226, 404), (232, 446), (204, 486)],
                                  True), 1.5))
    art.clear(rust, art.cut(curve([(782, 398), (742, 392), (706, 404), (668, 446), (668, 470),
                                   (712, 430), (752, 420)], True), 1.0))
    art.pull(rust, "#c2592b", (-1.4, 1.0))
    key = art.block()
    fox_land(art, key)
    fox_beast(art, key)
    art.pull(key, "#1d3a34")
    return art.sheet


def fox_land(art: Linocut, key) -> None:
    """Sky, poplars, the far bank, the river, the near bank with its grasses."""
    rng = art.rng
    sky = [(34, 34), (1016, 34), (1016, 300), (820, 286), (600, 306), (330, 284), (34, 304)]
    art.clear(key, art.cut(sky, 1.6), 0.5, 3)
    for x, height, width in ((92, 214, 46), (150, 250, 54), (214, 190, 44), (268, 226, 48),
                             (962, 206, 46), (1004, 170, 40)):
        tree = curve([(x, 302), (x - width / 2, 240), (x - width / 3, 300 - height * 0.75),
                      (x, 300 - height), (x + width / 3, 300 - height * 0.72),
                      (x + width / 2, 244)], True)
        art.leave(key, art.cut(tree, 2.2))
        art.gouge(key, [[(x + d, 284), (x + d * 1.2, 300 - height * 0.45), (x + d * 0.4,
                        300 - height * 0.82)] for d in (-13, 0, 12)], 4)
    lines = []
    for y in np.arange(322, 560, 12):
        x = rng.uniform(30, 110)
        while x < 1000:
            reach = rng.uniform(60, 240)
            lines.append([(x, y), (x + reach / 2, y + rng.normal(0, 3)), (min(x + reach, 1014), y)])
            x += reach + rng.uniform(20, 80)
    art.gouge(key, lines, 6)
    bank = curve([(34, 590), (220, 606), (480, 612), (760, 602), (1016, 580)], step=6)
    art.leave(key, filled(WIDE, np.vstack([bank, [(1016, 716), (34, 716)]])))
    tufts = []
    for _ in range(150):
        x, y = rng.uniform(50, 1000), rng.uniform(640, 706)
        tip = (x + rng.normal(0, 22), y - rng.uniform(26, 70))
        tufts.append([(x, y), ((x + tip[0]) / 2 - 4, (y + tip[1]) / 2), tip])
    art.gouge(key, tufts, 5)


def fox_beast(art: Linocut, key) -> None:
    """The fox cleared from the key block; socks, ears, eye and fur left standing."""
    body = art.cut(curve(FOX, True, 5), 0.8)
    for leg in FAR_LEGS:
        art.clear(key, cv2.dilate(art.cut(curve(leg, True, 5), 0.8), np.ones((7, 7))))
        art.leave(key, filled(WIDE, ribbon(curve(leg[:3]), 4.5, (0.2, 0.6))))
    art.clear(key, cv2.dilate(body, np.ones((8, 8))))
    for sock in ([(376, 566), (346, 540), (318, 618), (356, 620)],
                 [(660, 520), (692, 514), (720, 608), (682, 608)],
                 [(436, 562), (472, 558), (498, 604), (496, 612), (458, 612)],
                 [(574, 560), (606, 560), (584, 612), (546, 612)]):
        art.leave(key, art.cut(sock, 1.0))
    for ear in ([(722, 284), (712, 326), (704, 318)], [(660, 274), (668, 318), (650, 316)]):
        art.leave(key, art.cut(ear, 0.6))
    art.leave(key, filled(WIDE, blade((722, 372), (746, 378), 11)))
    art.leave(key, filled(WIDE, ellipse(779, 397, 9, 7)))
    rng = art.rng
    for x in range(420, 640, 26):
        for row in range(3):
            at = (x + row * 9 + rng.normal(0, 3), 376 + row * 26 + rng.normal(0, 3))
            mark = curve([at, (at[0] - 12, at[1] + 4), (at[0] - 24, at[1] + 12)], step=3)
            art.leave(key, filled(WIDE, ribbon(mark, 4.0, (0.2, 0.1))))
    for x in range(210, 390, 24):
        mark = curve([(x, 396 + (390 - x) * 0.16), (x - 16, 408 + (390 - x) * 0.2),
                      (x - 30, 424 + (390 - x) * 0.24)], step=3)
        art.leave(key, filled(WIDE, ribbon(mark, 4.2, (0.2, 0.1))))


def heron_back(seed: int):
    """The back of the heron: a hand-cut stamp, what it is, and which of twenty."""
    rng = np.random.default_rng(seed)
    sheet = paper(UPRIGHT, colour("#ece3d0"), rng, 0.03)
    ink = np.zeros(UPRIGHT[::-1], np.uint8)
    for y, text, height in ((250, "Night heron", 52), (352, "linocut, two blocks", 32),
                            (444, "3/20", 46), (536, "I. Okafor, 2026", 34)):
        lettered(ink, text, (92, y), height, rng)
    for y in (268, 370, 462, 554):
        stamped(ink, ribbon(wobble(along([(86, y), (664, y)], 6), 0.6, 9, rng), 1.6), 0.35)
    over(sheet, colour("#2b3350"), ink.astype(np.float32) / 255 * 0.9)
    stamp = np.zeros(UPRIGHT[::-1], np.uint8)
    for toe in (-44, 0, 44, 176):
        tip = (540 + 118 * np.sin(np.radians(toe)), 800 - 118 * np.cos(np.radians(toe)))
        stamped(stamp, blade((540, 800), tip, 20, 8))
    press = np.clip(0.85 + 0.2 * rng.standard_normal(stamp.shape), 0, 1) * stamp / 255
    return over(sheet, colour("#14323d"), press.astype(np.float32))


PICTURES = {
    "night-heron": Picture(night_heron, back=heron_back),
    "river-fox": Picture(river_fox, wide=True),
}
