"""A home's card on a page, as the very drawing that is printed, for whichever room shows it."""

from server.preview.files import pdf_file, picture_file
from server.preview.pages import CardPage, Picture, SizeLink, Way, Wrong
from server.preview.views import SIZES, Around, card_page, card_response, pictures, size_links, wrongs

__all__ = [
    "SIZES",
    "Around",
    "CardPage",
    "Picture",
    "SizeLink",
    "Way",
    "Wrong",
    "card_page",
    "card_response",
    "pdf_file",
    "picture_file",
    "pictures",
    "size_links",
    "wrongs",
]
