"""Addresses of this app. Belongs here: one line for each page. No page yet."""

from django.urls import URLPattern, URLResolver

urlpatterns: list[URLPattern | URLResolver] = []
