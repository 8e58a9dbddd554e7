"""The rooms of the house: what each may import, read from the source, imports inside functions included."""

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PACKAGE = ROOT / "plankit"
ROOMS = (
    "errors", "finding", "units", "reference", "stock", "shop", "parts", "build", "cutting", "checks", "drawing",
    "plan", "publish", "app",
)  # fmt: skip
"""From the ground floor up: a room may import those before it."""
MODULES = sorted(PACKAGE.rglob("*.py"))


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def imported(path: Path) -> set[str]:
    """Every plankit module a file imports; relative imports are written out."""
    package = ".".join(path.relative_to(ROOT).parent.parts)
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            above = package.rsplit(".", node.level - 1)[0] if node.level else ""
            module = ".".join(piece for piece in (above, node.module or "") if piece)
            found |= {module} if node.module else {f"{module}.{alias.name}" for alias in node.names}
            if module == "plankit":
                found |= {f"plankit.{alias.name}" for alias in node.names}
    return {name for name in found if name == "plankit" or name.startswith("plankit.")}


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_room_imports_only_rooms_below_it(path):
    room = room_of(path)
    if room in {"__init__", "__main__"}:
        return
    floor = ROOMS.index(room)
    for name in imported(path):
        assert name != "plankit", "nobody inside imports from the shop window"
        target = name.split(".")[1]
        assert target in ROOMS, f"{name} is in no room"
        assert ROOMS.index(target) <= floor, f"{path.relative_to(ROOT)} imports {name}, which is above it"


def test_every_folder_is_a_room_and_every_room_is_there():
    found = {room_of(path) for path in MODULES} - {"__init__", "__main__"}
    assert found == set(ROOMS)


def test_the_developers_table_of_rooms_names_the_same_rooms():
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    named = re.findall(r"^\| `plankit/(\w+)` \|", text, flags=re.MULTILINE)
    assert named == [room for room in ROOMS if (PACKAGE / room).is_dir()]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_no_module_is_longer_than_500_lines(path):
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 500
