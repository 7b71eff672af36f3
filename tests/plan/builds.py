"""Small patterns made by hand with the kernel alone, as the evaluator would hand them on."""

from __future__ import annotations

from dataclasses import replace

from piecewright.exact import Exact
from piecewright.kernel.action import Action, CutPiece, Lay, Press, Sew, Subcut, Take, Trim, Turn
from piecewright.kernel.build import Build, Demand, Expect, Fabric, Made, Piece, Settings, Step, Supply
from piecewright.kernel.chain import chain
from piecewright.kernel.congruence import alike
from piecewright.kernel.cut import cut
from piecewright.kernel.measure import edge_length
from piecewright.kernel.moves import rotated, turned
from piecewright.kernel.pieces import rectangle
from piecewright.kernel.places import edge, line
from piecewright.kernel.trim import SeamOnDiagonal, trim
from piecewright.kernel.unit import Unit

OPPOSITE = {"left": "right", "right": "left", "top": "bottom", "bottom": "top", "long-edge": "long-edge"}
SEAM = Exact(1, 4)
SETTINGS = Settings(
    title="Lantern",
    edition="1",
    seam=SEAM,
    units="inch",
    ruler=Exact(1, 8),
    tolerance=Exact(1, 16),
    usable=Exact(40),
    press="toward darker",
)
DUSK = Fabric(name="dusk", text="midnight blender", colour="#27355f", value="dark", usable=Exact(40))
GLOW = Fabric(name="glow", text="butter solid", colour="#e8c65a", value="light", usable=Exact(40))
SAND = Fabric(name="sand", text="", colour=None, value="light", usable=Exact(40))


def inches(number: int | float) -> Exact:
    """A size in eighths or coarser, from a short decimal."""
    return Exact(int(number * 64), 64)


def cloth(width: Exact, height: Exact, fabric: str, shape: str = "rectangle") -> Unit:
    return rectangle(width, height, fabric=fabric, allowance=SEAM, cut=shape)


def piece_of(unit: Unit, shape: str = "rectangle", count: int = 1) -> Supply:
    """The supply for a rectangle of cloth."""
    width, height = edge_length(unit, 0, finished=False), edge_length(unit, 1, finished=False)
    return Supply(source=Piece(shape=shape, width=width, height=height, fabric=unit.patches[0].fabric), count=count)


class Maker:
    """Makes one definition step by step; each method is one line of it."""

    def __init__(self, key: str, *, kind: str = "unit", arguments: tuple[tuple[str, str], ...] = ()) -> None:
        self.key = key
        self.kind = kind
        self.arguments = arguments
        self.unit: Unit | None = None
        self.copies = 1
        self.steps: list[Step] = []
        self.supplies: list[Supply] = []
        self.segments: int | None = None
        self.segment: Exact | None = None
        self.kinds: tuple[tuple[str, Unit], ...] = ()

    def step(
        self, verb: str, *actions: Action, supplies: tuple[Supply, ...] = (), places: tuple[str, ...] = ()
    ) -> Maker:
        self.steps.append(
            Step(
                verb=verb,
                file="test.piece",
                line=len(self.steps) + 1,
                actions=actions,
                copies=self.copies,
                supplies=supplies,
                places=places,
            )
        )
        for supply in supplies:
            self.supplies.append(replace(supply, count=supply.count * self.copies))
        return self

    def start(self, shape: str, width: float, height: float, fabric: str) -> Maker:
        self.unit = cloth(inches(width), inches(height), fabric, shape)
        action = CutPiece(shape=shape, width=inches(width), height=inches(height), fabric=fabric, unit=self.unit)
        supply = piece_of(self.unit, shape)
        if shape == "strip":
            assert isinstance(supply.source, Piece)
            supply = replace(supply, source=replace(supply.source, width=None))
        return self.step(shape, action, supplies=(supply,))

    def take(self, made: Made) -> Maker:
        self.unit = made.unit
        return self.step("take", Take(name=made.name, unit=made.unit), supplies=(Supply(source=made.key, count=1),))

    def turn(self, degrees: int) -> Maker:
        assert self.unit is not None
        before, self.unit = self.unit, turned(self.unit, degrees)
        return self.step("turn", Turn(degrees=degrees, before=before, result=self.unit))

    def sew(self, second: Unit, on: str, toward: str, name: str) -> tuple[Action, ...]:
        assert self.unit is not None
        joined = chain(self.unit, edge(self.unit, on), second, edge(second, OPPOSITE[on]), pressed="right")
        sew = Sew(
            first=self.unit,
            second=joined.second,
            first_edges=(edge(self.unit, on),),
            second_edges=(edge(second, OPPOSITE[on]),),
            result=joined.unit,
            name=name,
            eased=joined.eased,
        )
        self.unit = joined.unit
        return sew, Press(result=joined.unit, seam=joined.seam, toward=toward)

    def border_actions(self, width: float, fabric: str, edges: tuple[str, ...]) -> tuple[list[Action], list[Supply]]:
        actions: list[Action] = []
        supplies: list[Supply] = []
        for on in edges:
            assert self.unit is not None
            long = edge_length(self.unit, edge(self.unit, on), finished=True) + 2 * SEAM
            wide = inches(width)
            strip = cloth(wide, long, fabric) if on in ("left", "right") else cloth(long, wide, fabric)
            actions += self.sew(strip, on, f"toward {fabric}", f"{fabric} strip")
            supplies.append(piece_of(strip))
        return actions, supplies

    def border(self, width: float, fabric: str, *edges: str) -> Maker:
        actions, supplies = self.border_actions(width, fabric, edges)
        return self.step("border", *actions, supplies=tuple(supplies), places=edges)

    def repeat(self, times: int, *borders: tuple[float, str, tuple[str, ...]]) -> Maker:
        """A repeat of border steps: the step holds the first round and the last, and brings what all rounds take."""
        rounds = [[self.border_actions(*one) for one in borders] for _ in range(times)]
        for number, (_, fabric, edges) in enumerate(borders):
            supplies = tuple(supply for one in rounds for supply in one[number][1])
            self.step("border", *rounds[0][number][0], supplies=supplies, places=edges)
            last = tuple(rounds[-1][number][0])
            self.steps[-1] = replace(self.steps[-1], times=times, round=1, last=last)
            assert fabric
        return self

    def join(self, made: Made, on: str, toward: str) -> Maker:
        actions = self.sew(made.unit, on, toward, made.name)
        return self.step("join", *actions, supplies=(Supply(source=made.key, count=1),), places=(on,))

    def join_strip(self, width: float, fabric: str, on: str) -> Maker:
        assert self.unit is not None
        strip = cloth(edge_length(self.unit, edge(self.unit, on), finished=False), inches(width), fabric, "strip")
        actions = self.sew(strip, on, f"toward {fabric}", f"{fabric} strip")
        piece = Piece(shape="strip", width=None, height=inches(width), fabric=fabric)
        return self.step("join", *actions, supplies=(Supply(source=piece, count=1),), places=(on,))

    def halve(self) -> Maker:
        assert self.unit is not None
        start, end = line(self.unit, "diagonal")
        parts = tuple(reversed(cut(self.unit, start, (end - start).unit())))
        assert alike(parts[0], parts[1]) is not None
        action = Subcut(before=self.unit, lines=((start, end),), parts=parts, kept=parts[:1], distance=None)
        self.unit = parts[0]
        self.copies *= 2
        return self.step("cut", action, places=("diagonal",))

    def slice(self, distance: float, names: tuple[str, str]) -> Maker:
        """Cut that far from the left edge into two named parts."""
        assert self.unit is not None
        start, end = line(cloth(inches(distance), edge_length(self.unit, 1, finished=False), "x"), "diagonal")
        start, end = type(start)(end.x, end.y), type(start)(end.x, start.y)
        parts = cut(self.unit, end, (end - start).unit())
        action = Subcut(
            before=self.unit, lines=((start, end),), parts=parts, kept=parts, distance=inches(distance), names=names
        )
        self.kinds = tuple(zip(names, parts, strict=True))
        return self.step("cut", action, places=("left",))

    def segments_of(self, width: float) -> Maker:
        assert self.unit is not None
        size = inches(width)
        start = line(self.unit, "diagonal")[0]
        bottom = line(self.unit, "rising-diagonal")[0]
        foot = type(start)(size, bottom.y)
        part, rest = cut(self.unit, foot, (start - bottom).unit())
        action = Subcut(
            before=self.unit,
            lines=((foot, type(start)(size, start.y)),),
            parts=(part, rest),
            kept=(part,),
            distance=size,
        )
        self.unit = part
        self.segment, self.segments = size, (SETTINGS.usable / size).floor()
        return self.step("subcut", action)

    def trim(self, width: float, height: float, *, on_seam: bool = True) -> Maker:
        assert self.unit is not None
        alignments = (SeamOnDiagonal(rising=False),) if on_seam else ()
        done = trim(self.unit, inches(width), inches(height), alignments)
        action = Trim(
            before=self.unit,
            ruler=done.ruler,
            width=inches(width),
            height=inches(height),
            off=done.off,
            result=done.unit,
        )
        self.unit = done.unit
        return self.step("trim", action)

    def lay(self, *rows: tuple[Made, ...]) -> Maker:
        placed, row_units = [], []
        result: Unit | None = None
        for r, row in enumerate(rows):
            unit, cells = row[0].unit, [row[0].unit]
            for made in row[1:]:
                pressed = "left" if r % 2 else "right"
                joined = chain(unit, edge(unit, "right"), made.unit, edge(made.unit, "left"), pressed=pressed)
                unit = joined.unit
                cells.append(joined.second)
            placed.append(tuple(cells))
            if result is not None:
                joined = chain(result, edge(result, "bottom"), unit, edge(unit, "top"), pressed="right")
                row_units.append(joined.second)
                result = joined.unit
            else:
                row_units.append(unit)
                result = unit
        assert result is not None
        self.unit = result
        names = tuple(tuple(made.name for made in row) for row in rows)
        counts: dict[str, int] = {}
        for row in rows:
            for made in row:
                counts[made.key] = counts.get(made.key, 0) + 1
        keys = tuple(tuple(made.key for made in row) for row in rows)
        action = Lay(rows=tuple(placed), names=names, result=result, row_units=tuple(row_units), keys=keys)
        return self.step("lay", action, supplies=tuple(Supply(source=key, count=n) for key, n in counts.items()))

    def expect(self, *expects: Expect, notes: tuple[str, ...] = ()) -> Maker:
        self.steps[-1] = replace(self.steps[-1], expects=expects, notes=notes)
        return self

    def made(self) -> Made:
        assert self.unit is not None
        length = self.segment
        supplies = tuple(
            replace(supply, length=length)
            if isinstance(supply.source, Piece) and supply.source.width is None
            else supply
            for supply in self.supplies
        )
        return Made(
            key=self.key,
            name=self.key.split("(")[0],
            kind=self.kind,  # type: ignore[arg-type]
            arguments=self.arguments,
            file="test.piece",
            line=1,
            unit=self.unit,
            copies=self.copies,
            steps=tuple(self.steps),
            supplies=supplies,
            segments=self.segments,
            segment=self.segment,
        )

    def parts(self) -> tuple[Made, ...]:
        """One for each named part of the last cut."""
        whole = self.made()
        arguments = self.key.partition("(")[2]
        return tuple(
            replace(whole, key=f"{name}({arguments}" if arguments else name, name=name, unit=unit, whole=self.key)
            for name, unit in self.kinds
        )


def size(width: float, height: float, *, within: float | None = None) -> Expect:
    values = inches(width), inches(height)
    return Expect(measure="size", values=values, within=None if within is None else inches(within))


def build(made: tuple[Made, ...], *demands: tuple[str, int], fabrics: tuple[Fabric, ...] = (DUSK, GLOW)) -> Build:
    asked = tuple(Demand(key=key, count=count) for key, count in demands)
    return Build(settings=SETTINGS, fabrics=fabrics, made=made, demands=asked)


def lantern(ground: str = "dusk", frame: str = "glow") -> tuple[Made, ...]:
    """A framed square cut corner to corner, each half joined to half a plain square, and trimmed."""
    both = (("ground", ground), ("frame", frame))
    framed = Maker(f"framed({ground}, {frame})", arguments=both).start("square", 5.5, 5.5, ground)
    framed.border(2.25, frame, "left", "right").border(2.25, frame, "top", "bottom").expect(size(9, 9))
    one = framed.made()
    half = Maker(f"half-framed({ground}, {frame})", arguments=both).take(one).halve().made()
    plain = Maker(f"half-plain({frame})", arguments=(("plain", frame),)).start("square", 9, 9, frame).halve().made()
    block = Maker(f"lantern({ground}, {frame})", kind="block", arguments=both).take(half)
    block.join(plain, "long-edge", "toward half-plain").expect(size(8.625, 8.625, within=0.0625)).trim(8, 8)
    return one, half, plain, block.made()


def nine_patch(light: str = "glow", dark: str = "dusk") -> tuple[Made, ...]:
    """A nine patch from strip sets."""

    def band(outer: str, inner: str) -> Made:
        maker = Maker(f"band({outer}, {inner})", arguments=(("outer", outer), ("inner", inner)))
        maker.start("strip", 7.5, 2.5, outer).join_strip(2.5, inner, "bottom").join_strip(2.5, outer, "bottom")
        return maker.segments_of(2.5).made()

    one, other = band(dark, light), band(light, dark)
    block = Maker(f"nine-patch({light}, {dark})", kind="block", arguments=(("light", light), ("dark", dark)))
    return one, other, block.lay((one, other, one)).made()


def cabin() -> tuple[Made, ...]:
    """A log cabin of three rounds."""
    maker = Maker("cabin(glow, dusk)", kind="block").start("square", 2, 2, "glow")
    maker.repeat(3, (1, "dusk", ("top", "right")), (1.5, "glow", ("bottom", "left")))
    return (maker.made(),)


def crossed() -> tuple[Made, ...]:
    """A square cut into two unlike parts, one of which is used."""
    narrow, wide = (
        Maker("slashed(dusk)", arguments=(("ground", "dusk"),))
        .start("square", 9, 9, "dusk")
        .slice(3, ("narrow", "wide"))
        .parts()
    )
    block = Maker("crossed(dusk)", kind="block").take(narrow).border(1, "glow", "right")
    return narrow, wide, block.made()


def turned_unit(unit: Unit, direction: object) -> Unit:
    return rotated(unit, direction)  # type: ignore[arg-type]
