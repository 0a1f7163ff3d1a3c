"""What holds for every test. Belongs here: rules of the run itself. Things a test is made of live beside
the test."""

import os

import pytest


@pytest.hookimpl(wrapper=True, trylast=True)
def pytest_runtest_makereport(item: pytest.Item, call: pytest.CallInfo[None]):
    """Under CI a skipped test has not been run, and what has not been run is not known to work."""
    report = yield
    if os.environ.get("CI") == "true" and report.skipped and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid}: skipped under CI=true ({report.longrepr})"
    return report
