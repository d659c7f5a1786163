"""A headless Chromium for tests, driven from a file with no network and no graphics card.

It speaks the Chrome DevTools Protocol (https://chromedevtools.github.io/devtools-protocol/) over the pipe that
`--remote-debugging-pipe` opens, so that console errors, requests and the page's own state can be read as it runs.
"""

import base64
import json
import os
import shutil
import subprocess
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
FLAGS = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--use-gl=angle",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--force-prefers-reduced-motion",
    "--window-size=640,420",
)
PATIENCE = 120.0


class Browser:
    """One page in a headless Chromium; `messages` keeps everything it reported."""

    def __init__(self, profile: Path, *flags: str) -> None:
        program = next(filter(None, map(shutil.which, NAMES)), None)
        if program is None:
            pytest.fail("no browser found: install Chromium (on Debian: apt-get install chromium)")
        command = [program, *FLAGS, *flags, f"--user-data-dir={profile}", "--remote-debugging-pipe", "about:blank"]
        theirs_in, self._out = os.pipe()
        self._in, theirs_out = os.pipe()
        self._process = subprocess.Popen(
            command, stderr=subprocess.DEVNULL, preexec_fn=_as_3_and_4(theirs_in, theirs_out), pass_fds=(3, 4)
        )
        os.close(theirs_in)
        os.close(theirs_out)
        os.set_blocking(self._in, False)
        self._unread, self._count = b"", 0
        self.messages: list[dict[str, Any]] = []
        self._session: str | None = None
        targets = self.call("Target.getTargets")["targetInfos"]
        page = next(target["targetId"] for target in targets if target["type"] == "page")
        self._session = self.call("Target.attachToTarget", targetId=page, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.call(f"{domain}.enable")

    def call(self, method: str, **parameters: Any) -> dict[str, Any]:
        self._count += 1
        order = {"id": self._count, "method": method, "params": parameters}
        session = {"sessionId": self._session} if self._session else {}
        os.write(self._out, json.dumps(order | session).encode() + b"\0")
        answer = self._until(lambda: next((m for m in self.messages if m.get("id") == order["id"]), None))
        assert "error" not in answer, answer
        return answer["result"]

    def run(self, script: str) -> Any:
        answer = self.call("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    def open(self, page: Path) -> None:
        """Open a page and wait until it says how it went."""
        self.call("Page.navigate", url=page.as_uri())
        self._until(lambda: self.run("document.documentElement?.dataset.state"))

    def picture(self) -> bytes:
        return base64.b64decode(self.call("Page.captureScreenshot")["data"])

    def complaints(self) -> list[dict[str, Any]]:
        """Errors that reached the console, and exceptions nobody caught."""
        console = [m for m in self.messages if m.get("params", {}).get("type") in ("error", "warning")]
        log = [m for m in self.messages if m.get("params", {}).get("entry", {}).get("level") == "error"]
        thrown = [m for m in self.messages if m.get("method") == "Runtime.exceptionThrown"]
        return console + log + thrown

    def requests(self) -> list[str]:
        sent = [m["params"] for m in self.messages if m.get("method") == "Network.requestWillBeSent"]
        return [request["request"]["url"] for request in sent]

    def close(self) -> None:
        self._process.terminate()
        self._process.wait()
        os.close(self._in)
        os.close(self._out)

    def _until(self, found: Callable[[], Any]) -> Any:
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            self._read()
            if (answer := found()) is not None:
                return answer
            time.sleep(0.02)
        raise AssertionError(f"the browser did not answer in {PATIENCE:.0f} s; it said {self.messages[-3:]}")

    def _read(self) -> None:
        try:
            while data := os.read(self._in, 1 << 16):
                self._unread += data
        except BlockingIOError:
            pass
        *whole, self._unread = self._unread.split(b"\0")
        self.messages += map(json.loads, whole)


def _as_3_and_4(reading: int, writing: int) -> Callable[[], None]:
    def place() -> None:
        low, high = os.dup(reading), os.dup(writing)
        os.dup2(low, 3)
        os.dup2(high, 4)

    return place
