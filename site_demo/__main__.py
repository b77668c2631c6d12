"""`python3 site_demo`: makes the environment, builds the demo board, serves it.

`--once` builds and stops, with the build's exit code.
"""

import os
import signal
import subprocess
import sys

if sys.version_info < (3, 11):
    sys.exit(
        "Swapboard needs Python 3.11 or newer; this is Python %d.%d. "
        "Run it with a newer one, such as: python3.11 site_demo" % tuple(sys.version_info[:2])
    )

from argparse import ArgumentParser
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import environment

DEMO = Path(__file__).resolve().parent
DAY = "2026-10-10"
HOST = "127.0.0.1"
FIRST_PORT = 8000


class Handler(SimpleHTTPRequestHandler):
    """The built site as a web host gives it: its own 404 page, no folder lists."""

    extensions_map = {**SimpleHTTPRequestHandler.extensions_map, ".avif": "image/avif"}

    def end_headers(self):
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def list_directory(self, path):
        self.send_error(404)

    def send_error(self, code, message=None, explain=None):
        page = Path(self.directory) / "404.html"
        if code != 404 or not page.is_file():
            return super().send_error(code, message, explain)
        content = page.read_bytes()
        self.send_response(404)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(content)

    def log_message(self, *args):
        """Says nothing: the address is all there is to read."""


def build(place, demo=DEMO, day=DAY):
    """Builds the demo board with the environment `place`; the build's exit code."""
    command = [str(place / "bin" / "swapboard"), "build", str(demo), "--today", day]
    return subprocess.call(command, env=environment.clean(os.environ))


def server(folder, first_port=FIRST_PORT):
    """A server of `folder` for this machine alone, on the first free port from `first_port`."""
    handler = partial(Handler, directory=str(folder))
    for port in [*range(first_port, first_port + 100), 0]:
        try:
            return ThreadingHTTPServer((HOST, port), handler)
        except OSError:
            if port == 0:
                raise


def serve(folder, first_port=FIRST_PORT):
    """Serves `folder` until Ctrl-C, or until the process is asked to end."""
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    with server(folder, first_port) as site:
        print("The demo board is at http://%s:%d/ (Ctrl-C ends)" % site.server_address, flush=True)
        try:
            site.serve_forever()
        except KeyboardInterrupt:
            print("\nEnded.")


def main(arguments=None):
    """Runs the command and gives its exit code."""
    parser = ArgumentParser(prog="python3 site_demo", description=__doc__.splitlines()[0])
    parser.add_argument("--once", action="store_true", help="build and stop")
    asked = parser.parse_args(arguments)
    try:
        place = environment.ensure(DEMO.parent)
        environment.say_at_once("Building the demo board as of %s ..." % DAY)
        code = build(place)
        if code == 0 and not asked.once:
            serve(DEMO / "output")
        return code
    except environment.Trouble as trouble:
        print("Stopped: %s" % trouble, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("\nStopped.", file=sys.stderr)
        return 130


if __name__ == "__main__":
    sys.exit(main())
