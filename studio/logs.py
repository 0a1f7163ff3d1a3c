"""What the machine's log is told: a line of JSON for each request and each fault, and nothing of anybody. Belongs here:
the middleware that numbers requests, the lines, and what may stand in them.

A line names the page by its pattern and not by its address, for addresses hold numbers of sittings, clients' links and
secrets. A fault is told by its kind and where it happened, without its own words, for those may quote what somebody
typed. What another library says is kept as it was written in its source, with numbers filled in and nothing else.
"""

from __future__ import annotations

import json
import logging
import re
import secrets
import time
import traceback
from collections.abc import Callable
from contextvars import ContextVar
from datetime import UTC, datetime
from typing import Any

from django.http import HttpRequest, HttpResponse

HEADER = "X-Request-ID"
log = logging.getLogger("studio.requests")
_number: ContextVar[str] = ContextVar("number", default="")
_MAY_BE_TOLD = ("route", "method", "status", "ms")


def number() -> str:
    """The number of the request that is being answered; nothing outside one."""
    return _number.get()


def numbered(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """The middleware: each request has a number, in its answer's head, on the page of a fault and in each line. Made
    here and never taken from who asks, so that it says nothing but itself."""

    def answered(request: HttpRequest) -> HttpResponse:
        token, began = _number.set(secrets.token_hex(6)), time.perf_counter()
        try:
            answer = get_response(request)
            answer[HEADER] = number()
            ms = round((time.perf_counter() - began) * 1000, 1)
            said = {"route": route_of(request), "method": method_of(request), "status": answer.status_code, "ms": ms}
            log.info("answered", extra=said)
            return answer
        finally:
            _number.reset(token)

    return answered


def route_of(request: HttpRequest) -> str:
    """The pattern of the page; of one that is not there nothing, for its address is anybody's words."""
    found = getattr(request, "resolver_match", None)
    return f"/{found.route}" if found else ""


def method_of(request: HttpRequest) -> str:
    """Any word may be sent as one."""
    known = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS")
    return request.method if request.method in known else "other"


class AsJson(logging.Formatter):
    """A line of JSON: when, how grave, who says so, what, the request's number, and of a fault its kind and place."""

    def format(self, record: logging.LogRecord) -> str:
        at = datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds")
        line: dict[str, Any] = {"at": at, "level": record.levelname, "by": record.name, "says": said_of(record)}
        if number():
            line["request"] = number()
        request = getattr(record, "request", None)
        if isinstance(request, HttpRequest):
            line |= {"route": route_of(request), "method": method_of(request)}
        line |= {name: value for name in _MAY_BE_TOLD if (value := record.__dict__.get(name)) is not None}
        if record.exc_info and record.exc_info[0] is not None:
            line |= fault_of(*record.exc_info[1:])  # type: ignore[arg-type]
        return json.dumps(line, ensure_ascii=False, default=lambda value: type(value).__name__)


def said_of(record: logging.LogRecord) -> str:
    """What a line says as its source has it: numbers are filled in, texts stay as their blanks. What is no text at all,
    or was put together before it came here by another library, is told by its kind."""
    if not isinstance(record.msg, str):
        return type(record.msg).__name__
    if record.name.startswith("django.security"):
        return "refused as suspicious"  # says what was sent
    if isinstance(record.args, tuple) and record.args and all(isinstance(one, (int, float)) for one in record.args):
        return record.getMessage()
    return re.sub(r"%(\(\w+\))?[#0\- +]*[\d.]*[sra]", "…", record.msg)


def fault_of(error: BaseException, trace: Any) -> dict[str, Any]:
    """The kind of a fault and the way to it, innermost last; without the fault's words."""
    frames = traceback.extract_tb(trace)
    return {"fault": type(error).__name__, "where": [f"{f.filename}:{f.lineno} {f.name}" for f in frames[-12:]]}
