"""Ana Quillay's felt and cotton patches: the animals and hills above her valley."""

import numpy as np

from ..cartoon import Cartoon
from ..hands.felt import sewn
from ..line import blade, box, curve, ellipse, ribbon, rotated
from ..motifs.creatures import fish, hummingbird, llama
from ..motifs.things import house, kite
from ..sheet import UPRIGHT, WIDE
from .grounds import peaks, ridge, snow_caps
from .picture import Picture


def llama_blanket(seed: int):
    """A llama in her best blanket."""
    art = Cartoon(UPRIGHT, "#d9a23f")
    art.add("#b8482f", ellipse(190, 230, 104, 104))
    art.add("#5f8a5a", ridge(UPRIGHT, 800, 30, 3, 1))
    art.add("#3f6a55", ridge(UPRIGHT, 930, 22, 6, 1))
    art.place(llama("#f2ead8", "#c23f6a", "#f2c24a", "#4a3a34"), 350, 640, 2.1)
    return sewn(art, seed, "#fff6e0")


def terraces(seed: int):
    """Terraced hills, each field another print."""
    art = Cartoon(WIDE, "#9cc4cf")
    art.add("#e9b64a", ellipse(820, 150, 80, 80))
    hills = peaks(WIDE, 380, 260, 9, 3)
    art.add("#7d7aa5", hills)
    art.add("#f6f2e8", *snow_caps(hills, 0.36, 3))
    for y, rise, tint, seed_of in ((370, 30, "#c85f4a", 3), (450, 26, "#e3b64f", 5),
                                   (530, 30, "#5f8f6a", 8), (620, 20, "#a8496a", 12),
                                   (700, 12, "#3f6f7a", 15)):
        art.add(tint, ridge(WIDE, y, rise, seed_of, 2))
    art.place(house("#f4e8d0", "#8a3f2f", "#3f5a6a", "#6a4a3a"), 300, 430, 0.72)
    return sewn(art, seed, "#f7eeda", {"#c85f4a": "#f3d9b0", "#5f8f6a": "#dfe8b8",
                                       "#a8496a": "#f2b8c0", "#e3b64f": "#b8612f"})


def hummingbird_card(seed: int):
    """A hummingbird at a red flower."""
    art = Cartoon(UPRIGHT, "#e8dfc8")
    stem = curve([(640, 1060), (600, 760), (640, 520), (560, 330)])
    art.add("#4f7a4a", ribbon(stem, 20))
    for root, tip in (((606, 800), (440, 880)), ((612, 700), (730, 620)), ((634, 560), (720, 430))):
        art.add("#6a9a58", blade(root, tip, 70, 14))
    for x, y, turn in ((520, 300, 200), (600, 600, 150)):
        bell = curve([(0, -24), (90, -60), (120, -50), (104, 0), (120, 50), (90, 60), (0, 24)],
                     True)
        art.add("#c8323f", rotated(bell, turn) + (x, y))
        art.add("#f2c24a", rotated(ribbon([(90, 0), (150, 4)], 12), turn) + (x, y))
    art.place(hummingbird("#2f8f7a", "#4a6ab0", "#d84a7a", "#2a2a30"), 220, 420, 1.75)
    return sewn(art, seed, "#fbf3df")


def cactus_pots(seed: int):
    """Three cactuses in printed pots on a sill."""
    art = Cartoon(WIDE, "#c9d6c8")
    art.add("#a8683f", box(-6, 620, 1056, 756))
    for x, high, wide, pot in ((220, 250, 82, "#c8503f"), (520, 330, 70, "#3f6f9a"),
                               (820, 190, 112, "#d9a03f")):
        green = "#4f8a5a" if x != 520 else "#6a9a4f"
        art.add(green, curve([(x - wide, 500), (x - wide, 500 - high * 0.7), (x, 480 - high),
                              (x + wide, 500 - high * 0.7), (x + wide, 500)], True))
        if x == 520:
            art.add(green, curve([(x + 50, 420), (x + 130, 410), (x + 140, 300), (x + 176, 300),
                                  (x + 172, 440), (x + 60, 470)], True))
        art.add("#f2ead0", *[ribbon([(x + dx, 470 - dy), (x + dx + 8, 458 - dy)], 6)
                             for dx in (-36, 0, 36) for dy in range(20, int(high * 0.8), 54)],
                line=0)
        art.add("#d84a7a", *[ellipse(x + 24 * np.cos(a), 470 - high + 24 * np.sin(a), 20, 13,
                                     np.degrees(a)) for a in np.arange(0, 6.2, 1.05)], line=0)
        art.add("#f2c24a", ellipse(x, 470 - high, 13, 13), line=0)
        art.add(pot, [(x - 100, 480), (x + 100, 480), (x + 74, 650), (x - 74, 650)])
    return sewn(art, seed, "#fff4dc", {"#c8503f": "#f6d9a0", "#3f6f9a": "#cfe0ea",
                                       "#d9a03f": "#7a3f2f"})


def kite_day(seed: int):
    """Two kites over the roofs, sewn on a wheat sack."""
    art = Cartoon(UPRIGHT, "#8fb0c0")
    for x, y, w in ((190, 220, 120), (560, 420, 150), (240, 640, 110)):
        art.add("#f4f0e6", ellipse(x, y, w, 40), ellipse(x - 40, y - 24, w * 0.5, 40),
                ellipse(x + 36, y - 30, w * 0.45, 38))
    art.place(kite("#d8503f", "#f2c24a", "#3a3f5a"), 480, 260, 1.5, 22)
    art.place(kite("#7a4f9a", "#6ab09a", "#3a3f5a"), 200, 430, 1.0, -16)
    for x, y, wall in ((130, 900, "#e9d9b8"), (370, 920, "#d98a5f"), (620, 900, "#b8c9a0")):
        art.place(house(wall, "#8a3f3f", "#3f5a7a", "#5a4030"), x, y, 1.2)
    return sewn(art, seed, "#fdf5e0", {"#e9d9b8": "#b8804a"})


def lake_fish(seed: int):
    """A fish of many cottons."""
    art = Cartoon(WIDE, "#2f5a78")
    for k, tint in enumerate(("#3f7a94", "#25486a")):
        art.add(tint, ridge(WIDE, 560 + 90 * k, 26, 4 + k, 4))
    art.place(fish("#e8884a", "#c83f5a", "#f6dca0", "#f2c860"), 540, 340, 3.1)
    art.add("#8fc4a0", *[blade((x, 760), (x + dx, 560), 40, dx / 2)
                         for x, dx in ((90, 30), (160, -26), (930, 40), (1000, -30))])
    art.add("#dfeef0", *[ellipse(930 + 20 * (k % 2), 260 - 64 * k, 22 - 3 * k, 22 - 3 * k)
                         for k in range(4)], line=0)
    return sewn(art, seed, "#fff2d8", {"#e8884a": "#f8d8a8", "#c83f5a": "#f2b0b0"})


PICTURES = {
    "cactus-pots": Picture(cactus_pots, wide=True),
    "hummingbird": Picture(hummingbird_card),
    "kites-over-roofs": Picture(kite_day),
    "lake-fish": Picture(lake_fish, wide=True),
    "llama-best-blanket": Picture(llama_blanket),
    "terraces": Picture(terraces, wide=True),
}
