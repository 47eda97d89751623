//! Walking routes between two outlines, as they are remembered.

use crate::measure::Walk;
use crate::plan::ThingIndex;
use crate::vocabulary::OutlineId;

/// The result for two outlines: a lower bound for the length of any route, and a route that is surely free.
#[derive(Debug, Clone, Default)]
pub(crate) struct Ways {
    pub(crate) low: Option<i64>,
    pub(crate) high: Option<Walk>,
}

/// Two outlines, whether they are taken as drawn, and whether all obstacles between them are known.
pub(crate) type Between = (ThingIndex, OutlineId, ThingIndex, OutlineId, bool, bool);
