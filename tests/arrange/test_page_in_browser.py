"""The page of arrangements in a browser: a click turns a block, and the whole and the lines follow."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from piecewright.pipeline import arrangement_files, arrangements

webdriver = pytest.importorskip("selenium.webdriver", reason="selenium, which drives a browser, is not installed")
BROWSER = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
DRIVER = shutil.which("chromedriver")
pytestmark = pytest.mark.skipif(not (BROWSER and DRIVER), reason="chromium and chromedriver are not both installed")

PATTERN = """pattern "Trial"
fabric sand, colour "#efe0c0"
fabric dusk, colour "#3d3355"

block step (light, dark)
    rectangle 2 1/2 by 4 1/2 of dark
    join rectangle 2 1/2 by 4 1/2 of light on right
"""


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    options = webdriver.ChromeOptions()
    options.binary_location = BROWSER
    for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars"):
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    driver = webdriver.Chrome(options=options, service=webdriver.ChromeService(executable_path=DRIVER))
    yield driver
    driver.quit()


def test_a_click_turns_a_block(browser: Any, tmp_path: Path) -> None:
    sheet, found = arrangements(
        "trial.piece", ["step(sand, dusk)"], rows=2, columns=2, contents=PATTERN.encode()
    )
    assert sheet is not None and not found
    ((name, text),) = arrangement_files(sheet, ["html"])
    page = tmp_path / name
    page.write_text(text, encoding="utf-8")
    for width in (360, 1200):
        metrics = {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": False}
        browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)
        browser.get(page.as_uri())
        assert browser.execute_script("return document.documentElement.scrollWidth") <= width
    by = webdriver.common.by.By.CSS_SELECTOR
    first, *others = browser.find_elements(by, "#trial-cells button")
    assert len(others) == 3

    def shown() -> tuple[str, list[str]]:
        uses = browser.execute_script(
            "return [...document.querySelectorAll('#trial-whole use')].map(use => use.getAttribute('href'))"
        )
        return browser.find_element(by, "#trial-text").text, uses

    before, drawn = shown()
    assert before == sheet.shown[0].text
    assert len(drawn) == 64
    looks = [look.text for look in sheet.looks]
    was = sheet.shown[0].rows[0][0]
    first.click()
    after, drawn = shown()
    turned = (was + 1) % len(looks)
    cells = [cell.strip() for cell in after.splitlines()[1].split("|")]
    assert cells == [looks[turned], looks[sheet.shown[0].rows[0][1]]]
    assert first.get_attribute("aria-label") == f"Row 1, block 1: {looks[turned]}"
    assert drawn[0] == drawn[2] == drawn[16] == f"#look-{turned}"
    for _ in range(len(looks) - 1):
        first.click()
    assert shown()[0] == before
    assert browser.get_log("browser") == []
