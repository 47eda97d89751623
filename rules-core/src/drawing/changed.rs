//! Which things have changed since the last drawing.

use super::sheet::Sheet;
use super::style::{LOT, LOT_LINE};
use super::things::layer_of;
use crate::plan::{Plan, Thing};
use crate::vocabulary::Layer;

/// The things that changed, each as it was and as it is now; `None` where any of them may have changed.
pub(super) struct ChangedThings<'a>(Option<Vec<&'a Thing>>);

impl<'a> ChangedThings<'a> {
    /// All of them.
    pub const ALL: Self = Self(None);

    /// Those that differ from a plan that was drawn on the same sheet.
    pub fn since(before: &'a Plan, sheet: &Sheet<'a>) -> Self {
        let now = sheet.plan;
        let alike = before.origin == now.origin
            && before.north == now.north
            && before.things.len() == now.things.len();
        let pairs = before.things.iter().zip(&now.things);
        let others = pairs.filter(|(was, is)| was != is);
        Self(alike.then(|| others.flat_map(|(was, is)| [was, is]).collect()))
    }

    fn any(&self, is: impl Fn(&'a Thing) -> bool) -> bool {
        (self.0.as_ref()).is_none_or(|things| things.iter().any(|thing| is(thing)))
    }

    /// Whether one of them lies, or lay, in a layer.
    pub fn has(&self, layer: Layer, sheet: &Sheet<'a>) -> bool {
        self.any(|thing| layer_of(thing, sheet) == Some(layer))
    }

    /// Whether the lot or one of its sides is among them.
    pub fn has_lot(&self, sheet: &Sheet<'a>) -> bool {
        self.any(|thing| [LOT, LOT_LINE].contains(&sheet.kind(thing)))
    }
}
