//! Random rules and rule sets.

use std::sync::Arc;

use rules_core::quantity::Dimension;
use rules_core::ruleset::{
    Bound, Each, InForce, Layer, Provenance, Relief, Requirement, Rule, RuleSet, Scope, Strength,
    TermUse,
};
use rules_core::text::Span;
use rules_core::vocabulary::KindId;

use super::leaf::stated;
use super::papers::{DOCUMENTS, documents, paper_for};
use crate::soundness::cuts::Speaks;
use crate::soundness::random::Random;
use crate::soundness::walk;
use crate::soundness::words::Words;
use crate::soundness::world::{Being, World};

/// How varied the rules are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Style {
    /// Each rule is one test, with or without `each`, on all things of a kind. Tightness is counted on these.
    OneLeaf,
    /// The same, on things selected by a condition.
    Filtered,
    /// Everything together.
    Rich,
    /// As varied, but without the authority's discretion, and only about things that are certainly there.
    Solid,
    /// The same, for each thing of a kind with a varying thing, and without counts.
    Changing,
}

pub(super) struct Maker<'a> {
    pub(super) random: &'a mut Random,
    pub(super) words: &'a Words,
    pub(super) world: &'a World,
    /// The rule set without its rules, for working out values.
    pub(super) rules: &'a RuleSet,
    /// Whether the authority's discretion may be used here.
    pub(super) referring: bool,
    /// Whether selections have conditions.
    pub(super) filters: bool,
    /// Whether rules are only about things that are certainly there.
    pub(super) solid: bool,
    /// The kind to use for `each`, if fixed; then nothing is counted.
    pub(super) each: Option<KindId>,
}

/// A random rule set of a number of rules for a world.
pub fn rule_set(
    random: &mut Random,
    words: &Words,
    world: &World,
    rules: usize,
    style: Style,
) -> RuleSet {
    let mut set = empty(words);
    let frame = set.clone();
    let mut maker = Maker {
        random,
        words,
        world,
        rules: &frame,
        referring: true,
        filters: style != Style::OneLeaf,
        solid: matches!(style, Style::Solid | Style::Changing),
        each: changing_kind(words, world).filter(|_| style == Style::Changing),
    };
    for number in 0..rules {
        let rule = match style {
            Style::OneLeaf | Style::Filtered => maker.plain(number),
            Style::Rich | Style::Solid | Style::Changing => maker.rich(number),
        };
        set.rules.push(rule);
    }
    if style == Style::Rich {
        set.documents
            .iter_mut()
            .for_each(|paper| maker.ask_for(paper));
        if maker.random.chance(50) {
            set.decisions.push(maker.decision());
        }
    }
    set
}

/// The built-in rules, as in a file without rules.
fn built_in(words: &Words) -> Vec<Rule> {
    let text = "ruleset: random\ntitle: Random\nedition: \"1\"\nauthority: Random\nrules: []\n";
    match rules_core::ruleset::read(text, &|_| None, words.vocabulary.clone()) {
        Ok(read) => read.rule_set.built_in,
        Err(_) => Vec::new(),
    }
}

fn empty(words: &Words) -> RuleSet {
    RuleSet {
        id: "random".to_owned(),
        title: "Random".to_owned(),
        edition: String::new(),
        authority: String::new(),
        notice: None,
        about: Default::default(),
        language: Default::default(),
        reach: Default::default(),
        sources: Vec::new(),
        working_days: Default::default(),
        in_force: None,
        earlier: None,
        layers: vec![Layer {
            id: "random".to_owned(),
            title: String::new(),
            edition: String::new(),
        }],
        vocabulary: words.vocabulary.clone(),
        terms: Vec::new(),
        questions: Vec::new(),
        rules: Vec::new(),
        built_in: built_in(words),
        decisions: Vec::new(),
        documents: documents(words),
        duties: Vec::new(),
        cautions: Vec::new(),
        interpretations: Vec::new(),
    }
}

/// The kind of a thing that varies along itself.
fn changing_kind(words: &Words, world: &World) -> Option<KindId> {
    let changes = |thing: &&Being| thing.pieces() > 1 && thing.kind != words.pool;
    world.things.iter().find(changes).map(|thing| thing.kind)
}

fn bare(number: usize, require: Requirement) -> Rule {
    Rule {
        id: format!("rule-{number}"),
        title: String::new(),
        clause: String::new(),
        strength: Strength::Must,
        built_in: false,
        when: None,
        unless: None,
        each: None,
        about_pool: false,
        require,
        reliefs: Vec::new(),
        remedy: None,
        documents: Vec::new(),
        provenance: Provenance::Confirmed,
        cited: Vec::new(),
        again: None,
        note: None,
        in_force: None,
        layer: 0,
        span: Span::default(),
    }
}

impl Maker<'_> {
    /// A rule of one test.
    fn plain(&mut self, number: usize) -> Rule {
        self.referring = false;
        let (mut rule, scope) = self.frame(number, 70);
        if let Some(each) = &mut rule.each {
            each.if_none = None;
        }
        rule.require = self.leaf(&scope);
        rule
    }

    /// A rule without a requirement yet, and what it is about: a pool, some things, both or neither.
    fn frame(&mut self, number: usize, percent: usize) -> (Rule, Vec<KindId>) {
        let mut rule = bare(number, Requirement::Refer);
        let mut scope = Vec::new();
        if self.random.chance(30) {
            rule.about_pool = true;
            scope.push(self.words.pool);
        }
        if self.each.is_some() || self.random.chance(percent) {
            let kind = self.each.unwrap_or_else(|| self.other_kind(&scope));
            let mut each = self.selection_in_zone(&scope, kind);
            if self.solid && self.random.chance(80) {
                each.if_none = None;
            }
            rule.each = Some(each);
            scope.push(kind);
        }
        (rule, scope)
    }

    fn rich(&mut self, number: usize) -> Rule {
        self.referring = !self.solid;
        let (mut rule, scope) = self.frame(number, 60);
        rule.require = self.requirement(&scope, 2);
        for number in 0..self.random.weighted(&[6, 3, 1]) {
            rule.reliefs.push(self.relief(&scope, number));
        }
        self.referring = false;
        let pool: Vec<KindId> = rule
            .about_pool
            .then_some(self.words.pool)
            .into_iter()
            .collect();
        rule.when = self.random.chance(25).then(|| self.requirement(&pool, 1));
        rule.unless = self.random.chance(10).then(|| self.requirement(&pool, 0));
        rule.in_force = self.random.chance(10).then(|| self.in_force());
        if self.random.chance(15) {
            rule.documents.push(self.random.below(DOCUMENTS));
        }
        rule
    }

    fn in_force(&mut self) -> InForce {
        let by = self.words.facts(self.words.lot)[2];
        let from = self
            .random
            .chance(70)
            .then(|| self.random.wide(17_990, 18_030));
        let to = from
            .is_none_or(|_| self.random.chance(50))
            .then(|| from.unwrap_or(18_000) + self.random.wide(0, 20));
        InForce {
            from,
            to,
            by,
            or_when: None,
            unless: None,
        }
    }

    fn relief(&mut self, scope: &[KindId], number: usize) -> Relief {
        let referring = std::mem::replace(&mut self.referring, false);
        let when = self.random.chance(60).then(|| self.requirement(scope, 0));
        self.referring = referring;
        Relief {
            id: format!("relief-{number}"),
            when,
            require: self.requirement(scope, 1),
            leave: self.random.chance(40),
            span: Span::default(),
        }
    }

    fn several(&mut self, scope: &[KindId], depth: usize) -> Vec<Requirement> {
        (0..self.random.between(2, 3))
            .map(|_| self.requirement(scope, depth))
            .collect()
    }

    /// A requirement, at most `depth` levels deep.
    pub(super) fn requirement(&mut self, scope: &[KindId], depth: usize) -> Requirement {
        if depth == 0 {
            return self.leaf(scope);
        }
        let inner = depth - 1;
        let refer = usize::from(self.referring);
        match self
            .random
            .weighted(&[20, 8, 8, 6, 5, 8, 6, 8, 7, refer, 4])
        {
            0 => self.leaf(scope),
            1 => Requirement::All(self.several(scope, inner)),
            2 => Requirement::Any(self.several(scope, inner)),
            3 => Requirement::Not(Box::new(self.requirement(scope, inner))),
            4 => self.count(scope, inner),
            5 if scope.len() < 3 => self.each(scope, inner),
            6 => Requirement::Table(Box::new(
                self.rows(scope, |maker| maker.requirement(scope, inner)),
            )),
            7 => self.meets(scope, inner),
            8 => self.have(scope),
            9 => Requirement::Refer,
            10 if scope.len() < 3 && self.each.is_none() => {
                Requirement::Any(self.two_counts(scope))
            }
            _ => self.leaf(scope),
        }
    }

    /// A paper: one for the whole plan, or the one for a bound thing.
    fn have(&mut self, scope: &[KindId]) -> Requirement {
        let words = self.words;
        let fits: Vec<usize> = (0..DOCUMENTS)
            .filter(|number| paper_for(words, *number).is_none_or(|kind| scope.contains(&kind)))
            .collect();
        let own: Vec<usize> = fits
            .iter()
            .copied()
            .filter(|number| paper_for(words, *number).is_some())
            .collect();
        let fits = if own.is_empty() || self.random.chance(40) {
            fits
        } else {
            own
        };
        Requirement::Have(*self.random.pick(&fits))
    }

    /// What a term may depend on here: at most one thing, and the pool.
    pub(super) fn term(&mut self, scope: &[KindId]) -> Vec<KindId> {
        let of = scope.last().copied().filter(|_| self.random.chance(80));
        let pool = Some(self.words.pool).filter(|pool| scope.contains(pool) && of != Some(*pool));
        let pool = pool.filter(|_| self.random.chance(70));
        pool.into_iter().chain(of).collect()
    }

    /// Which of these something actually depends on.
    pub(super) fn depends(&self, own: &[KindId], walk: impl Fn(&mut Speaks<'_>)) -> Scope {
        let speaks = |kind: &KindId| {
            let mut speaks = Speaks::of(self.rules, *kind);
            walk(&mut speaks);
            speaks.found
        };
        let (pools, others): (Vec<KindId>, Vec<KindId>) =
            own.iter().partition(|kind| **kind == self.words.pool);
        Scope {
            of: others.into_iter().find(speaks),
            about_pool: pools.iter().any(speaks),
        }
    }

    fn meets(&mut self, scope: &[KindId], depth: usize) -> Requirement {
        let own = self.term(scope);
        // More often than not, it is about the one thing.
        let requirement = match own.is_empty() || self.solid || self.random.chance(50) {
            true => self.requirement(&own, depth),
            false => self.distance_test(&own),
        };
        Requirement::Meets {
            term: TermUse {
                name: "term".to_owned(),
                scope: self.depends(&own, |speaks| walk::requirement(&requirement, speaks)),
            },
            requirement: Arc::new(requirement),
        }
    }

    /// Two counts of things of one kind; a thing in one need not be in the other.
    fn two_counts(&mut self, scope: &[KindId]) -> Vec<Requirement> {
        let kind = self.other_kind(scope);
        (0..2).map(|_| self.count_of(scope, kind)).collect()
    }

    fn count(&mut self, scope: &[KindId], depth: usize) -> Requirement {
        let of = self.several(scope, depth);
        let wanted = self.random.wide(0, of.len() as i128);
        let half = self.random.wide(0, 4) / 4 * 500_000_000;
        let limit = stated(wanted * 1_000_000_000 + half, Dimension::Number);
        let bounds: Vec<Bound> = vec![self.one_bound(limit)];
        Requirement::Count { of, bounds }
    }

    fn each(&mut self, scope: &[KindId], depth: usize) -> Requirement {
        let kind = self.other_kind(scope);
        let selection = self.selection_in_zone(scope, kind);
        let mut inner = scope.to_vec();
        inner.push(kind);
        let require = self.requirement(&inner, depth);
        Requirement::Each(Box::new(Each {
            selection,
            require,
            span: Span::default(),
        }))
    }
}
