"""Rows of the bookings. Belongs here: their names in one place, so that others import from `bookings.models`."""

from bookings.models.bills import DayCount, Invoice, Quote
from bookings.models.claims import Claim, ResourceKind
from bookings.models.clients import Client
from bookings.models.clocks import LateReason, Wait
from bookings.models.comfort import Notes, Wish
from bookings.models.complaints import Cause, Complaint, ComplaintChange, Reshoot
from bookings.models.history import SittingChange, StageChange
from bookings.models.holds import Hold
from bookings.models.intake import Intake, IntakeAnswer, ReleaseWording
from bookings.models.invitations import Answer, CalendarAddress, Invitation
from bookings.models.items import Item, ItemKind, ItemPrice, TaxRule
from bookings.models.keeping import Erasure, NoteReading, NotesPurged
from bookings.models.kinds import Kind
from bookings.models.letters import Attachment, Letter, LetterKind
from bookings.models.lists import SentList
from bookings.models.money import Charge, Payment, Trust
from bookings.models.numbers import NumberSeries
from bookings.models.permissions import Consent, Guardian, How, Release, Waiver
from bookings.models.prices import Price
from bookings.models.rebooking import AskedBack
from bookings.models.rotas import Place, PlaceChange, Rota, State
from bookings.models.sitters import Sitter
from bookings.models.sittings import Sitting, Stage
from bookings.models.terms import Terms, TermsWording
from bookings.models.wanted import WantedTime
from bookings.models.wordings import Wording

__all__ = [
    "Answer",
    "AskedBack",
    "Attachment",
    "CalendarAddress",
    "Cause",
    "Charge",
    "Claim",
    "Client",
    "Complaint",
    "ComplaintChange",
    "Consent",
    "DayCount",
    "Erasure",
    "Guardian",
    "Hold",
    "How",
    "Intake",
    "IntakeAnswer",
    "Invitation",
    "Invoice",
    "Item",
    "ItemKind",
    "ItemPrice",
    "Kind",
    "LateReason",
    "Letter",
    "LetterKind",
    "NoteReading",
    "Notes",
    "NotesPurged",
    "NumberSeries",
    "Payment",
    "Place",
    "PlaceChange",
    "Price",
    "Quote",
    "Release",
    "ReleaseWording",
    "Reshoot",
    "ResourceKind",
    "Rota",
    "SentList",
    "Sitter",
    "Sitting",
    "SittingChange",
    "Stage",
    "StageChange",
    "State",
    "TaxRule",
    "Terms",
    "TermsWording",
    "Trust",
    "Wait",
    "Waiver",
    "WantedTime",
    "Wish",
    "Wording",
]
