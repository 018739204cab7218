"""Small wrong changes of a module, one at a time: another comparison, sign, constant, branch or end of a range."""

import ast
import copy
from collections.abc import Iterator
from dataclasses import dataclass

COMPARED = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
}
COUNTED = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult, ast.Pow: ast.Mult,
}
CALLED = {"min": "max", "max": "min", "any": "all", "all": "any", "floor": "ceil", "ceil": "floor"}


@dataclass(frozen=True)
class Mutant:
    """One change: where it is, the source line as it stands, what was there and what is there now."""

    file: str
    line: int
    source: str
    was: str
    now: str
    tree: ast.Module

    @property
    def key(self) -> tuple[str, str, str, str]:
        """What it is told apart by, wherever its line moves to."""
        return self.file, self.source, self.was, self.now


def mutants_of(file: str, text: str) -> Iterator[Mutant]:
    """Every mutant of a module's source, in the order of its lines."""
    whole, lines = ast.parse(text), text.splitlines()
    places = [node for node in ast.walk(whole) if isinstance(node, ast.expr | ast.If)]
    left_alone = set(map(id, _left_alone(whole)))
    for number, node in enumerate(places):
        if id(node) in left_alone:
            continue
        for was, now in _changes(node):
            tree = copy.deepcopy(whole)
            again = [each for each in ast.walk(tree) if isinstance(each, ast.expr | ast.If)][number]
            _become(again, now)
            yield Mutant(file, node.lineno, lines[node.lineno - 1].strip(), was, ast.unparse(now), tree)


def _left_alone(whole: ast.Module) -> Iterator[ast.AST]:
    """Annotations, texts and what stands at the top of a module to name types: nothing runs differently by them."""
    for node in ast.walk(whole):
        annotations = [getattr(node, "annotation", None), getattr(node, "returns", None)]
        for each in annotations:
            if each is not None:
                yield from ast.walk(each)
        if isinstance(node, ast.JoinedStr):
            yield from (part for part in ast.walk(node) if isinstance(part, ast.Constant))
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            for each in node.decorator_list:
                yield from ast.walk(each)


def _changes(node: ast.AST) -> Iterator[tuple[str, ast.expr]]:
    """What a node says, and what it could say instead."""
    match node:
        case ast.Compare(left=left, ops=[op], comparators=comparators) if type(op) in COMPARED:
            yield ast.unparse(node), ast.Compare(left, [COMPARED[type(op)]()], comparators)
        case ast.Compare(left=left, ops=[first, *rest], comparators=comparators) if type(first) in COMPARED:
            yield ast.unparse(node), ast.Compare(left, [COMPARED[type(first)](), *rest], comparators)
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
        case ast.Call(func=ast.Name(id=name), args=args, keywords=keywords) if name in CALLED:
            yield ast.unparse(node), ast.Call(ast.Name(CALLED[name], ast.Load()), args, keywords)
        case ast.Call(func=ast.Name(id="abs"), args=[only]):
            yield ast.unparse(node), only
        case ast.IfExp(test=test, body=body, orelse=orelse):
            yield ast.unparse(node), ast.IfExp(test, orelse, body)
        case ast.If(test=test):
            yield f"if {ast.unparse(test)}", ast.UnaryOp(ast.Not(), test)


def _become(node: ast.AST, other: ast.expr) -> None:
    """The node turns into the other one, in its place; of an ``if`` its condition."""
    if isinstance(node, ast.If):
        node.test = ast.copy_location(ast.fix_missing_locations(copy.deepcopy(other)), node.test)
        return
    new = copy.deepcopy(other)
    ast.copy_location(new, node)
    ast.fix_missing_locations(new)
    node.__class__ = new.__class__
    node.__dict__.clear()
    node.__dict__.update(new.__dict__)
