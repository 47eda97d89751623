//! Names put together of an answer and a kind, such as `rear-line`: what to write for the things that they mean.

use super::{Reader, parts};
use crate::ruleset::read::take::as_short_name;
use crate::vocabulary::{Answer, FactId};

/// The side of a lot on which a yard lies, by the word that people say for it.
const SIDES: [&str; 3] = ["rear", "front", "side"];

impl Reader<'_> {
    /// The term to define for a name that is an answer and a kind: `rear-line: {kind: lot-line, where: …}`.
    pub(super) fn term_for_choice(&self, name: &str) -> Option<String> {
        let term = as_short_name(name);
        let at = term.match_indices('-').map(|(at, _)| at);
        let mut cuts = at.filter_map(|at| Some((term.get(..at)?, term.get(at + 1..)?)));
        let (word, fact) = cuts.find_map(|(first, second)| {
            let after = || Some((second, self.answer_after(first, second)?));
            let before = self.answered(first, second).map(|fact| (first, fact));
            before.or_else(after)
        })?;
        let path = self.vocabulary.fact_path(fact);
        let kind = parts(&path).0;
        Some(format!(
            "{term}: {{kind: {kind}, where: {{fact: {path}, is: {word}}}}}"
        ))
    }

    /// The fact of a kind, which is named by its first words, that has the word after them among its answers: `tank` in
    /// `septic-tank`, of a `septic-part`.
    fn answer_after(&self, kind: &str, word: &str) -> Option<FactId> {
        let named = |name: &str| {
            let rest = name.strip_prefix(kind);
            rest.is_some_and(|rest| rest.starts_with('-'))
        };
        let kinds = self.vocabulary.kinds();
        let mut facts = kinds
            .filter(|(_, it)| named(&it.name))
            .flat_map(|(_, it)| it.facts.iter().copied());
        facts.find(|&fact| self.has_answer(fact, word))
    }

    fn has_answer(&self, fact: FactId, word: &str) -> bool {
        matches!(&self.vocabulary.fact(fact).answer, Answer::Word { words, .. } if words.iter().any(|it| it == word))
    }

    /// The fact of a kind, which may be named by its last word and in the plural, that has this word among its answers.
    fn answered(&self, word: &str, kind: &str) -> Option<FactId> {
        let kind = kind.strip_suffix('s').unwrap_or(kind);
        let named = |name: &str| {
            let rest = name.strip_suffix(kind);
            rest.is_some_and(|rest| rest.is_empty() || rest.ends_with('-'))
        };
        let kinds = self.vocabulary.kinds();
        let mut facts = kinds
            .filter(|(_, it)| named(&it.name) || it.also.contains(&kind))
            .flat_map(|(_, it)| it.facts.iter().copied());
        facts.find(|&fact| self.has_answer(fact, word))
    }

    /// The term to define for the yard that a name means: `rear-yard: {between: …}`.
    pub(super) fn term_for_yard(&self, name: &str) -> Option<String> {
        let term = as_short_name(name);
        let side = SIDES.iter().find(|side| term.contains(**side))?;
        term.contains("yard").then(|| format!(
            "{term}: {{between: [{{kind: lot-line.line, where: {{fact: lot-line.faces, is: {side}}}}}, {{kind: building.{side}-wall, where: {{fact: building.rank, is: principal}}}}]}}"
        ))
    }
}
