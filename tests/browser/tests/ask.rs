//! A person with all figures at hand goes from an empty page to a plan that nothing in the rules stands against. The way
//! is counted, so that it does not grow unseen.

use std::cell::Cell;

use browser_checks::{Form, Outcome};
use serde_json::json;

/// The most clicks and answers that the way may take. Opening a list and choosing a line of it are two clicks.
const CLICKS: usize = 60;
const ANSWERS: usize = 45;

/// Somebody who fills in the form, and what they have done so far.
struct Person {
    form: Form,
    clicks: Cell<usize>,
    answers: Cell<usize>,
}

impl Person {
    fn new() -> Result<Self, browser_checks::Trouble> {
        let (clicks, answers) = (Cell::new(0), Cell::new(0));
        let form = Form::fresh()?;
        Ok(Self {
            form,
            clicks,
            answers,
        })
    }

    fn count(&self, clicks: usize, answers: usize) {
        self.clicks.set(self.clicks.get() + clicks);
        self.answers.set(self.answers.get() + answers);
    }

    /// Presses something that is not an answer.
    fn press(&self, css: &str) -> Outcome {
        self.count(1, 0);
        self.form.click(css)
    }

    /// Answers by one click.
    fn tick(&self, css: &str) -> Outcome {
        self.count(1, 1);
        self.form.click(css)
    }

    fn choose(&self, css: &str, value: &str) -> Outcome {
        self.count(2, 1);
        self.form.choose(css, value)
    }

    /// Clicks into a field, fills it in and leaves it with Tab.
    fn fill(&self, css: &str, text: &str) -> Outcome {
        self.count(1, 1);
        self.form.fill(css, text)
    }

    /// Fills in the field to which Tab led.
    fn go_on(&self, css: &str, text: &str) -> Outcome {
        self.count(0, 1);
        self.form.tab_to(css)?;
        self.form.type_text(text)?;
        self.form.press(browser_checks::Key::Tab)
    }
}

/// What nobody can rule out by looking.
const UNSEEN: [&str; 5] = [
    "septic-part",
    "well",
    "buried-service",
    "easement",
    "flood-area",
];

#[test]
fn nothing_stands_against_it_after_few_answers() -> Outcome {
    let person = Person::new()?;
    person.choose("#rules", "eldermere")?;
    person.choose("#at-applicant_role", "owner")?;
    person.tick("#at-works_already-built-no")?;
    person.press("#next-where")?;
    person.fill("#lot-width", "22")?;
    person.go_on("#lot-depth", "32")?;
    person.press("#next-lot")?;
    person.press("#pool-begin")?;
    person.tick("#at-pool_prefabricated-yes")?;
    person.fill("#at-pool_excavation-depth", "2")?;
    person.fill("#at-pool_shell", "0.25")?;
    person.fill("#at-pool_excavation", "1")?;
    person.press("#next-pool")?;
    person.tick("#at-inventory_road-yes")?;
    person.choose("#at-things_0_class", "municipal")?;
    person.tick("#all-road")?;
    person.press("#next-road")?;
    person.tick("#at-inventory_building-yes")?;
    person.fill("#at-things_1_wall_rectangle_length", "10")?;
    person.go_on("#at-things_1_wall_rectangle_width", "8")?;
    person.fill("#at-things_1_roof", "0.5")?;
    person.fill("#at-things_1_foundation-at-grade", "0")?;
    person.tick("#all-site")?;
    // Each of these is asked about by itself.
    for kind in UNSEEN {
        person.tick(&format!("#at-inventory_{kind}-none"))?;
    }
    person.press("#next-site")?;
    person.tick("#at-inventory_barrier-stretch-yes")?;
    person.fill("#at-things_2_height-outside", "1.5")?;
    for fact in ["gap-below", "opening", "rail-spacing"] {
        person.tick(&format!("#at-things_2_{fact}-none"))?;
    }
    person.tick("#at-inventory_gate-yes")?;
    person.tick("#at-things_3_opens-away")?;
    person.tick("#at-things_3_self-closing-yes")?;
    person.tick("#at-things_3_self-latching-yes")?;
    person.fill("#at-things_3_latch-height", "1.5")?;
    person.fill("#at-things_3_height", "1.5")?;
    person.fill("#at-things_3_gap-below", "40 mm")?;
    person.tick("#at-things_3_opening-none")?;
    person.tick("#all-barrier")?;
    person.press("#next-barrier")?;
    person.tick("#at-answers_plan-sets-distance-no")?;
    person.tick("#at-answers_rain-from-deck-own-ground")?;
    person.press("#next-questions")?;
    person.count(1, 0);
    person.go_on("#at-dates_applied", "03022026")?;
    person.choose("#sources-all", "+survey")?;
    for source in [0, 1] {
        person.fill(&format!("#at-sources_{source}_accuracy"), "20 mm")?;
        person.go_on(&format!("#at-sources_{source}_shift"), "0")?;
    }
    person
        .form
        .read("#verdict-word", "Nothing in these rules stands against")?;
    let (clicks, answers) = (person.clicks.get(), person.answers.get());
    assert!(
        clicks <= CLICKS && answers <= ANSWERS,
        "{clicks} clicks and {answers} answers"
    );
    // No rule is open, so what nobody has answered yet is folded away.
    person.form.click("#head-site")?;
    person.form.click("#thing-building summary")?;
    person.form.see("#thing-building .later")?;
    let shown = "return document.getElementById('at-things_1_footing-depth').checkVisibility();";
    assert_eq!(person.form.run(shown, json!([]))?, false);
    Ok(())
}

#[test]
fn one_answer_never_rules_out_what_nobody_can_see() -> Outcome {
    let form = Form::with_lot("22", "32")?;
    form.click("#head-site")?;
    form.read("#kind-buried-service", "Ask the locating service")?;
    form.click("#all-site")?;
    let said = form.kept()?["plan"]["inventory"].clone();
    assert_eq!(said["driveway"], "none", "{said}");
    for kind in UNSEEN {
        assert!(said[kind].is_null(), "{kind}: {said}");
    }
    Ok(())
}

#[test]
fn what_remains_is_listed_with_the_way_there() -> Outcome {
    let form = Form::with_lot("22", "32")?;
    form.click("#remains > summary")?;
    form.read("#remains", "To find out")?;
    form.read("#remains", "To ask others")?;
    form.read("#remains", "Papers to get")?;
    form.click("#remains [data-path='dates.applied']")?;
    form.until(
        "the field of the date to have the focus",
        "return document.activeElement?.id === 'at-dates_applied';",
        &json!([]),
    )
}

#[test]
fn a_plainly_bad_pool_is_said_to_be_bad_as_drawn() -> Outcome {
    let form = Form::with_lot("22", "32")?;
    form.tab_to("#drawing [data-path='pool']")?;
    for _ in 0..130 {
        form.press(browser_checks::Key::Up)?;
    }
    form.read("#as-drawn", "Pool to rear lot line")
}

#[test]
fn each_of_several_pools_has_a_cover_of_its_own() -> Outcome {
    let form = Form::with_lot("22", "32")?;
    form.click("#head-where")?;
    form.choose("#rules", "model-municipality")?;
    form.click("#head-pool")?;
    form.click("#pool-another")?;
    form.click("#head-site")?;
    form.click("#at-inventory_cover-yes")?;
    form.click("#kind-cover .add")?;
    let things = form.kept()?["plan"]["things"].clone();
    assert_eq!(things[0]["part-of"], "pool", "{things}");
    assert_eq!(things[1]["part-of"], "pool-2", "{things}");
    form.see("#at-things_1_part-of")
}
