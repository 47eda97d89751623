//! The part of the form that asks for something, and the way there.

use super::go::go_to_field;
use crate::asked::asked_now;
use crate::held::with;
use crate::looks::with_looks;
use crate::plan::kind_at;

/// Opens the part of the form that holds a field, and goes there.
pub fn go_to(path: &str, field: String) {
    open(&part_of(path), field);
}

/// Opens a part of the form, and goes to a field in it, or else to its head.
pub fn open(part: &str, field: String) {
    with_looks(|looks| {
        looks.open = Some(part.to_owned());
        "form".clone_into(&mut looks.view);
    });
    go_to_field(vec![field, format!("head-{part}")]);
}

/// The part of the form with a path of the plan.
fn part_of(path: &str) -> String {
    let part = match path.split('.').next().unwrap_or_default() {
        section @ ("lot" | "pool") => Some(section.to_owned()),
        "answers" => Some("questions".to_owned()),
        "dates" | "sources" => Some("sure".to_owned()),
        _ => with(|session| kind_at(session.plan(), path)).and_then(|kind| part_of_kind(&kind)),
    };
    part.unwrap_or_else(|| "where".to_owned())
}

/// The part of the form that asks about a kind.
pub fn part_of_kind(kind: &str) -> Option<String> {
    let asked = asked_now()?;
    Some(asked.kind(kind)?.part.to_owned())
}
