"""Ines Okafor's gouaches: flat shapes, few colours."""

import numpy as np

from ..hands.gouache import Gouache
from ..line import blade, box, curve, ellipse, ribbon
from ..sheet import UPRIGHT, WIDE
from .picture import Picture


def teapot(seed: int):
    """A blue teapot, a cup and lemons on a striped cloth."""
    art = Gouache(UPRIGHT, seed, "#efe2cc")
    art.lay("#dfa183", box(28, 28, 722, 640), 84, 0.16)
    art.lay("#f1dfc2", box(70, 62, 330, 430), 90, 0.1)
    art.lay("#9fc1c4", box(92, 84, 308, 408), 12, 0.12)
    art.lay("#7fa59a", curve([(92, 408), (92, 330), (150, 290), (210, 322), (262, 300), (308, 330),
                              (308, 408)], False), 8, 0.1)
    art.lay("#f1dfc2", box(193, 80, 207, 412), 90)
    art.lay("#f3e7cf", [(28, 616), (722, 596), (722, 1022), (28, 1022)], 2, 0.1)
    for x in range(60, 760, 92):
        art.lay("#c9553f", [(x, 612), (x + 26, 611), (x * 1.24 - 78, 1022), (x * 1.24 - 122, 1022)],
                84, 0.32)
    art.lay("#b98368", curve([(250, 800), (420, 776), (640, 800), (700, 836), (560, 866), (300,
                                                                                           850)],
                             True), 3, 0.25)
    teapot_pot(art)
    teapot_fruit(art)
    return art.sheet


def teapot_pot(art: Gouache) -> None:
    """Spout, handle, belly, lid; light from the window on the left."""
    art.lay("#20405a", curve([(560, 560), (640, 540), (690, 600), (672, 690), (596, 740), (578,
                                                                                           716),
                              (634, 672), (652, 612), (622, 578), (566, 596)], True), 60)
    art.lay("#2b5673", curve([(318, 590), (262, 560), (238, 500), (206, 480), (196, 492), (212,
                                                                                           540),
                              (236, 640), (318, 720)], True), 60)
    art.lay("#2b5673", curve([(300, 640), (330, 560), (400, 516), (500, 516), (566, 560), (596,
                                                                                           650),
                              (580, 750), (520, 812), (380, 812), (320, 752)], True), 70)
    art.lay("#20405a", curve([(520, 540), (578, 590), (596, 660), (578, 752), (520, 812), (440,
                                                                                           812),
                              (520, 760), (548, 680), (544, 600)], True), 80, 0.28)
    art.lay("#78a7b5", curve([(340, 640), (360, 580), (400, 548), (394, 600), (366, 690)], True),
            70,
            0.4)
    art.lay("#244a66", curve([(364, 522), (396, 480), (450, 466), (504, 480), (536, 522), (450,
                                                                                           540)],
                             True), 4)
    art.lay("#e7b93e", ellipse(450, 452, 22, 18))
    for x in range(352, 580, 38):
        art.dabs("#efe2cc", [ellipse(x, 690 + 0.0009 * (x - 450) ** 2, 9, 9),
                             ellipse(x, 660, 3.5, 9)])
    art.stroke("#efe2cc", [(318, 730), (450, 752), (584, 728)], 6, 0.2)


def teapot_fruit(art: Gouache) -> None:
    """A cup at the left, three lemons, one of them cut, and a sprig of leaves."""
    art.lay("#f8f1e0", curve([(96, 706), (252, 700), (246, 790), (206, 836), (146, 838), (106,
                                                                                          796)],
                             True), 60)
    art.lay("#b4684a", ellipse(174, 706, 74, 17), 4)
    art.lay("#d9cdb6", curve([(216, 716), (250, 712), (244, 790), (206, 834), (176, 836), (212,
                                                                                           796)],
                             True), 70, 0.2)
    art.lay("#f8f1e0", ribbon(ellipse(92, 760, 30, 34, 0, 80, 290), 13))
    art.lay("#a9745b", curve([(330, 930), (470, 900), (640, 930), (600, 968), (380, 970)], True), 3,
            0.3)
    for x, y, turn in ((372, 880, -18), (592, 890, 24)):
        art.lay("#e9b52f", lemon(x, y, turn), turn)
        art.lay("#f7d860", lemon(x - 10, y - 14, turn, 0.62), turn, 0.35)
        art.lay("#c98d25", curve(np.asarray(ellipse(x + 6, y + 30, 56, 16, turn)), True), turn, 0.5)
    art.lay("#f3d04c", ellipse(484, 926, 56, 54))
    art.lay("#fbf3d6", ellipse(484, 926, 46, 44))
    for turn in range(0, 360, 45):
        art.lay("#f0c93f", blade((484 + 6 * np.cos(np.radians(turn)), 926 + 6 * np.sin(
            np.radians(turn))), (484 + 41 * np.cos(np.radians(turn)), 926 + 39 * np.sin(
                np.radians(turn))), 24), turn)
    for root, tip, tint in (((640, 862), (706, 790), "#4f7a55"), ((632, 868), (712, 860),
                                                                  "#6c9463"),
                            ((636, 860), (650, 776), "#3d6349")):
        art.lay(tint, blade(root, tip, 34, 8), 30)


def lemon(x: float, y: float, turn: float, share: float = 1.0):
    """The outline of a lemon, nippled at both ends."""
    from ..line import rotated

    body = curve([(-92, -4), (-74, -14), (-40, -48), (20, -52), (62, -22), (80, -6), (90, 2),
                  (78, 14), (56, 36), (6, 54), (-48, 42), (-76, 12)], True) * share
    return rotated(body, turn) + (x, y)


ROOFS = ("#c4593a", "#b24c35", "#d06e48", "#a9432f")
WALLS = ("#f5e9d2", "#eeddc0", "#f7efdf", "#e8cfae")


def hill_village(seed: int):
    """White houses up a hill, cypresses, late sun."""
    art = Gouache(WIDE, seed, "#efe0c4")
    art.lay("#f3c98b", box(26, 26, 1024, 724), 2, 0.12)
    art.lay("#f0b077", box(26, 250, 1024, 400), 1, 0.5)
    art.lay("#fbeec6", ellipse(842, 178, 66, 66))
    art.lay("#8ba3a6", curve([(26, 360), (150, 296), (300, 330), (470, 262), (640, 318), (830, 276),
                              (1024, 330), (1024, 520), (26, 520)]), 6, 0.1)
    art.lay("#6f8f86", curve([(26, 450), (200, 396), (420, 430), (640, 372), (860, 408), (1024,
                                                                                          380),
                              (1024, 600), (26, 600)]), 4, 0.12)
    art.lay("#93a25c", curve([(26, 640), (190, 560), (330, 400), (470, 300), (560, 286), (660, 340),
                              (800, 470), (930, 590), (1024, 620), (1024, 724), (26, 724)]), 20,
            0.08)
    art.lay("#7d8d4c", curve([(26, 690), (300, 606), (560, 596), (800, 640), (1024, 690),
                              (1024, 724), (26, 724)]), 2, 0.25)
    village(art)
    olive_rows(art)
    return art.sheet


def village(art: Gouache) -> None:
    """Houses in rows up to the bell tower, nearer ones over farther ones."""
    rng = art.rng
    tower(art, 556, 236)
    rows = ((318, 470, 660, 4, 0.72), (372, 408, 716, 6, 0.84), (436, 352, 782, 7, 0.94),
            (506, 270, 846, 8, 1.05))
    for base, left, right, count, scale in rows:
        for number in range(count):
            x = left + (right - left) * (number + rng.uniform(0.1, 0.5)) / count
            house(art, x, base + rng.uniform(-12, 16), scale * rng.uniform(0.86, 1.14))
            if rng.random() < 0.42:
                cypress(art, x + 62 * scale, base + 24, scale)


def tower(art: Gouache, x: float, y: float) -> None:
    """The bell tower at the top."""
    art.lay("#f7efdf", box(x - 24, y - 86, x + 26, y + 70), 90)
    art.lay("#d9bd97", box(x + 8, y - 86, x + 26, y + 70), 90, 0.1)
    art.lay("#b24c35", [(x - 32, y - 84), (x + 1, y - 132), (x + 34, y - 84)], 20)
    art.lay("#4a4a55", ribbon(np.array([(x - 4, y - 66), (x - 4, y - 30)]), 15))


def house(art: Gouache, x: float, base: float, scale: float) -> None:
    """One house: lit front, shaded side, roof, a few windows."""
    rng = art.rng
    w, h = rng.uniform(54, 78) * scale, rng.uniform(52, 74) * scale
    side = w * 0.42
    wall, roof = WALLS[rng.integers(4)], ROOFS[rng.integers(4)]
    art.lay(wall, box(x, base - h, x + w, base + 12), 88)
    art.lay("#c9a987", box(x + w, base - h, x + w + side, base + 12), 88, 0.06)
    art.lay(roof, [(x - 7, base - h + 3), (x + w * 0.2, base - h - 25 * scale),
                   (x + w + side * 0.62, base - h - 25 * scale), (x + w + 2, base - h + 4)], 4)
    art.lay("#8f3a2b", [(x + w, base - h + 3), (x + w + side * 0.62, base - h - 25 * scale),
                        (x + w + side + 5, base - h + 3)], 60)
    panes = [box(x + w * s, base - h * 0.72, x + w * s + 9 * scale, base - h * 0.72 + 15 * scale)
             for s in (0.16, 0.62)]
    art.dabs("#4f6a74", panes)
    if rng.random() < 0.5:
        art.dabs("#7a4a36", [box(x + w * 0.38, base - h * 0.36, x + w * 0.38 + 13 * scale,
                                 base + 12)])


def cypress(art: Gouache, x: float, base: float, scale: float) -> None:
    """A cypress, dark, lit along its right."""
    art.lay("#2f5145", blade((x, base), (x + 2, base - 128 * scale), 30 * scale), 86)
    art.lay("#53754f", blade((x + 6, base - 10), (x + 5, base - 104 * scale), 9 * scale), 86, 0.4)


def olive_rows(art: Gouache) -> None:
    """Olives in rows on the near slope."""
    rng = art.rng
    for row, y in enumerate((600, 640, 684)):
        for x in np.arange(60 + row * 24, 1010, 74 + row * 8):
            x += rng.uniform(-10, 10)
            if row == 0 and 220 < x < 900:
                continue
            r = 16 + row * 4
            art.dabs("#5f7245", [ellipse(x + 7, y + r * 0.9, r * 1.3, r * 0.24)])
            art.dabs("#71895f", [ellipse(x, y, r, r * 0.84), ellipse(x + r * 0.7, y + 4, r * 0.8,
                                                                   r * 0.7)])
            art.dabs("#a3b583", [ellipse(x + r * 0.3, y - r * 0.35, r * 0.5, r * 0.34)])


PICTURES = {
    "blue-teapot": Picture(teapot),
    "hill-village": Picture(hill_village, wide=True),
}
