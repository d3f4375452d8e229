"""The statistics of a file of scores start fast: they load nothing that only tables, sheets or cues need."""

import json
import subprocess
import sys

LOADED = """
import json, sys
import cupwright.core.analyse.score_analysis
import cupwright.core.report.score_report
print(json.dumps(sorted(sys.modules)))
"""


def test_statistics_of_a_file_load_no_optimiser_and_no_table():
    done = subprocess.run([sys.executable, "-c", LOADED], check=True, capture_output=True, text=True)

    loaded = set(json.loads(done.stdout))
    assert "cupwright.core.analyse.tasters" in loaded
    assert loaded & {"scipy.optimize", "scipy.stats", "scipy.sparse"} == set()
    assert "cupwright.core.analyse.answers" not in loaded
    assert not [name for name in loaded if name.startswith("cupwright.core.pour")]
