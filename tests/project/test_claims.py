"""What the README, DEVELOPERS.md and the reference claim and can be checked is so: names, defaults, what is missing."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterator
from functools import cache

import pytest
from piecewright import cli, pipeline
from piecewright.diagnostics.codes import CODES
from piecewright.evaluate.cutters import LAYERS
from piecewright.evaluate.definition import OR
from piecewright.evaluate.library import index
from piecewright.evaluate.settings import DEFAULT, FABRIC_CLAUSES, METRIC_RULER, METRIC_SEAM, UNITS
from piecewright.evaluate.settings import NAMES as SETTINGS
from piecewright.exact import INCH_PER, parse_size
from piecewright.verbs.table import TABLE, VERBS
from piecewright.verbs.words import RESERVED
from project.test_docs import PACKAGE, ROOT, read

DOCS = ("README.md", "DEVELOPERS.md", "grammar/reference.md")
SHOWN = {"pass", "python", "Fraction", "fractions", "ci"}  # of Python and the shell


def in_backquotes(name: str) -> list[str]:
    text = re.sub(r"^```.*?^```$", "", read(name), flags=re.MULTILINE | re.DOTALL)
    return re.findall(r"(?<!`)`([^`\n]+)`(?!`)", text)


# ── names ───────────────────────────────────────────────────────────────────────────────────────


@cache
def code() -> str:
    """The text of the whole compiler, and the names of its files and folders."""
    paths = sorted(PACKAGE.rglob("*.py"))
    names = " ".join(f"def {path.stem} def {path.parent.name}" for path in paths)
    return "\n".join([names, *(path.read_text(encoding="utf-8") for path in paths)])


def undefined(names: set[str]) -> set[str]:
    """Those that the compiler defines nowhere, as a module, class, function, parameter, field or constant."""
    one = "|".join(sorted(map(re.escape, names), key=len, reverse=True))
    told = re.findall(rf"(?:class|def) ({one})\b|^[ \t]*({one})\b *[:=]|[(,.] *({one})\b *[:=]", code(), re.MULTILINE)
    told += re.findall(rf"[(,] *({one})()()(?=[,)])", code())
    return names - {name for found in told for name in found}


@cache
def pattern_words() -> frozenset[str]:
    """The words of the language and of the library, the formats, and the options and extras of the project."""
    sentences = " ".join(part for verb in TABLE for part in (*verb.sentences, *verb.clauses))
    project = tomllib.loads(read("pyproject.toml"))
    found = {*VERBS, *RESERVED, *SETTINGS, *FABRIC_CLAUSES, *index(), *pipeline.FORMATS, *cli.commands.cli.commands}
    found |= set(re.findall(r"[a-z][\w-]*", sentences)) | set(project["project"]["optional-dependencies"])
    found |= {word.split(":")[0] for word in project["tool"]["pytest"]["ini_options"].get("markers", ())}
    examples = [path.read_text(encoding="utf-8") for path in (ROOT / "examples").glob("*.piece")]
    for text in (*examples, *(read(name) for name in DOCS)):
        for block in (text, *re.findall(r"^```piece.*?\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)):
            found.update(re.findall(r"^(?:unit|block|quilt|fabric) ([\w-]+)", block, re.MULTILINE))
    return frozenset(found)


def names_of_python(text: str) -> Iterator[str]:
    """The parts of what is written like a name of Python: `Verb`, `unit.patch_rope.near(…)`, `run(bench, said)`."""
    call = re.fullmatch(r"([A-Za-z_][\w.]*)(?:\(([\w, …]*)\))?", text)
    if call is not None and not re.search(r"\.(?:md|py|toml|piece|lark|csv|json|html|svg|txt)$", call[1]):
        yield from call[1].split(".")
        yield from re.findall(r"\w+", call[2] or "")


def test_every_name_in_developers_is_one() -> None:
    """Of the code, or a word of a pattern."""
    named = [name for text in in_backquotes("DEVELOPERS.md") for name in names_of_python(text)]
    assert len(named) > 60 and {"Verb", "Refused", "patch_rope", "near", "bench", "said"} <= set(named)
    slots = {slot for verb in TABLE for one in (*verb.sentences, *verb.clauses) for slot in re.findall(r"[A-Z]+", one)}
    assert undefined({name for name in named if name not in pattern_words() | SHOWN | slots}) == set()


def test_a_constant_that_is_gone_would_be_found() -> None:
    assert list(names_of_python("KEPT")) == ["KEPT"] and undefined({"KEPT", "RESERVED", "patch_rope"}) == {"KEPT"}
    assert list(names_of_python("unit.patch_rope.near(…)")) == ["unit", "patch_rope", "near"]
    assert list(names_of_python("verbs/words.py")) == list(names_of_python("table.py")) == []


@pytest.mark.parametrize("name", ["README.md", "grammar/reference.md"])
def test_every_word_in_the_readme_and_the_reference_is_one_of_the_language(name: str) -> None:
    """A word alone in small letters; what else stands in backquotes is a sentence, a path or a number."""
    words = [text for text in in_backquotes(name) if re.fullmatch(r"[a-z]+(?:-[a-z0-9]+)*", text)]
    assert len(words) > 5
    own = {"darker", OR, *UNITS, *LAYERS, "layers", "leeway", "die"}  # of settings and cutters
    shown = {"pale-1", "size-1", "piece", "piece-part"}  # how a name may look, and the marks of the examples
    assert sorted({word for word in words if word not in pattern_words() | own | shown}) == []


def test_every_code_that_is_named_has_a_page() -> None:
    named = {code for name in DOCS for code in re.findall(r"\b[EW]\d{3}\b", read(name))}
    assert named and named <= set(CODES)


# ── the reference ───────────────────────────────────────────────────────────────────────────────


def test_the_settings_and_what_holds_without_them() -> None:
    rows = re.findall(r"^\| `(\w+) [^|]*\| ([^|]+) \|[^|]*\|$", read("grammar/reference.md"), re.MULTILINE)
    told = {name: left_out.replace("`", "").strip() for name, left_out in rows if name in SETTINGS}
    assert set(told) == set(SETTINGS)
    sizes = {name: parse_size(told[name])[0] for name in ("tolerance", "usable")}
    assert sizes == {name: getattr(DEFAULT, name) for name in sizes}
    assert told["seam"].startswith("1/4, or 0.75 cm ")
    assert (DEFAULT.seam, METRIC_SEAM) == (parse_size("1/4")[0], INCH_PER["cm"] * 3 / 4)
    assert told["ruler"].startswith("1/8, or 1 mm ") and INCH_PER["mm"] == METRIC_RULER
    assert parse_size("1/8")[0] == DEFAULT.ruler
    assert (told["units"], told["edition"], told["press"]) == (DEFAULT.units, DEFAULT.edition, DEFAULT.press)
    assert told["sold"].startswith("1/8 yard, or 10 cm ") and DEFAULT.sold.step == 36 * parse_size("1/8")[0]


def test_the_clauses_of_a_fabric() -> None:
    text = read("grammar/reference.md")
    assert [word for word in FABRIC_CLAUSES if not re.search(rf"`{word}\b", text)] == []


def test_the_words_that_cannot_be_names() -> None:
    last = read("grammar/reference.md").split("## 10  Words that cannot be names")[1]
    assert set(re.findall(r"[a-z]+", " ".join(re.findall(r"`([^`]+)`", last)))) <= RESERVED
    for kind in ("joining words", "the verbs", "the places and lines"):
        assert kind in last.lower()


# ── the README ──────────────────────────────────────────────────────────────────────────────────

NUMBERS = {"twenty-six": 26, "twenty-seven": 27, "twenty-eight": 28, "twenty-nine": 29, "thirty": 30}


def test_there_are_as_many_examples_as_it_says() -> None:
    said = re.search(r"are a tutorial: (\S+) patterns", read("README.md"))
    assert said is not None
    assert NUMBERS[said[1]] == len(list((ROOT / "examples").glob("*.piece")))


def test_the_formats_and_the_exit_codes() -> None:
    text = " ".join(read("README.md").split())
    assert f"makes only those; of {', '.join(pipeline.FORMATS[:-1])} and {pipeline.FORMATS[-1]}." in text
    assert (cli.said.FOUND, cli.said.USAGE, cli.said.SURROUNDINGS, cli.said.OUR_FAULT) == (1, 2, 3, 4)
    assert re.search(
        r"0 when all is well, 1 when something was found .* 2 when the command .* 3 when .* and 4 when", text
    )


def test_every_file_that_is_made_is_named_and_every_one_named_is_made() -> None:
    named = set(
        re.findall(r"`([^`]+)`", "".join(re.findall(r"^\| (`[^|]+) \|", section("What is made"), re.MULTILINE)))
    )
    made: set[str] = set()
    for name in ("21-boat-on-paper.piece", "22-path-by-the-water.piece"):
        compiled, files = pipeline.emitted(str(ROOT / "examples" / name), cutting=pipeline.Cutting(kits=2))
        assert compiled.plan is not None
        made |= {re.sub(r"/.*\.svg$", "/*.svg", path) for path, _ in files}
    assert made == named - {"arrangements.html", "arrangements.svg"}, "those two are made by another command"


def section(heading: str) -> str:
    (text,) = (part for part in re.split(r"^## ", read("README.md"), flags=re.MULTILINE) if part.startswith(heading))
    return text.partition("\n")[2]


# ── what is not there yet ───────────────────────────────────────────────────────────────────────

FABRICS = "fabric sand, value light\nfabric dusk, value dark\n\n"


def refused(steps: str) -> list[str]:
    lines = "".join(f"    {line}\n" for line in steps.split("; "))
    found = pipeline.compile_source(f"{FABRICS}block one\n{lines}").diagnostics
    return [one.code for one in found if one.severity == "error"]


def only_quarter_circles_and_half_melons() -> None:
    assert refused("square 5 of sand; curve 2 of dusk at bottom-left") == []
    assert refused("triangle 5 at 60 of sand; curve 2 of dusk at bottom-left") == ["E321"]
    assert refused("square 5 of sand; join square 5 of dusk on right; curve 2 of dusk at top-middle")[0][0] == "E"
    assert refused("square 5 of sand; curve of dusk on left") == []
    assert refused("triangle 5 at 60 of sand; curve of dusk on bottom") == ["E322"]
    (curve,) = (verb for verb in TABLE if verb.name == "curve")
    assert curve.sentences == ("curve RADIUS of FABRIC at CORNERS", "curve of FABRIC [on EDGES]")
    assert [verb.name for verb in TABLE if "circle" in verb.summary or "curve" in verb.summary] == ["curve"]


def only_straight_squares_are_flipped() -> None:
    assert refused("square 5 of sand; flip square 2 of dusk at top-left") == []
    assert refused("square 5 of sand; flip rectangle 2 by 3 of dusk at top-left") == ["E321"]
    on_its_point = "p is square 2 of dusk; q is p turned 45 left; flip q at top-left"
    assert refused(f"square 5 of sand; {on_its_point}") == ["E321"]


def no_pdf() -> None:
    assert "pdf" not in pipeline.FORMATS
    with pytest.raises(ValueError, match="no format 'pdf'"):
        pipeline.emitted("q.piece", to=("pdf",), contents=b"")


MISSING: dict[str, Callable[[], None]] = {
    "The only curves are quarter circles in a square corner and half melons on the side of a rectangle.": (
        only_quarter_circles_and_half_melons
    ),
    "A piece is flipped over a corner as a straight square only.": only_straight_squares_are_flipped,
    "No PDF other than what a browser prints.": no_pdf,
}
"""Each sentence of the section, and what shows that it is still so."""


def test_each_thing_that_is_missing_is_missing() -> None:
    text = " ".join(section("What is not there yet").split()).partition("How it is built")[0]
    assert re.findall(r"[^.]+\.", text.strip()) == [
        sentence if number == 0 else f" {sentence}" for number, sentence in enumerate(MISSING)
    ], "a claim without a check, or a check without its claim"


@pytest.mark.parametrize("claim", MISSING, ids=lambda claim: " ".join(claim.split()[:4]))
def test_it_is_still_so(claim: str) -> None:
    MISSING[claim]()


def test_blocks_on_point_are_there() -> None:
    """The README shows a quilt of them among its examples, and so they are not missing."""
    assert "blocks on point](examples/26-nets-hung-to-dry.piece)" in read("README.md")
    assert re.search(r"^    lay .* on point$", read("examples/26-nets-hung-to-dry.piece"), re.MULTILINE)
