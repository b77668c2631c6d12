"""A page's view as one text, so that its digest tells whether the page has changed."""

from dataclasses import fields, is_dataclass
from typing import Any

from swapboard.views.types import CardTile, OfferTile, SwapTile

_SHARED = (CardTile, OfferTile, SwapTile)  # one object stands on many pages


class Teller:
    """Tells views apart by their text: equal texts mean equal views.

    `repr` would do, but spells out each tile anew on every page it is on. Views
    are frozen, so what was told of one once holds.
    """

    def __init__(self) -> None:
        self._names: dict[type, tuple[str, ...] | None] = {}
        self._known: dict[int, tuple[Any, str]] = {}

    def told(self, value: Any) -> str:
        """The text of a view: of its types, and of the values of all its fields."""
        kind = type(value)
        if kind is str:
            return repr(value)
        if kind is tuple:
            return f"({','.join([self.told(part) for part in value])})"
        names = self._names_of(kind)
        if names is None:
            return repr(value)
        if kind not in _SHARED:
            return self._spelt(value, kind, names)
        known = self._known.get(id(value))
        if known is None:
            # The tile is kept with its text, so that no other can get its id.
            known = self._known[id(value)] = (value, self._spelt(value, kind, names))
        return known[1]

    def _spelt(self, value: Any, kind: type, names: tuple[str, ...]) -> str:
        values = (getattr(value, name) for name in names)
        parts = [repr(part) if type(part) is str else self.told(part) for part in values]
        return f"{kind.__name__}({','.join(parts)})"

    def _names_of(self, kind: type) -> tuple[str, ...] | None:
        if kind not in self._names:
            named = tuple(field.name for field in fields(kind)) if is_dataclass(kind) else None
            self._names[kind] = named
        return self._names[kind]
