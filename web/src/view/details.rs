//! What a chosen finding shows.

use rules_core::ruleset::Provenance;
use rules_core::{PartReport, RuleReport};

use super::findings::missing;
use super::keyed::{El, el};
use super::marks::{is_settled, mark_of, origin};
use super::prose::prose;
use crate::words::{fill, t};

/// Everything that is known about it.
pub fn details(rule: &RuleReport, part: Option<&PartReport>) -> El {
    let sentence = part.map_or(&rule.sentence, |part| &part.sentence);
    let advice = part.and_then(|part| part.advice.as_ref());
    let remedy = rule.remedy.as_ref().filter(|_| !is_settled(rule.outcome));
    el("div")
        .class("details")
        .with(el("p").said().with(prose(sentence)))
        .with(part.and_then(witness))
        .with(
            advice
                .map(|advice| named("finding.advice").with(el("span").said().with(prose(advice)))),
        )
        .each(rule.missing.iter().map(missing))
        .with(remedy.map(|remedy| named("finding.remedy").with(prose(remedy))))
        .with((rule.parts.len() > 1).then(|| parts(rule)))
        .with(
            rule.note
                .as_ref()
                .map(|note| el("p").class("note").with(note)),
        )
        .with(source(rule))
}

fn named(key: &str) -> El {
    el("p").with(el("strong").with(t(key))).with(" ")
}

/// The two ends it was measured between.
fn witness(part: &PartReport) -> Option<El> {
    let witness = part.readings.iter().find_map(|one| one.witness.as_ref())?;
    Some(el("p").class("witness").said().with(prose(&witness.text)))
}

fn parts(rule: &RuleReport) -> El {
    let number = rule.parts.len().to_string();
    let one = |part: &PartReport| {
        el("li")
            .with(mark_of(part.outcome))
            .with(el("span").said().with(prose(&part.sentence)))
    };
    el("details")
        .class("about")
        .id(format!("parts-{}", rule.id))
        .with(el("summary").with(fill("finding.parts", &[("n", &number)])))
        .with(el("ul").each(rule.parts.iter().map(one)))
}

fn source(rule: &RuleReport) -> El {
    let contradicted = rule.provenance == Provenance::Contradicted;
    let contradicted = contradicted.then(|| format!(" · {}", t("provenance.contradicted")));
    let source = el("p").class("source").with(&rule.clause);
    source.with(origin(rule.mark.as_ref())).with(contradicted)
}
