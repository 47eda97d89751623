//! Water that flows, stands or rises.

use super::row::{FactRow, KindRow, facts, metres, such_as, yes_no};
use crate::vocabulary::{Matter, Number, Shape};

pub(super) const KINDS: &[KindRow] = &[
    KindRow {
        name: "drainage-path",
        said: "a drainage path",
        matter: Some(Matter::Flood),
        number: Number::Many,
        ask: "Which way does rain run over the lot: in ditches, swales or along the lines?",
        outlines: &[("line", "its middle line", Shape::Line)],
        facts: DRAINAGE,
    },
    KindRow {
        name: "stormwater-point",
        said: "a stormwater point",
        matter: Some(Matter::Flood),
        number: Number::Many,
        ask: "Where does rain water, or water from the pool, enter a drain, a ditch or a soakaway?",
        outlines: &[("place", "where the water enters", Shape::Point)],
        facts: STORMWATER,
    },
    KindRow {
        name: "flood-area",
        said: "a flood area",
        matter: Some(Matter::Flood),
        number: Number::Many,
        ask: "Does any mapped flood area reach the lot?",
        outlines: &[
            ("floodway", "the floodway", Shape::Area),
            ("region", "the flood area's edge", Shape::Area),
        ],
        facts: FLOOD,
    },
    KindRow {
        name: "shoreline",
        said: "a shoreline",
        matter: Some(Matter::Shore),
        number: Number::Many,
        ask: "Does the lot reach a lake, a river or the sea?",
        outlines: &[("line", "the shoreline", Shape::Line)],
        facts: SHORE,
    },
    KindRow {
        name: "open-water",
        said: "open water",
        matter: Some(Matter::Shore),
        number: Number::Many,
        ask: "Is there any pond, lake, stream or wetland near the lot?",
        outlines: &[("region", "the water's edge", Shape::Area)],
        facts: OPEN_WATER,
    },
    KindRow {
        name: "top-of-bank",
        said: "the top of a bank",
        matter: Some(Matter::Shore),
        number: Number::Many,
        ask: "Does a stream or a ditch with banks run near the lot?",
        outlines: &[("line", "the top of the bank", Shape::Line)],
        facts: &[],
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
