//! The parts of the form, one of which is open.

use rules_core::asked::AskedKind;

use super::Form;
use super::choice::{Word, asked_in_a_row, labelled, radios};
use crate::plan::looked_for;
use crate::sets::heads;
use crate::view::keyed::{El, button, el};
use crate::words::{count, fill, t};

/// What is in a part.
#[derive(Clone, Copy, PartialEq)]
enum Within {
    Where,
    Lot,
    Pool,
    /// Kinds the rules ask about.
    Kinds,
    Questions,
    /// Days, and how sure the places are.
    Sure,
}

const PARTS: [(&str, Within); 8] = [
    ("where", Within::Where),
    ("lot", Within::Lot),
    ("pool", Within::Pool),
    ("road", Within::Kinds),
    ("site", Within::Kinds),
    ("barrier", Within::Kinds),
    ("questions", Within::Questions),
    ("sure", Within::Sure),
];

impl<'a> Form<'a> {
    /// The form as it should look now.
    pub fn parts(&self) -> El {
        let is_there = |(id, within): &(&str, Within)| {
            *within != Within::Kinds || !self.kinds_in(id).is_empty()
        };
        let all: Vec<_> = PARTS.into_iter().filter(is_there).collect();
        let part = |(index, part): (usize, &(&'static str, Within))| {
            self.part(index + 1, *part, all.get(index + 1).map(|next| next.0))
        };
        el("div").each(all.iter().enumerate().map(part))
    }

    fn kinds_in(&self, part: &str) -> Vec<&'a AskedKind> {
        let kinds = self
            .asked
            .map(|asked| asked.kinds.as_slice())
            .unwrap_or_default();
        kinds.iter().filter(|kind| kind.part == part).collect()
    }

    fn part(&self, number: usize, part: (&'static str, Within), next: Option<&'static str>) -> El {
        let id = part.0;
        let open = self.looks.open.as_deref() == Some(id);
        let head = button("part-opened")
            .set("class", "part-head")
            .set("data-part", id)
            .set("aria-expanded", open.to_string())
            .id(format!("head-{id}"))
            .with(
                el("span")
                    .class("number")
                    .set("aria-hidden", "true")
                    .with(number.to_string()),
            )
            .with(el("span").class("title").with(t(&format!("part.{id}"))))
            .with(el("span").class("state").with(self.progress(part)));
        el("section")
            .class("part")
            .id(format!("part-{id}"))
            .is("data-open", open)
            .with(el("h2").with(head))
            .with(open.then(|| self.body(part, next)))
    }

    fn body(&self, part: (&'static str, Within), next: Option<&'static str>) -> El {
        let id = part.0;
        let go_on = next.map(|next| {
            let words = fill("part.next", &[("part", &t(&format!("part.{next}")))]);
            let go_on = button("part-opened").class("next").set("data-part", next);
            go_on.id(format!("next-{id}")).with(words)
        });
        el("div")
            .class("part-body")
            .id(format!("body-{id}"))
            .with(el("p").class("lead").with(t(&format!("part.{id}.lead"))))
            .with(self.fields(part))
            .with(go_on)
    }

    fn fields(&self, (id, within): (&str, Within)) -> Vec<El> {
        match within {
            Within::Where => self.place_and_rules(),
            Within::Lot => self.lot(),
            Within::Pool => self.pools(),
            Within::Kinds => self.kinds(id, &self.kinds_in(id)),
            Within::Questions => self.own_questions(),
            Within::Sure => self.sure(),
        }
    }

    /// The progress of a part, in words.
    fn progress(&self, (id, within): (&str, Within)) -> String {
        let drawn = |key| {
            if self.at(key).is_some() {
                "state.drawn"
            } else {
                "state.to-do"
            }
        };
        match within {
            Within::Where if self.rules.text.is_empty() => t("state.first"),
            Within::Where => t("state.chosen"),
            Within::Lot => t(drawn("lot")),
            Within::Pool => t(drawn("pool")),
            Within::Kinds => self.still_open(&self.kinds_in(id)),
            Within::Questions | Within::Sure => String::new(),
        }
    }

    fn still_open(&self, kinds: &[&AskedKind]) -> String {
        let is_open = |kind: &&&AskedKind| looked_for(self.plan, &kind.id) == "not-checked";
        match kinds.iter().filter(is_open).count() {
            0 => t("state.done"),
            open => count("state.not-checked", open),
        }
    }

    fn place_and_rules(&self) -> Vec<El> {
        let of_where = self.kinds_in("where");
        let facts = of_where
            .into_iter()
            .flat_map(|kind| self.facts(&kind.facts, &kind.id));
        let desk = button("desk-opened")
            .class("plain")
            .id("desk-from-form")
            .with(t("where.desk"));
        let other = el("p")
            .class("hint")
            .with(t("where.other"))
            .with(" ")
            .with(desk);
        let first = [Some(self.which_rules()), self.who_decides(), Some(other)]
            .into_iter()
            .flatten();
        first
            .chain([self.words("title", &t("where.title")), self.units()])
            .chain(facts)
            .collect()
    }

    fn which_rules(&self) -> El {
        labelled(
            "rules",
            &t("where.rules"),
            rules_select("rules", self.rules),
        )
        .id("q-rules")
    }

    fn who_decides(&self) -> Option<El> {
        let id = self.rules.id.as_deref()?;
        heads(|heads| {
            let set = heads.iter().find(|set| set.id == id)?;
            let with = [
                ("authority", set.authority.as_str()),
                ("edition", set.edition.as_str()),
            ];
            let said = el("p").with(fill("where.authority", &with));
            let notice = set.notice.as_ref().map(|notice| el("p").with(notice));
            Some(el("div").class("note").with(said).with(notice))
        })
    }

    fn units(&self) -> El {
        let one =
            |unit: &'static str| Word::new(unit, t(&format!("unit.{unit}")), self.unit == unit);
        let row = radios("unit", "unit-chosen", None, ["m", "ft"].map(one));
        asked_in_a_row("units", t("where.units"), row)
            .with(el("p").class("hint").with(t("where.units-hint")))
    }

    fn own_questions(&self) -> Vec<El> {
        let questions = self
            .asked
            .map(|asked| asked.questions.as_slice())
            .unwrap_or_default();
        match questions {
            [] => vec![el("p").with(t("questions.none"))],
            _ => self.facts(questions, "answers"),
        }
    }
}

/// The rule sets to choose from.
pub fn rules_select(id: &'static str, rules: &rules_core::session::Rules) -> El {
    let option = super::field::option;
    let own = (rules.id.is_none() && !rules.text.is_empty())
        .then(|| option("own", &t("where.own"), true));
    let select = el("select").id(id).does("rules-chosen");
    let select = select.with(option("", &t("where.choose"), rules.text.is_empty()));
    let chosen = |set: &str| rules.id.as_deref() == Some(set);
    let sets = heads(|heads| {
        let sets = heads
            .iter()
            .map(|set| option(set.id, &set.title, chosen(set.id)));
        sets.collect::<Vec<_>>()
    });
    select.with(sets).with(own)
}
