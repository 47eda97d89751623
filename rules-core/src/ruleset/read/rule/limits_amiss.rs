//! Limits that are a list, or that have no unit where they are defined.

use crate::faults::Code;
use crate::quantity::Dimension;
use crate::ruleset::read::Reader;
use crate::ruleset::read::value::is_amount;
use crate::text::{Entry, Node};
use crate::vocabulary::{Answer, Role};

impl Reader<'_> {
    /// Reports a limit that is a list of two amounts. Returns whether it was one.
    pub(super) fn two_limits(&mut self, entry: &Entry) -> bool {
        let amount = |node: &Node| {
            node.text()
                .filter(|text| is_amount(text))
                .map(str::to_owned)
        };
        let Some([one, other]) = entry.value.as_list() else {
            return false;
        };
        let (Some(one), Some(other)) = (amount(one), amount(other)) else {
            return false;
        };
        let key = &entry.key;
        let message = format!("One amount is expected after `{key}`, not a list.");
        self.fault(Code::NotAValue, entry.value.span, message).help(format!(
            "Two limits are `at-least: {one}` and `at-most: {other}`. Where only the larger counts, write `{key}: {{largest-of: [{one}, {other}]}}`."
        ));
        true
    }

    /// Reports a term that is a figure without a unit, where it is used as an amount with one. Returns whether it is.
    pub(super) fn term_without_unit(
        &mut self,
        term: &str,
        found: Dimension,
        wanted: Dimension,
    ) -> bool {
        let slot = self
            .term_by_name
            .get(term)
            .and_then(|at| self.terms.get(*at));
        let written =
            slot.and_then(|slot| Some((slot.item.node.text()?.to_owned(), slot.item.node.span)));
        let Some((figure, span)) = written.filter(|_| found == Dimension::Number) else {
            return false;
        };
        let example = wanted.example().split('`').nth(1).unwrap_or_default();
        let unit = example.split_once(' ').map_or("", |(_, unit)| unit);
        let message = format!(
            "`{figure}` has no unit, and `{term}` is used as {}.",
            wanted.words()
        );
        self.fault(Code::BadAmount, span, message)
            .help(format!("Write its unit, as in `{term}: {figure} {unit}`."));
        true
    }

    /// A question of the rule set that is answered with an amount of this sort.
    pub(super) fn question_of(&self, wanted: Dimension) -> Option<String> {
        let answers = self.vocabulary.with_role(Role::Answers)?;
        let facts = self.vocabulary.kind(answers).facts.iter();
        let mut facts = facts.map(|fact| self.vocabulary.fact(*fact));
        let fits = |answer: &Answer| matches!(answer, Answer::Amount { dimension, .. } if *dimension == wanted);
        Some(facts.find(|fact| fits(&fact.answer))?.name.clone())
    }
}
