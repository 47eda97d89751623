//! The steps, checked against dates counted by hand on a calendar.

use super::*;
use crate::check::check;
use crate::vocabulary::Vocabulary;
use crate::{plan, ruleset};

const PLAN: &str = "\
plan: p
title: P
unit: m
lot: {corners: {a: [0, 0], b: [30, 0], c: [30, 30], d: [0, 30]}}
pool: {id: pool, water: [[5, 5], [9, 5], [9, 9]], depth: 1.5 m}
";

fn planned(duties: &str, start: &str) -> Steps {
    let text = format!(
        "ruleset: r\ntitle: R\nedition: '1'\nauthority: nobody\nrules:\n  - {{id: depth, title: Depth, clause: s. 1, \
         require: {{fact: pool.depth, at-most: 2 m}}}}\ndo:\n{duties}"
    );
    let rules = ruleset::read(&text, &|_| None, Vocabulary::standard())
        .expect("good rules")
        .rule_set;
    let plan = plan::read(PLAN, &rules.vocabulary).expect("a good plan");
    steps(
        &rules,
        &check(&plan, &rules).expect("not too much work"),
        day(start).expect("a day"),
    )
}

/// Each step with its earliest day, the day it is done, and the days to spare.
fn days_of(steps: &Steps) -> Vec<String> {
    let said = |step: &Step| {
        let slack = step
            .slack
            .map_or_else(|| "-".to_owned(), |slack| slack.to_string());
        format!("{} {} {} {slack}", step.id, step.earliest, step.done)
    };
    steps.steps.iter().map(said).collect()
}

#[test]
fn steps_follow_one_another() {
    let steps = planned(
        "  - {id: dig, after: apply, by: 6 weeks, takes: 5 days}\n  - {id: notify, before: apply, by: 14 days}\n  - {id: \
         apply, before: dig}\n  - {id: tidy, takes: 2 days}\n",
        "2026-03-02",
    );
    // 14 days after 2 March is 16 March; 42 days later is 27 April; five days later is 2 May.
    let expected = [
        "notify 2026-03-02 2026-03-02 0",
        "tidy 2026-03-02 2026-03-04 59",
        "apply 2026-03-16 2026-03-16 0",
        "dig 2026-04-27 2026-05-02 0",
    ];
    assert_eq!(days_of(&steps), expected);
    assert_eq!(steps.end, "2026-05-02");
    let [notify, tidy, ..] = &steps.steps[..] else {
        panic!("four steps")
    };
    assert_eq!(notify.a_week_later.len(), 2);
    assert_eq!(notify.end_moves, 7);
    assert_eq!((tidy.a_week_later.len(), tidy.end_moves), (0, 0));
    assert_eq!(tidy.latest.as_deref(), Some("2026-04-30"));
}

#[test]
fn months_are_calendar_months() {
    let steps = planned(
        "  - {id: wait, takes: 1 month}\n  - {id: go, after: wait, takes: 1 year}\n",
        "2026-01-31",
    );
    let expected = ["wait 2026-01-31 2026-02-28 0", "go 2026-02-28 2027-02-28 0"];
    assert_eq!(days_of(&steps), expected);
}

#[test]
fn a_step_that_must_not_be_done_too_early_is_delayed() {
    let steps = planned(
        "  - {id: locate, before: dig, by: 3 days, within: 30 days}\n  - {id: permit, takes: 100 days, before: dig}\n  - \
         {id: dig}\n",
        "2026-01-01",
    );
    // 100 days after 1 January is 11 April; 30 days before that is 12 March.
    let expected = [
        "permit 2026-01-01 2026-04-11 0",
        "locate 2026-03-12 2026-03-12 27",
        "dig 2026-04-11 2026-04-11 0",
    ];
    assert_eq!(days_of(&steps), expected);
}

#[test]
fn a_deadline_that_cannot_be_kept_is_reported() {
    let steps = planned(
        "  - {id: permit, before: fence}\n  - {id: posts, after: permit, takes: 10 days, before: fence}\n  - {id: fence, \
         after: permit, within: 9 days}\n",
        "2026-01-01",
    );
    let fence = steps.steps.last().expect("three steps");
    assert_eq!(fence.last_day.as_deref(), Some("2026-01-10"));
    assert_eq!(fence.slack, Some(-1));
    assert!(
        steps.to_text().contains("which is not possible"),
        "{}",
        steps.to_text()
    );
}

#[test]
fn a_recurring_step_does_not_delay_the_end() {
    let steps = planned(
        "  - {id: fill}\n  - {id: look, after: fill, every: 6 months}\n",
        "2026-08-31",
    );
    assert_eq!(steps.end, "2026-08-31");
    let look = steps.steps.last().expect("two steps");
    assert_eq!(
        (look.again.as_deref(), look.slack),
        (Some("2027-02-28"), None)
    );
}

#[test]
fn a_duty_that_does_not_apply_holds_nothing_up() {
    let steps = planned(
        "  - {id: apply, when: {fact: pool.depth, more-than: 3 m}, what: Apply, takes: 90 days}\n  - {id: dig, after: \
         apply}\n",
        "2026-01-01",
    );
    assert_eq!(days_of(&steps), ["dig 2026-01-01 2026-01-01 0"]);
    assert_eq!(steps.not_needed, ["Apply"]);
}

#[test]
fn a_circle_of_steps_is_a_fault_in_the_rule_file() {
    let text = "ruleset: r\ntitle: R\nedition: '1'\nauthority: nobody\nrules: []\ndo:\n  - {id: a, before: b}\n  - {id: b, \
                before: later}\n  - {id: c, after: later, before: a}\n  - {id: d, after: a}\n  - {id: later}\n";
    let faults = ruleset::read(text, &|_| None, Vocabulary::standard()).expect_err("a circle");
    let [fault] = &faults[0].faults.list[..] else {
        panic!("one fault")
    };
    assert_eq!(fault.code.word(), "circle-of-steps");
    assert!(
        fault.message.contains("`b`, `later`, `c`, `a`"),
        "{}",
        fault.message
    );
}

#[test]
fn only_a_valid_date_is_read_as_a_day() {
    assert_eq!(day("1970-01-02"), Ok(1));
    for wrong in ["tomorrow", "2026-02-30", "3 m", ""] {
        assert!(day(wrong).is_err(), "{wrong}");
    }
}

/// Counted by hand on a calendar of 2026: 2 March is a Monday, Easter Sunday 5 April.
#[test]
fn working_days_leave_out_weekends_and_holidays() {
    let duties = "  - {id: tell, before: dig, by: 3 working days}\n  - {id: dig, takes: 5 working days}\n  - {id: fill, \
                  after: dig, within: 2 working days}\n";
    // Three working days after Friday is Wednesday, as it is after Sunday. Five after a Wednesday is the next
    // Wednesday.
    let steps = planned(duties, "2026-03-06");
    let expected = [
        "tell 2026-03-06 2026-03-06 2",
        "dig 2026-03-11 2026-03-18 0",
        "fill 2026-03-18 2026-03-18 0",
    ];
    assert_eq!(days_of(&steps), expected);
    let fill = steps.steps.last().expect("three steps");
    assert_eq!(fill.last_day.as_deref(), Some("2026-03-20"));
    assert_eq!(steps.steps[0].waits_for.len(), 0);
    let waits = steps.steps[1].waits_for[0].at_least.as_deref();
    assert_eq!(waits, Some("3 working days"));
    assert!(steps.counted.ends_with(
        "Working days are counted without Saturdays and Sundays; all other spans count every day. Nothing says which days \
         are holidays, so they are counted as well."
    ));

    // Maundy Thursday, Good Friday and Easter Monday are free. After a notice on Tuesday 31 March, the working days are
    // 1, 7 and 8 April.
    let easter =
        format!("{duties}calendar: {{name: Easter, holidays: [easter-3, easter-2, easter+1]}}\n");
    let steps = planned(&easter, "2026-03-31");
    assert_eq!(days_of(&steps)[1], "dig 2026-04-08 2026-04-15 0");
    assert!(
        steps
            .counted
            .contains("without Saturdays, Sundays and Easter;"),
        "{}",
        steps.counted
    );
}

/// The latest start of a step is the last day that still leaves enough working days.
#[test]
fn the_latest_day_counts_working_days_back() {
    let duties = "  - {id: wait, takes: 20 days, before: dig}\n  - {id: tell, before: dig, by: 2 working days}\n  - {id: dig}\n";
    let steps = planned(duties, "2026-03-02");
    // Twenty days later is Sunday 22 March. The two working days before it are the 20th and the 19th, so the 18th is
    // early enough.
    let tell = steps
        .steps
        .iter()
        .find(|step| step.id == "tell")
        .expect("it");
    assert_eq!(tell.latest.as_deref(), Some("2026-03-18"));
}
