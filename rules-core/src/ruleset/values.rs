//! What a rule measures: amounts, distances, areas, selections, zones and tables.

use std::sync::Arc;

use super::levels::{Fall, HeightOver, LevelOf, Volume};
use super::shapes::Margin;
use super::types::Sort;
use super::{Bound, Requirement, Scope, TermUse};
use crate::quantity::{Dimension, Interval, Unit};
use crate::text::Span;
use crate::vocabulary::{FactId, KindId, OutlineId};

/// An amount that a rule states, as it was written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stated {
    /// The amount; an interval where the file itself says so.
    pub range: Interval,
    /// Of what.
    pub dimension: Dimension,
    /// The unit as written.
    pub unit: Unit,
}

/// Anything that gives an amount (or, for a fact, a word).
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Value {
    /// An amount.
    Stated(Stated),
    /// A fact of the thing under `each` or of the only thing of its kind.
    Fact(FactId),
    /// How far apart two outlines are.
    Distance(Box<Distance>),
    /// How large an area is.
    Area(Box<Area>),
    /// How long the lines are.
    Length {
        /// The lines.
        of: Operand,
        /// Only what lies in here.
        within: Option<Box<Zone>>,
    },
    /// How many things there are.
    Count(Selection),
    /// How wide the widest way through a barrier is.
    Enclosure(Box<Enclosure>),
    /// How loud the equipment is at a place.
    Sound(Box<Sound>),
    /// The level of an outline, or of the ground below it.
    Level(Box<LevelOf>),
    /// How much the way from one outline to another falls.
    Fall(Box<Fall>),
    /// How much lies over an area between two levels.
    Volume(Box<Volume>),
    /// How high something stands over what is beside it.
    Height(Box<HeightOver>),
    /// How far some outlines reach beyond what they lie round.
    Margin(Box<Margin>),
    /// How wide an area is over all.
    Width(Operand),
    /// The row that applies says how much.
    Table(Box<Table<Value>>),
    /// The largest of these.
    Largest(Vec<Value>),
    /// The smallest of these.
    Smallest(Vec<Value>),
    /// All of these together.
    Sum(Vec<Value>),
    /// The first less the others.
    Difference(Vec<Value>),
    /// These multiplied.
    Product(Vec<Value>),
    /// The square root of this.
    Root(Box<Value>),
    /// One number out of many things.
    Over {
        /// Which number.
        how: Over,
        /// The things.
        of: Selection,
        /// What is taken of each.
        take: Box<Value>,
    },
    /// A defined term.
    Named {
        /// The term.
        term: TermUse,
        /// What sort of value it has.
        sort: Sort,
        /// What it says.
        value: Arc<Value>,
    },
}

impl Value {
    /// The dimension of a value measured on the plan; `None` for a value that is stated, looked up or calculated.
    pub(crate) fn measured(&self) -> Option<Dimension> {
        Some(match self {
            Value::Distance(_)
            | Value::Length { .. }
            | Value::Enclosure(_)
            | Value::Level(_)
            | Value::Height(_)
            | Value::Margin(_)
            | Value::Width(_) => Dimension::Length,
            Value::Area(area) if area.share_of.is_some() => Dimension::Number,
            Value::Area(_) => Dimension::Area,
            Value::Count(_) | Value::Fall(_) => Dimension::Number,
            Value::Volume(volume) if volume.as_water => Dimension::Mass,
            Value::Volume(_) => Dimension::Volume,
            Value::Sound(_) => Dimension::Sound,
            Value::Stated(_)
            | Value::Fact(_)
            | Value::Table(_)
            | Value::Largest(_)
            | Value::Smallest(_)
            | Value::Sum(_)
            | Value::Difference(_)
            | Value::Product(_)
            | Value::Root(_)
            | Value::Over { .. }
            | Value::Named { .. } => return None,
        })
    }
}

/// How one number is made out of many.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Over {
    /// The largest.
    Largest,
    /// The smallest.
    Smallest,
    /// All together.
    Sum,
}

/// How far apart two outlines are.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Distance {
    /// From here.
    pub from: Operand,
    /// To here.
    pub to: Operand,
    /// How it is measured.
    pub how: Measured,
    /// Between which places.
    pub places: Places,
}

/// Between which places of two outlines a distance is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Places {
    /// The nearest.
    Nearest,
    /// The farthest apart: any place of the one, any of the other.
    Farthest,
    /// From the place of the first that is farthest to the nearest of the second.
    FarthestOfFirst,
}

/// How a distance is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measured {
    /// On the plan.
    Level,
    /// Through the air.
    InSpace,
    /// Straight up or down.
    Plumb,
    /// Round what stands in the way.
    Walking,
}

/// Outlines, between which a distance can be taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Operand {
    /// The term that names it.
    pub term: Option<String>,
    /// What it is made of.
    pub parts: Arc<[Part]>,
}

/// One outline of some things.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Part {
    /// The things.
    pub which: Which,
    /// The outline.
    pub outline: OutlineId,
    /// By how much its area counts (billionths), where that is not in full.
    pub counted: Option<i128>,
    /// It counts only where it is drawn.
    pub if_drawn: bool,
}

/// Which things are meant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Which {
    /// The one under `each`, or the one that a `where` speaks of.
    Bound(KindId),
    /// The same, where the selection selects it: the pool that is judged, if it is a deep one.
    Meant(Selection),
    /// All that the selection selects.
    All(Selection),
}

impl Which {
    /// How things are chosen, where not all of their kind are meant.
    pub fn selection(&self) -> Option<&Selection> {
        match self {
            Which::Bound(_) => None,
            Which::Meant(selection) | Which::All(selection) => Some(selection),
        }
    }
}

/// Things of one kind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Selection {
    /// The term that names it.
    pub term: Option<String>,
    /// What it depends on, where it is all that a term says.
    pub closed: Option<Scope>,
    /// The kind.
    pub kind: KindId,
    /// Only those that are part of the thing for which this kind's name stands.
    pub part_of: Option<KindId>,
    /// Only those of which this holds.
    pub filter: Option<Arc<Requirement>>,
    /// Only what lies in here.
    pub zone: Option<Arc<Zone>>,
    /// What it means that there is none.
    pub if_none: Option<IfNone>,
}

impl Selection {
    /// Whether everything of the kind is meant.
    pub fn is_all(&self) -> bool {
        self.part_of.is_none() && self.filter.is_none() && self.zone.is_none()
    }
}

/// What it means that a selection is surely empty.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IfNone {
    /// The requirement holds.
    Passes,
    /// The requirement does not hold.
    Fails,
    /// The authority decides.
    Refer,
}

/// A region of the plan.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Zone {
    /// Inside an area.
    Inside(Operand),
    /// Within a distance of an outline.
    Around {
        /// The outline.
        of: Operand,
        /// The distance.
        by: Value,
    },
    /// Between two lines.
    Between(Operand, Operand),
    /// The triangle at a corner of two lines.
    Corner {
        /// The two lines.
        of: Box<(Operand, Operand)>,
        /// How long its legs are.
        legs: Value,
    },
    /// All but this.
    Not(Box<Zone>),
    /// A defined term.
    Named {
        /// The term.
        term: TermUse,
        /// What it says.
        zone: Arc<Zone>,
    },
}

/// How large an area is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Area {
    /// Of what.
    pub of: Operand,
    /// Only what lies in here.
    pub within: Option<Box<Zone>>,
    /// As a share of this.
    pub share_of: Option<ShareOf>,
}

/// What a share is a share of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ShareOf {
    /// The area of these outlines.
    Outlines(Operand),
    /// A value.
    Value(Value),
}

/// How wide the widest way through a barrier is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Enclosure {
    /// What is enclosed.
    pub of: Operand,
    /// From whom: `street`, `neighbour-lot`, `dwelling`.
    pub from: Vec<String>,
    /// What counts as barrier.
    pub made_of: Operand,
}

/// How loud the equipment is at a place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sound {
    /// The equipment.
    pub from: Operand,
    /// The place.
    pub at: Operand,
    /// `day`, `evening`, `night`.
    pub during: String,
}

/// Rows, of which the first that applies counts.
#[derive(Debug, Clone)]
pub struct Table<T> {
    /// The value that the rows' bounds speak of.
    pub by: Option<Value>,
    /// The rows.
    pub rows: Vec<Row<T>>,
    /// Where it stands.
    pub span: Span,
}

impl<T> Table<T> {
    /// The results of its rows, without those left to the authority.
    pub fn given(&self) -> impl Iterator<Item = &T> {
        self.rows.iter().filter_map(|row| match &row.then {
            Then::Give(what) => Some(what),
            Then::Refer => None,
        })
    }
}

/// One row of a table.
#[derive(Debug, Clone)]
pub struct Row<T> {
    /// When it applies.
    pub test: RowTest,
    /// What it gives.
    pub then: Then<T>,
    /// Where it stands.
    pub span: Span,
}

/// When a row applies.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RowTest {
    /// The table's value keeps all of these.
    Bounds(Vec<Bound>),
    /// This holds.
    When(Requirement),
    /// No row before it applied.
    Otherwise,
}

/// What a row gives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Then<T> {
    /// This.
    Give(T),
    /// The authority decides.
    Refer,
}

impl<T: PartialEq> PartialEq for Table<T> {
    fn eq(&self, other: &Self) -> bool {
        self.by == other.by && self.rows == other.rows
    }
}

impl<T: Eq> Eq for Table<T> {}

impl<T: PartialEq> PartialEq for Row<T> {
    fn eq(&self, other: &Self) -> bool {
        self.test == other.test && self.then == other.then
    }
}

impl<T: Eq> Eq for Row<T> {}
