//! What a click in the result, or a change in one of its fields, does.

use rules_core::session::{at, path_of};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement};

use super::go::focus;
use super::parts::{go_to, open};
use super::{is_ticked, said};
use crate::held::with;
use crate::looks::{Looks, with_looks};
use crate::plan::field_of;
use crate::view::field_id;
use crate::view::keyed::element;

/// Does an act of the result. Returns whether to show the page again; `None` if the act is not the result's.
pub fn act(name: &str, on: &Element) -> Option<bool> {
    let said = |key| said(on, key);
    match name {
        "finding-chosen" => with_looks(|looks| choose(looks, said("rule"))),
        "missing-answered" => answer_missing(&said("path"), said("thing")),
        "fault-shown" => show_fault(&said("path")),
        "first-thing" => begin_with(&said("part")),
        "matter-answered" => return Some(answer_matter(&said("id"))),
        "matter-taken-back" => with(|session| session.answer(&said("id"), None)),
        "paper-ticked" => tick_paper(&said("id"), on),
        "start-chosen" => with_looks(|looks| looks.start = entered(on)),
        _ => return None,
    }
    Some(true)
}

fn choose(looks: &mut Looks, rule: String) {
    let other = looks.selected.as_ref() != Some(&rule);
    looks.selected = other.then_some(rule);
}

/// The text in a field; `None` if it is empty.
fn entered(field: &Element) -> Option<String> {
    let value = field.dyn_ref::<HtmlInputElement>()?.value();
    let value = value.trim();
    (!value.is_empty()).then(|| value.to_owned())
}

fn tick_paper(paper: &str, on: &Element) {
    let state = match is_ticked(on) {
        true => "in-hand",
        false => "not-yet",
    };
    with(|session| session.say(&format!("documents.{paper}"), state));
}

/// Goes to the field of a missing answer. A subject that is not on the plan, such as the dates, has no rules to show.
fn answer_missing(path: &str, thing: String) {
    if with(|session| path_of(session.plan(), &thing).is_some()) {
        with_looks(|looks| looks.thing = Some(thing));
    }
    go_to(path, field_of(path));
}

fn show_fault(path: &str) {
    let mut keys = path.split('.');
    let thing = [keys.next(), keys.next()]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join(".");
    let id = with(|session| {
        at(session.plan(), &thing)?
            .get("id")?
            .text()
            .map(str::to_owned)
    });
    if id.is_some() {
        with_looks(|looks| looks.thing = id);
    }
    go_to(path, field_of(path));
}

fn begin_with(part: &str) {
    let field = match part {
        "where" => "rules",
        "lot" => "lot-width",
        _ => "pool-begin",
    };
    open(part, field.to_owned());
}

/// Keeps an answer about a matter, or goes to the field that is still empty.
fn answer_matter(matter: &str) -> bool {
    let field = |key| element(&field_id(matter, key));
    let said = |key| field(key).and_then(|field| entered(&field));
    let missing = ["by", "on"].into_iter().find(|key| said(key).is_none());
    match missing {
        Some(key) => focus(field(key)),
        None => {
            let [says, by, on] = ["says", "by", "on"].map(|key| said(key).unwrap_or_default());
            with(|session| session.answer(matter, Some([&says, &by, &on])));
        }
    }
    missing.is_none()
}
