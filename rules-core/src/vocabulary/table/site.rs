//! The lot, its lines, and its zoning.

use super::row::{
    FactRow, KindRow, OTHERS, area, date, facts, line, metres, number, one_of, square_metres,
    such_as, yes_no,
};
use crate::vocabulary::Height::Ground;
use crate::vocabulary::{Matter, Number, Part, Role};

pub(super) const KINDS: &[KindRow] = &[
    KindRow {
        name: "lot",
        also: &["property", "plot", "parcel", "yard", "site", "land"],
        said: "the lot",
        matter: Some(Matter::Zoning),
        number: Number::One,
        ask: "Which lot is the pool for?",
        outlines: &[
            area("boundary", "the boundary"),
            area("flag-handle", "the strip that leads to the road")
                .may_lack()
                .within(&["boundary"]),
        ],
        facts: LOT,
        role: Some(Role::Lot),
        others: OTHERS.reaches(Ground, Ground),
        part: Part::Lot,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "lot-line",
        also: &[
            "property-line",
            "boundary",
            "lot-boundary",
            "line",
            "side-line",
            "rear-line",
            "front-line",
            "side-lot-line",
            "rear-lot-line",
            "front-lot-line",
            "parcel-line",
        ],
        said: "a lot line",
        matter: Some(Matter::LotLines),
        number: Number::Many,
        ask: "What are the sides of the lot?",
        outlines: &[line("line", "the line")],
        facts: LOT_LINE,
        role: Some(Role::LotLine),
        others: OTHERS.reaches(Ground, Ground),
        part: Part::Lot,
        ..KindRow::PLAIN
    },
    KindRow {
        name: "zone",
        said: "the zoning district",
        matter: Some(Matter::Zoning),
        number: Number::One,
        ask: "In which zoning district does the lot lie?",
        outlines: &[],
        facts: ZONE,
        part: Part::Where,
        ..KindRow::PLAIN
    },
];

const LOT: &[FactRow] = facts! {
    "area", "area of the lot", square_metres(100_000_000);
        "How large is the lot?", "Take it from the deed or the survey; a tax record is often rounded.";
    "width-at-building-line", "width of the lot at the building line", metres(0, 10_000);
        "How wide is the lot where the front of the house stands?", "Tape from side line to side line, in line with the front wall of the house.";
    "width-at-front", "width of the lot at the road", metres(0, 10_000);
        "How wide is the lot along the road?", "Tape between the two front corner marks.";
    "flood-zone", "flood zone", such_as(&["A", "AE", "AO", "AH", "V", "VE", "X"]).or_none().about(Matter::Flood);
        "In which flood zone does the lot lie?", "Look at the official flood map, and ask the office to confirm the zone.";
    "design-flood-level", "design flood level", metres(-500, 9000).about(Matter::Flood);
        "To what level must things be raised against floods?", "Ask the flood office; it gives a level above its own datum.";
    "base-flood-level", "base flood level", metres(-500, 9000).about(Matter::Flood);
        "How high does the flood stand for which the map is drawn?", "Read it from the flood map or its profile, in the map's datum.";
    "level-ground", "whether the ground is level", yes_no().about(Matter::Ground);
        "Is the ground level from the pool to all that is measured in height, also below wires and beyond the lot lines?", "Lay a long straight edge and a spirit level; where it falls or rises, say no and give levels at several places.";
    "groundwater-level", "level of the groundwater", metres(-500, 9000).about(Matter::Ground);
        "To what level does the groundwater rise?", "Ask who drilled or dug nearby, at the wettest time of the year; take the highest.";
    "designation", "special designation of the lot", such_as(&["conservation-area", "heritage", "national-park"]).or_none().about(Matter::HeritageAndNature);
        "Is the lot in a conservation area or otherwise specially designated?", "Ask the planning office, or look at its map of protected areas.";
    "protected-sector", "whether the lot lies in a protected sector", yes_no().about(Matter::HeritageAndNature);
        "Does the lot lie in a protected sector?", "Ask the planning office, or look at its map of protected areas.";
    "in-association", "whether the lot belongs to an owners' association", yes_no().about(Matter::PrivateRights);
        "Does the lot belong to an owners' association?", "Look for covenants among the papers from when the lot was bought.";
    "zoning-plan-date", "date of the zoning plan", date().or_none();
        "On which day was the zoning plan for the lot adopted?", "Look in the head of the plan; the planning office has it.";
    "zoning-plan-sets-distance", "whether the zoning plan sets its own distance", yes_no();
        "Does the zoning plan set its own distance for pools?", "Read the plan's text, or ask the planning office.";
    "space-limited", "whether there is no room elsewhere", yes_no();
        "Is there no other room for it on the lot?", "Try it elsewhere on a scale drawing, and show the office what is in the way.";
};

const LOT_LINE: &[FactRow] = facts! {
    "faces", "side of the lot on which the line lies", one_of(&["front", "side", "rear", "street-side", "shore", "alley"]);
        "Is this line at the front, a side, the rear, a second street, the shore or an alley?", "Stand on the road that gives the lot its address and face the house; ask the office about corner and odd lots.";
    "beyond", "ground beyond the line", one_of(&["neighbour-lot", "road", "alley", "open-space", "water", "railway"]);
        "What lies beyond this line?", "Look at the survey or the parcel map, not at the fence.";
    "neighbour-faces", "side of the neighbour's lot", one_of(&["front", "side", "rear", "street-side", "shore", "alley"]);
        "Which side of the neighbour's lot is this line?", "Stand on the neighbour's road and face the neighbour's house.";
    "source", "source of the line", one_of(&["survey", "plat", "deed", "map", "fence", "guess", "designated", "design", "tape"]);
        "Who fixed this line?", "Say on what paper or mark it rests; only a survey, a plat or a deed makes it a boundary.";
    "accuracy", "accuracy of the line", metres(0, 1000);
        "How far off may this line be?", "Read it from the survey's notes, or ask the surveyor.";
    "length", "length of the line", metres(0, 10_000);
        "How long is this line by the deed or the plat?", "Copy the length that the deed or the plat states.";
};

const ZONE: &[FactRow] = facts! {
    "district", "zoning district", such_as(&[]);
        "In which zoning district does the lot lie?", "Look at the zoning map, and ask the office to confirm it.";
    "principal-setback", "setback of the principal building", metres(0, 1000);
        "How far must the principal building stay from the line?", "Look in the district's table of setbacks.";
    "coverage-limit", "greatest share of the lot that may be covered", number(0, 1);
        "What share of the lot may be covered?", "Look in the district's table of coverage.";
};
