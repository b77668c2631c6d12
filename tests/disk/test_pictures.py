"""Picture files in and out."""

from io import BytesIO

import numpy as np
import pytest
from PIL import Image, ImageCms

from swapboard.disk.pictures import encode_avif, encode_jpeg, read_picture
from swapboard.settings import PhotoSettings

LIMITS = PhotoSettings()


def drawing(width: int = 160, height: int = 120) -> np.ndarray:
    y, x = np.mgrid[:height, :width]
    return np.dstack([x * 255 // width, y * 255 // height, np.full_like(x, 90)]).astype(np.uint8)


def read(path):
    return read_picture(path, f"photos/{path.name}", LIMITS)


FORMATS = {"jpg": "JPEG", "png": "PNG", "webp": "WEBP", "tif": "TIFF", "avif": "AVIF"}


@pytest.mark.parametrize("ending", [*FORMATS, "heic"])
def test_formats(tmp_path, ending):
    """Every accepted format gives the picture it holds."""
    import pillow_heif

    pillow_heif.register_heif_opener()
    path = tmp_path / f"heron.{ending}"
    Image.fromarray(drawing()).save(path, FORMATS.get(ending, "HEIF"), quality=95)
    picture, focal, problems = read(path)
    assert problems == []
    assert focal is None
    assert picture.dtype == np.uint8
    assert np.abs(picture.astype(int) - drawing()).mean() < 4


# Exif 2.32, tag 0x0112: where the stored picture's row 0 and column 0 lie when upright.
STORED = {
    1: lambda up: up,
    2: lambda up: up[:, ::-1],
    3: lambda up: up[::-1, ::-1],
    4: lambda up: up[::-1],
    5: lambda up: up.transpose(1, 0, 2),
    6: lambda up: np.rot90(up, 1),
    7: lambda up: up[::-1, ::-1].transpose(1, 0, 2),
    8: lambda up: np.rot90(up, -1),
}


@pytest.mark.parametrize("orientation", range(1, 9))
def test_orientation(tmp_path, orientation):
    """All eight Exif orientations of one picture give the same upright picture."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = tmp_path / "turned.png"
    stored = np.ascontiguousarray(STORED[orientation](drawing()))
    Image.fromarray(stored).save(path, exif=exif)
    picture, _, problems = read(path)
    assert problems == []
    np.testing.assert_array_equal(picture, drawing())


def test_focal_length_in_pixels(tmp_path):
    """35 mm equivalent 26 mm on 4:3 is 26 / 43.27 of the diagonal (CIPA DCG-001, by diagonal)."""
    exif = Image.Exif()
    exif.get_ifd(0x8769)[0xA405] = 26
    path = tmp_path / "phone.jpg"
    Image.fromarray(drawing()).save(path, exif=exif)
    assert read(path)[1] == pytest.approx(26 / 43.2666 * 200, rel=1e-4)


@pytest.mark.parametrize("mode", ["L", "P", "RGBA", "LA", "CMYK", "1", "I;16", "I", "F"])
def test_modes(tmp_path, mode):
    """Greyscale, palette, transparency, CMYK and deep pictures all become the same grey."""
    grey = np.full((100, 140), 128, np.uint8)
    if mode in ("I;16", "I"):
        image = Image.fromarray(np.full((100, 140), 128 * 257, np.uint16))
        image = image if mode == "I;16" else image.convert("I")
    elif mode == "F":
        image = Image.fromarray(np.full((100, 140), 128 / 255, np.float32))
    elif mode == "1":
        grey[:] = 255
        image = Image.fromarray(grey).convert("1")
    elif mode == "P":
        image = Image.fromarray(grey).convert("P", palette=Image.Palette.ADAPTIVE)
    else:
        image = Image.fromarray(grey).convert("RGB").convert(mode)
    path = tmp_path / "deep.tif"
    image.save(path)
    picture, _, problems = read(path)
    assert problems == []
    assert picture.shape == (100, 140, 3)
    assert np.abs(picture.astype(int) - grey[..., None]).max() <= 3


def test_transparency_is_laid_on_white(tmp_path):
    """What is transparent is white."""
    clear = np.zeros((80, 80, 4), np.uint8)
    path = tmp_path / "clear.png"
    Image.fromarray(clear).save(path)
    assert np.all(read(path)[0] == 255)


def test_colour_profile_is_applied(tmp_path):
    """Lab written with its profile comes out in sRGB: #ff0000 is Lab 53.24, 80.09, 67.20.

    IEC 61966-2-1; Lab rounded to 8 bits there and back costs up to six levels."""
    srgb = ImageCms.createProfile("sRGB")
    lab = ImageCms.createProfile("LAB")
    red = Image.new("RGB", (80, 80), (255, 0, 0))
    image = ImageCms.profileToProfile(red, srgb, lab, outputMode="LAB")
    path = tmp_path / "lab.tif"
    image.save(path)
    picture, _, problems = read(path)
    assert problems == []
    assert np.abs(picture.astype(int) - (255, 0, 0)).max() <= 6


def test_unreadable_profile_is_a_warning(tmp_path):
    """A damaged colour profile is told, and the picture is used as it is."""
    path = tmp_path / "odd.png"
    Image.fromarray(drawing()).save(path, icc_profile=b"not a profile")
    picture, _, (problem,) = read(path)
    np.testing.assert_array_equal(picture, drawing())
    assert problem.severity == "warning"


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "an empty file"),
        (b"%PDF-1.7 ...", "a PDF document"),
        (b"GIF89a....", "a GIF picture"),
        (b'<svg xmlns="http://www.w3.org/2000/svg"/>', "an SVG drawing"),
        (b"<!DOCTYPE html><p>", "a web page"),
        (b"heron on a post", "a file that is none"),
    ],
)
def test_other_files_are_named(tmp_path, content, said):
    """A file that is no picture is said to be what it is."""
    path = tmp_path / "heron.jpg"
    path.write_bytes(content)
    picture, _, (problem,) = read(path)
    assert picture is None
    assert problem.path == "photos/heron.jpg"
    assert problem.severity == "error"
    assert said in problem.got


def test_truncated_file(tmp_path):
    """A picture of which a part is missing is an error, not half a picture."""
    path = tmp_path / "half.jpg"
    Image.fromarray(drawing(900, 700)).save(path)
    path.write_bytes(path.read_bytes()[:9000])
    picture, _, (problem,) = read(path)
    assert picture is None
    assert "undamaged" in problem.must


def test_missing_file_and_folder(tmp_path):
    """A missing file and a folder are errors by name."""
    assert read(tmp_path / "none.jpg")[2][0].must == "must be a file that is there"
    assert read(tmp_path)[0] is None


def test_limits(tmp_path):
    """Too many megapixels, too many megabytes and too few pixels are told with the fix."""
    path = tmp_path / "wide.png"
    Image.new("RGB", (2000, 1001)).save(path)
    few = PhotoSettings(largest_megapixels=2)
    picture, _, (problem,) = read_picture(path, "photos/wide.png", few)
    assert picture is None
    assert problem.must == "must be at most 2 megapixels"
    assert "largest_megapixels" in problem.fix
    (problem,) = read_picture(path, "photos/wide.png", PhotoSettings(largest_megabytes=0))[2]
    assert "largest_megabytes" in problem.fix
    Image.new("RGB", (20, 900)).save(path)
    assert "at least" in read(path)[2][0].must


def jpeg_segments(content: bytes) -> list[int]:
    """Markers of a JPEG's segments up to the first scan (ITU-T T.81, annex B)."""
    assert content[:2] == b"\xff\xd8"
    at, markers = 2, []
    while content[at + 1] != 0xDA:
        markers.append(content[at + 1])
        at += 2 + int.from_bytes(content[at + 2 : at + 4], "big")
    return markers


def boxes(content: bytes, start: int = 0, end: int | None = None) -> list[str]:
    """Names of all boxes of an ISO base media file (ISO/IEC 14496-12), depth first."""
    end = len(content) if end is None else end
    names = []
    while start + 8 <= end:
        size = int.from_bytes(content[start : start + 4], "big") or end - start
        name = content[start + 4 : start + 8].decode("latin-1")
        names.append(name)
        skip = {"meta": 12, "iprp": 8, "ipco": 8, "iinf": 14}.get(name)
        if skip:
            names.extend(boxes(content, start + skip, start + size))
        start += size
    return names


def test_nothing_but_pixels_in_a_jpeg():
    """A JPEG holds no Exif, XMP, profile, comment or thumbnail: APP0 alone of all APPn."""
    content = encode_jpeg(drawing(480, 672))
    markers = jpeg_segments(content)
    assert [m for m in markers if 0xE0 <= m <= 0xEF] == [0xE0]
    assert 0xFE not in markers
    # JFIF 1.02: the APP0 segment ends in the thumbnail's width and height.
    assert content[4 : 4 + 4 + 12][2:6] == b"JFIF"
    assert content[18:20] == b"\x00\x00"


def test_nothing_but_pixels_in_an_avif():
    """An AVIF holds one coded picture, and no Exif, XMP or profile item."""
    content = encode_avif(drawing(240, 336))
    names = boxes(content)
    assert names.count("infe") == 1
    assert not {"Exif", "mime", "uuid", "xml ", "thmb"} & set(names)
    assert b"Exif" not in content
    assert b"prof" not in content
    assert b"http" not in content


def test_the_same_array_gives_the_same_bytes():
    """Encoding does not depend on the hour or the machine's threads."""
    array = drawing(320, 448)
    assert encode_avif(array) == encode_avif(array.copy())
    assert encode_jpeg(array) == encode_jpeg(array.copy())
    with Image.open(BytesIO(encode_avif(array))) as image:
        assert np.abs(np.asarray(image).astype(int) - array).mean() < 4
