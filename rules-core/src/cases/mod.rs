//! A rule set's cases: small example plans, and the outcomes that the rules must give on them.
//!
//! A file of cases has a list, `cases`, and may have a plan that they share, `base`:
//!
//! ```yaml
//! base: {plan: base, title: Base, …}
//! cases:
//! - case: low-fence title: A fence of 47 in change: {things: [{id: fence, height-outside: 47 in}]} # or `plan:`, a
//!   plan of its own without: [gate] # things of the base to leave out expect: {height: fail, gap-below: pass}
//!   all-others: pass # every other rule of the file itself decide: {barrier-route: barrier, size: [small, large]} #
//!   classes; several if it must stay open between them verdict: does-not-comply
//! ```
//!
//! A rule that is `unsaid` is left out of `all-others`. `change` is laid over the base: maps are changed key by key,
//! and things by their ids; everything else is replaced. A key with nothing after it is removed.

#[cfg(test)]
pub(crate) mod cases_tests;
mod expected;
mod overlay;
mod shown;
mod unexercised;
mod words;
pub(crate) mod written;

use std::collections::BTreeMap;

pub use overlay::{json, laid_over};
pub use shown::{Shown, shown};
pub use unexercised::unexercised;
pub use words::tried_to_text;
pub(crate) use words::width;

use crate::check::Outcome;
use crate::ruleset::RuleSet;
use crate::text::{Faults, Node};
use written::read_file;

/// What became of one case.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tried {
    /// Its id.
    pub case: String,
    /// Its title: what it shows.
    pub title: String,
    /// The rules that it names, and their outcomes.
    pub outcomes: BTreeMap<String, Outcome>,
    /// What did not come out as expected, in sentences; empty if everything did.
    pub wrong: Vec<String>,
}

/// Tries all cases of a file already read, or of the list of cases in a rule file.
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
