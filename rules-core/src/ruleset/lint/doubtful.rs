//! Rules that ask for something else than laws ask for there: a limit the wrong way round, a rule for each of some things
//! that says nothing of them.

use std::sync::Arc;

use crate::faults::Code;
use crate::quantity::{Dimension, Unit, show_exactly};
use crate::ruleset::lint::cells::stated;
use crate::ruleset::read::Reader;
use crate::ruleset::stricter::bare;
use crate::ruleset::visit::{Visit, within};
use crate::ruleset::{
    Area, Bound, Choice, Distance, DocumentIndex, Once, Operand, Part, Places, Requirement, Rule,
    Selection, ShareOf, Stated, Test, Value, Which, Zone,
};
use crate::vocabulary::{FactId, KindId, Vocabulary};

/// What is measured, so that it seldom is just so much.
const MEASURED: [Dimension; 3] = [Dimension::Length, Dimension::Area, Dimension::Volume];

/// A millimetre in tiny units.
const MILLIMETRE: i128 = 1_000_000;

impl Reader<'_> {
    /// Looks for limits the wrong way round, and for things of which a rule does not speak.
    pub(crate) fn doubtful(&mut self, rule: &Rule) {
        let mut asked = Asked::default();
        asked.requirement(&rule.require, false);
        for (test, is_one_of_several) in asked.tests {
            self.exact_amount(test);
            self.tiny_limit(test);
            self.out_of_rear_yard(test);
            self.limit_turned(test, is_one_of_several);
        }
        self.each_not_used(rule);
    }

    /// A limit that lets pass what laws forbid, and forbids what they let pass.
    fn limit_turned(&mut self, test: &Test, is_one_of_several: bool) {
        let [bound] = test.bounds.as_slice() else {
            return;
        };
        let lower = matches!(bound, Bound::AtLeast(_) | Bound::MoreThan(_));
        let upper = matches!(bound, Bound::AtMost(_) | Bound::LessThan(_));
        let (message, meant) = match bare(&test.value) {
            Value::Enclosure(_) if lower => (
                "A wider gap keeps this limit, and so does no barrier at all.",
                "at-most",
            ),
            Value::Area(area) if lower && self.is_covered(area) => {
                ("A lot on which less is built fails this limit.", "at-most")
            }
            Value::Distance(distance)
                if upper && !is_one_of_several && self.is_from_line(distance) =>
            {
                ("A pool farther from the line fails this limit.", "at-least")
            }
            _ => return,
        };
        let limit = bound.limit().and_then(stated);
        let limit = limit.map_or("…".to_owned(), |it| show_exactly(it.range.low, it.unit));
        self.warning(Code::LimitTurned, test.span, message)
            .help(format!("Is `{meant}: {limit}` meant?"));
    }

    /// A limit that keeps the pool out of the yard behind the house, where laws want it.
    fn out_of_rear_yard(&mut self, test: &Test) {
        let Value::Area(area) = bare(&test.value) else {
            return;
        };
        let Some(Zone::Named { term, .. }) = area.within.as_deref() else {
            return;
        };
        let none = |bound: &Bound| matches!(bound, Bound::AtMost(limit) if stated(limit).is_some_and(|it| it.range.high == 0));
        let rear = term
            .name
            .split('-')
            .any(|word| matches!(word, "rear" | "back"));
        if !rear || !self.of_pool(&area.of) || !test.bounds.iter().any(none) {
            return;
        }
        let name = &term.name;
        let message = format!("This keeps the pool out of `{name}`.");
        let help = format!("Is `in: {{not: {name}}}` meant, so that the pool lies nowhere else?");
        self.warning(Code::LimitTurned, test.span, message)
            .help(help);
    }

    /// A least amount in parts of a millimetre, where a thousand times as much is possible.
    fn tiny_limit(&mut self, test: &Test) {
        let Value::Fact(fact) = bare(&test.value) else {
            return;
        };
        let least = test.bounds.iter().filter_map(|bound| match bound {
            Bound::AtLeast(limit) | Bound::MoreThan(limit) => stated(limit),
            _ => None,
        });
        let odd = |limit: &&Stated| {
            let amount = limit.range.low;
            limit.unit == Unit::MILLIMETRE
                && (1..10 * MILLIMETRE).contains(&amount)
                && amount % MILLIMETRE != 0
        };
        let Some(limit) = least.into_iter().find(odd) else {
            return;
        };
        let meant = limit.range.low.saturating_mul(1000);
        if !self
            .vocabulary
            .fact(*fact)
            .answer
            .possible()
            .contains(meant)
        {
            return;
        }
        let said = show_exactly(limit.range.low, limit.unit);
        let meant = show_exactly(meant, Unit::METRE);
        let message = format!("`{said}` is hardly more than nothing.");
        self.warning(Code::TinyLimit, test.span, message)
            .help(format!("Is `{meant}` meant?"));
    }

    /// `is` with a measured amount of what changes along a thing, or with two: nothing is just so much to the millimetre.
    fn exact_amount(&mut self, test: &Test) {
        let ([Bound::Is(choices)], Value::Fact(fact)) = (test.bounds.as_slice(), bare(&test.value))
        else {
            return;
        };
        let varies = self.vocabulary.fact(*fact).varies;
        let measured = |choice: &Choice| match choice {
            Choice::Amount(amount, unit) if *amount > 0 && MEASURED.contains(&unit.dimension()) => {
                Some(show_exactly(*amount, *unit))
            }
            _ => None,
        };
        let Some(amounts) = choices.iter().map(measured).collect::<Option<Vec<_>>>() else {
            return;
        };
        let meant = match amounts.as_slice() {
            [one] if varies => format!("`at-least: {one}` or `at-most: {one}`"),
            [one, other] => format!("`at-least: {one}, at-most: {other}`"),
            _ => return,
        };
        let message = format!("This holds for just {}.", amounts.join(" or just "));
        self.warning(Code::ExactAmount, test.span, message)
            .help(format!("Is {meant} meant?"));
    }

    /// Whether it is the share of the lot on which pools and other things lie.
    fn is_covered(&self, area: &Area) -> bool {
        let of_lot =
            |share: &ShareOf| matches!(share, ShareOf::Outlines(of) if self.is_of(of, "lot"));
        area.share_of.as_ref().is_some_and(of_lot) && self.of_pool(&area.of)
    }

    fn of_pool(&self, of: &Operand) -> bool {
        self.is_of(of, "pool")
    }

    fn is_of(&self, of: &Operand, kind: &str) -> bool {
        let kind = self.vocabulary.kind_named(kind);
        let of_part = |part: &Part| Some(self.vocabulary.outline(part.outline).kind);
        of.parts.iter().any(|part| of_part(part) == kind)
    }

    /// Whether it is how near a pool is to a lot line.
    fn is_from_line(&self, distance: &Distance) -> bool {
        let (from, to) = (&distance.from, &distance.to);
        let line = |end| self.is_of(end, "lot-line");
        distance.places == Places::Nearest
            && (self.of_pool(from) && line(to) || line(from) && self.of_pool(to))
    }

    /// A rule for each of some things that requires nothing of them.
    fn each_not_used(&mut self, rule: &Rule) {
        let Some(each) = rule
            .each
            .as_ref()
            .filter(|each| Some(each.kind) != self.pool())
        else {
            return;
        };
        let mut spoken = Spoken {
            of: each.kind,
            pool: self.pool(),
            vocabulary: &self.vocabulary,
            is_spoken_of: false,
            terms: Once::default(),
        };
        spoken.requirement(&rule.require);
        if spoken.is_spoken_of {
            return;
        }
        let kind = self.vocabulary.kind(each.kind);
        let name = kind.name.clone();
        let outline = kind.outlines.first();
        let outline = outline.map(|it| self.vocabulary.outline_path(*it));
        let message =
            format!("The rule is for each `{name}`, and what it requires says nothing of one.");
        let measured = outline.map_or(String::new(), |outline| {
            format!("Is `to: {outline}` meant? ")
        });
        self.warning(Code::EachNotUsed, rule.span, message).help(format!(
            "{measured}If it only matters that there is one, write `when: {{count: {name}, at-least: 1}}` in place of `each`; if not, take out `each`."
        ));
    }
}

/// The tests that a requirement asks for, but not those under a `not`; each with whether another may be kept instead.
#[derive(Default)]
struct Asked<'r> {
    tests: Vec<(&'r Arc<Test>, bool)>,
    terms: Once,
}

impl<'r> Asked<'r> {
    fn requirement(&mut self, requirement: &'r Requirement, or: bool) {
        match requirement {
            Requirement::Test(test) => self.tests.push((test, or)),
            Requirement::All(members) => self.members(members, or),
            Requirement::Any(members) => self.members(members, true),
            Requirement::Each(each) => self.requirement(&each.require, or),
            Requirement::Table(table) => table.given().for_each(|it| self.requirement(it, or)),
            Requirement::Meets { requirement, .. } if self.terms.is_first(requirement) => {
                self.requirement(requirement, or);
            }
            _ => {}
        }
    }

    fn members(&mut self, members: &'r [Requirement], or: bool) {
        members
            .iter()
            .for_each(|member| self.requirement(member, or));
    }
}

/// Whether something is said of the things that are meant one by one.
struct Spoken<'v> {
    of: KindId,
    pool: Option<KindId>,
    vocabulary: &'v Vocabulary,
    is_spoken_of: bool,
    terms: Once,
}

impl Spoken<'_> {
    /// Of the pool something is said also by what belongs to one, and of that by what is said of the pool.
    fn speak_of(&mut self, kind: KindId) {
        let belongs =
            |kind: KindId| Some(kind) == self.pool || self.vocabulary.kind(kind).of_a_pool;
        self.is_spoken_of |= kind == self.of || belongs(kind) && belongs(self.of);
    }
}

impl<'r> Visit<'r> for Spoken<'_> {
    fn term<T>(&mut self, said: &'r Arc<T>, go: fn(&mut Self, &'r T)) {
        if self.terms.is_first(said) {
            go(self, said);
        }
    }

    fn fact(&mut self, fact: FactId) {
        self.speak_of(self.vocabulary.fact(fact).kind);
    }

    /// A paper may be for each of the things.
    fn paper(&mut self, _paper: DocumentIndex) {
        self.is_spoken_of = true;
    }

    fn requirement(&mut self, requirement: &'r Requirement) {
        self.is_spoken_of |= matches!(requirement, Requirement::Refer);
        within::requirement(self, requirement);
    }

    /// Within a choice among things of the same kind, the kind's name stands for those.
    fn of_each(&mut self, selection: &'r Selection, go: impl FnOnce(&mut Self)) {
        let before = self.is_spoken_of;
        go(self);
        if selection.kind == self.of {
            self.is_spoken_of = before;
        }
    }

    fn selection(&mut self, selection: &'r Selection) {
        selection
            .part_of
            .iter()
            .for_each(|kind| self.speak_of(*kind));
        within::selection(self, selection);
    }

    fn part(&mut self, part: &'r Part) {
        if let Which::Bound(kind) = part.which {
            self.speak_of(kind);
        } else if let Which::Meant(selection) = &part.which {
            self.speak_of(selection.kind);
        }
        within::part(self, part);
    }
}
