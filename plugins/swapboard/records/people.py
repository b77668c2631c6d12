"""calls/NAME.people.csv: who takes part in a call, by public names only."""

import csv
import io
import re
from collections.abc import Iterable
from datetime import date

from swapboard.problems import Problem, did_you_mean
from swapboard.records.fields import DATE_FIX, parse_date
from swapboard.records.header import LARGEST_POST
from swapboard.records.private_words import private_in
from swapboard.records.types import Person
from swapboard.vocabulary import slug, tidy

COLUMNS = ("maker", "cards", "signed up", "arrived", "note")
# What is not among `COLUMNS` is written only where somebody has something there.
IN_ORDER = (
    "maker", "cards", "places", "standing", "signed up", "arrived", "sealed", "mailed",
    "received", "lost", "note",
)  # fmt: skip
STANDINGS = ("waiting", "left")
ENVELOPE = ("sealed", "mailed", "received", "lost")
_DAYS = ("signed up", "arrived", *ENVELOPE)
ENDING = ".people.csv"
MOST_ROWS = 1000
_HEADING_FIX = f"make the first line {','.join(COLUMNS)}"


def read_people(path: str, text: str) -> tuple[tuple[Person, ...], list[Problem]]:
    """The rows of a list of people, in the order of the file.

    The first row names the columns, in any order; `maker` has to be there.
    Names are not yet compared with the board's makers.
    """
    if len(text) > LARGEST_POST:
        fix = "keep the notes short."
        return (), [Problem(path, 0, "", "must be at most 256 kB", None, fix)]
    people: list[Person] = []
    problems: list[Problem] = []
    rows, columns, seen = _Rows(path, text, problems), None, {}
    for line, row in rows:
        if columns is None:
            columns = _columns(path, line, row, problems)
            if columns is None:
                return (), problems
        elif person := _person(path, line, row, columns, problems):
            if first := seen.get(slug(person.maker)):
                fix = f"keep one row for each maker; the first is on line {first}."
                must = "must stand in one row only"
                problems.append(Problem(path, line, "maker", must, person.maker, fix))
            seen.setdefault(slug(person.maker), line)
            people.append(person)
    if columns is None and not problems:
        must = "must begin with a row of column names"
        problems.append(Problem(path, 1, "", must, None, f"{_HEADING_FIX}."))
    return tuple(people), problems


class _Rows:
    """Rows with the line each begins on; what is not CSV is a problem and the end."""

    def __init__(self, path: str, text: str, problems: list[Problem]) -> None:
        self.path, self.problems = path, problems
        # Lines end as in a post: at CR, LF or both, and nowhere else.
        lines = re.split(r"\r\n|\n|\r", text.removeprefix("\ufeff"))
        self.reader = csv.reader((f"{line}\n" for line in lines), strict=True)

    def __iter__(self):
        begun, count = 1, 0
        try:
            for row in self.reader:
                if any(cell.strip() for cell in row):
                    count += 1
                    if count > MOST_ROWS + 1:
                        return self._problem(begun, "must have at most 1000 rows", "shorten it.")
                    yield begun, [tidy(cell) for cell in row]
                begun = self.reader.line_num + 1
        except csv.Error as error:
            fix = f'look at the quotes of this row; a note with a comma is "like, this" ({error}).'
            self._problem(begun, "must be readable as comma-separated values", fix)
        return None

    def _problem(self, line: int, must: str, fix: str) -> None:
        self.problems.append(Problem(self.path, line, "", must, None, fix))


def _columns(path: str, line: int, row: list[str], problems: list[Problem]) -> list[str] | None:
    columns = [cell.casefold().replace("_", " ") for cell in row]
    if len(columns) == 1 and re.search(r"[;\t]", row[0]):
        must = "must be parted by commas"
        problems.append(Problem(path, line, "", must, row[0], f"{_HEADING_FIX}."))
        return None
    bad = [cell for cell in columns if cell not in IN_ORDER]
    for cell in bad:
        fix = did_you_mean(cell, IN_ORDER) or f"{_HEADING_FIX}."
        problems.append(Problem(path, line, cell, "must be a column of this list", cell, fix))
    if len(set(columns)) < len(columns) or "maker" not in columns and not bad:
        must = "must name each column once, and maker among them"
        problems.append(Problem(path, line, "", must, ",".join(row), f"{_HEADING_FIX}."))
        return None
    return None if bad else columns


def _person(
    path: str, line: int, row: list[str], columns: list[str], problems: list[Problem]
) -> Person | None:
    """A row as a person; what cannot be read in it is left empty, with a problem."""
    if len(row) > len(columns):
        fix = 'put a note that holds commas in quotes: "like, this".'
        must = f"must have at most {len(columns)} cells"
        problems.append(Problem(path, line, "", must, ",".join(row), fix))
        return None
    cells = dict(zip(columns, row, strict=False))

    def bad(column: str, must: str, fix: str) -> None:
        problems.append(Problem(path, line, column, must, cells[column], fix))

    for column, cell in cells.items():
        if hidden := next((c for c in cell if not c.isprintable()), None):
            bad(
                column,
                f"must hold no hidden control characters (U+{ord(hidden):04X})",
                "type it anew.",
            )
        elif len(cell) > 300:
            bad(column, "must be at most 300 characters", "shorten it.")
        elif found := private_in(cell):
            bad(column, f"must not hold {found}", "take it out: this list is shown to everybody.")
    if not cells.get("maker"):
        cells["maker"] = ""
        bad("maker", "must be the name of a maker, or a public name", "fill it in.")
        return None
    return Person(
        maker=cells["maker"],
        cards=_cards(cells, bad),
        signed_up=_day(cells, "signed up", bad),
        arrived=_arrived(cells, bad),
        note=cells.get("note", ""),
        line=line,
        places=_places(cells, bad),
        standing=_standing(cells, bad),
        **_envelope(cells, bad),
    )


def write_people(people: Iterable[Person]) -> str:
    """The text of a list of people: `read_people` gives the same rows back."""
    rows = [_cells(person) for person in people]
    shown = [c for c in IN_ORDER if c in COLUMNS or any(row[c] for row in rows)]
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(shown)
    writer.writerows([row[column] for column in shown] for row in rows)
    return out.getvalue()


def _cells(person: Person) -> dict[str, str]:
    days = {column: getattr(person, column.replace(" ", "_")) for column in _DAYS}
    return {
        "maker": person.maker,
        "cards": str(person.cards),
        "places": str(person.places) if person.places > 1 else "",
        "standing": person.standing,
        "note": person.note,
        **{column: day.isoformat() if day else "" for column, day in days.items()},
    }


def _places(cells: dict[str, str], bad) -> int:
    text = cells.get("places", "")
    if text not in ("", "1", "2"):
        bad("places", "must be 1 or 2", "one person can hold two places at most.")
    return 2 if text == "2" else 1


def _standing(cells: dict[str, str], bad) -> str:
    text = cells.get("standing", "").casefold()
    if text in ("", "in"):
        return ""
    if text not in STANDINGS:
        fix = did_you_mean(text, STANDINGS) or "leave it empty for who is in it."
        bad("standing", "must be waiting, left, or empty", fix)
    return text


def _envelope(cells: dict[str, str], bad) -> dict[str, date | None]:
    """The days of the envelope that goes back; each needs the one before it."""
    days = {column: _day(cells, column, bad) for column in ENVELOPE}
    mailed = days["mailed"]
    for column in ("received", "lost"):
        if days[column] and not mailed:
            bad(column, "must come with a day in the column mailed", "fill in mailed as well.")
        elif days[column] and days[column] < mailed:
            bad(column, f"must not be before mailed ({mailed})", "mend one of the two dates.")
    if days["sealed"] and mailed and mailed < days["sealed"]:
        must = f"must not be before sealed ({days['sealed']})"
        bad("mailed", must, "mend one of the two dates.")
    return days


def _cards(cells: dict[str, str], bad) -> int:
    text = cells.get("cards", "")
    if re.fullmatch(r"[0-9]{1,4}", text):
        return int(text)
    if text:
        bad("cards", "must be a whole number from 0 to 9999", "write how many cards, like 4.")
    return 0


def _day(cells: dict[str, str], column: str, bad):
    text = cells.get(column, "")
    day = parse_date(text)
    if text and day is None:
        bad(column, "must be a date like 2026-09-28", DATE_FIX)
    return day


def _arrived(cells: dict[str, str], bad):
    arrived = _day(cells, "arrived", bad)
    signed_up = parse_date(cells.get("signed up", ""))
    if arrived and signed_up and arrived < signed_up:
        must = f"must not be before signed up ({signed_up})"
        bad("arrived", must, "mend one of the two dates.")
    return arrived
