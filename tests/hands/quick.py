"""Hands without a browser: pages fetched, read and sent back as their own HTML has it. Belongs here: finding what is
meant on a page, and sending forms whole. No address is ever known beforehand but the front door's."""

from __future__ import annotations

from io import BytesIO
from typing import Any
from urllib.parse import urljoin

from django.test import Client
from pypdf import PdfReader

from tests.hands.hand import Hand, keys_of
from tests.hands.tree import Node, read

FIELDS = {"input", "select", "textarea"}
NOT_TYPED = {"hidden", "submit", "button", "image", "reset", "file"}


class QuickHand(Hand):
    """Somebody at a browser without a script."""

    def __init__(self, client: Client) -> None:
        super().__init__()
        self.client = client
        self.opened: set[Node] = set()
        self._open("/")

    def _open(self, address: str) -> None:
        self._arrive(address, self.client.get(address, follow=True))

    def _arrive(self, address: str, answer: Any) -> None:
        if answer.redirect_chain:
            address = urljoin(address, answer.redirect_chain[-1][0])
        self.address, self.status, self.opened = address, answer.status_code, set()
        assert answer.status_code < 500, address
        self.page = read(answer.content.decode())
        marked = [node for node in self.page.walk() if node.get("id")]
        self.by_id = {node.get("id"): node for node in marked}
        twice = {node.get("id") for node in marked if self.by_id[node.get("id")] is not node}
        assert not twice, f"{self.address}: a label leads to the first of those that are called alike: {twice}"

    # What is meant

    def _seek(self, what: str, found: list[tuple[str, Node]], words: str, beside: str) -> Node:
        """The one of these that says the words: exactly, else at its beginning, else somewhere in it."""
        for fits in (str.__eq__, str.startswith, str.__contains__):
            meant = [node for said, node in found if fits(said, words) and _is_there(node)]
            if beside:
                meant = [node for node in meant if any(beside in around.words for around in node.above())]
                meant.sort(key=lambda node: len(next(a.words for a in node.above() if beside in a.words)))
            if meant:
                self._unfold(meant[0])
                return meant[0]
        raise AssertionError(f"{self.address}: no {what} says “{words}” {beside and f'beside “{beside}”'}: "
                             f"{[said for said, _node in found]}\n{self._main()}")  # fmt: skip

    def _unfold(self, node: Node) -> None:
        """What is folded away must be opened first, once a page; those of the head bar are folded on phones alone."""
        for fold in node.above():
            folded = fold.tag == "details" and not fold.has("open") and fold.get("class") != "pages"
            inside = not any(around.tag == "summary" for around in node.above())
            if folded and inside and fold not in self.opened:
                self.opened.add(fold)
                self.counted.clicks += 1

    def _links(self) -> list[tuple[str, Node]]:
        return [(_name(node), node) for node in self.page.walk() if node.tag == "a" and node.has("href")]

    def _buttons(self) -> list[tuple[str, Node]]:
        return [(_name(node), node) for node in self.page.walk() if node.tag == "button"
                and node.get("aria-hidden") != "true" and node.get("type") != "button"]  # fmt: skip

    def _fields(self) -> list[tuple[str, Node]]:
        labels: dict[Node, str] = {}
        for node in self.page.walk():
            if node.tag == "label":
                target = self.by_id.get(node.get("for")) if node.has("for") else None
                target = target or next((one for one in node.walk() if one.tag in FIELDS), None)
                if target is not None:
                    labels.setdefault(target, _plain(node.words))
        found = []
        for node in self.page.walk():
            if node.tag in FIELDS and node.get("type") not in NOT_TYPED and not node.has("disabled"):
                found.append((node.get("aria-label") or labels.get(node) or self._labelled_by(node), node))
        return found

    def _labelled_by(self, node: Node) -> str:
        ids = node.get("aria-labelledby").split()
        return _plain(" ".join(self.by_id[one].words for one in ids if one in self.by_id))

    # What is done

    def home(self) -> None:
        self.counted.clicks += 1
        self._open("/")

    def follow(self, words: str, *, beside: str = "") -> None:
        node = self._seek("link", self._links(), words, beside)
        self.counted.clicks += 1
        self._open(urljoin(self.address, node.get("href")))

    def press(self, words: str, *, beside: str = "") -> None:
        button = self._seek("button", self._buttons(), words, beside)
        self.counted.clicks += 1
        self._send(button)

    def type(self, label: str, text: str, *, beside: str = "") -> None:
        field = self._seek("field", self._fields(), label, beside)
        self.counted.keys += keys_of(field.get("type"), text)
        if field.tag == "textarea":
            field.children = [text]
        else:
            field.attributes["value"] = text

    def pick(self, label: str, option: str, *, beside: str = "") -> None:
        lists = [(said, node) for said, node in self._fields() if node.tag == "select"]
        field = self._seek("list", lists, label, beside)
        options = [(one.words, one) for one in field.walk() if one.tag == "option"]
        chosen = self._seek("choice", options, option, "")
        self.counted.clicks += 1
        for _said, one in options:
            if not field.has("multiple"):
                one.attributes.pop("selected", None)
        chosen.attributes["selected"] = ""

    def tick(self, label: str, *, beside: str = "") -> None:
        boxes = [(said, node) for said, node in self._fields() if node.get("type") in ("checkbox", "radio")]
        box = self._seek("box", boxes, label, beside)
        self.counted.clicks += 1
        if box.get("type") == "checkbox" and box.has("checked"):
            del box.attributes["checked"]
            return
        for _said, one in boxes:
            if box.get("type") == "radio" and one.get("name") == box.get("name"):
                one.attributes.pop("checked", None)
        box.attributes["checked"] = ""

    def name_client(self, name: str) -> None:
        self.type("Client", name)
        self.press("Find", beside="Name, telephone, e-mail")
        self.tick(name)

    def find(self, text: str) -> None:
        self.counted.keys += 2
        self.type("Find anything", text)
        self._send(self._seek("button", self._buttons(), "Find", "Find anything"))

    @property
    def words(self) -> str:
        return self.page.words

    def _main(self) -> str:
        return next((node.words for node in self.page.walk() if node.tag == "main"), self.words)[:3000]

    def says(self, *texts: str) -> None:
        for text in texts:
            assert text in self.words, f"{self.address}: “{text}” is not said:\n{self._main()}"

    def paper(self, words: str, *, beside: str = "") -> str:
        node = self._seek("link", self._links(), words, beside)
        self.counted.clicks += 1
        answer = self.client.get(urljoin(self.address, node.get("href")), follow=True)
        assert answer["Content-Type"] == "application/pdf", answer["Content-Type"]
        data = answer.getvalue()
        return " ".join(" ".join(page.extract_text() for page in PdfReader(BytesIO(data)).pages).split())

    def cut_off(self) -> None:
        """Nothing is kept here on a device: what is typed meanwhile comes in at once."""

    def back_on(self) -> None:
        """Nothing has waited."""

    # How a form is sent

    def _send(self, button: Node) -> None:
        form = self.by_id[button.get("form")] if button.has("form") else _around(button, "form")
        sent: dict[str, list[Any]] = {}
        for node in self.page.walk():
            of = self.by_id.get(node.get("form")) if node.has("form") else _around(node, "form")
            if of is form and node.has("name") and not node.has("disabled"):
                if node.tag in FIELDS:
                    sent.setdefault(node.get("name"), []).extend(_values(node))
                elif node is button:
                    sent.setdefault(node.get("name"), []).append(node.get("value"))
        address = urljoin(self.address, button.get("formaction") or form.get("action") or self.address)
        if form.get("method").lower() == "post":
            self._arrive(address, self.client.post(address, sent, follow=True))
        else:
            self._arrive(address, self.client.get(address, sent, follow=True))


def _values(node: Node) -> list[Any]:
    kind = node.get("type")
    if node.tag == "select":
        options = [one for one in node.walk() if one.tag == "option"]
        chosen = [one for one in options if one.has("selected")]
        if not node.has("multiple"):
            chosen = chosen[-1:] or options[:1]
        return [one.attributes.get("value", one.words) for one in chosen]
    if node.tag == "textarea":
        return [node.raw.removeprefix("\n")]
    if kind in ("checkbox", "radio"):
        return [node.attributes.get("value", "on")] if node.has("checked") else []
    return [] if kind in NOT_TYPED - {"hidden"} else [node.get("value")]


def _around(node: Node, tag: str) -> Node:
    return next((one for one in node.above() if one.tag == tag), Node("none", {}, None))


def _name(node: Node) -> str:
    return node.get("aria-label") or node.words


def _plain(words: str) -> str:
    return words.rstrip("*").strip()


def _is_there(node: Node) -> bool:
    return not any(around.has("hidden") or around.tag in ("template", "dialog") for around in node.above())
