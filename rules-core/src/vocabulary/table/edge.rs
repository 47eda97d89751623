//! What stands beside the barrier, or in place of it.

use super::row::{
    FactRow, KindRow, NONE, OTHERS, area, facts, line, look, metres, one_of, steepness, such_as,
    yes_no,
};
use crate::vocabulary::Height::{At, Ground};
use crate::vocabulary::{Layer, Mark, Matter, Number, Part};

pub(super) const KINDS: &[KindRow] = &[
    KindRow {
        name: "foothold",
        seen: true,
        also: &["climbable-object", "climbing-aid", "object"],
        said: "a foothold",
        matter: Some(Matter::Barrier),
        number: Number::Many,
        ask: "Does anything near the barrier help a child to climb: a rail, a bench, a branch, a pump, a plant pot?",
        outlines: &[
            area("region", "the foothold"),
            line("top", "the top of the foothold").within(&["region"]),
        ],
        facts: FOOTHOLD,
        others: OTHERS.reaches(At("height"), At("height")),
        part: Part::Barrier,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "mesh-fence",
        seen: true,
        said: "a removable mesh fence",
        matter: Some(Matter::Barrier),
        number: Number::AtMostOne,
        ask: "Will there be a removable mesh fence?",
        outlines: &[line("line", "the fence").bars_the_way()],
        facts: MESH_FENCE,
        owners: true,
        of_a_pool: true,
        others: OTHERS.reaches(Ground, At("height")).drawn(
            look(Layer::Barrier, NONE, "1")
                .dashed("4 2")
                .marked(Mark::Crosses),
        ),
        part: Part::Barrier,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "screen-enclosure",
        seen: true,
        said: "a screen enclosure",
        matter: Some(Matter::Barrier),
        number: Number::AtMostOne,
        ask: "Will a screened cage stand over the pool?",
        outlines: &[area("region", "the edge of the screen enclosure").bars_the_way()],
        facts: ROOFED,
        owners: true,
        of_a_pool: true,
        others: OTHERS.reaches(Ground, At("height")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "pool-enclosure",
        seen: true,
        said: "a pool enclosure",
        matter: Some(Matter::Buildings),
        number: Number::AtMostOne,
        ask: "Will a roof or a telescopic hall stand over the pool?",
        outlines: &[area("region", "the edge of the pool enclosure").bars_the_way()],
        facts: ROOFED,
        owners: true,
        of_a_pool: true,
        others: OTHERS.reaches(Ground, At("height")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "temporary-fence",
        seen: true,
        said: "the fence during the works",
        matter: Some(Matter::Barrier),
        number: Number::AtMostOne,
        ask: "Will a fence stand round the hole during the works?",
        outlines: &[line("line", "the fence")],
        facts: TEMPORARY,
        owners: true,
        others: OTHERS.reaches(Ground, At("height")).drawn(
            look(Layer::Barrier, NONE, "1")
                .dashed("8 4")
                .marked(Mark::Crosses),
        ),
        part: Part::Barrier,
        ..KindRow::PLAIN
    },
];

const FOOTHOLD: &[FactRow] = facts! {
    "depth", "depth of the foothold", metres(0, 100);
        "How deep is the ledge on which a foot could stand?", "Measure level from its edge back to what is behind it.";
    "height", "height of the foothold above the ground", metres(0, 100);
        "How high above the ground is it?", "Tape from the ground straight up to its top.";
    "slope", "slope of the foothold", steepness();
        "How steep is its top?", "Lay a spirit level or a telephone on it; level is 0, upright 90 degrees.";
    "barrier-side", "side of the barrier on which it stands", one_of(&["inside", "outside"]);
        "Is it on the pool side of the barrier or outside?", "Stand at the pool: what you can touch is inside.";
    "fixed", "whether it is fixed", yes_no();
        "Is it fixed, or could anybody move it?", "Try to move it alone.";
};

const MESH_FENCE: &[FactRow] = facts! {
    "standard", "standard that the mesh fence meets", such_as(&["ASTM F2286"]).or_none();
        "To which standard was the mesh fence tested?", "Look at the label, or in the maker's declaration.";
    "removable-end", "whether an end of it can be taken away", yes_no();
        "Can one of its end posts be taken out by hand?", "Try it without a tool.";
    "gate-self-latching", "whether its gate closes and latches by itself", yes_no();
        "Does its gate close and latch by itself?", "Let it close ten times, also from just off the latch, and pull each time.";
    "height", "height of the mesh fence", metres(0, 100).varies();
        "How high is the mesh fence?", "Tape from the ground straight up to its top, at the lowest and at the highest place.";
};

const ROOFED: &[FactRow] = facts! {
    "roof", "roof of the enclosure", one_of(&["screen", "solid"]).or_none();
        "Is its roof of screen or solid?", "Glass and plastic sheet count as solid.";
    "height", "height of the enclosure", metres(0, 100);
        "How high is it at its highest?", "Tape from the natural ground beside it up to the ridge.";
};

const TEMPORARY: &[FactRow] = facts! {
    "height", "height of the fence during the works", metres(0, 100).varies();
        "How high will the fence round the hole be?", "Tape from the ground outside straight up to its top.";
    "standard", "standard that the fence during the works meets", such_as(&[]).or_none();
        "To which standard is it built?", "Ask who hires it out.";
};
