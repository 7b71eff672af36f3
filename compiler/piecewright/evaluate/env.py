"""Where a line is evaluated: which names it sees, and the work that lies on the table."""

from __future__ import annotations

from typing import TYPE_CHECKING

from piecewright.diagnostics.model import Label
from piecewright.diagnostics.nearest import nearest
from piecewright.evaluate.bind import PieceNode
from piecewright.evaluate.definition import Definition, ValueNode, value_node
from piecewright.evaluate.library import index
from piecewright.evaluate.other_names import listed, meant
from piecewright.evaluate.pieces import of_name, recipe
from piecewright.evaluate.recipes import Recipe
from piecewright.evaluate.report import Problem, Silent
from piecewright.evaluate.scope import Margin, Part, Scope
from piecewright.evaluate.values import UNKNOWN, Broken, Place, Quantity, Unknown, arithmetic, kind_of, names_in
from piecewright.exact import Exact
from piecewright.kernel.build import Fabric
from piecewright.source import Span
from piecewright.syntax.ast import Item, Name, Phrase
from piecewright.verbs.table import NOUNS
from piecewright.verbs.words import PLACES
from piecewright.verbs.work import Brought, Work

if TYPE_CHECKING:
    from piecewright.evaluate.session import Session

DRAWN = Exact(10)  # how long, in inches, strips are drawn of which no segment is known

Value = Quantity | Fabric | Place | Recipe | Unknown


class Env:
    """`locals` are parameters and `is` names; `spans` where each was named, `given` where a parameter was handed
    over. `lost` says that the work is no longer known, so that lines are only looked through. `drawn` is how long,
    in inches, strips are drawn."""

    __slots__ = ("definition", "drawn", "given", "locals", "lost", "scope", "session", "spans", "work")

    def __init__(self, session: Session, scope: Scope, definition: Definition | None = None) -> None:
        self.session = session
        self.scope = scope
        self.definition = definition
        self.locals: dict[str, Value | Broken] = {}
        self.spans: dict[str, Span] = {}
        self.given: dict[str, Span] = {}
        self.work: Work | None = None
        self.lost = False
        self.drawn = min(DRAWN, session.settings.usable)

    def value(self, name: Name, wanted: str = "") -> Value:
        """What a name stands for. Raises `Problem` for an unknown one, `Silent` for a broken one."""
        word = name.text
        here = self.locals.get(word)
        if here is not None:
            if isinstance(here, Broken):
                raise Silent
            return here
        entry = self.scope.find(word, name.span)
        if isinstance(entry, Fabric):
            return entry
        if isinstance(entry, Margin):
            return self.session.margin(entry)
        if isinstance(entry, Definition | Part):
            return of_name(name, self)
        if word in PLACES:
            return Place(word)
        raise self.unknown(name, wanted)

    def unknown(self, name: Name, wanted: str = "") -> Problem:
        """The problem of a name nobody knows; `wanted` is what it should be. Raises `Silent` where it may
        stand on a line that could not be read."""
        word = name.text
        if self.scope.may_hide(word) or (self.definition is not None and word in self.definition.hidden):
            raise Silent
        names = [*self.locals, *self.scope.known()]
        if wanted in ("", "unit or piece"):
            names += NOUNS
        entries: tuple[str, ...] = ()
        if wanted in ("", "unit", "unit or piece"):
            found, entries = meant(word, (*names, *index())) or (None, ())
        else:
            found = nearest(word, names)
        hint = f"did you mean `{found}`?" if found else None
        if entries:
            slip = "" if found == word else f"did you mean `{found}`? "
            hint = f"{slip}{'The' if slip else 'the'} library calls it {listed(entries)}"
        others: tuple[Label, ...] = ()
        if found in self.spans:
            others = (Label(span=self.spans[found], text=f"`{found}` is named here"),)
        what = f"there is no {wanted} `{word}`" if wanted else f"nothing is named `{word}`"
        return Problem("E202", what, name.span, hint, *others)

    def of(self, node: ValueNode) -> Value:
        """The value of what stands behind `is` or is handed over."""
        if isinstance(node, PieceNode):
            return recipe(node, self)
        if isinstance(node, Name):
            if node.text in ("seam", "width", "height"):
                return arithmetic(node, self)
            return self.value(node)
        return arithmetic(node, self)

    def argument(self, phrase: Phrase) -> Value:
        return self.of(value_node(phrase))

    def brought(self, value: Value, span: Span, otherwise: str, *, endless: bool = False) -> Brought | Unknown:
        """A value as a piece brought to the table; `endless`: it may be a strip set. Raises `Problem` with the message
        `otherwise`."""
        if isinstance(value, Unknown):
            return UNKNOWN
        if not isinstance(value, Recipe):
            raise Problem("E204", otherwise, span)
        return value.brought(self.session, span, endless=endless)

    def fabric(self, node: Item) -> str | Unknown:
        """The name of a fabric."""
        if not isinstance(node, Name):
            raise Problem("E204", f"`{node.span.text}` is not a fabric", node.span)
        value = self.value(node, "fabric")
        if isinstance(value, Unknown):
            return UNKNOWN
        if not isinstance(value, Fabric):
            raise Problem(
                "E204",
                f"`{node.text}` is {kind_of(value)}, and a fabric is wanted here",
                node.span,
                None,
                *self.cause(node),
            )
        return value.name

    def cause(self, name: Name) -> tuple[Label, ...]:
        """Where a name got its value."""
        if name.text in self.given:
            return (Label(span=self.given[name.text], text=f"`{name.text}` is handed over here"),)
        if name.text in self.spans:
            return (Label(span=self.spans[name.text], text=f"`{name.text}` is named here"),)
        return ()

    def handed(self, node: Item) -> tuple[Label, ...]:
        """Where the names in some arithmetic got their values."""
        return tuple(label for name in dict.fromkeys(n.text for n in names_in(node)) for label in self._label(name))

    def _label(self, name: str) -> tuple[Label, ...]:
        span = self.given.get(name) or self.spans.get(name)
        if span is None:
            return ()
        return (Label(span=span, text=f"`{name}` is {'handed over' if name in self.given else 'named'} here"),)
