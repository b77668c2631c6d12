"""What is in the wheel, and where the package finds its theme and the starter board."""

import shutil
import zipfile
from pathlib import Path

import pytest
from hatchling import build as hatchling_build

from swapboard.disk.resources import starter_folder, theme_folder

ROOT = Path(__file__).resolve().parents[2]
NOT_IN_A_COPY = shutil.ignore_patterns(
    ".git", ".venv*", ".*_cache", "__pycache__", "output", ".swapboard", "private", ".hypothesis"
)
STRAY = [
    "content/output/index.html",
    "content/.swapboard/manifest.json",
    "content/private/addresses.csv",
    "plugins/swapboard/__pycache__/cli.cpython-311.pyc",
    "plugins/swapboard/records/__pycache__/types.cpython-311.pyc",
    "site_demo/output/index.html",
    ".venv/bin/python",
]


@pytest.fixture(scope="module")
def checkout(tmp_path_factory):
    """A copy of the repository in which boards were built and an environment was made."""
    folder = tmp_path_factory.mktemp("checkout") / "swapboard"
    shutil.copytree(ROOT, folder, ignore=NOT_IN_A_COPY)
    for name in STRAY:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("not for the wheel")
    (folder / "content" / "calls").mkdir(exist_ok=True)
    (folder / "content" / "calls" / ".gitkeep").touch()
    return folder


def built(checkout, tmp_path, build):
    """The names in a wheel made by one of hatchling's builders."""
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(checkout)
        name = build(str(tmp_path))
    with zipfile.ZipFile(tmp_path / name) as wheel:
        return {name: wheel.read(name) for name in wheel.namelist()}


def files_of(folder):
    """The bytes of all files below a folder, but for those that were planted there."""
    return {
        name: path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
        and not (name := str(path.relative_to(folder))).startswith(("output", "private", ".swap"))
    }


def test_the_wheel_holds_theme_and_starter_whole(checkout, tmp_path):
    """Every file of theme/ and content/ is in the wheel to the byte, dot-files too."""
    files = built(checkout, tmp_path, hatchling_build.build_wheel)
    for folder, live in (("swapboard/_theme/", "theme"), ("swapboard/_content/", "content")):
        carried = {name.removeprefix(folder): d for name, d in files.items() if folder in name}
        assert carried == files_of(checkout / live)
        assert carried


def test_the_wheel_holds_nothing_else(checkout, tmp_path):
    """No output, cache, private file, demo or test travels in the wheel."""
    files = built(checkout, tmp_path, hatchling_build.build_wheel)
    assert b"not for the wheel" not in files.values()
    assert {name.split("/")[0] for name in files} == {"swapboard", "swapboard-0.1.0.dist-info"}
    modules = {name for name in files if name.endswith(".py") and "/_" not in name}
    expected = {
        "swapboard/" + str(path.relative_to(ROOT / "plugins" / "swapboard"))
        for path in (ROOT / "plugins" / "swapboard").rglob("*.py")
    }
    assert modules == {name for name in expected if "/_" not in name}


def test_the_wheel_holds_the_networks_weights(checkout, tmp_path):
    """The networks travel in the wheel, with at most two megabytes in all."""
    files = built(checkout, tmp_path, hatchling_build.build_wheel)
    weights = {name: len(data) for name, data in files.items() if name.endswith(".onnx.xz")}
    assert set(weights) == {
        f"swapboard/disk/weights/{name}.onnx.xz"
        for name in ("proposer", "refiner", "witness", "loupe")}
    assert sum(weights.values()) <= 2_000_000


def test_an_editable_install_copies_nothing(checkout, tmp_path):
    """An editable wheel only points to plugins/, so that no stale theme can be found."""
    files = built(checkout, tmp_path, hatchling_build.build_editable)
    assert files["_swapboard.pth"].decode().strip() == str(checkout.resolve() / "plugins")
    assert [name for name in files if name.startswith("swapboard/")] == []


def test_the_command_is_installed(checkout, tmp_path):
    """The wheel declares the console script swapboard."""
    files = built(checkout, tmp_path, hatchling_build.build_wheel)
    scripts = files["swapboard-0.1.0.dist-info/entry_points.txt"].decode()
    assert "swapboard = swapboard.cli:main" in scripts


def test_in_a_checkout_the_live_folders_are_found():
    """In this repository the theme is theme/ and the starter is content/."""
    assert theme_folder() == ROOT / "theme"
    assert starter_folder() == ROOT / "content"


def test_an_installed_package_finds_its_copies(tmp_path):
    """In a wheel's place the copies inside the package are found, whatever lies around it."""
    package = tmp_path / "site-packages" / "swapboard"
    (package / "_theme").mkdir(parents=True)
    (package / "_content").mkdir()
    (tmp_path / "theme" / "templates").mkdir(parents=True)
    (tmp_path / "pyproject.toml").touch()
    assert theme_folder(package) == package / "_theme"
    assert starter_folder(package) == package / "_content"


def test_a_folder_called_plugins_is_not_enough(tmp_path):
    """Vendored into somebody's plugins/ folder, the package still finds its copies."""
    package = tmp_path / "plugins" / "swapboard"
    (package / "_theme").mkdir(parents=True)
    assert theme_folder(package) == package / "_theme"


def test_an_incomplete_installation_is_named(tmp_path):
    """Without any theme the error names the folder and says to install again."""
    with pytest.raises(FileNotFoundError, match="install it again"):
        theme_folder(tmp_path / "swapboard")
