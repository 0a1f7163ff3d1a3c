#!/usr/bin/env python3
"""The studio's command line. Belongs here: handing over to Django. Every command is a file in an app."""

import os
import sys

from django.core.exceptions import ImproperlyConfigured
from django.core.management import execute_from_command_line


def main() -> None:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    try:
        execute_from_command_line(sys.argv)
    except ImproperlyConfigured as error:
        sys.exit(f"settings: {error}")


if __name__ == "__main__":
    main()
