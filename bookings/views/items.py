"""Items and rules of tax. Belongs here: the owner's pages for both."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _

from bookings.forms.items import ItemForm, TaxRuleForm
from bookings.models import Item, TaxRule
from studio import clock
from studio.access import allow, profile_of


@allow("owner")
def items(request: HttpRequest) -> HttpResponse:
    rows = Item.objects.prefetch_related("prices")
    today = clock.today()
    said = {"items": [(row, row.price_on(today)) for row in rows], "currency": profile_of(request).currency}
    return render(request, "bookings/items.html", said)


@allow("owner")
def item(request: HttpRequest, pk: int) -> HttpResponse:
    return _item_page(request, get_object_or_404(Item.objects.prefetch_related("prices"), pk=pk))


@allow("owner")
def new_item(request: HttpRequest) -> HttpResponse:
    return _item_page(request, Item())


def _item_page(request: HttpRequest, row: Item) -> HttpResponse:
    form = ItemForm(request.POST or None, instance=row)
    if request.method == "POST" and form.is_valid() and form.keep():
        messages.success(request, _("%(name)s is saved.") % {"name": row.name})
        return redirect("items")
    said = {"form": form, "item": row, "currency": profile_of(request).currency}
    return render(request, "bookings/item.html", said, status=422 if form.is_bound else 200)


@allow("owner")
def tax_rules(request: HttpRequest) -> HttpResponse:
    """All rules, and a new one: what was in force stays in force for the days before it."""
    form = TaxRuleForm(request.POST or None, initial={"from_day": clock.today()})
    if request.method == "POST" and form.is_valid():
        form.save()
        messages.success(request, _("The rule is saved. Bills made before keep theirs."))
        return redirect("tax_rules")
    said = {"form": form, "rules": TaxRule.objects.all()}
    return render(request, "bookings/tax_rules.html", said, status=422 if form.is_bound else 200)
