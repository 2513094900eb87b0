"""How do several tagged PDFs become one that is still tagged?

The only module that knows pikepdf.
Joining pages alone loses the tags; here each part's tags become one branch of a new tree, and each page is told
anew where its tags are listed.
"""

from collections.abc import Iterable
from pathlib import Path
from typing import Final

from pikepdf import Array, Dictionary, Name, Object, ObjectStreamMode, Pdf

_KEPT: Final = ("/Lang", "/MarkInfo", "/ViewerPreferences", "/Metadata")


def joined(parts: Iterable[Path], to: Path) -> bool:
    """Write one PDF of the pages of all parts, in order, with their tags; the first one gives title and language.

    A part is read as it comes and let go of, so that joining goes on while later parts are still made.
    False where there is no part, and then nothing is written.
    """
    with Pdf.new() as whole:
        document = whole.make_indirect(Dictionary(Type=Name.StructElem, S=Name.Document, K=Array()))
        listed = Array()
        roles: Object | None = None
        for path in parts:
            with Pdf.open(path) as part:
                _add(part, whole, document, listed)
                roles = roles or _introduced(part, whole)
        if roles is None:
            return False
        whole.Root.StructTreeRoot = document.P = whole.make_indirect(
            Dictionary(
                Type=Name.StructTreeRoot,
                K=Array([document]),
                ParentTree=whole.make_indirect(Dictionary(Nums=listed)),
                ParentTreeNextKey=len(listed) // 2,
                RoleMap=roles,
            )
        )
        # Tags are thousands of small objects: packed together they take a third of the room, and no longer.
        whole.save(to, min_version="1.7", deterministic_id=True, object_stream_mode=ObjectStreamMode.generate)
    return True


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


def _introduced(first: Pdf, whole: Pdf) -> Object:
    """What the first part says of itself is said of the whole; its names for kinds of tags are returned."""
    for name in _KEPT:
        whole.Root[name] = _copied(first, whole, first.Root[name])
    for name, value in first.docinfo.items():
        whole.docinfo[name] = value
    return _copied(first, whole, first.Root.StructTreeRoot.RoleMap)


def _copied(source: Pdf, whole: Pdf, found: Object) -> Object:
    """An object in another PDF, which takes only what has a number of its own."""
    return whole.copy_foreign(found if found.is_indirect else source.make_indirect(found))
