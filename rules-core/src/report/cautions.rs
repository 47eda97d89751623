//! What to be careful of: what every report says, whatever the rules are.

use super::context::ReportContext;
use super::model::{CautionBy, CautionReport};
use crate::words::Word;

/// The program's own cautions. Each defers to somebody who may do the work.
const OURS: [(&str, Word); 6] = [
    ("drowning", Word::Drowning),
    ("electricity", Word::ElectricityKills),
    ("digging", Word::BeforeDigging),
    ("excavation", Word::HoleFallsIn),
    ("blasting", Word::Blasting),
    ("lifting", Word::Lifting),
];

impl ReportContext<'_> {
    /// The rule set's cautions that apply or may apply, then the program's own.
    pub(super) fn cautions(&self) -> Vec<CautionReport> {
        let theirs = self.findings.cautions.iter();
        let theirs = theirs.filter_map(|place| self.rules.cautions.get(*place));
        let theirs = theirs.map(|caution| {
            (
                caution.id.as_str(),
                CautionBy::RuleSet,
                caution.says.as_str(),
            )
        });
        let language = self.rules.language;
        let ours = OURS.into_iter();
        let ours = ours.map(|(id, says)| (id, CautionBy::Program, says.in_language(language)));
        theirs
            .chain(ours)
            .map(|(id, by, says)| CautionReport {
                id: id.to_owned(),
                by,
                says: says.to_owned(),
                rule_sets: Vec::new(),
            })
            .collect()
    }
}
