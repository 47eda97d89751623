//! Buildings, their doors and windows, and what is paved.

use super::row::{
    FactRow, KindRow, NONE, OTHERS, area, facts, line, look, metres, one_of, square_metres,
    such_as, yes_no,
};
use crate::vocabulary::Height::{At, Below, Between, Ground};
use crate::vocabulary::{Layer, Matter, Number, Part, Role};

pub(super) const KINDS: &[KindRow] = &[
    KindRow {
        name: "building",
        seen: true,
        also: &[
            "house",
            "dwelling",
            "home",
            "garage",
            "shed",
            "structure",
            "outbuilding",
            "accessory-building",
            "residence",
        ],
        said: "a building",
        matter: Some(Matter::Buildings),
        number: Number::Many,
        ask: "Which buildings stand on the lot and on the lots beside it: houses, garages, sheds, carports?",
        outlines: &[
            area("wall", "its outside wall")
                .solid()
                .drawn(look(Layer::Standing, "#d8d4ca", "1.6")),
            area("roof", "its roof plan")
                .reaches(At("eaves-height"), Between("eaves-height", "height"))
                .drawn(look(Layer::Standing, NONE, "0.8").dashed("6 3")),
            area("foundation-at-grade", "its ground-level foundation")
                .may_lack()
                .reaches(Ground, Ground),
            area("footing", "its footing")
                .may_lack()
                .reaches(Below("footing-depth"), Below("footing-depth")),
            line("front-wall", "its front wall").within(&["wall"]),
            line("rear-wall", "its rear wall").within(&["wall"]),
            line("side-wall", "its side walls").within(&["wall"]),
            line("principal-elevation", "its principal elevation").within(&["wall"]),
        ],
        facts: BUILDING,
        role: Some(Role::Building),
        others: OTHERS
            .reaches(Ground, Between("eaves-height", "height"))
            .drawn(look(Layer::Standing, NONE, "0.7").dashed("2 2").soft()),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "wall-opening",
        seen: true,
        also: &["door", "window", "house-door"],
        said: "a door or window",
        matter: Some(Matter::HouseDoors),
        number: Number::Many,
        ask: "Which doors and windows are there in the walls of the house, the garage and the shed, on every side?",
        outlines: &[line("line", "the opening")],
        facts: WALL_OPENING,
        part_of: Some("building"),
        role: Some(Role::WallOpening),
        opens: true,
        others: OTHERS.drawn(look(Layer::Barrier, NONE, "4").soft()),
        part: Part::Barrier,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "deck",
        seen: true,
        said: "a deck or patio",
        matter: None,
        number: Number::Many,
        ask: "Are there decks or patios besides the pool's own?",
        outlines: &[area("region", "the edge of the deck")],
        facts: DECK,
        owners: true,
        others: OTHERS.reaches(At("height"), At("height")).drawn(look(
            Layer::Ground,
            "#f1eee5",
            "0.9",
        )),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "driveway",
        seen: true,
        said: "a driveway or other paved ground",
        matter: Some(Matter::Zoning),
        number: Number::Many,
        ask: "Which driveways, paths and paved yards are there?",
        outlines: &[area("region", "the edge of the paving")],
        facts: DRIVEWAY,
        owners: true,
        others: OTHERS
            .reaches(Ground, Ground)
            .drawn(look(Layer::Ground, "#efece4", "0.9")),
        ..KindRow::PLAIN
    },
];

const BUILDING: &[FactRow] = facts! {
    "use", "use of the building", such_as(&["dwelling", "garage", "shed", "carport", "greenhouse", "pool-house", "business", "stable"]);
        "What is it used for?", "Go by its main use today.";
    "rank", "rank of the building on its lot", one_of(&["principal", "accessory"]);
        "Is it the main building of its lot?", "The dwelling is principal; a garage or a shed is accessory.";
    "stands-on", "ground that the building stands on", one_of(&["lot", "neighbour-lot"]).on_the_lot("lot");
        "Does it stand on this lot or on a neighbour's?", "Go by the surveyed line.";
    "footing-depth", "depth of the footing below the ground", metres(0, 100).varies().about(Matter::Ground);
        "How deep below the ground is the underside of its footing?", "Look at the building's drawings; otherwise dig a small hole beside the wall, or ask an engineer.";
    "eaves-height", "height of the eaves", metres(0, 1000).varies();
        "How high are its eaves above the ground?", "Tape from the ground straight up to the lower edge of the roof.";
    "height", "height of the building", metres(0, 1000);
        "How high is it at its highest?", "Tape or work out the height from the ground up to the ridge or the top of the parapet.";
    "original", "whether it is as first built", yes_no();
        "Is it as it was first built?", "Compare it with the first drawings; a later wing is no longer original.";
    "original-footprint", "area of the building as first built", square_metres(100_000_000);
        "How much ground did it cover as first built?", "Take it from the first drawings, outside of the walls.";
    "space-below", "space below the building", one_of(&["open", "closed"]).or_none();
        "Is the space below it open or closed?", "Walls that water cannot pass make it closed.";
};

const WALL_OPENING: &[FactRow] = facts! {
    "type", "sort of opening", one_of(&["door", "sliding-door", "window", "pet-door", "garage-door", "vent"]);
        "Is it a door, a sliding door, a window, a pet door, a garage door or a vent?", "Go by what can pass through.";
    "in", "wall that holds the opening", one_of(&["building", "barrier-stretch", "neighbour-building"]);
        "Is it in a wall that is part of the barrier, in another wall of the house, or in a neighbour's?", "Follow the barrier round and see whether it runs along this wall.";
    "sill-height", "height of its lower edge above the floor or the ground outside, whichever is higher", metres(-10, 100);
        "How high is its lower edge above the floor or the ground outside, whichever is higher?", "Tape from the standing place straight up to the lowest part that opens.";
    "operable", "whether it can be opened", yes_no();
        "Can it be opened?", "A window that is screwed shut and needs a tool counts as no.";
    "to-pool", "whether it leads to the pool", yes_no();
        "Does it lead to the side where the pool is, with no other barrier between?", "Walk, or look, from it to the water.";
    "self-closing", "whether it closes by itself", yes_no();
        "Does it close by itself?", "Let it go wide open, half open, and just ajar.";
    "self-latching", "whether it latches by itself", yes_no();
        "Does it latch by itself each time it closes?", "Let it close ten times, and pull each time.";
    "latch-height", "height of the latch", metres(0, 10).or_none();
        "How high above the floor is the part that opens it?", "Tape from the floor inside straight up to the latch or handle.";
    "alarm", "alarm on it", such_as(&["exit-alarm", "UL 2017"]).or_none();
        "Does an alarm sound when it opens, and to which standard?", "Look at the alarm's label.";
    "alarm-switch-height", "height of the switch that silences the alarm", metres(0, 10).or_none();
        "How high above the floor is the switch that silences the alarm?", "Tape from the floor inside straight up to the switch.";
};

const DECK: &[FactRow] = facts! {
    "height", "height of the deck above the ground", metres(0, 100).varies();
        "How high is it above the ground?", "Tape from the ground up to its floor, at the lowest and at the highest place.";
    "surface", "surface of the deck", one_of(&["sealed", "permeable"]).about(Matter::Zoning);
        "Does rain run off it or through it?", "Pour a bucket of water on it and look.";
};

const DRIVEWAY: &[FactRow] = facts! {
    "surface", "surface of the paving", one_of(&["sealed", "permeable"]);
        "Does rain run off it or through it?", "Pour a bucket of water on it and look.";
};
