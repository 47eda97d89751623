//! All findings in groups, the most pressing first.

use rules_core::report::{DecisionReport, MissingReport, RangeReport, ReadingReport};
use rules_core::{Outcome, PartReport, Report, RuleReport};

use super::details::details;
use super::editions::editions;
use super::keyed::{El, button, el};
use super::marks::{ORDER, is_settled, mark_of, origin, outcome_said};
use super::prose::prose;
use super::remains::remains;
use crate::held::with;
use crate::looks::with_looks;
use crate::plan::{is_pool, name_by_id, path_of_missing};
use crate::words::{count, fill, t};

/// A longer text gets its own line.
const LONG: usize = 40;

/// The findings; if a thing is chosen, only those about it.
pub fn of(report: Option<&Report>) -> El {
    let Some(report) = report else {
        return el("div").with(el("p").class("hint").with(t("findings.none-yet")));
    };
    let chosen = chosen();
    let rules = report.rules.iter();
    let about: Vec<&RuleReport> = rules
        .filter(|rule| is_about(rule, chosen.as_deref()))
        .collect();
    let (binding, advice): (Vec<&RuleReport>, Vec<&RuleReport>) =
        about.iter().copied().partition(|rule| rule.binds());
    let advised = || {
        let section = el("section").class("group").id("group-advice");
        section
            .with(el("h3").with(t("group.advice")))
            .each(advice.iter().map(|rule| finding(rule)))
    };
    el("div")
        .with(editions(&report.editions))
        .with(chosen.as_deref().map(filtered))
        .with(
            about
                .is_empty()
                .then(|| el("p").with(t("findings.nothing-about"))),
        )
        .each(ORDER.map(|outcome| group(outcome, &binding, chosen.is_some())))
        .with((!advice.is_empty()).then(advised))
        .with(chosen.is_none().then(|| decisions(&report.decisions)))
}

/// The thing whose rules are shown, and no others. Nearly every rule is about the pool, so choosing it hides nothing.
fn chosen() -> Option<String> {
    let thing = with_looks(|looks| looks.thing.clone())?;
    (!with(|session| is_pool(session.plan(), &thing))).then_some(thing)
}

fn is_about(rule: &RuleReport, chosen: Option<&str>) -> bool {
    let Some(thing) = chosen else { return true };
    let ends = |part: &PartReport| {
        let witnesses = part.readings.iter().filter_map(|one| one.witness.as_ref());
        witnesses
            .into_iter()
            .any(|one| one.from_thing == thing || one.to_thing == thing)
    };
    let parts = rule.parts.iter();
    parts
        .into_iter()
        .any(|part| part.subject.id.as_deref() == Some(thing) || ends(part))
}

fn filtered(thing: &str) -> El {
    let name = with(|session| name_by_id(session.plan(), thing));
    let all = button("thing-left")
        .class("plain")
        .id("findings-all")
        .with(t("findings.all"));
    let about = fill("findings.about", &[("thing", &name)]);
    el("p").class("filter").with(about).with(" ").with(all)
}

fn group(outcome: Outcome, rules: &[&RuleReport], filtered: bool) -> Option<El> {
    let rules: Vec<&RuleReport> = (rules.iter().copied())
        .filter(|rule| rule.outcome == outcome)
        .collect();
    let word = outcome.word();
    let many = el("span").class("how-many").with(rules.len().to_string());
    let head = el("h3")
        .with(t(&format!("group.{word}")))
        .with(" ")
        .with(many);
    let named = |tag| {
        el(tag)
            .class("group")
            .id(format!("group-{word}"))
            .set("data-outcome", word)
    };
    let all = || rules.iter().map(|rule| finding(rule));
    // Findings that need no action, or cannot be decided yet, are folded away, so that the others stand out.
    let open = || filtered || rules.iter().any(|rule| is_selected(&rule.id));
    let is_folded = is_settled(outcome) || outcome == Outcome::Unknown;
    match (rules.is_empty(), is_folded) {
        (true, _) => None,
        (_, false) => Some(named("section").with(head).each(all())),
        _ => Some(
            named("details")
                .is("open", open())
                .with(el("summary").with(head))
                .each(all()),
        ),
    }
}

fn is_selected(rule: &str) -> bool {
    with_looks(|looks| looks.selected.as_deref() == Some(rule))
}

/// The finding for one rule.
pub fn finding(rule: &RuleReport) -> El {
    let (word, id, open) = (rule.outcome.word(), &rule.id, is_selected(&rule.id));
    let part = deciding(rule);
    let outcome = format!("{}: ", outcome_said(rule.outcome));
    let choose = button("finding-chosen")
        .set("data-rule", id.clone())
        .set("aria-expanded", open.to_string())
        .id(format!("choose-{id}"))
        .with(mark_of(rule.outcome))
        .with(el("span").class("hidden").with(outcome))
        .with(el("span").class("title").with(&rule.title));
    el("article")
        .class("finding")
        .id(format!("finding-{id}"))
        .set("data-outcome", word)
        .is("data-open", open)
        .with(el("h4").with(choose))
        .with(line(rule, part))
        .with(open.then(|| details(rule, part)))
}

/// The part of a rule that decides it.
fn deciding(rule: &RuleReport) -> Option<&PartReport> {
    rule.parts
        .get(rule.deciding.unwrap_or(0))
        .or(rule.parts.first())
}

/// The line below a rule: why it passes, or the figures; `None` if it does not apply.
fn line(rule: &RuleReport, part: Option<&PartReport>) -> Option<El> {
    let part = part?;
    match rule.outcome {
        Outcome::NotApplicable => None,
        Outcome::Pass if part.brief.is_empty() => None,
        Outcome::Pass => Some(
            el("p")
                .class("brief")
                .set("data-cell", "brief")
                .said()
                .with(prose(&part.brief)),
        ),
        _ => figures(part.readings.get(part.telling?)?, part),
    }
}

/// Figure, limit and margin side by side, as in a table of distances.
fn figures(reading: &ReadingReport, part: &PartReport) -> Option<El> {
    let (measured, limit) = (reading.measured.as_ref(), reading.limit.as_ref());
    let any = measured.or(limit).is_some();
    any.then(|| {
        el("dl")
            .class("figures")
            .each(cells(measured, reading, part).map(cell))
    })
}

/// A cell: its name, its text, and whether the text is the page's own.
type Cell = (&'static str, Option<String>, bool);

/// A margin means nothing if the measured figure is not known.
fn cells(measured: Option<&RangeReport>, reading: &ReadingReport, part: &PartReport) -> [Cell; 3] {
    let on_plan = measured.map_or_else(|| t("figure.not-known"), |range| range.text.clone());
    let margin = part.margin.as_ref().filter(|_| measured.is_some());
    let on_plan = ("measured", Some(on_plan), measured.is_none());
    let asked = ("asked", Some(bound(reading)), false);
    let margin = ("margin", margin.map(|margin| margin.text.clone()), false);
    let is_long = asked.1.as_deref().is_some_and(is_long);
    if is_long {
        [on_plan, margin, asked]
    } else {
        [on_plan, asked, margin]
    }
}

fn is_long(text: &str) -> bool {
    text.chars().count() > LONG
}

fn cell((name, text, own): Cell) -> Option<El> {
    let text = text.filter(|text| !text.is_empty())?;
    let shown = el("dd").set("data-cell", name);
    let shown = if own { shown } else { shown.said() };
    let both = if is_long(&text) {
        el("div").class("long")
    } else {
        el("div")
    };
    let name = el("dt").with(t(&format!("figure.{name}")));
    Some(both.with(name).with(shown.with(prose(&text))))
}

/// The bound in words, with its figure if the words only name it.
pub fn bound(reading: &ReadingReport) -> String {
    let bound = &reading.bound;
    match &reading.limit {
        Some(limit) if !bound.contains(&limit.text) => format!("{bound}: {}", limit.text),
        _ => bound.clone(),
    }
}

/// An open question, with the way to its field.
pub fn missing(missing: &MissingReport) -> El {
    let how = missing.how.as_deref().map(prose);
    el("div")
        .class("missing")
        .with(el("p").said().with(prose(&missing.question)))
        .with(how.map(|how| el("p").class("hint").said().with(how)))
        .with(answer(missing))
}

/// The way to the field for something missing, if there is one.
pub fn answer(missing: &MissingReport) -> Option<El> {
    let path = with(|session| path_of_missing(session.plan(), missing))?;
    let thing = missing.subject.clone().unwrap_or_default();
    let answer = button("missing-answered")
        .class("plain")
        .set("data-path", path);
    Some(answer.set("data-thing", thing).with(t("finding.answer")))
}

fn decisions(all: &[DecisionReport]) -> Option<El> {
    let one = |one: &DecisionReport| {
        let source = el("p")
            .class("source")
            .with(one.clause.clone())
            .with(origin(one.mark.as_ref()));
        let said = el("p").said().with(prose(&one.sentence));
        el("article")
            .class("finding")
            .with(el("h4").with(&one.title))
            .with(said)
            .with(source)
    };
    let section = || {
        el("section")
            .class("group")
            .id("group-decisions")
            .with(el("h3").with(t("group.decisions")))
    };
    (!all.is_empty()).then(|| section().each(all.iter().map(one)))
}

/// What to answer first: what the report turns on.
pub fn next(report: Option<&Report>) -> El {
    let questions = report.map(|report| report.questions.as_slice());
    let questions = questions.unwrap_or_default();
    let first = questions.first().map(|first| {
        let head = el("h2").with(count("next.questions", questions.len()));
        [head, missing(&first.missing)]
    });
    let left = report.and_then(remains);
    let empty = first.is_none() && left.is_none();
    let all = if empty {
        el("div").class("empty")
    } else {
        el("div")
    };
    all.with(first.map(Vec::from)).with(left)
}
