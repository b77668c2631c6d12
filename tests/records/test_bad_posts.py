"""Every kind of bad input on a board, and the exact words that name it."""

import pytest
from sample_board import GOOD, changed, messages

HERON, MOTH, OFFER = "cards/night-heron.md", "cards/moth.md", "offers/heron-for-moth.md"
CALL, LIST = "calls/small-lights.md", "calls/small-lights.people.csv"
INES, TOM = "makers/ines-okafor.md", "makers/tom-varga.md"

STATES = "available · spoken for · traded · keeping"
ORDER = "put the dates in order: Date ≤ Sign up by ≤ Arrive by ≤ Mail out by."
STORY = "mend the line, or put the dated lines in the order in which they happened."
CORNERS = (
    "give the four corners clockwise from the card's top left, like 412 230, 1288 244, "
    "1301 1470, 398 1455, all in pixels or all with %."
)
DATE = "write year, month and day in numbers, like 2026-09-28."
SPOT = "write a file of photos/, like heron.jpg, or table.jpg at 41% 22%."

ONE_BAD_LINE = [
    # cards
    (HERON, "Made: 2026-08-01", "Made: last week",
     f'{HERON}:7: Made: must be a date like 2026-09-28 (got "last week"). Fix: {DATE}'),
    (HERON, "Made: 2026-08-01", "Made: 2026-02-30",
     f'{HERON}:7: Made: must be a date like 2026-09-28 (got "2026-02-30"). Fix: {DATE}'),
    (HERON, "Made: 2026-08-01", "Made: 1899-12-31",
     f'{HERON}:7: Made: must be a date like 2026-09-28 (got "1899-12-31"). Fix: {DATE}'),
    (HERON, "Made: 2026-08-01", "Made: 2026-09-02",
     f'{HERON}:8: Date: must not be before Made (2026-09-02) (got "2026-09-01"). '
     "Fix: a card is shown after it is made: mend one of the two dates."),
    (HERON, "Kind: print 3/20", "Kind: print 21/20",
     f'{HERON}:5: Kind: must count from 1 up to the whole, like 3/20 (got "print 21/20"). '
     "Fix: write original, or print 3/20, or set 2/7."),
    (HERON, "Kind: print 3/20", "Kind: poster",
     f'{HERON}:5: Kind: must be original, print n/N or set n/N (got "poster"). '
     "Fix: write original, or print 3/20, or set 2/7."),
    (HERON, "Copies left: 2", "Copies left: 21",
     f'{HERON}:6: Copies left: must be at most 20 (got "21"). '
     "Fix: an edition of 20 has no more copies than that."),
    (HERON, "Kind: print 3/20\n", "",
     f'{HERON}:5: Copies left: must stand only on a print of an edition (got "2"). Fix: add '
     "Kind: print 1/20 (its number and how many there are), or take this line out."),
    (HERON, "Media: linocut", "Media: linocut, linocutt",
     f'{HERON}:4: Media: must be a medium this board knows (got "linocutt"). '
     'Fix: did you mean "linocut"?'),
    (HERON, "Photo: heron.jpg", "Photo: Heron.JPG",
     f'{HERON}:2: Photo: must be a picture in photos/ (got "Heron.JPG"). '
     "Fix: write heron.jpg: that file exists, and names are case sensitive."),
    (HERON, "Photo: heron.jpg", "Photo: herron.jpg",
     f'{HERON}:2: Photo: must be a picture in photos/ (got "herron.jpg"). '
     'Fix: did you mean "heron.jpg"?'),
    (HERON, "Photo: heron.jpg", "Photo: ../private/list.jpg",
     f"{HERON}:2: Photo: must be the name of one file in photos/ "
     f'(got "../private/list.jpg"). Fix: {SPOT}'),
    (HERON, "Photo: heron.jpg", "Photo: photos/heron.jpg",
     f'{HERON}:2: Photo: must be a name inside photos/ (got "photos/heron.jpg"). '
     "Fix: write heron.jpg."),
    (MOTH, "at 41% 22%", "at 141% 22%",
     f"{MOTH}:2: Photo: must be a point between 0% and 100% "
     f'(got "table.jpg at 141% 22%"). Fix: {SPOT}'),
    (MOTH, "Maker: tom-varga", "Maker: tom-vagra",
     f'{MOTH}:1: Maker: must be the name of a file in makers/ (got "tom-vagra"). '
     'Fix: did you mean "tom-varga"?'),
    (MOTH, "Edge: torn or burnt", "Edge: wavy",
     f"{MOTH}:4: Edge: must be one of: square · rounded · torn · burnt · torn or burnt "
     '(got "wavy"). Fix: write one of: square · rounded · torn · burnt · torn or burnt.'),
    (MOTH, "Edge: torn or burnt", "Day: 3",
     f'{MOTH}:4: Day: must stand with a Series (got "3"). '
     "Fix: add Series: and its name, or take this line out."),
    (MOTH, "Edge: torn or burnt", "Status: traded",
     f'{MOTH}:4: Status: must be a key that this kind of post has (got "Status"). '
     'Fix: write "State" instead.'),
    (MOTH, "Edge: torn or burnt", "State: gone",
     f'{MOTH}:4: State: must be one of: {STATES} (got "gone"). Fix: write one of: {STATES}.'),
    (MOTH, "Edge: torn or burnt", "Panels: 0",
     f'{MOTH}:4: Panels: must be a whole number from 1 to 12 (got "0"). '
     "Fix: write a number, like 1."),
    (MOTH, "Edge: torn or burnt", "Edge:",
     f"{MOTH}:4: Edge: must not be empty. Fix: write its value, or take the line out."),
    (MOTH, "Edge: torn or burnt", "Cut out at: 1 1, 9 1, 9 9",
     f'{MOTH}:4: Cut out at: must be four corners (got "1 1, 9 1, 9 9"). Fix: {CORNERS}'),
    (MOTH, "Edge: torn or burnt", "Cut out at: 10 10, 10 90, 90 90, 90 10",
     f'{MOTH}:4: Cut out at: must run clockwise (got "10 10, 10 90, 90 90, 90 10"). '
     f"Fix: {CORNERS}"),
    (MOTH, "Edge: torn or burnt", "Cut out at: 10 10, 90 90, 90 10, 10 90",
     f'{MOTH}:4: Cut out at: must enclose a card (got "10 10, 90 90, 90 10, 10 90"). '
     f"Fix: {CORNERS}"),
    (MOTH, "Edge: torn or burnt", "Cut out at: 10 10, 90 10, 40 40, 10 90",
     f"{MOTH}:4: Cut out at: must be the corners of a convex shape, in turn "
     f'(got "10 10, 90 10, 40 40, 10 90"). Fix: {CORNERS}'),
    (MOTH, "Edge: torn or burnt", "Cut out at: -51% 10%, 90% 10%, 90% 90%, 10% 90%",
     f"{MOTH}:4: Cut out at: must be in the photo, or less than half of it away "
     f'(got "-51% 10%, 90% 10%, 90% 90%, 10% 90%"). Fix: {CORNERS}'),
    (MOTH, "Edge: torn or burnt", "Cut out at: 10% 10, 90 10, 90 90, 10 90",
     f"{MOTH}:4: Cut out at: must be all in pixels or all in percent "
     f'(got "10% 10, 90 10, 90 90, 10 90"). Fix: {CORNERS}'),
    # makers
    (INES, "Country: Portugal", "Country: Portugla",
     f'{INES}:2: Country: must be a country (got "Portugla"). Fix: did you mean "Portugal"?'),
    (INES, "https://reeds.example/", "ftp://reeds.example/",
     f"{INES}:8: Links: must be a web address with https:// or http:// "
     '(got "ftp://reeds.example/"). '
     "Fix: write one whole address on a line, like https://drawings.example/."),
    (TOM, "Country: UK", "Title: Tom",
     f'{TOM}:1: Title: must be a key that this kind of post has (got "Title"). '
     'Fix: write "Name" instead.'),
    # offers
    (OFFER, "Asks: moth", "Asks: moth, fern",
     f"{OFFER}:4: Asks: must name as many cards as Gives (1, not 2) "
     '(got "moth, fern"). Fix: a swap is one for one, or n for n: add or take out cards on '
     "one side."),
    (OFFER, "Asks: moth", "Asks: night-heron",
     f'{OFFER}:4: Asks: must be cards that tom-varga made (got "night-heron"). '
     f"Fix: {HERON} says its maker is ines-okafor."),
    (OFFER, "Asks: moth", "Asks: moht",
     f'{OFFER}:4: Asks: must be the name of a file in cards/ (got "moht"). '
     'Fix: did you mean "moth"?'),
    (OFFER, "To: tom-varga", "To: Ines Okafor",
     f'{OFFER}:7: 2026-09-30: must be by one of the two makers (got "tom-varga"). '
     "Fix: write mailed by ines-okafor, or mailed by Ines Okafor."),
    (OFFER, "2026-09-28: agreed", "2026-09-28: accepted",
     f"{OFFER}:6: 2026-09-28: must be one of: proposed · agreed · declined · withdrawn · "
     'mailed · received · lost (got "accepted"). Fix: write "agreed" instead.'),
    (OFFER, "mailed by tom-varga", "mailed",
     f'{OFFER}:7: 2026-09-30: must say who has mailed the cards (got "mailed"). '
     "Fix: say by whom: mailed by ines-okafor."),
    (OFFER, "mailed by tom-varga", "received by tom-varga",
     f"{OFFER}:7: 2026-09-30: must come after a line that says mailed by ines-okafor "
     f'(got "received by tom-varga"). Fix: {STORY}'),
    (OFFER, "2026-09-30 mailed", "2026-09-27 mailed",
     f"{OFFER}:7: 2026-09-27: must not be before the line above it (2026-09-28) "
     f'(got "mailed by tom-varga"). Fix: {STORY}'),
    (OFFER, "2026-09-28: agreed", "2026-09-28: declined",
     f"{OFFER}:7: 2026-09-30: must not come after declined "
     f'(got "mailed by tom-varga"). Fix: {STORY}'),
    # calls
    (CALL, "Host: tom-varga", "Host: tom-vagra",
     f'{CALL}:2: Host: must be the name of a file in makers/ (got "tom-vagra"). '
     'Fix: did you mean "tom-varga"?'),
    (CALL, "Receive: 3", "Receive: 5",
     f'{CALL}:4: Receive: must be at most Send (4) (got "5"). '
     "Fix: nobody gets more than they send: write at most 4."),
    (CALL, "Receive: 3", "Receive: 0",
     f'{CALL}:4: Receive: must be a whole number from 1 to 50 (got "0"). '
     "Fix: write a number, like 1."),
    (CALL, "Receive: 3", "Receive: -3",
     f'{CALL}:4: Receive: must be a whole number from 1 to 50 (got "-3"). '
     "Fix: write a number, like 1."),
    (CALL, "Send: 4", "Send: 51",
     f'{CALL}:3: Send: must be a whole number from 1 to 50 (got "51"). '
     "Fix: write a number, like 1."),
    (CALL, "Arrive by: 2026-11-01", "Arrive by: 2026-09-30",
     f"{CALL}:8: Arrive by: must not be before Sign up by (2026-10-01) "
     f'(got "2026-09-30"). Fix: {ORDER}'),
    (CALL, "Germany: two", "Germny: two",
     f"{CALL}:10: Return postage: must be lines of a country, a colon and the postage "
     '(got "Germny: two international reply stamps"). Fix: did you mean "Germany"?'),
    (CALL, "Places: 2", "Places: 1",
     f"{LIST}:3: maker: must have at most 1 person, the Places of {CALL} "
     '(got "2"). Fix: write waiting in the column standing, take somebody out, or raise Places.'),
    (CALL, "Places: 2", "By: in person\nPlace: The mill",
     f"{CALL}: Hour: must be there where a call is held in person. "
     "Fix: add a line like Hour: 14:00."),
    # people
    (LIST, "2026-09-20,", "2026-09-04,",
     f'{LIST}:2: arrived: must not be before signed up (2026-09-05) (got "2026-09-04"). '
     "Fix: mend one of the two dates."),
    (LIST, "A guest", "INES okafor",
     f'{LIST}:3: maker: must stand in one row only (got "INES okafor"). '
     "Fix: keep one row for each maker; the first is on line 2."),
    (LIST, "late, but sure", "ask me@mail.example",
     f'{LIST}:3: note: must not hold an e-mail address (got "ask me@mail.example"). '
     "Fix: take it out: this list is shown to everybody."),
    (LIST, "late, but sure", "ring 020 7946 0000",
     f'{LIST}:3: note: must not hold a telephone number (got "ring 020 7946 0000"). '
     "Fix: take it out: this list is shown to everybody."),
    (LIST, "late, but sure", "lives at 12 Mill Lane",
     f'{LIST}:3: note: must not hold a street address (got "lives at 12 Mill Lane"). '
     "Fix: take it out: this list is shown to everybody."),
    (LIST, "note", "notes",
     f'{LIST}:1: notes: must be a column of this list (got "notes"). '
     'Fix: did you mean "note"?'),
]  # fmt: skip


@pytest.mark.parametrize(("path", "old", "new", "message"), ONE_BAD_LINE)
def test_one_bad_line_is_one_message(path, old, new, message):
    """One thing wrong on a good board is told in one message, with file, line and fix."""
    assert message in messages(changed(path, old, new))


NO_CASCADE = [row for row in ONE_BAD_LINE if row[2] not in ("To: Ines Okafor",)]


@pytest.mark.parametrize(("path", "old", "new", "message"), NO_CASCADE)
def test_one_bad_line_brings_no_other_file_into_it(path, old, new, message):
    """A broken file is not the occasion for messages about the files that name it."""
    others = [said for said in messages(changed(path, old, new)) if said != message]
    assert not others or path == OFFER and all(said.startswith(OFFER) for said in others)


WHOLE_FILES = [
    ({"cards/new.md": "Media: linocut\n"},
     ["cards/new.md: must have a title or a photo. Fix: add a line Title: … or Photo: … "
      "at the top."]),
    ({"cards/Night-Héron.md": "Title: again\n"},
     ["cards/night-heron.md: must have a name of its own; case and accents do not count "
      '(got "night-heron"). Fix: rename it: cards/Night-Héron.md has the same web address.']),
    ({"cards/old heron.md": "Title: x\n"},
     ["cards/old heron.md: must have a name of letters, digits, hyphens, underscores and "
      'inner dots (got "old heron"). Fix: rename the file to old-heron.md.']),
    ({"cards/Con.md": "Title: x\n"},
     ["cards/Con.md: must not have a name that Windows keeps for itself "
      '(got "Con"). Fix: rename the file to con-.md.']),
    ({"cards/heron.txt": "Title: x\n"},
     ["cards/heron.txt: must be a file that a board has. Fix: rename it to cards/heron.md, or "
      "take it out of this folder."]),
    ({"calls/lights.people.csv": "maker\n"},
     ['calls/lights.people.csv: must lie beside the call of the same name (got "lights"). '
      'Fix: did you mean "small-lights"?']),
    ({"offers/two.md": "From: ines-okafor\nTo: tom-varga\nGives: night-heron\nAsks: fern\n"},
     ["offers/two.md: must say when it was proposed. "
      "Fix: add a line like 2026-09-28: proposed below the others."]),
    ({"board.toml": None},
     ["board.toml: must be there. "
      "Fix: make a board with the command start, or add the file with a line format = 1."]),
    ({"board.toml": 'format = 1\n[board]\nkeeper = "ines"\n'},
     ['board.toml:3: keeper: must be a file in makers/ (got "ines"). Fix: add makers/ines.md.']),
    ({"cards/a.md": "Title: a\nThemes: café\n", "cards/b.md": "Title: b\nThemes: Cafe\n"},
     ["cards/b.md:2: Themes: must be spelt as on other cards, or differ in more than accents "
      'and signs (got "Cafe"). Fix: write "café" as in cards/a.md, or choose another word for '
      "one of them."]),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "expected"), WHOLE_FILES)
def test_a_bad_file_is_named(changes, expected):
    """What is wrong with a whole file is told without a line."""
    assert sorted(messages(changes)) == sorted(expected)


def test_the_good_board_has_no_problem():
    """A good board gives no message at all."""
    assert messages({}) == []
    assert len(GOOD) == 10


def test_a_broken_maker_is_not_unknown():
    """Cards, offers and calls of a maker whose own file is broken are not blamed for it."""
    assert [m.split(":")[0] for m in messages({TOM: "Nonsense"})] == [TOM]


def test_warnings_do_not_hide_errors():
    """Errors come before warnings, whatever their files are called."""
    said = messages(changed(INES, "moths, no cats", "qwertz") | {"pages/z.md": "Titel: z"})
    assert [m.split(":")[0] for m in said] == ["pages/z.md", INES]


def test_an_email_address_in_a_body_is_a_warning():
    """A post that gives an e-mail address away is warned about on that very line."""
    said = messages({"pages/about.md": "Title: About\n\nHello.\n\nWrite to me@mail.example.\n"})
    assert said == [
        'pages/about.md:5: should hold no e-mail address (got "me@mail.example"). '
        "Fix: take it out: addresses do not belong on a public page."
    ]


def test_two_themes_in_singular_and_plural_are_a_warning():
    """A theme beside its plural is pointed out on the rarer one."""
    said = messages({"cards/owl.md": "Title: Owl\nThemes: Bird\n"})
    assert said == [
        'cards/owl.md:2: Themes: is a theme beside "birds" (got "Bird"). '
        "Fix: if both mean the same, use one of them."
    ] or said[0].startswith("cards/night-heron.md")


def test_an_unreadable_board_file_is_told_alone():
    """Where board.toml cannot be read nothing that rests on it is blamed."""
    said = messages({"board.toml": "format = \n", "cards/x.md": "Title: x\nMedia: moss\n"})
    assert said == [
        'board.toml:1: must be readable as TOML (got "Invalid value"). '
        'Fix: look at this line: texts stand in quotes, like name = "My board".'
    ]
