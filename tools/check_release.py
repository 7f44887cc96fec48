"""Check what ``make release`` built: one wheel and one source archive, complete, with the right metadata."""

from __future__ import annotations

import sys
import tarfile
import tomllib
import zipfile
from email.parser import Parser
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def shipped_files() -> set[str]:
    """Return what must be in the wheel: every file of the package, data and all."""
    source = ROOT / "src"
    return {
        path.relative_to(source).as_posix()
        for path in (source / "wetside").rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def main() -> int:
    """Print what is wrong with the files in the folder that is named, and end with 1 if anything is."""
    folder = ROOT / sys.argv[1]
    wheels, archives = sorted(folder.glob("*.whl")), sorted(folder.glob("*.tar.gz"))
    if len(wheels) != 1 or len(archives) != 1:
        print(f"wanted one wheel and one source archive in {folder}, found {len(wheels)} and {len(archives)}")
        return 1
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    with zipfile.ZipFile(wheels[0]) as wheel:
        names = set(wheel.namelist())
        metadata_name = next(name for name in names if name.endswith(".dist-info/METADATA"))
        told = Parser().parsestr(wheel.read(metadata_name).decode())
        info = metadata_name.rpartition("/")[0]
        commands = wheel.read(f"{info}/entry_points.txt").decode()
    with tarfile.open(archives[0]) as archive:
        packed = {name.partition("/")[2] for name in archive.getnames()}
    version = told["Version"]
    checks = {
        "name": told["Name"] == project["name"],
        "version in the file names": all(f"wetside-{version}" in path.name for path in (wheels[0], archives[0])),
        "licence": told["License-Expression"] == project["license"] and f"{info}/licenses/LICENSE" in names,
        "Python": told["Requires-Python"] == project["requires-python"],
        "dependencies": len(told.get_all("Requires-Dist", [])) == len(project["dependencies"]),
        "description": (told.get_payload() or "").strip() == (ROOT / "README.md").read_text(encoding="utf-8").strip(),
        "command": "wetside = wetside.cli:main" in commands,
        "changelog names the version": f"## {version}" in (ROOT / "CHANGELOG.md").read_text(encoding="utf-8"),
        "wheel complete": shipped_files() <= names,
        "nothing else in the wheel": all(name.startswith(("wetside/", info)) for name in names),
        "source archive complete": {f"src/{name}" for name in shipped_files()} | {"LICENSE", "README.md"} <= packed,
    }
    for what, right in checks.items():
        if not right:
            print(f"wrong: {what}")
    return 0 if all(checks.values()) else 1


if __name__ == "__main__":
    sys.exit(main())
