"""Columns: the scores of all opened tables as files beside the database, mapped into memory when asked for.

The database stays the truth: the files are named for the state of it that they were made from, and made anew
when it has another. A file that is missing or damaged is as good as none.
"""

import json
import shutil
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np

    from cupwright.core.analyse.season_columns import SeasonColumns

_FOLDER = "columns"
_COLUMNS = ("coffee", "taster", "attribute", "value", "table")
_NAMES = ("coffees", "tasters", "attributes", "tables")


class FileColumns:
    """Columns in the folder of the data."""

    def __init__(self, data: Path) -> None:
        self._folder = data / _FOLDER

    def read(self, state: str) -> "SeasonColumns | None":
        """The columns that were made from this state; None if there are none."""
        # The numerical libraries take longer to load than the rest of the program.
        from cupwright.core.analyse.overview import ScoreColumns
        from cupwright.core.analyse.season_columns import SeasonColumns

        here = self._folder / state
        try:
            names = json.loads((here / "names.json").read_text("utf-8"))
            coffees, tasters, attributes, tables = (tuple(map(str, names[name])) for name in _NAMES)
            coffee, taster, attribute, value, table = (_mapped(here / f"{name}.npy") for name in _COLUMNS)
        except (OSError, EOFError, ValueError, KeyError, TypeError):
            return None
        named = ((coffee, coffees), (taster, tasters), (attribute, attributes), (table, tables))
        if any(len(index) != len(value) or not _fits(index, len(called)) for index, called in named):
            return None
        scores = ScoreColumns(coffees, tasters, attributes, coffee, taster, attribute, value)
        return SeasonColumns(scores, table, tables)

    def keep(self, state: str, columns: "SeasonColumns") -> None:
        """Put the columns in place, whole or not at all, and those of older states away."""
        import numpy as np

        self._folder.mkdir(mode=0o700, exist_ok=True)
        made = Path(tempfile.mkdtemp(dir=self._folder, prefix="new-"))
        scores = columns.scores
        lists = (scores.coffees, scores.tasters, scores.attributes, columns.tables)
        arrays = (scores.coffee, scores.taster, scores.attribute, scores.value, columns.table)
        for name, array in zip(_COLUMNS, arrays, strict=True):
            np.save(made / f"{name}.npy", array, allow_pickle=False)
        (made / "names.json").write_text(json.dumps(dict(zip(_NAMES, lists, strict=True))), "utf-8")
        try:
            made.rename(self._folder / state)
        except OSError:  # Another process was quicker, with the same.
            shutil.rmtree(made, ignore_errors=True)
        for other in self._folder.iterdir():
            if other.name != state and not other.name.startswith("new-"):
                shutil.rmtree(other, ignore_errors=True)


def _fits(index: "np.ndarray", count: int) -> bool:
    """Whether every number is one of a name."""
    return not len(index) or (int(index.min()) >= 0 and int(index.max()) < count)


def _mapped(path: Path) -> "np.ndarray":
    """One column. Raises ValueError or OSError if the file holds none."""
    import numpy as np

    column: np.ndarray = np.load(path, mmap_mode="r", allow_pickle=False)
    if column.ndim != 1:
        raise ValueError(f"{path.name} holds no column.")
    return column
