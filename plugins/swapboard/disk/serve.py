"""A small server for looking at a built site on this computer; not for the open web."""

import errno
import gzip
import io
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

PORTS_TRIED = 50
LAST_PORT = 65_535


class _Server(ThreadingHTTPServer):
    """Takes as many connections at once as a page full of pictures opens."""

    request_queue_size = 128  # the library's 5 resets some of them


_SENT_PACKED = (".css", ".html", ".js", ".svg", ".txt", ".xml")


class _Handler(SimpleHTTPRequestHandler):
    """The site as a web host gives it: its own 404 page, no lists of folders."""

    protocol_version = "HTTP/1.1"  # so that a browser keeps its connections

    extensions_map = {
        **SimpleHTTPRequestHandler.extensions_map,
        ".avif": "image/avif",
        ".css": "text/css; charset=utf-8",
        ".html": "text/html; charset=utf-8",
        ".js": "text/javascript; charset=utf-8",
        ".svg": "image/svg+xml",
        ".txt": "text/plain; charset=utf-8",
    }

    def send_head(self) -> Any:
        """The file asked for, or None where it is not there."""
        try:
            file = Path(self.translate_path(self.path))
            if self.path.partition("?")[0].endswith("/"):
                file /= "index.html"
            if file.suffix in _SENT_PACKED and file.is_file() and self._takes_gzip():
                return self._packed(file)
            return super().send_head()
        except ValueError:  # a zero byte in the address
            self.send_error(404)
            return None

    def _takes_gzip(self) -> bool:
        return "gzip" in self.headers.get("Accept-Encoding", "")

    def _packed(self, file: Path) -> io.BytesIO:
        body = gzip.compress(file.read_bytes(), mtime=0)
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(file))
        self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        return io.BytesIO(body)

    def list_directory(self, path: Any) -> None:
        """A folder without a front page is not there."""
        self.send_error(404)

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "no-store")
        super().end_headers()

    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing of each request."""

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """For a missing page, the site's own 404 page."""
        try:
            body = (Path(self.directory) / "404.html").read_bytes() if code == 404 else None
        except OSError:
            body = None
        if body is None:
            super().send_error(code, message, explain)
            return
        self.send_response(404)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(body)


def server_for(folder: Path, first_port: int = 8000) -> ThreadingHTTPServer:
    """A server of `folder` at 127.0.0.1, on the first free port from `first_port`."""
    handler = partial(_Handler, directory=str(folder.resolve()))
    for port in range(first_port, min(first_port + PORTS_TRIED, LAST_PORT + 1)):
        try:
            return _Server(("127.0.0.1", port), handler)
        except OSError as error:
            if error.errno not in (errno.EADDRINUSE, errno.EACCES):
                raise
    raise OSError(errno.EADDRINUSE, f"no free port from {first_port} on")
