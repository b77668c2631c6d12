"""private/ as one encrypted file, and back again: all of it, or nothing changed."""

import io
import os
import secrets
import shutil
import zipfile
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from swapboard.disk.contain import contained
from swapboard.disk.lock import BoardBusy, board_lock
from swapboard.disk.trouble import problem_of
from swapboard.problems import Problem

_MAGIC = b"SWAPBOARD PRIVATE 1\n"
_SALT, _NONCE = 16, 12
# scrypt (RFC 7914) with N = 2**17, r = 8, p = 1: 128 MiB and about half a second for
# each guess; as the OWASP password storage sheet has it (2023, from memory).
_COST, _BLOCK, _LANES = 2**17, 8, 1
_LARGEST = 256 * 1024 * 1024
SHORTEST_PASSPHRASE = 12


@dataclass(frozen=True, slots=True)
class Opened:
    """What a backup holds: bytes by path below private/."""

    files: dict[str, bytes]


def back_up(board: Path, file: Path, passphrase: str) -> tuple[int, list[Problem]]:
    """Write all of private/ into the new `file`, encrypted; how many files there were.

    AES-256 in GCM (NIST SP 800-38D) with a key by scrypt; mode 0600. A file that
    exists, and one within the folders that get published, is refused.
    """
    if problem := refuse_place(board, file) or _refuse_passphrase(passphrase):
        return 0, [problem]
    try:
        files = _read_private(board)
        if not files:
            fix = "there is nothing to carry; addresses go into private/addresses.csv."
            return 0, [Problem("private", 0, "", "must hold a file", None, fix)]
        write_new_private(file, _sealed(_packed(files), passphrase))
    except OSError as error:
        return 0, [problem_of(error, str(file))]
    return len(files), []


def open_backup(file: Path, passphrase: str) -> Opened | Problem:
    """What `file` holds, or why it cannot be read. Nothing is written."""
    try:
        if file.stat().st_size > _LARGEST:
            return _damaged(file, "must be at most 256 MB")
        data = file.read_bytes()
    except OSError as error:
        return problem_of(error, str(file))
    if not data.startswith(_MAGIC) or len(data) < len(_MAGIC) + _SALT + _NONCE + 16:
        return _damaged(file, "must be a file that `swapboard backup` wrote")
    plain = _unsealed(data, passphrase)
    if plain is None:
        fix = "type the passphrase anew; if it is right, the file is damaged: take another copy."
        return Problem(str(file), 0, "", "must open with this passphrase", None, fix)
    try:
        with zipfile.ZipFile(io.BytesIO(plain)) as packed:
            if sum(entry.file_size for entry in packed.infolist()) > _LARGEST:
                return _damaged(file, "must hold at most 256 MB")
            files = {entry.filename: packed.read(entry) for entry in packed.infolist()}
    except (zipfile.BadZipFile, ValueError, OSError, NotImplementedError, RuntimeError):
        return _damaged(file, "must hold files")
    for name in files:
        if not _is_plain(name):
            return _damaged(file, "must hold only files of private/", name)
    return Opened(files)


def would_overwrite(board: Path, opened: Opened) -> list[str]:
    """Files of private/ that are there with other contents, sorted."""
    there = board / "private"
    return sorted(
        name for name, data in opened.files.items()
        if (there / name).exists() and (not (there / name).is_file()
                                        or (there / name).read_bytes() != data)
    )  # fmt: skip


def restore(board: Path, opened: Opened) -> list[Problem]:
    """Put the files of a backup into private/, over those of the same names; others
    stay. Built aside and swapped in by renames; on a failure the old folder stays."""
    private = board / "private"
    if private.is_symlink():
        must, fix = "must be a folder, not a link", "put the folder itself there."
        return [Problem("private", 0, "", must, None, fix)]
    try:
        with board_lock(board / ".swapboard"):
            _swap_in(private, opened, board / ".swapboard")
    except BoardBusy as busy:
        return [busy.problem]
    except OSError as error:
        return [problem_of(error, "private")]
    return []


def refuse_place(board: Path, file: Path) -> Problem | None:
    """Why a private file must not be written to `file`; None where it may."""
    if os.path.lexists(file):
        fix = "name a new file; an older one may be the only good copy."
        return Problem(str(file), 0, "", "must not exist yet", None, fix)
    if not file.parent.is_dir():
        fix = "make the folder first, or name another."
        return Problem(str(file), 0, "", "must go into a folder that exists", None, fix)
    for folder in ("output", "photos", "pages", "cards", "makers", "calls", "offers"):
        if contained(board / folder, file):
            must = f"must not lie in {folder}/, from which things are published"
            fix = "name a place outside the board, on another disk at best."
            return Problem(str(file), 0, "", must, None, fix)
    return None


def write_new_private(file: Path, data: bytes) -> None:
    """Write a new file that only its owner can read; raises FileExistsError."""
    handle = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(handle, "wb") as opened:
            opened.write(data)
            opened.flush()
            os.fsync(opened.fileno())
    except OSError:
        file.unlink(missing_ok=True)
        raise


def _refuse_passphrase(passphrase: str) -> Problem | None:
    if len(passphrase) >= SHORTEST_PASSPHRASE:
        return None
    must = f"must have at least {SHORTEST_PASSPHRASE} characters"
    return Problem("passphrase", 0, "", must, None, "four words that do not belong together do.")


def _read_private(board: Path) -> dict[str, bytes]:
    private = board / "private"
    found = {}

    def failed(error: OSError) -> None:
        raise error

    for folder, _, names in os.walk(private, onerror=failed):
        for name in names:
            file = Path(folder) / name
            found[file.relative_to(private).as_posix()] = file.read_bytes()
    return dict(sorted(found.items()))


def _packed(files: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, data in files.items():
            packed.writestr(zipfile.ZipInfo(name), data, zipfile.ZIP_DEFLATED)
    return out.getvalue()


def _key(passphrase: str, salt: bytes) -> bytes:
    import unicodedata

    from cryptography.hazmat.primitives.kdf.scrypt import Scrypt

    # The same word typed on another system may come composed in another way.
    typed = unicodedata.normalize("NFKC", passphrase).encode("utf-8", "surrogatepass")
    return Scrypt(salt=salt, length=32, n=_COST, r=_BLOCK, p=_LANES).derive(typed)


def _sealed(plain: bytes, passphrase: str) -> bytes:
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

    salt, nonce = secrets.token_bytes(_SALT), secrets.token_bytes(_NONCE)
    head = _MAGIC + salt + nonce
    return head + AESGCM(_key(passphrase, salt)).encrypt(nonce, plain, head)


def _unsealed(data: bytes, passphrase: str) -> bytes | None:
    from cryptography.exceptions import InvalidTag
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

    end = len(_MAGIC) + _SALT + _NONCE
    head, sealed = data[:end], data[end:]
    salt, nonce = head[len(_MAGIC) :][:_SALT], head[-_NONCE:]
    try:
        return AESGCM(_key(passphrase, salt)).decrypt(nonce, sealed, head)
    except InvalidTag:
        return None


def _is_plain(name: str) -> bool:
    parts = PurePosixPath(name).parts
    odd = "\\" in name or ":" in name or name.endswith("/") or "\0" in name
    return bool(parts) and not odd and not name.startswith("/") and ".." not in parts


def _damaged(file: Path, must: str, got: str | None = None) -> Problem:
    fix = "take another copy of it; nothing was changed."
    return Problem(str(file), 0, "", must, got, fix)


def _swap_in(private: Path, opened: Opened, state: Path) -> None:
    new, old = state / "private.new", state / "private.old"
    if old.exists() and not private.exists():
        os.rename(old, private)  # a run before was killed between its two renames
    for left in (new, old):
        shutil.rmtree(left, ignore_errors=True)
    try:
        if private.exists():
            shutil.copytree(private, new, symlinks=True)
        new.mkdir(mode=0o700, exist_ok=True)
        for name, data in sorted(opened.files.items()):
            file = new / name
            if not contained(new, file):
                raise OSError(20, "a link leads out of private/", f"private/{name}")
            file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            file.unlink(missing_ok=True)
            write_new_private(file, data)
        if private.exists():
            os.rename(private, old)
        try:
            os.rename(new, private)
        except OSError:
            if old.exists():
                os.rename(old, private)
            raise
        private.chmod(0o700)
    finally:
        shutil.rmtree(new, ignore_errors=True)
        if private.exists():
            shutil.rmtree(old, ignore_errors=True)
