//! The plan that the page holds: what is done with it by hand.
//!
//! A path says where something stands, as `rules_core::session` has it. What cannot be done comes back as a sentence; nothing is
//! then changed.

use std::cell::RefCell;

use rules_core::edit::{Change, Changed, Wrong};
use rules_core::quantity::{Rounding, Unit, show};
use rules_core::session::{Outline, Rules, Session, blank, figure, shown};
use rules_core::sides::proposed_sides;
use rules_core::text::{Content, Node};
use serde_json::{Value, json};

use crate::looks::with_looks;
use crate::words::tongue;
use crate::written::written;

thread_local! {
    static SESSION: RefCell<Session> = RefCell::new(Session::new(blank(), Rules::default()));
}

/// Does something with what the page holds.
pub fn with<T>(doing: impl FnOnce(&mut Session) -> T) -> T {
    SESSION.with_borrow_mut(doing)
}

/// The texts of the plan and of its rules.
pub fn texts() -> [String; 2] {
    with(|session| [session.text(), session.rules().text.clone()])
}

/// The plan as JSON, for whoever shows it: every figure a text, as it was typed.
pub fn plan() -> String {
    with(|session| plain(session.plan()).to_string())
}

fn plain(node: &Node) -> Value {
    match &node.content {
        Content::Empty => Value::Null,
        Content::Scalar {
            text,
            quoted: false,
        } if text == "true" => json!(true),
        Content::Scalar {
            text,
            quoted: false,
        } if text == "false" => json!(false),
        Content::Scalar { text, .. } => json!(text),
        Content::List(items) => items.iter().map(plain).collect(),
        Content::Map(entries) => entries
            .iter()
            .map(|entry| (entry.key.clone(), plain(&entry.value)))
            .collect(),
    }
}

/// The name of the rule set that came along; nothing where the rules are somebody's own, or none are chosen.
pub fn rules_name() -> Option<String> {
    with(|session| session.rules().id.clone())
}

/// Takes rules that came along; gives whether there are some of that name.
pub fn use_rules(id: &str) -> bool {
    let rules = bundled(id);
    let known = rules.is_some();
    with(|session| session.replace(None, rules));
    known
}

/// The rules of that name that came along.
pub fn bundled(id: &str) -> Option<Rules> {
    let text = siting_rulesets::rules(id)?.to_owned();
    let cases = siting_rulesets::cases(id).unwrap_or_default().to_owned();
    let id = Some(id.to_owned());
    Some(Rules { id, text, cases })
}

/// Takes rules that somebody wrote.
pub fn own_rules(text: &str, cases: &str) {
    let rules = Rules {
        id: None,
        text: text.to_owned(),
        cases: cases.to_owned(),
    };
    with(|session| session.replace(None, Some(rules)));
}

/// Begins anew, with nothing on the plan.
pub fn begin_anew() {
    with(|session| session.replace(Some(blank()), None));
}

/// Takes the last step back.
pub fn undo() {
    with(Session::undo);
}

/// Takes a step again that was taken back.
pub fn redo() {
    with(Session::redo);
}

/// Puts words at a place of the plan, or takes away what stands there where there are none.
pub fn say(path: &str, text: &str) {
    with(|session| session.say(path, text));
}

/// Puts what was typed into a field for a figure, beside which that unit stands.
pub fn say_figure(path: &str, text: &str, unit: &str) {
    let value = figure(text, unit, &tongue());
    with(|session| session.set(path, value));
}

/// Says how far outside another an outline lies, as it was typed.
pub fn say_outward(path: &str, text: &str, unit: &str, from: &str) {
    let value = figure(text, unit, &tongue());
    with(|session| session.outward(path, value, from));
}

/// A figure of the plan as somebody who reads the page's language would have typed it.
pub fn figure_shown(text: &str) -> String {
    shown(text, &tongue())
}

/// What was typed into a field for a figure that does not go into the plan by itself.
pub fn figure_typed(text: &str, unit: &str) -> String {
    let value = figure(text, unit, &tongue());
    value
        .and_then(|node| Some(node.text()?.to_owned()))
        .unwrap_or_default()
}

/// A length on the drawing, in millimetres, as people read it.
pub fn length_said(millimetres: f64) -> String {
    let unit = match with_looks(|looks| looks.unit == "ft") {
        true => Unit::FOOT,
        false => Unit::METRE,
    };
    // No plan is so large that this loses anything.
    let nanometres = (millimetres * 1e6).round() as i128;
    figure_shown(&show(nanometres, unit, Rounding::Nearest, 2))
}

/// Draws a thing of a kind, with that outline and shape where it has one; `spots` are the places where it was pointed at, in
/// millimetres. Gives its id, or nothing.
pub fn add(
    kind: &str,
    outline: Option<String>,
    shape: &str,
    spots: Option<&[[f64; 2]]>,
) -> Option<String> {
    let outline = outline.as_deref().map(|name| Outline { name, shape });
    with(|session| session.add(kind, outline.as_ref(), spots)).ok()
}

/// Draws an outline that a thing does not have yet.
pub fn begin_outline(path: &str, shape: &str) -> String {
    told(with(|session| session.begin_outline(path, shape)))
}

/// Draws an outline as another shape, where it lies.
pub fn reshape(path: &str, shape: &str) -> String {
    told(with(|session| session.reshape(path, shape)))
}

/// Says how an outline lies to another.
pub fn outline_as(path: &str, how: &str, from: &str, unit: &str) {
    with(|session| session.outline_as(path, how, from, unit));
}

/// A place more at the end of a line or a ring.
pub fn add_place(path: &str) {
    with(|session| session.add_place(path));
}

/// Says where the place of a thing comes from.
pub fn pick_source(path: &str, picked: &str) {
    with(|session| session.source(path, picked));
}

fn told(done: Result<(), Wrong>) -> String {
    done.err().map(|wrong| wrong.0).unwrap_or_default()
}

/// Changes the plan (JSON, as `rules_core::edit::Change` has it): `{"id", "closing"}`, the id of what was drawn anew and by how
/// many millimetres the last side of a lot misses its first corner; or `{"wrong": "…"}`.
pub fn edit(wanted: &str) -> String {
    let wanted: Change = match serde_json::from_str(wanted) {
        Ok(wanted) => wanted,
        Err(wrong) => return json!({"wrong": wrong.to_string()}).to_string(),
    };
    match with(|session| session.edit(&wanted)) {
        Ok(Changed { id, closing }) => {
            let closing = closing.map(|nanometres| nanometres / 1_000_000);
            json!({"id": id, "closing": closing}).to_string()
        }
        Err(wrong) => json!({"wrong": wrong.0}).to_string(),
    }
}

/// What each side of the lot is proposed to face, and why: a list of `{"side", "faces", "why"}`, empty where its sides do not
/// run once round the lot. A person confirms it.
pub fn faces() -> String {
    written(&with(|session| proposed_sides(session.plan())))
}

/// Where a thing can be taken hold of: a list for `handles` in the options of a drawing.
pub fn handles(path: &str) -> String {
    written(&with(|session| {
        rules_core::edit::handles(session.plan(), path)
    }))
}
