//! Where a pool could go, as text.

use super::Class;
use super::model::{Measure, Offer, Placement, RuleName, RuleThere, Slide, TurnReport};
use crate::check::Outcome;
use crate::report::text::{Page, Style};
use crate::ruleset::words::listed;
use crate::text::Visible;
use crate::text::capitalised;

/// The most items to print of a list.
pub(super) const MOST: usize = 12;

impl Placement {
    /// As text.
    pub fn to_text(&self) -> Visible {
        let mut page = Page::new(Style::default());
        page.paragraph(0, &self.plan);
        page.paragraph(0, &format!("under {}", self.rules));
        page.gap();
        page.paragraph(0, &self.sentence);
        self.print_left_aside(&mut page);
        self.map(&mut page);
        for (number, option) in (1..).zip(&self.options) {
            page.heading(&format!("{number}. {}", option.heading()));
            option.print(&mut page);
        }
        self.print_side_by_side(&mut page);
        self.print_why_not(&mut page);
        self.print_papers(&mut page);
        self.print_smaller(&mut page);
        self.print_blocks(&mut page);
        self.print_cautions(&mut page);
        page.finish()
    }

    /// The rules that are left out of what follows.
    fn print_left_aside(&self, page: &mut Page) {
        if !self.open_anyway.is_empty() {
            page.heading("Open wherever the pool is put");
            page.paragraph(2, &self.open_sentence());
            names(page, &self.open_anyway);
        }
        if !self.questions.is_empty() {
            page.gap();
            page.paragraph(2, "What would have to be known for them:");
            items(
                page,
                self.questions.iter().map(|it| it.missing.question.clone()),
            );
        }
        if !self.fails_anyway.is_empty() {
            page.heading("Fails wherever the pool is put");
            page.paragraph(
                2,
                "Moving the pool cannot mend these; what follows leaves them aside.",
            );
            names(page, &self.fails_anyway);
        }
        if self.tapes_left_aside > 0 {
            page.gap();
            page.paragraph(0, "Tape readings to the pool are true only of where it is drawn. They are left aside here.");
        }
    }

    fn open_sentence(&self) -> String {
        let (rules, wait) = match self.open_anyway.len() {
            1 => ("1 rule".to_owned(), "waits"),
            many => (format!("{many} rules"), "wait"),
        };
        format!(
            "{rules} {wait} for an answer, a paper or the authority in every place that was tried and did not fail. What \
             follows leaves out the places that surely break such a rule, and says nothing more of it."
        )
    }

    fn map(&self, page: &mut Page) {
        page.heading("Where the middle of the pool may lie");
        for turn in self.turns.iter().take(MOST) {
            page.item(2, &format!("{}: ", turn_words(turn.degrees)), &turn.areas());
        }
        more(page, self.turns.len());
    }

    /// The places on offer by the same measures, as drawn.
    fn print_side_by_side(&self, page: &mut Page) {
        let [first, _, ..] = self.options.as_slice() else {
            return;
        };
        page.heading("The places side by side, as drawn");
        for measure in &first.measures {
            page.paragraph(2, &measure.what);
            let options = self.options.iter();
            let says: Vec<&str> = options.map(|option| option.says(measure)).collect();
            if says.iter().all(|it| *it == measure.says) {
                page.item(4, "all: ", &measure.says);
                continue;
            }
            for (number, says) in (1..).zip(says) {
                page.item(4, &format!("{number}: "), says);
            }
        }
    }

    fn print_smaller(&self, page: &mut Page) {
        let Some(smaller) = &self.smaller else { return };
        page.heading("The same shape, smaller");
        page.paragraph(
            2,
            &format!(
                "With each length that is drawn of it at {} % there is a place for it; with 1 % more none was found. Depth, \
                 volume and whatever else is stated of the pool stay as stated.",
                percent(smaller.thousandths)
            ),
        );
        page.gap();
        smaller.offer.print(page);
    }

    fn print_blocks(&self, page: &mut Page) {
        if self.blocks.is_empty() {
            return;
        }
        page.heading("What rules out how much of the lot, each rule by itself");
        for block in self.blocks.iter().take(MOST) {
            let share = (block.places * 100).div_ceil(block.of.max(1));
            page.item(2, &format!("{share:>3} %  "), &block.rule.title);
        }
        more(page, self.blocks.len());
        page.gap();
        let tried = self.blocks.first().map_or(0, |block| block.of);
        page.paragraph(
            2,
            &format!("Counted over {tried} places, evenly spread over the lot."),
        );
    }

    fn print_cautions(&self, page: &mut Page) {
        page.heading("Take care");
        page.item(2, "- ", HEIGHTS);
        for caution in &self.cautions {
            page.item(2, "- ", &caution.says);
        }
        page.gap();
        page.paragraph(0, &self.disclaimer);
    }
}

const HEIGHTS: &str = "What is stated of the pool is taken to be true in every place: its depth, its height above the ground, \
    what lies below it. In a new place the ground may be different. Have the place staked out and looked at before anybody \
    plans on it.";

impl TurnReport {
    fn areas(&self) -> String {
        let parts = [
            (self.sure, "where each rule surely holds"),
            (self.as_drawn, "as drawn, but not for sure"),
            (self.open, "open for want of an answer or a paper"),
            (self.edge, "on the edges between"),
        ];
        let some = parts.into_iter().filter(|(area, _)| *area > 0.0);
        let some: Vec<String> = some
            .map(|(area, what)| format!("{area:.1} m² {what}"))
            .collect();
        match some.is_empty() {
            true => "nowhere".to_owned(),
            false => some.join("; "),
        }
    }
}

impl Offer {
    /// What a measure of another place comes to here.
    fn says(&self, measure: &Measure) -> &str {
        let same = |it: &&Measure| it.what == measure.what && it.rule == measure.rule;
        self.measures
            .iter()
            .find(same)
            .map_or("not known", |it| &it.says)
    }

    fn heading(&self) -> String {
        let why: Vec<String> = self
            .why
            .iter()
            .map(|why| match *why {
                "nearest" => "the nearest place".to_owned(),
                "most-room" => "the place with the most room".to_owned(),
                _ => "another place".to_owned(),
            })
            .collect();
        let how = match self.holds {
            Class::Sure => "each of these rules surely holds",
            Class::AsDrawn => "each of these rules holds as drawn",
            _ => "none of these rules fails for sure",
        };
        capitalised(&format!("{}: {how}", listed(&why, "and")))
    }

    fn print(&self, page: &mut Page) {
        page.paragraph(
            2,
            &format!(
                "{} The middle is then at ({}, {}).",
                self.moved, self.middle[0], self.middle[1]
            ),
        );
        page.gap();
        let fine = |rule: &&RuleThere| matches!(rule.outcome, Outcome::Pass);
        for rule in self.rules.iter().filter(fine) {
            page.item(2, "- ", &rule.line());
        }
        let open =
            |rule: &&RuleThere| !matches!(rule.outcome, Outcome::Pass | Outcome::NotApplicable);
        if self.rules.iter().any(|rule| open(&rule)) {
            page.paragraph(2, "Still to be checked there:");
            for rule in self.rules.iter().filter(open) {
                page.item(2, "? ", &rule.line());
            }
        }
        if !self.slides.is_empty() {
            page.gap();
            let slides: Vec<String> = self.slides.iter().map(Slide::words).collect();
            page.paragraph(
                2,
                &format!("From there it can slide {}.", listed(&slides, "and")),
            );
        }
        page.gap();
        page.paragraph(
            2,
            &format!(
                "The whole plan with the pool there: {}",
                self.verdict.sentence
            ),
        );
    }
}

impl RuleThere {
    fn line(&self) -> String {
        match self.brief.is_empty() {
            true => self.title.clone(),
            false => format!("{}: {}", self.title, self.brief),
        }
    }
}

impl Slide {
    fn words(&self) -> String {
        match self.stopped_by.is_empty() {
            true => format!("more than {} {}", self.distance, self.to),
            false => format!(
                "{} {} ({})",
                self.distance,
                self.to,
                self.stopped_by.join("; ")
            ),
        }
    }
}

/// How the pool is turned.
pub(super) fn turn_words(degrees: f64) -> String {
    match degrees == 0.0 {
        true => "as it is turned now".to_owned(),
        false => format!("turned by {degrees}°"),
    }
}

fn percent(thousandths: i64) -> String {
    format!("{}.{}", thousandths / 10, thousandths % 10)
}

fn names(page: &mut Page, rules: &[RuleName]) {
    items(page, rules.iter().map(|rule| rule.title.clone()));
}

fn items(page: &mut Page, all: impl ExactSizeIterator<Item = String>) {
    let many = all.len();
    for one in all.take(MOST) {
        page.item(2, "- ", &one);
    }
    more(page, many);
}

fn more(page: &mut Page, many: usize) {
    if many > MOST {
        page.paragraph(2, &format!("… and {} more.", many - MOST));
    }
}
