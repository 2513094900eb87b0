"""What the desk does along the script: begin a fault, pick up a household's walk, answer, go back."""

from starlette.responses import RedirectResponse, Response

from kb.article import Audience, Step
from kb.desk.danger import clear_trail
from kb.desk.events import Did
from kb.desk.picking_up import pick_up
from kb.desk.script import Place, answer_for
from kb.desk.unsure import CANNOT
from kb.guide import answer_to
from kb.reference import Slip
from kb.trail import gone_words
from server.desk.acting import Verbs
from server.desk.book import Opened
from server.desk.keeping import Keeper, text
from server.desk.leading import CANT_TELL
from server.desk.showing import send
from server.staff import Visit
from server.web.errors import NotFound
from server.web.readings import figure

SLIPS = {
    Slip.MISTYPED: "A character of that is wrong. Let them read it once more.",
    Slip.NO_SUCH_ARTICLE: "What they walked is no longer in our guidance. Begin with what is wrong.",
}
"""Why a reference leads nowhere."""


class Scripting:
    """What is done along the script."""

    def __init__(self, keeper: Keeper) -> None:
        """Act on the calls of one keeper."""
        self._keeper = keeper
        self._site = keeper.site
        self._shown = keeper.shown
        self._book = keeper.book

    def verbs(self) -> Verbs:
        """Everything that can be done here, by the last part of its address."""
        return {
            "fault": self.fault,
            "reference": self.reference,
            "turn": self.turn,
            "answer": self.answer,
            "back": self.back,
            "read-back": self.read_back,
        }

    def fault(self, visit: Visit) -> Response:
        """Begin with an article, or go on where it was begun before."""
        article = visit.form.get("article", "")
        found = self._site.library.articles.get(article)
        if found is None or found.first(Audience.HOUSEHOLD) is None:
            raise NotFound
        branches = self._keeper.find(visit).reading.call.branches
        begun = next((number for number, branch in enumerate(branches) if branch.article == article), None)
        if begun is not None:
            return self._keeper.did(visit, Did.TURNED, {"branch": str(begun)})
        return self._keeper.did(visit, Did.BEGAN, {"article": article, "trail": clear_trail(self._site.library)})

    def reference(self, visit: Visit) -> Response:
        """Go on where a household stands that walked already."""
        opened = self._book.find(visit.request)
        written = text(visit, "reference")
        found = pick_up(self._site.library, written, [opened.known] if opened.home else [], self._site.earlier)
        if found.slip in SLIPS or not found.article:
            called = f"They walked “{found.title}”. " if found.title else ""
            page = self._shown.gatherer.what(opened, visit, written, called + SLIPS[found.slip or Slip.MISTYPED])
            return send(page, 422)
        if found.key and opened.home is None and (home := self._book.home(found.key)):
            old = {} if home.key == found.key else {"old": found.key}
            self._keeper.keep(opened, visit, Did.HOME, {"key": home.key, **old})
        said = {"article": found.article, "trail": found.trail, "how": found.how, "lost": str(found.lost)}
        return self._keeper.did(visit, Did.BEGAN, {**said, **({"slip": found.slip.value} if found.slip else {})})

    def turn(self, visit: Visit) -> Response:
        """Back to a fault that was begun before."""
        return self._keeper.did(visit, Did.TURNED, {"branch": visit.form.get("branch", "")})

    def answer(self, visit: Visit) -> Response:
        """An answer at the step that waits, chosen or typed."""
        opened = self._book.find(visit.request)
        place = opened.reading.place
        if place is None or not isinstance(place.at, Step) or not opened.reading.agenda.clear:
            return RedirectResponse(opened.address, 303)
        expected = (str(opened.reading.call.current), str(place.onward))
        if (visit.form.get("branch"), visit.form.get("place")) != expected:
            # A page from before, or a key pressed twice: the call stands where it stands.
            return RedirectResponse(opened.address, 303)
        if text(visit, "reading"):
            return self._read(opened, place.at, visit)
        token = visit.form.get("piece", "")
        answer = answer_for(place.at, token)
        if answer is None and token != CANNOT:
            return RedirectResponse(opened.address, 303)
        return self._answered(opened, visit, place.at, token, answer.text if answer else CANT_TELL)

    def _read(self, opened: Opened, step: Step, visit: Visit) -> Response:
        typed = text(visit, "reading")[:20]
        reading = figure(typed)
        answer = answer_to(step, reading, opened.known) if reading is not None else None
        if answer is None or reading is None:
            return self._shown.at(opened, visit, f"“{typed}” cannot be on that gauge. Type it like 1.2.", typed)
        return self._answered(opened, visit, step, f"{answer.token}~{reading:g}", f"{answer.text} ({reading:g} bar)")

    def _answered(self, opened: Opened, visit: Visit, step: Step, piece: str, words: str) -> Response:
        said = {"branch": visit.form.get("branch", ""), "place": visit.form.get("place", ""), "piece": piece}
        kept = _kept(opened.reading.place)
        return self._keeper.did(visit, Did.ANSWERED, {**said, **kept, "question": step.title, "answer": words})

    def back(self, visit: Visit) -> Response:
        """Back to a question, to answer it again."""
        said = {"branch": visit.form.get("branch", ""), "place": visit.form.get("place", ""), "piece": ""}
        reading = self._book.find(visit.request).reading
        here = reading.place if said["branch"] == str(reading.call.current) else None
        return self._keeper.did(visit, Did.ANSWERED, {**said, **_kept(here)})

    def read_back(self, visit: Visit) -> Response:
        """What came with a reference was read back, and holds."""
        return self._keeper.did(visit, Did.READ_BACK, {"branch": visit.form.get("branch", "")})


def _kept(place: Place | None) -> dict[str, str]:
    """What becomes of earlier answers that the walk does not take: most wait on, and some are told and let go."""
    if place is None or not (place.stays or place.drops):
        return {}
    dropped = gone_words([each for each in place.gone if each.number in place.drops])
    numbers = {"stays": place.stays, "drops": place.drops}
    return {name: " ".join(map(str, those)) for name, those in numbers.items()} | {"dropped": "\n".join(dropped)}
