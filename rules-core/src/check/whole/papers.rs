//! Which documents are needed, and which duties and cautions apply.

use crate::check::judge::Judge;
use crate::check::rule::target::{Target, TargetSubject};
use crate::check::whole::mentions::Mentions;
use crate::check::world::env::{Env, Referent, thing_of};
use crate::check::world::places::places;
use crate::check::{DocumentNeed, Finding, Level, Missing, Need, Outcome, Part, Subject, Truth};
use crate::faults::Code;
use crate::plan::{DocumentState, Plan, ThingIndex};
use crate::ruleset::{Condition, Document, DocumentIndex, Requirement, Rule, RuleSet, Selection};
use crate::text::Faults;

impl Need {
    fn of(truth: Truth) -> Need {
        match truth {
            Truth::HOLDS => Need::Needed,
            Truth::FAILS | Truth::NOT_APPLICABLE => Need::NotNeeded,
            _ => Need::Perhaps,
        }
    }

    /// The more pressing of two.
    pub(crate) fn or(self, other: Need) -> Need {
        self.min(other)
    }

    /// Needed only as far as something else is needed, too.
    fn if_also(self, other: Need) -> Need {
        self.max(other)
    }
}

/// A rule, its finding, and the documents that it asks for.
struct Asking<'f, 'a> {
    finding: &'f Finding,
    rule: &'a Rule,
    required: Mentions,
    reliefs: Vec<Mentions>,
}

impl<'f, 'a> Asking<'f, 'a> {
    fn new(finding: &'f Finding, rule: &'a Rule) -> Self {
        let reliefs = rule.reliefs.iter();
        Asking {
            finding,
            rule,
            required: Mentions::of(&rule.require),
            reliefs: reliefs
                .map(|relief| Mentions::of(&relief.require))
                .collect(),
        }
    }

    /// Whether the rule mentions a document in any way.
    fn names(&self, document: DocumentIndex) -> bool {
        let mut all = std::iter::once(&self.required).chain(&self.reliefs);
        self.rule.documents.contains(&document)
            || all.any(|mentions| mentions.need(document) != Need::NotNeeded)
    }
}

/// A document; where there is one for each thing, the one for one thing.
#[derive(Clone, Copy)]
struct Paper<'a> {
    index: DocumentIndex,
    document: &'a Document,
    /// The thing that it is for, where there is one for each.
    thing: Option<ThingIndex>,
    /// Whether there surely is such a thing.
    sure: bool,
    state: DocumentState,
}

impl<'a> Judge<'a> {
    /// Whether each document is needed. Where there is one for each thing, each is listed.
    pub(crate) fn documents(&self, findings: &[Finding]) -> Vec<DocumentNeed> {
        let rules = self.scene.rules();
        let asking: Vec<Asking<'_, 'a>> = findings
            .iter()
            .filter_map(|finding| Some((finding, rules.rule(finding.rule)?)))
            .map(|(finding, rule)| Asking::new(finding, rule))
            .collect();
        let documents = rules.documents.iter().enumerate();
        let papers = documents.flat_map(|(index, document)| self.papers(index, document));
        papers.map(|paper| self.document(paper, &asking)).collect()
    }

    /// A document, once for each thing that it is for.
    fn papers(&self, index: DocumentIndex, document: &'a Document) -> Vec<Paper<'a>> {
        let plan = self.scene.plan();
        let paper = |thing: Option<ThingIndex>, sure| Paper {
            index,
            document,
            thing,
            sure,
            state: match thing {
                Some(thing) => plan.paper_of(&document.id, thing),
                None => plan.paper(&document.id),
            }
            .unwrap_or(DocumentState::NotYet),
        };
        let Some(each) = &document.each else {
            return vec![paper(None, true)];
        };
        let members = self.members(each, &Env::EMPTY).list.into_iter();
        let things = members.filter_map(|(referent, sure)| Some((thing_of(referent)?, sure)));
        things
            .map(|(thing, sure)| paper(Some(thing), sure))
            .collect()
    }

    fn document(&self, paper: Paper<'a>, asking: &[Asking<'_, 'a>]) -> DocumentNeed {
        let always = match paper.document.always {
            true => Need::Needed,
            false => Need::NotNeeded,
        };
        let when = paper.document.when.as_ref().map(|when| {
            let each = paper.document.each.as_ref();
            let of = each.zip(paper.thing.map(Referent::Thing));
            Need::of(self.anywhere(when, of))
        });
        let mut need = always.or(when.unwrap_or(Need::NotNeeded));
        let mut calling = Vec::new();
        for asked in asking {
            let own = called_for_by(&paper, asked);
            if own != Need::NotNeeded {
                calling.push(asked.finding.rule);
            }
            need = need.or(own);
        }
        DocumentNeed {
            document: paper.index,
            thing: paper.thing,
            need: match paper.sure {
                true => need,
                false => need.if_also(Need::Perhaps),
            },
            rules: calling,
            state: paper.state,
        }
    }

    /// Whether a condition holds at any place along what changes; where it is about a pool, for any pool.
    pub(crate) fn anywhere(
        &self,
        condition: &'a Condition,
        each: Option<(&'a Selection, Referent)>,
    ) -> Truth {
        self.of_pools(condition, each, Truth::or)
    }

    /// Whether a condition holds for the pools; `together` joins what comes out for each.
    pub(crate) fn of_pools(
        &self,
        condition: &'a Condition,
        each: Option<(&'a Selection, Referent)>,
        together: fn(Truth, Truth) -> Truth,
    ) -> Truth {
        let subject = each.map_or(TargetSubject::Plan, |(_, referent)| {
            TargetSubject::Thing(referent)
        });
        let pools = self.pools(condition.about_pool).into_iter();
        let targets = pools.map(|pool| Target { subject, pool });
        let selection = each.map(|(selection, _)| selection);
        targets
            .map(|target| self.at_any_place(&condition.requirement, target, selection))
            .reduce(together)
            .unwrap_or(Truth::FAILS)
    }

    fn at_any_place(
        &self,
        requirement: &'a Requirement,
        target: Target,
        each: Option<&'a Selection>,
    ) -> Truth {
        let truth =
            |judge: &Judge<'a>| judge.about(target, each, |env| judge.truth(requirement, env));
        let (between, dependencies) = self.scene.logging(|| truth(self));
        self.scene.note(&dependencies);
        let places = places(&self.scene, &dependencies, &target.subjects());
        if places.is_empty() {
            return between;
        }
        // There may be places between the lowest and the highest.
        let perhaps = between.or_else(Truth::FAILS);
        let at = places
            .into_iter()
            .map(|place| truth(&self.in_scene(self.scene.at(place))));
        at.fold(perhaps, Truth::or)
    }

    /// The cautions that apply or may apply.
    pub(crate) fn cautions(&self) -> Vec<usize> {
        let all = self.scene.rules().cautions.iter().enumerate();
        let applies = |when: &'a Option<Condition>| {
            when.as_ref()
                .is_none_or(|when| self.anywhere(when, None) != Truth::FAILS)
        };
        all.filter(|(_, caution)| applies(&caution.when))
            .map(|(index, _)| index)
            .collect()
    }

    /// The duties that apply or may apply, each with whether it surely does.
    pub(crate) fn duties(&self) -> Vec<(usize, bool)> {
        let all = self.scene.rules().duties.iter().enumerate();
        let truth = |when: &'a Option<Condition>| {
            when.as_ref()
                .map_or(Truth::HOLDS, |when| self.anywhere(when, None))
        };
        all.map(|(index, duty)| (index, truth(&duty.when)))
            .filter(|(_, truth)| *truth != Truth::FAILS)
            .map(|(index, truth)| (index, truth == Truth::HOLDS))
            .collect()
    }
}

/// Whether a rule calls for a document in any way.
fn called_for_by(paper: &Paper<'_>, asked: &Asking<'_, '_>) -> Need {
    let by_outcome = called_for_by_outcome(paper, asked.rule, asked.finding);
    match asked.names(paper.index) {
        true => by_outcome.or(called_for(paper, asked)),
        false => by_outcome,
    }
}

/// Whether a rule calls for a document by naming it, by requiring it, or by a relief that requires it.
fn called_for(paper: &Paper<'_>, asked: &Asking<'_, '_>) -> Need {
    let (rule, finding) = (asked.rule, asked.finding);
    if finding.outcome == Outcome::NotApplicable {
        return Need::NotNeeded;
    }
    let parts = || {
        finding
            .parts
            .iter()
            .filter(|part| is_for(paper, rule, part))
    };
    let applies = match paper.thing {
        // Where the rule is judged for each thing, only this thing's part counts.
        Some(_) => parts().map(applies_to).fold(Need::NotNeeded, Need::or),
        None => if_it_applies(finding.truth, Need::of(finding.applies)),
    };
    let named = if rule.documents.contains(&paper.index) {
        applies
    } else {
        Need::NotNeeded
    };
    let required = applies.if_also(asked.required.need(paper.index));
    let by_relief = asked.reliefs.iter().enumerate().map(|(at, mentions)| {
        relieves(at, paper.state, parts()).if_also(mentions.need(paper.index))
    });
    by_relief.fold(named.or(required), Need::or)
}

/// Whether a part of a finding may call for a document. For one thing's document, only that thing's part does.
fn is_for(paper: &Paper<'_>, rule: &Rule, part: &Part) -> bool {
    let same_kind = |each: &Selection| {
        let own = paper.document.each.as_ref();
        own.is_some_and(|own| own.kind == each.kind)
    };
    let Some(thing) = paper.thing else {
        return true;
    };
    match &part.subject {
        _ if !rule.each.as_ref().is_some_and(same_kind) => true,
        Subject::Thing { index, .. } => *index == thing,
        Subject::Unseen(_) | Subject::NoneOf(_) => false,
        Subject::Plan => true,
    }
}

/// Whether a rule applies to the subject of a part, at any place along it.
fn applies_to(part: &Part) -> Need {
    let sure = match part.subject {
        Subject::Plan => true,
        Subject::Thing { sure, .. } => sure,
        Subject::Unseen(_) | Subject::NoneOf(_) => false,
    };
    let places = part.places.iter().map(|place| match place.sure {
        true => Need::of(place.applies),
        false => Need::of(place.applies).if_also(Need::Perhaps),
    });
    let any = if_it_applies(part.truth, places.fold(Need::NotNeeded, Need::or));
    if sure {
        any
    } else {
        any.if_also(Need::Perhaps)
    }
}

/// A rule that may not apply only perhaps needs documents.
fn if_it_applies(truth: Truth, need: Need) -> Need {
    match truth.may_not_apply() {
        true => need.if_also(Need::Perhaps),
        false => need,
    }
}

/// Whether a relief is needed. It surely is where the rule alone surely fails and the relief is surely open.
///
/// A document is not asked for where it cannot help: where the relief fails, unless it fails because that document was refused.
fn relieves<'f>(at: usize, state: DocumentState, parts: impl Iterator<Item = &'f Part>) -> Need {
    let places = parts.flat_map(|part| &part.places);
    places
        .filter(|place| place.base.may_be(Level::Fails))
        .filter_map(|place| Some((place, place.reliefs.get(at)?)))
        .filter(|(_, relief)| state == DocumentState::Refused || relief.holds != Truth::FAILS)
        .map(|(place, relief)| {
            let falls_short = if place.base == Truth::FAILS && place.sure {
                Need::Needed
            } else {
                Need::Perhaps
            };
            falls_short.if_also(Need::of(relief.open))
        })
        .fold(Need::NotNeeded, Need::or)
}

fn called_for_by_outcome(paper: &Paper<'_>, rule: &Rule, finding: &Finding) -> Need {
    let by = |outcomes: &[String], outcome: Outcome, truth: Truth| match outcomes
        .iter()
        .any(|word| word == outcome.word())
    {
        true => Need::Needed,
        // The outcome may still change, also where the authority has not yet spoken.
        false if Outcome::decided(truth).is_none() => Need::Perhaps,
        false => Need::NotNeeded,
    };
    let on = paper.document.on.iter().filter(|on| on.rule == rule.id);
    let needs = on.map(|on| match paper.thing {
        None => by(&on.outcomes, finding.outcome, finding.truth),
        Some(_) => {
            let parts = finding
                .parts
                .iter()
                .filter(|part| is_for(paper, rule, part));
            let needs = parts.map(|part| by(&on.outcomes, part.outcome, part.truth));
            needs.fold(Need::NotNeeded, Need::or)
        }
    });
    needs.fold(Need::NotNeeded, Need::or)
}

/// Faults in how a plan states its documents: it must say for which thing, where there is one for each, and only there.
pub fn unsaid_papers(plan: &Plan, rules: &RuleSet) -> Faults {
    let mut faults = Faults::default();
    for document in &rules.documents {
        let Some(papers) = plan.documents.get(&document.id) else {
            continue;
        };
        let id = &document.id;
        let each = document.each.as_ref();
        let each = each.map(|each| rules.vocabulary.kind(each.kind).name.as_str());
        match each {
            Some(kind) if papers.whole.is_some() => {
                let message =
                    format!("There is a document `{id}` for each {kind}: which one is meant?");
                faults.add(Code::SayWhichPaper, papers.span, message).help(format!(
                    "Write the id of each {kind} and how its document stands: `{id}: {{… : in-hand}}`."
                ));
            }
            None if !papers.of.is_empty() => {
                let message = format!("There is one document `{id}`, not one for each thing.");
                faults
                    .add(Code::OnePaper, papers.span, message)
                    .help(format!("Write how it stands: `{id}: in-hand`."));
            }
            _ => {}
        }
    }
    faults
}

/// Everything that is missing, each with the rules that it would help to decide.
pub fn questions(rules: &RuleSet, findings: &[Finding]) -> Vec<(Missing, Vec<usize>)> {
    let mut all: std::collections::BTreeMap<Missing, Vec<usize>> =
        std::collections::BTreeMap::new();
    for finding in findings
        .iter()
        .filter(|finding| rules.rule(finding.rule).is_some())
    {
        for what in &finding.missing {
            all.entry(*what).or_default().push(finding.rule);
        }
    }
    all.into_iter().collect()
}
