//! The registry of faults: every kind of fault has its row in one table, and code that finds a fault names that row.
//!
//! What a fault says of its own place is written where it is found; what holds for all faults of a kind stands here, and
//! on the page that is made from it.

mod table;

pub use table::{Code, GROUPS};

/// Kinds of fault that belong together.
#[derive(Debug, Clone, Copy)]
pub struct Group {
    /// Its title.
    pub title: &'static str,
    /// What they have in common.
    pub says: &'static str,
    /// The kinds.
    pub codes: &'static [Code],
}

/// Declares the kinds of fault, group by group: a sentence, a name and the word that other programs know it by.
macro_rules! codes {
    ($($title:literal, $of_group:literal: $(#[doc = $says:literal] $name:ident $word:literal,)+)+) => {
        /// A kind of fault.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        #[non_exhaustive]
        pub enum Code {
            $($(#[doc = $says] $name,)+)+
        }

        /// All kinds of fault.
        pub const GROUPS: &[super::Group] = &[$(super::Group {
            title: $title,
            says: $of_group,
            codes: &[$(Code::$name,)+],
        },)+];

        impl Code {
            /// A stable word in kebab-case, for tests and for other programs.
            pub const fn word(self) -> &'static str {
                match self {
                    $($(Self::$name => $word,)+)+
                }
            }

            /// What holds for all faults of this kind, and what would be right, in a sentence.
            pub fn says(self) -> &'static str {
                let says = match self {
                    $($(Self::$name => $says,)+)+
                };
                says.trim_start()
            }
        }
    };
}
use codes;

impl Code {
    /// Whether a plan's word is not known to the reader, where a rule set may know it.
    pub(crate) fn is_foreign_word(self) -> bool {
        matches!(
            self,
            Self::UnknownKey | Self::UnknownKind | Self::UnknownOutline
        )
    }

    /// Whether rules that the reader has not seen may explain what is wrong with a plan.
    pub(crate) fn rules_may_explain(self) -> bool {
        self.is_foreign_word() || matches!(self, Self::UnknownWord | Self::UnknownWay)
    }
}

impl std::fmt::Display for Code {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        to.write_str(self.word())
    }
}

impl serde::Serialize for Code {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.word())
    }
}
