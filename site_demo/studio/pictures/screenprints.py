"""Sachi Morinobe's screenprints: a week of weather, five inks at most."""

from ..cartoon import Cartoon
from ..hands.screenprint import screenprinted
from ..line import box, curve, ellipse, ribbon
from ..motifs.creatures import bird, cat
from ..motifs.things import arch_bridge, house, kettle, kite, sail_boat, street_lamp, umbrella
from ..sheet import UPRIGHT, WIDE
from .grounds import rain, ridge, ripples, stars
from .picture import Picture

PAPER, CORAL, TEAL, INK, SUN, SKY = ("#f3ecdc", "#e2604a", "#3f8f93", "#1f2f46", "#f2b73f",
                                     "#a9cfcf")


def monday_rain(seed: int):
    """Three umbrellas one below the other on their way up a street."""
    art = Cartoon(UPRIGHT, SKY)
    art.add(TEAL, *rain((0, 0, 780, 1000), 120, 3, 22, 60, 6))
    art.add(INK, [(-4, 1054), (-4, 880), (754, 790), (754, 1054)])
    for x, y, s, one, two in ((470, 300, 1.35, CORAL, PAPER), (240, 560, 1.7, SUN, CORAL),
                              (500, 800, 2.1, CORAL, SUN)):
        art.place(umbrella(one, two, INK), x, y, s, -8)
    art.add(SKY, *ripples((60, 880, 700, 1000), 26, 5, 150, 7))
    return screenprinted(art, seed)


def tuesday_wind(seed: int):
    """Kites over a bare hill, one of them lost."""
    art = Cartoon(UPRIGHT, PAPER)
    art.add(SKY, ellipse(380, 330, 300, 250))
    art.add(TEAL, *[ribbon(curve([(40, y), (220, y - 40), (420, y + 20), (720, y - 50)]), 9,
                           (0.1, 0.1)) for y in (170, 330, 520, 640)])
    art.add(SUN, ridge(UPRIGHT, 850, 60, 4, 1))
    art.add(CORAL, ridge(UPRIGHT, 940, 34, 9, 1))
    for x, y, s, turn, one, two in ((230, 260, 1.25, 24, CORAL, INK),
                                    (540, 420, 0.95, 38, INK, SUN),
                                    (610, 150, 0.55, 60, CORAL, SUN)):
        art.place(kite(one, two, INK), x, y, s, turn)
    art.add(INK, ribbon(curve([(150, 480), (300, 740), (372, 862)]), 3),
            ribbon(curve([(430, 600), (420, 760), (392, 870)]), 3))
    art.add(INK, ellipse(372, 852, 13, 14), curve([(356, 868), (388, 866), (400, 936), (350, 938)],
                                                  True))
    return screenprinted(art, seed, fades={SKY: (0.75, 0.12)})


def wednesday_fog(seed: int):
    """A bridge whose far end is gone."""
    art = Cartoon(WIDE, SKY)
    art.add(PAPER, ellipse(840, 170, 62, 62))
    art.add(TEAL, ridge(WIDE, 420, 50, 3, 2))
    art.add(SKY, ridge(WIDE, 446, 16, 7, 2))
    art.place(arch_bridge(INK, CORAL, 4), 380, 470, 1.5)
    art.add(SKY, box(-4, 588, 1054, 754))
    art.add(TEAL, *ripples((40, 610, 1010, 720), 60, 4, 190, 7))
    art.add(PAPER, *[curve([(560 + 70 * k, 300 + 50 * k), (800, 280 + 52 * k), (1060, 300 + 46 * k),
                            (1060, 336 + 50 * k), (820, 330 + 52 * k)], True) for k in range(6)])
    for x in (200, 330):
        art.place(street_lamp(INK, SUN), x, 196, 0.62)
    return screenprinted(art, seed, fades={TEAL: (0.35, 0.95)})


def thursday_sun(seed: int):
    """Washing between two poles, everything dry by noon."""
    art = Cartoon(WIDE, PAPER)
    art.add(SUN, ellipse(790, 190, 105, 105))
    art.add(SKY, ridge(WIDE, 470, 40, 12, 2))
    art.add(TEAL, ridge(WIDE, 600, 24, 5, 1))
    line = curve([(110, 190), (520, 262), (950, 176)])
    art.add(INK, ribbon(line, 4), box(98, 150, 116, 690), box(940, 136, 958, 690))
    for x, tint in ((190, CORAL), (610, CORAL)):
        art.add(tint, [(x, 226), (x + 30, 214), (x + 96, 218), (x + 128, 232), (x + 160, 300),
                       (x + 120, 322), (x + 112, 470), (x + 16, 470), (x + 8, 316),
                       (x - 34, 292)])
    art.add(INK, [(392, 244), (506, 262), (500, 490), (462, 490), (450, 330), (430, 488),
                  (390, 486)])
    art.add(SKY, [(806, 226), (906, 208), (912, 420), (800, 430)])
    art.add(PAPER, *[box(806, y, 910, y + 14) for y in (262, 312, 362)])
    art.add(INK, *[box(x, 206, x + 8, 250) for x in (204, 300, 400, 494, 630, 722, 812, 892)])
    art.place(cat(INK, CORAL), 250, 620, 0.75)
    return screenprinted(art, seed, fades={SKY: (0.9, 0.35)})


def friday_thunder(seed: int):
    """Lightning over a row of roofs."""
    art = Cartoon(UPRIGHT, INK)
    art.add(TEAL, box(-4, -4, 754, 120), *[ellipse(x, y, w, w * 0.62) for x, y, w in
                                          ((60, 120, 130), (250, 150, 120), (420, 120, 130),
                                           (600, 160, 140), (720, 110, 100))])
    art.add(SUN, [(430, 150), (300, 420), (392, 410), (286, 690), (520, 350), (424, 356),
                  (540, 150)])
    art.add(TEAL, *rain((30, 230, 740, 800), 60, 8, 30, 70, 5))
    art.add(SUN, [(430, 150), (300, 420), (392, 410), (286, 690), (520, 350), (424, 356),
                  (540, 150)])
    for x, y, s, wall in ((120, 880, 1.15, CORAL), (330, 900, 1.3, PAPER), (560, 880, 1.2, CORAL),
                          (720, 910, 1.1, PAPER)):
        art.place(house(wall, TEAL, SUN, INK), x, y, s)
    art.add(INK, box(-4, 1000, 754, 1054))
    return screenprinted(art, seed)


def saturday_snow(seed: int):
    """A lamp, its circle of falling snow, and one line of footprints."""
    art = Cartoon(UPRIGHT, INK)
    art.add(TEAL, ellipse(390, 330, 300, 300))
    art.add(SKY, ellipse(390, 330, 190, 190))
    art.add(PAPER, ridge(UPRIGHT, 850, 30, 6, 1))
    art.place(street_lamp(INK, SUN), 390, 460, 1.75)
    art.add(PAPER, *stars((30, 40, 720, 830), 150, 5, 10))
    art.add(TEAL, *[ellipse(150 + 46 * k + 14 * (k % 2), 1000 - 24 * k + 20 * (k % 2), 13, 7, -24)
                    for k in range(5)])
    art.add(CORAL, curve([(330, 880), (352, 860), (420, 862), (450, 884), (400, 900)], True))
    return screenprinted(art, seed)


def sunday_clear(seed: int):
    """Birds on wires, a boat going home under the first star."""
    art = Cartoon(WIDE, CORAL)
    art.add(PAPER, ellipse(330, 440, 186, 186))
    art.add(SUN, ellipse(330, 440, 150, 150))
    art.add(TEAL, box(-4, 460, 1054, 754))
    art.add(SUN, *ripples((210, 480, 450, 720), 30, 3, 150, 8))
    art.place(sail_boat(INK, PAPER, PAPER, INK), 770, 500, 1.15)
    for y in (120, 180, 240):
        art.add(INK, ribbon(curve([(-10, y - 30), (500, y + 34), (1060, y - 20)]), 4))
    for x, y, flip in ((170, 72, False), (262, 80, True), (560, 88, False), (866, 188, False),
                       (700, 153, True), (420, 152, False)):
        art.place(bird(INK, INK, INK, INK), x, y, 0.5, 0, flip)
    art.add(PAPER, *stars((870, 60, 960, 130), 1, 2, 16))
    return screenprinted(art, seed)


def corner_kettle(seed: int):
    """A kettle whistling on a blue flame."""
    art = Cartoon(UPRIGHT, SUN)
    art.add(CORAL, box(-4, 760, 754, 1054))
    art.add(PAPER, *[box(x, y, x + 120, y + 120) for x in range(-20, 760, 132)
                     for y in (50, 182, 314, 446, 578)])
    art.add(SKY, *[curve([(600, 420), (640 + 24 * k, 330 - 40 * k), (570 + 50 * k, 250 - 30 * k),
                          (650 + 20 * k, 150 - 10 * k), (690 + 20 * k, 260 - 20 * k)], True)
                   for k in range(2)])
    art.place(kettle(TEAL, INK, CORAL), 350, 560, 2.6)
    art.add(SKY, curve([(180, 560), (200, 500), (260, 470), (250, 540), (214, 680)], True))
    art.add(INK, box(130, 790, 580, 820), *[box(x, 820, x + 22, 880) for x in (150, 340, 538)])
    art.add(SKY, *[curve([(x, 880), (x + 16, 826), (x + 32, 880)], True)
                   for x in range(190, 520, 50)])
    return screenprinted(art, seed, fades={PAPER: (0.9, 0.9)})


PICTURES = {
    "corner-kettle": Picture(corner_kettle),
    "friday-thunder": Picture(friday_thunder),
    "monday-rain": Picture(monday_rain),
    "saturday-snow": Picture(saturday_snow),
    "sunday-clear": Picture(sunday_clear, wide=True),
    "thursday-sun": Picture(thursday_sun, wide=True),
    "tuesday-wind": Picture(tuesday_wind),
    "wednesday-fog": Picture(wednesday_fog, wide=True),
}
