"""cut-list.csv and cutting.csv, read back as RFC 4180 says."""

from __future__ import annotations

import csv
import io
import re
from dataclasses import replace

import pytest
from emit import plans
from piecewright.emit import csv as written
from piecewright.emit.cutlist import cutting_csv

PLANS = plans.several()


def rows(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline=""), strict=True))


@pytest.mark.parametrize("name", PLANS)
def test_it_holds_the_cut_list(name: str) -> None:
    plan = PLANS[name]
    header, *body = rows(written(plan))
    assert header == ["fabric", "shape", "width", "height", "count", "reversed", "label"]
    assert body == [
        [cut.fabric, cut.shape, cut.width.ruler, cut.height.ruler, str(cut.count), "no", cut.label]
        for cut in plan.cuts
    ]


def test_the_header_is_the_first_line_and_lines_end_as_the_standard_says() -> None:
    text = written(PLANS["lantern"])
    assert text.startswith("fabric,shape,width,height,count,reversed,label\r\n")
    assert text.count("\r\n") == text.count("\n") == len(PLANS["lantern"].cuts) + 1


@pytest.mark.parametrize("label", ['a, b; "c"', "line\nend", "ends with \r", " space ", "é ½"])
def test_any_label_comes_back(label: str) -> None:
    plan = PLANS["cabin"]
    plan = replace(plan, cuts=tuple(replace(cut, label=label, reversed=True) for cut in plan.cuts))
    for row in rows(written(plan))[1:]:
        assert row[5:] == ["yes", label]


def test_the_label_says_how_many_of_one_print() -> None:
    plan = PLANS["cabin"]
    plan = replace(plan, cuts=tuple(replace(cut, each=4, batches=20) for cut in plan.cuts[:1]))
    assert rows(written(plan))[1][6] == f"{plan.cuts[0].label} (4 of one print; 20 times)"


def test_no_cell_begins_like_a_formula() -> None:
    """Names begin with a letter and sizes with a digit, so a spreadsheet takes no cell for a formula."""
    for plan in PLANS.values():
        for row in rows(written(plan)):
            for cell in row:
                assert not cell or re.match(r"[a-z0-9]", cell)


@pytest.mark.parametrize("name", PLANS)
def test_the_cutting_gives_what_the_cut_list_asks_for(name: str) -> None:
    plan = PLANS[name]
    header, *body = rows(cutting_csv(plan, plan.strips))
    assert ",".join(header) == "fabric,number,from,strips,strip width,strip length,shape,width,height,pieces"
    got: dict[tuple[str, ...], int] = {}
    for fabric, number, source, strips, *_, shape, width, height, pieces in body:
        assert source == "cloth" and int(number) >= 1 and int(strips) >= 1
        got[fabric, shape, width, height] = got.get((fabric, shape, width, height), 0) + int(pieces)
    asked: dict[tuple[str, ...], int] = {}
    for cut in plan.cuts:
        key = (cut.fabric, cut.shape, cut.width.ruler, cut.height.ruler)
        asked[key] = asked.get(key, 0) + cut.count
    assert got == asked
