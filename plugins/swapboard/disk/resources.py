"""Where the theme and the starter board lie: in this checkout, or in the wheel.

Whoever works on the project wants to see the theme as it is in the repository
at this moment; whoever installed a wheel has copies inside the package.
"""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parents[1]


def theme_folder(package: Path = _PACKAGE) -> Path:
    """The folder with templates/ and static/.

    `package` is the folder of the package swapboard. Raises FileNotFoundError
    when the installation is broken.
    """
    return _resource(package, live="theme", copied="_theme")


def starter_folder(package: Path = _PACKAGE) -> Path:
    """The board that a new keeper gets a copy of.

    `package` is the folder of the package swapboard. Raises FileNotFoundError
    when the installation is broken.
    """
    return _resource(package, live="content", copied="_content")


def _resource(package: Path, live: str, copied: str) -> Path:
    checkout = _checkout(package)
    folder = package / copied if checkout is None else checkout / live
    if not folder.is_dir():
        raise FileNotFoundError(
            f"{folder} is missing: this installation of swapboard is incomplete, install it again"
        )
    return folder


def _checkout(package: Path) -> Path | None:
    """The repository that the package lies in, or None for an installed wheel."""
    if package.parent.name != "plugins":
        return None
    repository = package.parent.parent
    is_ours = (repository / "pyproject.toml").is_file() and (
        repository / "theme" / "templates"
    ).is_dir()
    return repository if is_ours else None
