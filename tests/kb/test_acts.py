import pytest

from kb.acts import forbidden_acts, limited_acts

ASKS_FOR = {
    "Open the front cover.": "open the case",
    "You can take the case off.": "open the case",
    "You could also unscrew the panel.": "open the case",
    "Please take the front off the boiler.": "open the case",
    "Can you open the case?": "open the case",
    "It is safe to open the case.": "open the case",
    "Try opening the cover.": "open the case",
    "Start by removing the cover.": "open the case",
    "Once the cover is off, press the button.": "open the case",
    "After you have removed the panel, look at the light.": "open the case",
    "The cover can be lifted off.": "open the case",
    "Run the boiler with its cover off.": "open the case",
    "Run it without its cover.": "open the case",
    "The cover has two clips. Lift it off.": "open the case",
    "Do not panic, open the case.": "open the case",
    "Press reset once and open the case.": "open the case",
    "Wait until it is cold and open the case.": "open the case",
    "If it is cold, open the case.": "open the case",
    "First turn the power off, then take off the lower cover.": "open the case",
    # A lid that opens shows switches; taken off, it bares live parts.
    "Remove the cover of the consumer unit.": "open the case",
    "Remove the cover of the meter box.": "open the case",
    "Lift the lid and look inside the boiler.": "reach into the boiler",
    "Remove the two screws at the bottom.": "turn a screw",
    "When it is cold, and only then, undo the screws.": "turn a screw",
    "Take the plastic pipe apart.": "take something apart",
    "Turn the gas back on at the meter.": "turn the gas on",
    "Turn the gas off. Wait one minute. Turn it back on.": "turn the gas on",
    "Turn the gas valve off and on.": "turn the gas on",
    "Do not forget to open the gas valve.": "turn the gas on",
    "Make sure the gas valve is open.": "turn the gas on",
    "Turn the lever at the gas meter in line with the pipe.": "turn the gas on",
    "Do not use a flame and turn the gas back on.": "turn the gas on",
    "Use a candle to warm the pipe.": "use a flame",
    "Hold a match near the joint.": "use a flame",
    "Light a match to see.": "use a flame",
    "Use a hairdryer on the pipe.": "use a flame",
    "Heat the room with the oven.": "burn fuel to keep warm",
    "Bring in a barbecue.": "burn fuel to keep warm",
    "Pour boiling water over the pipe.": "use boiling water",
    "Pour water straight from the kettle along the pipe.": "use boiling water",
    "Pour hot water over the pipe.": "use boiling water",
    "Use a ladder to reach the pipe.": "climb",
    "Stand on a chair to see the gauge.": "climb",
    "Use a chair to reach the gauge.": "climb",
    "Nobody minds if you climb; use the ladder.": "climb",
    "Go into the loft and look at the tank.": "go into the loft",
    "If you smell gas, stay in the house and ring us.": "stay inside",
    "Go back in for your keys.": "go back in",
    "Look for the gas leak with soapy water.": "look for a gas leak",
    "Use a screwdriver to turn the valve.": "use a tool",
    "You will need a spanner.": "use a tool",
    "Wedge the reset button with a stick.": "wedge a control",
    "Cover the air brick with tape.": "block an opening",
    "Take the battery out of the alarm.": "silence an alarm",
    "Switch the alarm off.": "silence an alarm",
    "Change the fuse in the plug.": "change a fuse",
    "Disconnect the condensate pipe.": "open a pipe",
    "Keep pressing reset until it lights.": "try without end",
    "Just whip the cover off.": "open the case",
    "You'll need to take the cover off.": "open the case",
    "When you have the cover off, dry the board.": "open the case",
    "Ask a neighbour to take the cover off.": "open the case",
    "Why not open the case?": "open the case",
    "Give the gas valve a quarter turn to open it.": "turn the gas on",
    "Swing the gas lever round until it is in line with the pipe.": "turn the gas on",
    "Get someone to hold the ladder while you look.": "climb",
    "Reach up from the top of a chair.": "climb",
    "Check the flue from the roof.": "climb",
    "Stay where you are indoors if the carbon monoxide alarm sounds.": "stay inside",
    "Remove the battery from the carbon monoxide alarm.": "silence an alarm",
    "Use the tip of a knife.": "use a tool",
}

ASKS_FOR_NOTHING = (
    # What households are given to use.
    "Open the cover of the meter box.",
    "Open the lid of the consumer unit.",
    "Open the battery cover.",
    "Take the battery cover off the room control.",
    "Open the front door.",
    "Open windows and doors.",
    "Turn the gas off.",
    "Turn the gas valve off at the meter.",
    "Turn the gas valve off only if it is safe, near and on your way.",
    "Turn the gas fire off.",
    "Turn the gas hob on for a moment.",
    "Light one hob ring.",
    "Fill the hot-water bottle from the warm tap.",
    "Open the bleed screw a quarter turn.",
    "Attach the hose by hand and screw the nut on by hand.",
    "Turn the knob to the flame sign.",
    "Turn the boiler off. Wait two minutes. Turn it back on.",
    "Stand in front of the boiler.",
    "Open the tap under the cover.",
    "Climb the stairs slowly.",
    "Use a chair with arms to sit down.",
    "Press the test button on the alarm.",
    "Go into the loft only if it has boards and a light.",
    "Take a photo in case it changes.",
    # Prohibitions.
    "Do not light the hob.",
    "Never open the case or remove a screw.",
    "Never use boiling water, a flame or a heat gun.",
    "Do not touch, open or move anything.",
    "Do not use an oven, a hob or a barbecue to keep warm.",
    "Do not climb to look at the alarm.",
    "You can't open the case.",
    "You shouldn't use a match.",
    "You may not open the case.",
    "You do not need to open the case.",
    "There is no need to open the cover.",
    "You cannot reach it without a ladder.",
    "Avoid opening the case.",
    "Stop using the oven to heat the room.",
    "Press reset without opening the case.",
    "Use a torch, not a candle.",
    "Use warm water, never boiling water.",
    "Stand on the floor, not on a chair.",
    "No flames and no smoking.",
    "Touch no switch, plug or bell, on or off.",
    "Never go back in for it.",
    "Go back for nothing and nobody: tell the fire service who is inside.",
    "Stay out until they say you can go back in.",
    "Stop at once if you need a ladder.",
    "Leave the case shut.",
    "Keep flames away.",
    "Keep off the ladder.",
    "Stay outside, and say who is still inside if you smell gas.",
    "Look for snow on the roof.",
    # What others do.
    "Ask an engineer to open the case.",
    "Let the engineer take the cover off.",
    "Wait for the engineer to open the case.",
    "Only a registered engineer may open the case.",
    "Only a registered engineer may open the case and use a ladder.",
    "The engineer will take the cover off and climb a ladder.",
    "The case may only be opened by a registered engineer.",
    "Nobody at home may put the gas or the boiler on again.",
    # Descriptions, conditions, and questions about what was done.
    "If you open the case, you may let fumes out.",
    "If the cover is off, do not touch it.",
    "Have you opened the case?",
    "Did you open the case or use a candle?",
    "I opened the case",
    "Look for a lit pilot through the window.",
    "Is the flame blue?",
    "The case can be part of the seal round the flame.",
    "Does the gas lever lie along the pipe?",
    "The gas meter may open its own valve.",
)


@pytest.mark.parametrize(("text", "act"), ASKS_FOR.items(), ids=str)
def test_a_forbidden_act_is_told_from_what_a_text_asks_for(text: str, act: str) -> None:
    assert act in {name for _, name in forbidden_acts(text)}


@pytest.mark.parametrize("text", ASKS_FOR_NOTHING)
def test_what_is_not_asked_for_or_is_harmless_passes(text: str) -> None:
    assert list(forbidden_acts(text)) == []


def test_the_sentence_comes_back_as_it_was_written() -> None:
    text = "Wait.\nOpen the Cover!"

    assert list(forbidden_acts(text)) == [("Open the Cover!", "open the case")]


def test_it_is_the_thing_named_last() -> None:
    gas = "Turn the gas valve off. The boiler stops. Turn it on again."

    assert list(forbidden_acts(gas)) == []


@pytest.mark.parametrize(
    ("text", "action"),
    [
        ("Press the reset button for five seconds.", "reset"),
        ("Reset the boiler.", "reset"),
        ("Hold the red button in for five seconds.", "reset"),
        ("Restart the burner.", "reset"),
        ("Add some water until the needle reaches the mark.", "top-up"),
        ("Open both taps until the gauge reads 1.2.", "top-up"),
        ("Top the water up to the mark.", "top-up"),
        ("Top up once.", "top-up"),
        ("Pour warm water along the pipe.", "thaw"),
        ("Thaw the pipe.", "thaw"),
        ("Push the tripped switch back on.", "breaker"),
        ("The switch has dropped. Push it back on.", "breaker"),
        ("Press the button on the meter to restore the supply.", "meter-restore"),
        ("Bleed one radiator.", "water-release"),
        ("Let a little water out.", "water-release"),
        ("Light the pilot again.", "relight"),
    ],
)
def test_what_may_be_tried_only_so_often_is_told(text: str, action: str) -> None:
    assert action in {name for _, name in limited_acts(text)}


@pytest.mark.parametrize(
    "text",
    [
        "Do not press reset.",
        "Was it reset before?",
        "Reset the clock.",
        "Top up the meter.",
        "Top up enough to pay the debt.",
        "Switch the boiler back on.",
        "Open a hot tap and look at the gauge.",
        "Press any key on the meter to wake its screen.",
        "The pilot is lit.",
        "An engineer may reset it.",
    ],
)
def test_what_only_sounds_limited_passes(text: str) -> None:
    assert list(limited_acts(text)) == []
