"""A part of a mail that nobody asked for: what it is called when it is left out, and what is
refused even so."""

import re

_PICTURES = ((b"\xff\xd8\xff", "JPEG"), (b"\x89PNG\r\n\x1a\n", "PNG"), (b"II*\x00", "TIFF"),
             (b"MM\x00*", "TIFF"))  # fmt: skip
_BRANDS = (b"avif", b"avis", b"heic", b"heix", b"heim", b"mif1", b"msf1")
# What mails carry along, by how its bytes begin.
_BEGINS = (
    (b"GIF8", "GIF"), (b"BM", "BMP"), (b"%PDF", "PDF"), (b"PK\x03\x04", "office document"),
    (b"\xd0\xcf\x11\xe0", "office document"), (b"\x78\x9f\x3e\x22", "Outlook’s own format"),
    (b"BEGIN:VCARD", "visiting card"), (b"BEGIN:VCALENDAR", "calendar"), (b"{\\rtf", "RTF"),
)  # fmt: skip
_PROGRAMS = (b"MZ", b"\x7fELF", b"#!", b"\xca\xfe\xba\xbe", b"\xfe\xed\xfa", b"\xcf\xfa\xed\xfe")
_RUNS = re.compile(
    r"\.(?:exe|com|scr|bat|cmd|ps1|vbs?|jse?|mjs|wsf|hta|msi|jar|lnk|sh|py|app|apk|dll|reg|svgz?"
    r"|html?|xhtml)$",
    re.IGNORECASE,
)
_KINDS_THAT_RUN = re.compile(
    r"(?:application/(?:(?:x-)?(?:java|ecma)script|x-msdownload|x-sh|hta|xhtml\+xml)"
    r"|text/(?:javascript|ecmascript|html)|image/svg\+xml)$"
)
_ARCHIVES = (b"PK\x03\x04", b"PK\x05\x06", b"Rar!", b"7z\xbc\xaf", b"\x1f\x8b", b"BZh", b"\xfd7zXZ")
_OFFICE = re.compile(r"\.(?:docx|xlsx|pptx|od[tspg]|pages|numbers)$", re.IGNORECASE)
_SAYS_PICTURE = re.compile(r"\.(?:jpe?g|png|webp|heic|heif|avif|tiff?)$", re.IGNORECASE)
_KINDS_OF_PICTURE = re.compile(r"image/(?:p?jpe?g|png|webp|hei[cf]|avif|tiff)$")
_OF_A_FORM = re.compile(r"picture-\d{1,3}\.\w{1,5}", re.IGNORECASE)
SMALLEST_INSIDE = 20_000
"""bytes: a picture that stands inside the text and has fewer is a logo, not a photo."""


def sort_of_picture(data: bytes) -> str:
    """Which kind of picture bytes begin like, of those that the board reads; else ""."""
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "WebP"
    if data[4:8] == b"ftyp" and data[8:12] in _BRANDS:
        return "HEIF"
    return next((kind for head, kind in _PICTURES if data.startswith(head)), "")


def is_logo(name: str, data: bytes, is_inside: bool) -> bool:
    """Whether a picture belongs to a signature: it stands inside the text, and is small."""
    return is_inside and len(data) < SMALLEST_INSIDE and not _OF_A_FORM.fullmatch(name)


def harm_in(kind: str, name: str, data: bytes) -> str:
    """What makes a part one that no letter needs, by its type, its name or its bytes: a
    program, a script, an archive, or something dressed up as a picture; else ""."""
    if data.startswith(_PROGRAMS) or _RUNS.search(name) or _KINDS_THAT_RUN.match(kind):
        return "a program or a script"
    head = data[:1024].lstrip().lower()
    if head.startswith((b"<svg", b"<html", b"<!doctype", b"<script", b"<?xml")):
        return "a program or a script"
    says_picture = _SAYS_PICTURE.search(name) or _KINDS_OF_PICTURE.match(kind)
    # Whatever its name, a GIF or BMP is a picture, though not one that the board takes.
    if says_picture and not data.startswith((b"GIF8", b"BM")):
        return "something else under a picture’s name"
    # Its pictures would be missed, and nobody knows what else it holds.
    return "an archive" if data.startswith(_ARCHIVES) and not _OFFICE.search(name) else ""


def called(kind: str, name: str, data: bytes) -> str:
    """A part in a word or two, as the keeper hears of it: "logo.gif (GIF)"."""
    what = next((word for head, word in _BEGINS if data.startswith(head)), kind)
    return f"{name} ({what})" if name else what
