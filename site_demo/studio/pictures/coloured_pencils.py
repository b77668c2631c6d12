"""Oonagh Tiernan's coloured pencils: one thing a day, found and drawn before supper."""


from ..cartoon import Cartoon, piece
from ..hands.coloured_pencil import coloured
from ..line import blade, curve, ellipse, ribbon
from ..motifs.creatures import beetle, bird, snail
from ..motifs.growing import acorn, apple, beetroot, bolete, mushroom, oak_leaf
from ..motifs.things import feather, shell
from ..sheet import UPRIGHT, WIDE
from .grounds import tufts
from .picture import Picture

CARD = "#faf6ec"


def shade_under(art: Cartoon, x: float, y: float, wide: float, tint: str = "#b9b3bd") -> None:
    """The shadow a thing throws on the table."""
    art.add(tint, ellipse(x + wide * 0.16, y, wide, wide * 0.16), angle=4, line=0)


def toadstools(seed: int):
    """Two toadstools and a small one in moss."""
    art = Cartoon(UPRIGHT, CARD)
    art.add("#8fa45c", curve([(90, 810), (240, 740), (420, 752), (600, 746), (680, 816), (560, 890),
                              (240, 890)], True), angle=10, line=0)
    for x, y, s, turn in ((480, 580, 1.5, 7), (270, 510, 2.3, -4), (590, 740, 0.8, 12)):
        art.place(mushroom("#c8402f", "#ecd9b4", "#f0e6cc", "#fdf8ea"), x, y, s, turn)
    art.add("#6f8a44", *tufts((100, 790, 660, 870), 130, 4, 84, 9), angle=85, line=1)
    return coloured(art, seed)


def snail_day(seed: int):
    """A snail on the rim of a flower pot."""
    art = Cartoon(WIDE, CARD)
    art.add("#c27a4e", [(150, 470), (880, 470), (822, 770), (208, 770)], angle=88,
            shade=0.5)
    art.add("#d58d5e", [(110, 390), (920, 390), (905, 490), (125, 490)], angle=3, shade=0.5)
    art.add("#8a4f33", [(128, 486), (902, 486), (896, 510), (134, 510)], angle=3, line=0)
    art.place(snail("#b98a4a", "#6b4527", "#b7a88f"), 500, 280, 2.2)
    art.add("#7d9a54", blade((820, 392), (960, 130), 70, 30),
            blade((830, 392), (760, 150), 60, -20), angle=70, shade=0.5)
    return coloured(art, seed)


def beetroot_day(seed: int):
    """A beetroot with all its leaves on."""
    art = Cartoon(UPRIGHT, CARD)
    shade_under(art, 360, 880, 210)
    art.place(beetroot("#8e2f4f", "#5c1d36", "#b8405f", "#5d8a4a"), 370, 640, 2.0, 8)
    return coloured(art, seed)


def windfall(seed: int):
    """Three apples from under the tree, one with a hole in it."""
    art = Cartoon(WIDE, CARD)
    for x, y, s, turn, skin, blush in ((300, 400, 1.9, -14, "#c9b24a", "#c4452f"),
                                       (590, 360, 2.1, 10, "#c8452f", "#8f2b22"),
                                       (830, 500, 1.5, 62, "#b8bd55", "#d0763a")):
        shade_under(art, x, y + 80 * s, 110 * s)
        art.place(apple(skin, blush, "#5a4028", "#6d8f47"), x, y, s, turn)
    art.add("#3a2418", ellipse(640, 420, 17, 15), shade=0.4)
    return coloured(art, seed)


def oak_bits(seed: int):
    """An oak leaf and two acorns."""
    art = Cartoon(UPRIGHT, CARD)
    art.place(oak_leaf("#c58a3c", "#8a5424"), 330, 440, 3.1, -22)
    art.add("#8fa052", ellipse(250, 300, 40, 60, -30), ellipse(420, 400, 30, 44, 20), angle=60,
            line=0)
    for x, y, s, turn in ((500, 800, 1.5, 30), (300, 850, 1.25, -40)):
        shade_under(art, x, y + 96 * s, 60 * s)
        art.place(acorn("#a9b05a", "#8b6b42", "#5f452a"), x, y, s, turn)
    return coloured(art, seed)


def jay_feather(seed: int):
    """A barred blue feather, lying as it fell."""
    art = Cartoon(UPRIGHT, CARD)
    art.add("#c4bfc6", ellipse(420, 540, 70, 330, 20), angle=70, line=0)
    art.place(feather("#3f74b4", "#e8e4d8"), 370, 520, 2.7, 20)
    bars = [piece("#1d2c4c", ribbon(curve([(-34, 66 - 22 * k), (-14, 58 - 22 * k),
                                           (0, 62 - 22 * k)]), 6, (0.4, 0.6)), line=0)
            for k in range(9)]
    art.place(bars, 370, 520, 2.7, 20)
    return coloured(art, seed)


def whelk(seed: int):
    """A whelk shell with its stripes."""
    art = Cartoon(UPRIGHT, CARD)
    shade_under(art, 360, 860, 220)
    art.place(shell("#d9b78e", "#9a6a48"), 360, 560, 2.7, -6)
    art.add("#b98a68", *[ribbon(curve([(190 + 36 * k, 600 - 4 * k), (214 + 34 * k, 680),
                                       (246 + 30 * k, 750 - 2 * k)]), 4) for k in range(4)],
            angle=80, line=0)
    return coloured(art, seed)


def stag_beetle(seed: int):
    """A stag beetle on a bit of bark."""
    art = Cartoon(UPRIGHT, CARD)
    art.add("#a58a6a", curve([(120, 300), (300, 200), (560, 240), (660, 480), (610, 800),
                              (380, 900), (170, 800), (90, 520)], True), angle=64, shade=0.3)
    art.add("#6b5238", *[ribbon(curve([(170 + 90 * k, 330 + 20 * (k % 2)), (190 + 84 * k, 560),
                                       (180 + 80 * k, 800)]), 8, (0.2, 0.2)) for k in range(6)],
            angle=80, line=0)
    art.place(beetle("#5a2c22", "#2b2220", "#c98f7a"), 380, 560, 2.0, 18)
    return coloured(art, seed)


def penny_bun(seed: int):
    """Two stout brown mushrooms cut for supper, with a knife."""
    art = Cartoon(WIDE, CARD)
    for x, y, s, turn in ((320, 370, 2.2, -8), (600, 430, 1.6, 12)):
        shade_under(art, x, y + 104 * s, 90 * s)
        art.place(bolete("#8f5a32", "#d9c98a", "#e6d8b8"), x, y, s, turn)
    art.add("#7a4a2e", curve([(760, 650), (900, 600), (920, 626), (780, 680)], True), angle=-20,
            shade=0.7)
    art.add("#aab0b6", curve([(770, 640), (690, 690), (600, 704), (640, 690), (750, 620)], True),
            angle=-25, shade=0.3)
    return coloured(art, seed)


def robin(seed: int):
    """A robin on the handle of a spade."""
    art = Cartoon(UPRIGHT, CARD)
    art.add("#a7bfae", curve([(80, 200), (400, 110), (680, 260), (640, 720), (300, 800),
                              (110, 620)], True), angle=40, line=0)
    art.add("#8a6a48", ribbon([(380, 640), (360, 1010)], 46), ribbon([(240, 640), (520, 640)], 44),
            angle=88, shade=0.7)
    art.place(bird("#8b7355", "#6b5540", "#d8622e", "#4a3b2e"), 370, 440, 2.1)
    art.add("#d8622e", curve([(505, 305), (548, 340), (540, 400), (480, 460), (452, 400),
                              (470, 330)], True), angle=70, line=0)
    return coloured(art, seed)


PICTURES = {
    "beetroot": Picture(beetroot_day),
    "jay-feather": Picture(jay_feather),
    "oak-bits": Picture(oak_bits),
    "penny-bun": Picture(penny_bun, wide=True),
    "robin-on-a-spade": Picture(robin),
    "snail-on-the-pot": Picture(snail_day, wide=True),
    "stag-beetle": Picture(stag_beetle),
    "toadstools": Picture(toadstools),
    "whelk": Picture(whelk),
    "windfall": Picture(windfall, wide=True),
}
