//! Lines that begin in the wrong column, or that belong to the line above.

use super::super::Span;
use super::{Begun, Cure, Refused, begun, is_key};

impl<'t> Refused<'t> {
    /// A key or a dash in a column in which nothing above begins.
    pub(super) fn indented(&self) -> Option<Cure> {
        let own = begun(self.text)?;
        match (own.dash, own.key) {
            (Some(dash), _) => self.dash_aside(dash),
            (None, Some((key, _))) => self.key_aside(key, own.column),
            (None, None) => self.no_item(),
        }
    }

    /// A line in a list that is no item of it: a heading, or one with a number.
    pub(super) fn no_item(&self) -> Option<Cure> {
        let said = self.text.trim();
        if let Some(line) = self.braced_above() {
            return Some(Cure::new(
                "Several things stand below each other here, and none of them begins with `- `.",
                format!("Put `- ` before each: `- {line}` and `- {said}`."),
            ));
        }
        let (number, rest) = said.split_once(['.', ')']).unwrap_or_default();
        let numbered = !number.is_empty() && number.chars().all(|c| c.is_ascii_digit());
        Some(match numbered && !rest.is_empty() {
            true => Cure::new(
                "Items of a list are not numbered.",
                format!("Write `- {}`.", rest.trim()),
            ),
            false => Cure::new(
                "This line is no item of the list above it.",
                format!(
                    "If it is a heading, put `# ` before it: `# {said}`. If it is an item, put `- ` before it, in the column of the others."
                ),
            ),
        })
    }

    /// The line above, where it and this one both are in braces and begin in one column.
    fn braced_above(&self) -> Option<&'t str> {
        let above = self.lines.line_text(self.line.checked_sub(1)?);
        let [own, other] = [self.text, above].map(|text| text.len() - text.trim_start().len());
        let braced = [self.text, above]
            .iter()
            .all(|text| text.trim().starts_with('{'));
        (braced && own == other).then(|| above.trim())
    }

    /// A line without a `:` that begins no further in than the key above it.
    pub(super) fn text_going_on(&self) -> Option<Cure> {
        let said = |line: &usize| !self.lines.line_text(*line).trim().is_empty();
        let line = (1..=self.line).rev().find(said)?;
        let text = self.lines.line_text(line);
        let mut above = (1..line)
            .rev()
            .filter_map(|line| begun(self.lines.line_text(line)));
        let (key, _) = above.next()?.key.filter(|(_, value)| !value.is_empty())?;
        let start = self.lines.start(line);
        let indent = text.len() - text.trim_start().len();
        (!text.contains(':')).then(|| Cure {
            message: None,
            help: format!("If it goes on with the text of `{key}` above it, indent it further than `{key}`. If it is a key, write `key: value`; if it is a heading, put `# ` before it."),
            place: Some(Span::new(start + indent, start + text.trim_end().len())),
        })
    }

    /// A letter or the like above the first key.
    pub(super) fn text_above(&self) -> Option<Cure> {
        let (key, _) = begun(self.text)?.key?;
        let has_key = |line| begun(self.lines.line_text(line)).is_some_and(|it| it.key.is_some());
        if (1..self.line).any(has_key) {
            return None;
        }
        let said = |line: &usize| {
            let text = self.lines.line_text(*line).trim();
            !text.is_empty() && !text.starts_with('#')
        };
        let first = (1..self.line).find(said)?;
        let text = self.lines.line_text(first);
        if text.starts_with(['-', '%', '.']) {
            return None;
        }
        let start = self.lines.start(first);
        Some(Cure {
            place: Some(Span::new(start, start + text.len())),
            ..Cure::new(
                "The file begins with a text that is no key.",
                format!("Take out the text above `{key}`, or put `# ` before each of its lines."),
            )
        })
    }

    /// A line without a `:` above this one: the two are read as one text.
    pub(super) fn no_colon_above(&self) -> Option<Cure> {
        let own = begun(self.text)?;
        let line = (1..self.line)
            .rev()
            .find(|line| begun(self.lines.line_text(*line)).is_some())?;
        let text = self.lines.line_text(line);
        let above = begun(text).filter(|above| {
            above.dash.is_none() && above.key.is_none() && above.column == own.column
        })?;
        let said = text.get(above.column..)?.trim_end();
        let (name, rest) = said.split_once(' ')?;
        let value = rest.trim_start_matches(['=', ' ']);
        let is_value = is_key(name) && (value.len() < rest.len() || !value.contains(' '));
        let write = match is_value {
            true => format!("Write `{name}: {value}`."),
            false => format!("Write `{name}: …`, with a `:` after the name."),
        };
        let start = self.lines.start(line) + above.column;
        is_key(name).then(|| Cure {
            place: Some(Span::new(start, start + said.len())),
            ..Cure::new(format!("A `:` is missing after `{name}`."), write)
        })
    }

    pub(super) fn dash_aside(&self, dash: usize) -> Option<Cure> {
        let above = self.above();
        if let Some(cure) = self.keys_above(&above, dash) {
            return Some(cure);
        }
        let column = above
            .iter()
            .filter_map(|line| line.dash)
            .min_by_key(|at| at.abs_diff(dash))?;
        Some(Cure::new(
            format!(
                "This `-` begins in column {}, and the list above it in column {}.",
                dash + 1,
                column + 1
            ),
            format!(
                "Begin it in column {}, and move the other lines of its item with it.",
                column + 1
            ),
        ))
    }

    /// An item of a list in the column of keys: one of the two is written as the other should be.
    fn keys_above(&self, above: &[Begun<'t>], dash: usize) -> Option<Cure> {
        if above
            .iter()
            .any(|line| line.dash.is_some_and(|it| it > dash))
        {
            return None;
        }
        let beside = above.iter().find(|line| line.column == dash)?;
        let (key, value) = beside.key.filter(|_| beside.dash.is_none())?;
        if value.is_empty() {
            return Some(Cure {
                place: self.key_line(key, dash),
                ..Cure::new(
                    format!("`{key}` begins in the column of the list below it, and has no `- `."),
                    format!("In place of `{key}:` write `- id: {key}`."),
                )
            });
        }
        let item = self.text.trim().strip_prefix("- ")?;
        let named = item
            .strip_prefix("{id: ")
            .and_then(|it| it.split_once(", "));
        let write = match named {
            Some((name, rest)) => {
                format!("In place of `- {{id: {name}, ` write `{name}: {{`: `{name}: {{{rest}`.")
            }
            None => {
                format!("Write it as the lines above are written, with its name first: `{key}: …`.")
            }
        };
        Some(Cure::new(
            "This is written as an item of a list, and the lines above it begin with a name.",
            write,
        ))
    }

    /// Where the nearest line above that begins with a key in that column stands.
    fn key_line(&self, key: &str, column: usize) -> Option<Span> {
        let is_it = |line: &usize| {
            begun(self.lines.line_text(*line))
                .is_some_and(|it| it.column == column && it.key.is_some_and(|it| it.0 == key))
        };
        let line = (1..self.line).rev().find(is_it)?;
        let start = self.lines.start(line) + column;
        Some(Span::new(start, start + key.len()))
    }

    pub(super) fn key_aside(&self, key: &str, column: usize) -> Option<Cure> {
        let above = self.above();
        if above.first().is_some_and(|line| line.dash == Some(column)) {
            return Some(Cure::new(
                format!("`{key}` begins in the column of a list above it, and has no `- `."),
                format!(
                    "If it is an item of that list, put `- ` before it. If this is no list, take out the `- ` of the lines above, and begin `{key}` in their column."
                ),
            ));
        }
        let keys = || {
            above
                .iter()
                .filter_map(|line| Some((line.column, line.key?.0)))
        };
        let inner = keys()
            .filter(|(at, _)| *at > column)
            .min_by_key(|(at, _)| *at);
        let outer = keys()
            .filter(|(at, _)| *at < column)
            .max_by_key(|(at, _)| *at);
        let beside = |(at, key): (usize, &str)| format!("in column {}, beside `{key}`", at + 1);
        let near = |(at, _): &(usize, &str)| at.abs_diff(column) == 1;
        let places = match (inner, outer) {
            (Some(only), None) | (None, Some(only)) => beside(only),
            (Some(inner), Some(outer)) if near(&inner) && !near(&outer) => beside(inner),
            (Some(inner), Some(outer)) if near(&outer) && !near(&inner) => beside(outer),
            (Some(inner), Some(outer)) => format!(
                "{}, or {}, whichever it belongs to",
                beside(inner),
                beside(outer)
            ),
            (None, None) => return None,
        };
        Some(Cure::new(
            format!(
                "`{key}` begins in column {}, and no key above it does.",
                column + 1
            ),
            format!("Begin it, and what is below it, {places}."),
        ))
    }

    /// The lines above that hold the one that is refused, from the nearest on.
    pub(super) fn above(&self) -> Vec<Begun<'t>> {
        let mut found = Vec::new();
        let mut limit = usize::MAX;
        for line in (1..self.line).rev().map(|line| self.lines.line_text(line)) {
            let Some(line) = begun(line) else { continue };
            let column = line.dash.unwrap_or(line.column);
            if column < limit {
                limit = column;
                found.push(line);
            }
        }
        found
    }

    /// A key further in than the one above it, which has its value already.
    pub(super) fn too_far_in(&self) -> Option<Cure> {
        let (own, above) = (begun(self.text)?, self.above());
        let above = above.iter().find(|line| line.column < own.column)?;
        let (key, _) = above.key.filter(|(_, value)| !value.is_empty())?;
        Some(Cure::new(
            format!(
                "`{}` is indented further than `{key}` above it, which has its value already.",
                own.key?.0
            ),
            format!(
                "Begin it in column {}, the column of `{key}`.",
                above.column + 1
            ),
        ))
    }
}
