"""Ilka Dunavölgyi's cross stitch: counted from squared paper, borders first."""

import numpy as np

from ..cartoon import Cartoon
from ..hands.cross_stitch import CELL, crossed
from ..line import box, ellipse
from ..motifs.creatures import bird, rooster
from ..motifs.growing import crown, spruce, tulip
from ..motifs.things import cup, house
from ..sheet import UPRIGHT, WIDE
from .grounds import ridge, stars
from .picture import Picture

RED, BLUE, GREEN, GOLD, DARK, CLOTH = ("#b3262f", "#2f4f8a", "#3f6f45", "#d9a034", "#3a2a2c",
                                       "#efe7d6")


def squares(*cells: tuple[int, int], size=UPRIGHT) -> list[np.ndarray]:
    """Single stitches by (column, row)."""
    left, top = size[0] % CELL // 2, size[1] % CELL // 2
    return [box(left + c * CELL, top + r * CELL, left + (c + 1) * CELL, top + (r + 1) * CELL)
            for c, r in cells]


def border(art: Cartoon, tint: str, other: str) -> None:
    """A zigzag with a stitch in each fold, all the way round."""
    columns, rows = art.size[0] // CELL, art.size[1] // CELL
    fold = (0, 1, 2, 1)
    zigzag, dots = [], []
    for c in range(2, columns - 2):
        zigzag += [(c, 2 + fold[c % 4]), (c, rows - 3 - fold[c % 4])]
        if c % 4 == 0 and 5 < c < columns - 6:
            dots += [(c, 4), (c, rows - 5)]
    for r in range(6, rows - 6):
        zigzag += [(2 + fold[r % 4], r), (columns - 3 - fold[r % 4], r)]
        if r % 4 == 0:
            dots += [(4, r), (columns - 5, r)]
    art.add(tint, *squares(*zigzag, size=art.size))
    art.add(other, *squares(*dots, size=art.size))


def rooster_card(seed: int):
    """The rooster off the flour tin."""
    art = Cartoon(UPRIGHT, CLOTH)
    border(art, RED, BLUE)
    art.add(GREEN, box(100, 790, 650, 830))
    art.place(rooster(RED, BLUE, "#d8452f", GOLD), 380, 560, 2.0)
    for x in (150, 230, 560, 620):
        art.place(tulip(RED, "#7d1a24", GREEN, GREEN), x, 860, 0.62)
    return crossed(art, seed)


def house_sampler(seed: int):
    """A house, two trees, and everybody's initials left out."""
    art = Cartoon(WIDE, CLOTH)
    border(art, GREEN, RED)
    art.place(house(GOLD, RED, BLUE, DARK), 525, 390, 1.75)
    for x in (230, 820):
        art.place(spruce(GREEN, 4), x, 420, 1.0)
    art.add(GREEN, box(90, 566, 960, 604))
    art.place(bird(BLUE, DARK, "#7d9fd0", GOLD), 300, 180, 0.7)
    art.place(bird(BLUE, DARK, "#7d9fd0", GOLD), 760, 180, 0.7, 0, True)
    return crossed(art, seed)


def tulip_row(seed: int):
    """Five tulips, no two reds alike."""
    art = Cartoon(WIDE, CLOTH)
    border(art, BLUE, RED)
    for k, (tint, dark) in enumerate(((RED, "#7d1a24"), ("#d8652f", "#a8401f"), (GOLD, "#b07a1f"),
                                      ("#c84a7a", "#8a2a50"), ("#8a3a8a", "#5a245f"))):
        art.place(tulip(tint, dark, GREEN, "#5f8f55"), 205 + 160 * k, 390, 1.35)
    return crossed(art, seed)


def tea_time(seed: int):
    """A cup with a heart on it, on a checked cloth."""
    art = Cartoon(UPRIGHT, CLOTH)
    border(art, BLUE, GOLD)
    for r in range(56, 80):
        art.add(BLUE if (r // 4) % 2 else "#7d9fd0",
                *squares(*[(c, r) for c in range(7, 55) if (c // 4 + r // 4) % 2]))
    art.place(cup("#f7f3ea", "#8a4f2f", RED), 365, 560, 2.2)
    heart = ["0110110", "1111111", "1111111", "0111110", "0011100", "0001000"]
    art.add(RED, *squares(*[(27 + c, 47 + r) for r, row in enumerate(heart)
                            for c, bit in enumerate(row) if bit == "1"]))
    art.add("#9fb4c4", *squares(*[(24 + 6 * k + (r // 3) % 2, 26 + r) for k in range(3)
                                  for r in range(9)]))
    return crossed(art, seed)


def winter_lights(seed: int):
    """A cottage under many stars, sewn on navy."""
    art = Cartoon(UPRIGHT, "#24304f")
    art.add("#f2e6b8", *stars((60, 60, 690, 480), 46, 4, 11))
    art.add("#f6ecc8", ellipse(560, 200, 84, 84))
    art.add("#24304f", ellipse(528, 184, 76, 76))
    art.add("#dfe7f0", ridge(UPRIGHT, 760, 26, 3, 1))
    for x, y, s in ((130, 640, 1.3), (640, 620, 1.4), (240, 690, 0.8)):
        art.place(spruce("#4f8a72", 5), x, y, s)
    art.place(house("#9a4a3a", "#f4f6fa", "#f8cf5a", "#4a2c24"), 420, 690, 1.25)
    art.add("#b9c9dc", ridge(UPRIGHT, 880, 22, 9, 1))
    return crossed(art, seed, cloth="#24304f")


def apple_tree(seed: int):
    """An apple tree with exactly twenty-four apples."""
    art = Cartoon(UPRIGHT, CLOTH)
    border(art, GREEN, GOLD)
    art.place(crown(GREEN, "#5f8f4a", "#6a4a30", 4), 375, 560, 3.1)
    apples = [(20 + 5 * c + (r % 2) * 2, 29 + 5 * r) for r in range(4) for c in range(6)]
    art.add(RED, *squares(*[(c + a, r + b) for c, r in apples for a in (0, 1) for b in (0, 1)]))
    art.add(GREEN, box(110, 920, 640, 948))
    art.place(bird(BLUE, DARK, GOLD, DARK), 560, 868, 0.7, 0, True)
    return crossed(art, seed)


PICTURES = {
    "apple-tree-sampler": Picture(apple_tree),
    "flour-tin-rooster": Picture(rooster_card),
    "house-sampler": Picture(house_sampler, wide=True),
    "tea-time": Picture(tea_time),
    "tulip-row": Picture(tulip_row, wide=True),
    "winter-lights": Picture(winter_lights),
}
