//! The barrier round the pool: its runs, its gates, the gaps in it.

use super::row::{
    FactRow, KindRow, NONE, OTHERS, area, date, facts, line, look, metres, one_of, point, such_as,
    yes_no,
};
use crate::vocabulary::Height::{At, Ground, OnItsSide};
use crate::vocabulary::{Layer, Mark, Matter, Number, Part, Role};

pub(super) const KINDS: &[KindRow] = &[
    KindRow {
        name: "barrier-stretch",
        seen: true,
        also: &["fence", "barrier", "pool-fence", "enclosure", "fencing"],
        said: "a stretch of the barrier",
        matter: Some(Matter::Barrier),
        number: Number::Many,
        ask: "Of which fences, walls and house walls is the barrier made?",
        outlines: &[
            line("line", "its middle line")
                .bars_the_way()
                .drawn(look(Layer::Barrier, NONE, "1.1").marked(Mark::Crosses)),
            line("pool-face", "its pool-side face").reaches(Ground, At("height-inside")),
            line("outer-face", "its outer face"),
            line("top", "its top")
                .reaches(
                    OnItsSide("height-inside", "height-outside"),
                    OnItsSide("height-inside", "height-outside"),
                )
                .level("top-level"),
            line("foot", "its foot").reaches(Ground, Ground),
        ],
        facts: STRETCH,
        role: Some(Role::Fence),
        others: OTHERS
            .reaches(Ground, At("height-outside"))
            .drawn(look(Layer::Barrier, NONE, "0.6").soft()),
        part: Part::Barrier,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "barrier-opening",
        seen: true,
        said: "an opening in the barrier",
        matter: Some(Matter::Barrier),
        number: Number::Many,
        ask: "Is there any gap or hole in the barrier besides those between its rails?",
        outlines: &[line("line", "the opening")],
        facts: OPENING,
        part_of: Some("barrier-stretch"),
        role: Some(Role::BarrierOpening),
        owners: true,
        opens: true,
        part: Part::Barrier,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "gate",
        seen: true,
        also: &["pool-gate", "gateway"],
        said: "a gate",
        matter: Some(Matter::Barrier),
        number: Number::Many,
        ask: "Which gates lead through the barrier?",
        outlines: &[
            line("line", "its closed leaf")
                .within(&["swing"])
                .bars_the_way()
                .drawn(look(Layer::Barrier, NONE, "2.6")),
            point("latch", "the latch").reaches(At("latch-height"), At("latch-height")),
            area("swing", "the area that the gate sweeps"),
        ],
        facts: GATE,
        part_of: Some("barrier-stretch"),
        role: Some(Role::Gate),
        owners: true,
        opens: true,
        others: OTHERS
            .reaches(Ground, At("height"))
            .drawn(look(Layer::Barrier, NONE, "0.7").dashed("3 2")),
        part: Part::Barrier,
        ..KindRow::PLAIN
    },
];

const STRETCH: &[FactRow] = facts! {
    "type", "make of the barrier", such_as(&["picket", "ornamental", "chain-link", "mesh", "solid", "lattice", "dwelling-wall", "pool-wall", "screen", "hedge"]);
        "What is this stretch made of?", "Go by what a child would meet: a wall of the house counts as dwelling-wall.";
    "role", "purpose of the stretch", such_as(&["pool-fence", "yard-fence", "retaining", "building"]);
        "Is it a fence for the pool, the fence of the yard, or a wall that is there anyway?", "Go by why it was put up.";
    "on", "place of the stretch", one_of(&["lot-line", "own"]);
        "Does it stand on the lot line or on your own ground?", "Compare it with the surveyed line; on the line counts even if the neighbour put it up.";
    "height-outside", "height on the outside", metres(0, 100).varies();
        "How high is it on the side away from the pool?", "Tape from the ground straight up to the top, at the lowest and at the highest place.";
    "height-inside", "height on the pool side", metres(0, 100).varies();
        "How high is it on the pool side?", "Tape from the ground straight up to the top, at the lowest and at the highest place.";
    "height-above-highest-foothold", "height above the highest foothold", metres(0, 100).varies();
        "How high is its top above the highest place where a foot finds hold?", "Look for the highest rail, knot or stone, and tape from it up to the lowest part of the top rail.";
    "height-above-street", "height above the street", metres(-100, 100).varies();
        "How high is its top above the street?", "Level from the middle of the street, or use a long straight edge and a spirit level.";
    "top-level", "level of the top", metres(-500, 9000).varies();
        "At what level is its top?", "Level from the same mark as the ground beside it.";
    "gap-below", "gap below", metres(0, 10).varies().or_none();
        "How wide is the gap between the ground and its lowest edge?", "Measure straight down at the widest place, and again at the narrowest.";
    "ground", "ground below", one_of(&["soft", "solid", "pool-structure"]).varies();
        "What lies under it: earth, grass or gravel; concrete or stone; or the pool itself?", "Push a spade at it: what gives way is soft.";
    "vertical-gap", "gap between its uprights", metres(0, 10).or_none();
        "How wide is the widest gap between two uprights?", "Measure clear between them, at the widest of them all.";
    "opening", "widest opening", metres(0, 10).or_none();
        "How large is the largest opening in it?", "Find the largest ball that passes through.";
    "mesh", "size of the mesh", metres(0, 1).or_none();
        "How wide is the mesh?", "Measure one opening square across, from wire to wire.";
    "slats", "whether slats fill the mesh", yes_no();
        "Are slats woven into the mesh?", "Say yes only if they are fastened at top or bottom.";
    "rail-spacing", "distance between the tops of its rails", metres(0, 100).or_none();
        "How far apart are the level rails?", "Measure from the top of one to the top of the next, at the narrowest.";
    "rail-side", "side on which the rails run", one_of(&["pool", "outside", "both"]).or_none();
        "On which side are the level rails?", "Stand at the pool and look: rails that you see are on the pool side.";
    "lowest-diagonal", "height of the lowest slanting part", metres(0, 100).or_none();
        "How high above the ground is its lowest slanting part?", "Measure on the outside, from the ground up to it.";
    "see-through", "whether it can be seen through", yes_no();
        "Can you see through it?", "Stand square to it, three steps away.";
    "built-on", "day on which it was built", date().or_none();
        "On which day was it built?", "Look at the fence builder's bill.";
    "ends-at", "end of the stretch", such_as(&["stretch", "gate", "building", "shoreline", "nothing"]);
        "What does it end at?", "Walk to its free end and look.";
};

const OPENING: &[FactRow] = facts! {
    "width", "width of the opening", metres(0, 100);
        "How wide is the opening?", "Find the largest ball that passes through.";
};

const GATE: &[FactRow] = facts! {
    "latch-height", "height of the latch", metres(0, 10).or_none();
        "How high above the ground is the part that opens the latch?", "Tape from the ground outside straight up to the knob or lever that lets go of the latch.";
    "latch-below-top", "distance from the latch to the top of the gate", metres(-10, 10).or_none();
        "How far below the top of the gate is the latch?", "Tape from the latch straight up to the top edge; above the top counts as negative.";
    "latch-side", "side from which the latch is released", one_of(&["pool", "outside", "both"]).or_none();
        "On which side is the latch let go?", "Stand outside and try without reaching over.";
    "lock", "lock of the gate", such_as(&["padlock", "key", "electric", "combination"]).or_none();
        "What locks the gate?", "A latch alone is no lock.";
    "self-closing", "whether the gate closes by itself", yes_no();
        "Does the gate close by itself from any position?", "Let it go wide open, half open, and just off the latch.";
    "self-latching", "whether the gate latches by itself", yes_no();
        "Does it latch by itself each time it closes?", "Let it close ten times, also from just off the latch, and pull each time.";
    "opens", "way in which the gate opens", one_of(&["away", "towards", "both", "sliding"]);
        "Does the gate open away from the pool or towards it?", "Stand at the pool and let somebody open it.";
    "use", "use of the gate", one_of(&["foot", "vehicle"]);
        "Is it for people on foot or for vehicles?", "Go by the widest thing that it is made for.";
    "width", "clear width of the gate", metres(0, 100);
        "How wide is the gate?", "Measure clear between the posts.";
    "height", "height of the gate", metres(0, 100).varies();
        "How high is the gate on the outside?", "Tape from the ground straight up to its top, at the lowest and at the highest place.";
    "gap-below", "gap below the gate", metres(0, 10).varies().or_none();
        "How wide is the gap below the gate?", "Close it, and measure at the widest place.";
    "opening", "widest opening in the gate", metres(0, 10).or_none();
        "How large is the largest opening in the gate?", "Find the largest ball that passes through, also near the latch.";
};
