//! What the rules cover and what they leave to others: whom to ask, and what was answered.

use rules_core::report::{AnsweredMatter, AskReport, HeldMatter, OnTop, OpenMatter, ScopeReport};

use super::keyed::{El, button, el};
use super::prose::prose;
use crate::words::{fill, t};

/// What is left to ask, what was answered, and what always applies in addition.
pub fn scope(scope: &ScopeReport) -> El {
    el("section")
        .class("group")
        .id("scope")
        .with(list(
            "scope.open",
            Some("scope.open.why"),
            &scope.open,
            open,
        ))
        .with(list("scope.answered", None, &scope.answered, answered))
        .with(list("scope.on-top", None, &scope.on_top, on_top))
        .with((!scope.held.is_empty()).then(|| held(&scope.held)))
}

/// A heading, a hint and a list; `None` if there is nothing to list.
fn list<M>(key: &str, hint: Option<&str>, all: &[M], one: fn(&M) -> El) -> Option<Vec<El>> {
    let id = key.replace('.', "-");
    let listed = || {
        let hint = hint.map(|hint| el("p").class("hint").with(t(hint)));
        let items = el("ul").class("checklist").id(id).each(all.iter().map(one));
        [Some(el("h3").with(t(key))), hint, Some(items)]
    };
    (!all.is_empty()).then(|| listed().into_iter().flatten().collect())
}

fn open(open: &OpenMatter) -> El {
    let matter = &open.matter;
    let keep = button("matter-answered")
        .class("plain")
        .set("data-id", matter.clone());
    let keep = keep
        .id(format!("scope-{matter}-keep"))
        .with(t("scope.keep"));
    let answer = el("details")
        .class("about")
        .id(format!("scope-{matter}"))
        .with(el("summary").with(t("scope.answer")))
        .each([("says", "text"), ("by", "text"), ("on", "date")].map(|one| field(matter, one)))
        .with(keep);
    el("li")
        .with(el("strong").with(&open.question))
        .with(" ")
        .each(open.ask.iter().map(whom))
        .with(answer)
}

fn whom(ask: &AskReport) -> El {
    let why = ask.why.as_deref().map(prose);
    let who = fill("scope.ask", &[("who", &ask.who)]);
    el("span")
        .class("from")
        .with(who)
        .with(why.as_ref().map(|_| " "))
        .with(why)
}

/// The id of a field for an answer.
pub fn field_id(matter: &str, key: &str) -> String {
    format!("scope-{matter}-{key}")
}

fn field(matter: &str, (key, sort): (&str, &'static str)) -> El {
    let id = field_id(matter, key);
    let label = el("label")
        .class("ask")
        .set("for", id.clone())
        .with(t(&format!("scope.{key}")));
    let field = el("input").set("type", sort).id(id);
    el("div").class("question").with(label).with(field)
}

fn answered(answer: &AnsweredMatter) -> El {
    let matter = &answer.matter;
    let back = button("matter-taken-back")
        .class("plain")
        .set("data-id", matter.clone());
    let back = back
        .id(format!("scope-{matter}-back"))
        .with(t("scope.take-back"));
    let says = answer.says.as_ref().map(|says| format!(": {says}"));
    let from = format!(" ({}, {})", answer.by, answer.on);
    el("li")
        .with(el("strong").with(&answer.said))
        .with(says)
        .with(el("span").class("from").with(from))
        .with(" ")
        .with(back)
}

fn on_top(more: &OnTop) -> El {
    el("li").with(prose(&more.says))
}

fn held(all: &[HeldMatter]) -> El {
    el("details")
        .class("about")
        .id("scope-held")
        .with(el("summary").with(t("scope.held")))
        .with(el("ul").each(all.iter().map(|one| el("li").with(&one.said))))
}
