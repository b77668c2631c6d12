"""The Nu HTML Checker, fetched once into the user's cache and run over files."""

import os
import shutil
import subprocess
import tarfile
from pathlib import Path

PACKAGE = "vnu-jar@26"
JAR = "package/build/dist/vnu.jar"


def cache_folder() -> Path:
    """Where what tests fetch is kept (XDG Base Directory Specification)."""
    home = os.environ.get("XDG_CACHE_HOME") or str(Path.home() / ".cache")
    return Path(home) / "swapboard-tests" / PACKAGE.replace("@", "-")


def checker() -> list[str]:
    """The command that runs the checker; fetches it where it is missing.

    Raises AssertionError with what to do where Java, npm or the network is missing.
    """
    java, npm = shutil.which("java"), shutil.which("npm")
    assert java, "the Nu HTML Checker needs Java: install a Java runtime, then run this again"
    jar = cache_folder() / JAR
    if not jar.is_file():
        assert npm, f"install npm, or put vnu.jar of the npm package {PACKAGE} at {jar}"
        _fetch(npm, cache_folder())
    # It runs for a few seconds: its second compiler would cost more than it saves.
    return [java, "-Xss2m", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-jar", str(jar)]


def _fetch(npm: str, folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    made = subprocess.run(
        [npm, "pack", PACKAGE, "--silent"], cwd=folder, capture_output=True, text=True
    )
    todo = f"could not fetch {PACKAGE} by npm; put its vnu.jar at {folder / JAR} and try again"
    assert made.returncode == 0, f"{todo}: {made.stderr.strip()}"
    packed = folder / made.stdout.split()[-1]
    with tarfile.open(packed) as archive:
        archive.extract(JAR, folder, filter="data")
    packed.unlink()


def errors_in(files: list[Path], kind: str = "--html") -> list[str]:
    """What the checker calls an error in `files`: all HTML, or all CSS with kind "--css"."""
    command = [*checker(), "--errors-only", "--format", "gnu", kind, *map(str, files)]
    told = subprocess.run(command, capture_output=True, text=True)
    return told.stderr.splitlines()
