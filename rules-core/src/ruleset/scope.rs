//! What a rule set holds and what it leaves out, matter by matter.

use std::collections::BTreeSet;

use crate::vocabulary::Matter;

/// What a rule set says of its own reach. A matter that is neither held nor left out is one of which nothing is said.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Reach {
    /// The matters on which it has binding rules, or questions of its own.
    pub holds: BTreeSet<Matter>,
    /// The matters that it leaves to others, in the order of the file.
    pub leaves_out: Vec<LeftOut>,
    /// What always comes on top of it, in the file's own words.
    pub on_top: Vec<String>,
}

/// A matter that a rule set leaves to others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOut {
    /// The matter.
    pub matter: Matter,
    /// Who knows it.
    pub ask: String,
    /// Why it is left out.
    pub why: Option<String>,
}

impl Reach {
    /// What it says of a matter that it leaves out.
    pub fn left_out(&self, matter: Matter) -> Option<&LeftOut> {
        self.leaves_out.iter().find(|left| left.matter == matter)
    }
}
