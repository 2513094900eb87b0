"""Does a text ask for an act that no household may do, or for one that may be done only so often?"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from kb.asking import asked
from kb.reading import sentences

# A thing may stand a few words behind its verb, but not behind a preposition: "open the tap in front of the
# boiler" opens a tap.
_GAP: Final = (
    r"(?:(?!(?:on|in|at|under|behind|near|by|beside|from|through|inside|below|above|to|with|over|into|for|off|out|up|"
    r"and|so|of)\b)[\w'-]+,? ){0,5}"
)
_CASE: Final = (
    r"(?:case|casing|covers?|panels?(?! (?:heater|radiator))|lid|housing|front(?! (?:door|room|garden|page))|"
    r"(?:boiler|burner)(?:'s)? door|jacket|faceplate)"
)
_GAS: Final = (
    r"(?:gas(?! (?:hob|cooker|oven|fire|ring|rings|appliances?|boiler|bill|(?:meter )?(?:box|cupboard|cabinet|door|"
    r"flap)))|emergency (?:control )?valve|meter valve|valve (?:at|by|on|near) the (?:gas )?meter)"
)
_ON: Final = r"\b(?:back on|on again|open|back|on(?=$|[.,;!?]| (?:again|slowly|now|yourself|for|and|then|at the (?:meter|valve))))"
_FLAME: Final = (
    r"(?:flames?(?! (?:sign|symbol|picture|icon|mark|light|failure|window))|match(?:es)?|lighter|candles?|tea ?lights?|"
    r"blow[ -]?(?:torch|lamp)|cigarettes?|heat[ -]?gun|hot[ -]air gun|hair[ -]?dri?yer|hair[ -]?drier)"
)
_TOOL: Final = (
    r"(?:screwdrivers?|spanners?|pliers|wrench(?:es)?|drill|hammer|allen keys?|hex keys?|grips|multimeter|crowbar|"
    r"knife|chisel|coat ?hanger|hacksaw|rods?|wire)"
)
_TURN: Final = r"(?:turn|switch|put|bring|get|move|set|have|push)(?:t?ing)?"
_OPENS_BY_HAND = re.compile(
    r"\b(?:meter|consumer unit|fuse ?box|fuse ?board)\b|\bbatter(?:y|ies)\b|\bradiator covers?\b|\bcushion|\bbed ?cover"
)
_MADE_TO_OPEN = re.compile(r"(?:open|lift|slide|close)")
_HAND_THINGS: Final = r"(?:bleed|cap|hose|battery|batteries|bulb|key|plug)\b"


@dataclass(frozen=True, slots=True)
class _Act:
    """An act, the words that ask for it, and the words that make it another, harmless one."""

    name: str
    asks: re.Pattern[str]
    unless: re.Pattern[str] | None = None
    only_near: re.Pattern[str] | None = None

    def in_part(self, part: str, sentence: str) -> bool:
        """Whether a part of a sentence that asks for something asks for this."""
        return (
            self.asks.search(part) is not None
            and not (self.unless and self.unless.search(sentence))
            and not (self.only_near and not self.only_near.search(sentence))
        )


def _act(name: str, asks: str, unless: str = "", only_near: str = "") -> _Act:
    return _Act(
        name,
        re.compile(asks),
        re.compile(unless) if unless else None,
        re.compile(only_near) if only_near else None,
    )


_OPENING: Final = "open the case"
_FORBIDDEN: Final = (
    _act(
        _OPENING,
        rf"\b(?:open|remov|unscrew|undo|unclip|unhook|lift|pull|pris|slid|drop|tak|detach|unlatch|unlock|loosen|get|pop)"
        rf"(?:e|ing|ping|ting|ed|n)?\b (?:off |open |away |up |down |out )?{_GAP}{_CASE}\b",
    ),
    _act(
        _OPENING,
        rf"\b(?:with|have|without) {_GAP}{_CASE}\b(?: is| are)?(?: \w+)? (?:off|open|opened|removed|undone|lifted)\b",
    ),
    _act(_OPENING, rf"\bwithout (?:its|the|a) {_CASE}\b"),
    _act(
        _OPENING,
        r"\b(?:open(?:ing)?|dismantl\w+|strip(?:ping)?)\b (?:up |down )?(?:the |your |its )?(?:gas |oil )?"
        r"(?:boiler|burner|appliance|flue|sump|trap|condensate trap|combustion chamber)\b(?!'| (?:cupboard|room|door|book))",
    ),
    _act(
        "reach into the boiler",
        r"\b(?:look|reach|put|poke|feel|shine)\w*\b .*\b(?:inside|into|in) (?:the |your )?(?:boiler|case|casing|burner|flue)\b"
        r"(?!'| (?:cupboard|room|book|manual|handbook|instructions|user))",
    ),
    _act("take something apart", r"\btak(?:e|ing)\b .*\bapart\b"),
    _act(
        "turn a screw",
        rf"\b(?:undo|unscrew|loosen|remov|turn|tak|slacken|tighten)(?:e|ing)?\b (?:out |off )?{_GAP}"
        r"(?:screws?|bolts?|nuts?|fixings?)\b",
        unless=r"\bbleed",
    ),
    _act("turn a screw", rf"\bunscrew(?:ing)?\b (?!{_GAP}{_HAND_THINGS})"),
    _act("turn the gas on", rf"\b{_TURN} (?:back )?on (?:again )?{_GAP}{_GAS}\b"),
    _act("turn the gas on", rf"\b{_TURN}\b {_GAP}{_GAS}\b.*?{_ON}"),
    _act(
        "turn the gas on", rf"\b(?:re-?open|open|restor|re-?connect|restart|releas)(?:e|ing)?\b (?:up )?{_GAP}{_GAS}\b"
    ),
    _act(
        "turn the gas on",
        rf"\b(?:make sure|ensure|have)\b .*{_GAS}\b.*\b(?:is |are )?(?:turned |switched )?(?:back )?(?:on|open)$",
    ),
    _act(
        "turn the gas on",
        rf"\b{_TURN}\b {_GAP}(?:lever|handle|valve|tap)\b.*\b(?:in line|along|parallel)\b",
        only_near=r"\b(?:gas|meter)\b",
    ),
    _act(
        "use a flame",
        r"\b(?:us|hold|light|strik|bring|put|apply|play|point|mov|burn|try|with|pass|wav|aim|tak)(?:e|ing)?\b "
        rf"{_GAP}{_FLAME}\b",
    ),
    _act("smoke", r"\bsmoke (?:a|your|outside|in|while)\b|\bhave a (?:smoke|cigarette)\b"),
    _act(
        "burn fuel to keep warm",
        r"\b(?:heat|warm|keep)\w*\b .*\b(?:with|using|by)\b.*\b(?:oven|hob|cooker|barbecue|camping)\b",
    ),
    _act(
        "burn fuel to keep warm",
        rf"\b(?:us|light|bring|burn|start|set up)(?:e|ing)?\b (?:in )?{_GAP}"
        r"(?:barbecue|patio heater|camping (?:stove|heater)|generator)\b",
    ),
    _act("burn fuel to keep warm", r"\bus(?:e|ing) (?:the |your )?(?:oven|hob|cooker)\b.*\b(?:heat|warm)"),
    _act(
        "use boiling water",
        r"\b(?:pour|us|put|tip|throw|fill|run|add|splash|with|apply|melt|thaw)(?:e|ing)?\b .*"
        r"\b(?:boiling|scalding|very hot|just boiled)\b",
    ),
    _act("use boiling water", rf"\b(?:straight|direct|directly) from {_GAP}kettle\b"),
    _act(
        "use boiling water",
        r"\b(?:pour|tip|throw|us|empty)(?:e|ing)?\b .*\bkettle\b",
        unless=r"\b(?:basin|bowl|sink|bath|drinks?|tea|cup|wash|cool|cold|plug|socket)\b",
    ),
    _act(
        "use boiling water",
        r"\b(?:pour|tip|throw|splash|run)(?:ing)?\b (?!.*hand-hot).*\bhot water\b(?! bottle).*\b(?:pipe|it|ice)\b",
    ),
    _act(
        "climb",
        r"\b(?:us|climb|fetch|get|put|stand|go|lean|set|tak|bring|borrow|find|with)(?:e|t?ing)?\b "
        rf"(?:up |on |onto |out |down )*(?:to |from |against )?{_GAP}(?:step-?ladders?|ladders?|roof)\b",
    ),
    _act(
        "climb",
        r"\b(?:(?:stand|climb|step|get|go|reach)(?:t?ing)?(?: up)? (?:on|onto|from)(?: to| top of)?) "
        rf"{_GAP}(?:chair|stool|table|worktop|windowsill|sill|bath|toilet|box|bucket)\b",
    ),
    _act("climb", rf"\bus(?:e|ing) {_GAP}(?:chair|stool|table|box|bucket)\b.*\b(?:reach|see|look|get|higher)\b"),
    _act("climb", r"\bclimb(?:ing)?\b(?! (?:up )?(?:the |your )?stairs)"),
    _act("climb", r"\blean(?:ing)? out\b"),
    _act(
        "go into the loft",
        r"\b(?:go|get|crawl|look|reach|climb)(?:t?ing)?\b (?:up |in |into |inside )+(?:the |your )?(?:loft|attic|roof space)\b",
        unless=r"\bboard",
    ),
    _act(
        "stay inside",
        r"\b(?:stay|wait|remain|sit|keep)(?:ing)?\b .{0,20}?\b(?:inside|indoors|at home|in bed|"
        r"in the (?:house|home|building|flat|room|kitchen))\b",
        only_near=r"\b(?:gas|smell|fumes|smoke|alarm|carbon monoxide)\b",
    ),
    _act(
        "go back in",
        r"\b(?:go|come|get|run|pop|nip)(?:t?ing)? back (?:in|inside|indoors|into|to the house)\b",
        unless=r"\b(?:when|once|until|after|unless|if)\b.*\b(?:they|engineer|service|safe|told)\b",
    ),
    _act(
        "look for a gas leak",
        r"\b(?:look|search|feel|hunt|sniff|check|find|trac|listen|smell)(?:e|ing)?\b (?:around |about |out |for |where |the )*"
        rf"{_GAP}(?:gas leaks?|gas is (?:coming|leaking)|smell (?:is|comes)|(?:leak|source) of (?:the )?(?:gas|smell))\b",
    ),
    _act(
        "use a tool",
        rf"\b(?:us|with|tak|get|fetch|find|grab|need|turn|apply|put|borrow)(?:e|ing)?\b {_GAP}{_TOOL}\b",
    ),
    _act(
        "wedge a control",
        rf"\b(?:wedg|jam|tap|ti|ty|prop)(?:e|ing|ming|ping)?\b {_GAP}(?:button|valve|lever|switch|knob|breaker)\b",
        unless=r"^tap\b",
    ),
    _act(
        "block an opening",
        rf"\b(?:block|plug|cap|cover|seal|stuff|tap|stop)(?:e|ing|ging|ping)?\b (?:up |off |over )?{_GAP}"
        r"(?:vents?|air ?bricks?|flue|terminal|grilles?|(?:relief|discharge|copper) pipe|overflow|tundish)\b",
    ),
    _act(
        "silence an alarm",
        rf"\b(?:silenc|mut|reset|unplug|remov|disconnect|ignor)(?:e|t?ing)?\b (?:down )?{_GAP}alarm\b|"
        rf"\b(?:turn|switch)(?:ing)? (?:off {_GAP}alarm\b|{_GAP}alarm off\b)|\btak(?:e|ing)\b.*\b(?:from|out of|off) (?:the |your )?(?:\w+ ){{0,3}}alarm\b|\btak(?:e|ing) {_GAP}alarm (?:down|off)\b",
    ),
    _act(
        "change a fuse",
        rf"\b(?:chang|replac|swap|fit|bridg|bypass)(?:e|ing|ping|ting)?\b {_GAP}fuses?\b(?! ?(?:box|board))",
    ),
    _act(
        "open a pipe",
        rf"\b(?:cut|disconnect|undo|break|open|loosen)(?:t?ing)?\b (?:off |into )?{_GAP}"
        r"(?:(?:gas|condensate|plastic|flue|copper) pipe|pipe joint|joint|trap|pipework|regulator)\b|"
        rf"\b(?:pull|tak)(?:e|ing)?\b (?:off |out |away )?{_GAP}(?:(?:gas|condensate|plastic|flue) pipe|trap)\b",
    ),
    _act("adjust the burner", rf"\b(?:adjust|alter)(?:ing)?\b {_GAP}(?:gas valve|burner|gas pressure|air shutter)\b"),
    _act("reset a regulator", rf"\b(?:reset|thaw|warm|melt)(?:t?ing)?\b {_GAP}regulator\b"),
    _act(
        "try without end",
        r"\bkeep (?:on )?(?:pressing|resetting|topping|trying (?:the )?reset)\b|"
        r"\b(?:reset|press|top|try)(?:t?ing)?\b.*\b(?:again and again|over and over|as often as)\b",
    ),
)

_WATER_ELSEWHERE: Final = r"\b(?:meter|credit|debt|card|account|payment|oil|key fob|smart)\b"
_LIMITED: Final = (
    _act(
        "reset",
        r"\b(?:press|push|hold|turn|us|try)(?:e|ing)?\b .*\breset\b|^reset\b|\breset(?:ting)? (?:the |your )?(?:boiler|burner|it)\b",
        unless=r"\breset (?:the |your |its )?(?:clock|timer|thermostat|programmer|room control)\b",
    ),
    _act(
        "top-up",
        r"\btop(?:ping)? (?:\w+ ){0,3}up\b|\btop(?:ping)? up\b|\blet(?:ting)? (?:some |a little |more )?water in\b|"
        r"\b(?:fill|refill)(?:ing)? (?:up )?(?:the )?(?:system|boiler|heating|radiators)\b",
        unless=_WATER_ELSEWHERE,
    ),
    _act(
        "thaw",
        r"\b(?:thaw|melt|defrost)(?:ing)?\b|\b(?:pour|run|tip|trickle)(?:ing)?\b .*\bwater\b.*\b(?:pipe|ice)\b|"
        r"\b(?:hold|lay|wrap|put|warm)(?:ing)?\b .*\b(?:hot-water bottle|warm (?:cloth|towel)s?)\b.*\bpipe\b|^warm (?:the )?pipe\b",
    ),
    _act(
        "breaker",
        r"\b(?:push|switch|put|flip|flick|turn|click|move|lift)(?:t?ing)?\b .*"
        r"\b(?:breaker|trip(?:ped)? switch|(?:tripped|dropped|fallen) \w+)\b.*\b(?:on|up)\b|"
        r"\b(?:push|flip|flick)(?:p?ing)?\b (?!.*\b(?:boiler|light|own|room|immersion)\b).*\bswitch\b.*\bon\b",
    ),
    _act(
        "meter-restore",
        r"\bpress(?:ing)?\b .*\bmeter(?:'s)?\b.*\b(?:button|restore|reconnect)|\brestor(?:e|ing) (?:the )?supply\b|"
        r"\bpress(?:ing)?\b .*\b(?:button|restore|reconnect)\b.*\bmeter\b",
        unless=r"\b(?:wake|screen|display|balance|figures?)\b",
    ),
    _act(
        "water-release",
        r"\bbleed(?:ing)? (?:\w+ ){0,3}radiators?\b|\bopen(?:ing)? .*\bbleed (?:screw|valve|key)\b|"
        r"\blet(?:ting)? (?:a little |some )?water out\b",
    ),
    _act("relight", r"\bre-?light(?:ing)?\b|\blight(?:ing)? (?:\w+ ){0,2}pilot\b"),
)

_THINGS = re.compile(
    rf"\b(?:{_GAS}|{_CASE}|{_FLAME}|\w*\s?ladder|boiler|switch|radiator|stop tap|tap|hose|loop|heating|power|electricity|"
    r"water|thermostat|control|meter|button|lever|hob|cooker|ring|oven|fire|lights?|pump|cylinder|pipe|gauge|dial|key|"
    r"heater|battery|batteries|screen|window|door|bottle|tank|immersion|programmer|timer|knob|jug|cloth|alarm)\b"
)


def forbidden_acts(text: str) -> Iterator[tuple[str, str]]:
    """Every sentence of a household's text that asks for a forbidden act, with the act's name.

    "it" and "them" are read as the thing that was named last, so the sentences of one text must come together.
    """
    for sentence, part in _requests(text):
        names = dict.fromkeys(act.name for act in _FORBIDDEN if act.in_part(part, sentence))
        for name in names:
            if not (name == _OPENING and _opens_by_hand(part)):
                yield sentence, name


def limited_acts(text: str) -> Iterator[tuple[str, str]]:
    """Every sentence that asks for something that may be tried only so often, with its name in `kb.facts.TRIED`."""
    for sentence, part in _requests(text):
        for act in _LIMITED:
            if act.in_part(part, sentence.lower()):
                yield sentence, act.name


def acts_by_name(acts: Iterable[tuple[str, str]]) -> Mapping[str, str]:
    """The first sentence for each act."""
    first: dict[str, str] = {}
    for sentence, act in acts:
        first.setdefault(act, sentence)
    return first


def _requests(text: str) -> Iterator[tuple[str, str]]:
    """Every part of every sentence that asks for something, "it" in it replaced by what it stands for."""
    last = ""
    for sentence in sentences(text):
        for part in asked(sentence):
            yield sentence, re.sub(r"\b(?:it|them)\b", last, part, count=1) if last else part
            last = _last_thing(part) or last
        last = _last_thing(sentence.lower()) or last


def _last_thing(words: str) -> str:
    found = [match[0] for match in _THINGS.finditer(words)]
    return f"the {found[-1]}" if found else ""


def _opens_by_hand(part: str) -> bool:
    """Whether what is opened is made for a household's hand: the door of a meter box, a battery's cover.

    Opening the lid of a meter box or consumer unit shows a screen or switches and needs no tool; taking it off
    bares live parts, so only the opening of those is let pass.
    """
    thing = _OPENS_BY_HAND.search(part)
    if thing is None:
        return False
    return bool(_MADE_TO_OPEN.match(part)) or "batter" in thing[0] or "radiator" in thing[0]
