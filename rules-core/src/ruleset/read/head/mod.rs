//! What a rule file says of itself, and when it is in force.

pub(super) mod editions;
pub(super) mod files;
pub(super) mod format;
pub(super) mod languages;
pub(super) mod scope;
pub(super) mod sources;
pub(super) mod working_days;

use super::Reader;
use crate::faults::Code;
use crate::grammar::{self, SORTS};
use crate::quantity::Dimension;
use crate::ruleset::read::head::languages::is_language;
use crate::ruleset::read::value::flipped;
use crate::ruleset::types::{Type, of_fact};
use crate::ruleset::{About, InForce, Sort};
use crate::text::{Entry, Help, Node, Span};

const WHICH_DAY: &str =
    "Name the day that decides, as in `applied`, `complete`, `permit-issued` or `pool.built-on`.";

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
        let [
            id,
            title,
            edition,
            authority,
            notice,
            in_force,
            ..,
            place,
            country,
            finding,
            costs,
            lasts,
            sort,
            belongs,
            language,
            format,
        ] = self.keys(node, &grammar::RULE_SET)?;
        self.base_of_cases(node);

        let id = self.id(id);
        let [title, edition, authority, notice] =
            [title, edition, authority, notice].map(|text| self.told(text));
        let about = self.about(
            [place, country, finding, costs, lasts],
            [sort, belongs, language],
        );
        let about = About {
            format: format.and_then(|entry| self.format(entry, node)),
            ..about
        };
        let in_force = self.if_written(in_force, Self::in_force);
        Some(Head {
            id: id?.to_owned(),
            title: title?,
            edition: edition?,
            authority: authority?,
            notice,
            about,
            in_force: in_force?,
        })
    }

    /// Reports `base` in a rule file: it is the plan of cases, or meant as `builds-on`.
    fn base_of_cases(&mut self, node: &Node) {
        let entries = node.as_map().unwrap_or_default();
        let Some(entry) = entries.iter().find(|entry| entry.key == "base") else {
            return;
        };
        let (message, help) = match entry.value.as_map() {
            Some(_) => (
                "`base` is the plan that cases share, and it does not stand in a rule file.",
                "Move `base` and `cases` into a file of their own, `cases.yaml`, beside this one."
                    .into(),
            ),
            None => (
                "`base` is not a key of a rule set.",
                Help::near(Some("builds-on".to_owned()), ""),
            ),
        };
        self.fault(Code::UnknownKey, entry.key_span, message)
            .help(help);
    }

    /// What may stand at the head of a file beside what must.
    fn about(
        &mut self,
        texts: [Option<&'a Entry>; 5],
        [sort, belongs, language]: [Option<&'a Entry>; 3],
    ) -> About {
        let [place, country, finding_the_authority, costs, lasts] =
            texts.map(|text| self.told(text));
        let belongs = belongs.map_or_else(Vec::new, |entry| self.words(&entry.value));
        let belongs = belongs
            .into_iter()
            .filter(|(id, span)| self.check_id(id, *span));
        About {
            belongs_with: belongs.map(|(id, _)| id.to_owned()).collect(),
            place,
            country,
            sort: sort.and_then(|entry| self.word_of(entry, SORTS, Sort::ALL)),
            finding_the_authority,
            costs,
            lasts,
            language: language.and_then(|entry| self.own_language(entry)),
            format: None,
        }
    }

    fn own_language(&mut self, entry: &'a Entry) -> Option<String> {
        let tag = self.text(entry)?;
        if !is_language(tag) {
            self.fault(
                Code::NotALanguage,
                entry.value.span,
                format!("`{tag}` is not the short name of a language."),
            )
            .help("Write `en`, `nb`, `fr` or the like.");
            return None;
        }
        Some(tag.to_owned())
    }

    fn unknown_day(&mut self, name: &str, span: Span) {
        let message = format!("There is no day `{name}`.");
        self.fault(Code::NotADay, span, message).help(WHICH_DAY);
    }

    pub(super) fn in_force(&mut self, node: &'a Node) -> Option<InForce> {
        let [from, to, or_when, unless, by] = self.keys(node, &grammar::IN_FORCE_KEYS)?;
        let [from, to] = [from, to].map(|entry| flipped(entry.map(|entry| self.day(entry))));
        let [or_when, unless] =
            [or_when, unless].map(|entry| self.if_written(entry, Self::condition));
        // Which pool's day it is need not be said: that of any of them will do.
        let (by, _) = self.noting_pool(|reader| {
            let entry = by?;
            let name = reader.text(entry)?;
            if !name.contains('.') && reader.short_fact(name).is_none() {
                reader.unknown_day(name, entry.value.span);
                return None;
            }
            reader.fact(name, entry.value.span)
        });
        if let (Some(Some(first)), Some(Some(last))) = (from, to)
            && last < first
        {
            self.fault(
                Code::InForceOrder,
                node.span,
                "The last day is before the first, so this is never in force.",
            )
            .help("`from` is the first day and `to` the last; is a figure mistyped?");
        }
        let by = by?;
        if of_fact(by, &self.vocabulary) != Type::Amount(Dimension::Date) {
            let path = self.vocabulary.fact_path(by);
            let message = format!("`{path}` is not a day, so it cannot say when this is in force.");
            self.fault(Code::NotADay, node.span, message)
                .help(WHICH_DAY);
            return None;
        }
        Some(InForce {
            from: from?,
            to: to?,
            by,
            or_when: or_when?,
            unless: unless?,
        })
    }
}
