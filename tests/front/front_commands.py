"""Loads the modules behind `python3 site_demo` and `python3 tests`."""

import importlib.util
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def load(folder):
    """The module behind `python3 FOLDER`, new each time."""
    path = ROOT / folder / "__main__.py"
    spec = importlib.util.spec_from_file_location(f"{folder}_command", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module
