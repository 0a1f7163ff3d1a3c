"""The door for a web server: `gunicorn studio.wsgi`. Belongs here: it, and what it makes ready."""

import os
from threading import Thread

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
application = get_wsgi_application()


def make_ready() -> None:
    """What takes a second to make and never changes, made while nobody waits for it yet."""
    from django.conf import settings
    from django.utils.module_loading import import_string

    for path in settings.MADE_AT_START:
        Thread(target=import_string(path), name=path, daemon=True).start()


make_ready()
