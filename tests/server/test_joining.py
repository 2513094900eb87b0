"""A joined PDF is held against ISO 14289-1 by what other libraries read from it, and against its own parts."""

from pathlib import Path

import pytest
from pypdf import PdfReader

from kb.card.press import press
from server.joining import joined
from tests.kb.card.cards import fleet
from tests.kb.card.printed import pictures, tags


@pytest.fixture(scope="module")
def parts(tmp_path_factory) -> list[Path]:
    folder = tmp_path_factory.mktemp("parts")
    cards = fleet("id1", 5)
    paths = []
    for n, some in enumerate((cards[:2], cards[2:3], cards[3:])):
        paths.append(folder / f"{n}.pdf")
        paths[-1].write_bytes(press().printed(some).pdf)
    return paths


@pytest.fixture(scope="module")
def whole(parts, tmp_path_factory) -> Path:
    to = tmp_path_factory.mktemp("whole") / "cards.pdf"
    joined(parts, to)
    return to


def read(pdf: Path) -> list[list[tuple[str, str, str]]]:
    """What is read out on each page, without the tags that only hold others together."""
    holding = ("Document", "Part")
    return [
        [(tag.kind, tag.text, tag.alternative) for tag in page.all() if tag.kind not in holding]
        for page in tags(pdf.read_bytes())
    ]


def test_every_page_is_read_out_as_in_its_part(parts, whole):
    assert read(whole) == [page for part in parts for page in read(part)]
    assert any(text for _, text, _ in read(whole)[-1])


def test_every_page_looks_as_in_its_part(parts, whole):
    alone = [picture.tobytes() for part in parts for picture in pictures(part.read_bytes(), 60)]
    assert [picture.tobytes() for picture in pictures(whole.read_bytes(), 60)] == alone


def test_it_says_what_its_first_part_says_of_itself(parts, whole):
    root, first = PdfReader(whole).trailer["/Root"], PdfReader(parts[0]).trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == first["/Lang"] == "en-GB"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert "pdfuaid:part>1<" in root["/Metadata"].get_data().decode().replace(" ", "")
    assert PdfReader(whole).metadata.title == PdfReader(parts[0]).metadata.title


def test_every_page_has_its_own_number_under_which_its_tags_are_listed(whole):
    """ISO 32000-1, 14.7.4.4: StructParents is the key of the page's entry in the parent tree."""
    reader = PdfReader(whole)
    numbers = [page["/StructParents"] for page in reader.pages]
    listed = reader.trailer["/Root"]["/StructTreeRoot"]["/ParentTree"]["/Nums"]
    assert numbers == list(listed[::2]) == list(range(10))


def test_there_is_one_document_whose_branches_point_back_to_it(parts, whole):
    tree = PdfReader(whole).trailer["/Root"]["/StructTreeRoot"]
    (document,) = tree["/K"]
    branches = [branch.get_object() for branch in document.get_object()["/K"]]
    assert [branch["/S"] for branch in branches] == ["/Part"] * len(parts)
    assert all(branch["/P"] == document.get_object() for branch in branches)


def test_the_same_parts_give_the_same_bytes(parts, whole, tmp_path):
    joined(parts, tmp_path / "again.pdf")
    assert (tmp_path / "again.pdf").read_bytes() == whole.read_bytes()
