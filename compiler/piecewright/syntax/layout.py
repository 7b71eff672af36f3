"""Which line stands under which, read off the indentation."""

from __future__ import annotations

from piecewright.diagnostics.model import Label
from piecewright.source import Source, Span
from piecewright.syntax import slips
from piecewright.syntax.ast import Line, Row, Sentence
from piecewright.syntax.slips import Slip

_TAB = 4  # columns a tab counts for, once it has been refused, to find where its line belongs


class TextLine:
    """A line with words on it. `level` counts the lines it stands under, `under` is the nearest of them; `slip`
    says why it is refused."""

    __slots__ = ("end", "level", "node", "slip", "start", "under")

    def __init__(self, start: int, end: int, level: int, slip: Slip | None, under: TextLine | None) -> None:
        self.start = start
        self.end = end
        self.level = level
        self.slip = slip
        self.under = under
        self.node: Sentence | Row | None = None

    @property
    def left_out(self) -> bool:
        """Whether it, or a line it stands under, is refused."""
        line: TextLine | None = self
        while line is not None and line.slip is None:
            line = line.under
        return line is not None

    def check(self) -> None:
        """Refuse what stands where no row or line can stand. Raises `Slip`; the line above is read by now."""
        node = self.node
        if node is None:
            return
        if self.under is None:
            if type(node) is Row:
                raise Slip(
                    "E111",
                    "a row stands under `lay`, not at the left margin",
                    node.span,
                    hint="indent it under a line `lay`",
                )
        elif type(self.under.node) is Row:
            raise Slip(
                "E111",
                "nothing can stand under a row",
                node.span,
                Label(span=self.under.node.span, text="the row"),
                hint="begin this line where the row begins",
            )


def layout(source: Source) -> list[TextLine]:
    """The lines of a text that hold more than blanks and a remark, with their levels."""
    text = source.text
    lines: list[TextLine] = []
    depths = [0]  # the column at which the lines of each level begin
    latest: list[TextLine] = []  # the last line of each level
    offset = 0
    for content in text.split("\n"):
        begin, offset = offset, offset + len(content) + 1
        words = content.strip()
        if begin == 0 and content[:1] == "\ufeff":
            words = content[1:].strip()
        if not words or words[0] == "#":
            continue
        start = begin + content.index(words)
        end = start + len(words)
        indent = text[begin:start].lstrip("\ufeff") if begin == 0 else text[begin:start]
        slip = None
        depth = len(indent)
        if depth and indent.strip(" "):
            depth = len(indent.expandtabs(_TAB))
            slip = _odd_blank(source, start - len(indent), indent)
        if depth > depths[-1]:
            if not lines:
                slip = slip or _first_is_indented(source, begin, start)
            elif len(depths) > slips.DEEPEST:
                slip = slip or slips.too_deep(Span(source, begin, start), "indentations")
            else:
                depths.append(depth)
        elif depth < depths[-1]:
            closed = depths[-1]
            while depths[-1] > depth:
                closed = depths.pop()
            if depths[-1] < depth:
                slip = slip or _fits_nowhere(source, begin, start, depths[-1], closed)
                depths.append(closed)
        level = len(depths) - 1
        del latest[level:]
        line = TextLine(start, end, level, slip, latest[-1] if latest else None)
        latest.append(line)
        lines.append(line)
    return lines


def tree(lines: list[TextLine]) -> tuple[Line, ...]:
    """The lines at the margin with what stands under them; a refused line and all under it are left out."""
    margin: list[Line | Row] = []
    open_lines: list[tuple[Sentence | Row | None, list[Line | Row]]] = []
    incomplete: list[bool] = []

    def close(level: int) -> None:
        while len(open_lines) > level:
            node, children = open_lines.pop()
            missing = incomplete.pop()
            if node is None:
                continue
            into = open_lines[-1][1] if open_lines else margin
            if type(node) is Row:
                into.append(node)
            elif type(node) is Sentence:
                into.append(Line(sentence=node, children=tuple(children), span=node.span, incomplete=missing))

    for line in lines:
        close(line.level)
        if line.node is None:
            incomplete[:] = [True] * len(incomplete)
        open_lines.append((line.node, []))
        incomplete.append(False)
    close(0)
    return tuple([line for line in margin if type(line) is Line])


def _odd_blank(source: Source, begin: int, indent: str) -> Slip:
    """For an indentation that is not of spaces alone."""
    place = next(i for i, char in enumerate(indent) if char != " ")
    whole = Span(source, begin, begin + len(indent))
    if "\t" not in indent:
        return slips.unknown_character(source, begin + place, begin + len(indent))
    mixed = " mixed with spaces" if " " in indent else ""
    return Slip(
        "E101", f"this line is indented with a tab{mixed}", whole, hint="indent with spaces only, four to a level"
    )


def _first_is_indented(source: Source, begin: int, start: int) -> Slip:
    return Slip(
        "E110", "the first line is indented, with no line above it to belong to", Span(source, begin, start),
        hint="begin it at the left margin",
    )  # fmt: skip


def _fits_nowhere(source: Source, begin: int, start: int, outer: int, inner: int) -> Slip:
    return Slip(
        "E110",
        f"this line is indented by {start - begin}, which fits no line above it",
        Span(source, begin, start),
        hint=f"indent it by {inner} to stand beside the lines above it, or by {outer}",
    )
