//! What is wrong with a text, said to a person.

use std::fmt;

use super::Span;
use crate::faults::Code;

/// One thing that is wrong: where, what, and what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub struct Fault {
    /// The kind of fault, a stable word in kebab-case, for tests and for other programs.
    pub code: Code,
    /// Where it stands. `None` where the whole text is at fault.
    pub span: Option<Span>,
    /// The part of the text that it speaks of, where that is more than what stands at its place: a key is missing from all
    /// of a map.
    pub of: Option<Span>,
    /// The place whose other faults are only consequences of this one; they are not shown.
    pub(crate) causes: Option<Box<Span>>,
    /// What is wrong: one plain sentence that stands alone.
    pub message: String,
    /// What would be right, where that is known.
    pub help: Option<Box<Help>>,
}

/// What would be right instead.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Help {
    /// The known word that is near to the one that was written, if there is one: then it was mistyped.
    pub meant: Option<String>,
    /// What else there is to say; empty where the word says it all.
    pub says: String,
}

/// All that is wrong with one text, gathered while reading goes on.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Faults {
    /// In the order in which they were found.
    pub list: Vec<Fault>,
}

impl Faults {
    /// Adds a fault at a place.
    pub fn add(&mut self, code: Code, span: Span, message: impl Into<String>) -> &mut Fault {
        self.push(code, Some(span), message.into())
    }

    /// Adds a fault of the text as a whole.
    pub fn add_whole(&mut self, code: Code, message: impl Into<String>) -> &mut Fault {
        self.push(code, None, message.into())
    }

    /// Puts the faults into another of the texts that are read together.
    pub(crate) fn put_into(&mut self, file: u16) {
        for fault in &mut self.list {
            let spans = fault
                .span
                .iter_mut()
                .chain(&mut fault.of)
                .chain(fault.causes.as_deref_mut());
            spans.for_each(|span| span.file = file);
        }
    }

    /// Removes the faults that are only consequences of others.
    pub(crate) fn without_consequences(&mut self) {
        let causes: Vec<Span> = self
            .list
            .iter()
            .filter_map(|fault| fault.causes.as_deref().copied())
            .collect();
        let follows = |fault: &Fault| {
            let place = fault.span.filter(|_| fault.causes.is_none());
            place.is_some_and(|place| {
                causes
                    .iter()
                    .any(|cause| cause.file == place.file && cause.holds(place))
            })
        };
        self.list
            .retain(|fault| causes.is_empty() || !follows(fault));
    }

    /// Whether nothing is wrong.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// Gives what was read, unless something is wrong with it.
    ///
    /// # Errors
    /// These faults themselves, if there are any.
    pub fn or<T>(self, read: T) -> Result<T, Self> {
        if self.is_empty() { Ok(read) } else { Err(self) }
    }

    fn push(&mut self, code: Code, span: Option<Span>, message: String) -> &mut Fault {
        self.list.push(Fault::new(code, span, message));
        let last = self.list.len() - 1;
        #[expect(clippy::indexing_slicing, reason = "the line before pushed it")]
        &mut self.list[last]
    }
}

impl From<Fault> for Faults {
    fn from(fault: Fault) -> Self {
        Self { list: vec![fault] }
    }
}

impl Fault {
    /// A fault of that kind at a place, or of the whole text.
    pub(crate) fn new(code: Code, span: Option<Span>, message: impl Into<String>) -> Self {
        Self {
            code,
            span,
            of: None,
            causes: None,
            message: message.into(),
            help: None,
        }
    }

    /// Says which part of the text it speaks of.
    pub(crate) fn of(&mut self, part: Span) -> &mut Self {
        self.of = Some(part);
        self
    }

    /// Names the place whose other faults are only consequences of this one.
    pub(crate) fn because_of(&mut self, place: Span) -> &mut Self {
        self.causes = Some(Box::new(place));
        self
    }

    /// Says what would be right.
    pub fn help(&mut self, help: impl Into<Help>) {
        self.help = Some(Box::new(help.into()));
    }

    /// Whether the word at fault is near to a known one, so that it was mistyped.
    pub(crate) fn is_slip_of_the_pen(&self) -> bool {
        self.help.as_ref().is_some_and(|help| help.meant.is_some())
    }
}

impl Help {
    /// That a known word was probably meant, if one is near; and what there is to say in any case.
    pub(crate) fn near(meant: Option<String>, says: impl Into<String>) -> Self {
        Self {
            meant,
            says: says.into(),
        }
    }
}

impl From<&str> for Help {
    fn from(says: &str) -> Self {
        Self::near(None, says)
    }
}

impl From<String> for Help {
    fn from(says: String) -> Self {
        Self::near(None, says)
    }
}

impl fmt::Display for Help {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(meant) = &self.meant {
            let space = if self.says.is_empty() { "" } else { " " };
            write!(to, "Did you mean `{meant}`?{space}")?;
        }
        to.write_str(&self.says)
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        let help = self.help.as_ref().map(|help| format!(" {help}"));
        write!(to, "{}{}", self.message, help.unwrap_or_default())
    }
}

/// What is wrong, without the places: these [`show`](Faults::show) lays out beside the text.
impl fmt::Display for Faults {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        let all: Vec<_> = self.sorted().iter().map(ToString::to_string).collect();
        to.write_str(&all.join("\n"))
    }
}

impl std::error::Error for Fault {}
impl std::error::Error for Faults {}
