"""Very many columns: put one in, throw out what stands in its way, keep it or not by chance.

Simulated annealing (Kirkpatrick, Gelatt & Vecchi 1983, "Optimization by simulated
annealing") with ejections. Columns are tried some thousands at a time; those accepted that
share no row are changed together, which is the same as one after the other.
"""

import numpy as np

from swapboard.matching.effort import Effort
from swapboard.matching.exchanges import lengths
from swapboard.matching.rows import Rows

_TRIES = 24_000_000  # in a minute
_AT_ONCE = 2_000
_HOT, _COLD = 0.5, 0.1  # cards that a step may lose: its chance is e^(-lost / heat)
_SCARCE = 2.0  # at first a want that few columns fill counts by so much more
_WEIGHED = 20  # rounds
_ANYWHERE = 0.02  # share of the columns tried that need not fill a want with room


def annealed(
    columns: np.ndarray, rows: Rows, taken: np.ndarray, bound: int, effort: Effort, seed: int = 0
) -> np.ndarray:
    """The choice that moved the most cards in all the tries, `taken` at the least.

    Ends as soon as `bound` is reached. The same arguments give the same choice, unless
    the clock cuts it short.
    """
    state = _State(columns, rows, taken)
    chance = np.random.default_rng(seed)
    best, most = taken.copy(), state.moved
    rounds = effort.steps(_TRIES // _AT_ONCE)
    for at in range(rounds):
        heat = _HOT * (_COLD / _HOT) ** (at / rounds)
        if at % _WEIGHED == 0:
            state.weigh(_SCARCE * max(0.0, 1 - 1.25 * at / rounds))
        state.step(chance, heat)
        if state.moved > most:
            best[:], most = state.taken, state.moved
            if most >= bound:
                break
        if effort.over():
            break
    return best


class _State:
    """What is taken, and which column holds each place of each row.

    Row r has the places from `first[r]` on, as many as its limit, the first `used[r]` of
    which are held; the last row, with no limit, stands for all rows that limit nothing.
    `place[c]` are the places that column c holds while it is taken."""

    def __init__(self, columns: np.ndarray, rows: Rows, taken: np.ndarray) -> None:
        self.length = lengths(columns)
        none = rows.count()
        index, start = rows.of_columns(columns)
        often = np.bincount(index, minlength=none)
        binding = np.append(often > rows.most, False)
        of_arc = np.concatenate((rows.of_arc, np.full((1, 4), none)))
        of_arc = np.where(binding[of_arc], of_arc, none).astype(np.int32)
        longest = int(self.length.max(initial=2))
        self.rows = of_arc[columns[:, :longest]].reshape(len(columns), 4 * longest)
        most = np.append(np.where(binding[:-1], rows.most, 0), 0)
        self.first = (np.cumsum(most) - most).astype(np.int32)
        self.holder = np.full(int(most.sum()) + 1, -1, dtype=np.int32)
        self.most = np.where(binding, most, 1).astype(np.int32)
        self.used = np.zeros(none + 1, dtype=np.int32)
        self.none = none
        self.place = np.zeros(self.rows.shape, dtype=np.int32)
        self.taken = np.zeros(len(columns), dtype=bool)
        self.moved = 0
        self._of_wish(columns, rows, often)
        for column in np.flatnonzero(taken):
            self._put_in(np.array([column]))
        self._claim = np.full(none + 1, -1)

    def _of_wish(self, columns: np.ndarray, rows: Rows, often: np.ndarray) -> None:
        """The columns by the wants that they fill, and how scarce each want is."""
        longest = self.rows.shape[1] // 4
        at, step = np.nonzero(columns[:, :longest] >= 0)
        wish = rows.of_arc[columns[at, step], 1]
        order = np.argsort(wish, kind="stable")
        self._filling = at[order]
        self._wishes, self._begin = np.unique(wish[order], return_index=True)
        self._end = np.append(self._begin[1:], len(order))
        room = np.zeros(self.none + 1, dtype=np.int64)
        room[wish] = self.rows[at, 4 * step + 2]
        self._room = room[self._wishes]
        scarce = np.zeros(self.none + 1)
        scarce[self._wishes] = 1 / np.sqrt(1 + often[self._wishes] / rows.most[self._wishes])
        worth = np.append(scarce[rows.of_arc[:, 1]], 0.0)
        self.scarce = worth[columns].sum(axis=1)

    def weigh(self, scarce: float) -> None:
        """Let each column count as its cards, and its wants the more the scarcer they are."""
        self._worth = np.append(self.length + scarce * self.scarce, 0.0)

    def step(self, chance: np.random.Generator, heat: float) -> None:
        """Try some columns, and change what is accepted."""
        worth = self._worth
        tried = self._some(chance)
        out = self._in_the_way(tried, chance)
        gain = worth[tried] - worth[out].sum(axis=1)
        fine = chance.random(len(tried)) < np.exp(np.minimum(gain, 0.0) / heat)
        tried, out = tried[fine], out[fine]
        alone = self._alone(tried, out)
        tried, out = tried[alone], out[alone]
        for leaving in out.T:
            self._throw_out(leaving[leaving >= 0])
        self._put_in(tried)

    def _some(self, chance: np.random.Generator) -> np.ndarray:
        """Columns not taken, most of which fill a want that has room left."""
        room = self.used < self.most
        where = np.flatnonzero(room[self._wishes] & room[self._room])
        if not len(where):
            where = np.arange(len(self._wishes))
        wish = where[chance.integers(len(where), size=_AT_ONCE)]
        elsewhere = int(_ANYWHERE * _AT_ONCE)
        wish[:elsewhere] = chance.integers(len(self._wishes), size=elsewhere)
        size = self._end[wish] - self._begin[wish]
        tried = self._filling[self._begin[wish] + (chance.random(_AT_ONCE) * size).astype(int)]
        return tried[~self.taken[tried]]

    def _in_the_way(self, tried: np.ndarray, chance: np.random.Generator) -> np.ndarray:
        """For each column those that must leave for it, -1 between: where a row has
        several, one of them, that of the want where the maker's room is full as well."""
        mine = self.rows[tried]
        most = self.most[mine]
        row, step = np.nonzero(self.used[mine] == most)
        pick = (chance.random(len(tried), dtype=np.float32)[row] * most[row, step]).astype(np.int32)
        who = np.full(mine.shape, -1, dtype=np.int32)
        who[row, step] = self.holder[self.first[mine[row, step]] + pick]
        wish, room = who[:, 1::4], who[:, 2::4]
        who[:, 2::4] = np.where((wish >= 0) & (room >= 0), wish, room)
        who.sort(axis=1)
        who[:, 1:][who[:, 1:] == who[:, :-1]] = -1
        return who

    def _alone(self, tried: np.ndarray, out: np.ndarray) -> np.ndarray:
        """Those columns whose change touches no row that one before them touches."""
        out = out[:, (out >= 0).any(axis=0)]
        number = np.arange(len(tried))
        leaving = np.where(out[:, :, None] >= 0, self.rows[out], self.none)
        touched = np.concatenate((self.rows[tried], leaving.reshape(len(tried), -1)), axis=1)
        back = touched[::-1]
        self._claim[back.ravel()] = np.repeat(number[::-1], back.shape[1])
        mine = (self._claim[touched] == number[:, None]) | (touched == self.none)
        return mine.all(axis=1)

    def _throw_out(self, leaving: np.ndarray) -> None:
        """Columns that share no row leave; the last holder of a row takes the place."""
        if not len(leaving):
            return
        row, place = self.rows[leaving], self.place[leaving]
        real = row != self.none
        row, place = row[real], place[real]
        last = self.first[row] + self.used[row] - 1
        mover = self.holder[last]
        self.holder[place] = mover
        self.holder[last] = -1
        self.used[row] -= 1
        moved = np.flatnonzero(last != place)
        if len(moved):
            column = mover[moved]
            at = (self.rows[column] == row[moved, None]).argmax(axis=1)
            self.place[column, at] = place[moved]
        self.taken[leaving] = False
        self.moved -= int(self.length[leaving].sum())

    def _put_in(self, coming: np.ndarray) -> None:
        row = self.rows[coming]
        real = row != self.none
        place = self.first[row] + self.used[row]
        self.place[coming] = np.where(real, place, -1)
        self.holder[place[real]] = np.broadcast_to(coming[:, None], row.shape)[real]
        np.add.at(self.used, row[real], 1)
        self.taken[coming] = True
        self.moved += int(self.length[coming].sum())
