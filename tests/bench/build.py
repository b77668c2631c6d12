"""How long builds take: `python tests/bench/build.py [--cards N] [--photos N]`.

An invented board of many cards without photos, and a smaller one whose cards
share one set of photos. Each is built clean, again with nothing changed, and
after one card's text changed. Times are CPU seconds of the build alone, each in
a fresh process, and ratios to the clean build of the same run; memory is that
process's peak. The package is copied aside first: a page is drawn anew when
any line of the code changes, and somebody may be at work on it.
"""

import argparse
import json
import random
import shutil
import subprocess
import sys
import tempfile
from datetime import date, timedelta
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PHOTOS = 12
THEMES = (
    "birds night rivers harbours moss trains letters bread moths winter maps boats gardens tea "
    "roofs foxes lamps stones clouds ladders".split()
)
MEDIA = ("linocut", "watercolour", "gouache", "collage", "ink pen", "embroidery", "graphite")
WORDS = "paper ink edge press wash line fold knife table light grain blue ochre small quiet".split()
DAY = date(2026, 10, 10)

BUILD = """
import json, resource, sys, time
from datetime import date
from pathlib import Path
from swapboard.site.build import build_board
began = time.process_time(), time.perf_counter()
built = build_board(Path(sys.argv[1]), today=date(2026, 10, 10))
spent = time.process_time() - began[0], time.perf_counter() - began[1]
assert built.done, [str(problem) for problem in built.problems][:5]
peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
print(json.dumps([*spent, peak / 1024]))
"""


def make_board(folder: Path, cards: int, photos: int = 0) -> None:
    """A board of so many cards, which share so many photos; the same every time."""
    rng = random.Random(cards)
    for inner in ("cards", "makers", "offers", "calls", "pages", "photos"):
        (folder / inner).mkdir(parents=True)
    (folder / "board.toml").write_text('format = 1\n\n[board]\nname = "A large board"\n')
    makers = ["keeper", *(f"maker-{n}" for n in range(max(3, cards // 100)))]
    for name in makers:
        likes = f"Likes: theme {rng.choice(THEMES)}\n"
        (folder / "makers" / f"{name}.md").write_text(f"Name: {name.title()}\n{likes}\nHello.\n")
    for number in range(cards):
        text = _card(rng, number, makers, f"photo-{number % photos}.jpg" if photos else "")
        (folder / "cards" / f"card-{number:05d}.md").write_text(text)
    for number in range(photos):
        _photo(folder / "photos" / f"photo-{number}.jpg", number)


def _card(rng: random.Random, number: int, makers: list[str], photo: str) -> str:
    shown = f"Photo: {photo}\nAlt: A card of paper and ink.\n" if photo else ""
    day = DAY - timedelta(days=rng.randrange(2000))
    body = " ".join(rng.choices(WORDS, k=60))
    return (
        f"Title: {rng.choice(WORDS).title()} {number}\nDate: {day}\n"
        f"Maker: {makers[number % len(makers)]}\n{shown}"
        f"Themes: {', '.join(rng.sample(THEMES, 2))}\nMedia: {rng.choice(MEDIA)}\n\n"
        f"*{body}*\n\nSee [the maker](makers/{makers[0]}.md).\n"
    )


def _photo(file: Path, seed: int) -> None:
    """A pale card with a picture on it, on a dark table."""
    import numpy as np
    from PIL import Image

    rng = np.random.default_rng(seed)
    table = np.full((1200, 1600, 3), (60, 52, 44), np.uint8)
    table[150:1050, 480:1120] = (238, 232, 220)
    table[220:980, 550:1050] = rng.integers(40, 220, (76, 50, 3)).repeat(10, 0).repeat(10, 1)
    Image.fromarray(table).save(file, quality=90)


def measure(package: Path, board: Path) -> tuple[float, float, float]:
    """One build: (CPU seconds, seconds by the clock, peak memory in MB)."""
    command = [sys.executable, "-c", BUILD, str(board)]
    environment = {"PYTHONPATH": str(package), "PATH": "/usr/bin:/bin"}
    done = subprocess.run(command, capture_output=True, text=True, env=environment)
    if done.returncode:
        raise SystemExit(done.stderr)
    return tuple(json.loads(done.stdout.splitlines()[-1]))


def bench(package: Path, board: Path, cards: int) -> None:
    """Print one board's table."""
    rows = [("clean", measure(package, board)), ("unchanged", measure(package, board))]
    changed = board / "cards" / f"card-{cards // 2:05d}.md"
    changed.write_text(changed.read_text().replace("\n\n*", "\n\nNew words. *", 1))
    rows.append(("one post changed", measure(package, board)))
    pages = sum(1 for _ in (board / "output").rglob("*.html"))
    baseline = rows[0][1][0]
    print(f"{'build':18}{'CPU s':>9}{'clock s':>9}{'of clean':>10}{'ms a page':>11}{'MB':>7}")
    for name, (spent, clock, peak) in rows:
        share, each = spent / baseline, 1000 * spent / pages
        print(f"{name:18}{spent:9.2f}{clock:9.2f}{share:10.3f}{each:11.2f}{peak:7.0f}", flush=True)
    print(f"{pages:,} pages\n", flush=True)


def main() -> None:
    """Make the boards, print their tables."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--cards", type=int, default=10_000, help="cards without photos")
    parser.add_argument("--photos", type=int, default=300, help="cards that share photos")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="swapboard-bench-") as place:
        checkout = Path(place) / "checkout"
        for part in ("plugins", "theme", "content"):
            shutil.copytree(ROOT / part, checkout / part)
        shutil.copy(ROOT / "pyproject.toml", checkout)
        for words, cards, photos in (("without photos", chosen.cards, 0),
                                     ("with photos", chosen.photos, PHOTOS)):
            if cards:
                print(f"{cards:,} cards {words}")
                board = Path(place) / f"board-{cards}-{photos}"
                make_board(board, cards, photos)
                bench(checkout / "plugins", board, cards)


if __name__ == "__main__":
    main()
