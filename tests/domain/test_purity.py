"""The domain knows the trade and nothing of windows, tables, pictures or paper."""

import pkgutil
import subprocess
import sys

import bagtag.domain

HEAVY = ("PySide6", "sqlalchemy", "alembic", "PIL", "reportlab", "qrcode", "numpy", "zxingcpp")
ASK = """
import importlib, sys
for name in sys.argv[1].split():
    importlib.import_module("bagtag.domain." + name)
print(" ".join(heavy for heavy in sys.argv[2].split() if heavy in sys.modules))
"""


def test_every_domain_module_imports_without_the_heavy_libraries():
    modules = [module.name for module in pkgutil.iter_modules(bagtag.domain.__path__)]
    assert {"which_way", "picture", "sentence", "contradictions", "codes"} <= set(modules)
    done = subprocess.run(
        [sys.executable, "-c", ASK, " ".join(modules), " ".join(HEAVY)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout.strip()) == (0, ""), done.stderr
