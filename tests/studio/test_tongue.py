"""Packages without a framework say their sentences in the reader's language once the app has started."""

from django.utils import translation

from studio import tongue
from tests import pseudo


def test_they_speak_whatever_the_page_speaks():
    assert tongue.gettext("One more light") == "One more light"
    with pseudo.spoken():
        assert tongue.gettext("One more light") == pseudo.said("One more light")
        assert tongue.ngettext("{n} light", "{n} lights", 2) == pseudo.said("{n} lights")
        assert tongue.noop("One more light") == "One more light"


def test_alone_they_speak_english():
    tongue.use(tongue.English())
    try:
        with pseudo.spoken():
            assert tongue.gettext("One more light") == "One more light"
            assert [tongue.ngettext("{n} light", "{n} lights", n) for n in (1, 2, 0)] == [
                "{n} light", "{n} lights", "{n} lights",
            ]  # fmt: skip
    finally:
        tongue.use(translation)
