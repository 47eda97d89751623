//! Where things are in the plan, for showing them or going to their fields.

use rules_core::asked::{Asked, AskedKind};
use rules_core::report::MissingReport;
use rules_core::session::{at, path_of};
use rules_core::text::Node;

/// Whether this is the id of a pool.
pub fn is_pool(plan: &Node, id: &str) -> bool {
    path_of(plan, id).is_some_and(|path| path.split('.').next() == Some("pool"))
}

/// Whether a path leads to the lot or to one of its sides.
pub fn is_of_lot(path: &str) -> bool {
    path.split('.').next() == Some("lot")
}

/// The name of a thing, given its id: its name, or else the id as a person would say it.
pub fn name_by_id(plan: &Node, id: &str) -> String {
    let thing = path_of(plan, id).and_then(|path| at(plan, &path));
    thing.map_or_else(|| id.replace('-', " "), name_of)
}

/// The name of a thing, or else its id as a person would say it: `garden-gate` is the garden gate.
pub fn name_of(thing: &Node) -> String {
    let text = |key| thing.get(key).and_then(Node::text);
    let id = || text("id").unwrap_or_default().replace('-', " ");
    text("name").map_or_else(id, str::to_owned)
}

/// The pools, however they are written, each with its path.
pub fn pools(plan: &Node) -> Vec<(String, &Node)> {
    let Some(pool) = plan.get("pool").filter(|pool| !pool.is_empty()) else {
        return Vec::new();
    };
    match pool.as_list() {
        Some(pools) => {
            let each = pools.iter().enumerate();
            each.map(|(at, pool)| (format!("pool.{at}"), pool))
                .collect()
        }
        None => vec![("pool".to_owned(), pool)],
    }
}

/// The kinds whose facts belong to nothing drawn, each with its section of the plan.
const SECTIONS: [(&str, &str); 6] = [
    ("events", "dates"),
    ("lot", "lot"),
    ("applicant", "applicant"),
    ("works", "works"),
    ("answers", "answers"),
    ("zone", "zone"),
];

/// The path of the field for something missing; `None` if there is no such field.
pub fn path_of_missing(plan: &Node, missing: &MissingReport) -> Option<String> {
    let (kind, name) = (missing.kind.as_str(), missing.name.as_str());
    match kind {
        "inventory" => return Some(format!("inventory.{name}")),
        "document" => return None,
        _ => {}
    }
    let (thing, fact) = name
        .split_once('.')
        .map_or((name, None), |(thing, fact)| (thing, Some(fact)));
    let subject = missing.subject.as_ref().and_then(|id| path_of(plan, id));
    let section = SECTIONS.iter().find(|(kind, _)| *kind == thing);
    match (subject, fact, section) {
        (Some(path), ..) if kind == "accuracy" => Some(source_path(plan, &path)),
        (Some(path), fact, _) => Some(format!("{path}.{}", fact.unwrap_or(thing))),
        (None, None, _) => (kind == "fact").then(|| format!("answers.{thing}")),
        (None, Some(fact), Some((_, section))) => Some(format!("{section}.{fact}")),
        (None, Some(_), None) => Some(format!("inventory.{thing}")),
    }
}

/// Where it is said how accurate a thing is drawn: in its source, or, without one, where its source is picked. A side of
/// the lot is drawn as the lot is.
fn source_path(plan: &Node, path: &str) -> String {
    let of = match path.split_once('.') {
        Some(("lot", _)) => "lot",
        _ => path,
    };
    let own = format!("{of}.source");
    let picked = at(plan, &own).and_then(Node::text);
    let sources = plan.get("sources").and_then(Node::as_list);
    let is_it =
        |source: &Node| picked.is_some_and(|id| source.get("id").and_then(Node::text) == Some(id));
    let index = sources.and_then(|all| all.iter().position(is_it));
    index.map_or(own, |index| format!("sources.{index}.accuracy"))
}

/// What is drawn on the plan without saying where its places come from: the path of each, with its name.
pub fn without_source(plan: &Node) -> Vec<(String, String)> {
    let lot = plan.get("lot").filter(|lot| !lot.is_empty());
    let lot = lot.map(|lot| ("lot".to_owned(), lot));
    let things = things(plan);
    let all = lot.into_iter().chain(pools(plan)).chain(things);
    let open = all.filter(|(_, thing)| thing.get("source").is_none_or(Node::is_empty));
    open.map(|(path, thing)| {
        let name = if path == "lot" {
            String::new()
        } else {
            name_of(thing)
        };
        (path, name)
    })
    .collect()
}

/// What stands on the plan besides the lot and the pools, each with its path.
pub fn things(plan: &Node) -> impl Iterator<Item = (String, &Node)> {
    let all = plan.get("things").and_then(Node::as_list);
    let all = all.unwrap_or_default().iter().enumerate();
    all.map(|(at, thing)| (format!("things.{at}"), thing))
}

/// The things of a kind, each with its path.
pub fn things_of<'n>(plan: &'n Node, kind: &str) -> Vec<(String, &'n Node)> {
    let is_one = |thing: &Node| thing.get("kind").and_then(Node::text) == Some(kind);
    things(plan).filter(|(_, thing)| is_one(thing)).collect()
}

/// Whether a kind was looked for, according to the plan: `none`, `all-shown` or `not-checked`.
pub fn looked_for(plan: &Node, kind: &str) -> &'static str {
    let said = at(plan, &format!("inventory.{kind}"));
    match said.and_then(Node::text) {
        Some("none") => "none",
        Some("all-shown") => "all-shown",
        _ if said.is_some_and(|said| said.get("all-shown").is_some()) => "all-shown",
        _ => "not-checked",
    }
}

/// The kinds of a part of the form that can be seen and of which nothing is said yet: first those of which some are
/// drawn, then those of which none are. What nobody can see is never among them.
pub fn still_to_say<'a>(plan: &Node, asked: &'a Asked, part: &str) -> [Vec<&'a AskedKind>; 2] {
    let kinds = asked.kinds.iter().filter(|kind| kind.part == part);
    let open = kinds.filter(|kind| kind.seen && looked_for(plan, &kind.id) == "not-checked");
    let (drawn, none) = open.partition(|kind| !things_of(plan, &kind.id).is_empty());
    [drawn, none]
}

/// The id of the field for what stands at a path.
pub fn field_of(path: &str) -> String {
    format!("at-{}", path.replace('.', "_"))
}

/// The kind of thing a path is about, in the list of things or in the inventory.
pub fn kind_at(plan: &Node, path: &str) -> Option<String> {
    let mut keys = path.split('.');
    match (keys.next()?, keys.next()?) {
        ("things", place) => {
            let thing = at(plan, &format!("things.{place}"))?;
            thing.get("kind")?.text().map(str::to_owned)
        }
        ("inventory", kind) => Some(kind.to_owned()),
        _ => None,
    }
}
