//! What stands, runs and flows: drawn anew, given an outline, a shape and a source, taken away.

use super::begins::{begins, free_spot, pool_without};
use super::path::{at, put};
use super::{Session, word};
use crate::edit::amount::{length, new_length};
use crate::edit::shape::to_millimetre;
use crate::edit::tree::{get_mut, list, list_mut, map, set, take_out};
use crate::edit::{Add, Change, Wrong, change, reshape, unit_of};
use crate::text::Node;

/// A place that was pointed at, to the east and to the north, in millimetres of the file's own coordinates.
pub type Spot = [f64; 2];

/// What is to be drawn of something new: which of its outlines, and whether that is a `point`, a `line` or an `area`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outline<'a> {
    /// Its name.
    pub name: &'a str,
    /// Its shape.
    pub shape: &'a str,
}

/// How large an area is to begin with.
const SIZE: [&str; 2] = ["6 m", "4 m"];
/// How large a pool is to begin with.
const POOL: [&str; 2] = ["8 m", "4 m"];

impl Session {
    /// Draws a thing of a kind where it was pointed at, or else where nothing else stands. Gives its id.
    ///
    /// # Errors
    /// A sentence, where there are too many.
    pub fn add(
        &mut self,
        kind: &str,
        outline: Option<&Outline<'_>>,
        spots: Option<&[Spot]>,
    ) -> Result<String, Wrong> {
        let middle = free_spot(self.plan());
        let begins = begins(self.plan(), kind);
        let spots = spots.or(begins.as_deref());
        self.change(|plan| {
            let id = added(plan, kind, outline, middle)?;
            if let (Some(outline), Some(spots)) = (outline, spots) {
                let path = format!(
                    "{}.{}",
                    path_of(plan, &id).unwrap_or_default(),
                    outline.name
                );
                let drawn = pointed_at(plan, spots);
                put(plan, &path, Some(drawn));
            }
            if let Some(pool) = pool_without(plan, kind) {
                let path = format!("{}.part-of", path_of(plan, &id).unwrap_or_default());
                put(plan, &path, Some(word(&pool)));
            }
            if at(plan, &format!("inventory.{kind}")).and_then(Node::text) == Some("none") {
                put(plan, &format!("inventory.{kind}"), None);
            }
            Ok(id)
        })
    }

    /// Puts a pool on the lot, as something new of which every figure is still to be changed. Gives its id.
    ///
    /// # Errors
    /// A sentence, where there are too many.
    pub fn add_pool(&mut self) -> Result<String, Wrong> {
        self.change(|plan| {
            let source = source_by(plan, "design");
            let add = Add {
                kind: "pool".to_owned(),
                outline: Some("water".to_owned()),
                shape: Some("area".to_owned()),
                at: None,
                size: Some(POOL.map(str::to_owned)),
            };
            let id = change(plan, &Change::Add(add))?.id.unwrap_or_default();
            let path = path_of(plan, &id).unwrap_or_default();
            put(plan, &format!("{path}.work"), Some(word("new")));
            put(plan, &format!("{path}.source"), Some(word(&source)));
            Ok(id)
        })
    }

    /// Takes a thing or a pool off the plan, by its path.
    pub fn remove(&mut self, path: &str) {
        self.set(path, None);
    }

    /// Draws an outline that a thing does not have yet, in the middle of the lot.
    ///
    /// # Errors
    /// A sentence, where there is no such thing.
    pub fn begin_outline(&mut self, path: &str, shape: &str) -> Result<(), Wrong> {
        self.change(|plan| {
            let mut copy = plan.clone();
            let add = Add {
                kind: "pool".to_owned(),
                outline: Some("water".to_owned()),
                shape: Some(shape.to_owned()),
                at: None,
                size: None,
            };
            let id = change(&mut copy, &Change::Add(add))?.id.unwrap_or_default();
            let drawn = path_of(&copy, &id).and_then(|path| at(&copy, &format!("{path}.water")));
            put(plan, path, drawn.cloned());
            Ok(())
        })
    }

    /// Draws an outline as another shape, where it lies.
    ///
    /// # Errors
    /// As for [`reshape`].
    pub fn reshape(&mut self, path: &str, shape: &str) -> Result<(), Wrong> {
        let (owner, outline) = path.rsplit_once('.').unwrap_or((path, ""));
        let id = at(self.plan(), owner).and_then(|thing| thing.get("id")?.text());
        let name = format!("{}:{outline}", id.unwrap_or(owner));
        self.change(|plan| reshape(plan, &name, shape))
    }

    /// Says how an outline lies to another: `same-as` it, `outward` of it, `absent`, or nothing known.
    pub fn outline_as(&mut self, path: &str, how: &str, from: &str, unit: &str) {
        let some = if unit == "ft" { "1 ft" } else { "300 mm" };
        let value = match how {
            "same-as" => Some(map([("same-as", word(from))])),
            "absent" => Some(word("none")),
            "outward" => Some(map([
                ("outward", word(some)),
                ("from", word(from)),
                ("corners", word("square")),
            ])),
            _ => None,
        };
        self.set(path, value);
    }

    /// Says how far outside another an outline lies: no distance is the same outline, and nothing typed is nothing known.
    /// Its corners are square unless somebody says that they are round: that is the larger of the two.
    pub fn outward(&mut self, path: &str, typed: Option<Node>, from: &str) {
        let unit = unit_of(self.plan());
        let is_none = |far: &Node| length(far, unit) == Some(0);
        let corners = at(self.plan(), &format!("{path}.corners")).cloned();
        let value = typed.map(|far| match is_none(&far) {
            true => map([("same-as", word(from))]),
            false => map([
                ("outward", far),
                ("from", word(from)),
                ("corners", corners.unwrap_or_else(|| word("square"))),
            ]),
        });
        self.set(path, value);
    }

    /// A place more at the end of a line or a ring; where it is to be, is typed or dragged.
    pub fn add_place(&mut self, path: &str) {
        let last = at(self.plan(), path).and_then(|node| node.as_list()?.last());
        let unit = unit_of(self.plan());
        let nothing = || list(vec![new_length(0, unit), new_length(0, unit)]);
        let place = last.cloned().unwrap_or_else(nothing);
        let mut plan = self.plan().clone();
        let count = at(&plan, path)
            .and_then(Node::as_list)
            .map_or(0, <[Node]>::len);
        put(&mut plan, &format!("{path}.{count}"), Some(place));
        self.replace(Some(plan), None);
    }

    /// Says where the place of a thing comes from: a source by its id, or, behind a `+`, one of that sort, which is listed if it
    /// is not yet.
    pub fn source(&mut self, path: &str, picked: &str) {
        self.sources(&[path.to_owned()], picked);
    }

    /// The same for several things, as one step.
    pub fn sources(&mut self, paths: &[String], picked: &str) {
        let mut plan = self.plan().clone();
        let id = match picked.strip_prefix('+') {
            Some(by) => source_by(&mut plan, by),
            None => picked.to_owned(),
        };
        for path in paths {
            put(&mut plan, path, (!id.is_empty()).then(|| word(&id)));
        }
        self.replace(Some(plan), None);
    }

    /// Draws the lot by the corners that were pointed at, one after the other.
    ///
    /// # Errors
    /// A sentence, where there are fewer than three.
    pub fn draw_lot(&mut self, spots: &[Spot]) -> Result<(), Wrong> {
        let unit = unit_of(self.plan());
        let text = |node: Node| node.text().unwrap_or_default().to_owned();
        let corners = spots.iter().map(|spot| {
            let [x, y] = hand_drawn(*spot);
            [text(new_length(x, unit)), text(new_length(y, unit))]
        });
        let corners = corners.collect();
        let lot = Change::Lot(crate::edit::Lot::Corners { corners });
        self.edit(&lot).map(drop)
    }
}

fn added(
    plan: &mut Node,
    kind: &str,
    outline: Option<&Outline<'_>>,
    middle: Option<[f64; 2]>,
) -> Result<String, Wrong> {
    let add = Add {
        kind: kind.to_owned(),
        outline: outline.map(|outline| outline.name.to_owned()),
        shape: outline.map(|outline| outline.shape.to_owned()),
        at: middle,
        size: Some(SIZE.map(str::to_owned)),
    };
    Ok(change(plan, &Change::Add(add))?.id.unwrap_or_default())
}

/// The path of what has that id: a pool, a thing, or a side of the lot.
pub fn path_of(plan: &Node, id: &str) -> Option<String> {
    let is_it = |node: &Node| node.get("id").and_then(Node::text) == Some(id);
    let within = |path: &str| {
        let place = at(plan, path)?.as_list()?.iter().position(is_it)?;
        Some(format!("{path}.{place}"))
    };
    let only = plan.get("pool").filter(|pool| pool.as_list().is_none());
    let only = only.filter(|pool| is_it(pool)).map(|_| "pool".to_owned());
    let listed = ["pool", "things", "lot.sides"].into_iter();
    only.or_else(|| listed.into_iter().find_map(within))
}

/// The id of a source of that sort, which is listed if it is not yet.
fn source_by(plan: &mut Node, by: &str) -> String {
    let sources = plan.get("sources").and_then(Node::as_list).unwrap_or(&[]);
    let text = |source: &Node, key| source.get(key).and_then(Node::text).map(str::to_owned);
    let mut all = sources.iter();
    let found = all.find(|source| text(source, "by").as_deref() == Some(by));
    if let Some(id) = found.and_then(|source| text(source, "id")) {
        return id;
    }
    let taken = sources.iter().filter_map(|source| text(source, "id"));
    let taken: Vec<_> = taken.collect();
    let mut names = std::iter::once(by.to_owned()).chain((2..5000).map(|n| format!("{by}-{n}")));
    let id = names
        .find(|name| !taken.contains(name))
        .unwrap_or_else(|| by.to_owned());
    let source = map([("id", word(&id)), ("by", word(by))]);
    match get_mut(plan, "sources").and_then(list_mut) {
        Some(sources) => sources.push(source),
        None => set(plan, "sources", list(vec![source])),
    }
    id
}

/// A place of a hand, to the centimetre.
fn hand_drawn(spot: Spot) -> [i128; 2] {
    spot.map(|millimetres| to_millimetre((millimetres / 10.0).round() * 1e7))
}

fn pointed_at(plan: &Node, spots: &[Spot]) -> Node {
    let unit = unit_of(plan);
    let spot = |spot: &Spot| list(hand_drawn(*spot).map(|at| new_length(at, unit)).to_vec());
    list(spots.iter().map(spot).collect())
}

impl Session {
    /// Says what somebody who knows has said of a matter; without it, takes it back.
    pub fn answer(&mut self, matter: &str, said: Option<[&str; 3]>) {
        let value = said.map(|[says, by, on]| {
            let mut answer = map([("by", super::words(by)), ("on", word(on))]);
            match says {
                "" => take_out(&mut answer, "says"),
                says => set(&mut answer, "says", super::words(says)),
            }
            answer
        });
        self.set(&format!("answered.{matter}"), value);
    }
}
