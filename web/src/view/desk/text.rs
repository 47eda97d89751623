//! The text, its lines, and the marks under what is wrong.

use rules_core::text::{FaultRow, Lines};

use super::super::keyed::{El, Piece, button, el};
use super::offers;
use crate::clerk::Found;
use crate::draft::{File, rules_held, with_draft};
use crate::words::t;

/// The field with its label, its line numbers and its list.
pub fn of(found: &Found) -> El {
    el("div").id("desk-text").with(files(found)).with(
        el("div")
            .class("editor")
            .id("desk-editor")
            .with(gutter(Some(found)))
            .with(
                el("div")
                    .class("sheet-of-text")
                    .with(marks(Some(found)))
                    .with(offers::field()),
            )
            .with(offers::list()),
    )
}

/// Which of the two texts is written: the rules or their cases.
fn files(found: &Found) -> El {
    let now = with_draft(|draft| draft.file);
    let inside = found
        .rules
        .as_ref()
        .is_some_and(|read| read.cases.is_some());
    let apart = !inside || !rules_held().cases.trim().is_empty();
    let pick = |file: File, id: &'static str, key: &str| {
        button("desk-file")
            .id(id)
            .set("data-file", id)
            .set("aria-pressed", if file == now { "true" } else { "false" })
            .with(t(key))
    };
    let key = match now {
        File::Rules => "desk.text",
        File::Cases => "desk.text-cases",
    };
    el("div")
        .class("row")
        .with(
            el("label")
                .class("ask")
                .set("for", "rules-text")
                .with(t(key)),
        )
        .with(apart.then(|| pick(File::Rules, "file-rules", "desk.file.rules")))
        .with(apart.then(|| pick(File::Cases, "file-cases", "desk.file.cases")))
}

/// What is marked in the text that is in the field: faults, then what looks like a slip.
fn marked(found: Option<&Found>) -> Vec<(&FaultRow, &'static str)> {
    let Some(found) = found else {
        return Vec::new();
    };
    if with_draft(|draft| draft.file) == File::Cases {
        let faults = found.cases.faults.iter();
        return faults.map(|row| (row, "fault")).collect();
    }
    let own = |row: &&crate::clerk::FileRow| row.file.is_none();
    let faults = found
        .faults
        .iter()
        .filter(own)
        .map(|row| (&row.row, "fault"));
    let slips = found.slips.iter().filter(own).map(|row| (&row.row, "odd"));
    faults.chain(slips).collect()
}

/// The line numbers, with a mark at each line that has a fault.
pub fn gutter(found: Option<&Found>) -> El {
    let lines = with_draft(|draft| draft.text.split('\n').count());
    let marked = marked(found);
    let kind = |line: usize| {
        let here = marked.iter().filter(|(row, _)| row.line == Some(line));
        here.map(|(_, kind)| *kind)
            .max_by_key(|kind| *kind == "fault")
    };
    let mut gutter = el("pre").id("gutter").set("aria-hidden", "true");
    let mut plain = String::new();
    for line in 1..=lines {
        match kind(line) {
            None => plain += &format!("{line}\n"),
            Some(kind) => {
                gutter = gutter.with(text(&mut plain));
                let mark = if kind == "fault" { "×" } else { "!" };
                let number = el("span").class(kind).set("data-line", line.to_string());
                gutter = gutter.with(number.with(Piece::Text(format!("{mark} {line}\n"))));
            }
        }
    }
    gutter.with(text(&mut plain))
}

fn text(plain: &mut String) -> Option<Piece> {
    (!plain.is_empty()).then(|| Piece::Text(std::mem::take(plain)))
}

/// The same text under the field, unseen but for the lines under what is wrong.
pub fn marks(found: Option<&Found>) -> El {
    let text = with_draft(|draft| draft.text.clone());
    let lines = Lines::new(&text);
    let mut places: Vec<(usize, usize, &str)> = marked(found)
        .into_iter()
        .filter_map(|(row, kind)| {
            let (start, end) = place(row, &lines)?;
            Some((start, end, kind))
        })
        .collect();
    places.sort_unstable();
    let mut moved = el("span").class("moved").id("desk-moved").with(
        el("span")
            .id("desk-ruler")
            .with(Piece::Text("0000000000".to_owned())),
    );
    let mut done = 0;
    for (start, end, kind) in places {
        if let (true, Some(before), Some(wrong)) =
            (start >= done, text.get(done..start), text.get(start..end))
        {
            moved = moved
                .with(Piece::Text(before.to_owned()))
                .with(el("u").class(kind).with(Piece::Text(wrong.to_owned())));
            done = end;
        }
    }
    let rest = text.get(done..).filter(|_| done > 0).unwrap_or_default();
    let moved = moved.with(Piece::Text(rest.to_owned()));
    el("pre").id("marks").set("aria-hidden", "true").with(moved)
}

/// The bytes that a fault underlines.
pub fn place(row: &FaultRow, lines: &Lines<'_>) -> Option<(usize, usize)> {
    let (line, column) = (row.line?, row.column?);
    let before = lines.line_text(line).chars().take(column.saturating_sub(1));
    let start = lines.start(line) + before.map(char::len_utf8).sum::<usize>();
    let long = row.underlined.as_ref().map_or(0, String::len);
    Some((start, start + long))
}
