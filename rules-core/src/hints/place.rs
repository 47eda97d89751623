//! Where the writer is: the way there from the top of the file, and what stands beside it.

use super::rough::{Pair, Rough, What};

/// Keys, each with what follows it.
pub(super) type Entries<'t> = Vec<(&'t str, &'t str)>;

/// A step from the top of the file towards the place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Step<'t> {
    /// Into what follows a key, beside which the map has these others.
    Key(&'t str, Entries<'t>),
    /// Into a part of a list.
    Item,
}

/// How a place stands in what is about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Stands<'t> {
    /// A key of a map at this column, beside these others; no column between brackets.
    Key(Entries<'t>, Option<usize>),
    /// What follows a key or a dash: on its line, or on a line of its own.
    Value(Line),
    /// A new part of a list.
    Item,
}

/// On which line a value stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Line {
    OfTheKey,
    Own,
}

/// A place in the text.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Place<'t> {
    pub steps: Vec<Step<'t>>,
    pub stands: Stands<'t>,
}

/// Goes from the top of the text to a byte of it.
pub(super) struct Way<'t> {
    text: &'t str,
    at: usize,
    /// The column at which the line of the place begins, or of the place itself where the line is empty.
    column: usize,
    steps: Vec<Step<'t>>,
}

impl<'t> Way<'t> {
    pub fn to(text: &'t str, at: usize) -> Self {
        let before = text.get(..at).unwrap_or_default();
        let begin = before.rfind('\n').map_or(0, |end| end + 1);
        let line = text.get(begin..at).unwrap_or_default();
        let column = line.len() - line.trim_start_matches(' ').len();
        let steps = Vec::new();
        Self {
            text,
            at,
            column,
            steps,
        }
    }

    pub fn through(mut self, shape: &Rough) -> Place<'t> {
        let stands = self.enter(shape, Line::Own);
        let steps = self.steps;
        Place { steps, stands }
    }

    fn enter(&mut self, part: &Rough, line: Line) -> Stands<'t> {
        match &part.what {
            What::Map(pairs, column) => self.in_map(part, pairs, *column),
            What::List(items, column) => self.in_list(items, *column),
            What::Word => Stands::Value(line),
        }
    }

    fn in_map(&mut self, map: &Rough, pairs: &[Pair], column: Option<usize>) -> Stands<'t> {
        let mut begun = pairs.iter().enumerate();
        let last = begun.rfind(|(_, pair)| pair.key.0 <= self.at);
        let Some((number, pair)) = last else {
            return Stands::Key(self.entries(pairs, None), column);
        };
        let on_key = self.at <= pair.key.1;
        let others = self.entries(pairs, on_key.then_some(number));
        if on_key || self.is_past(map, &pair.value, pair.key.1, column) {
            return Stands::Key(others, column);
        }
        let others = self.entries(pairs, Some(number));
        let key = self.word(pair.key);
        self.steps.push(Step::Key(key, others));
        let line = match self.has_break(pair.key.1) {
            true => Line::Own,
            false => Line::OfTheKey,
        };
        self.enter(&pair.value, line)
    }

    fn in_list(&mut self, items: &[Rough], column: Option<usize>) -> Stands<'t> {
        let mut begun = items.iter();
        let Some(item) = begun.rfind(|item| item.start <= self.at) else {
            return Stands::Item;
        };
        let past = match column {
            None => self.has_comma(item.end),
            Some(column) => self.at > item.end && self.column <= column && self.has_break(item.end),
        };
        if past {
            return Stands::Item;
        }
        self.steps.push(Step::Item);
        // Between brackets a map needs brackets of its own.
        let line = column.map_or(Line::OfTheKey, |_| Line::Own);
        self.enter(item, line)
    }

    /// Whether the cursor is past a value, where the next key of the map may be written.
    fn is_past(&self, map: &Rough, value: &Rough, key_end: usize, column: Option<usize>) -> bool {
        match column {
            None => self.has_comma(value.end) || self.at >= map.end,
            Some(column) => self.at > value.end && self.has_break(key_end) && self.column <= column,
        }
    }

    fn between(&self, from: usize) -> &'t str {
        self.text.get(from..self.at).unwrap_or_default()
    }

    fn has_comma(&self, from: usize) -> bool {
        self.between(from).contains(',')
    }

    fn has_break(&self, from: usize) -> bool {
        self.between(from).contains('\n')
    }

    fn word(&self, (start, end): (usize, usize)) -> &'t str {
        let word = self.text.get(start..end).unwrap_or_default();
        word.trim_matches(['"', '\''])
    }

    /// The keys of a map with their values, but for one.
    fn entries(&self, pairs: &[Pair], but: Option<usize>) -> Entries<'t> {
        let pairs = pairs.iter().enumerate();
        let others = pairs.filter(|(number, _)| Some(*number) != but);
        others
            .map(|(_, pair)| {
                (
                    self.word(pair.key),
                    self.word((pair.value.start, pair.value.end)),
                )
            })
            .collect()
    }
}
