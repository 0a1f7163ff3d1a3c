#!/usr/bin/env python3
"""The studio's command line. Belongs here: handing over to Django. Every command is a file in an app."""

import io
import os
import sys

from django.core.exceptions import ImproperlyConfigured
from django.core.management import execute_from_command_line
from django.db import Error

from studio.outages import SAID, outage_of


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(
            encoding="utf-8"
        )  # plans carry names; JSON is UTF-8 whatever the terminal says
    try:
        execute_from_command_line(sys.argv)
    except ImproperlyConfigured as error:
        sys.exit(f"settings: {error}")
    except BrokenPipeError:
        # The reader has seen enough (`| head`); nothing is left to flush to.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
    except (Error, OSError) as error:
        if (outage := outage_of(error)) is None:
            raise
        sys.exit(f"not done to the end: {SAID[outage]}")


if __name__ == "__main__":
    main()
