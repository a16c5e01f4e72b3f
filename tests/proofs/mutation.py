"""Makes mutants of a module: one small wrong change each, named by function and changed text.

A name holds no line number, so that an argument about a mutant outlives changes elsewhere.
"""

import ast
import copy
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
LONGEST = 100
"""Characters of source text in a name."""
Step = tuple[str, int | None]

BESIDE: dict[type, type] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
    ast.In: ast.NotIn, ast.NotIn: ast.In,
}  # fmt: skip
"""Boundary of an order, opposite of an equality."""
OPPOSITE: dict[type, type] = {
    ast.Lt: ast.GtE, ast.LtE: ast.Gt, ast.Gt: ast.LtE, ast.GtE: ast.Lt,
}  # fmt: skip
ARITHMETIC: dict[type, type] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult, ast.Pow: ast.Mult, ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
}  # fmt: skip
NAMES = {"min": "max", "max": "min", "any": "all", "all": "any"}
DROPPED = (
    ast.Assign, ast.AugAssign, ast.If, ast.Raise, ast.Return, ast.For, ast.While, ast.Expr,
    ast.Continue, ast.Break,
)  # fmt: skip
HEADS = {"If": "test", "For": "iter", "While": "test", "Match": "subject"}
PLAIN = (ast.Constant, ast.Name, ast.Attribute, ast.Starred)


@dataclass(frozen=True)
class Mutant:
    """Where one change is made; the change itself is found again by its place."""

    module: str
    function: str
    """Qualified name; ``module`` for what runs when the module is brought in."""
    change: str
    path: tuple[Step, ...]
    nth: int

    @property
    def name(self) -> str:
        """Module, function and changed text."""
        return f"{self.module.removeprefix('shopassist.')} {self.function}: {self.change}"

    @property
    def place(self) -> str:
        """Module and function."""
        return f"{self.module} {self.function}"

    @property
    def alive(self) -> bool:
        """Whether it can be put in place of a function that was brought in already."""
        return self.function != "module"


def source_of(module: str) -> Path:
    """The file of a module."""
    path = ROOT.joinpath(*module.split("."))
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


def mutants_of(module: str) -> tuple[Mutant, ...]:
    """Every mutant of a module, each with a name of its own."""
    tree = ast.parse(source_of(module).read_text("utf-8"))
    seen: Counter[str] = Counter()
    out = []
    for mutant in _Walk(module).of(tree):
        seen[mutant.name] += 1
        times = seen[mutant.name]
        out.append(mutant if times == 1 else replace(mutant, change=f"{mutant.change} #{times}"))
    return tuple(out)


def mutated(mutant: Mutant) -> ast.Module:
    """The whole module with this one change."""
    tree = ast.parse(source_of(mutant.module).read_text("utf-8"))
    node: ast.AST = tree
    parent, (field, index) = node, mutant.path[-1]
    for name, place in mutant.path:
        parent = node
        held = getattr(node, name)
        node = held if place is None else held[place]
    fresh = _replacements(node, _Context.of(tree, mutant.path))[mutant.nth][0]
    if index is None:
        setattr(parent, field, fresh)
    else:
        getattr(parent, field)[index] = fresh
    return ast.fix_missing_locations(tree)


@dataclass(frozen=True)
class _Context:
    """What surrounds a node."""

    in_function: bool = False
    in_class: bool = False
    returns: str = ""
    names: tuple[str, ...] = ()

    @classmethod
    def of(cls, tree: ast.Module, path: tuple[Step, ...]) -> "_Context":
        """Walk down to a node and say what it stands in."""
        node: ast.AST = tree
        found = cls()
        for field, index in path:
            found = found.inside(node, field)
            held = getattr(node, field)
            node = held if index is None else held[index]
        return found

    def inside(self, node: ast.AST, field: str) -> "_Context":
        """One level further down."""
        if isinstance(node, ast.ClassDef):
            return replace(self, in_class=not self.in_function, names=(*self.names, node.name))
        if isinstance(node, ast.FunctionDef) and field == "body":
            returns = "" if node.returns is None else ast.unparse(node.returns)
            names = self.names if self.in_function else (*self.names, node.name)
            return replace(self, in_function=True, returns=returns, names=names)
        return self


@dataclass(frozen=True)
class _Walk:
    """Goes through a module and names every change."""

    module: str

    def of(self, tree: ast.Module) -> Iterator[Mutant]:
        yield from self._down(tree, (), _Context(), ())

    def _down(
        self, node: ast.AST, path: tuple[Step, ...], context: _Context, above: tuple[ast.AST, ...]
    ) -> Iterator[Mutant]:
        if path:
            function = ".".join(context.names) if context.in_function else "module"
            for nth, (fresh, words) in enumerate(_replacements(node, context)):
                change = words or _named(node, fresh, path, above)
                yield Mutant(self.module, function, change, path, nth)
        for field, index, child in _children(node):
            inner = context.inside(node, field)
            yield from self._down(child, (*path, (field, index)), inner, (*above, node))


def _children(node: ast.AST) -> Iterator[tuple[str, int | None, ast.AST]]:
    """What may be changed below a node: no annotations, no decorators, no words."""
    for field, value in ast.iter_fields(node):
        if field in {"annotation", "returns", "decorator_list", "format_spec", "bases"}:
            continue
        if isinstance(node, ast.Subscript) and field == "slice" and not _counts(node):
            continue
        for index, child in enumerate(value if isinstance(value, list) else [value]):
            if isinstance(child, ast.AST) and not _passed_over(child):
                yield field, index if isinstance(value, list) else None, child


def _counts(node: ast.Subscript) -> bool:
    """A subscript with a number or a slice, not a type's parameter."""
    return any(
        isinstance(each, ast.Slice) or (isinstance(each, ast.Constant) and each.value is not None)
        for each in ast.walk(node.slice)
    )


def _passed_over(node: ast.AST) -> bool:
    if isinstance(node, ast.Import | ast.ImportFrom):
        return True
    if isinstance(node, ast.AnnAssign) and ast.unparse(node.annotation) == "TypeAlias":
        return True
    if isinstance(node, ast.Assign):
        return ast.unparse(node.targets[0]) == "__all__" or _is_type(node.value)
    if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
        return True
    if isinstance(node, ast.keyword) and node.arg == "strict":
        return True
    return _is_words(node)


def _is_type(node: ast.AST) -> bool:
    return isinstance(node, ast.Subscript) and ast.unparse(node.value) in {"Callable", "Literal"}


def _is_words(node: ast.AST) -> bool:
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)


def _replacements(node: ast.AST, context: _Context) -> list[tuple[ast.AST, str]]:
    """All changes of one node, in a fixed order, with words of their own where they need them."""
    out: list[tuple[ast.AST, str]] = []
    out += [(fresh, "") for fresh in _other_expressions(node)]
    out += _shorter(node, context)
    if isinstance(node, ast.Return) and node.value is not None:
        out += [(fresh, "") for fresh in _other_returns(node, context.returns)]
    if isinstance(node, DROPPED) and context.in_function and not _gives_nothing(node):
        out.append((ast.copy_location(ast.Pass(), node), f"without {_text(node)}"))
    return out


def _gives_nothing(node: ast.AST) -> bool:
    """``return None``: at the end of a function it may be missing."""
    value = node.value if isinstance(node, ast.Return) else node
    return value is None or (isinstance(value, ast.Constant) and value.value is None)


def _other_expressions(node: ast.AST) -> Iterator[ast.AST]:
    if isinstance(node, ast.Compare):
        for at, operator in enumerate(node.ops):
            for table in (BESIDE, OPPOSITE):
                if type(operator) in table:
                    yield _with(node, ops=_replaced(node.ops, at, table[type(operator)]()))
    elif isinstance(node, ast.BoolOp):
        yield _with(node, op=ast.Or() if isinstance(node.op, ast.And) else ast.And())
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not | ast.USub):
        yield node.operand
    elif isinstance(node, ast.BinOp) and type(node.op) in ARITHMETIC:
        yield _with(node, op=ARITHMETIC[type(node.op)]())
    elif isinstance(node, ast.Constant):
        yield from (_with(node, value=value) for value in _other_values(node.value))
    elif isinstance(node, ast.Name) and node.id in NAMES:
        yield _with(node, id=NAMES[node.id])
    elif isinstance(node, ast.comprehension) and node.ifs:
        yield _with(node, ifs=[])


def _other_values(value: object) -> list[object]:
    if isinstance(value, bool):
        return [not value]
    if isinstance(value, int | float):
        return list(dict.fromkeys(new for new in (value + 1, value - 1, value * 2) if new != value))
    return []


def _other_returns(node: ast.Return, returns: str) -> Iterator[ast.AST]:
    values: tuple[bool | None, ...] = (True, False) if returns == "bool" else (None,)
    for value in values:
        if not (isinstance(node.value, ast.Constant) and node.value.value is value):
            yield _with(node, value=ast.Constant(value))


def _shorter(node: ast.AST, context: _Context) -> list[tuple[ast.AST, str]]:
    """A display or a match without one of its elements."""
    if isinstance(node, ast.Dict):
        return [
            (_with(node, keys=_less(node.keys, n), values=_less(node.values, n)),
             f"dict without {_text(key if key is not None else node.values[n])}")
            for n, key in enumerate(node.keys) if len(node.keys) > 1
        ]  # fmt: skip
    if isinstance(node, ast.Match):
        return [
            (_with(node, cases=_less(node.cases, n)), f"match without {_text(case.pattern)}")
            for n, case in enumerate(node.cases)
        ]
    if not isinstance(node, ast.Tuple | ast.List | ast.Set):
        return []
    if isinstance(getattr(node, "ctx", None), ast.Store) or len(node.elts) < 2:
        return []
    if context.in_function and not all(isinstance(each, PLAIN) for each in node.elts):
        return []
    if any(isinstance(each, ast.Constant) and _is_prose(each.value) for each in node.elts):
        return []
    kind = type(node).__name__.lower()
    return [
        (_with(node, elts=_less(node.elts, n)), f"{kind} of {len(node.elts)} without {_text(each)}")
        for n, each in enumerate(node.elts)
    ]


def _is_prose(value: object) -> bool:
    """Words to show: a row of a table of them has its length checked wherever it is unpacked."""
    return isinstance(value, str) and (not value or " " in value or value[0].isupper())


def _less(elements: Sequence[object], at: int) -> list[object]:
    return [*elements[:at], *elements[at + 1 :]]


def _with(node: ast.AST, **fields: object) -> ast.AST:
    fresh = copy.copy(node)
    for name, value in fields.items():
        setattr(fresh, name, value)
    return fresh


def _text(node: ast.AST) -> str:
    whole = " ".join(ast.unparse(node).split())
    return whole if len(whole) <= LONGEST else f"{whole[: LONGEST - 1]}…"


def _named(
    node: ast.AST, fresh: ast.AST, path: tuple[Step, ...], above: tuple[ast.AST, ...]
) -> str:
    """The largest text around the change that is short enough, before and after."""
    before, after = node, fresh
    for parent, (field, index) in zip(reversed(above), reversed(path), strict=True):
        head = HEADS.get(type(parent).__name__)
        if isinstance(parent, ast.stmt) and not isinstance(
            parent, ast.Assign | ast.AnnAssign | ast.AugAssign | ast.Return | ast.Expr
        ):
            where = f"{type(parent).__name__.lower()} " if head == field else ""
            return f"{where}{_text(before)} → {_text(after)}"
        held = after if index is None else _replaced(getattr(parent, field), index, after)
        around = _with(parent, **{field: held})
        if isinstance(parent, ast.Module) or len(_text(parent)) >= LONGEST:
            break
        before, after = parent, around
    return f"{_text(before)} → {_text(after)}"


def _replaced(elements: Sequence[object], index: int, fresh: object) -> list[object]:
    return [*elements[:index], fresh, *elements[index + 1 :]]
