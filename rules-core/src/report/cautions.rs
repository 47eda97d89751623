//! What to be careful of: what every report says, whatever the rules are.

use super::matter::Matter;
use super::model::CautionReport;

/// The program's own cautions. Each defers to somebody who may do the work.
const OURS: [(&str, &str); 6] = [
    (
        "drowning",
        "Children drown fast and without a sound. No barrier, cover or alarm stands in for an adult who watches. Keep \
         the hole and the pool closed off from the first day, also while the works go on and before the barrier is \
         passed by the authority.",
    ),
    (
        "electricity",
        "Electricity near water kills. Wiring, bonding and the connection of equipment are for a licensed electrician \
         and are inspected before the pool is filled. Keep ladders, poles and machines away from overhead lines, and \
         ask whoever owns a line before working below it.",
    ),
    (
        "digging",
        "Before anybody digs, have the buried services located and marked by those who own them; in many places a call \
         to the locating service is the law. The plan shows only what somebody stated, not what lies in the ground.",
    ),
    (
        "excavation",
        "A hole beside a foundation, a wall or a slope can bring it down, and its sides can bury a person. How it is \
         held open is for a licensed engineer to say; nobody goes into a hole that is not held open.",
    ),
    (
        "blasting",
        "Rock is blasted only by a licensed blaster with the authority's leave, and only after the neighbouring \
         buildings and services have been looked at.",
    ),
    (
        "lifting",
        "A shell that is lifted in is a load over people, buildings and lines. The lift is for a qualified crane crew, \
         who judge the ground and the lines themselves; nobody stands below.",
    ),
];

impl Matter<'_> {
    /// The rule set's cautions that apply or may apply, then the program's own.
    pub(super) fn cautions(&self) -> Vec<CautionReport> {
        let theirs = self.findings.cautions.iter();
        let theirs = theirs.filter_map(|place| self.rules.cautions.get(*place));
        let theirs = theirs.map(|caution| (caution.id.as_str(), "rule-set", caution.says.as_str()));
        let ours = OURS.into_iter().map(|(id, says)| (id, "program", says));
        theirs
            .chain(ours)
            .map(|(id, by, says)| CautionReport {
                id: id.to_owned(),
                by: by.to_owned(),
                says: says.to_owned(),
                rule_sets: Vec::new(),
            })
            .collect()
    }
}
