"""Who may import whom, as pyproject.toml says it, kept by import-linter."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

HOUSE = Path(__file__).resolve().parent.parent


def test_layers_are_kept() -> None:
    code = "from importlinter.cli import lint_imports; import sys; sys.exit(lint_imports(cache_dir=None))"
    result = subprocess.run([sys.executable, "-c", code], cwd=HOUSE, capture_output=True, text=True, check=False)
    assert result.returncode == 0, result.stdout + result.stderr
