//! What is wrong with the text, in a list.

use rules_core::text::FaultRow;

use super::super::keyed::{El, button, el};
use super::super::prose::{prose, told};
use crate::clerk::{FileRow, Found};
use crate::draft::{File, rules_held};
use crate::words::{count, fill, t};

/// The faults and what looks like a slip, each with a way to its line.
pub fn of(found: &Found) -> El {
    let faults = found.faults.len() + found.cases.faults.len();
    let head = match faults {
        0 if rules_held().text.trim().is_empty() => t("desk.empty"),
        0 => t("desk.clean"),
        faults => count("desk.faults", faults),
    };
    let slips = found.slips.len() + found.unasked.len();
    let cases = found.cases.faults.iter();
    let file = match rules_held().cases.trim().is_empty() {
        true => File::Rules,
        false => File::Cases,
    };
    el("section")
        .id("desk-faults")
        .set("role", "status")
        .with(el("h3").with(head))
        .with((slips > 0).then(|| el("p").class("hint").with(count("desk.slips", slips))))
        .with(
            el("ul")
                .each(found.faults.iter().map(|one| row(one, "fault")))
                .each(cases.map(|one| of_row(one, "fault", file)))
                .each(found.slips.iter().map(|one| row(one, "odd")))
                .each(found.unasked.iter().map(|one| {
                    el("li")
                        .class("odd")
                        .with(el("span").said().with(prose(one)))
                })),
        )
}

fn row(one: &FileRow, kind: &'static str) -> El {
    match &one.file {
        None => of_row(&one.row, kind, File::Rules),
        Some(file) => el("li")
            .class(kind)
            .with(file)
            .with(" ")
            .with(message(&one.row)),
    }
}

fn message(row: &FaultRow) -> El {
    told(&row.message, row.help.as_deref())
}

fn of_row(row: &FaultRow, kind: &'static str, file: File) -> El {
    let line = row.line.map(|line| {
        let said = fill("desk.line", &[("n", &line.to_string())]);
        button("line-shown")
            .class("plain")
            .set("data-line", line.to_string())
            .set("data-column", row.column.unwrap_or(1).to_string())
            .set("data-word", row.underlined.clone().unwrap_or_default())
            .set(
                "data-file",
                if file == File::Cases {
                    "file-cases"
                } else {
                    "file-rules"
                },
            )
            .with(said)
    });
    el("li").class(kind).with(line).with(" ").with(message(row))
}
