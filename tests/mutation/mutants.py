"""Small wrong changes of a module, one at a time: another comparison, sign, constant, branch, end of a range; a
statement left out; nothing given back."""

import ast
import copy
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

COMPARED = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
}
COUNTED = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult, ast.Pow: ast.Mult, ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd,
}
CALLED = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor"}
FUNCTION = ast.FunctionDef | ast.AsyncFunctionDef


@dataclass(frozen=True)
class Mutant:
    """One change: where it is, the source line as it stands, what was there and what is there now.

    ``within`` is the function, by its qualified name, or ``""`` outside of any; ``lines`` are the first and last line
    of the statement; ``nth`` tells equal changes of equal lines in one function apart. ``number`` is the node's among
    all of ``text``, the module's source, and ``change`` what it turns into.
    """

    file: str
    within: str
    line: int
    lines: tuple[int, int]
    source: str
    was: str
    now: str
    text: str
    number: int
    change: ast.AST
    nth: int = 0

    @property
    def key(self) -> tuple[str, str, str, str, str, int]:
        """What it is told apart by, wherever its line moves to."""
        return self.file, self.within, self.source, self.was, self.now, self.nth

    def tree(self) -> ast.Module:
        """The whole module with the change in it."""
        whole = ast.parse(self.text)
        _become(list(ast.walk(whole))[self.number], self.change)
        return whole


def mutants_of(file: str, text: str) -> Iterator[Mutant]:
    """Every mutant of a module's source."""
    whole, lines = ast.parse(text), text.splitlines()
    places = list(ast.walk(whole))
    left_alone = set(map(id, _left_alone(whole)))
    around = dict(_around(whole))
    met: Counter[tuple[str, str, str, str, str, int]] = Counter()
    for number, node in enumerate(places):
        if id(node) in left_alone or id(node) not in around:
            continue
        within, statement = around[id(node)]
        for was, now in _changes(node):
            line = node.target.lineno if isinstance(node, ast.comprehension) else node.lineno
            source = lines[line - 1].strip()
            mutant = Mutant(
                file, within, line, _lines(statement), source, was, ast.unparse(now), text, number, now
            )
            yield replace(mutant, nth=met[mutant.key])
            met[mutant.key] += 1


def _left_alone(whole: ast.Module) -> Iterator[ast.AST]:
    """Annotations, texts and decorators: nothing runs differently by them."""
    for node in ast.walk(whole):
        for each in (getattr(node, "annotation", None), getattr(node, "returns", None)):
            if each is not None:
                yield from ast.walk(each)
        if isinstance(node, ast.JoinedStr):
            yield from (part for part in ast.walk(node) if isinstance(part, ast.Constant))
        if isinstance(node, FUNCTION | ast.ClassDef):
            for each in node.decorator_list:
                yield from ast.walk(each)


def _around(whole: ast.AST, within: str = "", statement: ast.stmt | None = None, outer: str = ""
            ) -> Iterator[tuple[int, tuple[str, ast.stmt]]]:
    """Of each node, by ``id``, the function and the statement it stands in."""
    for node in ast.iter_child_nodes(whole):
        here, name, inside = node if isinstance(node, ast.stmt) else statement, outer, within
        if isinstance(node, FUNCTION):
            name = inside = f"{outer}{node.name}"
            name += ".<locals>."
        elif isinstance(node, ast.ClassDef):
            name = f"{outer}{node.name}."
        if here is not None:
            yield id(node), (inside, here)
        yield from _around(node, inside, here, name)


def _lines(statement: ast.stmt) -> tuple[int, int]:
    """A statement's own lines; of one that holds others, those before them. Of a function's head, the whole function:
    its defaults show where it runs."""
    body = getattr(statement, "body", None)
    if body and not isinstance(statement, FUNCTION):
        return statement.lineno, max(statement.lineno, body[0].lineno - 1)
    return statement.lineno, statement.end_lineno or statement.lineno


def _changes(node: ast.AST) -> Iterator[tuple[str, ast.AST]]:
    """What a node says, and what it could say instead."""
    match node:
        case ast.Compare(left=left, ops=ops, comparators=comparators):
            for at, op in enumerate(ops):
                if type(op) in COMPARED:
                    changed = [*ops[:at], COMPARED[type(op)](), *ops[at + 1:]]
                    yield ast.unparse(node), ast.Compare(left, changed, comparators)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in COUNTED:
            yield ast.unparse(node), ast.BinOp(left, COUNTED[type(op)](), right)
        case ast.BoolOp(op=op, values=values):
            yield ast.unparse(node), ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values)
        case ast.UnaryOp(op=ast.Not() | ast.USub(), operand=operand):
            yield ast.unparse(node), operand
        case ast.Constant(value=bool(value)):
            yield ast.unparse(node), ast.Constant(not value)
        case ast.Constant(value=int() | float() as value):
            yield ast.unparse(node), ast.Constant(value + 1)
            yield ast.unparse(node), ast.Constant(value - 1)
        case ast.Call(func=ast.Name(id=name), args=args, keywords=keywords) if name in CALLED:
            yield ast.unparse(node), ast.Call(ast.Name(CALLED[name], ast.Load()), args, keywords)
        case ast.Call(func=ast.Attribute(value=module, attr=name), args=args, keywords=keywords) if name in CALLED:
            yield ast.unparse(node), ast.Call(ast.Attribute(module, CALLED[name], ast.Load()), args, keywords)
        case ast.Call(func=ast.Name(id="abs"), args=[only]):
            yield ast.unparse(node), only
        case ast.IfExp(test=test, body=body, orelse=orelse):
            yield ast.unparse(node), ast.IfExp(test, orelse, body)
        case ast.If(test=test) | ast.While(test=test):
            yield f"if {ast.unparse(test)}", ast.UnaryOp(ast.Not(), test)
        case ast.comprehension(ifs=[_, *_] as ifs):
            for each in ifs:
                yield f"for if {ast.unparse(each)}", ast.UnaryOp(ast.Not(), each)
        case ast.Return(value=ast.expr() as value) if not (isinstance(value, ast.Constant) and value.value is None):
            yield ast.unparse(node), ast.Return(ast.Constant(None))
        case (
            ast.AugAssign() | ast.Raise() | ast.Continue() | ast.Break()
            | ast.Expr(value=ast.Call() | ast.Yield() | ast.YieldFrom())
        ):
            yield ast.unparse(node), ast.Pass()


def _become(node: ast.AST, other: ast.AST) -> None:
    """The node turns into the other one, in its place; of what asks a condition, the condition."""
    if isinstance(node, ast.If | ast.While):
        node.test = _in_place_of(node.test, other)
        return
    if isinstance(node, ast.comprehension):
        asked = ast.unparse(other.operand)
        node.ifs = [_in_place_of(each, other) if ast.unparse(each) == asked else each for each in node.ifs]
        return
    new = _in_place_of(node, other)
    node.__class__ = new.__class__
    node.__dict__.clear()
    node.__dict__.update(new.__dict__)


def _in_place_of(node: ast.AST, other: ast.AST) -> ast.AST:
    return ast.fix_missing_locations(ast.copy_location(copy.deepcopy(other), node))
