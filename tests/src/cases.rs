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
//!     decide: {barrier-route: barrier}                         # classes, where the rule set decides any
//!     verdict: does-not-comply
//! ```
//!
//! A rule that is `unsaid` is left out of `all-others`. `change` is laid over the base: the maps of a plan are changed key by key, its things by their id, and all else is
//! replaced; a key with nothing after it is taken out.

use std::collections::BTreeMap;

use rules_core::check::{Findings, Outcome, Verdict, check};
use rules_core::plan;
use rules_core::ruleset::RuleSet;
use rules_core::text::{Content, Entry, Faults, MapReader, Node};

/// What a case writes of a rule that it leaves aside.
const UNSAID: &str = "unsaid";

/// What became of one case.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tried {
    /// Its id.
    pub case: String,
    /// What it shows.
    pub title: String,
    /// The rules that it speaks of, and what they came to.
    pub outcomes: BTreeMap<String, Outcome>,
    /// What came out otherwise than it should, in sentences; empty where all is as expected.
    pub wrong: Vec<String>,
}

/// Tries all cases of a file.
///
/// # Errors
/// What is wrong with the file of cases itself. A plan that cannot be read is told of in its case's `wrong`.
pub fn try_cases(rules: &RuleSet, text: &str) -> Result<Vec<Tried>, Faults> {
    let root = rules_core::text::read(text)?;
    let mut faults = Faults::default();
    let tried = read_file(&root, &mut faults)
        .map(|cases| cases.iter().map(|case| case.tried(rules)).collect());
    match tried {
        Some(tried) => faults.or(tried),
        None => Err(faults),
    }
}

/// The plan that the cases of a file share, laid under a change: the text that the plan reader reads.
///
/// # Errors
/// What is wrong with either text.
pub fn changed_base(cases: &str, change: &str) -> Result<String, Faults> {
    let (cases, change) = (
        rules_core::text::read(cases)?,
        rules_core::text::read(change)?,
    );
    let base = cases.get("base").cloned().unwrap_or_else(|| change.clone());
    Ok(json(&laid_over(&base, &change)))
}

/// One case as written.
struct Case<'a> {
    id: &'a str,
    title: &'a str,
    plan: Node,
    expect: &'a [Entry],
    all_others: Option<&'a str>,
    decide: &'a [Entry],
    verdict: Option<&'a str>,
}

fn read_file<'a>(root: &'a Node, faults: &mut Faults) -> Option<Vec<Case<'a>>> {
    let mut map = MapReader::new(root, "a file of cases", faults)?;
    let base = map.take("base");
    let list = map.need("cases", faults);
    map.finish(faults);
    let list = list?;
    let Some(items) = list.value.as_list() else {
        faults.add("not-a-list", list.value.span, "`cases` needs a list.");
        return None;
    };
    let read: Vec<_> = items
        .iter()
        .map(|item| read_case(item, base.map(|base| &base.value), faults))
        .collect();
    read.into_iter().collect()
}

fn read_case<'a>(node: &'a Node, base: Option<&'a Node>, faults: &mut Faults) -> Option<Case<'a>> {
    let mut map = MapReader::new(node, "a case", faults)?;
    let (id, title) = (map.need("case", faults), map.need("title", faults));
    let [plan, change, without] = ["plan", "change", "without"].map(|key| map.take(key));
    let [expect, decide] = ["expect", "decide"].map(|key| map.take(key));
    let [all_others, verdict] = ["all-others", "verdict"].map(|key| map.take(key));
    map.finish(faults);
    let entries = |entry: Option<&'a Entry>| {
        entry
            .and_then(|entry| entry.value.as_map())
            .unwrap_or_default()
    };
    let Some(under) = plan.map(|plan| &plan.value).or(base) else {
        faults.add(
            "no-plan",
            node.span,
            "This case has no plan, and the file has no `base`.",
        );
        return None;
    };
    let mut plan = change.map_or_else(|| under.clone(), |change| laid_over(under, &change.value));
    let gone = without
        .and_then(|entry| entry.value.as_list())
        .unwrap_or_default();
    leave_out(
        &mut plan,
        &gone.iter().filter_map(Node::text).collect::<Vec<_>>(),
    );
    Some(Case {
        id: id?.value.text()?,
        title: title?.value.text()?,
        plan,
        expect: entries(expect),
        all_others: all_others.and_then(|entry| entry.value.text()),
        decide: entries(decide),
        verdict: verdict.and_then(|entry| entry.value.text()),
    })
}

impl Case<'_> {
    fn tried(&self, rules: &RuleSet) -> Tried {
        let text = json(&self.plan);
        let (outcomes, wrong) = match plan::read(&text, &rules.vocabulary) {
            Ok(plan) => self.compared(rules, &check(&plan, rules)),
            Err(faults) => (
                BTreeMap::new(),
                faults.list.into_iter().map(|fault| fault.message).collect(),
            ),
        };
        Tried {
            case: self.id.to_owned(),
            title: self.title.to_owned(),
            outcomes,
            wrong,
        }
    }

    /// What the case wants each rule that it speaks of to come to.
    fn wanted<'s>(&'s self, rules: &'s RuleSet) -> Vec<(&'s str, &'s str)> {
        let named = self
            .expect
            .iter()
            .map(|entry| (entry.key.as_str(), entry.value.text().unwrap_or_default()));
        let own = rules
            .rules
            .iter()
            .filter(|rule| rule.layer == 0)
            .map(|rule| rule.id.as_str());
        let others = own.filter(|id| self.expect.iter().all(|entry| entry.key != *id));
        let others = self
            .all_others
            .into_iter()
            .flat_map(|wanted| others.clone().map(move |id| (id, wanted)));
        named
            .chain(others)
            .filter(|(_, wanted)| *wanted != UNSAID)
            .collect()
    }

    fn compared(
        &self,
        rules: &RuleSet,
        found: &Findings<'_>,
    ) -> (BTreeMap<String, Outcome>, Vec<String>) {
        let (mut outcomes, mut wrong) = (BTreeMap::new(), Vec::new());
        for (id, wanted) in self.wanted(rules) {
            match outcome_of(rules, found, id) {
                Some(outcome) => {
                    if outcome.word() != wanted {
                        wrong.push(format!("`{id}` comes to {}, not {wanted}.", outcome.word()));
                    }
                    outcomes.insert(id.to_owned(), outcome);
                }
                None => wrong.push(format!("There is no rule `{id}`.")),
            }
        }
        wrong.extend(
            self.decide
                .iter()
                .filter_map(|entry| wrong_class(rules, found, entry)),
        );
        wrong.extend(
            self.verdict
                .and_then(|wanted| wrong_verdict(found.verdict, wanted)),
        );
        (outcomes, wrong)
    }
}

fn outcome_of(rules: &RuleSet, found: &Findings<'_>, id: &str) -> Option<Outcome> {
    let index = rules.rules.iter().position(|rule| rule.id == id)?;
    let finding = found.rules.iter().find(|finding| finding.rule == index)?;
    Some(finding.outcome)
}

fn wrong_class(rules: &RuleSet, found: &Findings<'_>, entry: &Entry) -> Option<String> {
    let wanted = entry.value.text().unwrap_or_default();
    let decided = found.decisions.iter().filter(|decided| {
        rules
            .decisions
            .get(decided.decision)
            .is_some_and(|decision| decision.id == entry.key)
    });
    let classes: Vec<_> = decided
        .flat_map(|decided| decided.classes.iter().copied())
        .collect();
    (classes != [wanted]).then(|| format!("`{}` decides {classes:?}, not {wanted}.", entry.key))
}

fn wrong_verdict(verdict: Verdict, wanted: &str) -> Option<String> {
    let word = match verdict {
        Verdict::DoesNotComply => "does-not-comply",
        Verdict::NotDecided => "not-decided",
        Verdict::NothingAgainst => "nothing-against",
    };
    (word != wanted).then(|| format!("The verdict is {word}, not {wanted}."))
}

/// One plan with a change laid over it.
fn laid_over(base: &Node, change: &Node) -> Node {
    merged(base, change, |under, over| {
        match (under.as_map(), under.as_list()) {
            (Some(_), _) if over.as_map().is_some() => merged(under, over, |_, new| new.clone()),
            (_, Some(things)) if has_ids(over) => with_things(things, over),
            _ => over.clone(),
        }
    })
}

/// A map whose keys are changed; where both have one, `both` says what it becomes.
fn merged(base: &Node, change: &Node, both: impl Fn(&Node, &Node) -> Node) -> Node {
    let (Some(under), Some(over)) = (base.as_map(), change.as_map()) else {
        return change.clone();
    };
    let mut entries = under.to_vec();
    for new in over {
        let place = entries.iter().position(|old| old.key == new.key);
        match place.and_then(|place| entries.get_mut(place)) {
            Some(old) => old.value = both(&old.value, &new.value),
            None => entries.push(new.clone()),
        }
    }
    entries.retain(|entry| !entry.value.is_empty());
    Node {
        span: change.span,
        content: Content::Map(entries),
    }
}

fn has_ids(list: &Node) -> bool {
    list.as_list()
        .is_some_and(|items| items.iter().all(|item| item.get("id").is_some()))
}

fn with_things(things: &[Node], change: &Node) -> Node {
    let mut list = things.to_vec();
    for new in change.as_list().unwrap_or_default() {
        let place = list.iter().position(|old| id(old) == id(new));
        match place.and_then(|place| list.get_mut(place)) {
            Some(old) => *old = merged(old, new, |_, new| new.clone()),
            None => list.push(new.clone()),
        }
    }
    Node {
        span: change.span,
        content: Content::List(list),
    }
}

fn id(thing: &Node) -> Option<&str> {
    thing.get("id")?.text()
}

fn leave_out(plan: &mut Node, gone: &[&str]) {
    let Content::Map(entries) = &mut plan.content else {
        return;
    };
    let things = entries.iter_mut().find(|entry| entry.key == "things");
    if let Some(Entry {
        value: Node {
            content: Content::List(list),
            ..
        },
        ..
    }) = things
    {
        list.retain(|thing| id(thing).is_none_or(|id| !gone.contains(&id)));
    }
}

/// A part of a text as JSON, its keys in their order and every value as it was written.
fn json(node: &Node) -> String {
    match &node.content {
        Content::Empty => "null".to_owned(),
        Content::Scalar { text, .. } => quoted(text),
        Content::List(items) => format!("[{}]", joined(items.iter().map(json))),
        Content::Map(entries) => {
            let pairs = entries
                .iter()
                .map(|entry| format!("{}: {}", quoted(&entry.key), json(&entry.value)));
            format!("{{{}}}", joined(pairs))
        }
    }
}

fn joined(parts: impl Iterator<Item = String>) -> String {
    parts.collect::<Vec<_>>().join(", ")
}

fn quoted(text: &str) -> String {
    let escaped = text
        .replace('\\', "\\\\")
        .replace('"', "\\\"")
        .replace('\n', "\\n")
        .replace('\t', "\\t");
    format!("\"{escaped}\"")
}

#[cfg(test)]
mod tests {
    use super::*;
    use rules_core::vocabulary::Vocabulary;

    const RULES: &str = "\
ruleset: small
title: Small
edition: \"1\"
authority: nobody
rules:
  - {id: depth, title: Depth, clause: S 1, require: {fact: pool.depth, at-most: 2 m}}
  - {id: gate, title: Gate, clause: S 2, each: gate, require: {fact: gate.latch-height, at-least: 1.5 m}}
decide:
  - {id: size, table: {by: pool.depth, rows: [{at-most: 1 m, then: small}, {otherwise: large}]}}
";
    const BASE: &str = "\
base:
  plan: p
  title: P
  unit: m
  lot: {corners: {a: [0, 0], b: [30, 0], c: [30, 30], d: [0, 30]}}
  pool: {id: pool, water: [[5, 5], [9, 5], [9, 9]], depth: 1.5 m}
  things: [{kind: gate, id: gate, latch-height: 1.6 m}, {kind: gate, id: low, latch-height: 1.2 m}]
  inventory: {gate: all-shown}
cases:
  - case: one
    title: One
";

    fn tried(rest: &str) -> Tried {
        let rules = rules_core::ruleset::read(RULES, &|_| None, Vocabulary::standard());
        let rules = rules.expect("good rules").rule_set;
        try_cases(&rules, &format!("{BASE}{rest}"))
            .expect("a good file")
            .remove(0)
    }

    #[test]
    fn what_is_as_expected_and_what_is_not() {
        let good = "    expect: {depth: pass, gate: fail}\n    decide: {size: large}\n    verdict: does-not-comply\n";
        assert_eq!(tried(good).wrong, [""; 0]);
        assert_eq!(tried(good).outcomes.len(), 2);
        let bad = "    expect: {depth: fail, hedge: pass}\n    decide: {size: small}\n    verdict: not-decided\n";
        assert_eq!(tried(bad).wrong.len(), 4);
        assert_eq!(
            tried("    all-others: pass\n").wrong,
            ["`gate` comes to fail, not pass."]
        );
        assert_eq!(
            tried("    expect: {gate: unsaid}\n    all-others: pass\n").wrong,
            [""; 0]
        );
    }

    #[test]
    fn a_change_is_laid_over_the_base() {
        let by_id = "    change: {things: [{id: low, latch-height: 1.5 m}], pool: {depth: 2.1 m}}\n    expect: {gate: pass, depth: fail}\n";
        assert_eq!(tried(by_id).wrong, [""; 0]);
        let without = "    without: [low]\n    expect: {gate: pass}\n";
        assert_eq!(tried(without).wrong, [""; 0]);
        let taken_out = "    change: {pool: {depth: }}\n    expect: {depth: unknown}\n";
        assert_eq!(tried(taken_out).wrong, [""; 0]);
    }

    #[test]
    fn a_plan_that_cannot_be_read_is_told() {
        let wrong =
            tried("    change: {pool: {depth: 1.5}, unit: kg}\n    expect: {depth: pass}\n").wrong;
        assert!(wrong.iter().any(|wrong| wrong.contains("kg")), "{wrong:?}");
    }

    #[test]
    fn a_file_of_cases_is_checked_too() {
        let rules = rules_core::ruleset::read(RULES, &|_| None, Vocabulary::standard());
        let rules = rules.expect("good rules").rule_set;
        let codes = |text: &str| {
            let faults = try_cases(&rules, text).expect_err("a fault").list;
            faults
                .into_iter()
                .map(|fault| fault.code)
                .collect::<Vec<_>>()
        };
        assert_eq!(codes("cases: [{case: a, title: A}]"), ["no-plan"]);
        assert_eq!(
            codes(&format!("{BASE}    expects: {{}}\n")),
            ["unknown-key"]
        );
    }
}
