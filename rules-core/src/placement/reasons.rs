//! Why nothing fits, and what a paper would add, as text.

use super::model::{PaperMap, PaperName, Placement, RuleNeeded, WhyNot};
use super::words::{MOST, turn_words};
use crate::report::text::Page;
use crate::ruleset::words::listed;
use crate::text::capitalised;

impl Placement {
    /// Why nothing fits. Where the same rules are the reason with all papers in hand, they are named once.
    pub(super) fn print_why_not(&self, page: &mut Page) {
        let (first, then) = match self.why_not.as_slice() {
            [] => return,
            [first, then @ ..] => (first, then.first()),
        };
        first.print(page);
        match then {
            Some(then) if then.is_for_the_same_rules(first) => {
                page.gap();
                page.paragraph(
                    2,
                    "Every paper that may still be got would change nothing here.",
                );
            }
            then => then.iter().for_each(|it| it.print(page)),
        }
    }

    /// What the papers that are not in hand would add, at each turn.
    pub(super) fn print_papers(&self, page: &mut Page) {
        for turn in self
            .turns
            .iter()
            .take(MOST)
            .filter(|it| !it.papers.is_empty())
        {
            page.heading(match self.turns.len() {
                1 => "What a paper that is not in hand would add",
                _ => "What a paper that is not in hand would add at one turn",
            });
            if self.turns.len() > 1 {
                page.paragraph(2, &format!("{}:", capitalised(&turn_words(turn.degrees))));
            }
            let none = turn.papers.first();
            for map in &turn.papers {
                page.item(2, "- ", &map.line(none.unwrap_or(map)));
            }
        }
    }
}

impl PaperName {
    fn words(&self) -> String {
        match &self.of {
            Some(of) => format!("{} ({of})", self.title),
            None => self.title.clone(),
        }
    }
}

fn papers(all: &[PaperName]) -> String {
    let all: Vec<String> = all.iter().map(PaperName::words).collect();
    listed(&all, "and")
}

impl PaperMap {
    /// The area where each rule holds, at least as drawn.
    fn room(&self) -> f64 {
        self.sure + self.as_drawn
    }

    /// What it has more than the map with none of the papers.
    fn line(&self, none: &PaperMap) -> String {
        let sure = format!("{:.1} m² for sure", self.sure);
        if self.with.is_empty() && self.room() == 0.0 {
            return "With none of them there is no room.".to_owned();
        }
        if self.with.is_empty() {
            return format!(
                "With none of them each rule holds on {:.1} m², {sure}.",
                self.room()
            );
        }
        let more = match self.room() - none.room() {
            more if more >= 0.05 => format!("{more:.1} m² more: {:.1} m², {sure}", self.room()),
            _ => "no more room".to_owned(),
        };
        let open = match self.open - none.open {
            more if more >= 0.05 => format!(", and {more:.1} m² more where the authority decides"),
            _ => String::new(),
        };
        let with = match self.with.len() {
            1 => papers(&self.with),
            _ => "All of them".to_owned(),
        };
        format!("{with}: {more}{open}.")
    }
}

impl WhyNot {
    fn print(&self, page: &mut Page) {
        page.heading(match self.with.is_empty() {
            true => "Why it fits nowhere",
            false => "Why it fits nowhere even with every paper that may be got",
        });
        page.paragraph(2, &self.sentence());
        for rule in &self.rules {
            page.item(2, "- ", &rule.words());
        }
        if self.unproved > 0.0 {
            let rest = format!(
                "This is not proved for {:.2} m² of places in narrow strips where one rule ends and the next begins.",
                self.unproved
            );
            page.paragraph(2, &rest);
        }
    }

    fn is_for_the_same_rules(&self, other: &WhyNot) -> bool {
        let ids = |why: &WhyNot| -> Vec<String> {
            why.rules.iter().map(|it| it.rule.id.clone()).collect()
        };
        ids(self) == ids(other) && self.sure >= other.sure && self.unproved <= other.unproved
    }

    fn sentence(&self) -> String {
        let sure = match self.sure {
            true => "however inaccurate the drawing is",
            false => "if everything is where it is drawn",
        };
        match self.rules.len() {
            0 => format!("The pool is too large for the lot, {sure}: no place keeps it inside."),
            1 => format!("One rule is enough to rule out every place on the lot, {sure}:"),
            many => format!(
                "{many} rules together rule out every place on the lot, {sure}. Fewer do not: without any one of them there is a \
                 place that none of the others rules out."
            ),
        }
    }
}

impl RuleNeeded {
    fn words(&self) -> String {
        let turned = match self.degrees == 0.0 {
            true => String::new(),
            false => format!(", turned by {}°", self.degrees),
        };
        format!(
            "{}: it alone rules out the middle at ({}, {}){turned}",
            self.rule.title, self.middle[0], self.middle[1]
        )
    }
}
