"""The root table of addresses. Belongs here: one line for each app that has pages. No app has any yet."""

from django.urls import URLPattern, URLResolver

urlpatterns: list[URLPattern | URLResolver] = []
