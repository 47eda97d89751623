//! A rule set's cases: small example plans, and what the rules must come to on them.
//!
//! A file of cases has `cases`, a list, and may have a `base`, a plan that they share:
//!
//! ```yaml
//! base: {plan: base, title: Base, …}
//! cases:
//!   - case: low-fence
//!     title: A fence of 47 in
//!     change: {things: [{id: fence, height-outside: 47 in}]}   # or `plan:`, a plan of its own
//!     without: [gate]                                          # things of the base that are left out
//!     expect: {height: fail, gap-below: pass}
//!     all-others: pass                                         # all other rules of the file itself
//!     decide: {barrier-route: barrier, size: [small, large]}   # classes; several where it must stay open between them
//!     verdict: does-not-comply
//! ```
//!
//! A rule that is `unsaid` is left out of `all-others`. `change` is laid over the base: the maps of a plan are changed key by key, its things by their id, and all else is
//! replaced; a key with nothing after it is taken out.

#[cfg(test)]
mod cases_tests;
mod edges;
mod expected;
mod overlay;
mod shown;
mod unexercised;
mod words;
mod written;

use std::collections::BTreeMap;

pub use edges::{Edge, EdgeCase, edges};
pub use overlay::{json, laid_over};
pub use shown::{Shown, shown};
pub use unexercised::unexercised;
pub use words::{edges_to_text, tried_to_text};

use crate::check::Outcome;
use crate::ruleset::RuleSet;
use crate::text::{Faults, Node};
use written::read_file;

/// What became of one case.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tried {
    /// Its id.
    pub case: String,
    /// What it shows.
    pub title: String,
    /// The rules that it speaks of, and what they came to.
    pub outcomes: BTreeMap<String, Outcome>,
    /// What did not come out as expected, in sentences; empty where all did.
    pub wrong: Vec<String>,
}

/// Tries all cases of a file that was read, or of the list of cases that stands in a rule file itself.
///
/// # Errors
/// What is wrong with the cases themselves. A plan that cannot be read is named in its case's `wrong`.
pub fn try_node(rules: &RuleSet, root: &Node) -> Result<Vec<Tried>, Faults> {
    let mut faults = Faults::default();
    let tried = read_file(root, &mut faults)
        .map(|cases| cases.iter().map(|case| case.tried(rules)).collect());
    match tried {
        Some(tried) => faults.or(tried),
        None => Err(faults),
    }
}
