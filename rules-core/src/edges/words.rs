//! The outcomes at the edges of the limits, and the cases made there, as text.

use super::{EdgeCase, edges, kept};
use crate::cases::{shown, try_node, width};
use crate::ruleset::RuleSet;
use crate::text::{Faults, Node, Visible, to_yaml_text};

/// The outcomes at the edges of the limits.
pub fn edges_to_text(edges: &[EdgeCase]) -> Visible {
    let mut text = Visible::new();
    text.line("At the edges of the limits");
    if edges.is_empty() {
        text.gap();
        text.line("  No rule has a stated limit.");
    }
    for limit in edges {
        text.gap();
        text.line(format!("  Rule `{}`, {}", limit.rule, limit.limit));
        text.line(match &limit.case {
            None => "    It applies in no case.".to_owned(),
            Some(case) if limit.edges.is_empty() => {
                format!("    No case can be made from `{case}`: write one on each side of the limit by hand.")
            }
            Some(case) => format!("    made from case `{case}`"),
        });
        let amounts = width(limit.edges.iter().map(|edge| edge.amount.as_str()));
        for edge in &limit.edges {
            let (place, amount, outcome) = (&edge.place, &edge.amount, edge.outcome.word());
            text.line(format!("    {place:12}  {amount:amounts$}  {outcome}"));
        }
    }
    text
}

/// The cases made on each side of each limit, written out to be put under `cases`; what they come to is what the rules
/// say now. Then, as remarks, the limits for which none could be made, and the clauses that no case touches.
///
/// # Errors
/// What is wrong with the cases themselves.
pub fn made_to_text(rules: &RuleSet, cases: &Node) -> Result<Visible, Faults> {
    let edges = edges(rules, cases)?;
    let mut text = Visible::new();
    text.line("# Made from the cases of the file. The outcomes are what the rules say now: keep a case only if the bylaw says the same.");
    let made = to_yaml_text(&kept(&edges, cases));
    text.extend(made.lines().map(|line| format!("  {line}")));
    for limit in edges.iter().filter(|limit| limit.edges.is_empty()) {
        text.line(format!("# By hand: rule `{}`, {}", limit.rule, limit.limit));
    }
    for one in shown(rules, &try_node(rules, cases)?) {
        if one.lacking().len() == 3 {
            text.line(format!(
                "# No case touches {} (rule `{}`)",
                one.clause, one.rule
            ));
        }
    }
    Ok(text)
}
