//! What a defined term stands for, and how far the reading of it has come.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::ruleset::read::layers::TermItem;
use crate::ruleset::{Meaning, Operand, Requirement, Scope, Selection, Value, Which, Zone, types};
use crate::vocabulary::KindId;

/// A term as it is written, and how far its reading has come.
pub(crate) struct Slot<'a> {
    pub item: &'a TermItem,
    pub state: State,
    pub used: bool,
    /// The kind of the one thing it is about.
    pub of: Option<KindId>,
    /// Whether it names "the pool".
    pub about_pool: bool,
    /// The kinds whose outlines it names for all things together, without saying so.
    pub loose: BTreeSet<KindId>,
    /// Whether it names an outline of the pool without `each` or `all`.
    pub bare_pool: bool,
}

/// How far the reading of a term is.
#[derive(Debug, Clone)]
pub(crate) enum State {
    Waiting,
    Reading,
    Read(Known),
    Faulty,
}

/// What a term stands for, ready to be shared.
#[derive(Debug, Clone)]
pub(crate) enum Known {
    Value(Arc<Value>, types::Sort),
    Outlines(Operand),
    Things(Selection),
    Zone(Arc<Zone>),
    Requirement(Arc<Requirement>),
}

impl Known {
    /// What it stands for, in words.
    pub(crate) fn said(&self) -> &'static str {
        match self {
            Self::Value(..) => "a value",
            Self::Outlines(_) => "outlines",
            Self::Things(_) => "things",
            Self::Zone(_) => "a zone",
            Self::Requirement(_) => "a requirement",
        }
    }

    /// The same, with everything it depends on known.
    pub(super) fn closed(self, scope: Scope) -> Self {
        match self {
            Self::Things(selection) => Self::Things(closed(selection, scope)),
            Self::Outlines(mut operand) => {
                for part in Arc::make_mut(&mut operand.parts) {
                    if let Which::All(selection) | Which::Meant(selection) = &mut part.which {
                        *selection = closed(selection.clone(), scope);
                    }
                }
                Self::Outlines(operand)
            }
            known => known,
        }
    }

    pub(super) fn meaning(&self) -> Meaning {
        match self {
            Self::Value(value, _) => Meaning::Value((**value).clone()),
            Self::Outlines(operand) => Meaning::Outlines(operand.clone()),
            Self::Things(selection) => Meaning::Things(selection.clone()),
            Self::Zone(zone) => Meaning::Zone((**zone).clone()),
            Self::Requirement(requirement) => Meaning::Requirement((**requirement).clone()),
        }
    }
}

/// The things chosen by everything a term says.
fn closed(selection: Selection, scope: Scope) -> Selection {
    let closed = Some(selection.closed.unwrap_or(scope));
    Selection {
        closed,
        ..selection
    }
}
