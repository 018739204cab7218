"""What each benchmark measured against its floor, under the table: the table itself has only times."""

import pytest


@pytest.hookimpl(trylast=True)
def pytest_terminal_summary(terminalreporter, config):
    session = getattr(config, "_benchmarksession", None)
    told = [each for each in (session.benchmarks if session else ()) if each.extra_info]
    if told:
        terminalreporter.section("ratios")
    for each in told:
        figures = ", ".join(f"{name} {value}" for name, value in each.extra_info.items())
        terminalreporter.write_line(f"{each.name}: {figures}")
