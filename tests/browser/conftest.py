"""A real Chromium, and sites for it to look at: from files and from a server."""

import functools
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from browser import made_site as making
from made_once import made_once

SUB_PATH = "/boards/tide"


@pytest.fixture(scope="session")
def chromium():
    """The machine's Chromium, or the one that Playwright installed."""
    from playwright.sync_api import sync_playwright

    names = ("chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
    found = os.environ.get("SWAPBOARD_BROWSER") or next(
        filter(None, map(shutil.which, names)), None
    )
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=found, args=["--no-sandbox", "--disable-dev-shm-usage"]
        )
        yield browser
        browser.close()


@pytest.fixture
def new_page(chromium):
    """Opens pages, each in a context of its own; what a page complains about fails the test."""
    contexts, complaints = [], []

    def open_one(hears=True, **options):
        context = chromium.new_context(**options)
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(10_000)
        page.on("pageerror", lambda error: complaints.append(str(error)))
        if hears:
            page.on("console", lambda m: complaints.append(m.text) if m.type == "error" else None)
        return page

    yield open_one
    for context in contexts:
        context.close()
    assert not complaints


@pytest.fixture(scope="session")
def made_site(shared) -> Path:
    """A site of 120 hand-made cards."""
    return made_once(shared / "made", making.write)


@pytest.fixture(scope="session")
def right_to_left_site(shared) -> Path:
    """The same site, from right to left."""
    return made_once(shared / "right-to-left", lambda site: making.write(site, "rtl"))


@pytest.fixture(scope="session", params=["made", "demo"])
def any_site(request) -> Path:
    """The hand-made site, then the built demo."""
    return request.getfixturevalue(f"{request.param}_site")


class _Handler(SimpleHTTPRequestHandler):
    """A folder's files, below the top of a host."""

    def translate_path(self, path: str) -> str:
        if not path.startswith(f"{SUB_PATH}/"):
            return str(Path(self.directory) / "no-such-page")
        return super().translate_path(path.removeprefix(SUB_PATH))

    def end_headers(self) -> None:
        # Two builds within one second have one time of change: a browser would keep the first.
        self.send_header("Cache-Control", "no-store")
        super().end_headers()

    def log_message(self, *_args) -> None:
        pass


class _Server(ThreadingHTTPServer):
    request_queue_size = 128  # a page asks for dozens of pictures at once; 5 resets some


@pytest.fixture(scope="session")
def served() -> Iterator[Callable[[Path], str]]:
    """Serves a folder from a sub-path and gives its address.

    Servers outlive all pages: one closed under a page that still loads would reset it.
    """
    servers: list[ThreadingHTTPServer] = []

    def address_of(site: Path) -> str:
        handler = functools.partial(_Handler, directory=str(site))
        servers.append(_Server(("127.0.0.1", 0), handler))
        threading.Thread(target=servers[-1].serve_forever, daemon=True).start()
        return f"http://127.0.0.1:{servers[-1].server_port}{SUB_PATH}"

    yield address_of
    for server in servers:
        server.shutdown()
        server.server_close()


@pytest.fixture
def served_site(any_site, served) -> str:
    """Each site, served from a sub-path."""
    return served(any_site)


@pytest.fixture
def served_made_site(made_site, served) -> str:
    """The hand-made site, served from a sub-path."""
    return served(made_site)
