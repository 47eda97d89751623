//! The papers and decisions of a random rule set.

use rules_core::ruleset::{
    Condition, Decision, Document, OnOutcome, RowTest, Selection, Table, Then,
};
use rules_core::text::Span;
use rules_core::vocabulary::KindId;

use super::rules::Maker;
use crate::soundness::words::Words;

/// How many documents every rule set names.
pub const DOCUMENTS: usize = 4;

/// The kind whose things each need their own copy of a document, if there is one.
pub fn paper_for(words: &Words, number: usize) -> Option<KindId> {
    let [_, house, _, gate] = words.many[..] else {
        return None;
    };
    match number {
        2 => Some(house),
        3 => Some(gate),
        _ => None,
    }
}

/// Whether the authority may refuse a document.
fn has_discretion(number: usize) -> bool {
    number % 2 == 1
}

/// Four documents: two for the whole plan, and two that each thing of a kind needs for itself. The authority may refuse
/// one of each pair.
pub(super) fn documents(words: &Words) -> Vec<Document> {
    let document = |number: usize| Document {
        id: format!("paper-{number}"),
        title: String::new(),
        from: None,
        form: None,
        each: paper_for(words, number).map(plain),
        one_for_all: false,
        always: false,
        when: None,
        on: Vec::new(),
        discretion: has_discretion(number),
        cited: Vec::new(),
        span: Span::default(),
    };
    (0..DOCUMENTS).map(document).collect()
}

/// All things of a kind.
fn plain(kind: KindId) -> Selection {
    Selection {
        term: None,
        closed: None,
        part_of: None,
        kind,
        filter: None,
        zone: None,
        if_none: None,
    }
}

impl Maker<'_> {
    /// Sets when a document is needed.
    pub(super) fn ask_for(&mut self, document: &mut Document) {
        self.referring = false;
        let kind = document.each.as_ref().map(|each| each.kind);
        if let Some(kind) = kind
            && self.random.chance(40)
        {
            let scope = [kind];
            let filter = self.fact_test(&scope);
            if let Some(each) = &mut document.each {
                each.filter = Some(std::sync::Arc::new(filter));
            }
        }
        document.always = self.random.chance(10);
        document.when = self.random.chance(40).then(|| {
            let about_pool = kind != Some(self.words.pool) && self.random.chance(40);
            let mut scope: Vec<KindId> =
                about_pool.then_some(self.words.pool).into_iter().collect();
            scope.extend(kind);
            Condition {
                requirement: self.requirement(&scope, 1),
                about_pool,
            }
        });
        if self.random.chance(20) {
            let outcomes = ["fail", "refer", "pass", "not-applicable"];
            document.on.push(OnOutcome {
                rule: format!("rule-{}", self.random.below(2)),
                outcomes: vec![(*self.random.pick(&outcomes)).to_owned()],
            });
        }
    }

    /// A decision, by a fact or by conditions.
    pub(super) fn decision(&mut self) -> Decision {
        self.referring = false;
        let about_pool = self.random.chance(30);
        let mut scope: Vec<KindId> = about_pool.then_some(self.words.pool).into_iter().collect();
        let each = self.random.chance(40).then(|| {
            let kind = self.other_kind(&scope);
            let mut selection = self.selection(&scope, kind);
            selection.if_none = None;
            scope.push(kind);
            selection
        });
        let mut number = 0;
        let mut table: Table<String> = self.rows(&scope, |_| {
            number += 1;
            format!("class-{number}")
        });
        if self.random.chance(20) {
            // One row leaves the decision to the authority.
            let place = self.random.below(table.rows.len());
            table.rows[place].then = Then::Refer;
        }
        if self.random.chance(50)
            && let Some(row) = table.rows.first_mut()
            && table.by.is_none()
        {
            row.test = RowTest::When(self.requirement(&scope, 1));
        }
        Decision {
            cited: Vec::new(),
            id: "question".to_owned(),
            title: String::new(),
            clause: None,
            each,
            about_pool,
            table,
            span: Span::default(),
        }
    }
}
