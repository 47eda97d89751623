//! The field, the list of what may be written at its cursor, and help for what stands there.

use rules_core::hints::{About, Offer};

use super::super::keyed::{El, button, el};
use super::super::prose::prose;
use crate::draft::with_draft;
use crate::words::{fill, t};

/// The most offers that are shown at once; whoever types on finds the others.
pub const MOST_SHOWN: usize = 40;

/// The field in which the text is written.
pub fn field() -> El {
    let (is_open, chosen) = with_draft(|draft| {
        let offers = draft.offers.as_ref();
        (offers.is_some(), offers.and_then(|offers| offers.chosen))
    });
    let field = el("textarea")
        .id("rules-text")
        .set("spellcheck", "false")
        .set("autocapitalize", "off")
        .set("autocomplete", "off")
        .set("wrap", "off")
        .set("aria-autocomplete", "list")
        .set("aria-describedby", "desk-faults desk-keys");
    let field = if is_open {
        field.set("aria-controls", "offers")
    } else {
        field
    };
    match chosen {
        Some(chosen) => field.set("aria-activedescendant", format!("offer-{chosen}")),
        None => field,
    }
}

/// What may be written at the cursor.
pub fn list() -> El {
    let list = el("ul").id("offers").set("role", "listbox");
    let list = list.set("aria-label", t("desk.offers"));
    let offers = with_draft(|draft| draft.offers.clone());
    let Some(offers) = offers else {
        return list.is("hidden", true);
    };
    let each = offers.hints.offers.iter().take(MOST_SHOWN).enumerate();
    list.each(each.map(|(number, offer)| one(number, offer, offers.chosen == Some(number))))
}

fn one(number: usize, offer: &Offer, is_chosen: bool) -> El {
    el("li")
        .id(format!("offer-{number}"))
        .set("role", "option")
        .set("aria-selected", if is_chosen { "true" } else { "false" })
        .does("offer-taken")
        .set("data-n", number.to_string())
        .said()
        .with(el("b").with(&offer.word))
        .with(el("span").with(" ").with(prose(&offer.says)))
}

/// What stands at the cursor, or under the pointer, in sentences.
pub fn help() -> El {
    let (about, is_over) = with_draft(|draft| match draft.over {
        Some(over) => (draft.hints_at(over).about, true),
        None => (draft.hints_at(draft.at).about, false),
    });
    let head = if is_over {
        "desk.help.over"
    } else {
        "desk.help"
    };
    let none = about.is_empty();
    el("section")
        .id("desk-help")
        .with(
            el("div").class("row").with(el("h3").with(t(head))).with(
                button("offers-asked")
                    .id("offers-ask")
                    .with(t("desk.offers.ask")),
            ),
        )
        .with(none.then(|| el("p").class("hint").with(t("desk.help.none"))))
        .with((!none).then(|| el("dl").each(about.iter().flat_map(of_word))))
        .with(el("p").id("desk-keys").class("hint").with(t("desk.keys")))
}

fn of_word(about: &About) -> [El; 2] {
    let takes = about.takes.iter();
    let example = (!about.example.is_empty()).then(|| {
        let example = fill("desk.help.example", &[("example", "")]);
        el("p")
            .with(example)
            .with(el("code").said().with(&about.example))
    });
    [
        el("dt")
            .said()
            .with(el("b").class("named").with(&about.name)),
        el("dd")
            .with((!about.says.is_empty()).then(|| el("p").said().with(prose(&about.says))))
            .each(takes.map(|takes| {
                let lead = el("span").with(t("desk.help.takes")).with(" ");
                el("p")
                    .class("hint")
                    .with(lead)
                    .with(el("span").said().with(prose(takes)))
            }))
            .with(example),
    ]
}
