"""What was drawn: every card of the board by its name, in `PICTURES`."""

from . import (
    collages,
    embroideries,
    gouaches,
    graphites,
    linocuts,
    pens,
    pyrographies,
    starters,
    watercolours,
)
from .picture import Picture

PICTURES: dict[str, Picture] = dict(sorted({
    **collages.PICTURES, **embroideries.PICTURES, **gouaches.PICTURES, **graphites.PICTURES,
    **linocuts.PICTURES, **pens.PICTURES, **pyrographies.PICTURES, **starters.PICTURES,
    **watercolours.PICTURES,
}.items()))
