"""The steps of one definition, done one after the other on the table."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from piecewright.evaluate.bind import Match
from piecewright.evaluate.definition import Definition, Statement, may_be_name
from piecewright.evaluate.drafts import Draft, also
from piecewright.evaluate.env import Env
from piecewright.evaluate.laid import faced, layers_refused, still_layered, unfilled
from piecewright.evaluate.on_paper import off_paper, papered
from piecewright.evaluate.recipes import Recipe
from piecewright.evaluate.refusals import saying
from piecewright.evaluate.report import Problem, Silent
from piecewright.evaluate.slots import bound
from piecewright.evaluate.used import used
from piecewright.evaluate.values import BROKEN, Broken, Unknown
from piecewright.exact import Exact, OutsideNumbers
from piecewright.kernel.action import Stitch
from piecewright.kernel.build import Piece, Supply
from piecewright.kernel.errors import SewingError
from piecewright.kernel.partial import slits
from piecewright.syntax.ast import Name
from piecewright.verbs.cloth import laid
from piecewright.verbs.registry import Said, Verb
from piecewright.verbs.table import VERBS
from piecewright.verbs.work import Bench, Brought, Done, Refused

if TYPE_CHECKING:
    from piecewright.evaluate.session import Session

MOST_ROUNDS = 1000


class Table:
    """One definition at work: what lies on the table is in `env.work`.

    After a mistake the work is lost; the lines that follow are still looked through for mistakes of their own.
    """

    def __init__(self, definition: Definition, env: Env, session: Session) -> None:
        self.definition = definition
        self.env = env
        self.session = session
        self.drafts: list[Draft] = []
        self.chosen: list[str] = []  # the names of the prints
        self._taken: dict[Piece | str, int] = {}  # by every step in every round
        self.started = False
        self._last: Draft | None = None
        self._notes: list[str] = []
        self._rounds = 0
        self._depth = 0
        self._sashed = False  # the next step is a sash
        self._floats = False  # a step after this one sets the edge of a table on point outside its points
        self._end = definition.span  # the last step

    def do(self) -> None:
        """All steps of the definition. What is wrong is reported and loses the work."""
        statements = self.definition.statements(self.session.report)
        for number, statement in enumerate(statements, 1):
            self._sashed = _next_step(statements[number:]) == "sash"
            self._floats = any(_floats(one) for one in statements[number:])
            self._statement(statement)
        if not self.started and not self.env.lost:
            self._problem(Problem("E309", f"`{self.definition.name}` puts nothing on the table", self.definition.span))
        work = self.env.work
        if self.definition.kind != "unit" and not self.env.lost and work is not None and slits(work.unit):
            what = f"a seam is still open when `{self.definition.name}` is done"
            self._problem(Problem("E319", what, self.definition.span, "sew the rest of it: `finish seam`"))
        if work is not None and work.pointed is not None and not self.env.lost:
            self._problem(unfilled(work.pointed.lacking, "", self._end))
        if work is not None and work.layers is not None and not self.env.lost:
            self._problem(still_layered(work, self._end))
        papered(self.drafts)

    def cut_lengths(self, length: Exact) -> None:
        """A last step that no line says: lengths are cut of strips that have no ends."""
        env, last = self.env, self._last
        if env.lost or last is None:
            return
        verb = VERBS["subcut"]
        bench = Bench(
            work=env.work,
            settings=self.session.settings,
            fabrics=self.session.fabrics,
            drawn=env.drawn,
            line=last.line,
        )
        try:
            done = verb.run(bench, Said(verb.sentences[0], {"WIDTH": length}))
        except (Refused, SewingError):
            env.lost = True
            return
        assert isinstance(done, Done)
        env.work = done.work
        self.drafts.append(Draft(verb.name, last.line, done, (), 1))

    def _problem(self, problem: Problem) -> None:
        self.session.report.problem(problem)
        self.env.lost = True

    def _statement(self, statement: Statement) -> None:
        try:
            if statement.verb is None:
                self._name(statement)
            else:
                self._step(statement, statement.verb)
        except Problem as problem:
            self._problem(problem)
        except Silent:
            self.env.lost = True

    def _name(self, statement: Statement) -> None:
        name, node = statement.name, statement.value
        assert name is not None and node is not None
        env = self.env
        self._new(name)
        value = env.of(node)
        assert not isinstance(value, Broken)
        env.locals[name.text] = value.called(name.text) if isinstance(value, Recipe) else value

    def _new(self, name: Name) -> None:
        """A name that the definition gives to something. Raises `Problem` where it has the name already."""
        env = self.env
        before = env.spans.get(name.text)
        if before is not None and before != name.span:
            raise Problem(
                "E207",
                f"`{name.text}` is named twice",
                name.span,
                "choose another name",
                *env.cause(name),
            )
        env.spans[name.text] = name.span
        env.locals[name.text] = BROKEN

    def _choose(self, statement: Statement, verb: Verb, match: Match) -> None:
        """One print for all that one run of the steps makes."""
        env, name = self.env, match.nodes["NAME"]
        if not isinstance(name, Name):
            raise Problem("E212", f"`{match.place('NAME').text}` is no name", match.place("NAME"), verb.sentences[0])
        may_be_name(name)
        self._new(name)
        if self._depth:
            raise Problem(
                "E223",
                "a print is chosen once for the whole copy, so it is not chosen in a `repeat`",
                statement.span,
                "choose it before the `repeat`",
            )
        said, known, _ = bound(match, env)
        if not known:
            return
        chosen = self._run(verb, match, said).chosen
        assert chosen is not None
        print_ = env.locals[chosen[0]] = self.session.chosen(*chosen, env.locals.values())
        self.chosen.append(print_.name)

    def _step(self, statement: Statement, verb: Verb) -> None:
        env = self.env
        match = statement.match
        assert match is not None
        if "NAME" in match.nodes:
            self._choose(statement, verb, match)
            return
        self._fits_here(statement, verb)
        rows, sure = self._rows_of(statement)
        said, known, places = bound(match, env, rows)
        if not (known and sure):
            env.lost = True
        if env.lost:
            if statement.children:
                for child in statement.children:
                    self._statement(child)
            return
        done = self._run(verb, match, said)
        if done.rounds > MOST_ROUNDS:
            raise Problem("E215", f"more than {MOST_ROUNDS} rounds are not worked out", match.place("COUNT"))
        if verb.under == "lines":
            self._repeat(statement, done.rounds)
        elif verb.role == "remark":
            self._remark(done)
        else:
            self._record(statement, verb, done, places)

    def _rows_of(self, statement: Statement) -> tuple[tuple[tuple[Brought, ...], ...], bool]:
        """The cells of a table; each that is wrong is reported. False where one is not known."""
        env = self.env
        rows: list[tuple[Brought, ...]] = []
        sure = True
        silent = False
        for row in statement.rows:
            cells: list[Brought] = []
            for node in row:
                try:
                    cell = env.brought(env.of(node), node.span, "a piece is wanted here")
                    if isinstance(cell, Unknown):
                        sure = False
                    else:
                        cells.append(cell)
                except Problem as problem:
                    self._problem(problem)
                    silent = True
                except Silent:
                    silent = True
            rows.append(tuple(cells))
        if silent:
            env.lost = True
        return tuple(rows), sure and not silent

    def _fits_here(self, statement: Statement, verb: Verb) -> None:
        """Whether the verb may stand here: after a start, before the end, on this kind of work."""
        work = self.env.work
        starts = verb.role in ("noun", "start")
        if verb.quilt_only and self.definition.kind != "quilt":
            raise Problem(
                "E340",
                f"`{verb.name}` is a step of a quilt, and `{self.definition.name}` is a {self.definition.kind}",
                statement.span,
                f"write `quilt {self.definition.name}`, or lay this {self.definition.kind} in a quilt",
            )
        if self.env.lost and not starts:
            return
        if starts and self.started:
            raise Problem(
                "E308",
                f"`{verb.name}` starts a second piece of work",
                statement.span,
                "join it to the first, or make it a unit of its own",
            )
        if starts:
            self.started = True
            return
        if not self.started and not (verb.role == "remark" and verb.name == "note") and verb.under != "lines":
            self.started = True
            raise Problem(
                "E309",
                f"there is nothing on the table for `{verb.name}`",
                statement.span,
                "begin with a piece: `square 6 1/2 of sand`, `take …` or `lay`",
            )
        if work is None:
            return
        if work.quilted and verb.role != "remark" and (verb.name != "bind" or work.quilted == "bind"):
            done = "backed" if work.quilted == "back" else "bound"
            raise Problem(
                "E341",
                f"the quilt is {done} already, so nothing more is sewn to its top",
                statement.span,
                f"write this line above `{work.quilted}`",
            )
        if work.pointed is not None and verb.name not in ("sash", "fill", "note"):
            raise unfilled(work.pointed.lacking, verb.name, statement.span)
        if work.parts and verb.role != "remark":
            raise Problem(
                "E313",
                "the cut into named parts ends this unit",
                statement.span,
                f"go on in another unit: `take {work.parts[0][0]}…`",
            )
        if work.usable is not None and not verb.on_strips:
            raise Problem(
                "E314",
                f"`{verb.name}` needs ends, and strips have none until they are subcut",
                statement.span,
                "write `subcut WIDTH` first",
            )
        if work.layers is not None and not verb.on_layers:
            raise layers_refused(work, verb.name, statement.span)

    def _run(self, verb: Verb, match: Match, said: Said) -> Done:
        sashed = self._sashed and not self._depth
        done = run_verb(verb, match, said, self.env, self.session, sashed=sashed, floats=self._floats, taken=self._used)
        return laid(done) if isinstance(done, Brought) else done

    def _used(self) -> Mapping[Piece | str, int]:
        work = self.env.work
        return used(self.session, work, self._taken, tuple(self.chosen)) if work is not None else {}

    def _record(self, statement: Statement, verb: Verb, done: Done, places: tuple[str, ...]) -> None:
        env = self.env
        pile = env.work.copies if env.work is not None else 1
        env.work = done.work or env.work
        if env.work is not None:
            env.work = off_paper(env.work, done)
        for action in done.actions:
            if isinstance(action, Stitch):
                faced(self.drafts, action)
        self._end = statement.span
        copies = env.work.copies if env.work is not None else 1
        draft = Draft(verb.name, statement.line, done, places, copies)
        draft.supplies = [
            Supply(source=s.source, count=s.count * pile, length=s.length) if pile > 1 else s for s in done.supplies
        ]
        for taken in draft.supplies:
            self._taken[taken.source] = self._taken.get(taken.source, 0) + taken.count
        draft.notes, self._notes = self._notes, []
        self.drafts.append(draft)
        self._last = draft
        if env.work is not None and env.work.parts and self._depth:
            raise Problem("E313", "a cut into named parts ends the unit, so it cannot be repeated", statement.span)

    def _remark(self, done: Done) -> None:
        if self._last is None:
            self._notes += done.notes
            return
        self._last.expects += done.expects
        self._last.notes += [note for note in done.notes if note not in self._last.notes]

    def _repeat(self, statement: Statement, times: int) -> None:
        """The steps under a `repeat`. Within another one they stand one after the other, as often as they are done."""
        outer = self.drafts
        rounds: list[list[Draft]] = []
        self._depth += 1
        for _ in range(times):
            self.drafts = []
            for child in statement.children:
                self._statement(child)
            rounds.append(self.drafts)
            if self.env.lost:
                break
        self._depth -= 1
        self.drafts = outer
        if self._depth:
            self.drafts += [draft for one in rounds for draft in one]
            return
        self._rounds += 1
        for number, draft in enumerate(rounds[0]):
            draft.times, draft.round = times, self._rounds
            for later in rounds[1:]:
                if number < len(later):  # a round that failed has fewer
                    also(draft, later[number])
        self.drafts += rounds[0]
        self._last = rounds[0][-1] if rounds[0] else self._last


def _next_step(statements: list[Statement]) -> str:
    """The verb of the next statement that changes the work; names and notes do not."""
    return next((one.verb.name for one in statements if one.verb is not None and one.verb.name != "note"), "")


def _floats(statement: Statement) -> bool:
    """Whether a statement fills a table on point whose edge lies outside its points."""
    return statement.verb is not None and statement.verb.name == "fill" and any(
        clause.form.text.startswith("float ") for clause in (statement.match.clauses if statement.match else ())
    )


def run_verb(
    verb: Verb,
    match: Match,
    said: Said,
    env: Env,
    session: Session,
    *,
    sashed: bool = False,
    floats: bool = False,
    taken: Callable[[], Mapping[Piece | str, int]] = dict,
) -> Done | Brought:
    """The verb's own function, and what it refuses as a problem with its place."""
    bench = Bench(
        work=env.work,
        settings=session.settings,
        fabrics=session.fabrics,
        drawn=env.drawn,
        line=match.span.line,
        sashed=sashed,
        floats=floats,
        used=taken,
        quilt=env.definition is not None and env.definition.kind == "quilt",
    )
    try:
        return verb.run(bench, said)
    except Refused as refused:
        kind, slot, facts = refused.kind, refused.slot, refused.facts
    except SewingError as error:
        kind, slot, facts = error.kind, "", error.facts
    except OutsideNumbers:
        kind, slot, facts = "outside-numbers", "", {}
    told = session.print_words().facts(facts)
    said_so = saying(kind, {**told, "place of": match.place}, session.settings)
    raise Problem(said_so.code, said_so.message, match.place(slot), said_so.hint)
