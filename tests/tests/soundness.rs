//! What the checker finds possible contains what is so, shrinks as a plan grows more certain, and is no wider than it
//! must be. More cases: `cargo run --release -p outside-checks --bin soundness -- --cases 1000000`.

use outside_checks::soundness::exact::exact;
use outside_checks::soundness::generate::{Style, rule_set, stated, world};
use outside_checks::soundness::property::{Tally, run};
use outside_checks::soundness::random::Random;
use outside_checks::soundness::words::{METRE, Words};
use rules_core::check::{Level, check};
use rules_core::quantity::Dimension;
use rules_core::ruleset::{Bound, IfNone, Requirement, Selection, Test, Value};
use rules_core::text::Span;

#[test]
fn two_thousand_random_cases_are_sound_and_tight() {
    let (words, mut tally) = (Words::new(), Tally::default());
    for seed in 0..2000 {
        if let Err(failure) = run(seed, &words, &mut tally) {
            panic!("seed {}: {}\n{}", failure.seed, failure.what, failure.dump);
        }
    }
    println!(
        "{tally:?}: {:.1} % of blurred findings decided, {:.1} % of open findings of one test are open for a reason",
        tally.decided_share(),
        tally.tightness()
    );
    // The ratchet: these may rise, never fall.
    assert!(
        tally.decided_share() >= 40.0,
        "{:.1} %",
        tally.decided_share()
    );
    assert!(tally.tightness() >= 80.0, "{:.1} %", tally.tightness());
    assert!(tally.compared >= 30_000, "{}", tally.compared);
    assert!(tally.ties * 100 < tally.compared, "{}", tally.ties);
}

fn test(value: Value, bound: Bound) -> Requirement {
    Requirement::Test(Box::new(Test {
        value,
        bounds: vec![bound],
        span: Span::default(),
    }))
}

/// "No low latch, or no high latch": two gates that nobody looked for may break both, for each has a latch of its own.
#[test]
fn two_unseen_things_need_not_share_a_fact() {
    let (words, mut random) = (Words::new(), Random::new(1));
    let mut site = world(&mut random, &words, 2);
    let gate = words.many[3];
    site.things.retain(|thing| thing.kind != gate);
    let mut plan = exact(&mut random, &words, &site);
    plan.inventory.remove(&gate);
    let latch = || Value::Fact(words.facts(gate)[0]);
    let metre = || stated(METRE.into(), Dimension::Length);
    let none_where = |bound| {
        let of = Selection {
            term: None,
            kind: gate,
            filter: Some(Box::new(test(latch(), bound))),
            zone: None,
            if_none: Some(IfNone::Passes),
        };
        test(
            Value::Count(of),
            Bound::AtMost(stated(0, Dimension::Number)),
        )
    };
    let mut rules = rule_set(&mut random, &words, &site, 1, Style::OneLeaf);
    let rule = &mut rules.rules[0];
    rule.each = None;
    rule.require = Requirement::Any(vec![
        none_where(Bound::LessThan(metre())),
        none_where(Bound::AtLeast(metre())),
    ]);
    assert!(check(&plan, &rules).rules[0].truth.may_be(Level::Fails));
}
