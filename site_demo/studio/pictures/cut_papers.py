"""Pekka Lounavaara's cut papers: seven lit windows, and the forest behind the house."""

import numpy as np

from ..cartoon import Cartoon, Motif
from ..hands.cut_paper import CutPaper
from ..line import blade, box, curve, ellipse, ribbon
from ..motifs.creatures import bird, cat, hare, moth
from ..motifs.growing import spruce, tulip
from ..motifs.things import cup, jug, lamp, sail_boat
from ..sheet import UPRIGHT
from .grounds import ridge, stars
from .picture import Picture

WALLS = ("#27364f", "#3a2f48", "#24443f", "#4a3036", "#2d3a3a", "#3b3a52", "#20384c")


def placed(motif: Motif, x: float, y: float, scale: float = 1.0, turn: float = 0.0,
           flip: bool = False) -> Motif:
    """A motif's pieces at their place on the card."""
    art = Cartoon(UPRIGHT, "#ffffff")
    art.place(motif, x, y, scale, turn, flip)
    return art.pieces


def lit_window(seed: int, glow: str = "#ffd98a") -> CutPaper:
    """The lit room behind a window, `glow` its brightest light; `close_wall` comes last."""
    art = CutPaper(UPRIGHT, seed, "#e8a94e")
    art.glow(375, 480, 300, glow, 1.0)
    return art


def close_wall(art: CutPaper, wall: str, panes: tuple[int, int], arched: bool = False) -> None:
    """Bars, frame, wall and sill over what stands in the window."""
    left, top, right, bottom = 160, 190, 590, 800
    opening = box(left, top, right, bottom)
    if arched:
        opening = np.vstack([ellipse(375, 400, 215, 210, 0, 180, 360), [(right, bottom),
                                                                       (left, bottom)]])
    columns, rows = panes
    bars = [box(left + (right - left) * k / columns - 7, top - 10,
                left + (right - left) * k / columns + 7, bottom) for k in range(1, columns)]
    bars += [box(left, top + (bottom - top) * k / rows - 6, right,
                 top + (bottom - top) * k / rows + 6) for k in range(1, rows)]
    art.tier("#f1e7d0", *bars, depth=0.6)
    grown = np.array([(x + (22 if x > 375 else -22), y + (22 if y > 480 else -22))
                      for x, y in opening])
    art.tier("#f1e7d0", grown, holes=[opening], depth=0.8)
    art.tier(wall, box(-10, -10, 760, 1060), holes=[grown], depth=1.3)
    art.tier("#e6d9bd", box(left - 60, bottom + 16, right + 60, bottom + 50), depth=1.1)


def window_cat(seed: int):
    """The cat who waits."""
    art = lit_window(seed)
    art.tier("#c9873d", curve([(160, 190), (260, 190), (240, 420), (190, 640), (160, 660)], False),
             curve([(590, 190), (490, 190), (510, 420), (560, 640), (590, 660)], False))
    art.motif("#26211f", placed(cat("#000000", "#000000"), 400, 668, 1.35))
    close_wall(art, WALLS[0], (2, 2))
    art.tier("#3f5878", *[blade((x, 1040), (x + dx, 880), 22, dx / 3)
                          for x, dx in ((90, -30), (130, 20), (640, 30), (690, -10))])
    return art.sheet


def window_lamp(seed: int):
    """A lamp and a jug, nobody home."""
    art = lit_window(seed, "#fff0b8")
    art.motif("#a4632f", placed(jug("#000000", "#000000"), 290, 690, 0.95))
    art.motif("#d9b36a", placed(tulip("#000000", "#000000", "#000000", "#000000"), 270, 470, 0.8,
                                -10))
    art.motif("#7a3f2c", placed(lamp("#000000", "#000000"), 460, 640, 1.5))
    close_wall(art, WALLS[1], (2, 3))
    return art.sheet


def window_moth(seed: int):
    """A moth as large as it seemed."""
    art = lit_window(seed, "#fff3cf")
    close_wall(art, WALLS[2], (1, 1), arched=True)
    art.motif("#7a5540", placed(moth("#000000", "#000000", "#000000", "#000000"), 400, 470, 1.75,
                                24), 1.2)
    art.tier("#e8d9b8", *[one for piece in placed(moth("#000000", "#000000", "#000000", "#000000"),
                                                  400, 470, 1.75, 24)
                          for one in piece.outlines if len(one) < 95 and np.ptp(one[:, 0]) < 60],
             depth=0.3)
    return art.sheet


def window_plants(seed: int):
    """Somebody's seedlings, all leaning one way."""
    art = lit_window(seed, "#f6e58e")
    for x, tall, tint in ((230, 260, "#5f7d3c"), (375, 360, "#496b38"), (510, 220, "#6d8a41")):
        art.tier(tint, ribbon(curve([(x, 720), (x + 8, 720 - tall / 2), (x + 36, 720 - tall)]), 9),
                 *[blade((x + 6, 700 - k), (x + side * 76 + 20, 660 - k), 34, 8)
                   for k in range(40, tall, 62) for side in (-1, 1)], depth=0.7)
        art.tier("#a6522f", [(x - 50, 700), (x + 50, 700), (x + 36, 800), (x - 36, 800)])
    close_wall(art, WALLS[3], (3, 2))
    return art.sheet


def window_reader(seed: int):
    """A reader with a cup beside the chair."""
    art = lit_window(seed)
    art.tier("#8a5a34", *[box(190 + 46 * k, 240 + 10 * (k % 3), 224 + 46 * k, 330)
                          for k in range(8)], box(180, 330, 580, 346))
    art.tier("#4b2d2a", curve([(300, 800), (300, 560), (330, 500), (400, 490), (430, 540),
                               (430, 640), (560, 650), (560, 800)], True))
    art.tier("#2b2226", ellipse(420, 470, 48, 54), curve([(370, 470), (380, 410), (430, 396),
                                                          (474, 420), (470, 450), (420, 440),
                                                          (400, 500)], True),
             curve([(360, 800), (366, 580), (410, 524), (460, 540), (480, 640), (520, 700),
                    (520, 800)], True))
    art.tier("#f4ead0", [(462, 612), (500, 560), (540, 584), (504, 640)],
             [(504, 640), (540, 584), (578, 572), (556, 626)])
    art.motif("#a4432f", placed(cup("#000000", "#000000", "#000000"), 226, 756, 0.6))
    close_wall(art, WALLS[4], (2, 3))
    return art.sheet


def window_boat(seed: int):
    """A ship model, sailing on the sill."""
    art = lit_window(seed, "#ffe0a8")
    art.tier("#d98f45", ellipse(470, 330, 70, 70), depth=0.4)
    ship = placed(sail_boat("hull", "sail", "jib", "hull"), 370, 610, 1.6)
    for part, tint in (("hull", "#5b3428"), ("sail", "#fbf3df"), ("jib", "#f2dfc0")):
        art.motif(tint, [one for one in ship if one.tint == part], 0.5)
    art.tier("#3b2620", box(290, 740, 450, 756), box(320, 752, 336, 800), box(404, 752, 420, 800))
    close_wall(art, WALLS[5], (2, 2), arched=True)
    return art.sheet


def window_bird(seed: int):
    """Outside for once: a bird on the bar, the room all dark, a moon in the glass."""
    art = CutPaper(UPRIGHT, seed, "#1d2c44")
    art.glow(330, 420, 200, "#5a7fae", 0.8)
    art.tier("#f3e3b0", ellipse(310, 380, 78, 78), depth=0.5)
    art.tier("#f6efdc", *stars((180, 210, 570, 620), 26, 4, 8), depth=0.3)
    art.tier("#16202f", ridge(UPRIGHT, 690, 50, 4, 3))
    close_wall(art, WALLS[6], (2, 2))
    art.tier("#7d5136", ribbon(curve([(60, 640), (380, 600), (760, 632)]), 16, (0.6, 0.4)),
             *[blade((x, 616), (x + dx, 560), 24, 6) for x, dx in ((140, -40), (560, 36),
                                                                   (650, 60))])
    art.motif("#c95f3c", placed(bird("#000000", "#000000", "#000000", "#000000"), 360, 520, 1.1), 1)
    return art.sheet


def forest(seed: int):
    """Five sheets of spruces, a hare in the gap, the moon behind all of it."""
    art = CutPaper(UPRIGHT, seed, "#f0d9a0")
    art.glow(380, 330, 210, "#fff6d8", 1.0)
    art.tier("#fffaf0", ellipse(390, 310, 120, 120), depth=0.4)
    rng = np.random.default_rng(9)
    for row, (tint, y, s, count) in enumerate((("#a9c4b4", 480, 1.0, 7), ("#7ba393", 580, 1.25, 6),
                                               ("#4f7f74", 690, 1.5, 5))):
        trees = []
        for k in range(count):
            x = 750 * (k + rng.uniform(0.2, 0.8)) / count
            trees += placed(spruce("#000000"), x, y - 150 * s + rng.uniform(-30, 30), s)
        art.tier(tint, ridge(UPRIGHT, y + 10, 16, row + 2, 2),
                 *[one for piece in trees for one in piece.outlines])
    art.tier("#e9efe6", ridge(UPRIGHT, 840, 26, 3, 1))
    art.motif("#8a5a3c", placed(hare("#000000", "#000000", "#000000"), 400, 800, 0.85))
    sides = placed(spruce("#000000", 8), 60, 620, 2.9) + placed(spruce("#000000", 8), 700, 660, 2.7)
    art.tier("#1f3f3f", *[one for piece in sides for one in piece.outlines], depth=1.4)
    art.tier("#f6f7f0", ridge(UPRIGHT, 970, 22, 8, 1), depth=1.2)
    return art.sheet


PICTURES = {
    "deep-in-the-spruces": Picture(forest),
    "window-bird": Picture(window_bird),
    "window-boat": Picture(window_boat),
    "window-cat": Picture(window_cat),
    "window-lamp": Picture(window_lamp),
    "window-moth": Picture(window_moth),
    "window-reader": Picture(window_reader),
    "window-seedlings": Picture(window_plants),
}
