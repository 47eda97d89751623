//! What a rule file says of itself, and when it is in force.

use super::Reader;
use super::languages::is_language;
use super::values::flipped;
use crate::quantity::Dimension;
use crate::ruleset::types::{Type, of_fact};
use crate::ruleset::{About, InForce, Sort};
use crate::text::{Entry, MapReader, Node};

/// The keys at the top of a rule file.
const TOP: [&str; 20] = [
    "ruleset",
    "title",
    "edition",
    "authority",
    "notice",
    "in-force",
    "earlier",
    "builds-on",
    "scope",
    "sources",
    "calendar",
    "kinds",
    "questions",
    "terms",
    "rules",
    "documents",
    "decide",
    "do",
    "cautions",
    "cases",
];

/// What a rule file says of itself.
pub(super) struct Head {
    pub id: String,
    pub title: String,
    pub edition: String,
    pub authority: String,
    pub notice: Option<String>,
    pub about: About,
    pub in_force: Option<InForce>,
}

impl<'a> Reader<'a> {
    /// What the files say of themselves; the head of the file that was asked for counts.
    pub(super) fn head(&mut self) -> Option<Head> {
        let mut head = None;
        self.base_first(|reader, node| head = reader.head_of(node));
        head
    }

    fn head_of(&mut self, node: &'a Node) -> Option<Head> {
        let mut map = self.map(node, "a rule set")?;
        for key in TOP {
            map.take(key);
        }
        let id = self.id(&mut map, "ruleset");
        let title = self.need_text(&mut map, "title");
        let edition = self.need_text(&mut map, "edition");
        let authority = self.need_text(&mut map, "authority");
        let notice = self.take_text(&mut map, "notice");
        let about = self.about(&mut map);
        let in_force = map
            .take("in-force")
            .map(|entry| self.in_force(&entry.value));
        self.finish(map);
        Some(Head {
            id: id?.to_owned(),
            title: title?,
            edition: edition?,
            authority: authority?,
            notice,
            about,
            in_force: flipped(in_force)?,
        })
    }

    /// What may stand at the head of a file beside what must.
    fn about(&mut self, map: &mut MapReader<'a>) -> About {
        let [place, country, finding, costs, lasts] = [
            "place",
            "country",
            "finding-the-authority",
            "costs",
            "lasts",
        ]
        .map(|key| self.take_text(map, key));
        let [sort, belongs, language] =
            ["sort", "belongs-with", "language"].map(|key| map.take(key));
        let belongs = belongs.map_or_else(Vec::new, |entry| self.words(&entry.value));
        let belongs = belongs
            .into_iter()
            .filter(|(id, span)| self.check_id(id, *span));
        About {
            belongs_with: belongs.map(|(id, _)| id.to_owned()).collect(),
            place,
            country,
            sort: sort.and_then(|entry| self.one_of(entry, &Sort::ALL)),
            finding_the_authority: finding,
            costs,
            lasts,
            language: language.and_then(|entry| self.own_language(entry)),
        }
    }

    fn own_language(&mut self, entry: &'a Entry) -> Option<String> {
        let tag = self.text(entry)?;
        if !is_language(tag) {
            self.fault(
                "not-a-language",
                entry.value.span,
                format!("`{tag}` is not the short name of a language."),
            )
            .help("Write `en`, `nb`, `fr` or the like.");
            return None;
        }
        Some(tag.to_owned())
    }

    pub(super) fn in_force(&mut self, node: &'a Node) -> Option<InForce> {
        let mut map = self.map(node, "a time in force")?;
        let [from, to] = ["from", "to"].map(|key| map.take(key));
        let [from, to] = [from, to].map(|entry| entry.map(|entry| self.day(entry)));
        let [or_when, unless] = ["or-when", "unless"].map(|key| map.take(key));
        let [or_when, unless] =
            [or_when, unless].map(|entry| entry.map(|entry| self.condition(&entry.value)));
        let by = self.need(&mut map, "by");
        // Which pool's day it is need not be said: that of any of them will do.
        let (by, _) = self.noting_pool(|reader| {
            let entry = by?;
            let name = reader.text(entry)?;
            reader.fact(name, entry.value.span)
        });
        self.finish(map);
        let by = by?;
        if of_fact(by, &self.vocabulary) != Type::Amount(Dimension::Date) {
            let path = self.vocabulary.fact_path(by);
            self.fault(
                "not-a-day",
                node.span,
                format!("`{path}` is not a day, so it cannot say when this is in force."),
            )
.help("Name the day that decides, as in `applied`, `complete`, `permit-issued` or `pool.built-on`.");
            return None;
        }
        Some(InForce {
            from: flipped(from)?,
            to: flipped(to)?,
            by,
            or_when: flipped(or_when)?,
            unless: flipped(unless)?,
        })
    }
}
