"""The cloth planner on a file of cuttings, beside general packing libraries on the same pieces in the same run."""

from __future__ import annotations

import argparse
import csv
import json
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import lcm
from pathlib import Path
from typing import Any

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).parents[1])

from cloth.plain import counted, fewest_plain
from cloth.verifier import verify
from piecewright.plan.cloth.model import CuttingPlan, Need, Sheet, Stock
from piecewright.plan.cloth.planner import plan_cloth

STEP_IN = Fraction(9, 2)  # an eighth of a yard
PEERS = ("rectpack_default", "rectpack_best72", "opcut")
HELP = """FILE is a JSON list of cuttings (as tests/data/cutting/fabric_instances.json: name, wof_in, pieces of w, h,
n, rotate; lengths in inches, bought in steps of 4.5), or one …_items.csv with its …_bins.csv beside it (columns
WIDTH, HEIGHT, COPIES; pieces do not turn; two stages), or a folder of such pairs. Of a CSV the bin's width is a
strip's, cut to any length, or with --sheets the bins are sheets. Lengths come out as they went in: inches, or the
CSV's units; with --sheets a number of sheets. `ways` are ways of cutting, `plain` those of a plain plan that buys no
more (each size in strips of its own), where there is one. The exit code is 1 if a plan is not sound or has more ways
than that."""


@dataclass(frozen=True)
class Case:
    """A cutting in whole units, `scale` of them to one of the file's. `known`: values to compare, in the file's."""

    name: str
    group: str
    needs: list[Need]
    stock: Stock
    scale: int
    unit: str
    cuts: int = 3
    known: dict[str, Any] = field(default_factory=dict)


def cases(path: Path, sheets: bool = False) -> Iterator[Case]:
    """The cuttings in a file or folder, see HELP."""
    if path.suffix == ".json":
        yield from (_fabric(one) for one in json.loads(path.read_text(encoding="utf-8")))
        return
    files = sorted(path.glob("*_items.csv"), key=lambda one: (len(one.name), one.name)) if path.is_dir() else [path]
    if not files:
        raise SystemExit(f"{path} holds no …_items.csv")
    for one in files:
        yield _table(one, sheets)


def _fabric(data: dict[str, Any]) -> Case:
    sizes = [Fraction(piece[side]) for piece in data["pieces"] for side in ("w", "h")]
    wide = Fraction(data["wof_in"])
    scale = lcm(*(size.denominator for size in (*sizes, wide, STEP_IN)))
    needs = [
        Need(width=int(one["w"] * scale), height=int(one["h"] * scale), count=one["n"], turns=one["rotate"])
        for one in data["pieces"]
    ]
    stock = Stock(width=int(wide * scale), step=int(STEP_IN * scale))
    known = {
        key.removesuffix("_buy_in") + "_then": value
        for key, value in data.items()
        if key.endswith("_buy_in") and value is not None
    }
    return Case(data["name"], data.get("set", "all"), needs, stock, scale, "in", known=known)


def _table(path: Path, sheets: bool) -> Case:
    name = path.name.removesuffix("_items.csv").removesuffix(".txt")
    needs = [
        Need(width=int(row["WIDTH"]), height=int(row["HEIGHT"]), count=int(row["COPIES"]), turns=False)
        for row in _rows(path)
    ]
    bins = _rows(path.with_name(path.name.replace("_items", "_bins")))
    wide, high = int(bins[0]["WIDTH"]), int(bins[0]["HEIGHT"])
    known: dict[str, Any] = {}
    for folder in (path.parent, path.parent.parent):
        file = folder / ("published_2NHO_sheets_cintra.csv" if sheets else "published_2NHO_strip.csv")
        if not known and file.exists():
            for row in _rows(file):
                if name in (row.get("instance"), Path(row.get("instance_file", "")).stem):
                    known = {"published": int(row.get("best_primal") or row["published_best"])}
    if sheets:
        stock = Stock(width=0, sheets=(Sheet(width=wide, height=high),))
        return Case(name, path.parent.name, needs, stock, wide * high, "sheets", 2, known)
    return Case(name, path.parent.name, needs, Stock(width=wide), 1, "units", 2, known)


def _rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def measured(case: Case, peers: bool) -> tuple[dict[str, Any], list[str]]:
    """One line of results, and the faults of its plans."""
    faults: list[str] = []

    def planned(**options: Any) -> tuple[CuttingPlan, float]:
        start = time.perf_counter()
        plan = plan_cloth(case.needs, case.stock, **options)
        seconds = time.perf_counter() - start
        faults.extend(f"{case.name}: {fault}" for fault in verify(case.needs, case.stock, plan))
        least = fewest_plain(case.needs, case.stock, plan.bought)
        if least is not None and counted(plan) > least:
            faults.append(f"{case.name}: {counted(plan)} ways, but a plain plan that buys no more has {least}")
        return plan, round(seconds, 3)

    def shown(value: int | None) -> float | None:
        return None if value is None else round(value / case.scale, 6)

    plan, seconds = planned(cuts=case.cuts)
    line: dict[str, Any] = {
        "name": case.name,
        "group": case.group,
        "sizes": len(case.needs),
        "pieces": sum(need.count for need in case.needs),
        "unit": case.unit,
        "bought_in": shown(plan.bought),
        "bound_in": shown(plan.bound),
        "any_bound_in": shown(plan.any_bound),
        "proved": plan.proved,
        "stages": plan.stages,
        "ways": counted(plan),
        "plain_ways": fewest_plain(case.needs, case.stock, plan.bought),
        "seconds": seconds,
    }
    if case.cuts != 2:
        two, seconds = planned(cuts=2)
        line |= {"two_stage_bought_in": shown(two.bought), "two_stage_bound_in": shown(two.bound)}
        line |= {"two_stage_proved": two.proved, "two_stage_seconds": seconds}
    without, seconds = planned(cuts=case.cuts, solver=False)
    line |= {"no_solver_bought_in": shown(without.bought), "no_solver_seconds": seconds}
    if peers and case.cuts != 2:
        line |= {f"{name}_in": shown(value) for name, value in _peers(case).items()}
    return line | case.known, faults


def _peers(case: Case) -> dict[str, int | None]:
    from benchmarks import peers  # test dependencies, not asked for with --no-peers

    pieces = [(need.width, need.height, need.turns) for need in case.needs for _ in range(need.count)]
    runs: tuple[Callable[..., int | None], ...] = (peers.rectpack_default, peers.rectpack_best, peers.opcut_greedy)
    return {name: run(case.stock.width, case.stock.step, pieces) for name, run in zip(PEERS, runs, strict=True)}


COLUMNS = {
    "name": "name",
    "pieces": "pieces",
    "bought_in": "bought",
    "bound_in": "bound",
    "any_bound_in": "any",
    "proved": "proved",
    "stages": "stages",
    "ways": "ways",
    "plain_ways": "plain",
    "seconds": "s",
    "two_stage_bought_in": "2 stages",
    "two_stage_proved": "proved",
    "two_stage_seconds": "s",
    "no_solver_bought_in": "no solver",
    "no_solver_seconds": "s",
    "rectpack_default_in": "rectpack",
    "rectpack_best72_in": "best of 72",
    "opcut_in": "opcut",
    "published": "published",
}


def table(lines: Sequence[dict[str, Any]]) -> Iterator[str]:
    """The results with a column for everything any of them has."""
    keys = [key for key in COLUMNS if any(line.get(key) is not None for line in lines)]
    cells = [[COLUMNS[key] for key in keys]] + [[_cell(line.get(key)) for key in keys] for line in lines]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    for row in cells:
        first, *others = zip(row, widths, strict=True)
        yield "  ".join([first[0].ljust(first[1]), *(cell.rjust(width) for cell, width in others)])


def _cell(value: Any) -> str:
    if value is None:
        return "-"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:.10g}" if isinstance(value, float) else str(value)


def totals(lines: Sequence[dict[str, Any]]) -> Iterator[str]:
    """What is bought together, how much is proved, and where another way buys less."""
    yield f"ways: {sum(line['ways'] for line in lines)}"
    yield f"bought: {_cell(sum(line['bought_in'] for line in lines))}, of {len(lines)} cuttings"
    others = [key for key in COLUMNS if key not in ("bought_in",) and key.endswith(("bought_in", "72_in"))]
    others += ["rectpack_default_in", "opcut_in", "published"]
    others += sorted({key for line in lines for key in line if key.endswith("_then")})
    for key in others:
        both = [line for line in lines if line.get(key) is not None]
        if not both:
            continue
        ours, theirs = sum(line["bought_in"] for line in both), sum(line[key] for line in both)
        worse = [line["name"] for line in both if line["bought_in"] > line[key]]
        better = sum(line["bought_in"] < line[key] for line in both)
        more = f"{100 * (theirs - ours) / ours:+.2f} %" if ours else "-"
        yield (
            f"against {key.removesuffix('_in')} ({len(both)}): {_cell(ours)} to {_cell(theirs)} ({more}), "
            f"less in {better}, more in {len(worse)}{': ' + ', '.join(worse) if worse else ''}"
        )
    for group in dict.fromkeys(line["group"] for line in lines):
        members = [line for line in lines if line["group"] == group]
        parts = [f"{sum(line['proved'] for line in members)} of {len(members)} proved"]
        if "two_stage_proved" in members[0]:
            parts.append(f"{sum(line['two_stage_proved'] for line in members)} in two stages")
        parts.append(f"{sum(line['bought_in'] == line['any_bound_in'] for line in members)} against any cutting")
        slowest = max(line["seconds"] for line in members)
        middle = sorted(line["seconds"] for line in members)[len(members) // 2]
        yield f"{group}: {', '.join(parts)}; {middle:.3f} s in the middle, {slowest:.3f} s at most"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, epilog=HELP)
    parser.add_argument("file", type=Path, metavar="FILE", help="cuttings: JSON, a CSV of items, or a folder of CSVs")
    parser.add_argument("--json", action="store_true", help="one JSON object a line instead of a table")
    parser.add_argument("--no-peers", action="store_true", help="without the packing libraries")
    parser.add_argument("--sheets", action="store_true", help="a CSV's bins are sheets of fixed size")
    asked = parser.parse_args()
    lines: list[dict[str, Any]] = []
    faults: list[str] = []
    for case in cases(asked.file, asked.sheets):
        line, found = measured(case, not asked.no_peers)
        lines.append(line)
        faults += found
        if asked.json:
            print(json.dumps(line), flush=True)
    report = sys.stderr if asked.json else sys.stdout
    if not asked.json:
        print(*table(lines), "", sep="\n")
    print(*totals(lines), sep="\n", file=report)
    if not asked.no_peers and any(line["unit"] == "in" for line in lines):
        from benchmarks.peers import NO_OPCUT

        print(NO_OPCUT, end="\n" if NO_OPCUT else "", file=report)
    for fault in faults:
        print(f"not sound: {fault}", file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
