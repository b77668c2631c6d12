"""Pictures of cards that are not on the board: small, upright, and with nothing of a camera's."""

from io import BytesIO

import pytest
from PIL import Image

from browser.composing import INES, check_mail, file_of, look_over, open_composer, text_of

pytestmark = pytest.mark.browser

ORIENTATION, MAKE, GPS = 0x0112, 0x010F, 0x8825
RED, GREEN, BLUE, WHITE = (220, 20, 20), (20, 180, 20), (20, 20, 220), (250, 250, 250)
# How the upright picture is stored for each value of Orientation (Exif 2.32, 4.6.4 A).
STORED = {
    1: (), 2: (Image.Transpose.FLIP_LEFT_RIGHT,), 3: (Image.Transpose.ROTATE_180,),
    4: (Image.Transpose.FLIP_TOP_BOTTOM,), 5: (Image.Transpose.TRANSPOSE,),
    6: (Image.Transpose.ROTATE_90,), 7: (Image.Transpose.TRANSVERSE,),
    8: (Image.Transpose.ROTATE_270,),
}  # fmt: skip


def photo(orientation: int, size=(2400, 1600)) -> bytes:
    """A photo whose corners are red, green, blue and white from the top left clockwise, as a
    camera stores it, with the place, the device and a secret in a comment."""
    upright = Image.new("RGB", (2, 2))
    upright.putdata([RED, GREEN, WHITE, BLUE])
    stored = upright.resize(size, Image.Resampling.NEAREST)
    for turn in STORED[orientation]:
        stored = stored.transpose(turn)
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKE] = orientation, "Camera of nobody"
    exif.get_ifd(GPS)[1] = "N"
    exif.get_ifd(GPS)[2] = (59.0, 54.0, 36.0)
    out = BytesIO()
    stored.save(out, "JPEG", exif=exif, quality=92, comment=b"a secret")
    return out.getvalue()


def as_file(data: bytes, name: str = "IMG_0042.jpg", kind: str = "image/jpeg") -> dict:
    """What a chosen file is to Playwright."""
    return {"name": name, "mimeType": kind, "buffer": data}


@pytest.fixture
def stranger(new_page, made_site):
    """Opens the composer for somebody who is not on the board yet."""

    def open_with(*cards):
        page = open_composer(new_page(), made_site.as_uri(), *cards)
        page.locator("#offer-from").select_option("*")
        page.locator("#offer-name").fill("Zoë Ünal")
        page.locator("#offer-country").fill("Ghana")
        return page

    return open_with


def choose(page, index: int, data: dict, line: str) -> None:
    """Choose the picture of row `index`, and say what it is."""
    row = page.locator(".form__picture").nth(index)
    row.locator("input[type=file]").set_input_files(data)
    row.locator("input[type=text]").fill(line)
    row.locator("canvas").wait_for()


def corners(picture: Image.Image) -> list[tuple[int, int, int]]:
    """The colours near the four corners, from the top left clockwise."""
    wide, high = picture.size
    places = ((9, 9), (wide - 9, 9), (wide - 9, high - 9), (9, high - 9))
    return [picture.getpixel(place) for place in places]


def test_every_orientation_gives_the_same_upright_picture(stranger, tmp_path):
    """Eight photos of one thing, stored in the eight ways, arrive upright and small, and an
    independent reader finds text and pictures whole, with nothing that the camera noted."""
    page = stranger(*INES[:8])
    assert page.locator(".form__picture").count() == 8
    for value in range(1, 9):
        choose(page, value - 1, as_file(photo(value)), f"Blue heron {value}, gouache")
    page.locator("#offer-count", has_text="You ask for 8 and give 8: even.").wait_for()
    look_over(page)
    shown = text_of(page)
    assert "From: Zoë Ünal\nCountry: Ghana\nTo: ines-okafor\n" in shown
    assert "Gives:\n    picture 1: Blue heron 1, gouache\n    picture 2: Blue heron 2, " in shown
    _, data, mail = file_of(page, tmp_path)
    assert mail["Subject"] == "Swap offer from Zoë Ünal to Ines Okafor"
    text, pictures = check_mail(data, mail)
    assert text == shown and len(pictures) == 8
    for picture in pictures:
        for trace in (b"Exif", b"http://ns.adobe.com", b"nobody", b"secret", b"GPS"):
            assert trace not in picture
        read = Image.open(BytesIO(picture))
        assert (read.format, read.size, dict(read.getexif())) == ("JPEG", (1200, 800), {})
        for found, wanted in zip(corners(read), (RED, GREEN, BLUE, WHITE), strict=True):
            assert max(abs(a - b) for a, b in zip(found, wanted, strict=True)) < 12
    links = page.locator(".finished__pictures a")
    assert links.all_inner_texts() == [f"picture-{n}.jpg" for n in range(1, 9)]
    with page.expect_download() as waiting:
        links.nth(2).click()
    waiting.value.save_as(tmp_path / "third.jpg")
    assert (tmp_path / "third.jpg").read_bytes() == pictures[2]


def test_a_picture_stays_small_whatever_it_shows(stranger, tmp_path):
    """Noise, which packs worst of all, still becomes less than 400 kB; a small one is not
    made larger, and what can be seen through becomes white."""
    noise, clear = BytesIO(), BytesIO()
    Image.effect_noise((3000, 2400), 250).convert("RGB").save(noise, "JPEG", quality=95)
    Image.new("RGBA", (250, 350), (0, 0, 0, 0)).save(clear, "PNG")
    page = stranger(*INES[:2])
    choose(page, 0, as_file(noise.getvalue()), "Noise")
    choose(page, 1, as_file(clear.getvalue(), "clear.png", "image/png"), "Nothing")
    look_over(page)
    text_of(page)
    _, data, mail = file_of(page, tmp_path)
    _, (large, small) = check_mail(data, mail)
    assert len(large) < 400_000 and Image.open(BytesIO(large)).size == (1200, 960)
    white = Image.open(BytesIO(small))
    assert (white.size, white.getpixel((100, 100))) == ((250, 350), (255, 255, 255))


@pytest.mark.parametrize(
    "bad",
    [
        as_file(b"not a picture at all"),
        as_file(b"", "empty.jpg"),
        as_file(photo(1)[:300], "cut.jpg"),
        as_file(b"<svg xmlns='http://www.w3.org/2000/svg'/>", "a.svg", "image/svg+xml"),
        as_file(photo(1, (60, 90)), "tiny.jpg"),
    ],
    ids=lambda file: file["name"],
)  # fmt: skip
def test_what_is_no_picture_is_said_so_beside_it(stranger, bad):
    """The row says so at once and again when looked over; a good picture mends it."""
    page = stranger(INES[0])
    file = page.locator(".form__picture input[type=file]")
    file.set_input_files(bad)
    fault = page.locator(".form__picture .form__fault").first
    fault.get_by_text("This cannot be read as a picture here.").wait_for()
    page.locator(".form__picture input[type=text]").fill("A heron")
    look_over(page)
    assert page.locator("#offer-faults li").all_inner_texts() == [
        "This cannot be read as a picture here. Choose a JPEG or PNG."
    ]
    choose(page, 0, as_file(photo(1)), "A heron")
    assert fault.inner_text() == ""
    look_over(page)
    assert "picture 1: A heron\n" in text_of(page)


def test_of_several_pictures_a_fault_names_the_one_it_is_told_of(stranger):
    """In the list of faults no two read the same; beside its field a fault needs no name."""
    page = stranger(*INES[:2])
    choose(page, 0, as_file(photo(1)), "First")
    page.locator(".form__picture input[type=text]").first.fill("")
    look_over(page)
    assert page.locator("#offer-faults li").all_inner_texts() == [
        "Picture 1: Say in a line what it is: a title, a medium.",
        "Picture 2: Choose a picture: nobody swaps unseen.",
        "Picture 2: Say in a line what it is: a title, a medium.",
    ]
    beside = page.locator(".form__picture .form__fault:visible").first
    assert beside.inner_text() == "Say in a line what it is: a title, a medium."


def test_rows_are_numbered_as_they_stand(stranger):
    """A row taken out leaves no gap in the numbers, and the focus goes to the next row."""
    page = stranger(*INES[:2])
    choose(page, 0, as_file(photo(1)), "First")
    choose(page, 1, as_file(photo(1)), "Second")
    page.get_by_role("button", name="Take out: Picture 1").click()
    assert page.locator(".form__numbered").all_inner_texts() == ["Picture 1"]
    assert page.evaluate("document.activeElement.type") == "file"
    page.get_by_role("button", name="Add a card that is not on the board").click()
    choose(page, 1, as_file(photo(1)), "Third")
    look_over(page)
    assert "    picture 1: Second\n    picture 2: Third\n" in text_of(page)


def test_a_maker_of_the_board_may_give_a_card_that_is_not_on_it(stranger):
    """Own cards and pictures count together; rows left empty go when one is on the board."""
    page = stranger(*INES[:2])
    assert page.locator(".form__picture").count() == 2
    page.locator("#offer-from").select_option("tam-brackwater")
    assert page.locator(".form__picture").count() == 0
    page.locator("#offer-given input").first.check()
    page.get_by_role("button", name="Add a card that is not on the board").click()
    choose(page, 0, as_file(photo(1)), "New: one")
    look_over(page)
    assert "Gives:\n    card-1\n    picture 1: New: one\nNote:" in text_of(page)
