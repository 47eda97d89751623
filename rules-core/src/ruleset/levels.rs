//! What a rule measures in height: levels, falls, volumes of earth, heights over what is beside.

use super::{Operand, Value, Zone};

/// The level of an outline, or of the ground below it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LevelOf {
    /// Of what.
    pub of: Operand,
    /// Of the ground there, not of the thing itself.
    pub ground: bool,
}

/// By how much the way from one outline to another falls for each length that it runs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fall {
    /// From here.
    pub from: Operand,
    /// To here.
    pub to: Operand,
    /// How far it runs; the distance on the level where nothing is said.
    pub run: Option<Value>,
}

/// How much lies over an area between two levels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Volume {
    /// Over these areas.
    pub over: Operand,
    /// Only what lies in here.
    pub within: Option<Zone>,
    /// From this level up.
    pub from: Surface,
    /// Up to this one.
    pub to: Surface,
    /// As the mass of so much water, with which it lifts whatever keeps it out.
    pub as_water: bool,
}

/// A surface that bounds a volume below or above.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Surface {
    /// The ground as it is.
    Ground,
    /// Flat at this level.
    At(Value),
}

impl Surface {
    /// The level at which it is flat.
    pub(crate) fn level(&self) -> Option<&Value> {
        match self {
            Surface::Ground => None,
            Surface::At(level) => Some(level),
        }
    }
}

/// How high something stands over all that is near it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HeightOver {
    /// What stands.
    pub of: Operand,
    /// How near.
    pub within: Value,
    /// What somebody may stand on there, besides the ground.
    pub over: Option<Operand>,
}
