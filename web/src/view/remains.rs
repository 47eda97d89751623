//! What is left to do: facts to find out, people to ask, papers to get.

use rules_core::Report;
use rules_core::plan::DocumentState;
use rules_core::report::{DocumentReport, OpenMatter, Question};

use super::findings::answer;
use super::keyed::{El, el};
use super::papers::is_wanted;
use super::prose::prose;
use crate::asked::asked_now;
use crate::words::{fill, t};

/// All that is left, folded away until somebody wants to know; `None` if nothing is.
pub fn remains(report: &Report) -> Option<El> {
    let (to_ask, facts): (Vec<_>, Vec<_>) = report
        .questions
        .iter()
        .map(with_whom)
        .partition(|(_, whom)| whom.is_some());
    let people = to_ask.iter().map(whom_to_ask);
    let people: Vec<El> = people.chain(report.scope.open.iter().map(matter)).collect();
    let facts: Vec<El> = facts.iter().map(|(question, _)| fact(question)).collect();
    let papers = report.documents.iter();
    let papers = papers.filter(|paper| is_wanted(paper) && paper.state != DocumentState::InHand);
    let papers: Vec<El> = papers.map(paper).collect();
    let numbers = [facts.len(), people.len(), papers.len()];
    let [n, m, k] = numbers.map(|number| number.to_string());
    let head = fill(
        "remains.head",
        &[("facts", &n), ("people", &m), ("papers", &k)],
    );
    let all = || {
        el("details")
            .class("about")
            .id("remains")
            .with(el("summary").with(head))
            .with(list("remains.facts", facts))
            .with(list("remains.people", people))
            .with(list("remains.papers", papers))
    };
    (numbers != [0; 3]).then(all)
}

fn list(heading: &str, items: Vec<El>) -> Option<Vec<El>> {
    let head = || el("h3").with(t(heading));
    (!items.is_empty()).then(|| vec![head(), el("ul").class("checklist").each(items)])
}

/// A question, and whom to ask if looking does not answer it.
fn with_whom(question: &Question) -> (&Question, Option<&'static str>) {
    let missing = &question.missing;
    let asked = asked_now().filter(|_| missing.kind == "inventory");
    let whom = asked.and_then(|asked| Some(asked.kind(&missing.name)?.whom));
    (question, whom.filter(|whom| !whom.is_empty()))
}

fn fact(question: &Question) -> El {
    let said = el("span").said().with(prose(&question.missing.question));
    el("li")
        .with(said)
        .with(" ")
        .with(answer(&question.missing))
}

fn whom_to_ask((question, whom): &(&Question, Option<&'static str>)) -> El {
    let ask = fill("looked.whom", &[("whom", whom.unwrap_or_default())]);
    fact(question).with(el("span").class("from").with(ask))
}

fn matter(open: &OpenMatter) -> El {
    let ask = open
        .ask
        .iter()
        .map(|ask| fill("scope.ask", &[("who", &ask.who)]));
    el("li")
        .with(&open.question)
        .each(ask.map(|ask| el("span").class("from").with(format!(" {ask}"))))
}

fn paper(paper: &DocumentReport) -> El {
    let from = paper
        .from
        .as_ref()
        .map(|from| fill("papers.from", &[("from", from)]));
    let from = from.map(|from| el("span").class("from").with(from));
    el("li").with(&paper.title).with(from)
}
