"""A plain way to cut, and how many ways of cutting a plan has, both without the planner's code.

Plain: each size of piece in strips of its own, the tallest first, piece after piece into the first strip that has room
for it, else into a new strip. What lies in strips of another height is trimmed.

Ways are counted by writing down every cut as a sentence that says what is cut, what it is cut into, and at which
setting of the ruler; like sentences are one way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from piecewright.plan.cloth.model import CuttingPlan, Need, Part, Stock

Size = tuple[int, int]


class Strip:
    def __init__(self, width: int, height: int) -> None:
        self.width, self.height, self.free = width, height, width
        self.pieces: list[Size] = []

    def told(self) -> str:
        return f"strip {self.width}x{self.height} of {sorted(set(self.pieces))}"


def plain(needs: Sequence[Need], stock: Stock, lies: Callable[[Need], Size]) -> tuple[int, int] | None:
    """What a plain plan buys, of a length or of sheets of the first size, and its ways; None where a piece does not
    fit. `lies`: width and height of a piece as it is laid."""
    width, height = stock.width, None
    if not width:
        width, height = stock.sheets[0].width, stock.sheets[0].height
    counts: dict[Size, int] = {}
    for need in needs:
        if need.count:
            counts[lies(need)] = counts.get(lies(need), 0) + need.count
    strips: list[Strip] = []
    for (wide, high), count in sorted(counts.items(), key=lambda item: (-item[0][1], -item[0][0])):
        if wide > width or (height is not None and high > height):
            return None
        for _ in range(count):
            for strip in strips:
                if strip.height >= high and strip.free >= wide:
                    break
            else:
                strip = Strip(width, high)
                strips.append(strip)
            strip.free -= wide
            strip.pieces.append((wide, high))
    cuts = {cut for strip in strips for cut in _cuts_of(strip)}
    if height is None:
        cuts |= {f"the cloth: {strip.height}" for strip in strips}
        length = sum(strip.height for strip in strips)
        steps = 0
        while length and (steps * stock.step - stock.margin) // stock.per < length:
            steps += 1
        return steps * stock.step, len(cuts)
    sheets: list[list[Strip]] = []
    for strip in strips:
        for sheet in sheets:
            if sum(one.height for one in sheet) + strip.height <= height:
                sheet.append(strip)
                break
        else:
            sheets.append([strip])
    for sheet in sheets:
        told = sorted({strip.told() for strip in sheet})
        cuts |= {f"sheet of {told}: {strip.height}" for strip in sheet if strip.height < height}
    count = stock.sheets[0].count
    return (len(sheets) * width * height, len(cuts)) if count is None or len(sheets) <= count else None


def _cuts_of(strip: Strip) -> Iterator[str]:
    for wide, high in strip.pieces:
        if wide < strip.width:
            yield f"{strip.told()}: {wide}"
        if high < strip.height:
            yield f"{wide}x{strip.height} trimmed: {high}"


def lying(need: Need) -> Size:
    """A piece with its long side along the strip, where it may turn."""
    sides = need.width, need.height
    return (max(sides), min(sides)) if need.turns else sides


def upright(need: Need, most: int) -> Size:
    """A piece with its short side along the strip, where it may turn and the strip is not taller than so much."""
    wide, high = lying(need)
    return (high, wide) if need.turns and wide <= most else (wide, high)


def fewest_plain(needs: Sequence[Need], stock: Stock, bought: int) -> int | None:
    """The fewest ways of a plain plan that buys no more than so much, None where there is none."""
    most = (stock.width or stock.sheets[0].width) * 3 // 5  # what can well be ruled
    made = [plain(needs, stock, lies) for lies in (lying, lambda need: upright(need, most))]
    return min((ways for plan in made if plan is not None for cost, ways in [plan] if cost <= bought), default=None)


def counted(plan: CuttingPlan) -> int:
    """How many ways of cutting a plan has."""
    cuts: set[str] = set()
    if plan.roll is not None:
        cuts |= {f"the cloth: {strip.height}" for strip in plan.roll.parts}
        for strip in plan.roll.parts:
            cuts |= _cuts(strip)
    for used in plan.used:
        cuts |= _cuts(used.part)
    return len(cuts)


def _cuts(part: Part) -> set[str]:
    found: set[str] = set()
    for one in part.parts:
        found |= _cuts(one)
        whole, cut = (part.height, one.height) if part.split == "rows" else (part.width, one.width)
        if cut < whole:
            found.add(f"{_told(part)}: {cut}")
    return found


def _told(part: Part) -> str:
    if part.split is None:
        return f"{part.width}x{part.height}"
    return f"{part.width}x{part.height} in {part.split} of {sorted({_told(one) for one in part.parts})}"
