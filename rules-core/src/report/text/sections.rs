//! What stands on the page, from the verdict to the small print.

use super::page::{Mark, Page};
use super::together::{self, of};
use crate::check::{Need, Outcome, Verdict};
use crate::plan::DocumentState;
use crate::report::model::{AsDrawnReport, CautionBy, Counts, Report, RuleReport, RuleSetHead};
use crate::report::scope::left_open;
use crate::report::text::entries::{clause_marked, entry, sentence_marked};
use crate::ruleset::built_in::LAYER;
use crate::words::Word;

/// What a part says of itself in short where it has no figures.
const MET: &str = "met";

fn mark_of(verdict: Verdict) -> Mark {
    match verdict {
        Verdict::DoesNotComply => Mark::Bad,
        Verdict::NotDecided | Verdict::NothingInTheseRules => Mark::Open,
        Verdict::NothingAgainst => Mark::Good,
    }
}

/// Plan, rule set, verdict, counts.
pub(super) fn head(page: &mut Page, report: &Report) {
    page.marked(0, &report.plan.title, Mark::Bold);
    match report.rule_sets.is_empty() {
        true => under(page, &report.rule_set),
        false => together::under_all(page, report),
    }
    page.gap();
    page.marked(0, &report.verdict.sentence, mark_of(report.verdict.word));
    page.paragraph(0, &counts(page, &report.counts));
    if nothing_applied(report) {
        let authority = [("authority", report.rule_set.authority.as_str())];
        page.paragraph(0, &page.said(Word::NoRuleApplied, &authority));
    }
    if let Some(as_drawn) = as_drawn(report) {
        page.paragraph(0, &as_drawn.sentence);
    }
    if let Some(open) = left_open(report) {
        page.paragraph(0, &open);
    }
    together::goes_with(page, report);
}

/// Whether the one rule set in use decides nothing since none of its own rules that bind applies.
fn nothing_applied(report: &Report) -> bool {
    let own = |rule: &&RuleReport| rule.binds() && rule.layer != LAYER;
    let mut binding = report.rules.iter().filter(own).peekable();
    report.rule_sets.is_empty()
        && report.verdict.word == Verdict::NotDecided
        && binding.peek().is_some()
        && binding.all(|rule| rule.outcome == Outcome::NotApplicable)
}

fn under(page: &mut Page, rules: &RuleSetHead) {
    let fill = [
        ("title", rules.title.as_str()),
        ("edition", rules.edition.as_str()),
        ("authority", rules.authority.as_str()),
    ];
    page.paragraph(0, &page.said(Word::Under, &fill));
}

/// What fails as drawn, where that says more than what fails for sure.
pub(super) fn as_drawn(report: &Report) -> Option<&AsDrawnReport> {
    let as_drawn = report.as_drawn.as_ref();
    as_drawn.filter(|as_drawn| !as_drawn.not_sure.is_empty())
}

fn counts(page: &Page, counts: &Counts) -> String {
    let some = words_of(counts).into_iter();
    let some = some.filter(|(number, ..)| *number > 0);
    let some = some.map(|(number, one, many)| {
        let words = if number == 1 { one } else { many };
        page.said(words, &[("n", &number.to_string())])
    });
    let some: Vec<String> = some.collect();
    match some.is_empty() {
        true => page.said(Word::NoRuleBinds, &[]),
        false => page.said(Word::OfThoseThatBind, &[("counts", &page.listed(&some))]),
    }
}

/// How many rules have each outcome, with the words for one and for several.
fn words_of(counts: &Counts) -> [(u32, Word, Word); 6] {
    [
        (counts.fail, Word::OneFails, Word::SomeFail),
        (counts.unknown, Word::OneIsOpen, Word::SomeAreOpen),
        (counts.marginal, Word::OneIsClose, Word::SomeAreClose),
        (counts.refer, Word::OneIsReferred, Word::SomeAreReferred),
        (counts.pass, Word::OnePasses, Word::SomePass),
        (
            counts.not_applicable,
            Word::OneDoesNotApply,
            Word::SomeDoNotApply,
        ),
    ]
}

fn binding(report: &Report, outcome: Outcome) -> impl Iterator<Item = &RuleReport> {
    let rules = report.rules.iter();
    rules.filter(move |rule| rule.binds() && rule.outcome == outcome)
}

/// What fails.
pub(super) fn failing(page: &mut Page, report: &Report) {
    group(page, report, Word::WhatFails, &|rule| {
        rule.outcome == Outcome::Fail
    });
}

/// What is open, what fails as drawn first, then each way of being open apart.
pub(super) fn open(page: &mut Page, report: &Report) {
    let fails = |rule: &RuleReport| {
        rule.outcome == Outcome::Marginal && rule.as_drawn == Some(Outcome::Fail)
    };
    group(page, report, Word::WhatFailsAsDrawn, &fails);
    group(page, report, Word::WhatIsOpen, &|rule| {
        rule.outcome == Outcome::Unknown
    });
    let close = |rule: &RuleReport| rule.outcome == Outcome::Marginal && !fails(rule);
    group(page, report, Word::WhatIsClose, &close);
    group(page, report, Word::WhatIsReferred, &|rule| {
        rule.outcome == Outcome::Refer
    });
}

fn group(page: &mut Page, report: &Report, heading: Word, is_in: &dyn Fn(&RuleReport) -> bool) {
    let rules = report.rules.iter();
    let rules = rules.filter(|rule| rule.binds() && is_in(rule));
    let rules: Vec<_> = rules.collect();
    if rules.is_empty() {
        return;
    }
    page.section(heading);
    for (place, rule) in rules.into_iter().enumerate() {
        if place > 0 {
            page.gap();
        }
        entry(page, report, rule);
    }
}

/// All questions, numbered.
pub(super) fn questions(page: &mut Page, report: &Report) {
    if report.questions.is_empty() {
        return;
    }
    page.section(Word::QuestionsToAnswer);
    for (number, question) in (1_u32..).zip(&report.questions) {
        let how = question.missing.how.as_deref().unwrap_or_default();
        let lead = format!("{number}. ");
        page.item(2, &lead, &format!("{} {how}", question.missing.question));
        let rules = question.rules.iter().map(|rule| format!("`{rule}`"));
        let rules: Vec<String> = rules.collect();
        let indent = 2 + lead.len();
        let rules = page.listed(&rules);
        let for_rules = page.said(Word::ForRules, &[("rules", &rules)]);
        let by = of(&question.rule_sets);
        let for_rules = for_rules.trim_end_matches('.');
        page.marked(indent, &format!("{for_rules}{by}."), Mark::Dim);
    }
}

/// What passes, a line each.
pub(super) fn passing(page: &mut Page, report: &Report) {
    let rules: Vec<_> = binding(report, Outcome::Pass).collect();
    if rules.is_empty() {
        return;
    }
    page.section(Word::WhatPasses);
    for rule in rules {
        page.hanging(
            2,
            &format!(
                "{}: {} ({})",
                rule.title,
                in_short(page, rule),
                clause(rule)
            ),
        );
    }
}

/// The deciding figures: `3.4 m, at least 3 m asked, 0.4 m to spare`.
fn in_short(page: &Page, rule: &RuleReport) -> String {
    let part = rule.deciding.and_then(|place| rule.parts.get(place));
    let brief = part.map_or(MET, |part| part.brief.as_str());
    let number = rule.parts.len();
    let fill = [("n", number.to_string()), ("brief", brief.to_owned())];
    let fill = fill.each_ref().map(|(name, text)| (*name, text.as_str()));
    match (number, brief) {
        (0 | 1, MET) => page.said(Word::Met, &[]),
        (0 | 1, _) => brief.to_owned(),
        (_, MET) => page.said(Word::AllMet, &fill),
        (_, _) => page.said(Word::AllClosest, &fill),
    }
}

/// What does not apply, a line each.
pub(super) fn not_applicable(page: &mut Page, report: &Report) {
    let rules: Vec<&RuleReport> = binding(report, Outcome::NotApplicable).collect();
    if rules.is_empty() {
        return;
    }
    page.section(Word::WhatDoesNotApply);
    for rule in rules {
        page.hanging(2, &format!("{} ({})", rule.title, clause(rule)));
    }
}

/// Rules that only advise.
pub(super) fn advice(page: &mut Page, report: &Report) {
    let rules = report.rules.iter();
    let advising: Vec<_> = rules
        .filter(|rule| !rule.binds() && rule.outcome != Outcome::NotApplicable)
        .collect();
    if advising.is_empty() {
        return;
    }
    page.section(Word::WhatIsAdvised);
    for rule in advising {
        let text = format!("{} ({})", advised(page, rule), clause(rule));
        page.hanging(2, &text);
    }
}

fn advised(page: &Page, rule: &RuleReport) -> String {
    let words = match rule.outcome {
        Outcome::Pass => Word::Followed,
        Outcome::Fail => Word::NotFollowed,
        _ => Word::AdviceOpen,
    };
    let brief = in_short(page, rule);
    let fill = [
        ("title", rule.title.as_str()),
        ("brief", &brief),
        ("sentence", &rule.sentence),
    ];
    page.said(words, &fill)
}

/// Questions of class.
pub(super) fn decisions(page: &mut Page, report: &Report) {
    if report.decisions.is_empty() {
        return;
    }
    page.section(Word::WhatFollows);
    for decision in &report.decisions {
        let from: Vec<&str> = [&decision.clause, &decision.mark]
            .into_iter()
            .filter_map(|it| it.as_deref())
            .collect();
        let from = match from.is_empty() {
            true => String::new(),
            false => format!(" ({})", from.join(", ")),
        };
        let by = of(&decision.rule_sets);
        page.hanging(
            2,
            &format!("{}: {}{from}{by}", decision.title, decision.sentence),
        );
    }
}

/// Papers as a list to tick off.
pub(super) fn papers(page: &mut Page, report: &Report) {
    let wanted = report
        .documents
        .iter()
        .filter(|document| document.need != Need::NotNeeded);
    let wanted: Vec<_> = wanted.collect();
    if wanted.is_empty() {
        return;
    }
    page.section(Word::Papers);
    for document in wanted {
        let tick = match document.state {
            DocumentState::InHand => "[x] ",
            DocumentState::Refused | DocumentState::NotYet => "[ ] ",
        };
        let sentence = sentence_marked(&document.sentence, &document.mark);
        let by = of(&document.rule_sets);
        page.item(2, tick, &format!("{sentence}{by}"));
    }
}

/// Duties in time.
pub(super) fn duties(page: &mut Page, report: &Report) {
    if report.duties.is_empty() {
        return;
    }
    page.section(Word::Duties);
    for duty in &report.duties {
        let sentence = sentence_marked(&duty.sentence, &duty.mark);
        let by = of(&duty.rule_sets);
        page.item(2, "- ", &format!("{sentence}{by}"));
    }
}

/// What to be careful of.
pub(super) fn cautions(page: &mut Page, report: &Report) {
    page.section(Word::TakeCare);
    for caution in &report.cautions {
        let by = match caution.by {
            CautionBy::Program => String::new(),
            CautionBy::RuleSet => of(&caution.rule_sets),
        };
        page.item(2, "- ", &format!("{}{by}", caution.says));
    }
}

/// What to do next.
pub(super) fn next(page: &mut Page, report: &Report) {
    page.section(Word::WhatNext);
    for (number, step) in (1_u32..).zip(&report.next) {
        page.item(2, &format!("{number}. "), step);
    }
}

/// What this is not.
pub(super) fn foot(page: &mut Page, report: &Report) {
    page.gap();
    match report.rule_sets.is_empty() {
        true => notice(page, report.rule_set.notice.as_deref()),
        false => together::notices(page, report),
    }
    if let Some(second_hand) = &report.second_hand {
        page.marked(0, &second_hand.sentence, Mark::Dim);
    }
    page.marked(0, &report.disclaimer, Mark::Dim);
}

fn notice(page: &mut Page, notice: Option<&str>) {
    if let Some(notice) = notice {
        page.marked(0, notice, Mark::Dim);
    }
}

/// The clause that a rule stands for, and its rule sets where there are several.
pub(super) fn clause(rule: &RuleReport) -> String {
    let sets = rule.rule_sets.iter().filter(|_| rule.layer != LAYER);
    let sets: Vec<&str> = sets.map(String::as_str).collect();
    match sets.is_empty() {
        true => clause_marked(rule),
        false => format!("{}; {}", clause_marked(rule), sets.join(", ")),
    }
}
