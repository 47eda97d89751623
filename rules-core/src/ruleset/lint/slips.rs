//! What looks like a slip in a rule that reads well: that it never applies, that a relief is of no use, that two rules
//! contradict each other.

use crate::ruleset::read::Reader;
use std::collections::BTreeSet;
use std::rc::Rc;
use std::sync::Arc;

use crate::faults::Code;
use crate::ruleset::lint::cells::stated;
use crate::ruleset::lint::holds::{alike, is_all_tests, tests_in};
use crate::ruleset::stricter::{bare, same};
use crate::ruleset::{self, Once, Relief, Requirement, Rule, Strength, Test, Value};
use crate::vocabulary::{Answer, Vocabulary};
use crate::work;

/// To compare two rules takes so many steps.
const A_PAIR: u64 = 30;

impl Reader<'_> {
    /// Looks through the rules, once they are all read.
    pub(crate) fn slips(&mut self, rules: &[Rule]) {
        for rule in rules {
            if work::is_spent() {
                return;
            }
            self.now = Some(rule.span);
            self.never_applies(rule);
            self.requires_its_condition(rule);
            for relief in &rule.reliefs {
                self.useless_relief(rule, relief);
            }
            self.jumps(rule);
            self.doubtful(rule);
            self.parts_of_all(rule);
            self.unsaid_absence(rule);
        }
        self.now = None;
        self.clashes(rules);
    }

    /// A rule whose conditions cannot all hold.
    fn never_applies(&mut self, rule: &Rule) {
        let sight = self.sight();
        let conditions: Vec<&Requirement> = conditions(rule).collect();
        let chosen = rule.each.iter().filter_map(|each| each.filter.as_deref());
        let mut each = (rule.when.iter().chain(chosen)).chain(conditions.iter().copied());
        if each.any(|one| sight.never(one)) {
            return; // That was said where the condition stands.
        }
        let tests = tests_in(conditions.iter().copied());
        let denied = conditions.iter().filter_map(|one| match one {
            Requirement::Not(inner) => Some(&**inner),
            _ => None,
        });
        let ruled_out = rule.unless.iter().chain(denied).any(|unless| {
            sight.always(unless)
                || conditions.contains(&unless)
                || any_of(unless).iter().any(|one| {
                    is_all_tests(one) && {
                        let mut asked = tests_in([*one]).into_iter().peekable();
                        asked.peek().is_some() && asked.all(|test| sight.implied(test, &tests))
                    }
                })
        });
        if !ruled_out && sight.contrary(&tests).is_none() {
            return;
        }
        let span = rule.span;
        self.warning(
            Code::NeverApplies,
            span,
            format!(
                "The rule `{}` can never apply: its conditions rule each other out.",
                rule.id
            ),
        )
        .help("Compare its `when`, `unless` and `where`.");
    }

    /// A rule that requires what its own conditions already say.
    fn requires_its_condition(&mut self, rule: &Rule) {
        let given = tests_in(conditions(rule));
        let asked = tests_in([&rule.require]);
        let everywhere = |test: &&Arc<Test>| test.holds.is_none();
        let comparable = is_all_tests(&rule.require) && given.iter().chain(&asked).all(everywhere);
        let sight = self.sight();
        if !comparable || asked.is_empty() || !asked.iter().all(|it| sight.implied(it, &given)) {
            return;
        }
        let message = format!(
            "The rule `{}` can never fail: its `when` or `where` already says what it requires.",
            rule.id
        );
        self.warning(Code::RequiresItsCondition, rule.span, message)
            .help("Is one of the limits the wrong one? A condition says for which plans or things the rule is, `require` what they must keep.");
    }

    /// A relief with which the rule can never fail, and one that is of no help.
    fn useless_relief(&mut self, rule: &Rule, relief: &Relief) {
        let span = relief.span;
        let sight = self.sight();
        let asks_nothing = sight.always(&relief.require) && !relief.leave;
        let given = tests_in([&relief.require]);
        let asked = tests_in([&rule.require]);
        let no_help =
            is_all_tests(&rule.require) && asked.iter().all(|test| sight.implied(test, &given));
        if asks_nothing && relief.when.is_none() {
            self.warning(
                Code::ReliefAsksNothing,
                span,
                format!(
                    "The relief `{}` asks for nothing that every plan does not have: with it the rule can never fail.",
                    relief.id
                ),
            )
            .because_of(span)
            .help("Say what the relief asks for, or withdraw the rule.");
        } else if asks_nothing {
            self.warning(
                Code::ReliefAsksNothing,
                span,
                format!(
                    "The relief `{}` asks for nothing beyond its `when`: the rule just does not apply there.",
                    relief.id
                ),
            )
            .because_of(span)
            .help("Put that condition under the rule's `unless`.");
        } else if no_help {
            self.warning(
                Code::ReliefNoHelp,
                span,
                format!(
                    "The relief `{}` asks for all that the rule itself asks for, so that it never helps.",
                    relief.id
                ),
            )
            .help("Is one of the two limits the wrong one?");
        } else if relief.when.is_none() && !relief.leave && self.is_laxer(&relief.require, &asked) {
            self.say_laxer(rule, relief);
        }
    }

    /// Whether a requirement holds wherever these tests do.
    fn is_laxer(&self, requirement: &Requirement, than: &[&Arc<Test>]) -> bool {
        match requirement {
            Requirement::Test(test) => {
                let mut tests = than.iter().chain([&test]);
                tests.all(|test| test.holds.is_none()) && self.sight().implied(test, than)
            }
            Requirement::All(members) => members.iter().all(|one| self.is_laxer(one, than)),
            Requirement::Any(members) => members.iter().any(|one| self.is_laxer(one, than)),
            _ => false,
        }
    }

    /// A relief that asks for less than the rule wherever the rule is kept.
    fn say_laxer(&mut self, rule: &Rule, relief: &Relief) {
        let paper = |other: &&Relief| {
            matches!(other.require, Requirement::Have(_))
                || matches!(&other.require, Requirement::All(all) if matches!(all.as_slice(), [Requirement::Have(_)]))
        };
        let other = rule
            .reliefs
            .iter()
            .filter(|other| other.id != relief.id)
            .find(paper);
        let help = match (other, &relief.require) {
            (Some(other), _) => format!("Each relief counts alone, `{}`, too. If both must hold, put them into one list, under one relief.", other.id),
            (None, Requirement::Any(_)) => "With `any-of`, each of its items is enough. If all of them must hold, write a list without `any-of`.".to_owned(),
            (None, Requirement::All(all)) if all.iter().any(|one| matches!(one, Requirement::Any(_))) => "With `any-of`, each of its items is enough. If all of them must hold, write a list without `any-of`.".to_owned(),
            _ => "Add what the relief depends on, such as a paper with `have`, or write this limit in the rule.".to_owned(),
        };
        let message = format!(
            "The relief `{}` asks for less than the rule and for nothing else, so that the rule's own limit never counts.",
            relief.id
        );
        self.warning(Code::ReliefLaxer, relief.span, message)
            .help(help);
    }

    /// Pairs of binding rules that no plan can keep where both apply.
    fn clashes(&mut self, rules: &[Rule]) {
        // A rule that was meant to take another's place stands beside it.
        let misnamed = self.has_fault(Code::UnknownRule);
        let binding = rules.iter().filter(|rule| rule.strength == Strength::Must);
        let binding: Vec<Bound<'_>> = binding.map(Bound::of).collect();
        for (place, others) in of_same_value(&binding, &self.vocabulary) {
            let Some(one) = binding.get(place) else {
                continue;
            };
            for other in others.iter().filter_map(|other| binding.get(*other)) {
                work::step(A_PAIR);
                if work::is_spent() {
                    return;
                }
                if !misnamed && self.clash(one, other) {
                    self.say_clash(one.rule, other.rule);
                } else if !misnamed {
                    self.idle_rule(one.rule, other.rule);
                }
            }
        }
    }

    fn say_clash(&mut self, one: &Rule, other: &Rule) {
        let message = format!(
            "The rules `{}` and `{}` cannot both hold where both apply.",
            one.id, other.id
        );
        let span = other.span;
        self.warning(Code::Clash, span, message).help(
            "If they never apply to the same thing, nothing is wrong; otherwise say which gives way.",
        );
    }

    fn clash(&self, one: &Bound<'_>, other: &Bound<'_>) -> bool {
        let kind = |rule: &Rule| rule.each.as_ref().map(|each| each.kind);
        if kind(one.rule) != kind(other.rule) {
            return false;
        }
        let contrary_pair = one.tests.iter().any(|test| {
            let mut alike = other.tests.iter().filter(|it| same(&it.value, &test.value));
            alike.any(|it| self.sight().contrary(&[test, it]).is_some())
        });
        contrary_pair && !self.apart(one.rule, other.rule)
    }

    /// Whether two rules can never apply to the same thing.
    fn apart(&self, one: &Rule, other: &Rule) -> bool {
        let both = || conditions(one).chain(conditions(other));
        let tests = tests_in(both());
        let ruled_out = |unless: &Option<Requirement>, by: &Rule| {
            unless
                .as_ref()
                .is_some_and(|unless| conditions(by).any(|it| it == unless))
        };
        self.sight().contrary(&tests).is_some()
            || ruled_out(&one.unless, other)
            || ruled_out(&other.unless, one)
            || both().any(
                |it| matches!(it, Requirement::Not(inner) if both().any(|same| *same == **inner)),
            )
    }
}

/// A rule that can only be kept by what it requires, and the tests that this needs.
struct Bound<'r> {
    rule: &'r Rule,
    tests: Vec<&'r Arc<Test>>,
}

impl<'r> Bound<'r> {
    fn of(rule: &'r Rule) -> Self {
        let tests = match rule.reliefs.is_empty() {
            true => tests_in([&rule.require]),
            false => Vec::new(),
        };
        Self { rule, tests }
    }
}

/// For each rule those after it that have a test of the same value, by their places.
fn of_same_value<'b>(
    rules: &'b [Bound<'_>],
    vocabulary: &Vocabulary,
) -> impl Iterator<Item = (usize, BTreeSet<usize>)> + 'b {
    let places = rules.iter().enumerate();
    let places = places.flat_map(|(place, rule)| rule.tests.iter().map(move |test| (place, *test)));
    let (places, tests): (Vec<usize>, Vec<&Arc<Test>>) = places.unzip();
    let mut sharing: Vec<Vec<Rc<Vec<usize>>>> = vec![Vec::new(); rules.len()];
    let groups = alike(&tests).into_iter();
    for group in groups.filter(|group| !may_all_hold(group, vocabulary)) {
        let group: BTreeSet<usize> = group
            .iter()
            .filter_map(|(at, _)| places.get(*at))
            .copied()
            .collect();
        let group = Rc::new(Vec::from_iter(group));
        for place in group.iter() {
            sharing
                .get_mut(*place)
                .into_iter()
                .for_each(|own| own.push(Rc::clone(&group)));
        }
    }
    sharing.into_iter().enumerate().map(|(place, groups)| {
        let sharing = groups.iter().flat_map(|group| group.iter());
        (
            place,
            sharing.copied().filter(|other| *other > place).collect(),
        )
    })
}

/// Whether some amount of a fact keeps all of these tests, as their stated limits show: then so do any two.
fn may_all_hold(group: &[(usize, &Arc<Test>)], vocabulary: &Vocabulary) -> bool {
    let Some(Value::Fact(fact)) = group.first().map(|(_, test)| bare(&test.value)) else {
        return false;
    };
    let Answer::Amount { least, most, .. } = vocabulary.fact(*fact).answer else {
        return false;
    };
    let (mut low, mut high) = (least.unwrap_or(i128::MIN), most.unwrap_or(i128::MAX));
    for bound in group.iter().flat_map(|(_, test)| &test.bounds) {
        work::step(1);
        let limit = bound.limit().and_then(stated).map(|limit| limit.range.low);
        match (bound, limit) {
            (ruleset::Bound::AtLeast(_) | ruleset::Bound::MoreThan(_), Some(limit)) => {
                low = low.max(limit)
            }
            (ruleset::Bound::AtMost(_) | ruleset::Bound::LessThan(_), Some(limit)) => {
                high = high.min(limit)
            }
            _ => return false,
        }
    }
    low < high
}

/// What must hold for a rule to apply to a thing, one by one.
pub(crate) fn conditions(rule: &Rule) -> impl Iterator<Item = &Requirement> {
    let filter = rule.each.as_ref().and_then(|each| each.filter.as_deref());
    // A condition on the pool stands inside the requirement, where the rule has another `each`.
    let of_pool = match &rule.require {
        Requirement::Each(each) => each.selection.filter.as_deref(),
        _ => None,
    };
    let whole = rule.when.as_ref().into_iter().chain(filter).chain(of_pool);
    whole.flat_map(all_of)
}

fn all_of(requirement: &Requirement) -> Vec<&Requirement> {
    match requirement {
        Requirement::All(members) => members.iter().flat_map(all_of).collect(),
        one => vec![one],
    }
}

fn any_of(requirement: &Requirement) -> Vec<&Requirement> {
    let mut all = Vec::new();
    add_any(requirement, &mut all, &mut Once::default());
    all
}

fn add_any<'r>(requirement: &'r Requirement, all: &mut Vec<&'r Requirement>, terms: &mut Once) {
    match requirement {
        Requirement::Any(members) => members.iter().for_each(|it| add_any(it, all, terms)),
        Requirement::Meets { requirement, .. } => {
            if terms.is_first(requirement) {
                add_any(requirement, all, terms);
            }
        }
        one => all.push(one),
    }
}
