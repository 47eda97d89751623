//! What is measured, and the bounds a value must keep.

use super::Syntax::{
    self, AnyOf, Choice, List, Map, Meanings, Named, OneOrMore, Says, Told, Word, Words,
};
use super::things::{IF_NONE_KEY, IN, KIND, LIMIT, OUTLINES, PART_OF, REQUIREMENT, WHERE, ZONE};
use super::{Key, Keys, Tie, keys, may, need};
use crate::quantity::Dimension;

/// Something that is measured, stated or calculated.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Measure {
    Fact,
    Value,
    Distance,
    Area,
    Length,
    Count,
    Enclosure,
    Sound,
    Level,
    GroundLevel,
    Fall,
    Volume,
    Uplift,
    Height,
    Margin,
    Width,
    Table,
    Largest,
    Smallest,
    Sum,
    Difference,
    Product,
    Root,
}

/// A measure with its key.
#[derive(Debug, Clone, Copy)]
pub(crate) struct MeasureKey {
    pub measure: Measure,
    pub key: Key,
    /// The dimension of its limits, if it is the same for all its values.
    pub limits: Option<Dimension>,
}

const fn measure(measure: Measure, name: &'static str, syntax: &'static str) -> MeasureKey {
    MeasureKey {
        measure,
        key: may(name, Named(syntax)),
        limits: None,
    }
}

impl MeasureKey {
    const fn in_(self, dimension: Dimension) -> Self {
        let limits = Some(dimension);
        Self { limits, ..self }
    }

    const fn says(self, means: &'static str) -> Self {
        let key = self.key.says(means);
        Self { key, ..self }
    }
}

/// The measures. A requirement has exactly one of them, or combines other requirements.
pub(crate) static MEASURES: [MeasureKey; 23] = [
    measure(Measure::Fact, "fact", "fact-name")
        .says("What is stated in the plan, such as `pool.depth`."),
    measure(Measure::Value, "value", "fact-name").says("A term that stands for a value."),
    measure(Measure::Distance, "distance", "distance")
        .in_(Dimension::Length)
        .says("The distance between two outlines."),
    measure(Measure::Area, "area", "area")
        .says("The area of outlines, or their share of another area."),
    measure(Measure::Length, "length", "length-of")
        .in_(Dimension::Length)
        .says("The length of outlines."),
    measure(Measure::Count, "count", "counted")
        .in_(Dimension::Number)
        .says("How many there are; or, of a list of requirements, how many hold."),
    measure(Measure::Enclosure, "enclosure", "enclosure")
        .in_(Dimension::Length)
        .says("The widest gap through which the pool can be reached."),
    measure(Measure::Sound, "sound", "sound")
        .in_(Dimension::Sound)
        .says("The sound level that arrives somewhere."),
    measure(Measure::Level, "level", "level")
        .in_(Dimension::Length)
        .says("The level of outlines, in the datum of the plan's levels."),
    measure(Measure::GroundLevel, "ground-level", "ground-level")
        .in_(Dimension::Length)
        .says("The level of the ground at outlines."),
    measure(Measure::Fall, "fall", "fall")
        .in_(Dimension::Number)
        .says("The fall from one outline to another, per length."),
    measure(Measure::Volume, "volume", "volume")
        .in_(Dimension::Volume)
        .says("What lies over an area between two levels."),
    measure(Measure::Uplift, "uplift", "volume")
        .in_(Dimension::Mass)
        .says("The mass of water that would fill a volume: the water lifts whatever keeps it out by that much."),
    measure(Measure::Height, "height", "height")
        .in_(Dimension::Length)
        .says("The least height of outlines above the ground and everything near them."),
    measure(Measure::Margin, "margin", "margin")
        .in_(Dimension::Length)
        .says("How far outlines reach beyond what they lie round, on the side where they reach least far."),
    measure(Measure::Width, "width", "width")
        .in_(Dimension::Length)
        .says("The width of an area over all: that of the narrowest straight strip which holds it."),
    measure(Measure::Table, "table", "table").says("Rows; the first that applies counts."),
    measure(Measure::Largest, "largest-of", "several").says("The largest of some values."),
    measure(Measure::Smallest, "smallest-of", "several").says("The smallest of some values."),
    measure(Measure::Sum, "sum", "several").says("The sum of some values."),
    measure(Measure::Difference, "difference", "two-values")
        .says("The first value less the others."),
    measure(Measure::Product, "product", "two-values").says("Values multiplied together."),
    measure(Measure::Root, "square-root", "limit")
        .says("The square root of a number, or of an area, which gives a length."),
];

/// The measure that a key names.
pub(crate) fn measure_named(key: &str) -> Option<Measure> {
    let named = MEASURES.iter().find(|measure| measure.key.name == key);
    named.map(|measure| measure.measure)
}

/// The bounds on a value.
pub(crate) const BOUNDS: [Key; 5] = [
    may("at-least", LIMIT).says("No less than this; exactly this passes."),
    may("at-most", LIMIT).says("No more than this; exactly this passes."),
    may("more-than", LIMIT).says("More than this; exactly this fails."),
    may("less-than", LIMIT).says("Less than this; exactly this fails."),
    may("is", Named("answer"))
        .says("A word, yes or no, an amount, `none`; or a list, of which it is one."),
];

/// Where along a thing a value must keep its bounds.
pub(crate) const ALONG: [(&str, &str); 2] = [
    (
        "anywhere",
        "It is enough that one place along the thing keeps it.",
    ),
    ("all-along", "Every place along the thing must keep it."),
];

pub(crate) const HOLDS: Key = may("holds", Meanings(&ALONG)).says("Where along a thing the value must keep it, if it varies along the thing. Without this, the whole rule is judged at each place separately.");

/// How a distance is measured.
pub(crate) const MEASURED: [(&str, &str); 4] = [
    ("level", "Horizontally, as on a map; this is the default."),
    ("in-space", "The straight line, height included."),
    (
        "plumb",
        "The difference in height alone, also where the two lie side by side.",
    ),
    (
        "walking",
        "The way on foot, on the plan, round walls, fences and water; gates and doors count as closed.",
    ),
];

pub(crate) const DISTANCE: Keys<4> = keys([
    need("from", OUTLINES),
    need("to", OUTLINES),
    may("measured", Meanings(&MEASURED)).says("How it is measured."),
    may("farthest", Words(&["yes", "no", "from"]))
        .says("`yes`: between the places farthest apart, not the nearest. `from`: from the farthest part of `from` to the nearest of `to`."),
])
.called("a distance")
.example("{from: pool.water, to: lot-line, measured: level}");

pub(crate) const AREA: Keys<3> = keys([
    need("of", OUTLINES),
    may("in", ZONE),
    may("share-of", AnyOf(&[OUTLINES, LIMIT])).says("The area to take a share of."),
])
.called("an area")
.example("{of: [{all: pool.water}, building.roof], in: lot.boundary, share-of: lot.boundary}");

pub(crate) const LENGTH: Keys<2> = keys([need("of", OUTLINES), may("in", ZONE)])
    .called("a length")
    .example("{of: barrier-stretch.line, in: {around: pool.water, by: 5 m}}");

/// Whom a barrier can keep out.
pub(crate) const SEPARATED: [&str; 4] = ["street", "neighbour-lot", "open-space", "dwelling"];

pub(crate) const ENCLOSURE: Keys<3> = keys([
    need("of", OUTLINES),
    need("from", OneOrMore(&Words(&SEPARATED))).says("Who must be kept out."),
    need("made-of", OUTLINES).says("What closes it off."),
])
.called("an enclosure")
.example("{of: pool.water, from: [street, neighbour-lot], made-of: barrier-stretch}");

/// The parts of the day.
pub(crate) const PERIODS: [&str; 3] = ["day", "evening", "night"];

pub(crate) const SOUND: Keys<3> = keys([
    need("from", OUTLINES).says("What makes the sound."),
    need("at", OUTLINES).says("Where it arrives."),
    need("during", Words(&PERIODS)),
])
.called("a sound level")
.example("{from: equipment, at: lot-line, during: night}");

pub(crate) const LEVEL: Keys<1> = keys([need("of", OUTLINES)])
    .called("a level")
    .example("{of: pool.coping}");
pub(crate) const GROUND_LEVEL: Keys<1> = keys([need("at", OUTLINES)])
    .called("a level of the ground")
    .example("{at: pool.water}");

pub(crate) const FALL: Keys<3> = keys([
    need("from", OUTLINES),
    need("to", OUTLINES),
    may("run", LIMIT).says("How far it runs; by default the distance."),
])
.called("a fall")
.example("{from: pool.deck, to: pool.water, run: 2 m}");

/// The word for the existing ground in place of a level.
pub(crate) const GROUND: &str = "ground";
const SURFACE: Syntax = AnyOf(&[Choice(GROUND, "The ground as it is."), LIMIT]);

pub(crate) const VOLUME: Keys<4> = keys([
    need("over", OUTLINES),
    may("in", ZONE),
    need("from", SURFACE).says("From this level up."),
    need("to", SURFACE).says("Up to this level."),
])
.called("a volume")
.example("{over: pool.water, from: 2.1 m, to: ground}");
pub(crate) const UPLIFT: Keys<4> = VOLUME.called("an uplift");

pub(crate) const HEIGHT: Keys<3> = keys([
    need("of", OUTLINES),
    need("within", LIMIT).says("How near to them."),
    may("over", OUTLINES).says("What somebody may stand on, besides the ground."),
])
.called("a height")
.example("{of: barrier-stretch.line, within: 1 m, over: deck}");

pub(crate) const MARGIN: Keys<2> = keys([
    need("of", OUTLINES).says("The areas that lie round it; together they count as one."),
    need("round", OUTLINES).says("What they lie round; its own ground counts with theirs."),
])
.called("a margin")
.example("{of: pool.deck, round: pool.water}");

pub(crate) const WIDTH: Keys<1> = keys([need("of", OUTLINES).says("One area.")])
    .called("a width")
    .example("{of: pool.water}");

/// One value taken from each of some things.
pub(crate) const TAKEN: Keys<6> = keys([
    KIND,
    PART_OF,
    WHERE,
    IN,
    IF_NONE_KEY,
    need("take", LIMIT).says("What to take from each."),
])
.called("a choice of things, of each of which something is taken")
.example("{kind: gate, take: gate.latch-height}");

pub(crate) const TABLE: Keys<2> = keys([
    may("by", LIMIT).says("The value that picks the row."),
    need("rows", List(&Map(&ROW), 1)),
])
.called("a table")
.example("{by: pool.depth, rows: [{at-most: 1 m, then: 1.5 m}, {otherwise: 2 m}]}");

/// What a row gives.
const GIVES: Syntax = AnyOf(&[
    Choice("refer", "This is for the authority."),
    LIMIT,
    REQUIREMENT,
    Says("The name of a class.", &Word),
    Told,
]);

pub(crate) const ROW: Keys<4> = keys([
    may("id", Syntax::Text).says("A name by which another file can change this row."),
    may("when", REQUIREMENT).says("The row applies when this holds."),
    may("otherwise", GIVES).says("The last row: it applies where none before it does."),
    may("then", GIVES).says("What the row gives."),
])
.called("a row of a table")
.or_as_people_say(&[
    ("else", "otherwise"),
    ("default", "otherwise"),
    ("if", "when"),
    ("give", "then"),
    ("gives", "then"),
    ("value", "then"),
    ("limit", "then"),
])
.with(&[&BOUNDS])
.tied(&[
    Tie::Some(&[
        &["at-least"],
        &["at-most"],
        &["more-than"],
        &["less-than"],
        &["is"],
        &["when"],
        &["otherwise"],
    ]),
    Tie::Some(&[&["then"], &["otherwise"]]),
])
.example("{at-most: 1.2 m, then: 1 m}");

/// The parts of values, under the names that other tables use.
pub(crate) const VALUES: [(&str, Syntax); 18] = [
    (
        "limit",
        AnyOf(&[Syntax::Amount(None), Named("fact-name"), Named("measure")]),
    ),
    ("answer", OneOrMore(&Syntax::Scalar)),
    ("two-values", List(&LIMIT, 2)),
    ("several", AnyOf(&[List(&LIMIT, 2), Map(&TAKEN)])),
    ("distance", Map(&DISTANCE)),
    ("area", Map(&AREA)),
    ("length-of", Map(&LENGTH)),
    ("counted", AnyOf(&[Named("things"), List(&REQUIREMENT, 1)])),
    ("enclosure", Map(&ENCLOSURE)),
    ("sound", Map(&SOUND)),
    ("level", Map(&LEVEL)),
    ("ground-level", Map(&GROUND_LEVEL)),
    ("fall", Map(&FALL)),
    ("volume", Map(&VOLUME)),
    ("height", Map(&HEIGHT)),
    ("margin", Map(&MARGIN)),
    ("width", Map(&WIDTH)),
    ("table", Map(&TABLE)),
];
