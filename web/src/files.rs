//! A plan that comes in and goes out: as a file, as a link, and as the browser keeps it.

use rules_core::session::{Rules, Session, opened};
use rules_core::text::{Node, plain_json, read, to_json_text};
use rules_core::{FaultRow, Refusal, Refused, refusal_to_json};
use serde_json::json;

use crate::held::{bundled, with};
use crate::looks::with_looks;

/// The plan as a file: YAML, with the name of its rules.
pub fn file() -> String {
    with(|session| session.file())
}

/// What the file is called.
pub fn file_name() -> String {
    let id = with(|session| Some(session.plan().get("plan")?.text()?.to_owned()));
    format!("{}.yaml", id.as_deref().unwrap_or("plan").replace('/', "-"))
}

/// Opens the text of a plan, and the rules that it names. Returns the names of those that did not come along, or what is
/// wrong with the text.
pub fn open_plan(text: &str) -> Result<Vec<String>, Vec<FaultRow>> {
    opened_or_refused(text).map_err(|refusal| {
        let plan = refusal.plan.as_ref();
        plan.map(Refused::rows).unwrap_or_default()
    })
}

/// Opens the text of a plan, and the rules that it names: `{"rules": […]}`, the names of those that did not come along; or what
/// is wrong with the text, as `{"refused": …}`.
pub fn open(text: &str) -> String {
    match opened_or_refused(text) {
        Ok(unknown) => json!({"rules": unknown}).to_string(),
        Err(refusal) => refusal_to_json(&refusal),
    }
}

fn opened_or_refused(text: &str) -> Result<Vec<String>, Refusal> {
    let plan = opened(text).map_err(|faults| rules_core::plan_refused(text, faults))?;
    let rules = plan.rules.iter().find_map(|name| bundled(name));
    let is_unknown = |name: &&String| bundled(name).is_none() && !is_in_use(name);
    let unknown = plan.rules.iter().filter(is_unknown).cloned().collect();
    with(|session| session.replace(Some(plan.plan), rules));
    Ok(unknown)
}

/// Whether the page's own rules are called that.
fn is_in_use(name: &str) -> bool {
    with(|session| session.rule_set().as_deref() == Some(name))
}

/// What a link holds: the plan, and by which rules it was judged.
pub fn link() -> String {
    with(|session| {
        let (key, value) = match &session.rules().id {
            Some(id) => ("rules", id),
            None => ("rules-text", &session.rules().text),
        };
        plain_json(format!(
            "{{\"plan\": {}, \"{key}\": {}}}",
            session.text(),
            json!(value)
        ))
    })
}

/// Opens what a link holds; gives whether it could be. `missing` in the answer names rules that did not come along.
pub fn open_link(text: &str) -> String {
    let held = read(&plain_json(text.to_owned())).ok();
    let plan = held.as_ref().and_then(|held| held.get("plan"));
    let Some((held, plan)) = held
        .as_ref()
        .zip(plan.filter(|plan| plan.as_map().is_some()))
    else {
        return "broken".to_owned();
    };
    let name = held.get("rules").and_then(Node::text);
    let own = held.get("rules-text").and_then(Node::text).map(own_rules);
    let rules = name.and_then(bundled);
    let missing = name.filter(|_| rules.is_none());
    with(|session| session.replace(Some(plan.clone()), rules.or(own)));
    missing.map_or_else(String::new, |name| format!("missing {name}"))
}

fn own_rules(text: &str) -> Rules {
    Rules {
        id: None,
        text: text.to_owned(),
        cases: String::new(),
    }
}

/// Opens the home of a rule set, under its rules or under those that are in use; gives whether there is one.
pub fn open_home(id: &str, with_rules: bool) -> bool {
    let home = siting_rulesets::named(id).and_then(|set| read(set.home?).ok());
    let found = home.is_some();
    if found {
        let rules = with_rules.then(|| bundled(id)).flatten();
        with(|session| session.replace(home, rules));
    }
    found
}

/// What the browser keeps: the plan, its rules, what is shown, and the name of the window. For a rule set that comes
/// with the page, only its name is kept.
pub fn record(window: &str) -> String {
    let (plan, rules) = with(|session| (session.text(), session.rules().clone()));
    let own = |text: String| {
        if rules.id.is_some() {
            String::new()
        } else {
            text
        }
    };
    let mut rest = json!({"rulesId": rules.id, "rulesText": own(rules.text.clone()), "casesText": own(rules.cases.clone()), "by": window});
    if let Some(rest) = rest.as_object_mut() {
        rest.extend(with_looks(|looks| looks.to_keep()));
    }
    let rest = rest.to_string();
    plain_json(format!(
        "{{\"plan\": {plan}, {}",
        rest.get(1..).unwrap_or("}")
    ))
}

/// Begins with a plan and its rules from what the browser kept, and nothing to undo.
pub fn take_up(record: &str) {
    if let Some((plan, rules)) = held_in(record) {
        with(|session| *session = Session::new(plan, rules));
    }
}

/// Takes up the same as a step that can be undone; gives whether a plan is there.
pub fn open_record(record: &str) -> bool {
    let held = held_in(record);
    let found = held.is_some();
    if let Some((plan, rules)) = held {
        with(|session| session.replace(Some(plan), Some(rules)));
    }
    found
}

fn held_in(record: &str) -> Option<(Node, Rules)> {
    let kept = read(&plain_json(record.to_owned())).ok()?;
    let text = |key: &str| kept.get(key).and_then(Node::text).unwrap_or_default();
    let plan = kept.get("plan").filter(|plan| plan.as_map().is_some());
    let rules = match text("rulesId") {
        "" | "null" => Some(Rules {
            id: None,
            text: text("rulesText").to_owned(),
            cases: text("casesText").to_owned(),
        }),
        id => bundled(id),
    };
    Some((plan?.clone(), rules.unwrap_or_default()))
}

/// Whether two records hold the same plan under the same rules.
pub fn same_plan(one: &str, other: &str) -> bool {
    let plan = |record: &str| {
        let kept = read(record).ok()?;
        let text = |key: &str| kept.get(key).map(to_json_text);
        Some([text("plan")?, text("rulesId")?, text("rulesText")?])
    };
    plan(one) == plan(other)
}
