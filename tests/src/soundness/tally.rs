//! What is counted while the property is tried.

/// What was counted over many cases.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Tally {
    /// Cases run.
    pub cases: u64,
    /// Judgements of single worlds that were compared with what the checker found possible.
    pub compared: u64,
    /// Worlds that could not be judged: two numbers too close to tell apart.
    pub ties: u64,
    /// Findings about plans that do not state the world exactly.
    pub blurred: u64,
    /// Those of them that were decided.
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
    /// Cases that are too much work to judge, and are refused.
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

    /// How many of the blurred findings were decided, in percent.
    pub fn decided_share(&self) -> f64 {
        share(self.decided, self.blurred)
    }

    /// For how many open findings of one test worlds of both judgements were found, in percent.
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
