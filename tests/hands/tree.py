"""A page as a tree, read from its HTML as a browser without a script would. Belongs here: nodes and the reader. Not
here: which of them somebody means (`quick`)."""

from __future__ import annotations

from collections.abc import Iterator
from html.parser import HTMLParser

NEVER_CLOSED = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
UNREAD = {"script", "style", "template", "noscript", "head", "svg"}
CLOSES = {"option": {"option"}, "li": {"li"}, "tr": {"tr", "td", "th"}, "td": {"td", "th"}, "th": {"td", "th"},
          "dt": {"dt", "dd"}, "dd": {"dt", "dd"}, "p": {"p"}}  # fmt: skip


class Node:
    """One element; texts between its children are kept among them."""

    def __init__(self, tag: str, attributes: dict[str, str], parent: Node | None) -> None:
        self.tag, self.attributes, self.parent = tag, attributes, parent
        self.children: list[Node | str] = []

    def get(self, name: str) -> str:
        return self.attributes.get(name, "")

    def has(self, name: str) -> bool:
        return name in self.attributes

    def walk(self) -> Iterator[Node]:
        """This one and all below it, in the order of the page."""
        yield self
        for child in self.children:
            if isinstance(child, Node):
                yield from child.walk()

    def above(self) -> Iterator[Node]:
        """This one and all around it, inside out."""
        node: Node | None = self
        while node is not None:
            yield node
            node = node.parent

    @property
    def raw(self) -> str:
        """Every letter inside it that is there to be read."""
        if self.tag in UNREAD:
            return ""
        return "".join(child if isinstance(child, str) else child.raw for child in self.children)

    @property
    def words(self) -> str:
        return " ".join(_spaced(self).split())


def _spaced(node: Node) -> str:
    """The words, with those of two cells or lines kept apart."""
    if node.tag in UNREAD:
        return ""
    inside = "".join(child if isinstance(child, str) else _spaced(child) for child in node.children)
    return inside if node.tag in INLINE else f" {inside} "


INLINE = {"a", "b", "strong", "em", "i", "span", "small", "code", "abbr", "bdi", "dfn", "time", "sup", "sub", "kbd"}


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.root = Node("html", {}, None)
        self.at = self.root

    def handle_starttag(self, tag: str, pairs: list[tuple[str, str | None]]) -> None:
        while self.at.tag in CLOSES.get(tag, ()) and self.at.parent is not None:
            self.at = self.at.parent
        node = Node(tag, {name: value or "" for name, value in pairs}, self.at)
        if tag != "template":  # what a script would copy is not on the page
            self.at.children.append(node)
        if tag not in NEVER_CLOSED:
            self.at = node

    def handle_endtag(self, tag: str) -> None:
        found = next((node for node in self.at.above() if node.tag == tag), None)
        if found is not None and found.parent is not None:
            self.at = found.parent

    def handle_data(self, data: str) -> None:
        self.at.children.append(data)


def read(html: str) -> Node:
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return reader.root
