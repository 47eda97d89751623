//! Random rules and rule sets.

use std::sync::Arc;

use rules_core::quantity::Dimension;
use rules_core::ruleset::{
    Bound, Document, Each, InForce, Layer, Provenance, Relief, Requirement, Rule, RuleSet, Scope,
    Strength, TermUse,
};
use rules_core::text::Span;
use rules_core::vocabulary::KindId;

use super::leaf::stated;
use crate::soundness::random::Random;
use crate::soundness::words::Words;
use crate::soundness::world::World;

/// How rich the rules are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Style {
    /// Each rule is one test, under `each` or not, and all things of a kind are meant: what the tightness of single
    /// leaves is counted on.
    OneLeaf,
    /// The same, and only those things are meant of which something holds.
    Filtered,
    /// Everything together.
    Rich,
}

/// How many documents every rule set names.
pub const DOCUMENTS: usize = 2;

pub(super) struct Maker<'a> {
    pub(super) random: &'a mut Random,
    pub(super) words: &'a Words,
    pub(super) world: &'a World,
    /// The rule set without rules, for looking up what a value is.
    pub(super) rules: &'a RuleSet,
    /// Whether the authority's discretion may stand here.
    pub(super) referring: bool,
    /// Whether selections have conditions.
    pub(super) filters: bool,
}

/// A random rule set of so many rules for a world.
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
    };
    for number in 0..rules {
        let rule = match style {
            Style::OneLeaf | Style::Filtered => maker.plain(number),
            Style::Rich => maker.rich(number),
        };
        set.rules.push(rule);
    }
    set
}

fn empty(words: &Words) -> RuleSet {
    let document = |number: usize| Document {
        id: format!("paper-{number}"),
        title: String::new(),
        from: None,
        form: None,
        each: None,
        always: false,
        when: None,
        on: Vec::new(),
        discretion: false,
        cited: Vec::new(),
        span: Span::default(),
    };
    RuleSet {
        id: "random".to_owned(),
        title: "Random".to_owned(),
        edition: String::new(),
        authority: String::new(),
        notice: None,
        about: Default::default(),
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
        built_in: Vec::new(),
        decisions: Vec::new(),
        documents: (0..DOCUMENTS).map(document).collect(),
        duties: Vec::new(),
        cautions: Vec::new(),
    }
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
        let each = self.random.chance(70).then(|| {
            let kind = self.other_kind(&[]);
            self.selection(&[], kind)
        });
        let scope: Vec<KindId> = each.iter().map(|each| each.kind).collect();
        let require = self.leaf(&scope);
        let mut rule = bare(number, require);
        rule.each = each;
        if let Some(each) = &mut rule.each {
            each.if_none = None;
        }
        rule
    }

    fn rich(&mut self, number: usize) -> Rule {
        self.referring = true;
        let mut rule = self.plain_frame(number);
        self.referring = false;
        rule.when = self.random.chance(25).then(|| self.requirement(&[], 1));
        rule.unless = self.random.chance(10).then(|| self.requirement(&[], 0));
        rule.in_force = self.random.chance(10).then(|| self.in_force());
        rule
    }

    fn plain_frame(&mut self, number: usize) -> Rule {
        let each = self.random.chance(60).then(|| {
            let kind = self.other_kind(&[]);
            self.selection(&[], kind)
        });
        let scope: Vec<KindId> = each.iter().map(|each| each.kind).collect();
        let require = self.requirement(&scope, 2);
        let mut rule = bare(number, require);
        rule.each = each;
        if let Some(each) = &mut rule.each {
            each.if_none = None;
        }
        for number in 0..self.random.weighted(&[6, 3, 1]) {
            rule.reliefs.push(self.relief(&scope, number));
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

    /// What must hold, so many levels deep at most.
    pub(super) fn requirement(&mut self, scope: &[KindId], depth: usize) -> Requirement {
        if depth == 0 {
            return self.leaf(scope);
        }
        let inner = depth - 1;
        let refer = usize::from(self.referring);
        match self
            .random
            .weighted(&[20, 8, 8, 6, 5, 8, 6, 3, 4, refer, 4])
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
            8 => Requirement::Have(self.random.below(DOCUMENTS)),
            9 => Requirement::Refer,
            10 if scope.len() < 3 => Requirement::Any(self.two_counts(scope)),
            _ => self.leaf(scope),
        }
    }

    /// A term, which speaks of one thing at most.
    fn meets(&mut self, scope: &[KindId], depth: usize) -> Requirement {
        let of = scope.last().copied();
        let own: Vec<KindId> = of.into_iter().collect();
        Requirement::Meets {
            term: TermUse {
                name: "term".to_owned(),
                scope: Scope {
                    of,
                    about_pool: false,
                },
            },
            requirement: Arc::new(self.requirement(&own, depth)),
        }
    }

    /// Two numbers of things of one kind: what is in the one need not be in the other.
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
        let selection = self.selection(scope, kind);
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
