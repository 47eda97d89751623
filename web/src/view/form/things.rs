//! Everything around the pool: for each kind the rule set asks about, whether it was looked for, and each thing with
//! its facts.

use rules_core::asked::{AskedKind, AskedOutline};
use rules_core::text::Node;

use super::Form;
use super::choice::{Word, labelled, radios, tick};
use super::field::{because, folded, option};
use super::outline::shape_of;
use crate::plan::{field_of, looked_for, name_of, pools, still_to_say, things_of};
use crate::view::keyed::{El, button, el};
use crate::words::{fill, heading, t};

/// Where places may come from.
pub const SOURCES: [&str; 8] = [
    "survey", "plat", "deed", "map", "tape", "design", "fence", "guess",
];

impl Form<'_> {
    /// The kinds of a part: first those that somebody who walks round sees, with one answer for all that is not there;
    /// then those that nobody can rule out by looking.
    pub fn kinds(&self, part: &str, kinds: &[&AskedKind]) -> Vec<El> {
        let (seen, hidden): (Vec<&AskedKind>, Vec<&AskedKind>) =
            kinds.iter().copied().partition(|kind| kind.seen);
        let all = |kinds: Vec<&AskedKind>| kinds.into_iter().map(|kind| self.kind(kind)).collect();
        let [seen, unseen]: [Vec<El>; 2] = [seen, hidden].map(all);
        let head = (!unseen.is_empty() && !seen.is_empty()).then(|| {
            let hint = el("p").class("hint").with(t("looked.hidden-hint"));
            [el("h3").with(t("looked.hidden")), hint]
        });
        seen.into_iter()
            .chain(self.all_there_is(part))
            .chain(head.into_iter().flatten())
            .chain(unseen)
            .collect()
    }

    /// One answer for all kinds of a part that can be seen and of which nothing is said yet.
    fn all_there_is(&self, part: &str) -> Option<El> {
        let [drawn, none] = still_to_say(self.plan, self.asked?, part);
        let listed = |key: &str, kinds: &[&AskedKind]| {
            let said: Vec<&str> = kinds.iter().map(|kind| kind.said.as_str()).collect();
            let words = || el("p").with(fill(key, &[("kinds", &said.join(", "))]));
            (!kinds.is_empty()).then(words)
        };
        let sure = button("all-looked")
            .class("add")
            .set("data-part", part.to_owned())
            .id(format!("all-{part}"))
            .with(t("looked.all"));
        let note = || {
            el("div")
                .class("note")
                .with(listed("looked.no-more", &drawn))
                .with(listed("looked.none-of", &none))
                .with(sure)
        };
        (!drawn.is_empty() || !none.is_empty()).then(note)
    }

    /// One kind: whether there is any, and what is known of each.
    fn kind(&self, kind: &AskedKind) -> El {
        let things = things_of(self.plan, &kind.id);
        let looked = looked_for(self.plan, &kind.id);
        let there = !things.is_empty() || looked == "all-shown";
        el("fieldset")
            .class("kind")
            .id(format!("kind-{}", kind.id))
            .with(el("legend").with(heading(&kind.said)))
            .with(self.looked(kind, looked, !things.is_empty()))
            .each(
                things
                    .iter()
                    .map(|(path, thing)| self.thing(kind, path, thing)),
            )
            .with(there.then(|| more(kind, looked)))
    }

    fn looked(&self, kind: &AskedKind, looked: &str, there_are_some: bool) -> El {
        let path = format!("inventory.{}", kind.id);
        let id = field_of(&path);
        let there = there_are_some || looked == "all-shown";
        let one = |value: &'static str, chosen: bool| Word {
            barred: there_are_some && value != "yes",
            ..Word::new(value, t(&format!("looked.{value}")), chosen)
        };
        let words = [
            one("yes", there),
            one("none", !there && looked == "none"),
            one("not-checked", !there && looked == "not-checked"),
        ];
        let row = radios(&id, "looked", Some(&path), words)
            .id(id.clone())
            .set("role", "radiogroup")
            .set("aria-labelledby", format!("{id}-ask"));
        let whom = fill("looked.whom", &[("whom", kind.whom)]);
        let open = !there && looked == "not-checked" && !kind.whom.is_empty();
        let why = because(&kind.why).map(|why| folded(&id).with(why));
        el("div")
            .class("looked")
            .id(format!("q-{id}"))
            .with(el("p").class("ask").id(format!("{id}-ask")).with(&kind.ask))
            .with(row)
            .with(open.then(|| el("p").class("hint").with(whom)))
            .with(why)
    }

    fn thing(&self, kind: &AskedKind, path: &str, thing: &Node) -> El {
        let id = thing.get("id").and_then(Node::text).unwrap_or_default();
        let open = self.looks.thing.as_deref() == Some(id);
        let summary = el("summary")
            .does("thing-opened")
            .set("data-id", id.to_owned())
            .is("data-wrong", !self.faults_at(path).is_empty())
            .with(el("strong").with(name_of(thing)))
            .with(" ")
            .with(el("span").class("kind-name").with(heading(&kind.said)));
        el("details")
            .class("thing")
            .id(format!("thing-{id}"))
            .is("open", open)
            .with(summary)
            .with(open.then(|| self.thing_fields(kind, path, (id, thing))))
    }

    fn thing_fields(&self, kind: &AskedKind, path: &str, (id, thing): (&str, &Node)) -> Vec<El> {
        let gone = button("thing-gone")
            .class("plain danger")
            .set("data-path", path.to_owned())
            .set("data-id", id.to_owned())
            .with(t("thing.gone"));
        let first = std::iter::once(self.words(&format!("{path}.name"), &t("thing.name")));
        first
            .chain(self.outlines(kind, path, thing))
            .chain(self.whose(kind, path))
            .chain([self.source(path)])
            .chain(self.facts(&kind.facts, path))
            .chain([gone])
            .collect()
    }

    /// With several pools, the pool that a thing belongs to.
    fn whose(&self, kind: &AskedKind, path: &str) -> Option<El> {
        let pools = pools(self.plan);
        let path = format!("{path}.part-of");
        let (id, now) = (field_of(&path), self.shown(&path));
        let one = |(_, pool): &(String, &Node)| {
            let pool_id = pool.get("id").and_then(Node::text).unwrap_or_default();
            option(pool_id, &name_of(pool), now == pool_id)
        };
        let select = || {
            el("select")
                .id(id.clone())
                .does("chosen")
                .set("data-path", path.clone())
                .with(option("", &t("field.not-known"), now.is_empty()))
                .each(pools.iter().map(one))
        };
        let asked = kind.of_a_pool && pools.len() > 1;
        asked.then(|| labelled(&id, &t("thing.whose"), select()))
    }

    fn outlines(&self, kind: &AskedKind, path: &str, thing: &Node) -> Option<El> {
        let (first, others) = kind.outlines.split_first()?;
        let legend = fill("thing.where", &[("what", &first.said)]);
        let drawn_alike =
            |outline: &&AskedOutline| outline.shape == first.shape || outline.shape == "area";
        let others = others.iter().filter(drawn_alike);
        let drawn = self.drawn(
            &format!("{path}.{}", first.id),
            first.shape,
            thing.get(&first.id),
        );
        let fields = el("fieldset")
            .class("outlines")
            .with(el("legend").with(legend));
        Some(
            fields
                .with(drawn)
                .each(self.edges(path, others, (&first.id, &first.said))),
        )
    }

    fn drawn(&self, path: &str, shape: &'static str, drawn: Option<&Node>) -> Option<El> {
        match (drawn, shape) {
            (None, _) => {
                let place = button("outline-begun")
                    .class("plain")
                    .set("data-path", path.to_owned());
                Some(place.set("data-shape", shape).with(t("thing.place-it")))
            }
            (_, "point") => Some(self.place(path, &t("shape.at"))),
            (_, "area") => Some(self.area(path)),
            _ => (shape_of(drawn) == "places").then(|| self.places(path)),
        }
    }

    /// Where the places come from. How far off they may be is asked last.
    pub fn source(&self, path: &str) -> El {
        let field = format!("{path}.source");
        let (id, now) = (field_of(&field), self.at(&field).and_then(Node::text));
        let sources = self
            .plan
            .get("sources")
            .and_then(Node::as_list)
            .unwrap_or_default();
        let has = |source: &Node, key: &str, what: &str| {
            source.get(key).and_then(Node::text) == Some(what)
        };
        let others = SOURCES
            .into_iter()
            .filter(|by| !sources.iter().any(|source| has(source, "by", by)));
        let select = el("select")
            .id(id.clone())
            .does("source-picked")
            .set("data-path", field)
            .with(option("", &t("field.not-known"), now.is_none()))
            .each(sources.iter().map(|source| source_option(source, now)))
            .each(others.map(|by| option(&format!("+{by}"), &t(&format!("by.{by}")), false)));
        labelled(&id, &t("source.ask"), select).id(format!("q-{id}"))
    }
}

/// One more of a kind, and whether these are all.
fn more(kind: &AskedKind, looked: &str) -> El {
    let path = format!("inventory.{}", kind.id);
    let act = |act| button(act).set("data-kind", kind.id.clone());
    let add = act("thing-added")
        .set("class", "add")
        .with(fill("thing.add", &[("kind", &kind.said)]));
    let draw = || {
        act("thing-drawn")
            .set("class", "plain")
            .with(t("thing.draw"))
    };
    let may_be_drawn = kind.drawn_as != Some("point");
    let id = format!("{}-all-shown", field_of(&path));
    let all = tick(
        id,
        "all-shown-ticked",
        &path,
        looked == "all-shown",
        t("looked.all-shown"),
    );
    let both = el("div").class("row").with(add);
    el("div").with(all).with(both.with(may_be_drawn.then(draw)))
}

fn source_option(source: &Node, now: Option<&str>) -> El {
    let text = |key| source.get(key).and_then(Node::text);
    let id = text("id").unwrap_or_default();
    let by = t(&format!("by.{}", text("by").unwrap_or_default()));
    let said = match text("accuracy") {
        Some(accuracy) => format!("{by}, ± {accuracy}"),
        None => by,
    };
    option(id, &said, now == Some(id))
}
