//! Roads and utility lines, tanks and wells, equipment and its wiring, easements.

use super::row::{
    FactRow, KindRow, NONE, OTHERS, area, cubic_metres, decibels, facts, line, look, metres,
    number, one_of, point, such_as, volts, watts, yes_no,
};
use crate::vocabulary::Height::{At, Below, Deep, Ground, OverGroundOrRim};
use crate::vocabulary::{Layer, Mark, Matter, Number, Part, Role};

pub(super) const KINDS: &[KindRow] = &[
    KindRow {
        name: "road",
        seen: true,
        also: &["street", "highway", "lane"],
        said: "a road",
        matter: Some(Matter::Road),
        number: Number::Many,
        ask: "Which roads, lanes and alleys run beside the lot?",
        outlines: &[
            line("edge", "its edge").within(&["right-of-way"]),
            line("centreline", "its centreline")
                .within(&["right-of-way"])
                .drawn(look(Layer::Lines, NONE, "0.9").dashed("18 4 4 4")),
            area("right-of-way", "its right of way").may_lack(),
        ],
        facts: ROAD,
        others: OTHERS
            .reaches(Ground, Ground)
            .drawn(look(Layer::Lines, NONE, "0.9")),
        part: Part::Road,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "railway",
        seen: true,
        said: "a railway",
        matter: Some(Matter::Road),
        number: Number::Many,
        ask: "Does a railway or a tram run near the lot?",
        outlines: &[line("nearest-track", "the middle of the nearest track")],
        facts: RAILWAY,
        others: OTHERS
            .reaches(Ground, Ground)
            .drawn(look(Layer::Lines, NONE, "1.2").marked(Mark::Strokes)),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "overhead-line",
        seen: true,
        also: &["power-line", "wire", "overhead-wire", "conductor", "cable"],
        said: "an overhead line",
        matter: Some(Matter::Services),
        number: Number::Many,
        ask: "Do any wires run through the air over or near the lot?",
        outlines: &[
            line("path", "its course on the ground").drawn(
                look(Layer::Lines, NONE, "1")
                    .dashed("12 4")
                    .marked(Mark::Rings),
            ),
            line("conductor", "its lowest wire"),
        ],
        facts: OVERHEAD,
        role: Some(Role::Wire),
        others: OTHERS
            .reaches(At("height"), At("height"))
            .drawn(look(Layer::Lines, NONE, "0.7").dashed("2 3").soft()),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "lifting-machine",
        said: "a crane or excavator",
        matter: None,
        number: Number::Many,
        ask: "Which cranes and excavators are to work here, and where do they stand?",
        outlines: &[
            area("stand", "the ground that it stands on").within(&["sweep"]),
            area("sweep", "all that its boom and its load can reach")
                .reaches(Ground, At("tip-height")),
        ],
        facts: LIFTING,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "buried-service",
        whom: "the locating service, and whoever owns pipes and cables here",
        also: &["pipe", "buried-pipe", "buried-cable", "sewer", "utility"],
        said: "a buried pipe or cable",
        matter: Some(Matter::Services),
        number: Number::Many,
        ask: "Which pipes and cables lie in the ground? Have them located before anybody digs.",
        outlines: &[line("path", "its middle line")],
        facts: BURIED,
        others: OTHERS.reaches(Below("depth"), Below("depth")).drawn(
            look(Layer::Lines, NONE, "1")
                .dashed("8 3 2 3")
                .marked(Mark::Letter),
        ),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "septic-part",
        whom: "the health office, and whoever lived here before",
        also: &[
            "septic-tank",
            "septic-field",
            "septic-system",
            "leach-field",
        ],
        said: "a septic tank or field",
        matter: Some(Matter::Sewage),
        number: Number::Many,
        ask: "Is there a septic tank, a leaching field or a reserve area on this lot or near it?",
        outlines: &[area("region", "its edge")],
        facts: SEPTIC,
        others: OTHERS
            .reaches(Deep, Ground)
            .level_only("level")
            .drawn(look(Layer::Ground, "#f2eee0", "1").dashed("5 3")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "well",
        whom: "the health office or the water office, and the neighbours",
        said: "a well",
        matter: Some(Matter::Sewage),
        number: Number::Many,
        ask: "Is there a well on this lot or near it, in use or given up?",
        outlines: &[point("casing", "its casing")],
        facts: WELL,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "fuel-tank",
        whom: "whoever lived here before, and the fire office",
        said: "a fuel tank",
        matter: Some(Matter::Services),
        number: Number::Many,
        ask: "Is there a tank for oil or gas, above the ground or in it?",
        outlines: &[area("region", "its edge")],
        facts: FUEL_TANK,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "easement",
        whom: "the land registry, or whoever holds the deed",
        said: "an easement",
        matter: Some(Matter::PrivateRights),
        number: Number::Many,
        ask: "Has anybody else a right over part of the lot: a utility, a neighbour's way, drainage?",
        outlines: &[area("region", "its edge")],
        facts: EASEMENT,
        others: OTHERS
            .reaches(Ground, Ground)
            .drawn(look(Layer::Ground, "url(#siting-easement)", "0.9").dashed("11 3 2 3")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "equipment",
        seen: true,
        also: &["pump", "heat-pump", "filter", "heater"],
        said: "a piece of pool equipment",
        matter: None,
        number: Number::Many,
        ask: "Where will the pump, the filter, the heater and the like stand?",
        outlines: &[area("region", "its edge")],
        facts: EQUIPMENT,
        owners: true,
        others: OTHERS
            .reaches(Ground, At("height"))
            .level_only("base-level")
            .drawn(look(Layer::Standing, "#e4e0d6", "1.1")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "receptacle",
        seen: true,
        also: &["outlet", "socket"],
        said: "a socket outlet",
        matter: Some(Matter::Electricity),
        number: Number::Many,
        ask: "Which socket outlets are there within reach of the pool?",
        outlines: &[point("place", "the outlet")],
        facts: ELECTRIC_POINT,
        owners: true,
        others: OTHERS.reaches(OverGroundOrRim("height"), OverGroundOrRim("height")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "light",
        seen: true,
        said: "a light",
        matter: Some(Matter::Electricity),
        number: Number::Many,
        ask: "Which lights and fans hang or stand near the pool, or sit in its wall?",
        outlines: &[point("place", "the light")],
        facts: ELECTRIC_POINT,
        owners: true,
        others: OTHERS.reaches(OverGroundOrRim("height"), OverGroundOrRim("height")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "disconnect",
        said: "a disconnecting switch",
        matter: Some(Matter::Electricity),
        number: Number::Many,
        ask: "Where is the switch that cuts off the pool's equipment?",
        outlines: &[point("place", "the switch")],
        facts: ELECTRIC_POINT,
        owners: true,
        others: OTHERS.reaches(OverGroundOrRim("height"), OverGroundOrRim("height")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "junction-box",
        said: "a junction box",
        matter: Some(Matter::Electricity),
        number: Number::Many,
        ask: "Where are the junction boxes of the pool's lights?",
        outlines: &[point("place", "the box")],
        facts: ELECTRIC_POINT,
        owners: true,
        others: OTHERS.reaches(OverGroundOrRim("height"), OverGroundOrRim("height")),
        ..KindRow::PLAIN
    },
];

const ROAD: &[FactRow] = facts! {
    "class", "class of the road", such_as(&["state", "county", "municipal", "private", "alley", "walk-cycle"]);
        "Who keeps the road?", "Ask the road office, or look at its map of road classes.";
};

const RAILWAY: &[FactRow] = facts! {
    "electrified", "whether the railway is electric", yes_no();
        "Do wires or a live rail run along it?", "Look from a public place; never go near the track.";
};

const OVERHEAD: &[FactRow] = facts! {
    "voltage", "voltage of the line", volts(2_000_000);
        "What is the voltage of the line?", "Ask the company that owns it; never guess from how it looks.";
    "height", "height of the lowest wire above the ground", metres(0, 500).varies();
        "How high is the lowest wire, at its lowest and at its highest over the lot?", "Ask the company to measure it; never hold anything up to a wire.";
    "height-at-start", "height of the wire at the first end of its path", metres(0, 500);
        "How high is the lowest wire at the support where its path begins?", "Draw one span from support to support; ask the company for the height above the ground there.";
    "height-at-end", "height of the wire at the last end of its path", metres(0, 500);
        "How high is the lowest wire at the support where its path ends?", "Draw one span from support to support; ask the company for the height above the ground there.";
    "sag", "sag of the wire in the middle of its span", metres(0, 500);
        "How far does the wire hang below the straight line between its supports, in the middle?", "Ask the company for the least and the greatest sag: it is greatest on a hot day or under ice.";
    "insulated", "whether the wires are insulated", yes_no();
        "Are the wires insulated?", "Ask the company that owns it; a dark coat is often no insulation.";
    "type", "sort of line", one_of(&["power", "communication"]);
        "Does it carry power or telephone and the like?", "Ask the company whose name is on the poles.";
};

const LIFTING: &[FactRow] = facts! {
    "type", "sort of machine", such_as(&["crane", "excavator"]);
        "Is it a crane, an excavator or something else?", "Ask the company that sends it.";
    "tip-height", "greatest height of its boom or load", metres(0, 200);
        "How high can any part of it or of its load come above the ground?", "Ask the company that sends it; take the highest that it can reach, not the highest that is planned.";
    "width", "width of the machine", metres(0, 20);
        "How wide is it on its way in?", "Ask the company that sends it; take the widest part, outriggers drawn in.";
};

const BURIED: &[FactRow] = facts! {
    "type", "sort of pipe or cable", such_as(&["electric", "gas", "water", "water-main", "sewer", "sewer-main", "storm-drain", "telecom", "heating", "irrigation"]);
        "What runs in it?", "The locating service marks each sort in its own colour.";
    "depth", "depth of its middle below the ground", metres(0, 100).varies();
        "How deep does it lie?", "Ask its owner; depths on old drawings no longer hold where the ground was changed.";
    "cover", "earth over its top", metres(0, 100).varies();
        "How much earth lies over its top?", "Ask its owner, or dig by hand with the owner's leave.";
    "conduit", "conduit round the cable", such_as(&["RMC", "IMC", "PVC", "RTRC", "MC", "nonmetallic"]).or_none();
        "In what sort of conduit does the cable lie?", "The electrician who laid it knows; look where it leaves the ground.";
    "serves-pool", "whether it serves the pool", yes_no();
        "Does it serve only the pool?", "Follow it from the panel or the meter to its end.";
    "owner", "owner of the pipe or cable", one_of(&["applicant", "utility", "neighbour", "municipality"]);
        "Whose is it?", "Past the meter it is mostly the house owner's; ask the utility.";
};

const SEPTIC: &[FactRow] = facts! {
    "part", "part of the septic system", one_of(&["tank", "field", "reserve"]);
        "Is it the tank, the leaching field or the area kept in reserve?", "The health office has a drawing of the system.";
    "level", "level of its top", metres(-500, 9000).varies();
        "At what level is its top?", "Level from the same mark as the pool.";
    "in-use", "whether it is in use", yes_no();
        "Is it in use?", "A system that was given up must have been emptied and filled; ask the health office.";
};

const WELL: &[FactRow] = facts! {
    "type", "sort of well", such_as(&["drinking", "irrigation", "monitoring", "heat-pump", "abandoned"]);
        "What is the well for?", "Follow its pipe, or ask the office that keeps the register of wells.";
};

const FUEL_TANK: &[FactRow] = facts! {
    "fuel", "fuel in the tank", such_as(&["oil", "gas"]);
        "What is in it?", "Look at the plate.";
    "volume", "volume of the tank", cubic_metres(100_000);
        "How much does it hold?", "Look at the plate.";
    "buried", "whether the tank is in the ground", yes_no();
        "Does it lie in the ground?", "Look for its filling pipe and its vent.";
};

const EASEMENT: &[FactRow] = facts! {
    "purpose", "purpose of the easement", such_as(&["utility", "drainage", "access", "sewer", "conservation"]);
        "What is the right for?", "Look in the deed or on the plat.";
    "holder", "holder of the easement", such_as(&["utility", "municipality", "neighbour"]);
        "Who holds the right?", "Look in the deed or on the plat; the holder's leave is its own paper.";
};

const EQUIPMENT: &[FactRow] = facts! {
    "use", "use of the equipment", such_as(&["pump", "filter", "heater", "heat-pump", "chlorinator", "blower", "control"]);
        "What is it: pump, filter, heater, heat pump, or something else?", "Look at the plate.";
    "base-level", "level of its base", metres(-500, 9000);
        "At what level does it stand?", "Level from a mark whose level is known, to the top of its base.";
    "height", "height of the equipment above the ground", metres(0, 100);
        "How high does its top stand above the ground?", "Tape from the ground straight up to its highest part.";
    "sound-power", "sound power level", decibels(0, 200).about(Matter::Noise);
        "How loud is it by its plate or data sheet?", "Take the A-weighted sound power level, not the sound pressure at some distance.";
    "reflecting-surfaces", "number of reflecting surfaces beside it", number(0, 6).about(Matter::Noise);
        "How many walls or other hard surfaces does it stand at, not counting the ground?", "Count those within about two metres.";
    "runs", "time at which it runs", one_of(&["day", "evening", "day-and-evening", "night", "always"]).about(Matter::Noise);
        "When does it run?", "Look at its timer.";
    "enclosed", "whether it is enclosed", yes_no().about(Matter::Noise);
        "Does it stand in a closed box or house?", "Say yes only if the box has a lid and no open side.";
    "power", "power that it takes", watts(10_000_000).about(Matter::Electricity);
        "How much power does it take?", "Look at the plate.";
};

const ELECTRIC_POINT: &[FactRow] = facts! {
    "height", "height above the ground or the highest water, whichever is higher", metres(-50, 100);
        "How high is it above the ground or the highest water, whichever is higher?", "Tape straight up to its lowest part; below the water counts as negative.";
    "ground-fault-protected", "whether a ground-fault breaker protects it", yes_no();
        "Does a ground-fault breaker protect it?", "Press the test button and see whether it goes dead.";
    "purpose", "purpose of it", such_as(&["general", "pump", "pool-light", "heater", "lighting"]);
        "What does it serve?", "Follow the cord, or switch it off and see what stops.";
    "voltage", "voltage", volts(1_000_000);
        "What is its voltage?", "Look at the plate, or in the panel.";
};
