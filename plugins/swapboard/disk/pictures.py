"""Picture files: in, as upright sRGB arrays; out, as bare AVIF and JPEG.

What a decoder has to say about a file ends up in a `Problem`; nothing of a
file but its pixels and its focal length goes any further.
"""

from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING
from warnings import catch_warnings, simplefilter

from swapboard.photo.proportion import focal_in_pixels
from swapboard.problems import WARNING, Problem
from swapboard.settings import PhotoSettings

if TYPE_CHECKING:
    import numpy as np
    from PIL.Image import Image

FORMATS = ("JPEG", "PNG", "WEBP", "TIFF", "AVIF", "HEIF")
WANTED = "a JPEG, PNG, WebP, TIFF, AVIF or HEIC picture"
SMALLEST = 64
"""px: no card can be made out in less."""

AVIF_QUALITY = 60
AVIF_SPEED = 8
JPEG_QUALITY = 76

_ORIENTATION = 0x0112
_EXIF_FOLDER = 0x8769
_FOCAL_LENGTH_35_MM = 0xA405

_BEGINNINGS = (
    (b"%PDF", "a PDF document"),
    (b"GIF8", "a GIF picture"),
    (b"BM", "a BMP picture"),
    (b"8BPS", "a Photoshop document"),
    (b"PK\x03\x04", "a ZIP archive or office document"),
    (b"\x1f\x8b", "a compressed archive"),
    (b"RIFF", "a sound or video file"),
)


def read_picture(
    path: Path, name: str, limits: PhotoSettings
) -> tuple["np.ndarray | None", float | None, list[Problem]]:
    """A file as an upright uint8 array [h, w, 3] in sRGB, its focal length in px, problems.

    `name` is how messages call the file ("photos/heron.jpg"). The array is
    None where the file cannot be used, and then at least one problem is an
    error. Of a file with several pictures the first is read. Transparency is
    laid on white. The focal length is None where the file does not tell.
    """
    refused = _refuse_unopened(path, name, limits)
    if refused:
        return None, None, [refused]
    try:
        with catch_warnings():
            # Sizes are checked here, against the board's own limit.
            simplefilter("ignore")
            return _decode(path, name, limits)
    except Exception as error:  # a damaged file can make a decoder raise anything
        return None, None, [_broken(path, name, limits, error)]


def encode_avif(card: "np.ndarray") -> bytes:
    """uint8 [h, w, 3] sRGB as AVIF, without any metadata.

    One thread: how many there are changes the bytes.
    """
    from PIL import Image

    out = BytesIO()
    Image.fromarray(card).save(
        out, "AVIF", quality=AVIF_QUALITY, speed=AVIF_SPEED, subsampling="4:2:0", max_threads=1
    )
    return out.getvalue()


def encode_jpeg(card: "np.ndarray") -> bytes:
    """uint8 [h, w, 3] sRGB as a progressive JPEG, without any metadata."""
    from PIL import Image

    out = BytesIO()
    Image.fromarray(card).save(out, "JPEG", quality=JPEG_QUALITY, optimize=True, progressive=True)
    return out.getvalue()


def _refuse_unopened(path: Path, name: str, limits: PhotoSettings) -> Problem | None:
    """What the file system and the first bytes already say against a file."""
    try:
        if not path.is_file():
            fix = "put the picture into photos/ or correct its name"
            return Problem(name, 0, "", "must be a file that is there", None, fix)
        size = path.stat().st_size
        with path.open("rb") as file:
            head = file.read(512)
    except OSError as error:
        fix = "make the file readable for whoever builds the board"
        return Problem(name, 0, "", "must be readable", error.strerror, fix)
    if size == 0:
        return Problem(name, 0, "", f"must be {WANTED}", "an empty file", "copy the photo again")
    if size > limits.largest_megabytes * 1_000_000:
        must = f"must be at most {limits.largest_megabytes} MB"
        fix = "save the photo smaller, or raise largest_megabytes in board.toml"
        return Problem(name, 0, "", must, f"{size / 1e6:.1f} MB", fix)
    other = _other_kind(head)
    if other:
        fix = "save it as JPEG or PNG, or take a photo of the card"
        return Problem(name, 0, "", f"must be {WANTED}", other, fix)
    return None


def _other_kind(head: bytes) -> str:
    """What a file's first bytes say it is, or "" where it may be a picture we read."""
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return ""
    for beginning, kind in _BEGINNINGS:
        if head.startswith(beginning):
            return kind
    text = head.lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if text.startswith(b"<") and b"<svg" in text:
        return "an SVG drawing"
    if text.startswith((b"<!doctype", b"<html")):
        return "a web page"
    if text.startswith(b"<?xml"):
        return "an SVG drawing or another XML document"
    return ""


def _broken(path: Path, name: str, limits: PhotoSettings, error: Exception) -> Problem:
    from PIL import Image, UnidentifiedImageError

    if isinstance(error, Image.DecompressionBombError):
        return _too_many_pixels(name, limits, "far more")
    if isinstance(error, UnidentifiedImageError):
        got = f"a file that is none, {path.stat().st_size} bytes long"
        return Problem(name, 0, "", f"must be {WANTED}", got, "copy or export the photo again")
    must = "must be a whole, undamaged picture"
    fix = "copy the photo again from where it came"
    return Problem(name, 0, "", must, str(error) or type(error).__name__, fix)


def _too_many_pixels(name: str, limits: PhotoSettings, got: str) -> Problem:
    must = f"must be at most {limits.largest_megapixels} megapixels"
    fix = "save the photo smaller, or raise largest_megapixels in board.toml"
    return Problem(name, 0, "", must, got, fix)


def _decode(
    path: Path, name: str, limits: PhotoSettings
) -> tuple["np.ndarray | None", float | None, list[Problem]]:
    import numpy as np
    from PIL import Image
    from pillow_heif import register_heif_opener

    register_heif_opener()
    with Image.open(path, formats=FORMATS) as image:
        width, height = image.size
        if width * height > limits.largest_megapixels * 1_000_000:
            got = f"{width} × {height} px"
            return None, None, [_too_many_pixels(name, limits, got)]
        if min(width, height) < SMALLEST:
            must = f"must be at least {SMALLEST} px wide and high"
            got = f"{width} × {height} px"
            return None, None, [Problem(name, 0, "", must, got, "take a larger photo")]
        image.load()
        orientation, equivalent = _camera(image)
        colours, problems = _to_srgb(image, name)
    upright = np.ascontiguousarray(_upright(np.asarray(colours), orientation))
    focal = focal_in_pixels(equivalent, width, height) if equivalent else None
    return upright, focal, problems


def _camera(image: "Image") -> tuple[int, float | None]:
    """Exif orientation (1–8) and focal length in mm, 35 mm equivalent, where told."""
    try:
        exif = image.getexif()
        orientation = exif.get(_ORIENTATION, 1)
        equivalent = exif.get_ifd(_EXIF_FOLDER).get(_FOCAL_LENGTH_35_MM)
        equivalent = float(equivalent) if equivalent else None
    except Exception:  # a picture is worth having without its damaged notes
        return 1, None
    usual = equivalent is not None and 8 <= equivalent <= 400
    valid = isinstance(orientation, int) and 1 <= orientation <= 8
    return orientation if valid else 1, equivalent if usual else None


def _upright(pixels: "np.ndarray", orientation: int) -> "np.ndarray":
    """Exif 2.32, tag 0x0112: where row 0 and column 0 of the stored picture belong."""
    if orientation in (5, 6, 7, 8):
        pixels = pixels.transpose(1, 0, 2)
    if orientation in (3, 4, 7, 8):
        pixels = pixels[::-1]
    if orientation in (2, 3, 6, 7):
        pixels = pixels[:, ::-1]
    return pixels


def _to_srgb(image: "Image", name: str) -> tuple["Image", list[Problem]]:
    """Mode RGB in sRGB, through the file's own colour profile where it has one."""
    profile = image.info.get("icc_profile")
    flat = _eight_bits_opaque(image)
    if flat.mode == "LAB":
        return _through_profile(flat, None), []
    if profile and flat.mode in ("RGB", "L", "CMYK"):
        try:
            return _through_profile(flat, profile), []
        except Exception as error:  # littlecms and Pillow raise several kinds
            must = "should have a colour profile that can be read"
            fix = "nothing, if the colours look right; else save the photo as sRGB"
            warning = Problem(name, 0, "", must, str(error), fix, WARNING)
            return flat.convert("RGB"), [warning]
    return flat.convert("RGB"), []


def _through_profile(image: "Image", profile: bytes | None) -> "Image":
    from PIL import ImageCms

    if profile is None:
        source = ImageCms.createProfile("LAB")
    else:
        source = ImageCms.ImageCmsProfile(BytesIO(profile))
        if image.mode == "RGB" and "sRGB" in (source.profile.profile_description or ""):
            return image
    target = ImageCms.createProfile("sRGB")
    return ImageCms.profileToProfile(image, source, target, outputMode="RGB")


def _eight_bits_opaque(image: "Image") -> "Image":
    """The picture in 8 bits a channel (RGB, L, CMYK or LAB), transparency laid on white."""
    import numpy as np
    from PIL import Image

    if image.mode.startswith("I;16") or image.mode in ("I", "F"):
        values = np.asarray(image, dtype=np.float64)
        top = 1.0 if image.mode == "F" and values.max() <= 1 else 65535.0
        if image.mode != "I;16" and 1 < values.max() <= 255:
            top = 255.0
        return Image.fromarray(np.clip(values * (255 / top) + 0.5, 0, 255).astype(np.uint8))
    if image.has_transparency_data:
        clear = image.convert("RGBA")
        paper = Image.new("RGBA", clear.size, "white")
        return Image.alpha_composite(paper, clear).convert("RGB")
    if image.mode in ("RGB", "L", "CMYK", "LAB"):
        return image
    return image.convert("L" if image.mode == "1" else "RGB")
