"""What several files about fitting share."""

import pytest

from tests.fitting.machines import cylinder


@pytest.fixture(scope="module")
def tailboard():
    return cylinder("tailboard-lift")
