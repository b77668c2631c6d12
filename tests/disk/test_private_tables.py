"""One reader for all tables in private/, however a spreadsheet wrote them."""

import pytest

from swapboard.disk.addresses import read_addresses
from swapboard.disk.leaks import private_fields
from swapboard.disk.private_tables import read_mails, split_rows, table_of, with_rows
from swapboard.taking.types import MAIL_TABLE, Row

ADDRESSES = "Maker;Name;Street;Town;Postcode;Country\r\n\r\nada;Ada;12 Mill Lane;Wien;1010;AT\r\n"


def test_all_who_read_private_read_the_same_of_a_table(tmp_path):
    """Semicolons, a mark at the beginning, empty lines, lines that end in two characters: the
    printer, the search for leaks and the mails agree on rows and lines."""
    (tmp_path / "private").mkdir()
    (tmp_path / "private/addresses.csv").write_bytes(("\ufeff" + ADDRESSES).encode())
    (tmp_path / MAIL_TABLE).write_bytes("\ufeffMAKER;Mail\r\nada;Ada@Board.example\r\n".encode())
    addresses, problems = read_addresses(tmp_path, "en")
    assert problems == [] and addresses["ada"].street == ("12 Mill Lane",)
    fields, problems = private_fields(tmp_path)
    assert problems == [] and ("street", 3) in {(field.kind, field.line) for field in fields}
    assert read_mails(tmp_path) == ({"ada": {"ada@board.example"}}, [])


def test_the_line_of_a_problem_is_that_of_the_file(tmp_path):
    """Empty lines and cells of several lines count."""
    (tmp_path / "private").mkdir()
    text = 'maker,street,town,country\n\nada,"1 Elm\nFlat 2",Vale,GB\nbo,,Vale,GB\n'
    (tmp_path / "private/addresses.csv").write_text(text)
    (problem,) = read_addresses(tmp_path, "en")[1]
    assert (problem.line, problem.field) == (5, "street")


@pytest.mark.parametrize("data", [b"\xff\xfe", b"x" * (4 * 1024 * 1024 + 1), b'a,"b\x00\n' * 2])
def test_a_table_that_cannot_be_read_is_a_problem(tmp_path, data):
    """Never an exception, and never a table that is silently empty."""
    (tmp_path / "private").mkdir()
    for path in (MAIL_TABLE, "private/addresses.csv"):
        (tmp_path / path).write_bytes(data)
    assert read_mails(tmp_path)[1] and read_addresses(tmp_path, "en")[1]


def test_rows_are_added_as_the_table_is_written():
    """By its own columns, with its own separator and ends of lines; what was there stays."""
    row = Row(MAIL_TABLE, ("maker", "mail"), ("bo", "bo@board.example"))
    text = "Mail;Maker;Note\r\nada@board.example;ada;\"a; b\""
    assert with_rows(text, [row]) == text + "\r\nbo@board.example;bo;\r\n"
    assert with_rows("", [row]) == "maker,mail\nbo,bo@board.example\n"


def test_rows_of_one_and_of_all_others_make_the_whole():
    """Each row is in one part, both have the heading."""
    table = table_of(ADDRESSES + "bo;Bo;3 High Road;Vale;XY9;GB\r\n")
    theirs, others = split_rows(table, frozenset(["ada"]))
    assert [row[0] for row in theirs.rows] == ["Maker", "ada"]
    assert [row[0] for row in others.rows] == ["Maker", "bo"]
    assert others.text().endswith("bo;Bo;3 High Road;Vale;XY9;GB\r\n")
