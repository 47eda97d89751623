//! What a rule set says of itself beside its rules.

/// For whom a rule set is, and what an applicant wants to know before the first rule.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct About {
    /// The place whose rules they are.
    pub place: Option<String>,
    /// The country of that place.
    pub country: Option<String>,
    /// What sort of rule set it is.
    pub sort: Option<Sort>,
    /// How one finds out which authority serves an address.
    pub finding_the_authority: Option<String>,
    /// What the permit costs.
    pub costs: Option<String>,
    /// How long the permit lasts.
    pub lasts: Option<String>,
    /// The names of rule sets that belong with it: a state's barrier code, its electrical code.
    pub belongs_with: Vec<String>,
    /// The language of its texts that are written in one language only (`nb`); English where it is not said.
    pub language: Option<String>,
    /// The format it was written for, if it says so.
    pub format: Option<u32>,
}

/// What sort of rule set it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sort {
    /// The rules of a place.
    Place,
    /// A model code that places adopt.
    Code,
    /// Rules on one matter, whatever the place.
    Topic,
    /// An example.
    Example,
}

impl Sort {
    /// All of them, in the order of their words in files.
    pub const ALL: [Self; 4] = [Self::Place, Self::Code, Self::Topic, Self::Example];
}
