"""Page times of a running desk and its memory, printed as a table. ``python benchmarks/desk_time.py [requests]``.

A real desk runs in a process of its own; each page is asked for over HTTP, one request at a time, plans kept.
"""

from __future__ import annotations

import http.cookiejar
import re
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.parse
import urllib.request
import uuid
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from generated import generated_job

from rodbook.job.files import write_job


class Visitor:
    """Somebody who came in with the link."""

    def __init__(self, link: str) -> None:
        self.base = re.match(r"http://[^/]+", link)[0]
        self.jar = http.cookiejar.CookieJar()
        self.opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(self.jar))
        self.get(link.removeprefix(self.base))

    def get(self, path: str) -> tuple[str, str]:
        """Page and the address that it came from in the end."""
        with self.opener.open(self.base + path, timeout=60) as reply:
            return reply.read().decode(), urllib.parse.urlparse(reply.url).path

    def post(self, path: str, fields: dict[str, str], file: tuple[str, str] | None = None) -> str:
        """Post a form with its token; the address of the page that follows."""
        token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', self.get("/jobs/new/")[0])[1]
        edge = uuid.uuid4().hex
        parts = [
            f'--{edge}\r\nContent-Disposition: form-data; name="{name}"\r\n\r\n{value}\r\n'
            for name, value in {**fields, "csrfmiddlewaretoken": token}.items()
        ]
        if file:
            parts.append(
                f'--{edge}\r\nContent-Disposition: form-data; name="file"; filename="{file[0]}"\r\n'
                f"Content-Type: application/toml\r\n\r\n{file[1]}\r\n"
            )
        body = ("".join(parts) + f"--{edge}--\r\n").encode()
        request = urllib.request.Request(
            self.base + path, body, {"Content-Type": f"multipart/form-data; boundary={edge}"}
        )
        with self.opener.open(request, timeout=120) as reply:
            return urllib.parse.urlparse(reply.url).path


def _resident_mb(pid: int) -> float:
    status = Path(f"/proc/{pid}/status").read_text("ascii")
    return int(re.search(r"VmRSS:\s+(\d+)", status)[1]) / 1024


def _started(home: Path) -> tuple[subprocess.Popen[bytes], str]:
    log = home / "said"
    with log.open("w") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "rodbook", "desk", "--home", str(home), "--port", "0"], stdout=out
        )
    for _ in range(600):
        if found := re.search(r"http://\S+/enter/\S+", log.read_text("utf-8")):
            return process, found[0]
        time.sleep(0.1)
    raise SystemExit("the desk did not start")


def _timed(visitor: Visitor, path: str, times: int) -> list[float]:
    visitor.get(path)
    taken = []
    for _ in range(times):
        began = time.perf_counter()
        visitor.get(path)
        taken.append((time.perf_counter() - began) * 1000)
    return sorted(taken)


def main() -> None:
    """Start a desk, make two jobs, and time their pages."""
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    with tempfile.TemporaryDirectory() as folder:
        process, link = _started(Path(folder))
        try:
            visitor = Visitor(link)
            time.sleep(8)
            print(f"Idle memory of the desk's process: {_resident_mb(process.pid):.0f} MB")
            jobs = {
                "14 openings": visitor.post("/jobs/sample/", {"sample": "converted-store"}),
                "200 openings": visitor.post("/jobs/new/", {}, ("job.toml", write_job(generated_job(200)))),
            }
            print(f"{times} requests of each page, one at a time; milliseconds at the client on the same machine.")
            print(f"{'page':<16}" + "".join(f"{name + ' median':>24}{'p95':>8}" for name in jobs))
            stages = re.findall(r'<li><a href="[^"]*/jobs/\d+/([^"]*)"', visitor.get(jobs["14 openings"])[0])
            for stage in dict.fromkeys(stages):
                cells = ""
                for address in jobs.values():
                    taken = _timed(visitor, re.match(r"/jobs/\d+/", address)[0] + stage, times)
                    cells += f"{statistics.median(taken):>24.0f}{taken[int(len(taken) * 0.95) - 1]:>8.0f}"
                print(f"{stage.rstrip('/') or 'job':<16}{cells}")
            print(f"Memory after that: {_resident_mb(process.pid):.0f} MB")
        finally:
            process.terminate()
            process.wait(timeout=20)


if __name__ == "__main__":
    main()
