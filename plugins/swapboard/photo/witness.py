"""What the network says that sees a card's place closely, and from farther away its neighbours.

Who looks closely sees the welds of an empty pocket as a card's sides; who sees what lies beside it
too, that the table goes on in it.
"""

import numpy as np

from swapboard.photo.networks import FAR_MARGIN, MARGIN, VIEW, Networks
from swapboard.photo.refining import log_odds
from swapboard.photo.warps import Pyramid, tall_first, warp_of


def witnessed(
    pyramid: Pyramid, size: tuple[int, int], quad: np.ndarray, networks: Networks
) -> float:
    """How likely a card lies on a quadrilateral [4, 2] px of a picture of `size` (w, h) px, 0–1.

    Seen either way up, the odds averaged.
    """
    quad = tall_first(quad)
    near, far = (warp_of(pyramid, size, quad, VIEW, margin)[0] for margin in (MARGIN, FAR_MARGIN))
    said = [networks.place(near, far), networks.place(near[::-1, ::-1], far[::-1, ::-1])]
    return float(1 / (1 + np.exp(-log_odds(np.array(said)).mean())))
