"""Opens a page in Chromium (Debian's package, driven by playwright) and tells what it does there.

Reads {"page": path, "settings": [{id of a slider: value}], "shots": folder or nothing}; prints what the
console said, which requests went out, what axe-core finds serious, and the costs at each setting.
"""

import json
import shutil
import sys
from pathlib import Path

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import sync_playwright

asked = json.load(sys.stdin)
address = Path(asked["page"]).as_uri()
chromium = shutil.which("chromium")
if chromium is None:
    sys.exit("chromium is missing; tests/run installs it")
found = {"console": [], "requests": [], "axe": {}, "sideways": [], "costs": []}

ARGUMENTS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage",
]


def opened(browser, width, scheme="light"):
    page = browser.new_page(viewport={"width": width, "height": 900}, color_scheme=scheme)
    page.on("console", lambda m: found["console"].append(m.text))
    page.on("pageerror", lambda e: found["console"].append(str(e)))
    page.on("request", lambda r: r.url.startswith("data:") or r.url == address or found["requests"].append(r.url))
    page.goto(address)
    return page


with sync_playwright() as play:
    browser = play.chromium.launch(executable_path=chromium, args=ARGUMENTS)
    for width in (390, 1280):
        for scheme in ("light", "dark"):
            page = opened(browser, width, scheme)
            serious = found["axe"].setdefault(str(width), [])
            for fault in Axe().run(page).response["violations"]:
                if fault["impact"] in ("serious", "critical"):
                    serious.append([scheme, fault["id"], [node["html"][:200] for node in fault["nodes"][:3]]])
            wide = page.evaluate("document.documentElement.scrollWidth")
            if wide > width:
                found["sideways"].append([width, scheme, wide])
            if asked.get("shots"):
                page.screenshot(path=f"{asked['shots']}/{width}-{scheme}.png", full_page=True)
            page.close()
    page = opened(browser, 1280)
    for setting in asked["settings"]:
        for slider, value in setting.items():
            page.evaluate(
                """([id, value]) => {
                    const slider = document.getElementById(id);
                    slider.value = value;
                    slider.dispatchEvent(new Event("input", { bubbles: true }));
                }""",
                [slider, str(value)],
            )
        rows = page.query_selector_all("[data-option]")
        found["costs"].append([row.get_attribute("data-exact") for row in rows])
    browser.close()

json.dump(found, sys.stdout)
