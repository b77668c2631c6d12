"""`python3 tests`: makes the environment and a browser ready, then checks everything.

Arguments go on to pytest: `python3 tests tests/photo -x`.
"""

import os
import shutil
import subprocess
import sys

if sys.version_info < (3, 11):
    sys.exit(
        "Swapboard needs Python 3.11 or newer; this is Python %d.%d. "
        "Run it with a newer one, such as: python3.11 tests" % tuple(sys.version_info[:2])
    )

from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT / "site_demo"))

import environment  # noqa: E402

# The shell is the same engine without windows: a page of its own opens in a quarter of the time.
BROWSERS = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
PACKAGES = ("chromium-headless-shell", "chromium")
BROWSER_VARIABLE = "SWAPBOARD_BROWSER"
TAKE_A_VALUE = ("-k", "-m", "-n", "-p", "-o", "-c", "-W", "--dist", "--deselect")
WHERE_IS_IT = (
    "from playwright.sync_api import sync_playwright\n"
    "with sync_playwright() as kit: print(kit.chromium.executable_path)"
)


def browser(place, which=shutil.which, run=subprocess.run, is_root=None):
    """The path of a Chromium, installed where there is none; raises Trouble.

    `place` is the environment; `run` is called like subprocess.run.
    """
    found = _present(which)
    if found:
        return found
    is_root = os.geteuid() == 0 if is_root is None else is_root
    if is_root and which("apt-get") and _is_debian():
        environment.say_at_once("Installing Chromium with apt-get ...")
        update = run(["apt-get", "-qq", "update"])
        for package in PACKAGES if update.returncode == 0 else ():
            run(["apt-get", "-qq", "install", "-y", package], stdout=subprocess.DEVNULL)
            found = _present(which)
            if found:
                return found
    return _playwrights_own(place, run, is_root)


def _playwrights_own(place, run, is_root):
    python = str(place / "bin" / "python")
    asked = run([python, "-c", WHERE_IS_IT], stdout=subprocess.PIPE, text=True)
    path = (asked.stdout or "").strip()
    if path and Path(path).is_file():
        return path
    environment.say_at_once("Fetching a Chromium for the tests ...")
    with_libraries = ["--with-deps"] if is_root else []
    run([python, "-m", "playwright", "install", *with_libraries, "chromium"])
    if path and Path(path).is_file():
        return path
    raise environment.Trouble(
        "the tests open pages in a real Chromium, and none could be installed. "
        "Install one (Debian: apt-get install chromium) and run this again"
    )


def _present(which):
    return next((path for path in map(which, BROWSERS) if path), None)


def _is_debian(release=Path("/etc/os-release")):
    # Ubuntu's package of the same name only points to another kind of store.
    return release.is_file() and "ID=debian" in release.read_text("utf-8").split()


def passed_on(arguments):
    """pytest's arguments; paths as seen from here are made whole, since it runs in the root.

    With none given everything is run, spread over the processors and two more, for pages and pip
    are waited for, in the tests' own order.
    """
    if not arguments:
        processes = str(min(os.cpu_count() or 1, 4) + 2)
        return ["-n", processes, "--dist", "loadfile", "--no-loadscope-reorder"]
    whole, before = [], ""
    for argument in arguments:
        path, colons, test = argument.partition("::")
        is_value = before in TAKE_A_VALUE or path.startswith("-")
        is_path = path and not is_value and Path(path).exists()
        whole.append(str(Path(path).resolve()) + colons + test if is_path else argument)
        before = argument
    return whole


def check(place, arguments, chromium, run=subprocess.run):
    """Runs ruff, then pytest even so; the first exit code that is not 0."""
    variables = environment.clean(os.environ)
    variables[BROWSER_VARIABLE] = chromium
    # Or each of some hundred interpreters would compile all of our code for itself.
    variables.pop("PYTHONDONTWRITEBYTECODE", None)
    environment.say_at_once("Checking the style ...")
    style = run([str(place / "bin" / "ruff"), "check", "."], cwd=ROOT, env=variables)
    environment.say_at_once("Running the tests ...")
    command = [str(place / "bin" / "python"), "-m", "pytest", *passed_on(arguments)]
    tests = run(command, cwd=ROOT, env=variables)
    if style.returncode:
        environment.say_at_once("The style has faults: ruff names them above, before the tests.")
    return tests.returncode or style.returncode


def main(arguments=None):
    """Runs the command and gives its exit code."""
    arguments = sys.argv[1:] if arguments is None else arguments
    try:
        place = environment.ensure(ROOT, {"test"})
        chromium = browser(place)
        environment.say_at_once("The browser is %s" % chromium)
        return check(place, arguments, chromium)
    except environment.Trouble as trouble:
        print("Stopped: %s" % trouble, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return 130


if __name__ == "__main__":
    sys.exit(main())
