"""What tests of the house share. Belongs here: its owner, signed in."""

from __future__ import annotations

import pytest
from django.test import Client

from tests import cast


@pytest.fixture
def owner(db: None) -> Client:
    return cast.client_of(cast.make_member("owner"))
