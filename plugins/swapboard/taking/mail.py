"""One mail → its texts, its pictures and who sent it (RFC 5322 and 2045 to 2049)."""

import codecs
import re
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default
from email.utils import parseaddr

from swapboard.problems import WARNING, Problem
from swapboard.taking.parts import called, harm_in, is_logo, sort_of_picture
from swapboard.taking.plain import is_safe_to_compose, text_of_html, unflowed
from swapboard.taking.types import Attached, Letter

LARGEST_TEXT = 256 * 1024
MOST_PARTS = 100
DEEPEST = 8
MOST_LINES = 600_000
LARGEST_HEAD = 256 * 1024
LONGEST_HEADER = 4_000
LONGEST_FILE_NAME = 150

_WEIGHED = re.compile(
    rb"^(?:content-(?:type|disposition|transfer-encoding)|from)[ \t]*:[^\n]*(?:\n[ \t][^\n]*)*",
    re.IGNORECASE | re.MULTILINE,
)
_BOUNDARY = re.compile(rb"boundary[ \t]*(\*?)[^=\n]{0,9}=\s*\"?([^\";\s]+)", re.IGNORECASE)
_ENCODINGS = frozenset(["", "7bit", "8bit", "binary", "quoted-printable", "base64"])
# Readings of text by tables alone; Python knows others, which unpack or compute.
_CHARSET = re.compile(
    r"utf-(?:8|16|16-[bl]e)|ascii|iso8859-\d+|cp\d+|koi8-[rut]|mac-\w+|gb\w+|hz|big5\w*|shift_jis\w*"
    r"|euc_\w+|iso2022_\w+|johab|tis-620"
)
_SCRIPT = re.compile(r"<\s*(?:script|iframe|object|embed|svg|form|base)\b", re.IGNORECASE)
_ADDRESS = re.compile(r"[a-z0-9][\w.+'-]{0,63}@[a-z0-9-]{1,63}(?:\.[a-z0-9-]{1,63})+", re.ASCII)
_ELSEWHERE = re.compile("[/\\\\\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069]|^[A-Za-z]:|^\\.+")
_SIGNATURES = frozenset(["application/pgp-signature", "application/pkcs7-signature",
                         "application/x-pkcs7-signature"])  # fmt: skip


class Refused(Exception):
    """A mail that is not read any further, and why."""

    def __init__(self, must: str, got: str | None, fix: str) -> None:
        self.must, self.got, self.fix = must, got, fix
        super().__init__(must)


def read_mail(data: bytes, where: str) -> tuple[Letter | None, list[Problem]]:
    """A mail's letter, or None and why it is refused.

    Parts are counted and headers weighed before anything is taken apart. A mail within
    a mail counts as part of it, since that is how a form's file is sent on.
    """
    found = _Found()
    try:
        found.read(data, 0)
    except Refused as refused:
        problem = Problem(where, 0, "", refused.must, refused.got, refused.fix)
        return None, [problem]
    except RecursionError:
        fix = "ask for it anew, as a plain mail."
        return None, [Problem(where, 0, "", "must be a plain mail", "parts within parts", fix)]
    except Exception as error:  # a damaged mail can make the standard reader raise anything
        must, fix = "must be a mail that can be read", "save it again, or paste its text."
        return None, [Problem(where, 0, "", must, type(error).__name__, fix)]
    texts, pages = tuple(found.plain), tuple(found.pages)
    letter = Letter(where, texts, pages, found.sender, tuple(found.pictures))
    return letter, [_left_out(where, what) for what in dict.fromkeys(found.left_out)]


def _left_out(where: str, what: str) -> Problem:
    fix = "nothing; if something is missing without it, ask for text, JPEG or PNG."
    return Problem(where, 0, "", f"left out: {what}", None, fix, WARNING)


class _Found:
    """What gathers while the parts of a mail are gone through."""

    def __init__(self) -> None:
        self.plain: list[str] = []
        self.pages: list[str] = []
        self.pictures: list[Attached] = []
        self.left_out: list[str] = []
        self.sender = ""
        self._parts = 0

    def read(self, data: bytes, depth: int) -> None:
        """Read a whole mail; one within another that comes as a file is `depth` deep."""
        _weigh(data)
        mail = message_from_bytes(data, policy=default)
        self.sender = self.sender or _sender(mail)
        self.part(mail, depth)

    def part(self, part: EmailMessage, depth: int) -> None:
        self._parts += 1
        if self._parts > MOST_PARTS or depth > DEEPEST:
            many = f"more than {MOST_PARTS} parts" if depth <= DEEPEST else "parts within parts"
            raise Refused("must be a plain mail", many, "ask for it anew, as a plain mail.")
        kind = part.get_content_type()
        if kind == "message/rfc822":
            return self._sent_on(part, depth)
        if part.is_multipart():
            for inner in part.get_payload():
                self.part(inner, depth + 1)
            return None
        if kind.startswith("multipart/"):
            must, fix = "must have the parts that it says it has", "save the mail again, whole."
            raise Refused(must, kind, fix)
        return self._leaf(part, kind, depth)

    def _sent_on(self, part: EmailMessage, depth: int) -> None:
        """A mail within a mail. Some programs code it as a file, which the standard does
        not allow: then its text has the file."""
        payload = part.get_payload()
        inner = payload[0] if isinstance(payload, list) and payload else None
        if inner is None:
            return None
        if str(part.get("Content-Transfer-Encoding", "")).strip().lower() != "base64":
            self.sender = self.sender or _sender(inner)
            return self.part(inner, depth + 1)
        coded = re.sub(rb"\s+", b"", inner.as_bytes())
        try:
            data = codecs.decode(coded, "base64")
        except ValueError:
            raise _bad_coding() from None
        return self.read(data, depth + 1)

    def _leaf(self, part: EmailMessage, kind: str, depth: int) -> None:
        name = _file_name(part)
        data = _bytes_of(part)
        is_file = part.get_content_disposition() == "attachment"
        if sort := sort_of_picture(data):
            is_inside = part.get_content_disposition() == "inline" or "Content-ID" in part
            if is_logo(name, data, is_inside):
                self.left_out.append(f"{name or 'a picture'} (a small {sort} inside the text)")
            else:
                self.pictures.append(Attached(name, data))
        elif name.lower().endswith(".eml"):
            self.read(data, depth + 1)
        elif kind == "text/html" and not is_file:
            page = _text(part, data)
            if _SCRIPT.search(page):
                fix = "ask for it anew, as plain text."
                raise Refused("must hold no script or form", "a page with one in it", fix)
            self.pages.append(_composable(text_of_html(page)))
        elif kind == "text/plain" or name.lower().endswith(".txt"):
            text = _text(part, data)
            if part.get_param("format", "") == "flowed":
                text = unflowed(text, part.get_param("delsp", "") == "yes")
            self.plain.append(text)
        elif kind not in _SIGNATURES and data.strip():
            self._leave_out(kind, name, data)

    def _leave_out(self, kind: str, name: str, data: bytes) -> None:
        """What no form needs is named and not read; what could do harm is refused."""
        if harm := harm_in(kind, name, data):
            fix = "ask for pictures as JPEG or PNG, and for the form in the mail or its own file."
            got = f"{harm}: {name or kind}"
            raise Refused("must hold only text, pictures and a form's file", got, fix)
        self.left_out.append(called(kind, name, data))


def _weigh(data: bytes) -> None:
    """Refuse what would cost more to take apart than any mail is worth."""
    strange = "ask for it anew, as a plain mail."
    if data.count(b"\n") > MOST_LINES:
        raise Refused("must be a plain mail", f"more than {MOST_LINES} lines", strange)
    head = re.search(rb"\n\r?\n", data)
    if (head.start() if head else len(data)) > LARGEST_HEAD:
        raise Refused("must have short headers", "a heading of more than 256 kB", strange)
    for header in _WEIGHED.finditer(data):
        if len(header[0]) > LONGEST_HEADER:
            got = f"{len(header[0])} bytes"
            raise Refused("must have short headers", got, strange)
        if header[0][:13].lower() == b"content-type:" and b"=?" in header[0]:
            raise Refused("must name its types plainly", None, strange)
    boundaries = set()
    for starred, boundary in _BOUNDARY.findall(data):
        if starred or len(boundaries) > MOST_PARTS:
            raise Refused("must be a plain mail", "boundaries of many parts", strange)
        boundaries.add(boundary)
    if sum(data.count(b"--" + boundary) for boundary in boundaries) > 4 * MOST_PARTS:
        raise Refused("must be a plain mail", f"more than {MOST_PARTS} parts", strange)
    if len(re.findall(rb"message/rfc822", data, re.IGNORECASE)) > 2 * DEEPEST:
        raise Refused("must be a plain mail", "mails within mails", strange)


def _sender(mail: EmailMessage) -> str:
    """The address that a mail came from, where it is a plain one."""
    try:
        address = parseaddr(str(mail.get("From", "")))[1].lower()
    except Exception:  # a header of nonsense can make the standard reader raise anything
        return ""
    return address if _ADDRESS.fullmatch(address) and len(address) <= 254 else ""


def _file_name(part: EmailMessage) -> str:
    name = part.get_filename() or ""
    if len(name) > LONGEST_FILE_NAME or _ELSEWHERE.search(name):
        must = "must have files with plain names"
        raise Refused(must, name, "ask for the file under a name of letters and digits.")
    return name


def _bad_coding() -> Refused:
    must, fix = "must be coded as it says", "save the mail again, or ask for it anew."
    return Refused(must, "broken base64", fix)


def _bytes_of(part: EmailMessage) -> bytes:
    coding = str(part.get("Content-Transfer-Encoding", "")).strip().lower()
    if coding not in _ENCODINGS:
        fix = "ask for it anew from another mail program."
        raise Refused("must be coded as base64 or quoted-printable", coding, fix)
    data = part.get_payload(decode=True) or b""
    if coding == "base64" and any("Base64" in type(defect).__name__ for defect in part.defects):
        raise _bad_coding()
    return data


def _text(part: EmailMessage, data: bytes) -> str:
    if len(data) > LARGEST_TEXT:
        must, fix = "must be at most 256 kB of text", "ask for the form and a short note."
        raise Refused(must, f"{len(data) / 1e6:.1f} MB", fix)
    said = part.get_content_charset() or "utf-8"
    try:
        charset = codecs.lookup(said).name
        if not _CHARSET.fullmatch(charset):
            raise LookupError
        # What says nothing, or ASCII, and is more, is UTF-8 today.
        text = data.decode("utf-8-sig" if charset in ("ascii", "utf-8") else charset)
    except (LookupError, ValueError):
        fix = "save the mail again, or ask for it anew as UTF-8."
        raise Refused("must be text in the encoding that it names", said, fix) from None
    if "\x00" in text:
        raise Refused("must be text", "zero bytes", "ask for it anew as plain text.")
    return _composable(text)


def _composable(text: str) -> str:
    if not is_safe_to_compose(text):
        raise Refused("must be text", "marks upon marks", "ask for it anew as plain text.")
    return text
