"""What every test folder shares."""

from typing import Any

import pytest
from hypothesis import settings

# A busy machine is no fault of the code: what takes how long is measured in bench/, never in a test.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")

BROWSER_FILES = "test_browser_"


def pytest_itemcollected(item: pytest.Item) -> None:
    """The scheduler below knows browser tests by the name of their file alone."""
    if item.get_closest_marker("browser") and not item.path.name.startswith(BROWSER_FILES):
        raise pytest.UsageError(
            f"{item.nodeid} drives a browser; its file must be called {BROWSER_FILES}*.py"
        )


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> object:
    """Keep all browser tests on one worker: two Chromiums on two cores would make each other late.

    Not by the mark xdist_group: pytest-xdist 3.8 appends the group to an attribute that pytest 9.2 no longer
    reads, so that groups were silently spread over all workers.
    """
    from xdist.scheduler import LoadScopeScheduling

    class BrowserTogether(LoadScopeScheduling):
        def _split_scope(self, nodeid: str) -> str:
            return "browser" if f"/{BROWSER_FILES}" in nodeid else nodeid

    return BrowserTogether(config, log)
