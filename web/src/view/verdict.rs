//! The one line that is always in sight.

use rules_core::report::{Counts, VerdictWords};
use rules_core::{FaultRow, Outcome, PartReport, Report};

use super::keyed::{El, button, el};
use super::marks::{ORDER, mark_of, verdict_said, verdict_word};
use super::prose::told;
use crate::judged::{First, Judged};
use crate::words::{count, fill, t};

/// The verdict on the plan, or what is needed or wrong before there can be one.
pub fn of(judged: &Judged) -> El {
    match judged.shown() {
        Some(good) => {
            let line = counted(judged, &good.report.verdict, &good.report.counts);
            line.with(fails_as_drawn(&good.report))
        }
        None => waiting(judged),
    }
}

/// A rough answer before all is known: the rules that fail as drawn, though not for sure.
fn fails_as_drawn(report: &Report) -> Option<El> {
    let fails = |part: &PartReport| part.only_fails || part.as_drawn == Some(Outcome::Fail);
    let open = report
        .rules
        .iter()
        .filter(|rule| rule.binds() && !matches!(rule.outcome, Outcome::Fail | Outcome::Pass));
    let failing = open.filter(|rule| rule.parts.iter().any(fails));
    let titles: Vec<&str> = failing.map(|rule| rule.title.as_str()).collect();
    let said = || fill("verdict.as-drawn", &[("rules", &titles.join("; "))]);
    (!titles.is_empty()).then(|| el("p").id("as-drawn").with(said()))
}

/// A verdict with how many rules have which outcome.
pub fn counted(judged: &Judged, verdict: &VerdictWords, counts: &Counts) -> El {
    let stale = judged
        .is_stale()
        .then(|| el("p").class("stale").with(t("verdict.stale")));
    let left_out = judged.shown().map(|good| good.left_out.as_slice());
    el("div")
        .set("data-word", verdict_word(verdict.word))
        .with(sentence(&verdict_said(verdict.word)))
        .with(stale)
        .with(wrong(judged))
        .with(
            left_out
                .filter(|paths| !paths.is_empty())
                .map(not_looked_at),
        )
        .with(
            el("ul")
                .class("counts")
                .each(ORDER.map(|outcome| told_of(outcome, counts))),
        )
}

fn sentence(words: &str) -> El {
    el("p").id("verdict-word").with(words)
}

fn told_of(outcome: Outcome, counts: &Counts) -> Option<El> {
    let number = match outcome {
        Outcome::Fail => counts.fail,
        Outcome::Unknown => counts.unknown,
        Outcome::Marginal => counts.marginal,
        Outcome::Refer => counts.refer,
        Outcome::Pass => counts.pass,
        Outcome::NotApplicable => counts.not_applicable,
    };
    let words = || count(&format!("count.{}", outcome.word()), number as usize);
    let item = || {
        el("li")
            .set("data-outcome", outcome.word())
            .with(mark_of(outcome))
            .with(words())
    };
    (number > 0).then(item)
}

/// What the plan holds for other rules and these have no word for.
fn not_looked_at(paths: &[String]) -> El {
    let last = |path: &String| {
        path.rsplit('.')
            .next()
            .unwrap_or_default()
            .replace('-', " ")
    };
    el("details")
        .class("about")
        .id("left-out")
        .with(el("summary").with(count("left-out", paths.len())))
        .with(el("p").with(t("left-out.why")))
        .with(el("ul").each(paths.iter().map(|path| el("li").with(last(path)))))
}

fn waiting(judged: &Judged) -> El {
    let waiting = el("div").set("data-word", "none");
    match judged.first() {
        Some(first) => waiting
            .with(sentence(&t(&format!("first.{}", first.part()))))
            .with(begin(first)),
        None if judged.are_rules_refused() => waiting
            .with(sentence(&t("verdict.rules-refused")))
            .with(wrong(judged)),
        None => waiting
            .with(sentence(&t("verdict.refused")))
            .with(wrong(judged)),
    }
}

/// The way to the first thing that is missing.
fn begin(first: First) -> El {
    let part = first.part();
    let go = button("first-thing")
        .set("class", "add")
        .set("data-part", part)
        .id("first-thing");
    let example = button("example").set("class", "plain").id("example-early");
    let example = example.with(t("menu.example"));
    el("p")
        .class("row")
        .with(go.with(t(&format!("first.{part}.do"))))
        .with((first == First::Rules).then_some(example))
}

/// What is wrong with the plan, each with the way to its field.
fn wrong(judged: &Judged) -> Option<El> {
    let rows = judged.faults();
    let list = || el("ul").each(rows.iter().enumerate().map(fault));
    let area = || {
        el("div")
            .id("faults-now")
            .class("wrong")
            .set("role", "alert")
            .with(list())
    };
    (!rows.is_empty()).then(area)
}

fn fault((index, row): (usize, &FaultRow)) -> El {
    let show = |path: &String| {
        let show = button("fault-shown")
            .class("plain")
            .set("data-path", path.clone());
        show.id(format!("fault-{index}"))
            .with(t("verdict.show-field"))
    };
    el("li")
        .with(told(&row.message, row.help.as_deref()))
        .with(" ")
        .with(row.path.as_ref().map(show))
}
