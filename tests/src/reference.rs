//! The reference page of the vocabulary and of the words of a rule file.

use std::fmt::Write as _;

use crate::grammar_page;
use rules_core::quantity::{Unit, show_exactly};
use rules_core::schema;
use rules_core::text::capitalised;
use rules_core::vocabulary::{Answer, Fact, Kind, Number, Shape, Vocabulary};

/// The text before the table of kinds.
const HEAD: &str = include_str!("reference_head.md");

/// The whole page.
pub fn page(vocabulary: &Vocabulary) -> String {
    let schema = schema::rule_set(vocabulary);
    let mut page = HEAD
        .replace(
            "<requirements>\n",
            grammar_page::requirement(&schema).trim_start(),
        )
        .replace("<maps>\n", grammar_page::maps(&schema).trim_start());
    for (_, kind) in vocabulary.kinds() {
        let _ = write!(page, "\n### `{}`\n\n", kind.name);
        about(&mut page, kind);
        outlines(&mut page, vocabulary, kind);
        facts(&mut page, vocabulary, kind);
    }
    page
}

fn about(page: &mut String, kind: &Kind) {
    let said = capitalised(&kind.said);
    let number = match kind.number {
        Number::One => "There is always exactly one.",
        Number::AtMostOne => "There is one or none.",
        Number::Many => "There can be any number.",
    };
    let _ = writeln!(page, "{said}. {number} *{}*", kind.ask);
}

fn outlines(page: &mut String, vocabulary: &Vocabulary, kind: &Kind) {
    if kind.outlines.is_empty() {
        return;
    }
    let _ = write!(page, "\n| Outline | What is drawn | As |\n|---|---|---|\n");
    for outline in kind.outlines.iter().map(|id| vocabulary.outline(*id)) {
        let shape = match outline.shape {
            Shape::Point => "a point",
            Shape::Line => "a line",
            Shape::Area => "an area",
        };
        let _ = writeln!(
            page,
            "| `{}.{}` | {} | {shape}{} |",
            kind.name,
            outline.name,
            outline.said,
            if outline.none { "; or `none`" } else { "" }
        );
    }
}

fn facts(page: &mut String, vocabulary: &Vocabulary, kind: &Kind) {
    if kind.facts.is_empty() {
        return;
    }
    let _ = write!(
        page,
        "\n| Fact | What it can be | Question | How to find out |\n|---|---|---|---|\n"
    );
    for fact in kind.facts.iter().map(|id| vocabulary.fact(*id)) {
        let name = format!("{}.{}", kind.name, fact.name);
        let _ = writeln!(
            page,
            "| `{name}`<br>{} | {} | {} | {} |",
            fact.said,
            answers(fact),
            fact.ask,
            fact.how
        );
    }
}

fn answers(fact: &Fact) -> String {
    let mut can_be = match &fact.answer {
        Answer::YesNo => "`yes` or `no`".to_owned(),
        Answer::Word { words, open } => words_of(words, *open),
        Answer::Amount {
            dimension,
            least,
            most,
        } => {
            let unit = Unit::usual(*dimension);
            let shown = |amount: &Option<i128>| amount.map(|amount| show_exactly(amount, unit));
            let words = dimension.words();
            let example = dimension.example();
            match (shown(least), shown(most)) {
                (Some(least), Some(most)) => {
                    format!("{words} from {least} to {most}, such as {example}")
                }
                (Some(least), None) => format!("{words} of at least {least}, such as {example}"),
                (None, Some(most)) => format!("{words} of at most {most}, such as {example}"),
                (None, None) => format!("{words}, such as {example}"),
            }
        }
    };
    if fact.none {
        can_be += "; or `none`";
    }
    if fact.varies {
        can_be += "; it may vary along the thing: `{from: …, to: …}`";
    }
    can_be
}

fn words_of(words: &[String], open: bool) -> String {
    let listed = words
        .iter()
        .map(|word| format!("`{word}`"))
        .collect::<Vec<_>>()
        .join(", ");
    match (listed.is_empty(), open) {
        (true, _) => "a word of your own".to_owned(),
        (false, true) => format!("{listed}, or another word"),
        (false, false) => listed,
    }
}
