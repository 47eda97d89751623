//! The ground: levels, slopes, retaining walls, trees.

use super::row::{
    FactRow, KindRow, NONE, OTHERS, area, facts, line, look, metres, number, one_of, point,
    such_as, yes_no,
};
use crate::vocabulary::Height::{About, Deep, Ground, High};
use crate::vocabulary::{Layer, Mark, Matter, Number, Role};

pub(super) const KINDS: &[KindRow] = &[
    KindRow {
        name: "ground-spot",
        said: "a spot of ground with a known level",
        matter: Some(Matter::Ground),
        number: Number::Many,
        ask: "At which places is the level of the ground known?",
        outlines: &[point("place", "the spot")],
        facts: SPOT,
        role: Some(Role::Spot),
        others: OTHERS.reaches(Ground, Ground).level("level"),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "contour",
        said: "a contour line",
        matter: Some(Matter::Ground),
        number: Number::Many,
        ask: "Which contour lines run over the lot and near it?",
        outlines: &[line("line", "the contour")],
        facts: CONTOUR,
        role: Some(Role::Contour),
        others: OTHERS.reaches(Ground, Ground).level("level"),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "raised-ground",
        said: "ground that is raised",
        matter: Some(Matter::Ground),
        number: Number::Many,
        ask: "Where is the ground to be raised?",
        outlines: &[area("region", "the edge of the raised ground")],
        facts: RAISED,
        owners: true,
        others: OTHERS.reaches(Ground, High).level("top-level"),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "tree",
        seen: true,
        said: "a tree",
        matter: Some(Matter::HeritageAndNature),
        number: Number::Many,
        ask: "Which trees stand on the lot or near its lines?",
        outlines: &[
            point("stem", "its stem").within(&["root-zone"]).drawn(look(
                Layer::Standing,
                "#ffffff",
                "1.2",
            )),
            area("root-zone", "its root zone").reaches(Deep, Ground),
            area("canopy", "its drip line").reaches(High, High),
        ],
        facts: TREE,
        others: OTHERS.drawn(look(Layer::Ground, NONE, "0.8").dashed("1.5 3")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "retaining-wall",
        seen: true,
        also: &["wall"],
        said: "a retaining wall",
        matter: Some(Matter::Ground),
        number: Number::Many,
        ask: "Does any wall hold back earth?",
        outlines: &[line("line", "its face").bars_the_way()],
        facts: RETAINING,
        owners: true,
        others: OTHERS.reaches(About("height"), About("height")).drawn(look(
            Layer::Standing,
            NONE,
            "2.6",
        )),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "slope",
        said: "a slope",
        matter: Some(Matter::Ground),
        number: Number::Many,
        ask: "Is there a steep slope above or below the pool?",
        outlines: &[
            line("toe", "its toe"),
            line("toe-45", "the toe of a 45 degree plane"),
            line("top", "its top"),
        ],
        facts: SLOPE,
        others: OTHERS
            .reaches(Ground, Ground)
            .drawn(look(Layer::Lines, NONE, "0.8").marked(Mark::Strokes)),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "cliff",
        said: "a cliff",
        matter: Some(Matter::Ground),
        number: Number::Many,
        ask: "Is there a cliff or a drop?",
        outlines: &[line("line", "its edge").bars_the_way()],
        facts: CLIFF,
        others: OTHERS
            .reaches(Ground, Ground)
            .drawn(look(Layer::Lines, NONE, "1.4").marked(Mark::Strokes)),
        ..KindRow::PLAIN
    },
];

const SPOT: &[FactRow] = facts! {
    "level", "level of the ground", metres(-500, 9000);
        "At what level is the ground here?", "Level from the same mark as everything else.";
};

const CONTOUR: &[FactRow] = facts! {
    "level", "level of the contour", metres(-500, 9000);
        "At what level is the ground along it?", "Look at the map; turn it into the datum of the other levels.";
    "interval", "difference of level between neighbouring contours", metres(0, 100);
        "By how much do neighbouring contours of this map differ?", "Look in the map's legend.";
};

const RAISED: &[FactRow] = facts! {
    "top-level", "level of its top", metres(-500, 9000).varies();
        "To what level is the ground raised?", "Level from the same mark as the ground beside it; take it from the grading plan.";
};

const TREE: &[FactRow] = facts! {
    "stem-diameter", "diameter of the stem", metres(0, 30);
        "How thick is the stem at chest height?", "Tape round it about 1.4 m above the ground, and divide by 3.14.";
    "stems", "number of stems", number(1, 100);
        "How many stems does it have?", "Count them at chest height.";
    "species", "species of the tree", such_as(&["oak", "maple", "pine", "birch", "beech", "spruce", "willow", "poplar"]);
        "Which tree is it?", "Take a leaf to somebody who knows trees.";
    "stands-on", "ground that the tree stands on", one_of(&["lot", "neighbour-lot", "road"]).on_the_lot("lot");
        "Whose ground does it stand on?", "Go by the surveyed line and the middle of the stem.";
    "protected", "whether the tree is protected", yes_no();
        "Is the tree protected?", "Ask the office that keeps the list of protected trees.";
};

const RETAINING: &[FactRow] = facts! {
    "height", "height of the retaining wall", metres(0, 500).varies();
        "How high is the wall?", "Tape from the lower ground straight up to its top, at the lowest and at the highest place.";
    "slope", "slope that the wall stands on", such_as(&["same", "other"]);
        "Does it stand on the same slope as the other walls?", "Walls within a few metres of each other up the hill count as one slope; ask the office.";
};

const SLOPE: &[FactRow] = facts! {
    "gradient", "rise of the slope over its run", number(0, 1000).varies();
        "How steep is it?", "Divide how much it rises by how far it runs on the level; 1 is 45 degrees.";
    "footing-setback", "setback of footings from the slope", metres(0, 1000);
        "How far must footings stay from this slope?", "The engineer or the building office works it out from the slope's height.";
    "height", "height of the slope", metres(0, 9000);
        "How high is it from toe to top?", "Level from its toe to its top.";
};

const CLIFF: &[FactRow] = facts! {
    "height", "height of the cliff", metres(0, 9000).varies();
        "How high is the drop?", "Level from its foot, or read it from a map with contours; keep away from the edge.";
};
