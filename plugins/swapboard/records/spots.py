"""Where a card is: a photo, a point in it, a keeper's own four corners."""

import re

from swapboard.records.fields import Fields
from swapboard.records.header import Field
from swapboard.records.types import Corners, PhotoSpot

_NUMBER = r"\d{1,6}(?:\.\d{1,6})?"
_AT = re.compile(rf"(.+?)\s+at\s+({_NUMBER})\s*%\s*,?\s*({_NUMBER})\s*%", re.IGNORECASE)
# A corner may lie a little outside the photo.
_CORNER = re.compile(rf"(-?{_NUMBER})\s*(%?)\s+(-?{_NUMBER})\s*(%?)")
SPOT_FIX = "write a file of photos/, like heron.jpg, or table.jpg at 41% 22%."
IN_QUOTES = re.compile(r"""["'“”„‘’«»](.+)["'“”„‘’«»]""")
# A path on the keeper's own computer, of whatever system.
_ELSEWHERE = re.compile(r"[/~]|[^\n]*[\\:]")
CORNERS_FIX = (
    "give the four corners clockwise from the card's top left, like "
    "412 230, 1288 244, 1301 1470, 398 1455, all in pixels or all with %."
)
# Below this share of the whole quadrilateral a corner is no corner.
_FLATTEST = 0.02


def read_spot(fields: Fields, key: str) -> PhotoSpot | None:
    """`heron.jpg`, or `table.jpg at 41% 22%`: shares of width and height."""
    if (field := fields.get(key)) is None:
        return None
    file, at = field.value, None
    if found := _AT.fullmatch(file):
        file, at = found[1], (float(found[2]) / 100, float(found[3]) / 100)
        if max(at) > 1:
            return fields.bad(field, "must be a point between 0% and 100%", fix=SPOT_FIX)
    elif "%" in file:
        return fields.bad(field, "must be a file, or a file at two percentages", fix=SPOT_FIX)
    parts = file.split("/")
    if bare := IN_QUOTES.fullmatch(file):
        return fields.bad(field, "must stand without quotes", fix=f"write {bare[1].strip()}.")
    if file.startswith("photos/"):
        return fields.bad(field, "must be a name inside photos/", fix=f"write {file[7:]}.")
    if _ELSEWHERE.match(file) or "\n" in file or not all(p.strip(". ") for p in parts):
        fix = _spot_fix(file) if _ELSEWHERE.match(file) else SPOT_FIX
        return fields.bad(field, "must be the name of one file in photos/", fix=fix)
    return PhotoSpot(file, at)


def _spot_fix(file: str) -> str:
    """How to name a picture that lies elsewhere on the keeper's computer."""
    name = re.split(r"[/\\]", file)[-1].strip()
    if "\n" in file or not name.strip(". ") or ":" in name:
        return SPOT_FIX
    return f"put the picture into photos/ and write {name}; swapboard add card does both."


def read_corners(fields: Fields, key: str) -> Corners | None:
    """Four corners, clockwise from the card's top left in the upright picture."""
    if (field := fields.get(key)) is None:
        return None
    corners = [_CORNER.fullmatch(part.strip()) for part in re.split(r"[,;\n]", field.value)]
    if len(corners) != 4 or not all(corners):
        return fields.bad(field, "must be four corners", fix=CORNERS_FIX)
    marks = {mark for corner in corners for mark in (corner[2], corner[4])}
    if len(marks) > 1:
        return fields.bad(field, "must be all in pixels or all in percent", fix=CORNERS_FIX)
    shares = marks == {"%"}
    scale = 100 if shares else 1
    points = tuple((float(corner[1]) / scale, float(corner[3]) / scale) for corner in corners)
    return _checked(fields, field, Corners(points, shares))


def _checked(fields: Fields, field: Field, corners: Corners) -> Corners | None:
    """The corners if they are a convex quadrilateral, clockwise with y downwards."""
    parts = [part for point in corners.points for part in point]
    if corners.shares and not -0.5 <= min(parts) <= max(parts) <= 1.5:
        must = "must be in the photo, or less than half of it away"
        return fields.bad(field, must, fix=CORNERS_FIX)
    area = sum(_cross((0, 0), p, q) for p, q in _sides(corners.points)) / 2
    turns = [_cross(*three) / 2 for three in _corners_in_turn(corners.points)]
    if abs(area) < (1e-4 if corners.shares else 100):
        return fields.bad(field, "must enclose a card", fix=CORNERS_FIX)
    if all(turn < 0 for turn in turns):
        return fields.bad(field, "must run clockwise", fix=CORNERS_FIX)
    if min(turns) < _FLATTEST * abs(area):
        must = "must be the corners of a convex shape, in turn"
        return fields.bad(field, must, fix=CORNERS_FIX)
    return corners


def _sides(points):
    return [(points[i], points[(i + 1) % 4]) for i in range(4)]


def _corners_in_turn(points):
    return [(points[i - 1], points[i], points[(i + 1) % 4]) for i in range(4)]


def _cross(origin, a, b) -> float:
    """Twice the signed area of a triangle, positive when clockwise (y downwards)."""
    return (a[0] - origin[0]) * (b[1] - origin[1]) - (a[1] - origin[1]) * (b[0] - origin[0])
