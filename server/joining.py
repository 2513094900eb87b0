"""How do several tagged PDFs become one that is still tagged?

The only module that knows pikepdf.
Joining pages alone loses the tags; here each part's tags become one branch of a new tree, and each page is told
anew where its tags are listed.
"""

from collections.abc import Sequence
from contextlib import ExitStack
from pathlib import Path
from typing import Final

from pikepdf import Array, Dictionary, Name, Object, Pdf

_KEPT: Final = ("/Lang", "/MarkInfo", "/ViewerPreferences", "/Metadata")


def joined(parts: Sequence[Path], to: Path) -> None:
    """Write one PDF of the pages of all parts, in order, with their tags; the first one gives title and language."""
    with ExitStack() as opened, Pdf.new() as whole:
        document = whole.make_indirect(Dictionary(Type=Name.StructElem, S=Name.Document, K=Array()))
        listed = Array()
        for part in parts:
            _add(opened.enter_context(Pdf.open(part)), whole, document, listed)
        with Pdf.open(parts[0]) as first:
            _introduce(first, whole)
            roles = _copied(first, whole, first.Root.StructTreeRoot.RoleMap)
        whole.Root.StructTreeRoot = whole.make_indirect(
            Dictionary(
                Type=Name.StructTreeRoot,
                K=Array([document]),
                ParentTree=whole.make_indirect(Dictionary(Nums=listed)),
                ParentTreeNextKey=len(listed) // 2,
                RoleMap=roles,
            )
        )
        document.P = whole.Root.StructTreeRoot
        whole.save(to, min_version="1.7", deterministic_id=True)


def _add(part: Pdf, whole: Pdf, document: Object, listed: Array) -> None:
    """Add a part's pages, then the branch of its tags, which then points to the pages as they were copied."""
    before = len(whole.pages)
    first_number = len(listed) // 2
    whole.pages.extend(part.pages)
    for page in list(whole.pages)[before:]:
        page.obj.StructParents = int(page.obj.StructParents) + first_number
    root = part.Root.StructTreeRoot
    branch = _copied(part, whole, root.K[0])
    branch.S, branch.P = Name.Part, document
    document.K.append(branch)
    numbers = list(root.ParentTree.Nums)
    for number, tags in zip(numbers[::2], numbers[1::2], strict=True):
        listed.append(int(number) + first_number)
        listed.append(_copied(part, whole, tags))


def _introduce(first: Pdf, whole: Pdf) -> None:
    for name in _KEPT:
        whole.Root[name] = _copied(first, whole, first.Root[name])
    for name, value in first.docinfo.items():
        whole.docinfo[name] = value


def _copied(source: Pdf, whole: Pdf, found: Object) -> Object:
    """An object in another PDF, which takes only what has a number of its own."""
    return whole.copy_foreign(found if found.is_indirect else source.make_indirect(found))
