//! What is wrong with a text, said to a person.

use super::Span;

/// One thing that is wrong: where, what, and what would be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The kind of fault, a stable word in kebab-case, for tests and for other programs.
    pub code: &'static str,
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
    pub fn add(
        &mut self,
        code: &'static str,
        span: Span,
        message: impl Into<String>,
    ) -> &mut Fault {
        self.list.push(Fault {
            code,
            span: Some(span),
            message: message.into(),
            help: None,
        });
        let last = self.list.len() - 1;
        #[expect(clippy::indexing_slicing, reason = "the line before pushed it")]
        &mut self.list[last]
    }
}

impl Fault {
    /// Says what would be right.
    pub fn help(&mut self, help: impl Into<String>) {
        self.help = Some(help.into());
    }
}
