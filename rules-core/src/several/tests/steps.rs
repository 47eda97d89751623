//! The steps of several rule sets in one order.

use super::*;
use crate::several::steps_together;
use crate::steps::{Steps, day};

fn stepped(sets: &[&str]) -> Result<Steps, Refusal> {
    let start = day("2026-03-02").expect("a day");
    of_files(sets, "", |sets| steps_together(&plan(""), sets, start))
}

/// Counted by hand: 14 days after 2 March is 16 March, and 5 days later is 21 March.
#[test]
fn the_steps_of_all_rule_sets_are_put_in_one_order() {
    let a = depth("a", "2 m")
        + "do:\n  - {id: notify, before: dig, by: 14 days}\n  - {id: call, after: permit}\n";
    let b = depth("b", "2 m")
        + "do:\n  - {id: dig, after: permit, takes: 5 days}\n  - {id: notify, before: dig, by: 14 days}\n";
    let steps = stepped(&[&a, &b]).expect("no circle");
    let said: Vec<_> = (steps.steps.iter())
        .map(|step| format!("{} {} {}", step.id, step.earliest, step.done))
        .collect();
    let expected = [
        "notify 2026-03-02 2026-03-02",
        "permit 2026-03-02 2026-03-02",
        "call 2026-03-02 2026-03-02",
        "dig 2026-03-16 2026-03-21",
    ];
    assert_eq!(said, expected);
    let by: Vec<_> = steps
        .steps
        .iter()
        .map(|step| step.rule_sets.join(" "))
        .collect();
    assert_eq!(by, ["a b", "", "a", "b"]);
}

/// 2 March 2026 is a Monday. Five working days later is Monday the 9th, or Saturday the 7th if only Sundays are free.
#[test]
fn each_rule_set_counts_its_own_working_days() {
    let duty = "do: [{id: wait, takes: 5 working days}]\n";
    let a = depth("a", "2 m") + duty + "calendar: {weekend: [saturday, sunday]}\n";
    let b = depth("b", "2 m") + duty + "calendar: {weekend: [sunday]}\n";
    let steps = stepped(&[&a, &b]).expect("no circle");
    let said: Vec<_> = (steps.steps.iter())
        .map(|step| format!("{} {}", step.id, step.done))
        .collect();
    assert_eq!(said, ["a/wait 2026-03-09", "b/wait 2026-03-07"]);
}

#[test]
fn steps_of_two_rule_sets_that_wait_for_each_other_are_refused() {
    let a = depth("a", "2 m") + "do: [{id: first, before: fill, after: dig}]\n";
    let b = depth("b", "2 m") + "do: [{id: second, before: dig, after: fill}]\n";
    let refusal = stepped(&[&a, &b]).expect_err("a circle");
    assert!(
        refusal
            .show("plan", "rules")
            .contains("wait for each other in a circle")
    );
}
