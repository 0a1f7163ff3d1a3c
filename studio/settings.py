"""All settings, in one file, read from the environment with safe defaults. Belongs here: what differs
between two studios' machines. Not here: rules of taste (the planner's data) or of the house (the studio's
profile)."""

import os
import secrets
from pathlib import Path

import environ
from django.core.exceptions import ImproperlyConfigured

BASE_DIR = Path(__file__).resolve().parent.parent
env = environ.Env()


def switch(name: str) -> bool:
    """True or false from the environment; any other word is refused, so that a slip cannot open the house."""
    text = env.str(name, default="off").strip().lower()
    if text in ("on", "true", "yes", "1"):
        return True
    if text in ("off", "false", "no", "0", ""):
        return False
    raise ImproperlyConfigured(f"{name}={text}: not a switch, expected on or off")


def kept_key(folder: Path) -> tuple[str, bool]:
    """This studio's secret key, made on the first run and kept readable by its owner alone.

    Returns the key and whether it is kept: where the folder cannot be written it ends with the process.
    """
    path = folder / "secret_key"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if not path.exists():
            fresh = folder / f".secret_key.{os.getpid()}"
            with os.fdopen(os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w") as file:
                file.write(secrets.token_urlsafe(50))
            try:
                os.link(fresh, path)  # never half a key, and of two first runs at once one wins
            except FileExistsError:
                pass
            finally:
                fresh.unlink()
        return path.read_text().strip(), True
    except OSError:
        return secrets.token_urlsafe(50), False


def database(folder: Path) -> dict[str, object]:
    """SQLite in the data folder, unless DATABASE_URL says otherwise."""
    if not env.str("DATABASE_URL", default=""):
        found: dict[str, object] = {
            "ENGINE": "django.db.backends.sqlite3",
            "NAME": folder / "tenthstop.sqlite3",
        }
    else:
        found = env.db_url("DATABASE_URL")
    engine = str(found.get("ENGINE", ""))
    if engine.endswith("sqlite3"):
        found["OPTIONS"] = {
            "transaction_mode": "IMMEDIATE",  # a writer waits its turn instead of failing in the middle
            "timeout": 20,
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=NORMAL; "
            "PRAGMA cache_size=-16000; PRAGMA mmap_size=134217728",
        }
        found["CONN_MAX_AGE"] = None  # the pragmas make connecting dear
    elif not engine.endswith("postgresql"):
        raise ImproperlyConfigured("DATABASE_URL: expected postgres://... or sqlite:///...")
    return found


def weak(key: str) -> bool:
    """Too short, too plain, or marked as made for trying out."""
    return len(key) < 50 or len(set(key)) < 5 or key.startswith("django-insecure")


DEBUG = switch("DEBUG")
DATA_DIR = Path(env.str("TENTHSTOP_DATA", default=str(BASE_DIR / ".data")))
SECRET_KEY = env.str("SECRET_KEY", default="")
SECRET_KEY_KEPT = True
if not SECRET_KEY:
    SECRET_KEY, SECRET_KEY_KEPT = kept_key(DATA_DIR)
if weak(SECRET_KEY) and not DEBUG:
    raise ImproperlyConfigured(
        "SECRET_KEY: too weak, expected at least 50 random characters (or none: one is made)"
    )
ALLOWED_HOSTS = env.list("ALLOWED_HOSTS", default=["localhost", "127.0.0.1"])

DATABASES = {"default": database(DATA_DIR)}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

INSTALLED_APPS = [
    "django.contrib.contenttypes",
    "django.contrib.auth",
    "studio",
    "bookings",
    "shotplans",
]
ROOT_URLCONF = "studio.urls"
LANGUAGE_CODE = "en-gb"
TIME_ZONE = "UTC"
USE_TZ = True
