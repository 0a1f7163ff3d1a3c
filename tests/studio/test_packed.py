"""Pages travel packed; what is packed already travels as it is."""

import gzip

import pytest
from django.http import HttpResponse
from django.test import Client, RequestFactory

from studio.packed import Packed

pytestmark = pytest.mark.django_db


def test_a_page_travels_in_less_than_half_its_length_and_reads_the_same(client: Client):
    plain = client.get("/sign-in/")
    packed = client.get("/sign-in/", headers={"accept-encoding": "gzip"})
    assert packed.headers["Content-Encoding"] == "gzip"
    assert "Content-Encoding" not in plain.headers
    assert len(packed.content) < 0.5 * len(plain.content)
    assert b"<!doctype html>" in gzip.decompress(packed.content)


@pytest.mark.parametrize(("kind", "packs"), [("application/pdf", False), ("image/png", False), ("text/csv", True)])
def test_only_what_gains_by_it_is_packed(kind: str, packs: bool):
    asked = RequestFactory().get("/", headers={"accept-encoding": "gzip"})
    answer = Packed(lambda request: HttpResponse(b"a" * 5000, content_type=kind))(asked)
    assert (answer.headers.get("Content-Encoding") == "gzip") is packs
