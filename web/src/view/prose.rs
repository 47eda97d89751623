//! Sentences with names and figures in them.

use super::keyed::{El, Piece, Within, el};

/// The units that stay on one line with their figure.
const UNITS: [&str; 9] = ["mm", "cm", "m", "ft", "in", "kV", "V", "m2", "dB"];

/// A sentence with names between backticks: each name is set off from the words around it.
pub fn prose(text: &str) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for (at, part) in held_together(text).split('`').enumerate() {
        match at % 2 {
            0 => part.put(&mut pieces),
            _ => el("b").class("named").with(part).put(&mut pieces),
        }
    }
    pieces
}

/// Keeps a figure and its unit on one line.
fn held_together(text: &str) -> String {
    let mut held = String::with_capacity(text.len());
    for (at, letter) in text.char_indices() {
        let (before, after) = (text.get(..at), text.get(at + letter.len_utf8()..));
        let figure = before.is_some_and(|before| before.ends_with(|c: char| c.is_ascii_digit()));
        let joined = letter == ' ' && figure && after.is_some_and(begins_with_unit);
        held.push(if joined { '\u{a0}' } else { letter });
    }
    held
}

fn begins_with_unit(text: &str) -> bool {
    let word = text.split(|c: char| !c.is_ascii_alphanumeric()).next();
    word.is_some_and(|word| UNITS.contains(&word))
}

/// What is wrong or asked, and what would help, in the library's words.
pub fn told(message: &str, help: Option<&str>) -> El {
    let help = help.map(|help| {
        let mut pieces = prose(help);
        pieces.insert(0, Piece::Text(" ".to_owned()));
        pieces
    });
    el("span").said().with(prose(message)).with(help)
}

#[cfg(test)]
mod tests {
    use super::held_together;

    #[test]
    fn a_figure_keeps_its_unit() {
        let text = "3.2 m, 900 mm, 12 ft, 4 ft 6 in";
        let held = text
            .replace(" m", "\u{a0}m")
            .replace(" ft", "\u{a0}ft")
            .replace(" in", "\u{a0}in");
        assert_eq!(held_together(text), held);
    }
}
