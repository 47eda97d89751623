//! How a row of the table is written.

use crate::quantity::Dimension;
pub(super) use crate::vocabulary::look::{NONE, look};
use crate::vocabulary::{Height, Level, Look, Matter, Number, Part, Role, Shape};

/// A kind with everything it has.
pub(super) struct KindRow {
    pub name: &'static str,
    /// Other names people use for it.
    pub also: &'static [&'static str],
    pub said: &'static str,
    /// The matter it belongs to; `None` for a kind that rules on many matters use.
    pub matter: Option<Matter>,
    pub number: Number,
    /// The question that finds out whether there is any.
    pub ask: &'static str,
    pub outlines: &'static [OutlineRow],
    pub facts: &'static [FactRow],
    /// Its special role in the program, if it has one.
    pub role: Option<Role>,
    /// Whether things of this kind always belong to the applicant.
    pub owners: bool,
    /// Whether each belongs to one pool.
    pub of_a_pool: bool,
    /// The kind of which each is mostly a part.
    pub part_of: Option<&'static str>,
    /// Whether it leads through a barrier or a wall.
    pub opens: bool,
    /// The part of a form in which it is asked for.
    pub part: Part,
    /// Whether somebody who walks round the place sees it.
    pub seen: bool,
    /// Who knows whether there is any, if looking does not tell.
    pub whom: &'static str,
    /// The defaults for its outlines.
    pub others: OutlineRow,
}

impl KindRow {
    /// An empty kind, which each row starts from.
    pub const PLAIN: Self = Self {
        name: "",
        also: &[],
        said: "",
        matter: None,
        number: Number::Many,
        ask: "",
        outlines: &[],
        facts: &[],
        role: None,
        owners: false,
        of_a_pool: false,
        part_of: None,
        opens: false,
        part: Part::Site,
        seen: false,
        whom: "",
        others: OTHERS,
    };
}

/// An outline of a kind.
#[derive(Clone, Copy)]
pub(super) struct OutlineRow {
    pub name: &'static str,
    pub said: &'static str,
    pub shape: Shape,
    pub none: bool,
    pub within: &'static [&'static str],
    pub beside: bool,
    pub bars_the_way: bool,
    pub solid: bool,
    pub extent: Option<(Height<&'static str>, Height<&'static str>)>,
    pub level: Option<Level<&'static str>>,
    pub lowest: bool,
    pub look: Option<Look>,
}

const fn outline(name: &'static str, said: &'static str, shape: Shape) -> OutlineRow {
    OutlineRow {
        name,
        said,
        shape,
        none: false,
        within: &[],
        beside: false,
        bars_the_way: false,
        solid: false,
        extent: None,
        level: None,
        lowest: false,
        look: None,
    }
}

/// The start for a row's defaults.
pub(super) const OTHERS: OutlineRow = outline("", "", Shape::Area);

/// An outline that is an area: its name in files and in sentences.
pub(super) const fn area(name: &'static str, said: &'static str) -> OutlineRow {
    outline(name, said, Shape::Area)
}

/// An outline that is a line.
pub(super) const fn line(name: &'static str, said: &'static str) -> OutlineRow {
    outline(name, said, Shape::Line)
}

/// An outline that is a single place.
pub(super) const fn point(name: &'static str, said: &'static str) -> OutlineRow {
    outline(name, said, Shape::Point)
}

impl OutlineRow {
    /// A thing may be without it.
    pub const fn may_lack(mut self) -> Self {
        self.none = true;
        self
    }

    /// It lies within each of these however they are drawn. Outside them it cannot be.
    pub const fn within(mut self, others: &'static [&'static str]) -> Self {
        self.within = others;
        self
    }

    /// It is not part of the thing itself.
    pub const fn beside(mut self) -> Self {
        self.beside = true;
        self
    }

    /// It blocks a person on foot; a gate, a door or a window counts as closed.
    pub const fn bars_the_way(mut self) -> Self {
        self.bars_the_way = true;
        self
    }

    /// It blocks the way and lets nothing through.
    pub const fn solid(mut self) -> Self {
        self.bars_the_way = true;
        self.solid = true;
        self
    }

    /// Its lowest and its highest point; everything between belongs to the thing.
    pub const fn reaches(mut self, low: Height<&'static str>, high: Height<&'static str>) -> Self {
        self.extent = Some((low, high));
        self
    }

    /// The fact that states its level.
    pub const fn level(mut self, fact: &'static str) -> Self {
        self.level = Some(Level { fact, only: false });
        self
    }

    /// The fact that is the only clue to its level: without it, it may lie any distance above or below the ground.
    pub const fn level_only(mut self, fact: &'static str) -> Self {
        self.level = Some(Level { fact, only: true });
        self
    }

    /// Its level is that of its lowest point.
    pub const fn lowest(mut self) -> Self {
        self.lowest = true;
        self
    }

    /// How it is drawn.
    pub const fn drawn(mut self, look: Look) -> Self {
        self.look = Some(look);
        self
    }
}

/// A fact of a kind.
pub(super) struct FactRow {
    pub name: &'static str,
    pub said: &'static str,
    pub what: What,
    pub ask: &'static str,
    pub how: &'static str,
}

/// What a fact can be.
pub(super) struct What {
    pub kind: Answered,
    pub varies: bool,
    pub none: bool,
    /// The matter it belongs to, if it differs from its kind's.
    pub matter: Option<Matter>,
    /// The word that puts the thing on the lot.
    pub on_the_lot: Option<&'static str>,
}

/// The three sorts of answer.
pub(super) enum Answered {
    /// The dimension, the least and the greatest amount, in the dimension's tiny unit.
    Amount(Dimension, Option<i128>, Option<i128>),
    /// The words, and whether others are possible.
    Word(&'static [&'static str], bool),
    YesNo,
}

impl What {
    const fn amount(dimension: Dimension, least: i128, most: i128) -> Self {
        Self::of(Answered::Amount(dimension, Some(least), Some(most)))
    }

    const fn of(kind: Answered) -> Self {
        Self {
            kind,
            varies: false,
            none: false,
            matter: None,
            on_the_lot: None,
        }
    }

    /// This word puts the thing on the lot: if everything within some distance of the lot is drawn, so is the thing.
    pub const fn on_the_lot(mut self, word: &'static str) -> Self {
        self.on_the_lot = Some(word);
        self
    }

    /// It belongs to this matter instead of its kind's.
    pub const fn about(mut self, matter: Matter) -> Self {
        self.matter = Some(matter);
        self
    }

    /// It may vary along the thing.
    pub const fn varies(mut self) -> Self {
        self.varies = true;
        self
    }

    /// There may be none.
    pub const fn or_none(mut self) -> Self {
        self.none = true;
        self
    }
}

/// One billion: the tiny units in a metre, a degree or the number one.
const GIGA: i128 = 1_000_000_000;
/// One million: the tiny units in a volt, a watt or a decibel.
const MEGA: i128 = 1_000_000;

/// A length between two numbers of metres.
pub(super) const fn metres(least: i128, most: i128) -> What {
    What::amount(Dimension::Length, least * GIGA, most * GIGA)
}

/// An area of up to `most` square metres.
pub(super) const fn square_metres(most: i128) -> What {
    What::amount(Dimension::Area, 0, most * GIGA * GIGA)
}

/// A volume of up to `most` cubic metres.
pub(super) const fn cubic_metres(most: i128) -> What {
    What::amount(Dimension::Volume, 0, most * GIGA * GIGA * GIGA)
}

/// A voltage of up to `most` volts.
pub(super) const fn volts(most: i128) -> What {
    What::amount(Dimension::Voltage, 0, most * MEGA)
}

/// An angle from level (0) to vertical (90 degrees).
pub(super) const fn steepness() -> What {
    What::amount(Dimension::Angle, 0, 90 * GIGA)
}

/// A sound power level between two numbers of decibels.
pub(super) const fn decibels(least: i128, most: i128) -> What {
    What::amount(Dimension::Sound, least * MEGA, most * MEGA)
}

/// A flow of up to `most` litres a second.
pub(super) const fn litres_a_second(most: i128) -> What {
    What::amount(Dimension::Flow, 0, most * GIGA * GIGA * MEGA)
}

/// A power of up to `most` watts.
pub(super) const fn watts(most: i128) -> What {
    What::amount(Dimension::Power, 0, most * MEGA)
}

/// A mass of up to `most` kilograms.
pub(super) const fn kilograms(most: i128) -> What {
    What::amount(Dimension::Mass, 0, most * MEGA)
}

/// A plain number between two limits.
pub(super) const fn number(least: i128, most: i128) -> What {
    What::amount(Dimension::Number, least * GIGA, most * GIGA)
}

/// A span of calendar months, up to `most` years.
pub(super) const fn years(most: i128) -> What {
    What::amount(Dimension::Months, 0, most * 12 * 1000)
}

/// A calendar day.
pub(super) const fn date() -> What {
    What::of(Answered::Amount(Dimension::Date, None, None))
}

/// Yes or no.
pub(super) const fn yes_no() -> What {
    What::of(Answered::YesNo)
}

/// One of these words and no other.
pub(super) const fn one_of(words: &'static [&'static str]) -> What {
    What::of(Answered::Word(words, false))
}

/// One of these words, or another that a rule file or a plan uses.
pub(super) const fn such_as(words: &'static [&'static str]) -> What {
    What::of(Answered::Word(words, true))
}

/// Rows of facts: name in files, name in sentences, possible answers; then the question, and how to find the answer.
macro_rules! facts {
    ($($name:literal, $said:literal, $what:expr; $ask:literal, $how:literal;)*) => {
        &[$(FactRow { name: $name, said: $said, what: $what, ask: $ask, how: $how }),*]
    };
}

pub(super) use facts;
