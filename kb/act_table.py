"""Which words ask for an act that a household may never do, or may do only so often?

Each row is read against the part of a sentence that asks for something, from its verb on, as `kb.asking` finds it.
"""

from typing import Final

from kb.act_words import A_FEW_WORDS, a, act, do

OPEN_THE_CASE: Final = "open the case"

CASE: Final = (
    r"case|casing|covers?|panels?(?! (?:heater|radiator))|lid|housing|front(?! (?:door|room|garden|page))|"
    r"(?:boiler|burner)(?:'s)? door|jacket|faceplate"
)
GAS: Final = (
    r"gas(?! (?:hob|cooker|oven|fire|rings?|appliances?|boiler|bill|(?:meter )?(?:box|cupboard|cabinet|door|flap)))|"
    r"emergency (?:control )?valve|meter valve|valve (?:at|by|on|near) the (?:gas )?meter"
)
FLAME: Final = (
    r"flames?(?! (?:sign|symbol|picture|icon|mark|light|failure|window))|match(?:es)?|lighter|candles?|tea ?lights?|"
    r"blow[ -]?(?:torch|lamp)|cigarettes?|heat[ -]?gun|hot[ -]air gun|hair[ -]?dri?yer|hair[ -]?drier"
)
_ON: Final = (
    r".*?\b(?:back on|on again|open|back|"
    r"on(?=$|[.,;!?]| (?:again|slowly|now|yourself|for|and|then|at the (?:meter|valve))))"
)
_TOOL: Final = (
    r"screwdrivers?|spanners?|pliers|wrench(?:es)?|drill|hammer|allen keys?|hex keys?|grips|multimeter|crowbar|"
    r"knife|chisel|coat ?hanger|hacksaw|rods?|wire"
)
_HAND_THINGS: Final = r"bleed|cap|hose|battery|batteries|bulb|key|plug"
_AWAY: Final = r"(?:off |open |away |up |down |out )?"
_INSIDE: Final = r"(?:boiler|case|casing|burner|flue)\b(?!'| (?:cupboard|room|book|manual|handbook|instructions|user))"
_SMELL: Final = r"\b(?:gas|smell|fumes|smoke|alarm|carbon monoxide)\b"
_VENT: Final = r"vents?|air ?bricks?|flue|terminal|grilles?|(?:relief|discharge|copper) pipe|overflow|tundish"
_TAKE_OFF: Final = (
    "open remove unscrew undo unclip unhook lift pull prise slide drop take detach unlatch loosen get whip ease pop"
)
_TURN: Final = do("turn switch put bring get move set have push swing give")

FORBIDDEN: Final = (
    act(
        OPEN_THE_CASE,
        do(_TAKE_OFF) + _AWAY + a(CASE),
        rf"\b(?:with|have|without) {A_FEW_WORDS}(?:{CASE})(?: is| are)?(?: \w+)? "
        r"(?:off|open|opened|removed|undone|lifted)\b",
        rf"\bwithout (?:its|the|a) (?:{CASE})\b",
        rf"^(?:the|its|that|this) (?:\w+ )?(?:{CASE}) (?:off|open)\b",
        do("open dismantle strip")
        + r"(?:up |down )?(?:the |your |its )?(?:gas |oil )?"
        + r"(?:boiler|burner|appliance|flue|sump|(?:condensate )?trap|combustion chamber)\b"
        + r"(?!'| (?:cupboard|room|door))",
    ),
    act(
        "reach into the boiler",
        do("look reach put poke feel shine") + rf".*\b(?:inside|into|in) (?:the |your )?{_INSIDE}",
    ),
    act("take something apart", do("take") + r".*\bapart\b"),
    act(
        "turn a screw",
        do("undo unscrew loosen remove turn take slacken tighten")
        + r"(?:out |off )?"
        + a("screws?|bolts?|nuts?|fixings?"),
        do("unscrew") + rf"(?!{a(_HAND_THINGS)})",
        unless=r"\bbleed",
    ),
    act(
        "turn the gas on",
        _TURN + r"(?:back )?on (?:again )?" + a(GAS),
        _TURN + a(GAS) + _ON,
        do("open reopen re-open restore reconnect restart release") + r"(?:up )?" + a(GAS),
        rf"\b(?:make sure|ensure|have)\b .*\b(?:{GAS})\b.*\b(?:is |are )?(?:turned |switched )?(?:back )?(?:on|open)$",
    ),
    act(
        "turn the gas on",
        _TURN + a("lever|handle|valve|tap"),
        only_with=r"(?=.*\b(?:gas|meter)\b).*\b(?:in line|along|parallel)\b",
    ),
    act(
        "use a flame",
        do("use hold light strike bring put apply play point move burn try with pass wave aim take") + a(FLAME),
    ),
    act("smoke", r"\bsmoke (?:a|your|outside|in|while)\b|\bhave a (?:smoke|cigarette)\b"),
    act(
        "burn fuel to keep warm",
        do("heat warm keep") + r".*\b(?:with|using|by)\b.*\b(?:oven|hob|cooker|barbecue|camping)\b",
        do("use light bring burn start set")
        + r"(?:in |up )?"
        + a(r"barbecue|patio heater|camping (?:stove|heater)|generator"),
        do("use") + r"(?:the |your )?(?:oven|hob|cooker)\b.*\b(?:heat|warm)",
    ),
    act(
        "use boiling water",
        do("pour use put tip throw fill run add splash with apply melt thaw")
        + r".*\b(?:boiling|scalding|very hot|just boiled)\b",
        rf"\b(?:straight|direct|directly) from {a('kettle')}",
        do("pour tip throw splash run") + r"(?!.*hand-hot).*\bhot water\b(?! bottle).*\b(?:pipe|it|ice)\b",
    ),
    act(
        "use boiling water",
        do("pour tip throw use empty") + r".*\bkettle\b",
        unless=r"\b(?:basin|bowl|sink|bath|drinks?|tea|cup|wash|cool|cold|plug|socket)\b",
    ),
    act(
        "climb",
        do("use climb fetch get put stand go lean set take bring borrow find with")
        + r"(?:up |on |onto |out |down )*(?:to |from |against )?"
        + a(r"step-?ladders?|ladders?|roof"),
        do("stand climb step get go reach")
        + r"(?:up )?(?:on|onto|from)(?: to| top of)? "
        + a("chair|stool|table|worktop|windowsill|sill|bath|toilet|box|bucket"),
        do("use") + a("chair|stool|table|box|bucket") + r".*\b(?:reach|see|look|get|higher)\b",
        r"^(?!keep|leave|ring|say|tell|stop).*\b(?:step-?)?ladders?\b",
        r"\bfrom (?:the )?(?:top of )?(?:an? |the )?(?:roof|chair|stool|table|ladder|worktop)\b",
        r"\bclimb(?:ing)?\b(?! (?:up )?(?:the |your )?stairs)",
        r"\blean(?:ing)? out\b",
    ),
    act(
        "go into the loft",
        do("go get crawl look reach climb") + r"(?:up |in |into |inside )+(?:the |your )?(?:loft|attic|roof space)\b",
        unless=r"\bboard",
    ),
    act(
        "stay inside",
        do("stay wait remain sit keep")
        + r".{0,20}?\b(?:inside|indoors|at home|in bed|in the (?:house|home|building|flat|room|kitchen))\b",
        only_with=_SMELL,
    ),
    act(
        "stay inside",
        r"^(?:stay|wait|remain)\b(?! (?:out|away|clear|well|off|back|with))",
        only_with=rf"(?=.*{_SMELL}).*\b(?:inside|indoors)\b",
    ),
    act(
        "go back in",
        do("go come get run pop nip") + r"back (?:in|inside|indoors|into|to the house)\b",
        unless=r"\b(?:when|once|until|after|unless|if)\b.*\b(?:they|engineer|service|safe|told)\b",
    ),
    act(
        "look for a gas leak",
        do("look search feel hunt sniff check find trace listen smell")
        + r"(?:around |about |out |for |where |the )*"
        + a(r"gas leaks?|gas is (?:coming|leaking)|smell (?:is|comes)|(?:leak|source) of (?:the )?(?:gas|smell)"),
    ),
    act(
        "use a tool",
        do("use with take get fetch find grab need turn apply put borrow") + r"(?:the \w+ of )?" + a(_TOOL),
    ),
    act("wedge a control", do("wedge jam tape tie prop") + a("button|valve|lever|switch|knob|breaker")),
    act("block an opening", do("block plug cap cover seal stuff tape stop") + r"(?:up |off |over )?" + a(_VENT)),
    act(
        "silence an alarm",
        do("silence mute reset unplug remove disconnect ignore") + a("alarm"),
        do("turn switch") + rf"(?:off {a('alarm')}|{a('alarm')} off\b)",
        do("take remove") + r".*\b(?:from|out of|off) (?:the |your )?(?:\w+ ){0,3}alarm\b",
        do("take") + rf"{a('alarm')} (?:down|off)\b",
    ),
    act("change a fuse", do("change replace swap fit bridge bypass") + a(r"fuses?(?! ?(?:box|board))")),
    act(
        "open a pipe",
        do("cut disconnect undo break open loosen")
        + r"(?:off |into )?"
        + a(r"(?:gas|condensate|plastic|flue|copper) pipe|pipe joint|joint|trap|pipework|regulator"),
        do("pull take") + r"(?:off |out |away )?" + a(r"(?:gas|condensate|plastic|flue) pipe|trap"),
    ),
    act("adjust the burner", do("adjust alter") + a("gas valve|burner|gas pressure|air shutter")),
    act("reset a regulator", do("reset thaw warm melt") + a("regulator")),
    act(
        "try without end",
        r"\bkeep (?:on )?(?:pressing|pushing|resetting|topping|trying (?:the )?reset)\b",
        do("reset press top try") + r".*\b(?:again and again|over and over|as often as)\b",
    ),
)
"""The acts that no household may be asked for, each with the words that ask for it."""

_PIPE_WARMERS: Final = r"hot-water bottle|warm (?:cloth|towel)s?"
_BREAKER: Final = r"breaker|trip(?:ped)? switch|(?:tripped|dropped|fallen) \w+"
_OTHER_SWITCHES: Final = r"(?!.*\b(?:boiler|light|own|room|immersion)\b)"

LIMITED: Final = (
    act(
        "reset",
        do("press push hold turn use try") + r".*\breset\b",
        r"^reset\b",
        do("reset restart") + r"(?:the |your )?(?:boiler|burner|it)\b",
        do("press push hold")
        + r"(?:in |down )?(?:the |its )?(?:\w+ )?(?:red|r|restart|lock-?out) (?:button|key|knob)\b",
        do("give") + r"(?:the )?reset\b",
        unless=r"\breset (?:the |your |its )?(?:clock|timer|thermostat|programmer|room control)\b",
    ),
    act(
        "top-up",
        r"\btop(?:ping)? (?:\w+ ){0,3}up\b",
        do("let") + r"(?:some |a little |more )?water in\b",
        do("add") + r"(?:some |a little |more )?water\b",
        do("open") + a("filling (?:loop|taps?|levers?|valves?|key|knob)"),
        do("fill refill") + r"(?:up )?(?:the )?(?:system|boiler|heating|radiators)\b",
        unless=r"\b(?:meter|credit|debt|card|account|payment|oil|key fob|smart)\b",
    ),
    act(
        "top-up",
        do("open") + a("taps?|levers?|knobs?"),
        only_with=r"\b(?:until|gauge|needle|pressure)\b.*\b(?:gauge|needle|pressure|bar|mark)\b",
        unless=r"\b(?:bleed|hot tap|basin|bath|sink)\b",
    ),
    act(
        "thaw",
        r"\b(?:thaw|melt|defrost)(?:ing)?\b",
        do("pour run tip trickle") + r".*\bwater\b.*\b(?:pipe|ice)\b",
        do("hold lay wrap put warm") + rf".*\b(?:{_PIPE_WARMERS})\b.*\bpipe\b",
        r"^warm (?:the )?(?:\w+ )?pipe\b",
    ),
    act(
        "breaker",
        do("push switch put flip flick turn click move lift") + rf".*\b(?:{_BREAKER})\b.*\b(?:on|up)\b",
        do("push flip flick") + rf"{_OTHER_SWITCHES}.*\bswitch\b.*\bon\b",
    ),
    act(
        "meter-restore",
        do("press") + r".*\bmeter(?:'s)?\b.*\b(?:button|restore|reconnect)",
        do("press") + r".*\b(?:button|restore|reconnect)\b.*\bmeter\b",
        do("restore") + r"(?:the )?supply\b",
        unless=r"\b(?:wake|screen|display|balance|figures?)\b",
    ),
    act(
        "water-release",
        do("bleed") + r"(?:\w+ ){0,3}radiators?\b",
        do("open") + r".*\bbleed (?:screw|valve|key)\b",
        do("let") + r"(?:a little |some )?water out\b",
    ),
    act("relight", r"\bre-?light(?:ing)?\b", do("light") + r"(?:\w+ ){0,2}pilot\b"),
)
"""The acts that may be done only so often, by their names in `kb.facts.TRIED`."""
