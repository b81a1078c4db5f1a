"""A desk in a process of its own, somebody who came in, and figures put in order."""

from __future__ import annotations

import http.cookiejar
import math
import os
import re
import statistics
import subprocess
import sys
import time
import urllib.parse
import urllib.request
import uuid
from pathlib import Path

__all__ = ["Visitor", "children_of", "how_busy", "median_and_p95", "resident_mb", "started"]


class Visitor:
    """Somebody who came in with the link."""

    def __init__(self, link: str) -> None:
        self.base = re.match(r"http://[^/]+", link)[0]
        self.jar = http.cookiejar.CookieJar()
        self.opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(self.jar))
        self.get(link.removeprefix(self.base))

    def get(self, path: str) -> tuple[str, str]:
        """Page and the address that it came from in the end."""
        with self.opener.open(self.base + path, timeout=120) as reply:
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


def started(home: Path) -> tuple[subprocess.Popen[bytes], str]:
    """A desk in this folder, and its link."""
    log = home / "said"
    with log.open("w") as out:
        process = subprocess.Popen(
            [sys.executable, "-m", "rodbook", "desk", "--home", str(home), "--port", "0"], stdout=out
        )
    for _ in range(600):
        if result := re.search(r"http://\S+/enter/\S+", log.read_text("utf-8")):
            return process, result[0]
        time.sleep(0.1)
    raise SystemExit("the desk did not start")


def resident_mb(pid: int) -> float:
    """Memory that a process holds. [MB]"""
    status = Path(f"/proc/{pid}/status").read_text("ascii")
    return int(re.search(r"VmRSS:\s+(\d+)", status)[1]) / 1024


def children_of(pid: int) -> list[int]:
    """Processes that it started, such as the desk's workers."""
    return [int(child) for child in Path(f"/proc/{pid}/task/{pid}/children").read_text("ascii").split()] + [
        int(child)
        for task in Path(f"/proc/{pid}/task").iterdir()
        if task.name != str(pid)
        for child in (task / "children").read_text("ascii").split()
    ]


def how_busy() -> str:
    """How much else the machine has to do, as times mean little without it."""
    return f"{os.cpu_count()} processors; processes that wanted one over the last minute: {os.getloadavg()[0]:.1f}."


def median_and_p95(taken: list[float]) -> tuple[float, float]:
    """The middle, and what 95 of 100 do not exceed (by nearest rank)."""
    return statistics.median(taken), sorted(taken)[math.ceil(0.95 * len(taken)) - 1]
