"""The page that puts corners right, in a real browser and from a file."""

import base64
import re
from io import BytesIO
from pathlib import Path

import cv2
import numpy as np
import pytest
from PIL import Image

from browser.kinds import AXE_RULES
from fix.fix_board import SHARP, SHARP_FILE, TILTED, smooth, write_board
from swapboard.disk.cutting import cut_photos
from swapboard.disk.load import load_board
from swapboard.photo.rectify import rectify, shape_of
from swapboard.records.fields import Fields
from swapboard.records.header import Field, Header
from swapboard.records.spots import read_corners
from swapboard.site.fix_page import write_fix_page

pytestmark = pytest.mark.browser

MOTH, SIZE = 1, (700, 750)


@pytest.fixture(scope="module")
def fix_board(tmp_path_factory) -> Path:
    """A board whose page has been written."""
    board = write_board(tmp_path_factory.mktemp("fix") / "board")
    write_fix_page(board)
    return board


@pytest.fixture
def opened(new_page, fix_board):
    """Opens the page at a card, drawn and ready."""

    def open_at(card: int = MOTH, **options):
        page = new_page(**({"viewport": {"width": 1350, "height": 1400}} | options))
        address = (fix_board / ".swapboard" / "fix" / "index.html").as_uri()
        page.goto(f"{address}#card-{card}")
        page.locator("#fix-result[data-ready=true]").wait_for()
        return page

    return open_at


def corners(page) -> list[tuple[float, float]]:
    """The corners in the line that the page shows."""
    frame = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
    page.evaluate(frame)
    numbers = re.fullmatch(r"Cut out at: (.+)", page.locator("#fix-line").input_value())[1]
    return [tuple(map(float, pair.split())) for pair in numbers.split(", ")]


def middle(page, i: int) -> tuple[float, float]:
    """Where corner `i` is in the window."""
    box = page.locator(".fix-corner").nth(i).bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def place(page, point: tuple[float, float]) -> tuple[float, float]:
    """Where a point of the photo is in the window."""
    box = page.locator("#fix-photo").bounding_box()
    return (box["x"] + point[0] * box["width"] / SIZE[0],
            box["y"] + point[1] * box["height"] / SIZE[1])  # fmt: skip


def drag(page, i: int, point: tuple[float, float]) -> None:
    """Pull corner `i` to a point of the photo with the mouse, in steps."""
    page.mouse.move(*middle(page, i))
    page.mouse.down()
    page.mouse.move(*place(page, point), steps=4)
    page.mouse.up()


def put(page, points) -> None:
    """Set all corners as if they had been moved there."""
    page.evaluate("points => change(points)", [list(point) for point in points])


def test_a_mouse_moves_a_corner_and_the_post_is_cut_there(opened, fix_board, tmp_path):
    """The line shown after four corners were dragged, in a post, cuts exactly there."""
    page = opened()
    for i, point in enumerate(TILTED):
        drag(page, i, point)
    shown = corners(page)
    assert np.abs(np.array(shown) - TILTED).max() < 1.5  # a window's pixel is 1.07 of the photo's
    board = write_board(tmp_path / "board")
    post = board / "cards" / "moth.md"
    post.write_text(page.locator("#fix-line").input_value() + "\n" + post.read_text())
    loaded = load_board(board)
    assert not [problem for problem in loaded.problems if problem.path == "cards/moth.md"]
    cut, _ = cut_photos(loaded, 1, None)
    found = cut["moth", "front"].found
    assert not found.doubtful
    assert np.abs(np.array(found.corners) - shown).max() < 0.1


def test_the_loupe_shows_while_a_corner_is_dragged(opened):
    """The loupe opens on the far side as a corner is pulled, and goes when it is let go."""
    page = opened()
    loupe = page.locator("#fix-loupe")
    assert loupe.is_hidden()
    page.mouse.move(*middle(page, 0))
    page.mouse.down()
    page.mouse.move(*place(page, (100, 100)), steps=2)
    corners(page)
    assert loupe.is_visible() and loupe.get_attribute("data-side") == "right"
    page.mouse.up()
    corners(page)
    assert loupe.is_hidden()


def test_a_finger_moves_a_corner(opened):
    """A finger pulls a corner by as much as it moves, and the page stays where it is."""
    page = opened(viewport={"width": 360, "height": 800}, has_touch=True, is_mobile=True)
    page.locator("#fix-stage").scroll_into_view_if_needed()
    before, top = corners(page), page.evaluate("scrollY")
    x, y = middle(page, 2)
    devtools = page.context.new_cdp_session(page)
    for kind, points in (
        ("touchStart", [{"x": x, "y": y}]),
        ("touchMove", [{"x": x - 30, "y": y - 20}]),
        ("touchMove", [{"x": x - 60, "y": y - 40}]),
        ("touchEnd", []),
    ):
        devtools.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    after = corners(page)
    each = SIZE[0] / page.locator("#fix-photo").bounding_box()["width"]
    assert after[2] == pytest.approx((before[2][0] - 60 * each, before[2][1] - 40 * each), abs=1)
    assert after[:2] + after[3:] == before[:2] + before[3:]
    assert page.evaluate("scrollY") == top


def test_keys_alone_do_everything(opened):
    """Tab reaches the corners; arrows move one by a pixel, with Shift by ten; it is spoken."""
    page = opened()
    page.locator("#fix-after").focus()
    page.keyboard.press("Tab")
    before = corners(page)
    assert page.locator("#fix-loupe").is_visible()
    for key in ("ArrowRight", "ArrowRight", "Shift+ArrowDown", "ArrowUp"):
        page.keyboard.press(key)
    (x, y), *others = corners(page)
    assert (x, y) == pytest.approx((before[0][0] + 2, before[0][1] + 9)) and others == before[1:]
    spoken = page.evaluate("document.activeElement.getAttribute('aria-label')")
    assert spoken == f"Top left corner of the card: {x:.1f} across, {y:.1f} down"
    for _ in range(4):
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert corners(page) == [*others, (x, y)]
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    assert corners(page) == before


def test_a_corner_stays_in_the_photo(opened):
    """Pulled or pushed beyond the frame, a corner stops on it."""
    page = opened()
    drag(page, 1, (SIZE[0] + 60, 200))
    assert corners(page)[1][0] == SIZE[0]
    page.locator(".fix-corner").nth(0).focus()
    for _ in range(12):
        page.keyboard.press("Shift+ArrowLeft")
    assert corners(page)[0][0] == 0


@pytest.mark.parametrize("turned", [0, 1])
def test_the_result_is_what_the_build_cuts(opened, turned):
    """The card on the page equals the one that a build cuts, upright and lying."""
    page = opened()
    points = [*TILTED[turned:], *TILTED[:turned]]
    put(page, points)
    corners(page)
    address = page.evaluate("document.getElementById('fix-result').toDataURL('image/png')")
    shown = Image.open(BytesIO(base64.b64decode(address.partition(",")[2]))).convert("RGB")
    quad = np.array(points)
    cut = rectify(smooth(), quad, shape_of(quad))
    expected = cv2.resize(cut, shown.size, interpolation=cv2.INTER_AREA)
    assert shown.size == ((350, 490), (490, 350))[turned]
    # The copy is a JPEG of 76 %: a few levels of 255 are its own.
    off = np.abs(np.asarray(shown, np.float64) - expected)
    assert off.mean() < 2 and off.max() < 16


@pytest.mark.parametrize(
    "points, words",
    [
        ([(100, 100), (500, 600), (500, 100), (100, 600)], "Two sides cross"),
        ([(100, 100), (100, 600), (500, 600), (500, 100)], "wrong way round"),
        ([(100, 100), (500, 100), (220, 220), (100, 600)], "no card's shape"),
        ([(100, 100), (104, 100), (104, 106), (100, 106)], "too close together"),
    ],
)
def test_shapes_that_are_none_are_said_in_words(opened, points, words):
    """A shape that a post would be refused for gives a reason and no line to copy."""
    page = opened()
    put(page, points)
    page.locator("#fix-fault", has_text=words).wait_for()
    assert page.locator("#fix-line").input_value() == ""
    assert page.locator("#fix-copy").is_disabled()
    page.locator("#fix-reset").click()
    assert len(corners(page)) == 4 and page.locator("#fix-fault").is_hidden()


def test_the_page_refuses_what_a_post_is_refused_for(opened):
    """For any four corners the page and the reader of posts agree whether they will do."""
    rng = np.random.default_rng(8)
    quads = rng.uniform(0, 700, (600, 4, 2)).round(1)
    near = np.array(TILTED) + rng.normal(0, 90, (600, 4, 2))
    quads = np.concatenate([quads, np.clip(near, 0, 700).round(1)])
    page = opened()
    told = page.evaluate("quads => quads.map(faultOf)", quads.tolist())
    read = []
    for quad in quads:
        text = ", ".join(f"{x:.1f} {y:.1f}" for x, y in quad)
        header = Header("a.md", {"cut out at": Field("Cut out at", text, 1)}, (), "", 2)
        read.append(read_corners(Fields(header, []), "Cut out at") is not None)
    assert [not fault for fault in told] == read
    assert 100 < sum(read) < 1100
    assert {"crossing", "backwards", "dented", ""} <= set(told)


def test_proportions_are_chosen_as_a_build_does(opened):
    """For any corners and number of panels the page takes the same proportion as the build."""
    rng = np.random.default_rng(9)
    quads = (np.array(TILTED) * rng.uniform(0.2, 2, (200, 1, 2))).round(2)
    page = opened()
    for panels in (1, 2, 3):
        how = "([quads, panels]) => quads.map(quad => shapeOf(quad, panels))"
        told = page.evaluate(how, [quads.tolist(), panels])
        assert [tuple(shape) for shape in told] == [shape_of(quad, panels) for quad in quads]


def test_the_line_can_be_copied(opened):
    """The button puts the line on the clipboard and says so."""
    page = opened()
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page.locator("#fix-copy").click()
    page.locator("#fix-status", has_text="Copied.").wait_for()
    line = page.locator("#fix-line").input_value()
    assert page.evaluate("navigator.clipboard.readText()") == line


def test_each_card_is_reached_and_keeps_its_corners(opened):
    """Next, back and the list change the card; corners moved before are still there."""
    page = opened()
    put(page, TILTED)
    moved = corners(page)
    page.locator("#fix-after").click()
    page.locator("#fix-post", has_text="cards/fern.md").wait_for()
    assert corners(page) != moved
    page.locator("#fix-choice").select_option(index=3)
    page.locator("#fix-spot", has_text="Photo: two.png at 69% 44%").wait_for()
    assert page.locator("#fix-after").is_disabled()
    page.locator("a", has_text="Put it right").nth(1).click()
    page.locator("#fix-post", has_text="cards/moth.md").wait_for()
    assert corners(page) == moved


def test_titles_and_file_names_stay_text(opened):
    """Nothing that people wrote runs or becomes an element."""
    page = opened(card=0)
    assert page.title().startswith("Put corners right · Low tide <img")
    options = page.locator("#fix-choice option").all_text_contents()
    assert options[:2] == [f"? Tram · {SHARP_FILE}", f"? Moth {SHARP} · smooth.png"]
    assert page.locator("#fix-photo").get_attribute("alt") == f"The photo photos/{SHARP_FILE}"
    assert page.locator("img").count() == 1 and page.locator("b, bdi img").count() == 0


@pytest.mark.parametrize(
    "width, scheme", [(320, "light"), (360, "dark"), (1350, "light"), (1350, "dark")]
)
def test_the_page_is_accessible_and_fits(opened, width, scheme):
    """axe finds no fault by WCAG 2.2 level AA, nothing sticks out, targets can be hit."""
    import axe_playwright_python

    axe = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text("utf-8")
    page = opened(color_scheme=scheme, viewport={"width": width, "height": 800})
    page.evaluate(axe)
    how = "rules => axe.run({runOnly: {type: 'tag', values: rules}, preload: false})"
    told = page.evaluate(how, AXE_RULES)
    assert told["passes"]
    assert [(v["id"], v["nodes"][0]["html"]) for v in told["violations"]] == []
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    small = """() => [...document.querySelectorAll('button, select, textarea')].filter(e => {
      const box = e.getBoundingClientRect(); return box.height < 44 || box.width < 44;
    }).map(e => e.outerHTML)"""
    assert page.evaluate(small) == []


def test_without_scripts_there_is_a_list(new_page, fix_board):
    """Without JavaScript the doubtful crops and their numbers are there, and no dead control."""
    page = new_page(java_script_enabled=False)
    page.goto((fix_board / ".swapboard" / "fix" / "index.html").as_uri())
    assert page.get_by_text("Cut out at: 82.1 0.0, 617.9 0.0").is_visible()
    assert page.locator("button:visible, select:visible, a:visible:not(.skip)").count() == 0
