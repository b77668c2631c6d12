"""Installed by pip into an empty environment, Swapboard needs no checkout near it."""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_a_board_is_started_and_built_far_from_the_checkout(tmp_path):
    """`pip install .`, `swapboard start b`, `swapboard build b`: a whole site."""
    place = tmp_path / "env"
    subprocess.run([sys.executable, "-m", "venv", str(place)], check=True)
    pip = [str(place / "bin" / "python"), "-m", "pip", "install", "-q", str(ROOT)]
    subprocess.run(pip, check=True, cwd=tmp_path)
    clean = {k: v for k, v in os.environ.items() if k in ("PATH", "HOME", "LANG", "TMPDIR")}

    def run(*words):
        command = [str(place / "bin" / "swapboard"), *words]
        done = subprocess.run(
            command, cwd=tmp_path, env=clean, stdin=subprocess.DEVNULL, capture_output=True,
            text=True,
        )
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    run("start", "b")
    run("check", "b")
    assert "b/output/index.html" in run("build", "b")
    site = tmp_path / "b" / "output"
    cards = {post.stem for post in (tmp_path / "b" / "cards").glob("*.md")}
    assert cards and {page.stem for page in (site / "cards").glob("*.html")} == cards
    assert list((site / "pictures").glob("*.avif")), "the starter's card was cut out"
    code = "import swapboard.disk.resources as r; print(r.theme_folder())"
    found = subprocess.run(
        [str(place / "bin" / "python"), "-c", code], cwd=tmp_path, env=clean,
        capture_output=True, text=True, check=True,
    )
    assert str(ROOT) not in found.stdout and str(place) in found.stdout
