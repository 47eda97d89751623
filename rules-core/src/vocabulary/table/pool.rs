//! The pool, its parts, and what belongs to it.

use super::row::{
    FactRow, KindRow, NONE, OTHERS, area, cubic_metres, date, facts, kilograms, line,
    litres_a_second, look, metres, one_of, square_metres, such_as, years, yes_no,
};
use crate::vocabulary::Height::{At, DownTo, Ground, OverRim, Rim, Unknown, UpToRim};
use crate::vocabulary::{Layer, Matter, Number, Part, Role};

pub(super) const KINDS: &[KindRow] = &[
    KindRow {
        name: "pool",
        also: &["swimming-pool", "basin", "spa", "hot-tub"],
        said: "a pool",
        matter: None,
        number: Number::Many,
        ask: "Which pools, spas and paddling pools are there, or are to be built?",
        outlines: &[
            area("water", "the water's edge")
                .within(&["coping", "inside-face"])
                .bars_the_way()
                .reaches(Rim, Rim)
                .level("rim-level")
                .drawn(look(Layer::Pool, "#cfe1e8", "1.8")),
            area("inside-face", "the inside face of the pool wall")
                .within(&["shell"])
                .reaches(Unknown, Rim)
                .drawn(look(Layer::Pool, NONE, "0.8")),
            area("coping", "the coping's outer edge")
                .may_lack()
                .within(&["with-attached"])
                .reaches(Rim, Rim)
                .level("rim-level")
                .drawn(look(Layer::Pool, NONE, "0.8")),
            area("shell", "the outside of the shell")
                .within(&["with-attached"])
                .reaches(Unknown, Rim)
                .drawn(look(Layer::Pool, NONE, "0.9").dashed("3 2")),
            area("deck", "the deck's outer edge")
                .may_lack()
                .reaches(UpToRim, UpToRim)
                .drawn(look(Layer::Ground, NONE, "0.8").dashed("9 3").soft()),
            area("excavation", "the excavation")
                .may_lack()
                .reaches(DownTo("excavation-depth"), Ground)
                .lowest()
                .drawn(look(Layer::Ground, NONE, "1").dashed("2 3").soft()),
            area("with-attached", "the pool with all that is joined to it")
                .reaches(UpToRim, UpToRim),
            area("enclosed-area", "the area inside the barrier")
                .may_lack()
                .beside()
                .reaches(Ground, Ground),
        ],
        facts: POOL,
        role: Some(Role::Pool),
        owners: true,
        others: OTHERS.drawn(look(Layer::Ground, NONE, "0.8").dashed("4 3").soft()),
        part: Part::Pool,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "pool-wall-stretch",
        said: "a stretch of the pool's own wall",
        matter: Some(Matter::Barrier),
        number: Number::Many,
        ask: "Does the pool's own wall stand above the ground anywhere?",
        outlines: &[line("line", "the foot of the wall")],
        facts: POOL_WALL,
        owners: true,
        of_a_pool: true,
        others: OTHERS
            .reaches(Ground, At("height-above-finished-grade"))
            .drawn(look(Layer::Barrier, NONE, "2.2")),
        part: Part::Barrier,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "excavation-zone",
        said: "a part of the excavation with its own depth",
        matter: Some(Matter::Ground),
        number: Number::Many,
        ask: "Is the excavation deeper in some parts than in others?",
        outlines: &[area("region", "the edge of that part")],
        facts: EXCAVATION_ZONE,
        owners: true,
        of_a_pool: true,
        others: OTHERS.reaches(DownTo("depth"), Ground).lowest(),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "cover",
        seen: true,
        said: "a cover",
        matter: Some(Matter::Barrier),
        number: Number::AtMostOne,
        ask: "Will the pool have a cover?",
        outlines: &[area("region", "the edge of the cover")],
        facts: COVER,
        owners: true,
        of_a_pool: true,
        others: OTHERS.reaches(At("height"), At("height")),
        ..KindRow::PLAIN
    },
    KindRow {
        name: "pool-alarm",
        seen: true,
        said: "a pool alarm",
        matter: Some(Matter::Barrier),
        number: Number::AtMostOne,
        ask: "Will there be an alarm in the water?",
        outlines: &[],
        facts: POOL_ALARM,
        of_a_pool: true,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "ladder",
        seen: true,
        said: "a ladder or outside steps",
        matter: Some(Matter::Barrier),
        number: Number::Many,
        ask: "Is there a ladder, or are there steps, up to the pool from the outside?",
        outlines: &[area("region", "the foot of the ladder")],
        facts: LADDER,
        owners: true,
        of_a_pool: true,
        part: Part::Barrier,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "diving-structure",
        seen: true,
        said: "a diving board or platform",
        matter: Some(Matter::Structure),
        number: Number::AtMostOne,
        ask: "Will there be a diving board, a platform or a slide?",
        outlines: &[area("region", "the edge of the board or platform")],
        facts: DIVING,
        owners: true,
        of_a_pool: true,
        others: OTHERS.reaches(OverRim("height"), OverRim("height")),
        ..KindRow::PLAIN
    },
];

const POOL: &[FactRow] = facts! {
    "construction", "way the pool is built", one_of(&["in-ground", "on-ground", "above-ground", "portable", "spa"]);
        "How is the pool built: in the ground, on it, above it, portable, or a spa?", "Go by where its walls stand when it is finished.";
    "depth", "greatest depth of the water", metres(0, 50).or_none();
        "How deep is the water at the deepest place?", "Measure from the water line at its highest to the floor at its lowest.";
    "fill-depth", "depth to which the pool can be filled", metres(0, 50);
        "How deep could it be filled before it runs over?", "Measure from the lowest point of the rim down to the floor.";
    "excavation-depth", "greatest depth of the excavation", metres(0, 100).about(Matter::Ground);
        "How deep is the hole at its deepest?", "Add the floor, its bed and the drainage layer to the depth of the pool, from the ground as it is now.";
    "volume", "volume of the water", cubic_metres(1_000_000);
        "How much water does it hold?", "The maker states it; or multiply the water's area by its mean depth.";
    "height-above-ground", "height of the pool above the ground", metres(0, 100).varies();
        "How high does the pool stand above the finished ground?", "Measure from the ground beside it up to its rim, at the lowest and at the highest place.";
    "top-above-grade", "height of the rim above the natural ground", metres(-100, 100).varies();
        "How high is the rim above the ground as it was before any filling?", "Level from an untouched spot beside it; below the ground counts as negative.";
    "rim-level", "level of the pool's rim", metres(-500, 9000).varies();
        "At what level is its rim, where it would run over?", "Level from the same mark as the ground and the flood, at the lowest and at the highest place.";
    "underside-level", "level of the underside of the shell", metres(-500, 9000).about(Matter::Ground);
        "At what level is the underside of its floor at the deepest place?", "Take the level of the rim less the depth and the thickness of the floor.";
    "shell-mass", "mass of the empty shell", kilograms(1_000_000_000).about(Matter::Structure);
        "How heavy is the empty shell with all that is fixed to it?", "The maker states it; for a shell that is cast, the engineer works it out.";
    "footprint", "area that the pool takes on the ground", square_metres(100_000_000).about(Matter::Zoning);
        "How much ground does the pool take, by the authority's way of counting?", "Count it as the application form says, with or without the deck.";
    "gross-area", "gross area of the works", square_metres(100_000_000).about(Matter::Zoning);
        "How large are the works in all, by the authority's way of counting?", "Count it as the application form says.";
    "standing-time", "time that the pool stands", years(1000);
        "For how long in a year, or in all, will it stand?", "Count from the day it is set up to the day it is taken down.";
    "built-on", "day on which the pool was built", date().or_none();
        "On which day was the pool finished?", "Look at the final certificate, or at the builder's last bill.";
    "works-begun-on", "day on which the works on the pool began", date().or_none();
        "On which day did, or will, the works on the pool begin?", "It is the day on which the digging begins.";
    "barrier-altered-on", "day on which the barrier was last altered", date().or_none();
        "On which day was the barrier last substantially altered?", "Look at the fence builder's bill; mending like for like is no alteration.";
    "work", "kind of work on the pool", one_of(&["new", "remodelled", "existing"]);
        "Is the pool new, to be remodelled, or there already and left as it is?", "Go by what the application is for.";
    "recirculating", "whether the water is pumped round", yes_no();
        "Is the water pumped round through a filter?", "Say yes if there is a pump, built in or not.";
    "founded", "whether the pool stands on foundations", yes_no();
        "Does it stand on foundations or a slab of its own?", "Say yes if anything under it is cast or dug in.";
    "connected-to-mains", "whether the pool is joined to the mains", yes_no().about(Matter::Sewage);
        "Is it piped to the water mains or to a sewer?", "A garden hose that is taken away again does not count.";
    "wall-is-barrier", "whether the pool's own wall is the barrier", yes_no().about(Matter::Barrier);
        "Is the pool's own wall meant to keep children out?", "Say yes if no fence stands round it.";
    "wall-as-barrier-allowed-by-maker", "whether the maker allows the wall as a barrier", yes_no().about(Matter::Barrier);
        "Does the maker say that the wall may serve as the barrier?", "It must be in the maker's own instructions.";
    "opening-without-ladder", "widest opening left when the ladder is away", metres(0, 10).or_none().about(Matter::Barrier);
        "How wide is the widest opening when the ladder is away?", "Lock, fold or take away the ladder, then measure the gap.";
    "prefabricated", "whether the shell comes ready-made", yes_no();
        "Does the shell come ready made?", "Say yes if it is lifted in as one piece.";
    "emptied-to", "place to which the pool is emptied", such_as(&["own-ground", "own-storm-connection", "sewer", "road", "watercourse", "tanker"]).about(Matter::Sewage);
        "Where does the water go when the pool is emptied?", "Follow the hose or the pipe to its end.";
    "emptying-rate", "flow at which the pool is emptied", litres_a_second(100_000).about(Matter::Sewage);
        "How fast is it emptied?", "The pump's plate states it; or time the filling of a bucket.";
    "emptied-dechlorinated", "whether the water is free of chlorine when let out", yes_no().about(Matter::Sewage);
        "Is the water freed of chlorine before it is let out?", "Test it with a strip on the day.";
};

const POOL_WALL: &[FactRow] = facts! {
    "height-above-finished-grade", "height of the pool's wall above the finished ground", metres(0, 100).varies();
        "How high does the pool's wall stand above the ground here?", "Measure on the outside from the finished ground up to the top of the wall, at the lowest and at the highest place.";
};

const EXCAVATION_ZONE: &[FactRow] = facts! {
    "depth", "depth of this part of the excavation", metres(0, 100).varies();
        "How deep is this part of the hole?", "Measure down from the ground as it is now, at the shallow and at the deep end.";
};

const COVER: &[FactRow] = facts! {
    "standard", "standard that the cover meets", such_as(&["ASTM F1346", "NF P90-308"]).or_none();
        "To which standard was the cover tested?", "Look at the label, or in the maker's declaration.";
    "powered", "whether the cover is powered", yes_no();
        "Does a motor move the cover?", "Say yes if it opens and closes at a switch.";
    "lockable", "whether the cover locks", yes_no();
        "Can the cover be locked?", "Try it: a child must not be able to lift it when locked.";
    "height", "height of the cover above the ground", metres(0, 100);
        "How high does the cover stand above the ground at its highest?", "Measure from the ground beside the pool; a flat cover is near nothing.";
};

const POOL_ALARM: &[FactRow] = facts! {
    "standard", "standard that the alarm meets", such_as(&["ASTM F2208", "NF P90-307"]).or_none();
        "To which standard was the alarm tested?", "Look at the label, or in the maker's declaration.";
};

const LADDER: &[FactRow] = facts! {
    "secured-by", "way the ladder is secured", one_of(&["lock", "removal", "fold-up", "barrier"]).or_none();
        "How is the ladder kept from a child when nobody swims?", "Say what is done with it: locked, taken away, folded up, or fenced off.";
};

const DIVING: &[FactRow] = facts! {
    "height", "height of the board above the water", metres(0, 30);
        "How high is the board or platform above the water?", "Measure from the water line up to the tip of the board.";
    "standard", "standard that the board meets", such_as(&[]).or_none();
        "To which standard was it built?", "Look in the maker's papers.";
};
