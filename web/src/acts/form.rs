//! What a click or a change in the form does.

use rules_core::asked::AskedKind;
use rules_core::edit::{Change, Changed, Lot, Side};
use rules_core::session::{at, path_of};
use rules_core::sides::proposed_sides;
use rules_core::text::Node;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlInputElement, HtmlSelectElement};

use super::go::{announce, go_into, go_to_head};
use super::parts::part_of_kind;
use super::{is_ticked, said};
use crate::asked::asked_now;
use crate::held::{
    add, add_place, begin_outline, figure_typed, outline_as, pick_source, reshape, say_figure,
    say_outward, use_rules, with,
};
use crate::looks::with_looks;
use crate::plan::{name_by_id, still_to_say, things_of, without_source};
use crate::view::form::{Entry, faces_proposed, with_entry};
use crate::words::{fill, t};

/// Does an act of the form. Returns whether to show the page again; `None` if the act is not the form's.
pub fn act(name: &str, on: &Element) -> Option<bool> {
    let said = |key| said(on, key);
    let (path, value) = (said("path"), value_of(on));
    match name {
        "typed" => say_figure(&path, &value, &said("unit")),
        "words-typed" | "chosen" => with(|session| session.say(&path, &value)),
        "looked" => look_for(&path, &value),
        "all-shown-ticked" => {
            with(|session| session.say(&path, if is_ticked(on) { "all-shown" } else { "" }))
        }
        "all-looked" => all_looked(&said("part")),
        "faces-taken" => take_faces(),
        "all-sourced" => with(|session| {
            let open = without_source(session.plan()).into_iter();
            let paths: Vec<String> = open.map(|(path, _)| format!("{path}.source")).collect();
            session.sources(&paths, &value);
        }),
        "outward-typed" => say_outward(&path, &value, &said("unit"), &said("from")),
        "face-taken" => with(|session| session.say(&path, &said("faces"))),
        "none-ticked" => {
            with(|session| session.say(&path, if is_ticked(on) { "none" } else { "" }))
        }
        "span-on" => with(|session| session.vary(&path, true)),
        "span-off" => with(|session| session.vary(&path, false)),
        "thing-added" => add_thing(&said("kind")),
        "thing-gone" => take_thing_away(&path, &said("id")),
        "thing-opened" => open_thing(said("id")),
        "outline-begun" => drop(begin_outline(&path, &said("shape"))),
        "shape-picked" => drop(reshape(&path, &value)),
        "outline-picked" => outline_as(
            &path,
            &value,
            &said("from"),
            &with_looks(|looks| looks.unit.clone()),
        ),
        "source-picked" => pick_source(&path, &value),
        "place-gone" => with(|session| session.remove(&path)),
        "place-more" => add_place(&path),
        "pool-gone" => take_pool_away(&path),
        "pool-begun" => begin_pool(),
        "part-opened" => open_part(said("part"), on.class_list().contains("part-head")),
        "rules-chosen" => return Some(choose_rules(&value)),
        "unit-chosen" => with_looks(|looks| looks.unit = value),
        "lot-mode" => choose_mode(value),
        "lot-size" => size_lot(&said("key"), &figure_typed(&value, &said("unit"))),
        "walk-typed" => walk_typed(
            &said("index"),
            &said("key"),
            figure_typed(&value, &said("unit")),
        ),
        "walk-more" => with_entry(|entry| entry.walk.push(Entry::side())),
        "walk-less" => with_entry(|entry| drop(entry.walk.pop())),
        "walk-done" => lay_out_walk(),
        _ => return None,
    }
    Some(true)
}

fn value_of(field: &Element) -> String {
    let input = field
        .dyn_ref::<HtmlInputElement>()
        .map(HtmlInputElement::value);
    let select = || {
        field
            .dyn_ref::<HtmlSelectElement>()
            .map(HtmlSelectElement::value)
    };
    input.or_else(select).unwrap_or_default()
}

/// Draws one more thing of a kind, at the given places if there are any, and opens it.
fn add_and_open(kind: &str, spots: Option<&[[f64; 2]]>) {
    let asked = asked_now();
    let Some(kind) = asked.as_ref().and_then(|asked| asked.kind(kind)) else {
        return;
    };
    let outline = kind.outlines.first();
    let shape = outline.map(|outline| outline.shape).unwrap_or_default();
    let id = add(
        &kind.id,
        outline.map(|outline| outline.id.clone()),
        shape,
        spots,
    );
    announce(&fill("thing.added", &[("kind", &kind.said)]));
    if let Some(id) = &id {
        go_into(&format!("thing-{id}"), "summary");
    }
    with_looks(|looks| looks.thing = id);
}

fn add_thing(kind: &str) {
    add_and_open(kind, None);
}

/// Whether there is any of a kind: the first that there is, is drawn at once.
fn look_for(path: &str, value: &str) {
    let kind = path.rsplit('.').next().unwrap_or_default();
    match value {
        "yes" if with(|session| things_of(session.plan(), kind).is_empty()) => add_thing(kind),
        "yes" => {}
        _ => with(|session| session.say(path, value)),
    }
}

/// Of what can be seen in this part there is nothing but what is drawn.
fn all_looked(part: &str) {
    let Some(asked) = asked_now() else { return };
    with(|session| {
        let [drawn, none] = still_to_say(session.plan(), &asked, part);
        let path = |kind: &AskedKind| format!("inventory.{}", kind.id);
        let drawn = drawn.into_iter().map(|kind| (path(kind), "all-shown"));
        let none = none.into_iter().map(|kind| (path(kind), "none"));
        let said: Vec<_> = drawn.chain(none).collect();
        session.say_all(&said);
    });
}

/// Takes all that is proposed about what the sides of the lot face.
fn take_faces() {
    with(|session| {
        let plan = session.plan();
        let sides = at(plan, "lot.sides").and_then(Node::as_list);
        let index = |id: &str| {
            let is_open = |side: &Node| {
                side.get("id").and_then(Node::text) == Some(id) && side.get("faces").is_none()
            };
            sides?.iter().position(is_open)
        };
        let proposed = proposed_sides(plan);
        let said: Vec<_> = faces_proposed(&proposed)
            .filter_map(|(side, faces)| Some((format!("lot.sides.{}.faces", index(side)?), faces)))
            .collect();
        session.say_all(&said);
    });
}

/// Draws a thing of a kind at the given places.
pub fn add_drawn(kind: &str, spots: &[[f64; 2]]) {
    add_and_open(kind, Some(spots));
    with_looks(|looks| "form".clone_into(&mut looks.view));
}

/// Whether a thing of this kind is drawn as a ring, not as a line.
pub fn is_drawn_as_ring(kind: &str) -> bool {
    let asked = asked_now();
    let found = asked.as_ref().and_then(|asked| asked.kind(kind));
    let outline = found.and_then(|kind| kind.outlines.first());
    outline.is_some_and(|outline| outline.shape == "area")
}

fn take_thing_away(path: &str, id: &str) {
    let (name, kind) = with(|session| {
        let kind = at(session.plan(), path).and_then(|thing| thing.get("kind")?.text());
        let found = (
            name_by_id(session.plan(), id),
            kind.unwrap_or_default().to_owned(),
        );
        session.remove(path);
        found
    });
    with_looks(|looks| looks.thing = None);
    announce(&fill("thing.is-gone", &[("name", &name)]));
    go_into(&format!("kind-{kind}"), ".add");
}

fn open_thing(id: String) {
    with_looks(|looks| {
        let other = looks.thing.as_ref() != Some(&id);
        looks.thing = other.then_some(id);
    });
}

/// Opens the part of the form with a thing in it, and goes there. Returns whether there is one.
pub fn enter_thing(id: &str) -> bool {
    let kind_or_section = with(|session| {
        let path = path_of(session.plan(), id)?;
        let section = path.split('.').next().unwrap_or_default();
        let kind = at(session.plan(), &path)
            .and_then(|thing| thing.get("kind"))
            .and_then(Node::text);
        Some(match section {
            "things" => Err(kind.unwrap_or_default().to_owned()),
            section => Ok(section.to_owned()),
        })
    });
    let Some(found) = kind_or_section else {
        return false;
    };
    let part = found.map_or_else(|kind| part_of_kind(&kind), Some);
    with_looks(|looks| {
        looks.thing = Some(id.to_owned());
        looks.open = part.or(looks.open.take());
        "form".clone_into(&mut looks.view);
    });
    go_into(&format!("thing-{id}"), "summary");
    true
}

fn take_pool_away(path: &str) {
    with(|session| session.remove(path));
    with_looks(|looks| looks.thing = None);
}

fn begin_pool() {
    let id = with(rules_core::session::Session::add_pool).ok();
    with_looks(|looks| looks.thing = id);
    go_into("body-pool", ".outlines select");
    announce(&t("pool.begun"));
}

fn open_part(part: String, is_head: bool) {
    with_looks(|looks| {
        let closes = is_head && looks.open.as_ref() == Some(&part);
        looks.open = (!closes).then(|| part.clone());
        looks.thing = None;
    });
    go_to_head(&part);
}

fn choose_rules(id: &str) -> bool {
    let known = !matches!(id, "own" | "");
    if known {
        use_rules(id);
        with_looks(|looks| looks.selected = None);
    }
    known
}

fn choose_mode(mode: String) {
    with_entry(|entry| {
        entry.wrong = None;
        entry.half = Default::default();
    });
    with_looks(|looks| looks.lot_mode = mode);
}

fn size_lot(key: &str, typed: &str) {
    with_entry(|entry| {
        let [width, depth] = &mut entry.half;
        typed.clone_into(if key == "width" { width } else { depth });
        entry.closing = None;
        let sized = with(|session| session.size_lot(&entry.half[0], &entry.half[1]));
        if sized.as_ref().is_ok_and(|complete| *complete) {
            entry.half = Default::default();
            announce(&t("lot.laid-out"));
        }
        entry.wrong = sized.err().map(|wrong| wrong.0);
    });
}

fn walk_typed(index: &str, key: &str, typed: String) {
    with_entry(|entry| {
        let side = index
            .parse::<usize>()
            .ok()
            .and_then(|index| entry.walk.get_mut(index));
        if let Some([length, angle]) = side {
            *(if key == "length" { length } else { angle }) = typed;
        }
    });
}

fn lay_out_walk() {
    with_entry(|entry| {
        let side = |[length, angle]: &[String; 2]| Side {
            length: length.clone(),
            angle: Some(angle.clone()),
        };
        let sides = entry.walk.iter().map(side).collect();
        let laid_out = with(|session| session.edit(&Change::Lot(Lot::Sides { sides })));
        match laid_out {
            Ok(Changed { closing, .. }) => {
                entry.closing = closing.map(|nanometres| nanometres / 1_000_000);
                entry.wrong = None;
                announce(&t("lot.laid-out"));
            }
            Err(wrong) => (entry.wrong, entry.closing) = (Some(wrong.0), None),
        }
    });
}
