"""Prices of very many columns, step by step, each step twice a look at every column.

The primal-dual hybrid gradient method (Chambolle & Pock 2011, "A first-order primal-dual
algorithm for convex problems") with diagonal steps (Pock & Chambolle 2011), pulled back
towards where it last began (Lu & Yang 2024, "Restarted Halpern PDHG for linear
programming"); it begins anew, and weighs shares against prices anew, as in Applegate et
al. 2021, "Practical large-scale linear programming using primal-dual hybrid gradient".
"""

import numpy as np

from swapboard.matching.effort import Effort
from swapboard.matching.prices import Matrix, Priced, worth_at
from swapboard.matching.rows import Rows

_LOOK = 20  # steps between looks at how far there is to go
_BOUND = 100  # steps between bounds
_FAR, _NEARER = 0.2, 0.8  # begin anew at so much of the distance; or at that, where it grows
_LONG = 0.36  # or after this share of all steps
_WEIGHT = 8.0  # prices move by so much more than shares, at first
_NEAR = 2e-4
_WORK = 6e8  # columns looked at in a minute, step by step
_MOST_STEPS = 20_000
_FAR_OFF = 0.3
_STAYS, _HARDLY = 3, 1e-4  # enough, when so many bounds better the first by no more
_DEARER = (1.005, 1.01, 1.02, 1.03)


def by_gradient(rows: Rows, columns: np.ndarray, effort: Effort) -> Priced:
    """The best prices of all `columns` that the effort allows, or those that more steps
    hardly better, or of shares that all but fit and are worth all but the bound."""
    descent = _Descent(rows, columns)
    best = descent.bound()
    bounds = [best.bound]
    steps = min(_MOST_STEPS, effort.steps(_WORK / max(1, len(columns))))
    while descent.steps < steps and not effort.over():
        descent.step()
        if descent.steps % _BOUND == 0:
            found = descent.bound()
            best = min((best, found), key=lambda priced: priced.bound)
            bounds.append(best.bound)
            if _settled(descent.whole, found.share, best.bound):
                break
            if len(bounds) > _STAYS and bounds[-1] > (1 - _HARDLY) * bounds[-1 - _STAYS]:
                break
    return min((best, descent.bound()), key=lambda priced: priced.bound)


class _Descent:
    """Shares and prices on their way; `last` are those before the pull back.

    Only columns that the prices do not rule out by far take part in the steps; which
    these are is looked up at each beginning. Bounds are always of the whole."""

    def __init__(self, rows: Rows, columns: np.ndarray) -> None:
        self._rows, self._columns = rows, columns
        self.whole = Matrix(rows, columns)
        self._weight = _WEIGHT
        self.steps = 0
        self._among = np.arange(len(columns))
        self.share, self.price = np.zeros(len(columns)), _plainly(rows)
        self.last = self.share, self.price
        self._use(self.whole)
        self._begin()

    def _use(self, matrix: Matrix) -> None:
        self.matrix = matrix
        full = matrix.load(np.ones(len(matrix.length)))
        self._free = full <= matrix.most
        self._of_share = 1.0 / np.maximum(1.0, matrix.weights())
        self._of_price = 1.0 / np.maximum(1.0, full)

    def _narrow(self) -> None:
        """Let go of the columns that are far from paying, take back those that are not."""
        share, price = self.last
        whole = np.zeros(len(self._columns))
        whole[self._among] = share
        self._among = np.flatnonzero((self.whole.gain(price) > -_FAR_OFF) | (whole > 0))
        self.share, self.price = whole[self._among], price
        self.last = self.share, self.price
        self._use(Matrix(self._rows, self._columns[self._among]))

    def step(self) -> None:
        """One step, and every now and then a new beginning."""
        matrix = self.matrix
        share = self._of_share / self._weight * matrix.gain(self.price)
        share = np.clip(self.share + share, 0.0, 1.0)
        load = matrix.load(2 * share - self.share) - matrix.most
        price = np.maximum(0.0, self.price + self._of_price * self._weight * load)
        price[self._free] = 0.0
        self.steps += 1
        self._since += 1
        self.last = share, price
        if self.steps % _LOOK == 0 and self._is_time():
            self._weigh()
            self._narrow()
            self._begin()
            return
        pull = 1.0 / (self._since + 1)
        self.share = (1 - pull) * (2 * share - self.share) + pull * self._from[0]
        self.price = (1 - pull) * (2 * price - self.price) + pull * self._from[1]

    def bound(self) -> Priced:
        """What the prices give. Prices a little too low let thousands of columns pay a
        little: dearer all round can bound better."""
        share, price = np.zeros(len(self._columns)), self.last[1]
        share[self._among] = self.last[0]
        tried = [worth_at(self.whole, share, price * dearer) for dearer in (1.0, *_DEARER)]
        return min(tried, key=lambda priced: priced.bound)

    def _begin(self) -> None:
        self._from = self.share, self.price
        self._since, self._first, self._before = 0, None, np.inf

    def _is_time(self) -> bool:
        share, price = self.last
        distance = self._distance(share - self.share, price - self.price)
        first = self._first = distance if self._first is None else self._first
        grows, self._before = distance > self._before, distance
        if self._since <= 2 * _LOOK:
            return False
        long = self._since > max(200, _LONG * self.steps)
        return distance < _FAR * first or (grows and distance < _NEARER * first) or long

    def _weigh(self) -> None:
        """Let shares and prices go as far as they have gone since the last beginning."""
        share, price = self.last
        by_share = np.sqrt(((share - self._from[0]) ** 2 / self._of_share).sum())
        by_price = np.sqrt(((price - self._from[1]) ** 2 / self._of_price).sum())
        if min(by_share, by_price) > 1e-9:
            self._weight = float(np.sqrt(self._weight * by_price / by_share))

    def _distance(self, share: np.ndarray, price: np.ndarray) -> float:
        by_share = (share**2 / self._of_share).sum() * self._weight
        return float(np.sqrt(by_share + (price**2 / self._of_price).sum() / self._weight))


def _plainly(rows: Rows) -> np.ndarray:
    """Prices to begin with, under which every card costs what it moves: one for each
    maker's room where that is less than their wants come to, else for each want."""
    if not len(rows.of_arc):
        return np.zeros(rows.count())
    pairs = np.unique(rows.of_arc[:, 1:3], axis=0)
    wish, room = pairs[:, 0], pairs[:, 1]
    wanted = np.bincount(room, rows.most[wish], rows.count())
    scarce = rows.most[room] < wanted[room]
    price = np.zeros(rows.count())
    price[room[scarce]] = 1.0
    price[wish[~scarce]] = 1.0
    return price


def _settled(matrix: Matrix, share: np.ndarray, bound: float) -> bool:
    """Whether shares that all but fit are worth all but the bound."""
    fits = (matrix.load(share) <= matrix.most * (1 + _NEAR) + _NEAR).all()
    return bool(fits) and bound - float(share @ matrix.length) < _NEAR * bound
