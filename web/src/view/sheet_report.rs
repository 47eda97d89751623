//! The report on paper, below the drawing: the verdict, the table of distances, the papers.

use rules_core::plan::DocumentState;
use rules_core::report::{CautionReport, DocumentReport, ReadingReport};
use rules_core::{Outcome, PartReport, Report, RuleReport};

use super::findings::bound;
use super::keyed::{El, el};
use super::marks::{origin, outcome_said, verdict_said};
use super::papers::is_wanted;
use super::prose::prose;
use crate::words::t;

/// The columns of the table.
const HEADS: [&str; 7] = [
    "rule", "what", "measured", "asked", "margin", "outcome", "clause",
];

/// The whole report; empty if there is none.
pub fn of(report: Option<&Report>) -> El {
    let sheet = el("div");
    let Some(report) = report else { return sheet };
    sheet
        .with(
            el("p")
                .class("verdict")
                .with(verdict_said(report.verdict.word)),
        )
        .with(distances(&report.rules))
        .with(papers(&report.documents))
        .with(cautions(&report.cautions))
        .with(small_print(report))
}

fn distances(rules: &[RuleReport]) -> El {
    let rows = rules
        .iter()
        .flat_map(|rule| rule.parts.iter().filter_map(|part| row(rule, part)));
    let head = |name: &str| {
        el("th")
            .set("scope", "col")
            .with(t(&format!("print.{name}")))
    };
    el("table")
        .with(el("caption").with(t("print.distances")))
        .with(el("thead").with(el("tr").each(HEADS.map(head))))
        .with(el("tbody").each(rows))
}

fn row(rule: &RuleReport, part: &PartReport) -> Option<El> {
    let reading: &ReadingReport = part.readings.get(part.telling?)?;
    let measured = reading
        .measured
        .as_ref()
        .filter(|_| reading.limit.is_some())?;
    let cell = || el("td").said();
    let margin = part.margin.as_ref().map(|margin| &margin.text);
    let row = el("tr")
        .with(el("th").set("scope", "row").with(&rule.title))
        .with(cell().with(prose(&part.subject.said)))
        .with(cell().with(&measured.text))
        .with(cell().with(prose(&bound(reading))).with(by_relief(part)))
        .with(cell().with(margin))
        .with(el("td").with(outcome_said(part.outcome)))
        .with(el("td").with(&rule.clause).with(origin(rule.mark.as_ref())));
    Some(row)
}

/// The relief by which less is asked than by the rule itself.
fn by_relief(part: &PartReport) -> Option<El> {
    let relief = part
        .relief
        .as_ref()
        .filter(|_| part.outcome == Outcome::Pass)?;
    let named = el("b").class("named").with(relief);
    Some(
        el("span")
            .with(format!(" ({} ", t("print.by-relief")))
            .with(named)
            .with(")"),
    )
}

fn papers(all: &[DocumentReport]) -> El {
    let one = |paper: &DocumentReport| {
        let tick = if paper.state == DocumentState::InHand {
            "☒ "
        } else {
            "☐ "
        };
        el("li").with(tick).with(&paper.sentence)
    };
    let list = el("ul")
        .class("boxes")
        .each(all.iter().filter(|paper| is_wanted(paper)).map(one));
    el("section")
        .with(el("h2").with(t("papers.documents")))
        .with(list)
}

fn cautions(all: &[CautionReport]) -> El {
    let list = el("ul").each(all.iter().map(|one| el("li").with(prose(&one.says))));
    el("section")
        .with(el("h2").with(t("papers.cautions")))
        .with(list)
}

fn small_print(report: &Report) -> El {
    let second_hand = report.second_hand.as_ref().map(|marked| &marked.sentence);
    let lines = [second_hand, Some(&report.disclaimer)];
    el("div")
        .class("small")
        .each(lines.map(|line| line.map(|line| el("p").with(prose(line)))))
}
