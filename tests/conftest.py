"""What every test folder shares."""

import os
from typing import Any

import pytest
from hypothesis import settings

# Before anything loads numpy, here and in the workers: two workers with two threads each on two cores wait
# for each other (measured: the map of words took 17 s of processor time with two threads, 9 s with one).
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

# A busy machine is no fault of the code: what takes how long is measured in bench/, never in a test.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")

BROWSER_FILES = "test_browser_"
# What the tests of these set up for each other takes seconds: a server, a wheel, a database's server.
ONE_FILE_ONE_WORKER = ("tests/flow/", "tests/packaging/test_wheel.py")
STORES = "tests/contract/test_store"


def pytest_itemcollected(item: pytest.Item) -> None:
    """The scheduler below knows browser tests by the name of their file alone."""
    if item.get_closest_marker("browser") and not item.path.name.startswith(BROWSER_FILES):
        raise pytest.UsageError(
            f"{item.nodeid} drives a browser; its file must be called {BROWSER_FILES}*.py"
        )


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> object:
    """Keep all browser tests on one worker: two Chromiums on two cores would make each other late.

    Tests that share what is dear to set up stay together as well; all others go wherever there is time.
    Not by the mark xdist_group: pytest-xdist 3.8 appends the group to an attribute that pytest 9.2 no longer
    reads, so that groups were silently spread over all workers.
    """
    from xdist.scheduler import LoadScopeScheduling

    class DearTogether(LoadScopeScheduling):
        def _split_scope(self, nodeid: str) -> str:
            file = nodeid.partition("::")[0]
            if f"/{BROWSER_FILES}" in file:
                return "browser"
            if file.startswith(STORES):
                return "stores"
            return file if file.startswith(ONE_FILE_ONE_WORKER) else nodeid

    return DearTogether(config, log)
