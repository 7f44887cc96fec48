"""When cues begin to sound in a real browser, against when they are due: 500 with the server alive, 500 with it dead.

Cues are queued as the run's page queues them: by `sound.plan`, again and again, while the page is kept busy. A tap
behind the sound's own output notes the first sample of each on the audio clock; what that clock shows is tied to the
page's clock by the pair that the browser gives for the sound as it leaves (`getOutputTimestamp`), or, where it gives
none, by both clocks read at once. The gate: 95 of 100 within 50 ms, none later than 150 ms,
and each heard once.

What a loudspeaker, a wireless headset or a telephone adds behind the browser is not in these figures.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

from bench_pages import start, stop
from timed import wetside

CUES, EVERY_S = 500, 0.2
WITHIN_S, WORST_S = 0.050, 0.150
LISTEN = (Path(__file__).parent / "listen.js").read_text("utf-8")


def main() -> int:
    """Measure, print, and say whether the gate is kept."""
    chromium = shutil.which("chromium")
    if chromium is None:
        print("NOTE no chromium here: sound is not measured")
        return 0
    from playwright.sync_api import sync_playwright

    kept = True
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        server = start(wetside("serve", "--port", "0"), Path(folder) / "darkroom")
        browser = playwright.chromium.launch(
            executable_path=chromium,
            args=["--no-sandbox", "--disable-gpu", "--autoplay-policy=no-user-gesture-required"],
        )
        try:
            page = browser.new_context(bypass_csp=True).new_page()  # the tap is a script of its own
            page.goto(f"http://{server.host}:{server.port}/runs/new/")
            # Read once, so that a dead server can be asked for nothing.
            page.evaluate("async (address) => { await import(address); }", "/static/web/run/sound.js")
            kept &= _told("server alive", page.evaluate(LISTEN, ["/static/web/run/sound.js", CUES, EVERY_S]))
            stop(server)
            kept &= _told("server dead", page.evaluate(LISTEN, ["/static/web/run/sound.js", CUES, EVERY_S]))
        finally:
            browser.close()
            if server.process.poll() is None:
                stop(server)
    return 0 if kept else 1


def _told(name: str, found: dict[str, object]) -> bool:
    off = sorted(abs(float(one)) for one in found["off"])  # type: ignore[attr-defined]  # a list by the script above
    spread, behind = float(found["spread"]), float(found["behind"])  # type: ignore[arg-type]
    middle, most, worst = off[len(off) // 2], off[int(len(off) * 0.95) - 1], off[-1]
    print(
        f"{name}: {len(off)} cues, {found['heard']} begins heard; half within {middle * 1000:.1f} ms, 95 of 100 within "
        f"{most * 1000:.1f} ms, worst {worst * 1000:.1f} ms; the clocks' pairs spread {spread * 1000:.1f} ms, "
        f"what leaves the browser lies {behind * 1000:.0f} ms behind what it makes"
    )
    # As many begins as cues: one that is heard twice would else hide behind its first.
    return len(off) == found["heard"] == CUES and most <= WITHIN_S and worst <= WORST_S


if __name__ == "__main__":
    sys.exit(main())
