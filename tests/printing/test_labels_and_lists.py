"""Labels lie where the sheet has them, and a pick list has every card once."""

import io
import json

import pypdf
import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from hostile.small_board import make
from swapboard.cli import main
from swapboard.disk.print_fonts import fonts
from swapboard.printing.labels import Address, address_lines, labels
from swapboard.printing.lists import Section, tick_list
from swapboard.printing.paper import POINT, REGULAR, Sheet, fit, measure
from swapboard.vocabulary.label_sheets import LABEL_SHEETS
from swapboard.vocabulary.paper import PAPER
from swapboard.vocabulary.postal import ENVELOPES, estimate, said_of, uneven

ADA = Address("ada", "Ada Ørsted", ("12 Mill Lane",), "1010", "Wien", "", "Austria", "AT")
FILES = {
    "board.toml": 'format = 1\n\n[board]\nname = "Small board"\n',
    "makers/keeper.md": "Name: The keeper\nCountry: Germany\n",
    "makers/ada.md": "Name: Ada\n", "makers/bo.md": "Name: Bo\n", "makers/cy.md": "Name: Cy\n",
    "calls/leaf.md": "Title: Leaf\nHost: keeper\nSend: 2\nHost takes part: no\n"
    "Date: 2026-08-01\nSign up by: 2026-08-20\nArrive by: 2026-09-09\n",
    "calls/leaf.people.csv": "maker,cards,signed up,arrived,note\n" + "".join(
        f"{m},2,2026-08-02,2026-09-02,\n" for m in ("ada", "bo", "cy")),
    "private/addresses.csv": "maker,name,street,postcode,town,country\n"
    'ada,Ada,"12, Mill Lane",AB1 2CD,Vale,GB\nbo,Во Иванова,3 High Road,101000,Москва,RU\n'
    "cy,Κύα,Οδός 5,10552,Αθήνα,Greece\n",
}  # fmt: skip


def placed(pdf: bytes) -> list[tuple[int, float, float, float, str]]:
    """(page, mm from the left, mm from the top, size in points, text) as pypdf reads them."""
    found = []
    for number, page in enumerate(pypdf.PdfReader(io.BytesIO(pdf)).pages):
        height = float(page.mediabox.height)

        def visit(text, _matrix, at, _font, size, number=number, height=height):
            if text.strip():
                found.append((number, at[4] * POINT, (height - at[5]) * POINT, size, text.strip()))

        page.extract_text(visitor_text=visit)
    return found


@pytest.mark.parametrize("name", sorted(LABEL_SHEETS))
def test_every_label_of_every_sheet_lies_inside_its_place(name):
    """Text begins within its own label, two sheets long, and the page has the paper's size."""
    sheet = LABEL_SHEETS[name]
    many = [Address("a", f"N{i}", ("Street 1",), "1", "Town", "", "", "")
            for i in range(sheet.count + 2)]
    pdf = labels(many, sheet, fonts(), 2)
    page = pypdf.PdfReader(io.BytesIO(pdf)).pages[0].mediabox
    size = (float(page.width) * POINT, float(page.height) * POINT)
    assert size == pytest.approx(PAPER[sheet.paper], abs=0.01)
    right, low = sheet.place(sheet.count - 1)
    assert right + sheet.width <= size[0] + 0.01 and low + sheet.height <= size[1] + 0.01
    seen = 0
    for number, x, y, _, text in placed(pdf):
        if text.startswith("N"):
            left, top = sheet.place((int(text[1:]) + 1) % sheet.count)
            assert left <= x <= left + sheet.width and top <= y <= top + sheet.height
            assert number == (int(text[1:]) + 1) // sheet.count
            seen += 1
    assert seen == len(many)


@given(st.lists(st.text("abW ÄЖΩ.,-12", min_size=1, max_size=90), min_size=1, max_size=9))
@settings(max_examples=60, deadline=None)
def test_long_lines_shrink_or_wrap_and_lose_nothing(lines):
    """Every character but spaces is there, no line is wider than the box, all is in it."""
    Sheet("A4", fonts(), "fonts are known once a sheet is begun")
    size, wrapped = fit(lines, 40.0, 22.0, 12.0, REGULAR)
    assert "".join("".join(wrapped).split()) == "".join("".join(lines).split())
    assert all(measure(line, size, REGULAR) <= 40.01 for line in wrapped)
    assert len(wrapped) * size * 1.25 * POINT <= 22.01


def test_an_address_has_its_country_last_in_capitals():
    """The order is the country's own (common practice, no source)."""
    assert address_lines(ADA) == ["Ada Ørsted", "12 Mill Lane", "1010 Wien", "AUSTRIA"]
    us = Address("a", "A", ("1 Elm St",), "97201", "Portland", "OR", "United States", "US")
    assert address_lines(us)[2:] == ["Portland OR 97201", "UNITED STATES"]
    gb = Address("a", "A", ("1 Elm St",), "AB1 2CD", "Vale", "", "United Kingdom", "GB")
    assert address_lines(gb)[2:] == ["Vale", "AB1 2CD", "UNITED KINGDOM"]


def test_the_same_labels_are_the_same_bytes_with_their_fonts_inside():
    """No clock and no name is in a PDF, and no font is left to the printer."""
    sheet = LABEL_SHEETS["63.5x38.1mm"]
    one = labels([ADA], sheet, fonts())
    assert one == labels([ADA], sheet, fonts())
    assert b"/FontFile2" in one


def test_weights_agree_with_those_worked_out_by_hand():
    """Ten bare cards of 298 g/m² in an A2 envelope 20.3 g, twelve sleeved 29.1 g (worked
    out from areas and grammages)."""
    assert estimate(10, sleeved=False, envelope="A2").grams == pytest.approx(20.3, abs=0.1)
    assert estimate(12, envelope="A2").grams == pytest.approx(29.1, abs=0.1)
    near = said_of(estimate(12, envelope="A2"), "US")
    assert near[0].startswith("Near the limit of first ounce") and near[1].startswith("Goes as")
    assert "weigh it" in said_of(estimate(3), None)[0]
    german = said_of(estimate(12), "DE")
    assert german[0].startswith("Too much for Standardbrief (20 g, 5 mm; ")
    assert german[1].startswith("Goes as Kompaktbrief (50 g, 10 mm; ")
    assert uneven(["encaustic"]) and uneven(["wood"]) and not uneven(["woodcut", "linocut"])


def test_every_envelope_is_a_letter_by_its_sides_wherever_limits_are_known():
    """DMM 101.1.1 (24 January 2021), Royal Mail's and Deutsche Post's letters (2025), UPU's least
    sides: what is estimated by weight alone may not be too long."""
    sides = {"US": (127.0, 292.1, 88.9, 155.575), "GB": (0, 240.0, 0, 165.0),
             "DE": (140.0, 235.0, 90.0, 125.0), "UPU": (140.0, 600.0, 90.0, 600.0)}
    for short, long in ENVELOPES.values():
        for least_long, most_long, least_short, most_short in sides.values():
            assert least_long <= long <= most_long and least_short <= short <= most_short


def run(*words):
    return CliRunner().invoke(main, [str(word) for word in words])


def test_whoever_lacks_an_address_is_named_once(tmp_path):
    """An error is one line, and no file is written."""
    short = "\n".join(FILES["private/addresses.csv"].splitlines()[:2]) + "\n"
    board = make(tmp_path / "b", {**FILES, "private/addresses.csv": short})
    done = run("print", "labels", tmp_path / "labels.pdf", board, "--call", "leaf")
    lines = done.output.splitlines()
    missing = [line for line in lines if "must have an address for everybody" in line]
    assert done.exit_code == 1 and missing and len(set(missing)) == len(missing)
    assert not (tmp_path / "labels.pdf").exists()


def test_an_envelope_stands_on_one_page():
    """A section that fits a page is not parted; one that does not goes on on the next."""
    small = [Section(f"Envelope {n}", tuple(f"{n} card {i}" for i in range(8))) for n in range(12)]
    long = Section("Long", tuple(f"long {i}" for i in range(120)))
    pdf = tick_list("List", "", [*small, long], "A4", fonts())
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pdf)).pages]
    for number in range(12):
        (page,) = [text for text in pages if f"Envelope {number}\n" in text]
        assert all(f"{number} card {i}" in page for i in range(8))
    assert sum("long" in text for text in pages) >= 2
    assert all(f"long {i}" in "".join(pages) for i in range(120))


def test_who_left_or_waited_is_asked_for_no_address(tmp_path):
    """An envelope goes to who is in it; to who left only if their cards had come."""
    people = FILES["calls/leaf.people.csv"].splitlines()
    heading, rows = people[0].split(","), [row.split(",") for row in people[1:]]
    more = [["gone", "left", ""], ["late", "waiting", ""], ["back", "left", "2026-10-01"]]
    lines = [",".join([*heading, "standing"]), *(",".join([*row, ""]) for row in rows)]
    for maker, standing, arrived in more:
        cells = dict.fromkeys(heading, "") | {"maker": maker, "cards": "2", "arrived": arrived}
        lines.append(",".join([*cells.values(), standing]))
    addresses = FILES["private/addresses.csv"]
    cells = dict.fromkeys(addresses.splitlines()[0].split(","), "") | {
        "maker": "back", "name": "Back Home", "street": "5 Elm", "town": "Vale", "country": "GB"}
    board = make(tmp_path / "b", {
        **FILES, "calls/leaf.people.csv": "\n".join(lines) + "\n",
        "private/addresses.csv": addresses.rstrip() + "\n" + ",".join(cells.values()) + "\n",
    })  # fmt: skip
    done = run("print", "labels", tmp_path / "labels.pdf", board, "--call", "leaf")
    assert done.exit_code == 0, done.output
    texts = [text for *_, text in placed((tmp_path / "labels.pdf").read_bytes())]
    assert "Back Home" in texts and not {"gone", "late"} & set(texts)


def test_labels_are_printed_for_a_call_and_never_into_the_site(tmp_path):
    """All three are on the sheet; output/ is refused, and so is a file that exists."""
    board, file = make(tmp_path / "b", FILES), tmp_path / "labels.pdf"
    assert run("print", "labels", board / "output/x.pdf", board).exit_code == 1
    (board / "output").mkdir()
    assert run("print", "labels", board / "output/x.pdf", board).exit_code == 1
    done = run("print", "labels", file, board, "--call", "leaf")
    assert done.exit_code == 0, done.output
    texts = [text for *_, text in placed(file.read_bytes())]
    assert {"Во Иванова", "Κύα", "UNITED KINGDOM", "GREECE"} <= set(texts)
    assert file.stat().st_mode & 0o777 == 0o600
    assert run("print", "labels", file, board).exit_code == 1


def test_a_call_with_an_address_missing_is_refused_by_name(tmp_path):
    """An envelope without a label would be forgotten; private values are not said."""
    table = FILES["private/addresses.csv"].rpartition("cy,")[0]
    board = make(tmp_path / "b", {**FILES, "private/addresses.csv": table})
    done = run("print", "labels", tmp_path / "x.pdf", board, "--call", "leaf")
    assert done.exit_code == 1 and '(got "cy")' in done.output and "Mill" not in done.output
    for bad in ("maker,stret,town\na,b,c\n", "", "maker,street,town,country\nada,,Vale,GB\n"):
        (board / "private/addresses.csv").write_text(bad)
        done = run("print", "labels", tmp_path / "x.pdf", board)
        assert done.exit_code == 1 and "Fix:" in done.output and not (tmp_path / "x.pdf").exists()


def test_a_pick_list_has_each_envelope_of_the_deal(tmp_path):
    """It is refused before the deal, and then names every card that was dealt."""
    board, file = make(tmp_path / "b", FILES), tmp_path / "pick.pdf"
    early = run("print", "picklist", "leaf", file, board)
    assert early.exit_code == 1 and not (board / "private/deals").exists()
    dealt = run("deal", "leaf", board, "--json")
    cards = json.loads(dealt.stdout)["cards"]
    done = run("print", "picklist", "leaf", file, board)
    assert done.exit_code == 0, done.output
    texts = [text for *_, text in placed(file.read_bytes())]
    titles = {"ada": "Ada", "bo": "Bo", "cy": "Cy"}
    for giver, number, _ in cards:
        assert texts.count(f"{titles[giver]}, card {number}") == 1
    assert {f"{title}: 2 cards" for title in titles.values()} <= set(texts)
    assert any("(±10 %)" in text for text in texts)


def test_no_day_of_the_environment_is_in_a_sheet(tmp_path, monkeypatch):
    """The same labels are the same bytes, whatever day a build is told to be of."""
    board, made = make(tmp_path / "b", FILES), []
    for number, moment in enumerate((None, "1791633600")):
        if moment:
            monkeypatch.setenv("SOURCE_DATE_EPOCH", moment)
        file = tmp_path / f"labels-{number}.pdf"
        assert run("print", "labels", file, board).exit_code == 0
        made.append(file.read_bytes())
    assert made[0] == made[1]
