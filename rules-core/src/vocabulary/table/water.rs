//! Water that flows, stands or rises.

use super::row::{
    FactRow, KindRow, NONE, OTHERS, area, facts, line, look, metres, point, such_as, yes_no,
};
use crate::vocabulary::Height::Ground;
use crate::vocabulary::{Layer, Mark, Matter, Number};

pub(super) const KINDS: &[KindRow] = &[
    KindRow {
        name: "drainage-path",
        seen: true,
        said: "a drainage path",
        matter: Some(Matter::Flood),
        number: Number::Many,
        ask: "Which way does rain run over the lot: in ditches, swales or along the lines?",
        outlines: &[line("line", "its middle line")],
        facts: DRAINAGE,
        others: OTHERS.reaches(Ground, Ground).drawn(
            look(Layer::Lines, NONE, "0.9")
                .dashed("6 4")
                .marked(Mark::Arrows),
        ),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "stormwater-point",
        said: "a stormwater point",
        matter: Some(Matter::Flood),
        number: Number::Many,
        ask: "Where does rain water, or water from the pool, enter a drain, a ditch or a soakaway?",
        outlines: &[point("place", "where the water enters")],
        facts: STORMWATER,
        others: OTHERS.reaches(Ground, Ground).level_only("level"),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "flood-area",
        whom: "the office that keeps the flood map",
        said: "a flood area",
        matter: Some(Matter::Flood),
        number: Number::Many,
        ask: "Does any mapped flood area reach the lot?",
        outlines: &[
            area("floodway", "the floodway")
                .may_lack()
                .within(&["region"]),
            area("region", "the flood area"),
        ],
        facts: FLOOD,
        others: OTHERS
            .reaches(Ground, Ground)
            .level_only("level")
            .drawn(look(Layer::Ground, "url(#siting-flood)", "0.9").dashed("7 4")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "shoreline",
        whom: "the office for waters",
        said: "a shoreline",
        matter: Some(Matter::Shore),
        number: Number::Many,
        ask: "Does the lot reach a lake, a river or the sea?",
        outlines: &[line("line", "the shoreline")],
        facts: SHORE,
        others: OTHERS
            .reaches(Ground, Ground)
            .level_only("high-water-level")
            .drawn(look(Layer::Lines, NONE, "1.4")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "open-water",
        whom: "the office for waters",
        also: &["pond", "lake", "stream", "river", "watercourse"],
        said: "open water",
        matter: Some(Matter::Shore),
        number: Number::Many,
        ask: "Is there any pond, lake, stream or wetland near the lot?",
        outlines: &[area("region", "the water's edge").bars_the_way()],
        facts: OPEN_WATER,
        others: OTHERS.reaches(Ground, Ground).drawn(look(
            Layer::Ground,
            "url(#siting-flood)",
            "1.2",
        )),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "top-of-bank",
        whom: "the office for waters",
        said: "the top of a bank",
        matter: Some(Matter::Shore),
        number: Number::Many,
        ask: "Does a stream or a ditch with banks run near the lot?",
        outlines: &[line("line", "the top of the bank")],
        facts: &[],
        others: OTHERS
            .reaches(Ground, Ground)
            .drawn(look(Layer::Lines, NONE, "1").marked(Mark::Strokes)),
        ..KindRow::PLAIN
    },
];

const DRAINAGE: &[FactRow] = facts! {
    "type", "sort of drainage path", such_as(&["swale", "ditch", "sheet-flow", "channel"]);
        "Is it a swale, a ditch, a built channel, or only the way the rain takes?", "Go out in heavy rain and look.";
    "stands-for", "origin of its water", such_as(&["own", "neighbour", "road"]);
        "Whose water does it carry?", "Follow it uphill.";
};

const STORMWATER: &[FactRow] = facts! {
    "type", "sort of stormwater point", such_as(&["drain", "ditch", "soakaway", "sewer"]);
        "Is it a drain, a ditch, a soakaway or a sewer?", "Follow the water; ask the office what may enter it.";
    "level", "level at which water enters", metres(-500, 9000);
        "At what level does water enter it?", "Level to the bottom of the pipe or the ditch, from the same mark as the pool.";
};

const FLOOD: &[FactRow] = facts! {
    "level", "level of the flood", metres(-500, 9000);
        "How high does the flood stand in this area?", "Ask the flood office; it gives a level above its own datum.";
    "zone", "zone on the flood map", such_as(&["A", "AE", "AO", "AH", "V", "VE", "X"]);
        "Which zone does the flood map show?", "Look at the official flood map, and ask the office to confirm the zone.";
};

const SHORE: &[FactRow] = facts! {
    "public-access", "whether the public has access to the shore", yes_no();
        "May the public walk along the shore?", "Ask the municipality.";
    "high-water-level", "level of high water", metres(-500, 9000);
        "At what level is ordinary high water?", "Ask the office that keeps the water levels.";
};

const OPEN_WATER: &[FactRow] = facts! {
    "type", "sort of open water", such_as(&["pond", "lake", "stream", "river", "wetland", "sea"]);
        "What sort of water is it?", "Ask the office about wetlands: they are often dry to the eye.";
};
