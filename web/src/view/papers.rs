//! Papers to gather, ticked as they come; what to take care of; and who decides.

use rules_core::Report;
use rules_core::check::Need;
use rules_core::plan::DocumentState;
use rules_core::report::{CautionReport, DocumentReport, RuleSetHead};

use super::keyed::{El, el};
use super::marks::origin;
use super::prose::prose;
use super::scope::scope;
use super::steps::steps;
use crate::check::Answered;
use crate::words::{fill, t};

/// Everything below the findings.
pub fn of(good: Option<&Answered>) -> El {
    let papers = el("div");
    let Some(good) = good else { return papers };
    let report = &good.report;
    papers
        .with(next(&report.next))
        .with(scope(&report.scope))
        .with(documents(&report.documents))
        .with(steps(good))
        .with(cautions(&report.cautions))
        .with(who_decides(report))
}

/// A part with its heading.
pub fn section(id: &'static str, heading: &str) -> El {
    el("section")
        .class("group")
        .id(id)
        .with(el("h3").with(t(heading)))
}

fn next(lines: &[String]) -> El {
    let line = |line: &String| el("li").with(prose(line));
    section("what-next", "papers.next").with(el("ol").each(lines.iter().map(line)))
}

/// Whether a paper may be needed.
pub fn is_wanted(paper: &DocumentReport) -> bool {
    paper.need != Need::NotNeeded
}

fn documents(all: &[DocumentReport]) -> Option<El> {
    let (wanted, others): (Vec<_>, Vec<_>) = all.iter().partition(|paper| is_wanted(paper));
    let list = |papers: Vec<&DocumentReport>| {
        el("ul")
            .class("checklist")
            .each(papers.into_iter().map(paper))
    };
    let number = others.len().to_string();
    let folded = |others| {
        el("details")
            .class("about")
            .id("papers-others")
            .with(el("summary").with(fill("papers.others", &[("n", &number)])))
            .with(list(others))
    };
    let section = || {
        section("documents", "papers.documents")
            .with(el("p").class("hint").with(t("papers.tick")))
            .with(list(wanted))
            .with((!others.is_empty()).then(|| folded(others)))
    };
    (!all.is_empty()).then(section)
}

fn paper(paper: &DocumentReport) -> El {
    let tick = el("input")
        .set("type", "checkbox")
        .id(format!("paper-{}", paper.id))
        .does("paper-ticked")
        .set("data-id", paper.id.clone())
        .is("checked", paper.state == DocumentState::InHand);
    let form = paper.form.as_ref().map(|form| format!(" ({form})"));
    let from = paper
        .from
        .as_ref()
        .map(|from| aside(fill("papers.from", &[("from", from)])));
    let need = match paper.need {
        Need::Needed => None,
        Need::Perhaps => Some("need.perhaps"),
        Need::NotNeeded => Some("need.not-needed"),
    };
    let need = need.map(|word| aside(t(word)));
    let named = el("span").with(el("strong").with(&paper.title)).with(form);
    let named = named
        .with(from)
        .with(need)
        .with(origin(paper.mark.as_ref()));
    el("li").with(el("label").class("tick").with(tick).with(named))
}

/// A less important note about what comes before it.
pub fn aside(words: String) -> El {
    el("span").class("from").with(words)
}

fn cautions(all: &[CautionReport]) -> El {
    let one = |one: &CautionReport| el("li").with(prose(&one.says));
    section("cautions", "papers.cautions").with(el("ul").each(all.iter().map(one)))
}

fn who_decides(report: &Report) -> El {
    let RuleSetHead {
        authority, notice, ..
    } = &report.rule_set;
    let second_hand = report.second_hand.as_ref().map(|marked| &marked.sentence);
    let lines = [notice.as_ref(), second_hand];
    el("footer")
        .id("disclaimer")
        .with(el("h3").with(fill("papers.who-decides", &[("authority", authority)])))
        .each(lines.map(|line| line.map(|line| el("p").with(line))))
        .with(el("p").with(prose(&report.disclaimer)))
}
