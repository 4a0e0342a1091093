"""The house keeps its own rules: lint, types, which way imports run, what lies at the top."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
CODE = [*ROOT.glob("bagtag/**/*.py"), *ROOT.glob("tests/**/*.py")]


def _run(*command: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False
    )


def _tool(name: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    tool = Path(sys.executable).with_name(name)
    return subprocess.run(
        [str(tool), *arguments], cwd=ROOT, capture_output=True, text=True, check=False
    )


def test_ruff_finds_nothing() -> None:
    done = _run("ruff", "check", "--no-cache")
    assert done.returncode == 0, done.stdout
    done = _run("ruff", "format", "--check", "--no-cache")
    assert done.returncode == 0, done.stdout


def test_types_hold() -> None:
    done = _run("mypy")
    assert done.returncode == 0, done.stdout


def test_imports_run_one_way() -> None:
    done = _tool("lint-imports", "--no-cache")
    assert done.returncode == 0, done.stdout


def test_no_file_is_longer_than_400_lines() -> None:
    long = {
        str(p.relative_to(ROOT)): n for p in CODE if (n := len(p.read_text().splitlines())) > 400
    }
    assert long == {}


def test_the_top_level_holds_what_the_readme_promises() -> None:
    listed = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    if listed.returncode:
        pytest.fail("the tests run in a checkout: git ls-files failed")
    top = {line.split("/")[0] for line in listed.stdout.splitlines()}
    named = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml"}
    rooms = {"bagtag", "resources", "tests", "docs"}
    assert {name for name in top if not name.startswith(".")} <= named | rooms


def test_no_slot_is_a_lambda() -> None:
    """A lambda that mentions self keeps its widget for ever (reproduced on PySide6 6.11)."""
    found = [
        p.name
        for p in ROOT.glob("bagtag/ui/*.py")
        if re.search(r"connect\(\s*lambda", p.read_text())
    ]
    assert found == []


def test_ci_runs_the_readmes_test_command() -> None:
    readme = (ROOT / "README.md").read_text()
    command = readme.split("<!-- the tests -->")[1].split("```")[1]
    assert "pytest" in command
    assert "<!-- the tests -->" in (ROOT / ".ci" / "run").read_text()
