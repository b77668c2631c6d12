"""Paths that stay where they belong."""

import os
from pathlib import Path


def contained(folder: Path, path: Path) -> bool:
    """Whether `path`, its links followed, lies inside `folder`, its links followed."""
    inside, outside = os.path.realpath(path), os.path.realpath(folder)
    try:
        return os.path.commonpath([inside, outside]) == outside
    except ValueError:  # another drive on Windows
        return False


def write_whole(path: Path, data: bytes) -> None:
    """Write `path` so that a reader sees the old bytes or the new, never a part."""
    path.parent.mkdir(parents=True, exist_ok=True)
    aside = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        aside.write_bytes(data)
        os.replace(aside, path)
    finally:
        aside.unlink(missing_ok=True)
