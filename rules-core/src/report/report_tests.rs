use super::example_tests::{
    MM, distance, distance_reading, example, fact, finding, findings, kind, metres, part, pool_side,
};
use super::*;
use crate::check::{Finding, Missing, Outcome, Reading, Subject, Truth};
use crate::quantity::{Dimension, Interval, parse};
use crate::ruleset::{Bound, Value};
use crate::vocabulary::{OutlineId, Vocabulary};

fn reported(rules: Vec<Finding>) -> Report {
    let example = example();
    let texts = Texts {
        plan: Some("a: b\nc: d\n"),
        layers: vec![Some("1\n2\n3\n4\n5\n6\n7\n")],
    };
    report(&findings(rules), &example.plan, &example.rules, &texts)
}

/// The report on the rule about the rear line, with one measured range.
fn rear_line(low: i64, high: i64, bound: fn(Value) -> Bound, as_drawn: Truth) -> RuleReport {
    let (value, bound) = (distance(), bound(metres(3000)));
    let measured = Interval::new(i128::from(low), i128::from(high));
    let reading = distance_reading(&value, &bound, measured, i128::from((low + high) / 2));
    let report = reported(vec![finding(0, vec![part(vec![reading], as_drawn, &[])])]);
    report.rules.into_iter().next().unwrap()
}

#[test]
fn a_failure_says_what_was_measured_and_by_how_much_it_is_short() {
    let rule = rear_line(2600 * MM, 2600 * MM, Bound::AtLeast, Truth::FAILS);
    assert_eq!(rule.outcome, Outcome::Fail);
    assert_eq!(
        rule.sentence,
        "The distance from the pool edge to the rear lines is 2.6 m; it must be at least 3 m: 0.4 m short. The relief `consent` is not met either; it asks: there is this document: Neighbour's written consent."
    );
    assert_eq!(rule.rule_line, Some(6));
    let witness = rule.parts[0].readings[0].witness.clone().unwrap();
    assert_eq!(witness.from, ["1008", "14.5"]);
    assert_eq!(
        witness.text,
        "Measured from the water's edge at (1008, 14.5) to the rear lot line at (1008, 17.5)."
    );
}

#[test]
fn a_marginal_finding_says_what_to_survey_and_how_well() {
    let rule = rear_line(2_980_000_000, 3_120_000_000, Bound::AtLeast, Truth::HOLDS);
    assert_eq!(rule.outcome, Outcome::Marginal);
    assert_eq!(
        rule.sentence,
        "It passes as drawn: the distance from the pool edge to the rear lines is 3.05 m as drawn and may be between \
         2.98 m and 3.12 m; it must be at least 3 m: between 0.02 m short and 0.12 m to spare. The accuracy of the plan \
         leaves it open."
    );
    assert_eq!(
        rule.parts[0].advice.as_deref(),
        Some(
            "Survey or tape between the water's edge (± 0.02 m) and the rear lot line (± 0.05 m): the two accuracies \
             together are 0.07 m and must come down to 0.05 m or less. Or move it by 0.02 m: then it keeps the limit \
             wherever the lines truly are."
        )
    );
}

#[test]
fn at_the_very_limit_no_survey_helps() {
    let rule = rear_line(2_930_000_000, 3_070_000_000, Bound::AtLeast, Truth::HOLDS);
    let advice = rule.parts[0].advice.clone().unwrap();
    assert!(
        advice.starts_with("As drawn it lies exactly at the limit"),
        "{advice}"
    );
    assert!(
        advice.ends_with(
            "Or move it by 0.07 m: then it keeps the limit wherever the lines truly are."
        )
    );
}

#[test]
fn too_much_is_not_called_short() {
    let rule = rear_line(3_100_000_000, 3_100_000_000, Bound::AtMost, Truth::FAILS);
    assert!(
        rule.sentence
            .contains("it must be at most 3 m: 0.1 m too much."),
        "{}",
        rule.sentence
    );
    let rule = rear_line(3_000_000_000, 3_000_000_000, Bound::MoreThan, Truth::FAILS);
    assert!(
        rule.sentence
            .contains("more than 3 m: exactly at the limit."),
        "{}",
        rule.sentence
    );
    let rule = rear_line(3_000_000_001, 3_000_000_001, Bound::MoreThan, Truth::HOLDS);
    assert!(
        rule.sentence.ends_with("0.000000001 m to spare."),
        "{}",
        rule.sentence
    );
}

/// Semantics, "Margin and figures": parse what was printed, compare, get the outcome.
#[test]
fn printed_figures_give_the_outcome() {
    let bounds: [fn(Value) -> Bound; 4] = [
        Bound::AtLeast,
        Bound::AtMost,
        Bound::MoreThan,
        Bound::LessThan,
    ];
    let offsets = [
        -70_000_001,
        -4_000_000,
        -1,
        0,
        1,
        123,
        4_999_999,
        400_000_000,
    ];
    for bound in bounds {
        for low in offsets {
            for high in offsets.into_iter().filter(|high| *high >= low) {
                let rule = rear_line(
                    3_000_000_000 + low,
                    3_000_000_000 + high,
                    bound,
                    Truth::HOLDS,
                );
                let reading = &rule.parts[0].readings[0];
                let relation = bound(metres(0)).relation();
                let printed = relation.judge(range(&reading.measured), range(&reading.limit));
                let expected = match (printed.can_be_true, printed.can_be_false) {
                    (true, false) => "holds",
                    (false, _) => "fails",
                    (true, true) => "open",
                };
                assert_eq!(reading.holds, expected, "{}", reading.sentence);
                agrees_with_margin(reading);
            }
        }
    }
}

fn range(printed: &Option<RangeReport>) -> Interval {
    let printed = printed.as_ref().unwrap();
    Interval::new(amount(&printed.low), amount(&printed.high))
}

fn amount(text: &Option<String>) -> i128 {
    parse(text.as_ref().unwrap(), Some(Dimension::Length), None)
        .unwrap()
        .drawn
        .unwrap()
}

fn agrees_with_margin(reading: &ReadingReport) {
    let margin = reading.margin.as_ref().unwrap();
    let (low, high) = (amount(&margin.low), amount(&margin.high));
    match reading.holds.as_str() {
        "holds" => assert!(low >= 0, "{}", reading.sentence),
        "fails" => assert!(high <= 0, "{}", reading.sentence),
        _ => assert!(low <= 0 && high >= 0, "{}", reading.sentence),
    }
}

fn word_reading(value: &Value, bound: &Bound, words: &[&str]) -> Reading {
    Reading {
        measured: None,
        drawn: None,
        words: Some(std::sync::Arc::new(crate::plan::Words::OneOf(
            words.iter().map(|word| (*word).to_owned()).collect(),
        ))),
        limit: None,
        unit: None,
        margin: None,
        witness: None,
        tolerance: None,
        ..distance_reading(value, bound, Interval::exact(0), 0)
    }
}

#[test]
fn a_word_is_set_against_the_words_allowed() {
    let (value, bound) = (Value::Fact(fact("gate", "latch-side")), pool_side());
    let mut gate = part(
        vec![word_reading(&value, &bound, &["outside"])],
        Truth::FAILS,
        &[],
    );
    gate.outcome = Outcome::Fail;
    gate.subject = Subject::Thing {
        index: 2,
        sure: true,
    };
    let report = reported(vec![finding(1, vec![gate])]);
    assert_eq!(
        report.rules[0].sentence,
        "For the gate `garden-gate`, the side from which the latch is released: outside; it must be pool. The relief `consent` is not met either; it asks: there is this document: Neighbour's written consent."
    );
    assert_eq!(report.rules[0].parts[0].subject.plan_line, Some(2));
}

#[test]
fn what_is_missing_is_asked_as_a_question_once() {
    let missing = [
        Missing::Fact(2, fact("gate", "latch-side")),
        Missing::Inventory(kind("well")),
        Missing::Accuracy(0),
        Missing::Document(0, None),
        Missing::Outline(1, outline("pool", "coping")),
        Missing::FactOfUnseen(kind("gate"), fact("gate", "latch-side")),
        Missing::Whole(2, kind("barrier-stretch")),
    ];
    let open = |missing: &[Missing]| part(Vec::new(), Truth::OPEN, missing);
    let rules = vec![
        finding(0, vec![open(&missing[..1])]),
        finding(1, vec![open(&missing)]),
    ];
    let report = reported(rules);
    let vocabulary = Vocabulary::standard();
    let wells = vocabulary.kind(kind("well")).ask.as_str();
    let asked: Vec<&str> = report
        .questions
        .iter()
        .map(|question| question.missing.question.as_str())
        .collect();
    assert_eq!(
        asked,
        [
            "The gate `garden-gate`: on which side is the latch let go?",
            "If there is a gate: on which side is the latch let go?",
            "Where is the coping's outer edge?",
            wells,
            "Where does the position of the rear lot line come from?",
            "Which stretch of the barrier is the gate `garden-gate` part of?",
            "Can you get this document from the neighbour: Neighbour's written consent?",
        ]
    );
    assert_eq!(report.questions[0].rules, ["rear-line", "latch-side"]);
    assert_eq!(
        report.rules[0].sentence,
        "It depends on an answer that is still missing."
    );
}

fn outline(kind: &str, name: &str) -> OutlineId {
    super::example_tests::outline(kind, name)
}

#[test]
fn a_pass_by_relief_names_the_relief() {
    let (value, bound) = (distance(), Bound::AtLeast(metres(3000)));
    let reading = |low| {
        distance_reading(
            &value,
            &bound,
            Interval::new(low, 3_100_000_000),
            3_050_000_000,
        )
    };
    let by_relief = |reading| {
        let mut passed = part(vec![reading], Truth::HOLDS, &[]);
        passed.relief = Some(0);
        passed.outcome = Outcome::Pass;
        reported(vec![finding(0, vec![passed])]).rules[0]
            .sentence
            .clone()
    };
    assert!(by_relief(reading(2_900_000_000)).ends_with(
        "It passes by relief `consent` if the requirement itself turns out not to be met."
    ));
    let surely_short = Reading {
        measured: Some(Interval::exact(2_600_000_000)),
        truth: Truth::FAILS,
        ..reading(2_600_000_000)
    };
    assert!(by_relief(surely_short).ends_with("It passes by relief `consent`."));
}

#[test]
fn the_authority_is_named_and_nothing_is_ever_called_approved() {
    let mut part = part(Vec::new(), Truth::AUTHORITY, &[]);
    part.outcome = Outcome::Refer;
    let report = reported(vec![finding(0, vec![part])]);
    assert_eq!(
        report.rules[0].sentence,
        "The Eldermere building office decides this."
    );
    let text = text::render(&report, text::Style::default());
    assert!(!text.to_lowercase().contains("approved"));
    assert!(
        report
            .disclaimer
            .contains("Only this authority decides: the Eldermere building office.")
    );
}

#[test]
fn a_report_reads_back_from_its_own_json() {
    let (value, bound) = (distance(), Bound::AtLeast(metres(3000)));
    let reading = distance_reading(&value, &bound, Interval::exact(1), 1);
    let report = reported(vec![finding(
        0,
        vec![part(vec![reading], Truth::FAILS, &[])],
    )]);
    let json = serde_json::to_string(&report).unwrap();
    assert_eq!(serde_json::from_str::<Report>(&json).unwrap(), report);
}

#[test]
fn every_line_of_the_text_fits_and_the_verdict_comes_before_the_findings() {
    let (value, bound) = (distance(), Bound::AtLeast(metres(3000)));
    let measured = Interval::new(2_980_000_000, 3_120_000_000);
    let reading = distance_reading(&value, &bound, measured, 3_050_000_000);
    let missing = [Missing::Inventory(kind("well"))];
    let rules = vec![
        finding(0, vec![part(vec![reading], Truth::HOLDS, &[])]),
        finding(1, vec![part(Vec::new(), Truth::OPEN, &missing)]),
    ];
    let text = text::render(&reported(rules), text::Style::default());
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    let place = |words: &str| {
        text.find(words)
            .unwrap_or_else(|| panic!("{words} in {text}"))
    };
    assert!(place("Not decided yet.") < place("What depends on missing answers"));
    assert!(place("What depends on how exact the plan is") < place("What to do next"));
    assert!(place("answer question 1 below") < place("1. Is there a well"));
}
