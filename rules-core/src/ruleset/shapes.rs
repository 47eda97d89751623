//! What a rule measures of shapes by themselves and round each other.

use super::Operand;

/// How far outlines reach beyond what they lie round, on the side where they reach least far.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Margin {
    /// The areas that lie round it, together.
    pub of: Operand,
    /// What they lie round.
    pub round: Operand,
}
