//! What is asked last: the days, where the places come from, and how far off they may be.

use rules_core::text::Node;

use super::Form;
use super::choice::labelled;
use super::field::option;
use super::things::SOURCES;
use crate::plan::without_source;
use crate::view::keyed::{El, el};
use crate::words::{fill, t};

impl Form<'_> {
    /// The days, and how sure the places are.
    pub fn sure(&self) -> Vec<El> {
        let dates = self.asked.map(|asked| asked.dates.as_slice());
        let sources = self.plan.get("sources").and_then(Node::as_list);
        let sources = sources.unwrap_or_default().iter().enumerate();
        self.facts(dates.unwrap_or_default(), "dates")
            .into_iter()
            .chain(self.unsourced())
            .chain(sources.map(|source| self.accuracies(source)))
            .collect()
    }

    /// One answer for all that is drawn without saying where it comes from.
    fn unsourced(&self) -> Option<El> {
        let named = |(path, name): (String, String)| match path.as_str() {
            "lot" => t("sure.lot"),
            _ => name,
        };
        let names: Vec<String> = without_source(self.plan).into_iter().map(named).collect();
        let select = || {
            el("select")
                .id("sources-all")
                .does("all-sourced")
                .with(option("", &t("field.not-known"), true))
                .each(SOURCES.map(|by| option(&format!("+{by}"), &t(&format!("by.{by}")), false)))
        };
        let ask = || fill("sure.unsourced", &[("things", &names.join(", "))]);
        (!names.is_empty()).then(|| labelled("sources-all", &ask(), select()))
    }

    /// How far off the places of one source may be.
    fn accuracies(&self, (index, source): (usize, &Node)) -> El {
        let by = source.get("by").and_then(Node::text).unwrap_or_default();
        let both = ["accuracy", "shift"].map(|key| {
            let path = format!("sources.{index}.{key}");
            self.length(&path, &t(&format!("source.{key}")))
        });
        el("fieldset")
            .class("outlines")
            .with(el("legend").with(fill("sure.of", &[("by", &t(&format!("by.{by}")))])))
            .with(el("div").class("pair").each(both))
            .with(el("p").class("hint").with(t("source.hint")))
    }
}
