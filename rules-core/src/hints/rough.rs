//! The rough shape of a rule file while somebody types it: what stands in what, also where the text cannot be read.
//!
//! [`read`](crate::text::read) gives nothing for a text with a fault in it, and a text that is being typed always has
//! one. What this finds decides nothing: it only says where the writer is.

use crate::text::MAX_DEPTH;

/// A part of the text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Rough {
    /// Its first byte.
    pub start: usize,
    /// One past its last byte.
    pub end: usize,
    pub what: What,
}

/// What it is. A map or a list has the column at which it stands; none between brackets.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum What {
    Word,
    List(Vec<Rough>, Option<usize>),
    Map(Vec<Pair>, Option<usize>),
}

/// A key with what follows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Pair {
    /// Where the key stands.
    pub key: (usize, usize),
    pub value: Rough,
}

impl Rough {
    fn word(start: usize, end: usize) -> Self {
        let what = What::Word;
        Self { start, end, what }
    }

    /// The keys of a map.
    pub fn pairs(&self) -> &[Pair] {
        match &self.what {
            What::Map(pairs, _) => pairs,
            _ => &[],
        }
    }

    /// The parts of a list.
    pub fn items(&self) -> &[Rough] {
        match &self.what {
            What::List(items, _) => items,
            _ => &[],
        }
    }
}

/// The shape of a whole text.
pub(super) fn rough(text: &str) -> Rough {
    let tokens = tokens(text);
    let mut rest = tokens.as_slice();
    block(&mut rest, 0, 0, 0).unwrap_or_else(|| {
        let what = What::Map(Vec::new(), Some(0));
        Rough {
            start: 0,
            end: 0,
            what,
        }
    })
}

/// A piece of a line.
struct Token {
    column: usize,
    start: usize,
    end: usize,
    sort: Sort,
}

enum Sort {
    Dash,
    Key,
    Value(Rough),
}

/// The rest of a text from a byte on.
fn from(text: &str, at: usize) -> &str {
    text.get(at..).unwrap_or_default()
}

/// The end of the line on which a byte stands.
fn line_end(text: &str, at: usize) -> usize {
    from(text, at)
        .find('\n')
        .map_or(text.len(), |long| at + long)
}

fn is_space(c: char) -> bool {
    c == ' ' || c == '\t'
}

/// The first byte from here on that is no space.
fn past_spaces(text: &str, at: usize) -> usize {
    let rest = from(text, at);
    at + (rest.len() - rest.trim_start_matches(is_space).len())
}

fn tokens(text: &str) -> Vec<Token> {
    let (mut all, mut at) = (Vec::new(), 0);
    while at < text.len() {
        let end = line(text, at, &mut all);
        at = line_end(text, end.max(at)) + 1;
    }
    all
}

/// Takes a line apart; gives where what begins on it ends, which may be on a later line.
fn line(text: &str, begin: usize, all: &mut Vec<Token>) -> usize {
    let end = line_end(text, begin);
    let mut at = past_spaces(text, begin);
    let is_dash = |at: usize| {
        let mut next = from(text, at).chars();
        next.next() == Some('-') && next.next().is_none_or(char::is_whitespace)
    };
    let token = |start: usize, end: usize, sort: Sort| Token {
        column: start - begin,
        start,
        end,
        sort,
    };
    while at < end && is_dash(at) {
        all.push(token(at, at + 1, Sort::Dash));
        at = past_spaces(text, at + 1);
    }
    let column = at - begin;
    if let Some((key_end, colon)) = key_end(text.get(at..end).unwrap_or_default()) {
        all.push(token(at, at + key_end, Sort::Key));
        at = past_spaces(text, at + colon + 1);
    }
    if at >= end || from(text, at).starts_with('#') {
        return end;
    }
    let value = match from(text, at).chars().next() {
        Some('{' | '[') => Flow::new(text, at, begin).value(0),
        Some('|' | '>') => Rough::word(at, block_text_end(text, end, column)),
        _ => Rough::word(at, word_end(text, at, end)),
    };
    let ends = value.end;
    all.push(token(at, ends, Sort::Value(value)));
    ends
}

/// Where a key at the beginning of a line ends, and where its colon stands.
fn key_end(line: &str) -> Option<(usize, usize)> {
    if line.starts_with(['{', '[', '#', '&', '*', '!', '|', '>', '%']) {
        return None;
    }
    let quote = line.chars().next().filter(|c| matches!(c, '"' | '\''));
    let from = match quote {
        Some(quote) => 2 + line.get(1..)?.find(quote)?,
        None => 0,
    };
    let rest = line.get(from..)?;
    let mut colons = rest.match_indices(':').map(|(at, _)| from + at);
    let colon = colons.find(|at| {
        let next = line.get(at + 1..).and_then(|rest| rest.chars().next());
        next.is_none_or(char::is_whitespace)
    })?;
    let key = line.get(..colon)?.trim_end();
    (!key.contains(" #")).then_some((key.len(), colon))
}

/// Where the word on a line ends, without the spaces and the remark after it.
fn word_end(text: &str, at: usize, end: usize) -> usize {
    let line = text.get(at..end).unwrap_or_default();
    let word = line.split(" #").next().unwrap_or_default();
    at + word.trim_end().len()
}

/// Where a text of several lines ends that began behind a bar: at the first line that stands no deeper than its key.
fn block_text_end(text: &str, line_end: usize, column: usize) -> usize {
    let mut end = line_end;
    while end < text.len() {
        let begin = end + 1;
        let next = self::line_end(text, begin);
        let inner = past_spaces(text, begin);
        if inner < next && inner - begin <= column {
            break;
        }
        end = next;
    }
    end
}

/// The next part, if it stands at least so deep.
fn block(tokens: &mut &[Token], least: usize, at: usize, depth: usize) -> Option<Rough> {
    let first = tokens.first().filter(|token| token.column >= least)?;
    let column = first.column;
    let deep = depth > MAX_DEPTH;
    match &first.sort {
        Sort::Dash if !deep => Some(list(tokens, column, depth)),
        Sort::Key if !deep => Some(map(tokens, least, depth)),
        Sort::Value(value) => {
            let begins_map = tokens.get(1).is_some_and(|next| {
                matches!(next.sort, Sort::Key) && next.column == column && is_word(value)
            });
            if begins_map && !deep {
                return Some(map(tokens, least, depth));
            }
            let mut value = value.clone();
            skip(tokens);
            while let Some(end) = continued(tokens, least) {
                value.end = end;
            }
            Some(value)
        }
        _ => {
            let end = first.end;
            skip(tokens);
            Some(Rough::word(at, end))
        }
    }
}

fn is_word(value: &Rough) -> bool {
    value.what == What::Word
}

fn skip(tokens: &mut &[Token]) {
    *tokens = tokens.get(1..).unwrap_or_default();
}

/// Takes a line more of a text of several lines; gives where it ends.
fn continued(tokens: &mut &[Token], least: usize) -> Option<usize> {
    let next = tokens.first()?;
    let goes_on = matches!(next.sort, Sort::Value(_)) && next.column >= least.max(1);
    let end = next.end;
    goes_on.then(|| {
        skip(tokens);
        end
    })
}

fn list(tokens: &mut &[Token], column: usize, depth: usize) -> Rough {
    let start = tokens.first().map_or(0, |token| token.start);
    let (mut items, mut end) = (Vec::new(), start);
    while let Some(dash) = tokens.first() {
        if !matches!(dash.sort, Sort::Dash) || dash.column != column {
            break;
        }
        let behind = dash.end;
        skip(tokens);
        let item = block(tokens, column + 1, behind, depth + 1);
        let item = item.unwrap_or_else(|| Rough::word(behind, behind));
        end = item.end;
        items.push(item);
    }
    let what = What::List(items, Some(column));
    Rough { start, end, what }
}

fn map(tokens: &mut &[Token], least: usize, depth: usize) -> Rough {
    let (start, column) = tokens
        .first()
        .map_or((0, 0), |token| (token.start, token.column));
    let (mut pairs, mut end) = (Vec::<Pair>::new(), start);
    while let Some(next) = tokens.first().filter(|next| next.column >= least) {
        let key = (next.start, next.end);
        let is_key = matches!(next.sort, Sort::Key);
        let is_half =
            matches!(&next.sort, Sort::Value(value) if is_word(value)) && next.column <= column;
        let place = next.column;
        skip(tokens);
        end = key.1;
        if !is_key && !is_half {
            continue;
        }
        let value = is_key.then(|| value(tokens, key, place, depth)).flatten();
        let value = value.unwrap_or_else(|| Rough::word(key.1, key.1));
        end = end.max(value.end);
        pairs.push(Pair { key, value });
    }
    let what = What::Map(pairs, Some(column));
    Rough { start, end, what }
}

/// What follows a key: a list may stand at the key's own column.
fn value(tokens: &mut &[Token], key: (usize, usize), column: usize, depth: usize) -> Option<Rough> {
    let next = tokens.first()?;
    let is_list = matches!(next.sort, Sort::Dash) && next.column >= column;
    let least = column + usize::from(!is_list);
    block(tokens, least, key.1, depth + 1)
}

/// What stands between brackets.
struct Flow<'t> {
    text: &'t str,
    at: usize,
    /// How far it can go: to the first later line that stands no deeper than the one on which it begins.
    limit: usize,
}

impl<'t> Flow<'t> {
    fn new(text: &'t str, at: usize, line_begin: usize) -> Self {
        let column = past_spaces(text, line_begin) - line_begin;
        let limit = block_text_end(text, line_end(text, at), column);
        Self { text, at, limit }
    }

    fn next(&self) -> Option<char> {
        let rest = self.text.get(self.at..self.limit)?;
        rest.chars().next()
    }

    fn step(&mut self) {
        self.at += self.next().map_or(0, char::len_utf8);
    }

    fn skip_while(&mut self, is: impl Fn(char) -> bool) {
        while self.next().is_some_and(&is) {
            self.step();
        }
    }

    fn value(&mut self, depth: usize) -> Rough {
        let start = self.at;
        match self.next() {
            Some(open @ ('{' | '[')) if depth < MAX_DEPTH => {
                self.step();
                match open {
                    '{' => self.map(start, depth),
                    _ => self.list(start, depth),
                }
            }
            _ => self.word(start, |c| matches!(c, ',' | '}' | ']' | '\n')),
        }
    }

    /// A word up to one of these, or to the closing quote.
    fn word(&mut self, start: usize, ends: impl Fn(char) -> bool) -> Rough {
        if let Some(quote @ ('"' | '\'')) = self.next() {
            self.step();
            self.skip_while(|c| c != quote && c != '\n');
            if self.next() == Some(quote) {
                self.step();
            }
        }
        self.skip_while(|c| !ends(c));
        let word = self.text.get(start..self.at).unwrap_or_default();
        Rough::word(start, start + word.trim_end().len())
    }

    fn list(&mut self, start: usize, depth: usize) -> Rough {
        let mut items = Vec::new();
        while self.goes_on() {
            let before = self.at;
            items.push(self.value(depth + 1));
            self.must_move(before);
        }
        let what = What::List(items, None);
        self.whole(start, what)
    }

    fn map(&mut self, start: usize, depth: usize) -> Rough {
        let mut pairs = Vec::new();
        while self.goes_on() {
            let before = self.at;
            let word = self.word(before, |c| {
                matches!(c, ':' | ',' | '}' | ']' | '{' | '[' | '\n')
            });
            let key = (word.start, word.end);
            let mut value = Rough::word(key.1, key.1);
            if self.next() == Some(':') {
                self.step();
                value = Rough::word(self.at, self.at);
                self.skip_while(|c| c == ' ');
                if !matches!(self.next(), None | Some(',' | '}' | ']' | '\n')) {
                    value = self.value(depth + 1);
                }
            }
            pairs.push(Pair { key, value });
            self.must_move(before);
        }
        let what = What::Map(pairs, None);
        self.whole(start, what)
    }

    /// Goes to the next part; not past a closing bracket.
    fn goes_on(&mut self) -> bool {
        self.skip_while(|c| c.is_whitespace() || c == ',');
        !matches!(self.next(), None | Some('}' | ']'))
    }

    /// A letter that belongs nowhere is passed over.
    fn must_move(&mut self, before: usize) {
        if self.at == before {
            self.step();
        }
    }

    fn whole(&mut self, start: usize, what: What) -> Rough {
        self.step();
        let end = self.at;
        Rough { start, end, what }
    }
}
