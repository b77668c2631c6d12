"""Tables in private/, as keepers, spreadsheets and the commands write them: one reader."""

import csv
import io
import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from swapboard.disk.contain import contained
from swapboard.disk.trouble import problem_of
from swapboard.problems import Problem
from swapboard.taking.types import MAIL_TABLE, Row
from swapboard.vocabulary import slug

LARGEST = 4 * 1024 * 1024
_WHOSE = ("maker", "name", "who", "from", "to")


@dataclass(frozen=True, slots=True)
class Table:
    """A table as rows of texts without empty ones, the first being its heading; the line
    that each row ends on; its separator, and how its lines end."""

    rows: tuple[tuple[str, ...], ...]
    lines: tuple[int, ...] = ()
    separator: str = ","
    ending: str = "\n"

    @property
    def columns(self) -> tuple[str, ...]:
        """The heading in lower case, underscores as spaces."""
        heading = self.rows[0] if self.rows else ()
        return tuple(cell.strip().casefold().replace("_", " ") for cell in heading)

    def cells(self) -> list[tuple[int, dict[str, str]]]:
        """Each row below the heading with its line: what stands in its columns."""
        return [
            (line, dict(zip(self.columns, (cell.strip() for cell in row), strict=False)))
            for line, row in zip(self.lines[1:], self.rows[1:], strict=True)
        ]

    def is_of(self, row: tuple[str, ...], names: frozenset[str]) -> bool:
        """Whether a row is somebody's, whose slugs are `names`."""
        cells = zip(self.columns, row, strict=False)
        return any(column in _WHOSE and cell.strip() and slug(cell) in names
                   for column, cell in cells)

    def text(self, rows: tuple[tuple[str, ...], ...] | None = None) -> str:
        """The table, or other rows of its kind, as it is written."""
        out = io.StringIO()
        writer = csv.writer(out, delimiter=self.separator, lineterminator=self.ending)
        writer.writerows(self.rows if rows is None else rows)
        return out.getvalue()


def table_of(text: str) -> Table:
    """A table from its text; the separator is that of its heading. Raises csv.Error."""
    text = text.removeprefix("\ufeff")
    heading = re.split(r"[\r\n]", text.lstrip("\r\n"), maxsplit=1)[0]
    # Spreadsheets write the separator that their language uses.
    separator = max(",;\t", key=heading.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator)
    rows = [(reader.line_num, tuple(row)) for row in reader if any(map(str.strip, row))]
    return Table(tuple(row for _, row in rows), tuple(line for line, _ in rows), separator,
                 "\r\n" if "\r\n" in text else "\n")


def split_rows(table: Table, names: frozenset[str]) -> tuple[Table, Table]:
    """The rows that are somebody's, and all others, each with the heading."""
    parts = []
    for theirs in (True, False):
        kept = [0, *(place for place in range(1, len(table.rows))
                     if table.is_of(table.rows[place], names) == theirs)]
        kept = kept if table.rows else []
        parts.append(Table(tuple(table.rows[place] for place in kept),
                           tuple(table.lines[place] for place in kept),
                           table.separator, table.ending))  # fmt: skip
    return parts[0], parts[1]


def read_text(board: Path, path: str) -> tuple[str | None, list[Problem]]:
    """A private table's text, None where it is not there or cannot be read."""
    file = board / path
    if not file.exists() and not file.is_symlink():
        return None, []
    if not contained(board, file) or not file.is_file():
        must = "must be a file inside the board's folder"
        return None, [Problem(path, 0, "", must, None, "put the file itself there.")]
    try:
        with file.open("rb") as opened:
            data = opened.read(LARGEST + 1)
        if len(data) > LARGEST:
            raise ValueError
        text = data.decode("utf-8")
        table_of(text)
        return text, []
    except OSError as error:
        return None, [problem_of(error, path)]
    except ValueError:
        must = "must be a table in UTF-8 of at most 4 MB"
        return None, [Problem(path, 0, "", must, None, "save it again as CSV in UTF-8.")]
    except csv.Error as error:
        must = "must be readable as CSV"
        return None, [Problem(path, 0, "", must, str(error), "mend its quotes.")]


def read_mails(board: Path) -> tuple[dict[str, set[str]], list[Problem]]:
    """The addresses in private/mail.csv by maker, in lower case.

    The table has the columns `maker` (a name of makers/) and `mail`; others are the
    keeper's own. A maker may have several rows.
    """
    text, problems = read_text(board, MAIL_TABLE)
    table = table_of(text or "")
    found: dict[str, set[str]] = {}
    if table.rows and not {"maker", "mail"} <= set(table.columns):
        must, fix = "must have the columns maker and mail", "make its first line maker,mail."
        got = ",".join(table.columns)
        return {}, [*problems, Problem(MAIL_TABLE, 1, "", must, got, fix)]
    for _, cells in table.cells():
        maker, mail = cells.get("maker", ""), cells.get("mail", "")
        if maker and "@" in mail:
            found.setdefault(maker, set()).add(mail.lower())
    return found, problems


def with_rows(text: str, rows: Iterable[Row]) -> str:
    """A table's text with rows added below, by the names of its own columns; what it has
    no column for is put last. The text that was there stays as it is."""
    rows = list(rows)
    table = table_of(text)
    if not table.rows:
        text = ",".join(rows[0].columns) + table.ending
        table = table_of(text)
    more = []
    for row in rows:
        cells = dict(zip(row.columns, row.cells, strict=True))
        line = [cells.pop(column, "") for column in table.columns]
        more.append((*line, *cells.values()))
    return text + ("" if text.endswith("\n") else table.ending) + table.text(tuple(more))
