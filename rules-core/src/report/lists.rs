//! Decisions, papers and duties.

use super::context::ReportContext;
use super::model::{DecisionReport, DocumentReport, DutyReport};
use crate::check::{Decided, DocumentNeed, Need, Subject};
use crate::plan::DocumentState;
use crate::ruleset::words::{duty_sentence, listed};
use crate::ruleset::{Document, Holder};
use crate::text::capitalised;
use crate::words::{Language, Word};

impl ReportContext<'_> {
    pub(super) fn decisions(&self) -> Vec<DecisionReport> {
        let decided = self.findings.decisions.iter();
        decided
            .filter_map(|decided| self.decision(decided))
            .collect()
    }

    fn decision(&self, decided: &Decided<'_>) -> Option<DecisionReport> {
        let decision = self.rules.decisions.get(decided.decision)?;
        let classes = decided.classes.iter().map(|class| (*class).to_owned());
        let classes: Vec<String> = classes.collect();
        Some(DecisionReport {
            id: decision.id.clone(),
            title: decision.title.clone(),
            clause: decision.clause.clone(),
            sentence: self.decision_sentence(decided, &classes),
            subject: self.subject_and_pool(&decided.subject, decided.pool),
            pool: decided.pool.and_then(|pool| self.id_of(pool)),
            at: self.at_reports(&decided.at),
            mark: self.mark_of(Holder::Decision, &decision.id, &decision.cited),
            classes,
            refer: decided.refer,
            missing: self.all_missing(&decided.missing),
            rule_sets: Vec::new(),
        })
    }

    fn decision_sentence(&self, decided: &Decided<'_>, classes: &[String]) -> String {
        let authority = &self.rules.authority;
        let classes = classes.iter().map(|class| class.replace('-', " "));
        let classes: Vec<String> = classes.collect();
        let either = listed(&classes, "or");
        let body = match (classes.as_slice(), decided.refer) {
            ([], true) => format!("{authority} decides."),
            ([], false) => "none of its classes fits.".to_owned(),
            ([one], false) => format!("{one}."),
            (_, false) => format!("not decided: {either}."),
            (_, true) => format!("not decided: {either}, or {authority} decides."),
        };
        let whom = (decided.subject != Subject::Plan)
            .then(|| self.subject_and_pool(&decided.subject, decided.pool).said);
        let at = self.at_reports(&decided.at).into_iter().map(|at| at.said);
        let leads: Vec<String> = whom.into_iter().chain(at).collect();
        match leads.is_empty() {
            true => capitalised(&body),
            false => format!("{}: {body}", capitalised(&leads.join(", "))),
        }
    }

    pub(super) fn documents(&self) -> Vec<DocumentReport> {
        let needs = self.findings.documents.iter();
        needs
            .filter_map(|need| Some(self.document(need, self.rules.documents.get(need.document)?)))
            .collect()
    }

    fn document(&self, need: &DocumentNeed, document: &Document) -> DocumentReport {
        DocumentReport {
            id: document.id.clone(),
            title: document.title.clone(),
            subject: self.subject(&subject_of(need)),
            need: need.need,
            state: need.state,
            from: document.from.clone(),
            form: document.form.clone(),
            discretion: document.discretion,
            rules: self.rule_ids(&need.rules),
            sentence: self.document_sentence(need, document),
            mark: self.mark_of(Holder::Paper, &document.id, &document.cited),
            rule_sets: Vec::new(),
        }
    }

    fn document_sentence(&self, need: &DocumentNeed, document: &Document) -> String {
        let thing = need.thing.map(|thing| self.thing_words(thing));
        let for_whom = thing.map_or(String::new(), |thing| format!(" for {thing}"));
        document_sentence(need, document, &for_whom, self.rules.language)
    }

    pub(super) fn duties(&self) -> Vec<DutyReport> {
        let duties = self.findings.duties.iter();
        duties
            .filter_map(|(place, sure)| Some((self.rules.duties.get(*place)?, *sure)))
            .map(|(duty, sure)| DutyReport {
                id: duty.id.clone(),
                sure,
                sentence: duty_sentence(duty, sure),
                mark: self.mark_of(Holder::Step, &duty.id, &duty.cited),
                what: duty.what.clone(),
                who: duty.who.clone(),
                before: duty.before.clone(),
                after: duty.after.clone(),
                rule_sets: Vec::new(),
            })
            .collect()
    }
}

/// What a paper is for: a thing that surely is there, or the plan.
fn subject_of(need: &DocumentNeed) -> Subject {
    match need.thing {
        Some(index) => Subject::Thing { index, sure: true },
        None => Subject::Plan,
    }
}

fn document_sentence(
    need: &DocumentNeed,
    document: &Document,
    for_whom: &str,
    language: Language,
) -> String {
    let from = document.from.as_ref();
    let from = from.map(|from| Word::PaperFrom.said(language, &[("from", from)]));
    let form = document.form.as_ref().map(|form| format!(" ({form})"));
    let needed = match need.need {
        Need::Needed => Word::Needed,
        Need::Perhaps => Word::PerhapsNeeded,
        Need::NotNeeded => Word::NotNeeded,
    };
    let state = state_of(need).map_or("", |state| state.in_language(language));
    format!(
        "{}{for_whom}{}{}: {}{state}.",
        document.title,
        form.unwrap_or_default(),
        from.unwrap_or_default(),
        needed.in_language(language)
    )
}

/// Whether a paper is there; `None` if it is neither needed nor there.
fn state_of(need: &DocumentNeed) -> Option<Word> {
    match (need.need, need.state) {
        (Need::NotNeeded, DocumentState::NotYet) => None,
        (_, DocumentState::NotYet) => Some(Word::StillToGet),
        (_, DocumentState::InHand) => Some(Word::InHand),
        (_, DocumentState::Refused) => Some(Word::Refused),
    }
}
