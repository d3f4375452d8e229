"""Build hook: puts the built web client into the wheel."""

import shutil
import subprocess
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class ClientBuild(BuildHookInterface[Any]):
    """Builds the client with Node unless it is already built; an editable install uses what `make` builds."""

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        if version == "editable" or self.target_name != "wheel":
            return
        root = Path(self.root)
        if not (root / "src/cupwright/web/static/index.html").is_file():
            _build(root / "client")


def _build(client: Path) -> None:
    npm = shutil.which("npm")
    if npm is None:
        raise RuntimeError(
            "The web client is not built, and npm, which builds it, was not found. Install Node 20 or newer."
        )
    if not (client / "node_modules").is_dir():
        subprocess.run([npm, "ci"], cwd=client, check=True)
    subprocess.run([npm, "run", "build"], cwd=client, check=True)
