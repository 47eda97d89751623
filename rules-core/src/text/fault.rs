//! What is wrong with a text, said to a person.

use super::Span;
use crate::faults::Code;

/// One thing that is wrong: where, what, and what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The kind of fault, a stable word in kebab-case, for tests and for other programs.
    pub code: Code,
    /// Where it stands. `None` where the whole text is at fault.
    pub span: Option<Span>,
    /// What is wrong: one plain sentence that stands alone.
    pub message: String,
    /// What would be right, where that is known.
    pub help: Option<String>,
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
        self.list.push(Fault {
            code,
            span,
            message,
            help: None,
        });
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
    /// Says what would be right.
    pub fn help(&mut self, help: impl Into<String>) {
        self.help = Some(help.into());
    }
}
