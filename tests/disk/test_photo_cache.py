"""Cards cut out of a board's photos, and what is kept of it."""

import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from swapboard.disk import photo_cache, worker_pool
from swapboard.disk.photo_cache import Request, cache_folder, cut_all, prune
from swapboard.disk.photo_report import report_board, report_files, text
from swapboard.records.types import Corners, PhotoSpot
from swapboard.settings import PhotoSettings

pytestmark = pytest.mark.usefixtures("looked_at_once")

LIMITS = PhotoSettings()


def photo(path: Path, *places: tuple[int, int], size=(800, 600), tone=(60, 90, 70)) -> None:
    """Pale cards of 150 × 210 px with a dark round on a dark table, written as PNG."""
    picture = np.full((size[1], size[0], 3), tone, np.uint8)
    for x, y in places:
        picture[y : y + 210, x : x + 150] = (240, 235, 225)
        picture[y + 60 : y + 120, x + 40 : x + 100] = (130, 40, 60)
    path.parent.mkdir(parents=True, exist_ok=True)
    Image.fromarray(picture).save(path)


def ask(card: str, file: str, at=None, corners=None, side="front", panels=1) -> Request:
    return Request(card, side, PhotoSpot(file, at), corners, panels, f"cards/{card}.md", 3)


WANTED = [
    ask("heron", "one.png"),
    ask("fern", "two.png", (0.25, 0.45)),
    ask("moth", "two.png", (0.7, 0.45)),
    ask("tram", "three.png"),
]


@pytest.fixture(scope="module")
def cut_board(tmp_path_factory) -> Path:
    """A board of three photos whose cards have been cut once."""
    folder = tmp_path_factory.mktemp("cut") / "board"
    photo(folder / "photos" / "one.png", (300, 180))
    # Their middles lie at 42.8 and 44.2 % of the height: no tie when rounded.
    photo(folder / "photos" / "two.png", (120, 152), (480, 160))
    photo(folder / "photos" / "three.png", (200, 100), tone=(30, 30, 80))
    cut_all(folder, WANTED, LIMITS, workers=1)
    return folder


@pytest.fixture
def board(cut_board, tmp_path) -> Path:
    """A copy of it to change, cache and all."""
    shutil.copytree(cut_board, tmp_path / "board")
    return tmp_path / "board"


def files(board: Path) -> dict[str, bytes]:
    folder = cache_folder(board)
    return {p.name: p.read_bytes() for p in folder.iterdir() if p.name.startswith("card-")}


def test_every_card_is_cut(board):
    """Each card is cut from its own place, in sizes that the photo gives."""
    cut, problems = cut_all(board, WANTED, LIMITS, workers=1)
    assert problems == []
    assert list(cut) == [(c, "front") for c in ("fern", "heron", "moth", "tram")]
    heron = cut["heron", "front"]
    assert heron.picture_size == (800, 600)
    corners = np.array(heron.found.corners)
    assert np.abs(corners - [(300, 180), (450, 180), (450, 390), (300, 390)]).max() < 1
    assert {(kind, w, h) for kind, w, h, _ in heron.files} == {
        ("avif", 150, 210),
        ("jpeg", 150, 210),
    }
    for kind, width, height, name in heron.files:
        with Image.open(cache_folder(board) / name) as image:
            assert image.size == (width, height)
            assert image.format.lower() == kind
    assert cut["fern", "front"].found.corners[0][0] < 200 < cut["moth", "front"].found.corners[0][0]


def test_workers_change_nothing(board, tmp_path_factory):
    """Several processes give what one gives, to the byte."""
    alone, _ = cut_all(board, WANTED, LIMITS, workers=1)
    bytes_alone = files(board)
    for path in cache_folder(board).iterdir():
        path.unlink()
    together, problems = cut_all(board, WANTED, LIMITS, workers=2)
    assert problems == []
    assert together == alone
    assert files(board) == bytes_alone


def test_second_time_from_the_cache(board, monkeypatch):
    """What is in the cache is neither found nor cut again."""
    first = cut_all(board, WANTED, LIMITS, workers=1)
    monkeypatch.setattr(photo_cache, "work", lambda job: pytest.fail(f"{job.name} redone"))
    assert cut_all(board, WANTED, LIMITS, workers=1) == first


def test_changed_photo_is_cut_anew(board):
    """A photo of other bytes gives another card, even with the same size and time."""
    before, _ = cut_all(board, WANTED, LIMITS, workers=1)
    path = board / "photos" / "one.png"
    state = path.stat()
    photo(path, (320, 200))
    os.utime(path, ns=(state.st_atime_ns, state.st_mtime_ns))
    after, _ = cut_all(board, WANTED, LIMITS, workers=1)
    assert after["heron", "front"].found.corners != before["heron", "front"].found.corners
    assert after["fern", "front"] == before["fern", "front"]


@pytest.mark.parametrize("damage", [b"", b"{", b'{"body": {}, "sum": "0"}', None])
def test_damaged_cache_is_redone(board, damage):
    """Whatever in the cache is cut short, altered or gone is made again."""
    first = cut_all(board, WANTED, LIMITS, workers=1)
    whole = files(board)
    for path in sorted(cache_folder(board).iterdir()):
        if damage is None:
            path.write_bytes(bytes(reversed(path.read_bytes())))
        else:
            path.write_bytes(damage)
    assert cut_all(board, WANTED, LIMITS, workers=1) == first
    assert files(board) == whole


def test_keepers_own_corners(board):
    """Corners that a keeper gave are used, in px or in shares, and not doubted."""
    shares = ((0.375, 0.3), (0.5625, 0.3), (0.5625, 0.65), (0.375, 0.65))
    pixels = tuple((x * 800, y * 600) for x, y in shares)
    wanted = [
        ask("a", "one.png", corners=Corners(shares, True)),
        ask("b", "one.png", corners=Corners(pixels, False)),
    ]
    cut, problems = cut_all(board, wanted, LIMITS, workers=1)
    assert problems == []
    assert cut["a", "front"] == cut["b", "front"]
    assert cut["a", "front"].found.confidence == 1.0
    assert not cut["a", "front"].found.doubtful


def test_corners_the_wrong_way_round(board):
    """Corners given anticlockwise would mirror the card: an error at the post's line."""
    back = Corners(((450, 180), (300, 180), (300, 390), (450, 390)), False)
    cut, (problem,) = cut_all(board, [ask("a", "one.png", corners=back)], LIMITS, workers=1)
    assert cut == {}
    assert (problem.path, problem.line, problem.field) == ("cards/a.md", 3, "Cut out at")


def test_no_card_under_the_point(board):
    """A point beside all cards is an error that says where the cards are."""
    cut, (problem,) = cut_all(board, [ask("a", "two.png", (0.5, 0.95))], LIMITS, workers=1)
    assert cut == {}
    assert problem.severity == "error"
    assert "two.png at 24% 43%" in problem.fix


def test_which_of_several_is_asked(board):
    """A photo of two cards without a point is a warning that names both places."""
    cut, (problem,) = cut_all(board, [ask("a", "two.png")], LIMITS, workers=1)
    assert ("a", "front") in cut
    assert problem.severity == "warning"
    assert "24% 43%" in problem.fix
    assert "69% 44%" in problem.fix


def test_nothing_found(tmp_path):
    """Where no card is found the middle is cut out, flagged, and a warning says what to do."""
    photo(tmp_path / "photos" / "bare.png")
    cut, (problem,) = cut_all(tmp_path, [ask("a", "bare.png")], LIMITS, workers=1)
    found = cut["a", "front"].found
    assert found.doubtful
    assert found.reasons == ("no card found",)
    assert problem.severity == "warning"
    assert "Cut out at" in problem.fix


def test_bad_files_do_not_stop_the_others(board):
    """A broken file, a missing one and one outside the board are errors; the rest is cut."""
    (board / "photos" / "broken.jpg").write_bytes(b"\xff\xd8\xff\xe0 no more")
    wanted = [*WANTED, ask("x", "broken.jpg"), ask("y", "none.jpg"), ask("z", "../../etc/passwd")]
    cut, problems = cut_all(board, wanted, LIMITS, workers=2)
    assert len(cut) == len(WANTED)
    assert [p.path for p in problems] == [
        "photos/../../etc/passwd",
        "photos/broken.jpg",
        "photos/none.jpg",
    ]


def test_lowered_limits_hold_for_cached_photos(board):
    """A photo cut before is refused once the limits no longer allow it."""
    cut_all(board, WANTED, LIMITS, workers=1)
    strict = PhotoSettings(largest_megapixels=0)
    cut, problems = cut_all(board, WANTED, strict, workers=1)
    assert cut == {}
    assert {p.must for p in problems} == {"must be at most 0 megapixels"}


def test_progress(board):
    """Progress counts up to the number of photos."""
    shutil.rmtree(cache_folder(board))
    told = []
    cut_all(board, WANTED, LIMITS, workers=1, progress=lambda *counts: told.append(counts))
    assert told == [(0, 3), (1, 3), (2, 3), (3, 3)]


def test_prune(board):
    """Pruning removes what belongs to cards no longer wanted, and nothing else."""
    cut_all(board, WANTED, LIMITS, workers=1)
    kept, _ = cut_all(board, WANTED[:1], LIMITS, workers=1)
    prune(board, kept.values())
    names = {name for *_, name in kept["heron", "front"].files}
    assert set(files(board)) == names
    assert cut_all(board, WANTED[:1], LIMITS, workers=1) == (kept, [])
    assert prune(board, kept.values()) == 0


def test_script_without_main_guard(board):
    """A script that cuts at its top level is not run again by the workers."""
    shutil.rmtree(cache_folder(board))
    script = board / "script.py"
    script.write_text(
        "import sys\n"
        f"sys.path.insert(0, {str(Path(photo_cache.__file__).parents[2])!r})\n"
        "from pathlib import Path\n"
        "from swapboard.disk.photo_cache import Request, cut_all\n"
        "from swapboard.records.types import PhotoSpot\n"
        "from swapboard.settings import PhotoSettings\n"
        "names = ['one.png', 'two.png', 'three.png']\n"
        "wanted = [Request(n, 'front', PhotoSpot(n), None, 1, 'x', 1) for n in names]\n"
        f"cut, _ = cut_all(Path({str(board)!r}), wanted, PhotoSettings(), workers=2)\n"
        "print(len(cut))\n"
    )
    done = subprocess.run([sys.executable, script], capture_output=True, text=True, check=True)
    assert done.stdout == "3\n"


def die_on_two(number: int) -> int:
    if number == 2:
        os._exit(9)
    return number * 10


def test_crashed_worker_loses_only_its_job(monkeypatch):
    """A worker that dies takes its own job with it; the others are answered."""
    monkeypatch.syspath_prepend(str(Path(__file__).parent))
    monkeypatch.setattr(die_on_two, "__module__", Path(__file__).stem)
    results = dict(worker_pool.run_jobs(die_on_two, [1, 2, 3, 4], 2))
    assert results == {0: 10, 1: worker_pool.Crashed(9), 2: 30, 3: 40}


def test_report(board):
    """The report tells of every photo and card, and puts the doubtful first for people."""
    photo(board / "photos" / "bare.png")
    report = report_board(board, [*WANTED, ask("a", "bare.png")], LIMITS, workers=1)
    assert report["version"] == 1
    assert [p["file"] for p in report["photos"]] == [
        f"photos/{name}.png" for name in ("bare", "one", "three", "two")
    ]
    two = report["photos"][3]
    assert two["size"] == [800, 600]
    assert len(two["cards"]) == 2
    assert set(two["cards"][0]) == {
        "corners",
        "proportion",
        "kind",
        "confidence",
        "doubtful",
        "reasons",
    }
    assert text(report).splitlines()[0] == "photos/bare.png: 800 × 600 px, no card found"


def test_report_of_loose_files(board):
    """Files outside any board are reported without anything being written."""
    shutil.rmtree(board / ".swapboard")
    report = report_files([board / "photos" / "one.png", board / "none.jpg"])
    assert [len(p["cards"]) for p in report["photos"]] == [1, 0]
    assert report["photos"][1]["size"] is None
    assert len(report["problems"]) == 1
    assert not (board / ".swapboard").exists()


def interrupt_itself(number: int) -> int:
    signal.raise_signal(signal.SIGINT)
    return number


def test_ctrl_c_ends_no_worker(monkeypatch):
    """The terminal's Ctrl-C is left to the process that asked; its workers go on."""
    monkeypatch.syspath_prepend(str(Path(__file__).parent))
    monkeypatch.setattr(interrupt_itself, "__module__", Path(__file__).stem)
    results = dict(worker_pool.run_jobs(interrupt_itself, [1, 2], 2))
    assert results == {0: 1, 1: 2}
