"""What every answer of the desk says to the browser: everything comes from here, nothing inline, nothing kept."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from django.http import HttpRequest, HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.middleware.gzip import GZipMiddleware

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data: blob:",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
PERMISSIONS = "camera=(self), geolocation=(), microphone=(), payment=(), usb=()"


class Headers:
    """Adds the policy; pages of jobs are not kept by caches on the way, what came by https goes back by https only."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Answer, with the headers."""
        request.get_host()  # another name than ours is refused here, whether or not a view asks for it
        response = self.get_response(request)
        response.headers.setdefault("Content-Security-Policy", POLICY)
        response.headers.setdefault("Permissions-Policy", PERMISSIONS)
        response.headers.setdefault("Cross-Origin-Resource-Policy", "same-origin")
        response.headers.setdefault("Cache-Control", "no-store")
        if response.headers.get("Content-Type", "").startswith("application/json"):
            response.headers.setdefault("Content-Disposition", 'attachment; filename="desk.json"')  # no page of its own
        if request.is_secure():
            for cookie in response.cookies.values():
                cookie["secure"] = True
        return response


SHRINKS = ("text/", "application/json", "application/javascript", "image/svg+xml")


class Shorter(GZipMiddleware):
    """Text goes out compressed, with bytes by chance added to it, so that its length tells nothing of its words.

    A photograph or a PDF would not become shorter.
    """

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Answer, compressed; what a browser has kept compressed is known again by its own mark."""
        known = request.META.get("HTTP_IF_NONE_MATCH", "")
        if known.startswith("W/"):
            request.META["HTTP_IF_NONE_MATCH"] = known[2:]
        return cast(HttpResponseBase, super().__call__(request))

    def process_response(self, request: HttpRequest, response: HttpResponseBase) -> HttpResponseBase:
        """Compress it, if it is text."""
        text = response.headers.get("Content-Type", "").startswith(SHRINKS)
        return (
            super().process_response(request, response)
            if text and isinstance(response, HttpResponse | StreamingHttpResponse)
            else response
        )
