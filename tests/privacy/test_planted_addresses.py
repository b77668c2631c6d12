"""A private field in a post stops the build, however it is written."""

import pytest

from hostile.small_board import build, errors_of, make

TABLE = (
    "maker,name,street,street 2,postcode,town,country,phone,e-mail\n"
    "ada,Ada,Lärchen-Weg 12,Haus Zähringer,AB1 2CD,Vale,GB,+44 20 7946 0958,ada@vale.example\n"
)
WAYS = (
    "Write to Lärchen-Weg 12.", "LARCHENWEG 12", "Lärchen&shy;weg&nbsp;12", "L&auml;rchen Weg, 12",
    "Lärchen **Weg** 12", "[write](mailto:x@y.example?body=L%C3%A4rchen-Weg%2012)",
    "ab12cd", "A B 1 2 C D", "haus zahringer", "020 7946 0958", "ADA @ vale.example",
)  # fmt: skip


@pytest.mark.parametrize("path", ["private/addresses.csv", "private/old/more.CSV"])
@pytest.mark.parametrize("way", WAYS)
def test_a_planted_field_stops_the_build_and_names_the_files(tmp_path, path, way):
    """The build fails, naming the private file and the page, and nothing is published."""
    board = make(tmp_path / "b", {path: TABLE, "cards/fog.md": f"Title: Fog\nAlt: fog\n\n{way}\n"})
    built = build(board)
    told = errors_of(built)
    assert not built.done and not (board / "output").exists()
    assert any("fog" in one and (path in one or "private_words" in one or "must not" in one)
               for one in told), told


def test_a_board_with_addresses_builds_where_none_is_shown(tmp_path):
    """Names, towns and countries are public; words of a street alone are words."""
    text = "Title: Fog\n\nAda of Vale, 12 cards, a way (Weg) through larches. Haus.\n"
    board = make(tmp_path / "b", {"private/addresses.csv": TABLE, "cards/fog.md": text})
    assert build(board).done
    output = b"".join(p.read_bytes() for p in (board / "output").rglob("*") if p.is_file())
    assert b"AB1 2CD" not in output and b"rchen-Weg" not in output
