"""What was drawn: every card of the board by its name, in `PICTURES`."""

from . import (
    alcohol_inks,
    collages,
    coloured_pencils,
    cross_stitches,
    cut_papers,
    cyanotypes,
    embroideries,
    etchings,
    felts,
    gel_plates,
    gouaches,
    graphites,
    linocuts,
    oils,
    pastels,
    pens,
    pyrographies,
    scratchboards,
    screenprints,
    stamps,
    starters,
    watercolours,
)
from .picture import Picture

MODULES = (
    alcohol_inks,
    collages,
    coloured_pencils,
    cross_stitches,
    cut_papers,
    cyanotypes,
    embroideries,
    etchings,
    felts,
    gel_plates,
    gouaches,
    graphites,
    linocuts,
    oils,
    pastels,
    pens,
    pyrographies,
    scratchboards,
    screenprints,
    stamps,
    starters,
    watercolours,
)
PICTURES: dict[str, Picture] = dict(sorted(
    (name, picture) for module in MODULES for name, picture in module.PICTURES.items()
))
