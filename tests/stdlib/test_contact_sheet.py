"""All entries of the library on one sheet, kept as a picture to look at."""

from __future__ import annotations

from piecewright.evaluate.catalogue import entries, sample
from piecewright.evaluate.run import evaluate
from piecewright.kernel.build import Build
from piecewright.kernel.measure import finished_bounds, finished_outline
from piecewright.kernel.unit import Patch, Polygon, Unit
from piecewright.plan.arcs import rounded
from piecewright.reading import Reader, read_nothing
from syrupy.assertion import SnapshotAssertion
from syrupy.extensions.single_file import SingleFileSnapshotExtension
from syrupy.types import SerializableData, SerializedData

CELL, SIDE, ACROSS = 70, 60, 12


class SheetExtension(SingleFileSnapshotExtension):
    """One file, as it is drawn."""

    file_extension = _file_extension = "svg"  # the second name is that of syrupy 4

    def serialize(self, data: SerializableData, **_: object) -> SerializedData:
        return str(data).encode()


def built(text: str) -> Build:
    reader = Reader(read_nothing)
    file, found = reader.main("<text>", text)
    assert file is not None, found
    build, more = evaluate(file, reader.load)
    assert build is not None, more
    return build


def path(points: list[tuple[float, float]], unit: Unit) -> str:
    left, bottom, right, top = (float(one) for one in finished_bounds(unit))
    scale = SIDE / max(right - left, top - bottom)
    drawn = dict.fromkeys(f"{round((x - left) * scale)} {round((top - y) * scale)}" for x, y in points)
    return f"M{'L'.join(drawn)}z"


def straight(polygon: Polygon, unit: Unit) -> str:
    return path([p.floats for p in polygon], unit)


def seen(patch: Patch, unit: Unit) -> list[str]:
    """What is seen of a patch: its cells, or what a curve leaves of them."""
    if not patch.discs:
        return [straight(cell, unit) for cell in patch.cells]
    parts = rounded(patch, (0.0, 0.0))
    return [path(list(ring), unit) for part in parts for ring in (part.outline, *part.holes)]


def drawn(name: str, build: Build, at: tuple[int, int]) -> list[str]:
    (unit,) = (made.unit for made in build.made if made.key == build.demands[0].key)
    colours = {fabric.name: fabric.colour for fabric in build.fabrics}
    cells: dict[str, list[str]] = {}
    for patch in unit.patches:
        cells.setdefault(patch.fabric, []).extend(seen(patch, unit))
    # what is beyond the seam lines is clipped, so that it is the finished unit
    lines = [f'<g id="{name}" transform="translate({at[0]} {at[1]})"><title>{name}</title>']
    lines.append(f'<clipPath id="c-{name}"><path d="{straight(finished_outline(unit), unit)}"/></clipPath>')
    lines.append(f'<g clip-path="url(#c-{name})">')
    rule = ' fill-rule="evenodd"' if any(patch.discs for patch in unit.patches) else ""
    lines += [f'<path fill="{colours[fabric]}"{rule} d="{"".join(paths)}"/>' for fabric, paths in cells.items()]
    return [*lines, "</g></g>"]


def test_contact_sheet(snapshot: SnapshotAssertion) -> None:
    shown = [(entry, name) for entry in entries() for name in entry.parts or (entry.name,)]
    rows = -(-len(shown) // ACROSS)
    size = f"{ACROSS * CELL} {rows * CELL}"
    lines = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="-5 -5 {size}" stroke="#555" stroke-width="0.4">']
    for number, (entry, name) in enumerate(shown):
        at = number % ACROSS * CELL, number // ACROSS * CELL
        lines += drawn(name, built(sample(entry, name)), at)
    sheet = "\n".join([*lines, "</svg>", ""])
    assert sheet == snapshot(extension_class=SheetExtension)
