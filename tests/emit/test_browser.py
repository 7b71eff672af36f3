"""The page in a browser: quiet, as wide as its window on a phone and on a desk, and printable."""

from __future__ import annotations

import base64
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from emit import plans
from piecewright.emit import html
from piecewright.pipeline import compile_file

webdriver = pytest.importorskip("selenium.webdriver", reason="selenium, which drives a browser, is not installed")
BROWSER = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
DRIVER = shutil.which("chromedriver")
pytestmark = pytest.mark.skipif(not (BROWSER and DRIVER), reason="chromium and chromedriver are not both installed")

EXAMPLES = Path(__file__).parent.parent.parent / "examples"
NAMES = ("12-braid", "14-in-centimetres", "17-river-hanging")
PLANS = {**plans.several(), **{name: compile_file(EXAMPLES / f"{name}.piece").plan for name in NAMES}}


@pytest.fixture(scope="module")
def browser() -> Iterator[object]:
    options = webdriver.ChromeOptions()
    options.binary_location = BROWSER
    for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars"):
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    driver = webdriver.Chrome(options=options, service=webdriver.ChromeService(executable_path=DRIVER))
    yield driver
    driver.quit()


@pytest.fixture(scope="module", params=[*PLANS, "hostile"])
def page(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    plan = plans.hostile("W" * 300 + plans.ATTACKS[0]) if request.param == "hostile" else PLANS[request.param]
    assert plan is not None
    path = tmp_path_factory.mktemp(str(request.param)) / "pattern.html"
    path.write_text(html(plan), encoding="utf-8")
    return path


def show(browser: object, page: Path, width: int) -> None:
    metrics = {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": False}
    browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", metrics)  # type: ignore[attr-defined]
    browser.get(page.as_uri())  # type: ignore[attr-defined]
    # until the page is laid out and drawn; before that the browser may refuse to print it
    browser.execute_async_script(  # type: ignore[attr-defined]
        "const done = arguments[0];"
        " document.fonts.ready.then(() => requestAnimationFrame(() => requestAnimationFrame(() => done())));"
    )


@pytest.mark.parametrize("width", [360, 1200])
def test_it_is_no_wider_than_the_window_and_says_nothing(browser: object, page: Path, width: int) -> None:
    show(browser, page, width)
    run = browser.execute_script  # type: ignore[attr-defined]
    assert run("return window.innerWidth") == width
    assert run("return document.documentElement.scrollWidth") <= width
    # nothing reaches out of the window but what lies in a figure that scrolls by itself
    wide = run(
        "return [...document.body.querySelectorAll('*')].filter(e => !e.closest('.figure, .unseen, .skip')"
        " && e.getBoundingClientRect().right > window.innerWidth + 0.5).map(e => e.outerHTML.slice(0, 80))"
    )
    assert wide == []
    assert browser.get_log("browser") == []  # type: ignore[attr-defined]


@pytest.mark.parametrize("width", [360, 390])
def test_every_figure_is_seen_whole_on_a_phone(browser: object, page: Path, width: int) -> None:
    show(browser, page, width)
    cut = browser.execute_script(  # type: ignore[attr-defined]
        "return [...document.querySelectorAll('.figure')].filter(e => e.scrollWidth > e.clientWidth)"
        ".map(e => [e.querySelector('svg').id, e.scrollWidth, e.clientWidth])"
    )
    assert "hostile" in str(page) or cut == []


def test_every_figure_is_seen_and_every_box_can_be_ticked(browser: object, page: Path) -> None:
    show(browser, page, 1200)
    run = browser.execute_script  # type: ignore[attr-defined]
    sizes = run(
        "return [...document.querySelectorAll('.figure svg')].map(e => { const b = e.getBoundingClientRect();"
        " return [b.width, b.height, e.viewBox.baseVal.width / e.viewBox.baseVal.height]; })"
    )
    assert sizes
    for width, height, shape in sizes:
        assert width > 40 and height > 20 and width / height == pytest.approx(shape, rel=0.02)
    assert run(
        "const all = [...document.querySelectorAll('input')]; all.forEach(e => e.click());"
        " return all.length > 0 && all.every(e => e.checked)"
    )


@pytest.mark.parametrize("paper", [(8.27, 11.69), (8.5, 11.0)], ids=["A4", "letter"])
def test_it_prints(browser: object, page: Path, paper: tuple[float, float]) -> None:
    show(browser, page, 1200)
    printed = browser.execute_cdp_cmd(  # type: ignore[attr-defined]
        "Page.printToPDF", {"paperWidth": paper[0], "paperHeight": paper[1], "printBackground": False}
    )
    pdf = base64.b64decode(printed["data"])
    assert pdf.startswith(b"%PDF-") and pdf.count(b"/Type /Page\n") + pdf.count(b"/Type /Page ") >= 1


def test_words_on_paper_are_large_enough(browser: object, page: Path) -> None:
    """In print no lettering of a figure is smaller than 7 pt (in CSS pixels 9.3)."""
    show(browser, page, 700)  # about A4 between its margins
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})  # type: ignore[attr-defined]
    smallest = browser.execute_script(  # type: ignore[attr-defined]
        "return Math.min(...[...document.querySelectorAll('.figure svg')].map(e => { const t = e.querySelector('text');"
        " return t ? parseFloat(getComputedStyle(t).fontSize) * e.getBoundingClientRect().width"
        " / e.viewBox.baseVal.width : 99; }))"
    )
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})  # type: ignore[attr-defined]
    assert smallest >= 7 * 96 / 72
