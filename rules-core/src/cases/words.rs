//! The results of the cases, as text.

use super::{Shown, Tried};
use crate::text::Visible;

/// The results of the cases: what did not come out as expected, and which outcomes they have shown for each rule.
pub fn tried_to_text(tried: &[Tried], shown: &[Shown]) -> Visible {
    let wrong: Vec<&Tried> = tried.iter().filter(|case| !case.wrong.is_empty()).collect();
    let all = tried.len();
    let mut text = Visible::new();
    text.line(match wrong.len() {
        0 => format!("All {all} cases come out as expected."),
        some => format!("{some} of {all} cases did not come out as expected."),
    });
    for case in wrong {
        text.gap();
        text.line(format!("  {} (case `{}`)", case.title, case.case));
        text.extend(case.wrong.iter().map(|wrong| format!("    {wrong}")));
    }
    text.gap();
    add_shown(shown, &mut text);
    text
}

fn add_shown(shown: &[Shown], text: &mut Visible) {
    if shown.is_empty() {
        text.line(
            "The file has no rules of its own that a case could show passing, failing and open.",
        );
        return;
    }
    let width = width(shown.iter().map(|one| one.rule.as_str()).chain(["rule"]));
    text.line("What the cases have shown of each rule");
    text.gap();
    text.line(format!("  {:width$}  passing  failing  open", "rule"));
    let word = |shown| if shown { "yes" } else { "no" };
    for one in shown {
        let [passing, failing, open] = [one.passing, one.failing, one.open].map(word);
        let rule = &one.rule;
        text.line(format!("  {rule:width$}  {passing:7}  {failing:7}  {open}"));
    }
    let untouched: Vec<&Shown> = shown
        .iter()
        .filter(|one| one.lacking().len() == 3)
        .collect();
    if !untouched.is_empty() {
        text.gap();
        text.line("No case touches");
        text.gap();
        text.extend(
            untouched
                .iter()
                .map(|one| format!("  {} (rule `{}`)", one.clause, one.rule)),
        );
    }
    let lacking = shown.iter().filter(|one| !one.lacking().is_empty()).count();
    text.gap();
    text.line(match lacking {
        0 => "Each rule was shown passing, failing and open.".to_owned(),
        1 => {
            "One rule was not shown in all three ways: a slip in it could go unnoticed.".to_owned()
        }
        more => format!(
            "{more} rules were not shown in all three ways: a slip in them could go unnoticed."
        ),
    });
}

/// The length of the longest text, in characters.
pub(crate) fn width<'t>(texts: impl Iterator<Item = &'t str>) -> usize {
    texts
        .map(|text| text.chars().count())
        .max()
        .unwrap_or_default()
}
