"""One evaluation: the files, the fabrics, and every definition made once for each way it is called."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from piecewright.diagnostics.model import Diagnostic
from piecewright.evaluate import kinds
from piecewright.evaluate.bind import Match
from piecewright.evaluate.circles import refuse_circles
from piecewright.evaluate.definition import Definition, Parameter
from piecewright.evaluate.drafts import Draft, supplies_of
from piecewright.evaluate.env import Env, Value
from piecewright.evaluate.library import library_file
from piecewright.evaluate.mirror import mirrored_made
from piecewright.evaluate.prints import PrintWords, print_of
from piecewright.evaluate.products import Product
from piecewright.evaluate.received import received, received_text
from piecewright.evaluate.recipes import Recipe
from piecewright.evaluate.remarks import remark_above
from piecewright.evaluate.report import Problem, Report, Silent
from piecewright.evaluate.scope import Entry, Margin, Scope
from piecewright.evaluate.settings import NAMES as SETTINGS
from piecewright.evaluate.settings import settings_of
from piecewright.evaluate.shown import plain, shown
from piecewright.evaluate.standing import stand_in
from piecewright.evaluate.steps import Table, run_verb
from piecewright.evaluate.values import BROKEN, Broken, Quantity
from piecewright.exact import INCH_PER, BadSize, Exact, Vector, parse_size
from piecewright.kernel.build import Fabric, Handed, Made, Piece
from piecewright.kernel.moves import turned
from piecewright.kernel.unit import Unit, turned_from
from piecewright.source import Span
from piecewright.syntax.ast import File, Number
from piecewright.verbs.registry import Said
from piecewright.verbs.work import Brought, Redraw, Work

METRIC_INCH = INCH_PER["cm"] * Exact(5, 2)
"""What a metric pattern takes for an inch of a round size, in inches: common practice, no source."""
MOST_CALLS = 50  # also across files, so that a pattern cannot exhaust the evaluator

Origin = tuple[Definition, tuple[tuple[Span, str], ...]]
"""A definition, and the calls that led there."""

Load = Callable[[str, Span], File | tuple[Diagnostic, ...]]


class Session:
    """One evaluation: the files, the fabrics, and everything made so far."""

    def __init__(
        self, file: File, load: Load, overrides: Mapping[str, str], cutter: File | None = None
    ) -> None:
        self.report = Report()
        self.settings = settings_of(file, overrides, self.report, cutter)
        self.fabrics: dict[str, Fabric] = {}
        self.products: dict[str, Product] = {}
        self.main = Scope(file, self)
        self._load = load
        self._scopes: dict[int, Scope] = {id(file): self.main}
        self._library: dict[str, Scope | None] = {}
        self._made: dict[tuple[object, ...], Product | None] = {}
        self._margins: dict[int, Value | Broken] = {}
        self._turned: dict[tuple[int, int], tuple[Unit, Unit]] = {}
        self._origins: dict[str, Origin] = {}
        self.overrides = overrides
        self.cutter = cutter

    # ── files and names ─────────────────────────────────────────────────────────────────────────

    def load(self, text: str, span: Span) -> Scope | None:
        """A used file; None where it cannot be read, which is reported."""
        loaded = self._load(text, span)
        if not isinstance(loaded, File):
            self.report.take(loaded)
            self.report.failed = True
            return None
        return self._scope(loaded)

    def _scope(self, file: File, *, library: bool = False) -> Scope:
        scope = self._scopes.get(id(file))
        if scope is None:
            scope = self._scopes[id(file)] = Scope(file, self, library=library)
            if library:
                self.report.library.add(id(file.source))
            scope.read()
            refuse_circles(scope)
        return scope

    def library_entry(self, name: str) -> Entry | None:
        """What the library has under a name."""
        if name not in self._library:
            file = library_file(name)
            self._library[name] = self._scope(file, library=True) if file is not None else None
        scope = self._library[name]
        return scope.names.get(name) if scope is not None else None

    def margin(self, margin: Margin) -> Value:
        """The value of a name at the left margin. Raises `Silent` where it is broken."""
        if id(margin) not in self._margins:
            if margin.running:
                raise Problem("E209", f"`{margin.name}` leads back to itself", margin.span)
            margin.running = True
            try:
                value: Value | Broken = self._overridden(margin) or Env(self, margin.scope).of(margin.node)
                self._margins[id(margin)] = value.called(margin.name) if isinstance(value, Recipe) else value
            except Problem as problem:
                self.report.problem(problem)
                self._margins[id(margin)] = BROKEN
            except Silent:
                self._margins[id(margin)] = BROKEN
            margin.running = False
        found = self._margins[id(margin)]
        if isinstance(found, Broken):
            raise Silent
        return found

    def _overridden(self, margin: Margin) -> Value | None:
        text = self.overrides.get(margin.name) if margin.scope is self.main else None
        if text is None:
            return None
        try:
            value, unit = parse_size(text)
        except BadSize:
            entry = self.main.peek(text.strip().lower())
            if isinstance(entry, Fabric):
                return entry
            raise Problem("E214", f"“{text}” is neither a size nor a fabric of this pattern", margin.span) from None
        return Quantity(value, self.settings.units) if unit is None else Quantity(value * INCH_PER[unit], None)

    def check_overrides(self) -> None:
        for name in self.overrides:
            if name not in SETTINGS and not isinstance(self.main.names.get(name), Margin):
                start = Span(self.main.file.source, 0, 0)
                hint = f"write `{name} is …` at the left margin, and it can be set"
                self.report.problem(Problem("E214", f"this pattern has no `{name}` to set", start, hint))

    # ── definitions ─────────────────────────────────────────────────────────────────────────────

    def parameter_kinds(self, definition: Definition) -> None:
        """Sees to it that each parameter's kind is known."""
        if not definition.settled:
            definition.settled = True
            kinds.settle(definition, self)

    def default(self, definition: Definition, parameter: Parameter, before: Mapping[str, Value]) -> Value:
        """The default of a parameter, which may use those before it. Raises `Silent` where it is wrong.

        In a pattern that is not in inches it is the second one where two are written, and the library's round inches
        become round centimetres, 2 1/2 for each.
        """
        node = parameter.default
        assert node is not None
        metric = self.settings.units != "inch"
        if metric and parameter.metric is not None:
            node = parameter.metric
        if definition.broken:  # it may be broken by leading back to itself from here
            raise Silent
        env = Env(self, definition.scope, definition)
        env.locals.update(before)
        try:
            value = env.of(node)
        except Problem as problem:
            self.report.problem(problem)
            raise Silent from None
        if metric and node is parameter.default and definition.scope.library and isinstance(node, Number):
            self.parameter_kinds(definition)
            if node.unit is None and parameter.kind == "size":
                return Quantity(node.value * METRIC_INCH, None)
        return value

    def stand_in(self, definition: Definition, parameter: Parameter) -> Fabric:
        """The fabric shown for a fabric parameter that nobody gave one."""
        entry = definition.scope.peek(parameter.name)
        if isinstance(entry, Fabric):
            return entry
        found = self.fabrics.get(parameter.name)
        if found is None:
            found = self.fabrics[parameter.name] = stand_in(definition, parameter, self.settings)
        return found

    def chosen(self, word: str, fabric: str, values: Iterable[Value | Broken]) -> Fabric:
        """The print that a definition chooses from an assorted fabric and calls by a word; `values` are those it
        has, which may hold a print of the same name that another definition chose."""
        assorted = self.fabrics[fabric]
        if assorted.stand_in:
            self.fabrics[fabric] = replace(assorted, assorted=True)
        one = print_of(assorted, word, values)
        return self.fabrics.setdefault(one.name, one)

    def print_words(self) -> PrintWords:
        """How the prints chosen so far are called."""
        return PrintWords(self.fabrics, self.products, self.settings.units)

    def made(
        self,
        definition: Definition,
        values: Mapping[str, Value],
        given: Mapping[str, Span],
        span: Span | None,
        part: str | None = None,
    ) -> Product:
        """The product of a definition with its arguments, or the part of it with a name. `span` is the call,
        None where the pattern has none.

        Raises `Silent` where it cannot be made, which is reported the first time, and `Problem` for a circle.
        """
        definition.statements(self.report)
        if definition.broken:
            raise Silent
        key = (id(definition), *(self._canonical(value) for value in values.values()))
        if key not in self._made:
            if len(self.report.calls) > MOST_CALLS:
                raise Problem("E118", f"units are nested more than {MOST_CALLS} deep here", span or definition.span)
            if definition.running:
                raise Problem("E209", f"`{definition.name}` leads back to itself", span or definition.span)
            definition.running = True
            if span is not None:
                self.report.calls.append((span, f"`{definition.name}` is made here"))
            self._made[key] = self._make(definition, values, given)
            if span is not None:
                self.report.calls.pop()
            definition.running = False
        product = self._made[key]
        if product is None:
            raise Silent
        if part is None:
            return product
        if part not in product.parts:
            raise Silent
        return product.parts[part]

    def _canonical(self, value: Value) -> tuple[object, ...]:
        if isinstance(value, Quantity):
            return ("size", value.inches, value.units is None)
        if isinstance(value, Fabric):
            return ("fabric", value.name)
        if isinstance(value, Recipe):
            return ("piece", value.text(self), value.words)
        return ("place", getattr(value, "word", ""))

    def _make(self, definition: Definition, values: Mapping[str, Value], given: Mapping[str, Span]) -> Product | None:
        definition.used = True
        arguments = tuple((p.name, received_text(p, values[p.name], self)) for p in definition.parameters)
        handed = tuple(filter(None, (received(p, values[p.name], self) for p in definition.parameters)))
        product = self._product(self.run(definition, values, given), arguments, handed)
        if product is not None:
            product.handed = (values, given)
        return product

    def cut_to(self, product: Product, length: Exact) -> Product:
        """Lengths cut from a strip set that was made without ends: the same unit with a last step that cuts them.
        Raises `Silent` where they cannot be made."""
        key = ("lengths", product.key, length)
        if key not in self._made:
            whole = self.mirror(product, True) if product.made.reversed else product
            definition, calls = self.origin(whole.key)
            assert whole.usable is not None
            table = self.run(definition, *whole.handed, drawn=length * max(1, min((whole.usable / length).floor(), 3)))
            table.cut_lengths(length)
            before = list(self.report.calls)
            self.report.calls = list(calls)
            cut = self._product(
                table,
                (*whole.made.arguments, ("long", plain(length, self.settings.units))),
                (*whole.made.handed, Handed(parameter="long", value=length)),
            )
            self.report.calls = before
            self._made[key] = cut and self.mirror(cut, product.made.reversed)
        found = self._made[key]
        if found is None:
            raise Silent
        return found

    def _product(
        self, table: Table, arguments: tuple[tuple[str, str], ...], handed: tuple[Handed, ...]
    ) -> Product | None:
        definition, work = table.definition, table.env.work
        if table.env.lost or work is None:
            return None
        text = self._unique(self._key(definition.name, arguments), definition)
        file = definition.scope.file.source.name
        made = Made(
            key=text,
            name=definition.name,
            kind=definition.kind,
            arguments=arguments,
            file=file,
            line=definition.line.span.line,
            unit=work.unit,
            copies=work.copies,
            steps=tuple(draft.step(file) for draft in self._measured(table, work)),
            supplies=tuple(supplies_of(table.drafts, work)),
            description=remark_above(definition.scope.file.source, definition.line.span.line),
            segments=work.segments,
            segment=work.segment,
            slant=work.slant,
            chosen=tuple(table.chosen),
            handed=handed,
        )
        product = Product(made, work.usable)
        for name, unit, copies in work.parts:
            part_key = self._unique(self._key(name, arguments), definition)
            part = replace(made, key=part_key, name=name, unit=unit, copies=copies, whole=text)
            product.parts[name] = self.products[part_key] = Product(part, None, product)
        self.products[text] = product
        self._origins[text] = (definition, tuple(self.report.calls))
        return product

    def origin(self, key: str) -> Origin:
        """The definition that a product was made by."""
        return self._origins[self.products[key].origin.key]

    def _measured(self, table: Table, work: Work) -> list[Draft]:
        """The steps, with how much of each strip a segment takes."""
        if work.segment is not None:
            for draft in table.drafts:
                draft.supplies = [
                    replace(s, length=work.segment) if isinstance(s.source, Piece) and s.source.width is None else s
                    for s in draft.supplies
                ]
        return table.drafts

    def run(
        self,
        definition: Definition,
        values: Mapping[str, Value],
        given: Mapping[str, Span],
        *,
        drawn: Exact | None = None,
    ) -> Table:
        """The steps done on an empty table; done again where the strips have to be drawn another length."""
        while True:
            env = Env(self, definition.scope, definition)
            env.locals.update(values)
            env.spans.update((p.name, p.span) for p in definition.parameters)
            env.given.update(given)
            env.lost = definition.broken
            if drawn is not None:
                env.drawn = drawn
            table = Table(definition, env, self)
            try:
                table.do()
            except Redraw as redraw:
                drawn = redraw.length
                continue
            return table

    def _key(self, name: str, arguments: tuple[tuple[str, str], ...]) -> str:
        return f"{name}({', '.join(text for _, text in arguments)})" if arguments else name

    def _unique(self, key: str, definition: Definition) -> str:
        """The key, told apart from that of another file's definition of the same name."""
        if key not in self.products:
            return key
        number = 2
        while f"{key} ({number})" in self.products:
            number += 1
        return f"{key} ({number})"

    def mirror(self, product: Product, reversed: bool) -> Product:
        """The product, or its mirror twin."""
        if not reversed:
            return product
        if product.twin is None:
            whole = self.mirror(product.whole, True) if product.whole is not None else None
            made = mirrored_made(product.made, lambda key: self.mirror(self.products[key], True).key)
            twin = product.twin = Product(made, product.usable, whole)
            twin.twin = product
            self.products[made.key] = twin
            for name, part in product.parts.items():
                twin.parts[name] = self.mirror(part, True)
        return product.twin

    def turned(self, brought: Brought, degrees: int) -> Unit:
        """A piece turned, each only once."""
        key = (id(brought.unit), degrees)
        found = self._turned.get(key)
        if found is None:
            unit = turned_from(turned(brought.unit, degrees), brought.unit, Vector.at(degrees))
            found = self._turned[key] = (brought.unit, unit)
        return found[1]

    def cut_piece(self, match: Match, said: Said, env: Env) -> Brought:
        """What a cutting noun's sentence cuts."""
        brought = run_verb(match.verb, match, said, env, self)
        assert isinstance(brought, Brought)
        return brought

    def shown(self, length: Exact) -> str:
        """A length for people."""
        return shown(length, self.settings.units)

    def shown_number(self, number: Exact) -> str:
        """A bare number for people."""
        return shown(number, "inch")
