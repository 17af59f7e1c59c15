"""Measuring the source by its syntax trees: lines that hold code, functions, imports, calls."""

import ast
import io
import tokenize
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

ROOT = Path(__file__).parents[2]
NO_CODE = frozenset({tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT})
ENDS = frozenset({tokenize.ENCODING, tokenize.ENDMARKER})
Function = ast.FunctionDef | ast.AsyncFunctionDef
Documented = Function | ast.ClassDef


@dataclass(frozen=True)
class Source:
    """One file of ours."""

    path: Path

    @property
    def name(self) -> str:
        return self.path.relative_to(ROOT).as_posix()

    @cached_property
    def text(self) -> str:
        return self.path.read_text(encoding="utf-8")

    @cached_property
    def tree(self) -> ast.Module:
        return ast.parse(self.text)

    @cached_property
    def code_lines(self) -> frozenset[int]:
        """Numbers of the lines that hold code; comments, blank lines and docstrings hold none."""
        found: set[int] = set()
        for token in tokenize.generate_tokens(io.StringIO(self.text).readline):
            if token.type not in NO_CODE | ENDS:
                found.update(range(token.start[0], token.end[0] + 1))
        return frozenset(found - set(self._docstring_lines()))

    def _docstring_lines(self) -> Iterator[int]:
        for node in ast.walk(self.tree):
            if (
                isinstance(node, ast.Expr)
                and isinstance(node.value, ast.Constant)
                and isinstance(node.value.value, str)
            ):
                yield from range(node.lineno, (node.end_lineno or node.lineno) + 1)

    def functions(self) -> Iterator[Function]:
        return (node for node in ast.walk(self.tree) if isinstance(node, Function))

    def length(self, node: Function) -> int:
        """Code lines of a function, decorators left out."""
        return len(self.code_lines & set(range(node.lineno, (node.end_lineno or node.lineno) + 1)))

    def public(self) -> Iterator[tuple[str, Documented]]:
        """Public classes and functions of the module and public methods of its public classes."""
        for node in self.tree.body:
            if isinstance(node, Documented) and not node.name.startswith("_"):
                yield node.name, node
                if isinstance(node, ast.ClassDef):
                    yield from _methods(node)

    def imported(self) -> frozenset[str]:
        """All modules that are imported anywhere in the file."""
        found: set[str] = set()
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Import):
                found.update(each.name for each in node.names)
            elif isinstance(node, ast.ImportFrom) and node.module:
                found.add(node.module)
        return frozenset(found)

    def calls(self) -> Iterator[tuple[int, str]]:
        """Line and last name of everything that is called."""
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Call):
                yield node.lineno, _last_name(node.func)


def _methods(owner: ast.ClassDef) -> Iterator[tuple[str, Documented]]:
    for node in owner.body:
        if isinstance(node, Function) and not node.name.startswith("_"):
            yield f"{owner.name}.{node.name}", node


def _last_name(node: ast.expr) -> str:
    return node.attr if isinstance(node, ast.Attribute) else node.id if isinstance(node, ast.Name) else ""


def is_annotated(node: Function) -> bool:
    """Whether all arguments (but self and cls) and what comes back have a type."""
    every = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs, node.args.vararg, node.args.kwarg]
    named = [each for each in every if each is not None and each.arg not in ("self", "cls")]
    return node.returns is not None and all(each.annotation is not None for each in named)


@cache
def sources(*rooms: str) -> tuple[Source, ...]:
    """All Python files of these rooms, in order."""
    found = [path for room in rooms for path in sorted((ROOT / room).rglob("*.py"))]
    return tuple(Source(path) for path in found if "versions" not in path.parts)


@cache
def one(name: str) -> Source:
    """The file of that name."""
    return Source(ROOT / name)
