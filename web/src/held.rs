//! The plan that the page holds: what is done with it by hand.
//!
//! A path says where something stands, as `rules_core::session` has it. What cannot be done comes back as a sentence; nothing is
//! then changed.

use std::cell::RefCell;

use rules_core::edit::{Change, Changed, Wrong};
use rules_core::session::{Outline, Rules, Session, blank, figure, lot_size, shown};
use rules_core::sides::proposed_sides;
use rules_core::text::{Content, Node};
use serde_json::{Value, json};
use wasm_bindgen::prelude::wasm_bindgen;

use crate::rules::language;
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
#[wasm_bindgen]
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
#[wasm_bindgen]
pub fn rules_name() -> Option<String> {
    with(|session| session.rules().id.clone())
}

/// The text of the rules.
#[wasm_bindgen]
pub fn rules_text() -> String {
    with(|session| session.rules().text.clone())
}

/// The text of their cases.
#[wasm_bindgen]
pub fn rules_cases() -> String {
    with(|session| session.rules().cases.clone())
}

/// Takes rules that came along; gives whether there are some of that name.
#[wasm_bindgen]
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
#[wasm_bindgen]
pub fn own_rules(text: &str, cases: &str) {
    let rules = Rules {
        id: None,
        text: text.to_owned(),
        cases: cases.to_owned(),
    };
    with(|session| session.replace(None, Some(rules)));
}

/// Begins anew, with nothing on the plan.
#[wasm_bindgen]
pub fn begin_anew() {
    with(|session| session.replace(Some(blank()), None));
}

/// Takes the last step back.
#[wasm_bindgen]
pub fn undo() {
    with(Session::undo);
}

/// Takes a step again that was taken back.
#[wasm_bindgen]
pub fn redo() {
    with(Session::redo);
}

/// Whether there is a step to undo.
#[wasm_bindgen]
pub fn can_undo() -> bool {
    with(|session| session.can_undo())
}

/// Whether there is a step to take again.
#[wasm_bindgen]
pub fn can_redo() -> bool {
    with(|session| session.can_redo())
}

/// Puts words at a place of the plan, or takes away what stands there where there are none.
#[wasm_bindgen]
pub fn say(path: &str, text: &str) {
    with(|session| session.say(path, text));
}

/// Puts what was typed into a field for a figure, beside which that unit stands.
#[wasm_bindgen]
pub fn say_figure(path: &str, text: &str, unit: &str) {
    let value = figure(text, unit, &tongue());
    with(|session| session.set(path, value));
}

/// A figure of the plan as somebody who reads the page's language would have typed it.
#[wasm_bindgen]
pub fn figure_shown(text: &str) -> String {
    shown(text, &tongue())
}

/// What was typed into a field for a figure that does not go into the plan by itself.
#[wasm_bindgen]
pub fn figure_typed(text: &str, unit: &str) -> String {
    let value = figure(text, unit, &tongue());
    value
        .and_then(|node| Some(node.text()?.to_owned()))
        .unwrap_or_default()
}

fn tongue() -> String {
    language().unwrap_or_default()
}

/// Says that a fact differs along a thing, or that it does not.
#[wasm_bindgen]
pub fn vary(path: &str, varies: bool) {
    with(|session| session.vary(path, varies));
}

/// Takes away what stands at a place of the plan: a thing, a pool, a corner.
#[wasm_bindgen]
pub fn take_away(path: &str) {
    with(|session| session.remove(path));
}

/// Draws a thing of a kind, with that outline and shape where it has one; `spots` are the places where it was pointed at, two
/// figures each, in millimetres. Gives its id, or nothing.
#[wasm_bindgen]
pub fn add(
    kind: &str,
    outline: Option<String>,
    shape: &str,
    spots: Option<Vec<f64>>,
) -> Option<String> {
    let outline = outline.as_deref().map(|name| Outline { name, shape });
    let spots = spots.map(pairs);
    with(|session| session.add(kind, outline.as_ref(), spots.as_deref())).ok()
}

/// Puts a pool on the lot. Gives its id, or nothing.
#[wasm_bindgen]
pub fn add_pool() -> Option<String> {
    with(Session::add_pool).ok()
}

/// Draws an outline that a thing does not have yet.
#[wasm_bindgen]
pub fn begin_outline(path: &str, shape: &str) -> String {
    told(with(|session| session.begin_outline(path, shape)))
}

/// Draws an outline as another shape, where it lies.
#[wasm_bindgen]
pub fn reshape(path: &str, shape: &str) -> String {
    told(with(|session| session.reshape(path, shape)))
}

/// Says how an outline lies to another.
#[wasm_bindgen]
pub fn outline_as(path: &str, how: &str, from: &str, unit: &str) {
    with(|session| session.outline_as(path, how, from, unit));
}

/// A place more at the end of a line or a ring.
#[wasm_bindgen]
pub fn add_place(path: &str) {
    with(|session| session.add_place(path));
}

/// Says where the place of a thing comes from.
#[wasm_bindgen]
pub fn pick_source(path: &str, picked: &str) {
    with(|session| session.source(path, picked));
}

/// Says what somebody who knows has said of a matter.
#[wasm_bindgen]
pub fn answer_matter(matter: &str, says: &str, by: &str, on: &str) {
    with(|session| session.answer(matter, Some([says, by, on])));
}

/// Takes that back.
#[wasm_bindgen]
pub fn forget_matter(matter: &str) {
    with(|session| session.answer(matter, None));
}

/// How wide and how deep the lot is, where it is a rectangle: two texts.
#[wasm_bindgen]
pub fn size_of_lot() -> Option<Vec<String>> {
    with(|session| lot_size(session.plan())).map(Vec::from)
}

/// Makes the lot so wide and so deep: nothing where it is, `incomplete` where a figure is still missing, or what is wrong.
#[wasm_bindgen]
pub fn size_lot(width: &str, depth: &str) -> String {
    match with(|session| session.size_lot(width, depth)) {
        Ok(true) => String::new(),
        Ok(false) => "incomplete".to_owned(),
        Err(wrong) => wrong.0,
    }
}

/// Draws the lot by the corners that were pointed at, two figures each, in millimetres.
#[wasm_bindgen]
pub fn draw_lot(spots: Vec<f64>) -> String {
    told(with(|session| session.draw_lot(&pairs(spots))))
}

fn pairs(figures: Vec<f64>) -> Vec<[f64; 2]> {
    let pairs = figures.chunks_exact(2);
    pairs.filter_map(|pair| pair.try_into().ok()).collect()
}

fn told(done: Result<(), Wrong>) -> String {
    done.err().map(|wrong| wrong.0).unwrap_or_default()
}

/// Changes the plan (JSON, as `rules_core::edit::Change` has it): `{"id", "closing"}`, the id of what was drawn anew and by how
/// many millimetres the last side of a lot misses its first corner; or `{"wrong": "…"}`.
#[wasm_bindgen]
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
#[wasm_bindgen]
pub fn faces() -> String {
    written(&with(|session| proposed_sides(session.plan())))
}

/// Where a thing can be taken hold of: a list for `handles` in the options of a drawing.
#[wasm_bindgen]
pub fn handles(path: &str) -> String {
    written(&with(|session| {
        rules_core::edit::handles(session.plan(), path)
    }))
}
