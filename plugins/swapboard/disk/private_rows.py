"""The tables of private/ row by row: whose a row is, and what is left without it."""

import csv
import io
from dataclasses import dataclass

from swapboard.vocabulary import slug

_WHOSE = ("maker", "name", "who", "from", "to")


@dataclass(frozen=True, slots=True)
class Table:
    """A table as rows of texts, the first being its heading, and its separator."""

    rows: tuple[tuple[str, ...], ...]
    separator: str = ","

    @property
    def columns(self) -> tuple[str, ...]:
        """The heading in lower case, underscores as spaces."""
        heading = self.rows[0] if self.rows else ()
        return tuple(cell.strip().casefold().replace("_", " ") for cell in heading)

    def is_of(self, row: tuple[str, ...], names: frozenset[str]) -> bool:
        """Whether a row is somebody's, whose slugs are `names`."""
        cells = zip(self.columns, row, strict=False)
        return any(column in _WHOSE and cell.strip() and slug(cell) in names
                   for column, cell in cells)

    def text(self, rows: tuple[tuple[str, ...], ...] | None = None) -> str:
        """The table, or other rows of its kind, as it is written."""
        out = io.StringIO()
        writer = csv.writer(out, delimiter=self.separator, lineterminator="\n")
        writer.writerows(self.rows if rows is None else rows)
        return out.getvalue()


def read_table(text: str) -> Table:
    """A table from its text; the separator is that of its heading. Raises csv.Error."""
    text = text.removeprefix("\ufeff")
    heading = text.partition("\n")[0]
    separator = max(",;\t", key=heading.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    return Table(tuple(tuple(row) for row in reader if any(cell.strip() for cell in row)),
                 separator)


def split_rows(table: Table, names: frozenset[str]) -> tuple[Table, Table]:
    """The rows that are somebody's, and all others, each with the heading."""
    heading, rows = table.rows[:1], table.rows[1:]
    theirs = tuple(row for row in rows if table.is_of(row, names))
    others = tuple(row for row in rows if not table.is_of(row, names))
    return Table(heading + theirs, table.separator), Table(heading + others, table.separator)
