"""The science explains itself where it is read: every parameter of a public function, with its unit."""

from __future__ import annotations

import ast
import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

SCIENCES = {"sensitometry", "exposure", "development", "chemistry", "scans"}


def public_functions(trees: dict[Path, ast.Module], packages: set[str]) -> Iterator[tuple[str, ast.FunctionDef]]:
    for path, tree in trees.items():
        if path.parts[0] not in packages or any(part.startswith("_") and part != "__init__.py" for part in path.parts):
            continue
        for node in tree.body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                yield f"{path}:{node.lineno} {node.name}", node


def gives_a_value(node: ast.FunctionDef) -> bool:
    """Whether a function returns anything; one that only refuses needs no unit and no example."""
    return node.returns is None or ast.unparse(node.returns) not in ("None", "NoReturn")


def described(docstring: str) -> dict[str, str]:
    """Text below each name of a numpydoc docstring's Parameters section."""
    section = re.search(r"^Parameters\n-+\n(.*?)(?=^\w[\w ]*\n-{3,}\n|\Z)", docstring, re.DOTALL | re.MULTILINE)
    found: dict[str, str] = {}
    names: list[str] = []
    for line in section[1].splitlines() if section else []:
        if line and not line.startswith(" "):
            names = [name.strip().lstrip("*") for name in line.partition(" : ")[0].split(",")]
            found |= dict.fromkeys(names, line.partition(" : ")[2])
        else:
            for name in names:
                found[name] += f"\n{line}"
    return found


def is_quantity(argument: ast.arg) -> bool:
    """Whether an argument is a number that has a unit (a pure number's is [1])."""
    return argument.annotation is not None and re.search(r"\bfloat\b", ast.unparse(argument.annotation)) is not None


def project_errors(trees: dict[Path, ast.Module]) -> set[str]:
    """Names of the errors that a person can act on."""
    tree = next(tree for path, tree in trees.items() if path.as_posix() == "errors/tree.py")
    return {
        node.name for node in tree.body if isinstance(node, ast.ClassDef) and node.name.endswith(("Error", "Errors"))
    }


def raised(node: ast.FunctionDef, errors: set[str]) -> set[str]:
    """Project errors that a function makes and raises by itself."""
    return {
        called(one.exc)
        for one in ast.walk(node)
        if isinstance(one, ast.Raise) and isinstance(one.exc, ast.Call) and called(one.exc) in errors
    }


def called(node: ast.Call) -> str:
    return node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")


def check_functions(trees: dict[Path, ast.Module], errors: set[str]) -> dict[tuple[str, str], set[str]]:
    """Functions that are there to refuse, by module and name: ``check_…``, ``require_…``, private or not."""
    return {
        (".".join(path.with_suffix("").parts), node.name): raised(node, errors)
        for path, tree in trees.items()
        for node in tree.body
        if isinstance(node, ast.FunctionDef) and re.match(r"_?(check|require)", node.name) and raised(node, errors)
    }


def checks_at_hand(path: Path, tree: ast.Module, checks: dict[tuple[str, str], set[str]]) -> dict[str, set[str]]:
    """Check functions that a module can call by a plain name: its own, and those that it imports."""
    here = ".".join(path.with_suffix("").parts)
    found = {name: errors for (module, name), errors in checks.items() if module == here}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module:
            module = node.module.removeprefix("wetside.")
            for one in node.names:
                if (module, one.name) in checks:
                    found[one.asname or one.name] = checks[module, one.name]
    return found


def refusals(path: Path, tree: ast.Module, node: ast.FunctionDef, errors: set[str], checks: dict) -> set[str]:
    """Errors that a function raises by itself or through a check function."""
    at_hand = checks_at_hand(path, tree, checks)
    through = [at_hand.get(called(one), set()) for one in ast.walk(node) if isinstance(one, ast.Call)]
    return raised(node, errors).union(*through)


def test_every_public_function_that_refuses_says_so(package_trees: dict[Path, ast.Module]) -> None:
    """A public function that raises an error of the project, itself or by a check function, has a Raises section."""
    errors = project_errors(package_trees)
    checks = check_functions(package_trees, errors)
    assert {"InputError", "RefusedError"} <= errors
    assert ("chemistry.limits", "check_positive") in checks
    wrong = []
    for path, tree in package_trees.items():
        for name, node in public_functions({path: tree}, {path.parts[0]}):
            found = refusals(path, tree, node, errors, checks)
            if found and not re.search(r"^Raises\n-+$", ast.get_docstring(node) or "", re.MULTILINE):
                wrong.append(f"{name} raises {', '.join(sorted(found))}")
    assert not wrong, "\n".join(wrong)


def test_every_number_of_a_public_function_has_a_unit(package_trees: dict[Path, ast.Module]) -> None:
    """Anywhere a parameter that is a quantity has its unit in brackets, beside it or in the first line."""
    wrong = []
    for name, node in public_functions(package_trees, {path.parts[0] for path in package_trees}):
        text = ast.get_docstring(node) or ""
        said = described(text)
        first = text.partition("\n")[0]
        arguments = (*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs)
        wrong += [
            f"{name}: {argument.arg} has no unit in brackets"
            for argument in arguments
            if is_quantity(argument) and not re.search(r"\[[^\]]+\]", said.get(argument.arg, "") + first)
        ]
    assert not wrong, "\n".join(wrong)


def test_the_reader_of_refusals_sees_them_where_they_are() -> None:
    """The walk itself: an error raised here, through a check of this module, and through one that is imported."""
    from pathlib import Path

    errors = {"InputError"}
    trees = {
        Path("a/limits.py"): ast.parse('def check_it(x):\n    raise InputError("a.b")\n'),
        Path("a/use.py"): ast.parse(
            "from wetside.a.limits import check_it as sure\n"
            "def near(x):\n    sure(x)\ndef far(x):\n    check_it(x)\ndef itself(x):\n    raise InputError('a.c')\n"
        ),
    }
    checks = check_functions(trees, errors)
    path = Path("a/use.py")
    found = {
        node.name: refusals(path, trees[path], node, errors, checks)
        for node in trees[path].body
        if isinstance(node, ast.FunctionDef)
    }
    assert found == {"near": {"InputError"}, "far": set(), "itself": {"InputError"}}


def test_every_public_function_is_described(package_trees: dict[Path, ast.Module]) -> None:
    """No public function of the package is without a docstring."""
    packages = {path.parts[0] for path in package_trees}
    assert not [name for name, node in public_functions(package_trees, packages) if not ast.get_docstring(node)]


def test_every_parameter_of_the_science_is_described_with_its_unit(package_trees: dict[Path, ast.Module]) -> None:
    """Each parameter of a public function of the sciences is described, each number with its unit in brackets."""
    wrong = []
    for name, node in public_functions(package_trees, SCIENCES):
        if not gives_a_value(node):
            continue
        said = described(ast.get_docstring(node) or "")
        for argument in (*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs):
            if argument.arg not in said:
                wrong.append(f"{name}: {argument.arg} is not described")
            elif is_quantity(argument) and not re.search(r"\[[^\]]+\]", said[argument.arg]):
                wrong.append(f"{name}: {argument.arg} has no unit in brackets")
    assert not wrong, "\n".join(wrong)


def test_every_function_of_the_science_has_an_example(package_trees: dict[Path, ast.Module]) -> None:
    """Each public function of the sciences shows an example, which the suite runs."""
    functions = [(name, node) for name, node in public_functions(package_trees, SCIENCES) if gives_a_value(node)]
    assert not [name for name, node in functions if ">>>" not in (ast.get_docstring(node) or "")]
