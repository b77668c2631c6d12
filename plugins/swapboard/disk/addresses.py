"""private/addresses.csv: where envelopes go. Never read by anything that builds pages."""

from pathlib import Path

from swapboard.disk.private_tables import read_text, table_of
from swapboard.printing.labels import Address
from swapboard.problems import WARNING, Problem, did_you_mean
from swapboard.vocabulary import slug
from swapboard.vocabulary.countries import countries_in

PATH = "private/addresses.csv"
COLUMNS = ("maker", "name", "street", "street 2", "postcode", "town", "region", "country",
           "phone", "e-mail")
_MOST_ROWS = 5000
_HEADING_FIX = f"make the first line {','.join(COLUMNS)}"


def read_addresses(board: Path, language: str) -> tuple[dict[str, Address], list[Problem]]:
    """Addresses by the slug of their maker, in the order of the file.

    `maker`, `street`, `town` and `country` have to be among the columns; problems name
    the line and never what stands in it.
    """
    text, problems = read_text(board, PATH)
    if text is None:
        fix = f"write it, or have a spreadsheet write it: {_HEADING_FIX}, then a line for each."
        must = "must be there to print from"
        return {}, problems or [Problem(PATH, 0, "", must, None, fix)]
    table = table_of(text)
    problems = _columns_missing(table.columns)
    if problems or len(table.rows) > _MOST_ROWS:
        return {}, problems or [Problem(PATH, 0, "", f"must have at most {_MOST_ROWS} rows",
                                        str(len(table.rows)), "shorten it.")]
    found: dict[str, Address] = {}
    for number, cells in table.cells():
        address, wrong = _address(cells, number, language)
        key = slug(cells.get("maker", ""))
        if address and key in found:
            wrong.append(Problem(PATH, number, "maker", "must stand in one row only", None,
                                 "keep the row that is right."))
        elif address:
            found[key] = address
        problems += wrong
    return found, problems


def _columns_missing(columns: tuple[str, ...]) -> list[Problem]:
    missing = [one for one in ("maker", "street", "town", "country") if one not in columns]
    return [
        Problem(PATH, 1, one, "must be among the columns", None,
                next((f"{hint} {_HEADING_FIX}." for c in columns if c not in COLUMNS
                      and (hint := did_you_mean(c, [one]))), f"{_HEADING_FIX}."))
        for one in missing
    ]


def _address(
    cells: dict[str, str], number: int, language: str
) -> tuple[Address | None, list[Problem]]:
    needed = [key for key in ("maker", "street", "town") if not cells.get(key)]
    if needed:
        return None, [Problem(PATH, number, key, "must not be empty", None,
                              "ask them for it; this row is not printed.") for key in needed]
    problems = []
    written = cells.get("country", "")
    countries = countries_in(language)
    code = countries.code(written) if written else None
    if written and code is None:
        problems.append(Problem(PATH, number, "country", "is not a country that is known", None,
                                "it is printed as it is written; a two-letter code is surest.",
                                WARNING))
    # A cell may hold several lines, from a spreadsheet.
    street = [line.strip() for key in ("street", "street 2")
              for line in cells.get(key, "").splitlines() if line.strip()]
    return Address(
        cells["maker"], cells.get("name") or cells["maker"], tuple(street),
        cells.get("postcode", ""), cells["town"], cells.get("region", ""),
        countries.find(written) or written, code or "",
    ), problems  # fmt: skip
