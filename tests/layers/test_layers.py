"""Floors look only down, pure floors touch no framework and no file, modules stay small."""

import ast
from functools import cache
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parents[2] / "plugins" / "swapboard"

# From the top; a floor may import any below it, and itself.
FLOORS = (
    ("cli",),
    (
        "swap_commands", "offer_commands", "call_commands", "deal_commands", "privacy_commands",
        "print_commands",
    ),
    ("terminal",),
    ("site",),
    ("disk",),
    ("views",),
    ("facets", "photo", "matching", "dealing", "printing", "today", "taking"),
    ("records",),
    ("vocabulary",),
    ("settings",),
    ("problems",),
)
# facets and views name each other's plain data: the one exception, one way only.
ALLOWED = {("facets", "views.types")}
PURE = {
    "problems", "settings", "vocabulary", "records",
    "photo", "facets", "matching", "dealing", "printing", "views", "today", "taking",
}
FILES_AND_FRAMEWORKS = {
    "pelican", "jinja2", "os", "pathlib", "io.open", "shutil", "tempfile", "glob", "PIL",
    "flask", "click", "rich", "socket", "subprocess", "urllib.request",
}
LEVEL = {name: level for level, floor in enumerate(reversed(FLOORS)) for name in floor}

MODULES = sorted(PACKAGE.rglob("*.py"))


def floor_of(module: Path) -> str:
    return module.relative_to(PACKAGE).parts[0].removesuffix(".py")


@cache
def nodes_of(module: Path) -> tuple[ast.AST, ...]:
    """Every node of a module, the module itself first; read once for all tests."""
    return tuple(ast.walk(ast.parse(module.read_text("utf-8"))))


@cache
def imports_of(module: Path) -> frozenset[str]:
    found = set()
    for node in nodes_of(module):
        if isinstance(node, ast.Import):
            found |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}: imports are written in full"
            found.add(node.module)
            found |= {f"{node.module}.{name.name}" for name in node.names}
    return frozenset(found)


def calls_open(module: Path) -> bool:
    return any(
        isinstance(node, ast.Call) and getattr(node.func, "id", "") == "open"
        for node in nodes_of(module)
    )


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.relative_to(PACKAGE).as_posix())
def test_a_module_imports_only_floors_below(module):
    """No module knows of a floor above its own."""
    here = floor_of(module)
    if here == "__init__":
        assert not {name for name in imports_of(module) if name.startswith("swapboard.")}
        return
    for name in imports_of(module):
        parts = name.split(".")
        if parts[0] != "swapboard" or len(parts) < 2:
            continue
        below = parts[1]
        if (here, ".".join(parts[1:3])) in ALLOWED:
            continue
        assert below in LEVEL, f"{name} is on no floor"
        fine = LEVEL[below] < LEVEL[here] or below == here
        assert fine, f"{module.relative_to(PACKAGE)} ({here}) imports {name} ({below})"


@pytest.mark.parametrize(
    "module", [m for m in MODULES if floor_of(m) in PURE],
    ids=lambda m: m.relative_to(PACKAGE).as_posix(),
)
def test_pure_floors_touch_no_framework_and_no_file(module):
    """Records, photo, views and the like work on values alone."""
    names = {part for name in imports_of(module) for part in (name, name.split(".")[0])}
    assert not names & FILES_AND_FRAMEWORKS
    assert not calls_open(module)


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.relative_to(PACKAGE).as_posix())
def test_only_the_site_floor_imports_pelican(module):
    """Everything else can be used, and tested, without it."""
    roots = {name.split(".")[0] for name in imports_of(module)}
    if floor_of(module) != "site":
        assert not roots & {"pelican", "jinja2"}


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.relative_to(PACKAGE).as_posix())
def test_modules_and_functions_stay_small(module):
    """Modules under 300 lines, functions under 40, their docstrings not counted."""
    assert module.read_text("utf-8").count("\n") < 300
    for node in nodes_of(module):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            doc = ast.get_docstring(node, clean=False)
            size = node.end_lineno - node.lineno + 1 - (doc.count("\n") + 1 if doc else 0)
            assert size < 40, f"{node.name} has {size} lines"


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.relative_to(PACKAGE).as_posix())
def test_public_functions_say_what_they_do(module):
    """Every module and public function has a docstring."""
    tree = nodes_of(module)[0]
    if tree.body:
        assert ast.get_docstring(tree), "the module has none"
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            assert ast.get_docstring(node), f"{node.name} has none"


def test_importing_the_package_is_cheap():
    """Heavy libraries are imported where used: --help needs none of them."""
    import subprocess
    import sys

    code = (
        "import sys, swapboard, swapboard.cli; "
        "print(sorted({'cv2','highspy','numpy','PIL','pelican','jinja2','babel','rich','pillow_heif',"
        "'reportlab','segno','cryptography'}"
        " & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
