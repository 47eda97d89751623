//! Counts kept while the property is checked.

/// The counts over many cases.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Tally {
    /// Cases run.
    pub cases: u64,
    /// Judgements of single worlds compared with the checker's possible outcomes.
    pub compared: u64,
    /// Worlds that could not be judged because two numbers were too close to tell apart.
    pub ties: u64,
    /// Findings about plans that do not state the world exactly.
    pub blurred: u64,
    /// Those among them that were decided.
    pub decided: u64,
    /// Open findings of rules of one test without conditions.
    pub open: u64,
    /// Those of them for which worlds of both judgements were found.
    pub both: u64,
    /// Open findings of rules of one test whose selections have conditions.
    pub open_filtered: u64,
    /// Those of them for which worlds of both judgements were found.
    pub both_filtered: u64,
    /// Limits put at the edge of what was measured.
    pub edges: u64,
    /// Cases refused because judging them would take too much work.
    pub refused: u64,
}

impl Tally {
    /// Adds another's counts.
    pub fn add(&mut self, other: &Tally) {
        self.cases += other.cases;
        self.compared += other.compared;
        self.ties += other.ties;
        self.blurred += other.blurred;
        self.decided += other.decided;
        self.open += other.open;
        self.both += other.both;
        self.open_filtered += other.open_filtered;
        self.both_filtered += other.both_filtered;
        self.edges += other.edges;
        self.refused += other.refused;
    }

    /// The share of blurred findings that were decided, in percent.
    pub fn decided_share(&self) -> f64 {
        share(self.decided, self.blurred)
    }

    /// The share of open findings of one test with worlds of both judgements, in percent.
    pub fn tightness(&self) -> f64 {
        share(self.both, self.open)
    }

    /// The same for tests whose selections have conditions.
    pub fn filtered_tightness(&self) -> f64 {
        share(self.both_filtered, self.open_filtered)
    }
}

fn share(part: u64, whole: u64) -> f64 {
    match whole {
        0 => 0.0,
        whole => part as f64 * 100.0 / whole as f64,
    }
}
