//! What came of the cases, as text.

use super::{EdgeCase, Shown, Tried};

/// What came of the cases: what came out otherwise than it should, and what they have shown of each rule.
pub fn tried_to_text(tried: &[Tried], shown: &[Shown]) -> String {
    let wrong: Vec<&Tried> = tried.iter().filter(|case| !case.wrong.is_empty()).collect();
    let mut text = match wrong.len() {
        0 => format!("All {} cases come out as they should.\n", tried.len()),
        some => format!(
            "{some} of {} cases come out otherwise than they should.\n",
            tried.len()
        ),
    };
    for case in wrong {
        text += &format!("\n  {} (case `{}`)\n", case.title, case.case);
        for wrong in &case.wrong {
            text += &format!("    {wrong}\n");
        }
    }
    text + &shown_to_text(shown)
}

fn shown_to_text(shown: &[Shown]) -> String {
    let width = width(shown.iter().map(|one| one.rule.as_str()).chain(["rule"]));
    let mut text = format!(
        "\nWhat the cases have shown of each rule\n\n  {:width$}  passing  failing  open\n",
        "rule"
    );
    let word = |shown| if shown { "yes" } else { "no" };
    for one in shown {
        let [passing, failing, open] = [one.passing, one.failing, one.open].map(word);
        text += &format!("  {:width$}  {passing:7}  {failing:7}  {open}\n", one.rule);
    }
    let lacking = shown.iter().filter(|one| !one.lacking().is_empty()).count();
    text + &match lacking {
        0 => "\nEach rule was shown passing, failing and open.\n".to_owned(),
        1 => "\nOne rule was not shown in all three ways: a slip in it could go unnoticed.\n"
            .to_owned(),
        more => format!(
            "\n{more} rules were not shown in all three ways: a slip in them could go unnoticed.\n"
        ),
    }
}

/// What the rules come to at the edges of their limits.
pub fn edges_to_text(edges: &[EdgeCase]) -> String {
    let mut text = "\nAt the edges of the limits\n".to_owned();
    if edges.is_empty() {
        text += "\n  No rule has a stated limit on a single fact.\n";
    }
    for limit in edges {
        text += &format!("\n  Rule `{}`, {}\n", limit.rule, limit.limit);
        match &limit.case {
            None => text += "    No case is one in which it applies.\n",
            Some(case) => text += &format!("    made from case `{case}`\n"),
        }
        let amounts = width(limit.edges.iter().map(|edge| edge.amount.as_str()));
        for edge in &limit.edges {
            text += &format!(
                "    {:12}  {:amounts$}  {}\n",
                edge.place,
                edge.amount,
                edge.outcome.word()
            );
        }
    }
    text
}

/// How many characters the longest of them has.
fn width<'t>(texts: impl Iterator<Item = &'t str>) -> usize {
    texts
        .map(|text| text.chars().count())
        .max()
        .unwrap_or_default()
}
