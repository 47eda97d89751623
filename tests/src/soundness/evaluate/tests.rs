//! The second evaluator, checked against judgements made by hand.

use std::sync::Arc;

use rules_core::plan::{Form, Point};
use rules_core::quantity::Dimension;
use rules_core::ruleset::{
    Along, Bound, Choice, Distance, Each, IfNone, Measured, Operand, Over, Part, Places, Relief,
    Requirement, Row, RowTest, Rule, RuleSet, Selection, Table, Test, Then, Value, Which,
};
use rules_core::text::Span;
use rules_core::vocabulary::FactId;

use super::*;
use crate::soundness::generate::{self, Style, stated};
use crate::soundness::random::Random;
use crate::soundness::words::{METRE, Words};
use crate::soundness::world::{Drawn, Held};

/// Two wells, three and ten metres from the origin, a lot, no alarm, and one gate without a latch.
struct Site {
    words: Words,
    world: World,
    rules: RuleSet,
}

impl Site {
    fn new() -> Self {
        let words = Words::new();
        let mut random = Random::new(1);
        let mut world = World {
            things: Vec::new(),
            papers: vec![Level::Holds, Level::Fails, Level::Holds, Level::Fails],
        };
        let [pool, house, well, gate] = words.many[..] else {
            panic!("four kinds")
        };
        let kinds = [
            (words.lot, "lot", 0),
            (well, "near", 3),
            (well, "far", 10),
            (gate, "gate", 0),
            (pool, "pool", 1),
            (pool, "spa", 2),
            (house, "house", 5),
        ];
        for (kind, id, metres) in kinds {
            let mut being = generate::being(&mut random, &words, kind, id.to_owned(), METRE);
            for drawn in being.outlines.values_mut() {
                let at = Point {
                    x: metres * METRE,
                    y: 0,
                };
                *drawn = Drawn {
                    forms: vec![Form::Point(at)],
                    spread: 0,
                };
            }
            world.things.push(being);
        }
        let rules = generate::rule_set(&mut random, &words, &world, 1, Style::OneLeaf);
        let mut site = Self {
            words,
            world,
            rules,
        };
        site.set("lot.width", 0, Held::Amount(20 * i128::from(METRE)));
        site.set("well.drinking", 1, Held::Word("yes".to_owned()));
        site.set("well.drinking", 2, Held::Word("no".to_owned()));
        site.set("gate.latch", 3, Held::Nothing);
        site
    }

    fn fact(&self, path: &str) -> FactId {
        let (kind, name) = path.split_once('.').expect("a path");
        let table = &self.words.vocabulary;
        let kind = table.kind_named(kind).expect("a kind");
        table.fact_named(kind, name).expect("a fact")
    }

    fn set(&mut self, path: &str, thing: usize, held: Held) {
        let fact = self.fact(path);
        self.world.things[thing].facts.insert(fact, held);
    }

    fn value(&self, path: &str) -> Value {
        Value::Fact(self.fact(path))
    }

    fn wells(&self, drinking: Option<&str>, if_none: IfNone) -> Selection {
        let filter = drinking.map(|answer| Box::new(is(self.value("well.drinking"), answer)));
        Selection {
            term: None,
            kind: self.words.many[2],
            closed: None,
            part_of: None,
            filter: filter.map(|filter| Arc::new(*filter)),
            zone: None,
            if_none: Some(if_none),
        }
    }

    /// The distance from the gate, which stands at the origin, to some wells.
    fn to_wells(&self, drinking: Option<&str>, if_none: IfNone) -> Value {
        let (gate, well) = (self.words.many[3], self.words.many[2]);
        let end = |which, kind| Operand {
            term: None,
            parts: vec![Part {
                which,
                outline: self.words.outlines(kind)[0],
                counted: None,
                if_drawn: false,
            }]
            .into(),
        };
        let gates = Selection {
            kind: gate,
            filter: None,
            ..self.wells(None, IfNone::Fails)
        };
        Value::Distance(Box::new(Distance {
            from: end(Which::All(gates), gate),
            to: end(Which::All(self.wells(drinking, if_none)), well),
            how: Measured::Level,
            places: Places::Nearest,
        }))
    }

    fn rule(&self, require: Requirement) -> Rule {
        Rule {
            when: None,
            unless: None,
            each: None,
            require,
            ..self.rules.rules[0].clone()
        }
    }

    fn comes_to(&self, rule: &Rule) -> Judgement {
        let evaluator = Evaluator {
            world: &self.world,
            rules: &self.rules,
            plan: None,
        };
        evaluator.judge(rule).expect("it can be judged").0
    }

    fn level(&self, require: Requirement) -> Level {
        match self.comes_to(&self.rule(require)) {
            Judgement::Applies(level) => level,
            Judgement::NotApplicable => panic!("it applies"),
        }
    }
}

fn metres(amount: i128) -> Value {
    stated(amount * i128::from(METRE), Dimension::Length)
}

fn number(amount: i128) -> Value {
    stated(amount * 1_000_000_000, Dimension::Number)
}

fn test(value: Value, bound: Bound) -> Requirement {
    Requirement::Test(Arc::new(Test {
        value,
        bounds: vec![bound],
        holds: None,
        span: Span::default(),
    }))
}

fn is(value: Value, word: &str) -> Requirement {
    test(value, Bound::Is(vec![Choice::Word(word.to_owned())]))
}

const NO: Level = Level::Fails;
const ASK: Level = Level::Authority;
const YES: Level = Level::Holds;

#[test]
fn each_bound_takes_or_leaves_its_own_limit() {
    let site = Site::new();
    let width = || site.value("lot.width");
    for (bound, expected) in [
        (Bound::AtLeast(metres(20)), YES),
        (Bound::AtMost(metres(20)), YES),
        (Bound::MoreThan(metres(20)), NO),
        (Bound::LessThan(metres(20)), NO),
    ] {
        assert_eq!(site.level(test(width(), bound)), expected);
    }
}

#[test]
fn a_rule_is_judged_at_every_piece_as_a_whole() {
    let mut site = Site::new();
    let metre = i128::from(METRE);
    site.set("pool.depth", 4, Held::Along(vec![metre, 3 * metre]));
    site.set("pool.depth", 5, Held::Amount(3 * metre));
    site.set("pool.heated", 4, Held::Word("yes".to_owned()));
    site.set("pool.heated", 5, Held::Word("no".to_owned()));
    let depth = |bound| test(site.value("pool.depth"), bound);
    let shallow = || depth(Bound::LessThan(metres(2)));
    let heated = || is(site.value("pool.heated"), "yes");
    let rule = |require| Rule {
        about_pool: true,
        ..site.rule(require)
    };
    assert_eq!(site.comes_to(&rule(shallow())), Judgement::Applies(NO));
    // One piece is shallow, the other deep; the rule holds at each.
    let either = Requirement::Any(vec![shallow(), depth(Bound::AtLeast(metres(2)))]);
    assert_eq!(site.comes_to(&rule(either)), Judgement::Applies(YES));
    // It must be heated where it is deep, and the spa is not.
    let mut deep = rule(heated());
    deep.when = Some(Requirement::Not(Box::new(shallow())));
    assert_eq!(site.comes_to(&deep), Judgement::Applies(NO));
    // Neither is deeper than 3 m anywhere, so it applies to neither.
    deep.when = Some(depth(Bound::MoreThan(metres(3))));
    assert_eq!(site.comes_to(&deep), Judgement::NotApplicable);
    for (holds, expected) in [(Along::Anywhere, YES), (Along::AllAlong, NO)] {
        let along = |value, bound| {
            Requirement::Test(Arc::new(Test {
                value,
                bounds: vec![bound],
                holds: Some(holds),
                span: Span::default(),
            }))
        };
        let mut rule = rule(along(site.value("pool.depth"), Bound::LessThan(metres(2))));
        rule.when = Some(heated());
        assert_eq!(site.comes_to(&rule), Judgement::Applies(expected));
    }
}

#[test]
fn the_paper_for_a_thing_is_its_own() {
    let mut site = Site::new();
    let house = site.words.many[1];
    let mut rule = site.rule(Requirement::Have(2));
    rule.each = Some(Selection {
        kind: house,
        filter: None,
        ..site.wells(None, IfNone::Fails)
    });
    for level in [NO, ASK, YES] {
        site.world.things[6].papers = vec![NO, NO, level, NO];
        assert_eq!(site.comes_to(&rule), Judgement::Applies(level));
    }
}

#[test]
fn no_bound_holds_of_what_is_not_there() {
    let site = Site::new();
    let mut rule = site.rule(test(site.value("gate.latch"), Bound::AtLeast(metres(0))));
    rule.each = Some(Selection {
        kind: site.words.many[3],
        filter: None,
        ..site.wells(None, IfNone::Fails)
    });
    assert_eq!(site.comes_to(&rule), Judgement::Applies(NO));
    rule.require = Requirement::Not(Box::new(rule.require.clone()));
    assert_eq!(site.comes_to(&rule), Judgement::Applies(YES));
    rule.require = test(site.value("gate.latch"), Bound::Is(vec![Choice::None]));
    assert_eq!(site.comes_to(&rule), Judgement::Applies(YES));
    // There is no alarm at all.
    assert_eq!(site.level(is(site.value("alarm.powered"), "no")), NO);
}

#[test]
fn the_nearest_of_those_meant_counts() {
    let site = Site::new();
    let near = |drinking, limit| {
        test(
            site.to_wells(drinking, IfNone::Refer),
            Bound::AtLeast(metres(limit)),
        )
    };
    assert_eq!(site.level(near(None, 3)), YES);
    assert_eq!(site.level(near(None, 4)), NO);
    assert_eq!(site.level(near(Some("no"), 10)), YES);
    assert_eq!(site.level(near(Some("perhaps"), 0)), ASK);
}

#[test]
fn combinations_take_the_least_the_most_and_the_so_manieth() {
    let site = Site::new();
    let yes = || is(site.value("lot.width"), "no");
    let holds = || Requirement::Not(Box::new(yes()));
    let members = || vec![holds(), Requirement::Refer, yes()];
    assert_eq!(site.level(Requirement::All(members())), NO);
    assert_eq!(site.level(Requirement::Any(members())), YES);
    assert_eq!(
        site.level(Requirement::Not(Box::new(Requirement::Refer))),
        ASK
    );
    let count = |bound| Requirement::Count {
        of: members(),
        bounds: vec![bound],
    };
    assert_eq!(site.level(count(Bound::AtLeast(number(1)))), YES);
    assert_eq!(site.level(count(Bound::AtLeast(number(2)))), ASK);
    assert_eq!(site.level(count(Bound::AtLeast(number(3)))), NO);
    assert_eq!(site.level(count(Bound::AtMost(number(1)))), ASK);
    assert_eq!(site.level(count(Bound::LessThan(number(1)))), NO);
    assert_eq!(site.level(Requirement::Have(0)), YES);
    assert_eq!(site.level(Requirement::Have(1)), NO);
}

#[test]
fn the_first_row_that_applies_counts() {
    let site = Site::new();
    let row = |limit, then| Row {
        test: RowTest::Bounds(vec![Bound::AtMost(metres(limit))]),
        then,
        span: Span::default(),
    };
    let otherwise = Row {
        test: RowTest::Otherwise,
        then: Then::Refer,
        span: Span::default(),
    };
    let table = |by: Value| {
        let rows = vec![
            row(10, Then::Give(metres(1))),
            row(20, Then::Give(metres(2))),
            otherwise.clone(),
        ];
        Value::Table(Box::new(Table {
            by: Some(by),
            rows,
            span: Span::default(),
        }))
    };
    let at_least = |by, limit| site.level(test(table(by), Bound::AtLeast(metres(limit))));
    assert_eq!(at_least(site.value("lot.width"), 2), YES);
    assert_eq!(at_least(site.value("lot.width"), 3), NO);
    assert_eq!(at_least(metres(10), 2), NO);
    assert_eq!(at_least(metres(21), 2), ASK);
}

#[test]
fn a_rule_applies_where_it_says_and_each_means_all() {
    let site = Site::new();
    let drinking = || is(site.value("well.drinking"), "yes");
    let mut rule = site.rule(drinking());
    rule.each = Some(site.wells(None, IfNone::Fails));
    assert_eq!(site.comes_to(&rule), Judgement::Applies(NO));
    rule.each = Some(site.wells(Some("yes"), IfNone::Fails));
    assert_eq!(site.comes_to(&rule), Judgement::Applies(YES));
    // There is none: the rule's `if-none` counts, and without one it does not apply.
    let none = site.wells(Some("perhaps"), IfNone::Fails);
    rule.each = Some(none.clone());
    assert_eq!(site.comes_to(&rule), Judgement::Applies(NO));
    rule.each = Some(Selection {
        if_none: None,
        ..none
    });
    assert_eq!(site.comes_to(&rule), Judgement::NotApplicable);
    rule.each = Some(site.wells(None, IfNone::Fails));
    rule.when = Some(test(site.value("lot.width"), Bound::MoreThan(metres(20))));
    assert_eq!(site.comes_to(&rule), Judgement::NotApplicable);
    let nested = |if_none| {
        let selection = site.wells(Some("perhaps"), if_none);
        Requirement::Each(Box::new(Each {
            selection,
            require: drinking(),
            span: Span::default(),
        }))
    };
    assert_eq!(site.level(nested(IfNone::Passes)), YES);
    assert_eq!(site.level(nested(IfNone::Fails)), NO);
    assert_eq!(site.level(nested(IfNone::Refer)), ASK);
}

#[test]
fn a_relief_with_leave_is_the_authoritys() {
    let site = Site::new();
    let fails = || is(site.value("lot.width"), "no");
    let mut rule = site.rule(fails());
    let relief = |leave, when| Relief {
        id: "relief".to_owned(),
        when,
        require: Requirement::Have(0),
        leave,
        span: Span::default(),
    };
    rule.reliefs = vec![relief(true, None)];
    assert_eq!(site.comes_to(&rule), Judgement::Applies(ASK));
    rule.reliefs.push(relief(false, Some(fails())));
    assert_eq!(site.comes_to(&rule), Judgement::Applies(ASK));
    rule.reliefs.push(relief(false, None));
    assert_eq!(site.comes_to(&rule), Judgement::Applies(YES));
}

#[test]
fn numbers_are_made_of_numbers() {
    let site = Site::new();
    let width = || site.value("lot.width");
    let is_just = |value: Value, limit: i128| {
        let (below, above) = (Bound::AtLeast(metres(limit)), Bound::AtMost(metres(limit)));
        let both = vec![test(value.clone(), below), test(value, above)];
        site.level(Requirement::All(both)) == YES
    };
    assert!(is_just(Value::Sum(vec![width(), metres(3)]), 23));
    assert!(is_just(Value::Difference(vec![width(), metres(3)]), 17));
    assert!(is_just(Value::Largest(vec![width(), metres(3)]), 20));
    assert!(is_just(Value::Smallest(vec![width(), metres(3)]), 3));
    assert!(is_just(Value::Product(vec![width(), number(2)]), 40));
    // Absent things are ignored.
    let nothing = site.to_wells(Some("perhaps"), IfNone::Fails);
    assert!(is_just(Value::Sum(vec![width(), nothing]), 20));
    let over = |how| Value::Over {
        how,
        of: site.wells(None, IfNone::Fails),
        take: Box::new(metres(2)),
    };
    assert!(is_just(over(Over::Sum), 4));
    assert!(is_just(over(Over::Largest), 2));
}
