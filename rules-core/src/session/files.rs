//! A plan as a file: with the rule sets that it was made for, so that whoever opens it is shown the same.

use super::{Session, word};
use crate::edit::tree::{list, set, take_out};
use crate::faults::Code;
use crate::text::{Faults, Node, read, to_yaml_text};

const RULES: &str = "rules";

/// A plan that was opened.
#[derive(Debug, Clone, PartialEq)]
pub struct Opened {
    /// The plan, without the names of its rule sets.
    pub plan: Node,
    /// The rule sets that it was made for.
    pub rules: Vec<String>,
}

/// The plan of a file, in YAML or JSON. It need not be a whole plan yet.
///
/// # Errors
/// All faults of the text, or that it holds no plan.
pub fn opened(text: &str) -> Result<Opened, Faults> {
    let mut plan = read(text)?;
    if plan.as_map().is_none() {
        let mut faults = Faults::default();
        let message = "This is no plan: it does not say anything under a name.";
        faults.add(Code::NotAMap, plan.span, message);
        return Err(faults);
    }
    let rules = plan.get(RULES).map(names).unwrap_or_default();
    take_out(&mut plan, RULES);
    Ok(Opened { plan, rules })
}

fn names(node: &Node) -> Vec<String> {
    let items = node.as_list().unwrap_or(std::slice::from_ref(node)).iter();
    items.filter_map(Node::text).map(str::to_owned).collect()
}

impl Session {
    /// The plan as a file: YAML, with the name of its rule set.
    pub fn file(&self) -> String {
        let mut plan = self.plan().clone();
        if let Some(name) = self.rule_set() {
            set(&mut plan, RULES, list(vec![word(&name)]));
        }
        to_yaml_text(&plan)
    }

    /// What its rule set is called, also where it is somebody's own.
    pub fn rule_set(&self) -> Option<String> {
        let rules = self.rules();
        rules.id.clone().or_else(|| {
            let named = |line: &str| Some(line.strip_prefix("ruleset:")?.trim().to_owned());
            rules.text.lines().find_map(named)
        })
    }
}
