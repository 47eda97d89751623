//! What to write in place of what YAML refuses, in the words of the file.

mod brackets;
mod lines;

pub(super) use brackets::never_closed;

use super::laid_out::in_quotes;
use super::syntax::Said;
use super::{Lines, Span};
use crate::faults::Code;

/// What is wrong, where that is said better than for every file, and what to write.
pub(super) struct Cure {
    pub message: Option<String>,
    pub help: String,
    /// Where it is, if that is not where the parser stopped.
    pub place: Option<Span>,
}

impl Cure {
    fn new(message: impl Into<String>, help: impl Into<String>) -> Self {
        Self {
            message: Some(message.into()),
            help: help.into(),
            place: None,
        }
    }
}

/// A line of a file and the place in it that is refused.
pub(super) struct Refused<'t> {
    lines: &'t Lines<'t>,
    line: usize,
    text: &'t str,
    at: usize,
}

/// What a line begins with.
struct Begun<'t> {
    /// The columns of its dash, if it has one, and of what follows.
    dash: Option<usize>,
    column: usize,
    /// The key and what follows its `:`.
    key: Option<(&'t str, &'t str)>,
}

impl<'t> Refused<'t> {
    pub(super) fn new(lines: &'t Lines<'t>, byte: usize) -> Self {
        let line = lines.line(byte);
        let text = lines.line_text(line);
        let at = byte.saturating_sub(lines.start(line)).min(text.len());
        Self {
            lines,
            line,
            text,
            at,
        }
    }

    /// What to write, where that is clear.
    pub(super) fn cure(&self, said: &Said) -> Option<Cure> {
        match said.code {
            Code::Indentation if self.text.get(self.at..)?.starts_with(['"', '\'']) => {
                self.open_quote()
            }
            Code::Indentation => self.indented(),
            Code::QuoteNotClosed => self.open_quote(),
            Code::Colon if self.is_own_colon() => self
                .too_far_in()
                .or_else(|| self.text_above().or_else(|| self.no_colon_above())),
            Code::Colon if self.text.get(self.at..)?.starts_with(':') => self.inner_colon(),
            Code::Bracket => self.in_braces(),
            Code::AfterQuote => self.after_quote(),
            Code::LeftOver => self.bracket_too_many().or_else(|| self.lists_in_a_row()),
            Code::ListItem => self.begins_with_hyphen(),
            Code::BlockText => self.begins_with_sign(),
            Code::NoColon => self.slashes().or_else(|| self.text_going_on()),
            Code::SeveralDocuments => self.text_above(),
            _ => None,
        }
    }

    fn before(&self) -> &'t str {
        self.text.get(..self.at).unwrap_or_default()
    }

    fn after(&self) -> &'t str {
        self.text.get(self.at..).unwrap_or_default()
    }

    /// A closing bracket that closes nothing.
    fn bracket_too_many(&self) -> Option<Cure> {
        let bracket = self
            .after()
            .chars()
            .next()
            .filter(|c| matches!(c, '}' | ']'))?;
        let closes =
            self.before().matches(['{', '[']).count() > self.before().matches(['}', ']']).count();
        (!closes).then(|| {
            Cure::new(
                format!("There is one `{bracket}` too many."),
                "Take it out.",
            )
        })
    }

    /// `line: [6, 17], [18, 17]`: a list of lists without the brackets round it.
    fn lists_in_a_row(&self) -> Option<Cure> {
        let (key, value) = begun(self.text)?.key?;
        let lists = value.starts_with('[') && value.ends_with(']') && value.contains("], [");
        lists.then(|| {
            Cure::new(
                "These are several lists in a row, and nothing holds them together.",
                format!("Put one more pair of brackets round them: `{key}: [{value}]`."),
            )
        })
    }

    /// A text that begins with a hyphen.
    fn begins_with_hyphen(&self) -> Option<Cure> {
        let (key, value) = begun(self.text)?.key?;
        let text = value
            .strip_prefix("- ")
            .filter(|text| !text.contains(": "))?;
        Some(Cure::new(
            "A text cannot begin with `- `.",
            format!(
                "Take out the hyphen, `{key}: {text}`, or put the text in quotes, `{key}: {}`.",
                quoted(value)
            ),
        ))
    }

    /// `at-least: >10 ft`: a sign before an amount.
    fn begins_with_sign(&self) -> Option<Cure> {
        let (key, value) = begun(self.text)?.key?;
        let amount = value.trim_start_matches(['>', '|', '=', ' ']);
        let (figure, unit) = amount.split_once(' ').unwrap_or((amount, ""));
        let is_amount = figure.starts_with(|c: char| c.is_ascii_digit())
            && unit.chars().all(|c| c.is_ascii_lowercase());
        is_amount.then(|| {
            Cure::new(
                format!("A sign stands before the amount after `{key}`."),
                format!("Write the amount alone: `{key}: {amount}`."),
            )
        })
    }

    /// A comment after two slashes.
    fn slashes(&self) -> Option<Cure> {
        let above = (1..=self.line)
            .rev()
            .map(|line| self.lines.line_text(line).trim());
        let comment = above
            .filter(|text| !text.is_empty())
            .find_map(|text| text.strip_prefix("//"));
        let comment = comment?.trim();
        Some(Cure::new(
            "A comment begins with `#`.",
            format!("Write `# {comment}`."),
        ))
    }

    /// Whether the `:` ends the key with which the line begins.
    fn is_own_colon(&self) -> bool {
        let key = begun(self.text).and_then(|line| Some(line.column + line.key?.0.len()));
        key == Some(self.at)
    }

    /// A `:` in the value of a key.
    fn inner_colon(&self) -> Option<Cure> {
        let own = begun(self.text)?;
        let (key, value) = own.key?;
        let inner = self.text.get(own.column + key.len() + 1..self.at)?.trim();
        let rest = self.after().trim_start_matches(':').trim();
        if is_key(inner) && (rest.is_empty() || rest.starts_with(['{', '['])) {
            return Some(Cure::new(
                format!("`{inner}` is a key, and it stands on the line of `{key}`."),
                format!(
                    "Begin `{inner}` on the next line, in column {}.",
                    own.column + 3
                ),
            ));
        }
        if let Some(inner) = value.strip_prefix('(').and_then(|it| it.strip_suffix(')')) {
            return Some(Cure::new(
                "Keys stand in `{ }`, not in `( )`.",
                format!("Write `{key}: {{{inner}}}`."),
            ));
        }
        Some(Cure::new(
            "A `:` with a space after it ends a key, and here it stands in a text.",
            format!("Put the text in quotes: `{key}: {}`.", quoted(value)),
        ))
    }

    /// A `:` or a bracket in a text between braces.
    fn in_braces(&self) -> Option<Cure> {
        let from = self.before().rfind(['{', ',']).map_or(0, |at| at + 1);
        let (key, begun) = self.text.get(from..self.at)?.split_once(':')?;
        let (key, begun) = (key.trim(), begun.trim());
        let rest = self.after();
        let rest = rest.get(..rest.find([',', '}', ']']).unwrap_or(rest.len()))?;
        let whole = quoted(format!("{begun}{rest}").trim());
        if begun.starts_with('[') && !rest.is_empty() {
            return Some(Cure::new(
                "A text that begins with a bracket needs quotes.",
                format!("Write `{key}: {whole}`."),
            ));
        }
        if !rest.starts_with(':') || !is_key(key) {
            return None;
        }
        let last = begun.rsplit_once(' ').filter(|(_, word)| is_key(word));
        // The last word of `400 m2` is its unit, and that of `1.5m then` the next key.
        let next_key = last.filter(|(text, _)| text.contains(char::is_alphabetic));
        if begun.starts_with(|c: char| c.is_ascii_digit()) && next_key.is_none() {
            let value = rest.trim_start_matches(':').trim();
            return Some(Cure::new(
                format!("`{begun}` is a value, and a `:` stands after it as after a key."),
                format!(
                    "Write a key of its own before `{value}`, as in `{key}: {begun}, then: {value}`."
                ),
            ));
        }
        Some(match last {
            Some((text, word)) if text.ends_with(';') => Cure::new(
                "A `;` stands where a `,` belongs.",
                format!("Write `{key}: {}, {word}: …`.", text.trim_end_matches(';')),
            ),
            Some((text, word)) => Cure::new(
                format!("A `,` is missing before `{word}`."),
                format!(
                    "Write `{key}: {text}, {word}: …`; or, if it is all one text, `{key}: {whole}`."
                ),
            ),
            _ => Cure::new(
                "A `:` with a space after it ends a key, and here it stands in a text.",
                format!("Put the text in quotes: `{key}: {whole}`."),
            ),
        })
    }

    /// A quotation mark that is opened and not closed on its line.
    fn open_quote(&self) -> Option<Cure> {
        let mark = self
            .after()
            .chars()
            .next()
            .filter(|mark| matches!(mark, '"' | '\''))?;
        let text = self.after().get(1..)?.trim();
        if text.is_empty() || text.contains(mark) {
            return None;
        }
        let braced = self.before().contains(['{', '[']);
        let text = match braced {
            true => text.split([',', '}', ']']).next()?.trim(),
            false => text,
        };
        let help = match mark {
            '\'' if braced => format!(
                "If it is an apostrophe, put the text in double quotes: `\"'{text}\"`. If not, close it at the end of the text."
            ),
            _ => format!("Close it at the end of the text: `{mark}{text}{mark}`."),
        };
        Some(Cure::new("This quotation mark is never closed.", help))
    }

    /// More text after the closing mark of one in quotes.
    fn after_quote(&self) -> Option<Cure> {
        let from = self.before().rfind(": ")?;
        let open = from + self.before().get(from..)?.find(['"', '\''])?;
        let mark = self.text.get(open..)?.chars().next()?;
        let braced = self.text.get(..open)?.contains('{');
        let rest = self.after();
        let end = if braced {
            rest.find([',', '}']).unwrap_or(rest.len())
        } else {
            rest.len()
        };
        let whole = self.text.get(open..self.at + end)?.trim();
        let inner = whole.strip_prefix(mark)?;
        match inner.strip_suffix(mark) {
            Some(inner) if mark == '\'' => Some(Cure::new(
                "The apostrophe before this ends the text in quotes.",
                format!("Put the text in double quotes: `{}`.", in_quotes(inner)),
            )),
            _ => Some(Cure {
                message: None,
                help: format!("Put all of the text in quotes: `{}`.", quoted(whole)),
                place: None,
            }),
        }
    }
}

/// A line without its `:`, such as `title = A`, with it.
pub(super) fn with_colon(line: &str) -> Option<String> {
    let (key, value) = line.split_once(['=', ':'])?;
    let (key, value) = (key.trim(), value.trim());
    let address = value.starts_with("//");
    (is_key(key) && !address).then(|| format!("Write `{key}: {value}`, with a `:` and a space."))
}

/// What to write for an answer with a `!` before it: that it is not so.
pub(super) fn with_not(lines: &Lines, place: Span) -> Option<String> {
    let line = lines.line(place.start);
    let text = lines.line_text(line);
    let (before, after) = text.split_at_checked(place.start.checked_sub(lines.start(line))?)?;
    let answer = after.strip_prefix('!')?;
    let key = before.trim_end().strip_suffix(':')?;
    if key.rsplit([' ', '{', ',']).next() != Some("is") {
        return None;
    }
    let braced = before.rfind('{').zip(answer.find('}'));
    let whole = braced.and_then(|(open, close)| {
        Some(format!("{}{}", before.get(open..)?, answer.get(..=close)?))
    });
    let whole = whole.unwrap_or_else(|| format!("{{fact: …, is: {}}}", answer.trim()));
    Some(format!(
        "To say that it is not so, write `{{not: {whole}}}`. A text with a `!` needs quotes."
    ))
}

/// A text with a comment that has no space before its `#`, with the space.
pub(crate) fn with_comment_apart(text: &str) -> Option<String> {
    let (value, comment) = text.split_once('#')?;
    let alone = !value.is_empty() && !value.ends_with(' ');
    alone.then(|| format!("{value} # {}", comment.trim()))
}

/// An item that begins right after its hyphen, with a space.
pub(super) fn with_space(lines: &Lines, place: Span) -> String {
    let line = lines.line(place.start);
    let own = lines.line_text(line).trim();
    let item = own.trim_start_matches('-');
    let below = begun(lines.line_text(line + 1)).filter(|below| below.dash.is_none());
    let column = place.start.saturating_sub(lines.start(line)) + 1;
    match below.is_some_and(|below| below.column == column) {
        true => format!(
            "Write `- {item}`, and put one more space before the lines below that belong to it."
        ),
        false => format!("Write `- {item}`."),
    }
}

/// The text in the quotation marks that do not stand in it.
fn quoted(text: &str) -> String {
    match text.contains(['"', '\\']) {
        true => format!("'{}'", text.replace('\'', "''")),
        false => in_quotes(text),
    }
}

/// Whether a word looks like a key.
fn is_key(word: &str) -> bool {
    word.starts_with(|c: char| c.is_ascii_lowercase())
        && word
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}

fn begun(line: &str) -> Option<Begun<'_>> {
    let said = line.trim_start();
    let indent = line.len() - said.len();
    if said.is_empty() || said.starts_with('#') {
        return None;
    }
    let item = said.strip_prefix("- ").map(str::trim_start);
    let column = line.len() - item.unwrap_or(said).len();
    let (key, value) = item.unwrap_or(said).split_once(':').unwrap_or_default();
    let spaced = value.is_empty() || value.starts_with(' ');
    let value = value.split(" #").next().unwrap_or_default().trim();
    Some(Begun {
        dash: item.map(|_| indent),
        column,
        key: (is_key(key) && spaced).then_some((key, value)),
    })
}
