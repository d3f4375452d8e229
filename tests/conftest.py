"""What every test folder shares."""

import pytest


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Keep all browser tests on one xdist worker: two Chromiums on two cores would make each other late."""
    for item in items:
        if item.get_closest_marker("browser"):
            item.add_marker(pytest.mark.xdist_group("browser"))
