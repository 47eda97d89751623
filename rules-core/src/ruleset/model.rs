//! What a rule set says. Names are resolved: whatever is here is in the vocabulary and fits its place.

use std::sync::Arc;

use super::{
    About, Cited, Operand, Question, Reach, Selection, Source, Stated, Table, Value, Zone,
};
use crate::quantity::{Dimension, WorkingDays};
use crate::text::Span;
use crate::vocabulary::{FactId, KindId, Vocabulary};
use crate::words::Language;

/// A document's place in [`RuleSet::documents`].
pub type DocumentIndex = usize;

/// A rule set with all its layers.
#[derive(Debug, Clone, PartialEq)]
pub struct RuleSet {
    /// Its short name in kebab-case.
    pub id: String,
    /// What it is called in reports.
    pub title: String,
    /// Which edition, in the authority's own words.
    pub edition: String,
    /// Who decides; every report defers to them.
    pub authority: String,
    /// What every report under these rules must say (not an official text, may be out of date, …).
    pub notice: Option<String>,
    /// For whom it is, and what an applicant wants to know before the first rule.
    pub about: About,
    /// The language in which its texts were read, as far as they are written in it.
    pub language: Language,
    /// Which matters it holds, and which it leaves to others.
    pub reach: Reach,
    /// Where its values were read.
    pub sources: Vec<Source>,
    /// Which days it counts as working days.
    pub working_days: WorkingDays,
    /// When it is in force.
    pub in_force: Option<InForce>,
    /// The edition before this one, which governs the plans that this one does not govern yet. It has the same
    /// vocabulary.
    pub earlier: Option<Box<RuleSet>>,
    /// The files that it was built from: itself first, then what it builds on.
    pub layers: Vec<Layer>,
    /// The kinds, outlines and facts that its rules can speak of: the program's and its own.
    pub vocabulary: Vocabulary,
    /// The defined terms, in the order of the file.
    pub terms: Vec<Term>,
    /// Its own questions, the answers to which are facts of the vocabulary.
    pub questions: Vec<Question>,
    /// The rules, in the order of the file.
    pub rules: Vec<Rule>,
    /// Rules that are in every rule set, whatever its files say.
    pub built_in: Vec<Rule>,
    /// Questions whose answer is a class.
    pub decisions: Vec<Decision>,
    /// Papers to gather.
    pub documents: Vec<Document>,
    /// Duties in time; they never pass or fail.
    pub duties: Vec<Duty>,
    /// What to be careful of.
    pub cautions: Vec<Caution>,
    /// How the authority reads clauses.
    pub interpretations: Vec<Interpretation>,
}

/// The language in which several rule sets were read: that of the first.
pub(crate) fn language_of(rule_sets: &[&RuleSet]) -> Language {
    let first = rule_sets.first();
    first.map(|rules| rules.language).unwrap_or_default()
}

impl RuleSet {
    /// The rule at a place: in its files' rules, and after them in those that are in every rule set.
    pub fn rule(&self, place: usize) -> Option<&Rule> {
        self.all_rules().nth(place)
    }

    /// How the authority reads a rule.
    pub fn interpretations_of(&self, rule: &str) -> impl Iterator<Item = &Interpretation> {
        let all = self.interpretations.iter();
        all.filter(move |one| one.of.iter().any(|of| of == rule))
    }

    /// The rules of its files, then those that are in every rule set.
    pub fn all_rules(&self) -> impl Iterator<Item = &Rule> {
        self.rules.iter().chain(&self.built_in)
    }
}

/// One file of a rule set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layer {
    /// The file's own short name.
    pub id: String,
    /// What it is called.
    pub title: String,
    /// Its edition.
    pub edition: String,
}

/// When a rule set or a rule is in force, and by which day that is decided: the authority's own rule about what is
/// under way when the law changes.
#[derive(Debug, Clone, PartialEq)]
pub struct InForce {
    /// From this day on (days since 1970-01-01).
    pub from: Option<i128>,
    /// Up to and including this day.
    pub to: Option<i128>,
    /// The fact that says which day counts (`events.applied`, `pool.built-on`).
    pub by: FactId,
    /// Also where this holds, whatever the day (the applicant chose the new text).
    pub or_when: Option<Condition>,
    /// Not where this holds, whatever the day (a permit that was granted before).
    pub unless: Option<Condition>,
}

/// A defined term.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// Its name.
    pub id: String,
    /// What it stands for.
    pub meaning: Meaning,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// Where it is defined.
    pub span: Span,
}

/// A term where it is used.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TermUse {
    /// Its name.
    pub name: String,
    /// What it depends on.
    pub scope: Scope,
}

/// All that something depends on that is read with nothing else around it, so that it is judged once for each thing that
/// it speaks of, however often it is used.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Scope {
    /// The kind of the one thing that it speaks of.
    pub of: Option<KindId>,
    /// Whether it speaks of "the pool".
    pub about_pool: bool,
}

/// What a term can stand for.
#[derive(Debug, Clone, PartialEq)]
pub enum Meaning {
    /// A limit or another value.
    Value(Value),
    /// Outlines, between which a distance can be taken.
    Outlines(Operand),
    /// Things.
    Things(Selection),
    /// A region.
    Zone(Zone),
    /// A requirement.
    Requirement(Requirement),
}

/// Whether a rule binds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Strength {
    /// It binds: it counts for the verdict on the whole plan.
    Must,
    /// It advises: it is reported apart.
    Should,
}

/// One rule.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule {
    /// Its id in the rule set.
    pub id: String,
    /// Its title, without a full stop.
    pub title: String,
    /// The clause that it stands for.
    pub clause: String,
    /// Whether it binds.
    pub strength: Strength,
    /// It is in every rule set, whatever its files say. That it applies says nothing of the files.
    pub built_in: bool,
    /// It applies only where this holds of the plan.
    pub when: Option<Requirement>,
    /// It does not apply where this holds of the plan.
    pub unless: Option<Requirement>,
    /// It is judged for each of these.
    pub each: Option<Selection>,
    /// Whether it speaks of "the pool" and is judged for each pool by itself, whatever its `each`.
    pub about_pool: bool,
    /// What must hold.
    pub require: Requirement,
    /// What may hold instead.
    pub reliefs: Vec<Relief>,
    /// What to do if it fails.
    pub remedy: Option<String>,
    /// Papers that the rule calls for wherever it applies.
    pub documents: Vec<DocumentIndex>,
    /// How sure its values are.
    pub provenance: Provenance,
    /// Where its values come from.
    pub cited: Vec<Cited>,
    /// The day after which it must be compared with its sources again, whatever they say of themselves.
    pub again: Option<i128>,
    /// A note for the reader: how the authority reads it, why a contradiction was settled so.
    pub note: Option<String>,
    /// When it is in force, where that differs from its file.
    pub in_force: Option<InForce>,
    /// The layer that it comes from: a place in [`RuleSet::layers`].
    pub layer: usize,
    /// Where it stands in that layer's file.
    pub span: Span,
}

/// How sure the values of a rule are. A file that names its sources says only whether they agree; that nobody looked a
/// value up follows from their grade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Provenance {
    /// Read from the published text.
    Confirmed,
    /// From memory: to be checked.
    FromMemory,
    /// Published sources disagree.
    Contradicted,
}

/// What may hold instead of a rule's requirement.
#[derive(Debug, Clone, PartialEq)]
pub struct Relief {
    /// Its id in the rule.
    pub id: String,
    /// It is open only where this holds.
    pub when: Option<Requirement>,
    /// What must hold instead.
    pub require: Requirement,
    /// Whether the authority must give its leave.
    pub leave: bool,
    /// Where it stands.
    pub span: Span,
}

/// What must hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Requirement {
    /// A value keeps its bounds.
    Test(Arc<Test>),
    /// All of these.
    All(Vec<Requirement>),
    /// Any one of these.
    Any(Vec<Requirement>),
    /// Not this.
    Not(Box<Requirement>),
    /// So many of these.
    Count {
        /// The members.
        of: Vec<Requirement>,
        /// How many must hold.
        bounds: Vec<Bound>,
    },
    /// For each of these things.
    Each(Box<Each>),
    /// The row that applies says what must hold.
    Table(Box<Table<Requirement>>),
    /// A defined term holds.
    Meets {
        /// The term.
        term: TermUse,
        /// What it says.
        requirement: Arc<Requirement>,
    },
    /// A document is in hand.
    Have(DocumentIndex),
    /// The authority decides.
    Refer,
}

/// A value and its bounds.
#[derive(Debug, Clone)]
pub struct Test {
    /// What is measured.
    pub value: Value,
    /// What it must keep; all of them.
    pub bounds: Vec<Bound>,
    /// Where along a thing it must keep them, where the value changes along it; `None`: where the rule is judged.
    pub holds: Option<Along>,
    /// Where it stands.
    pub span: Span,
}

/// Where along a thing something holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Along {
    /// At one place or more.
    Anywhere,
    /// At every place.
    AllAlong,
}

/// What must hold for each of some things.
#[derive(Debug, Clone)]
pub struct Each {
    /// The things.
    pub selection: Selection,
    /// What must hold.
    pub require: Requirement,
    /// Where it stands.
    pub span: Span,
}

/// What a value must keep.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Bound {
    /// No less than.
    AtLeast(Value),
    /// No more than.
    AtMost(Value),
    /// More than.
    MoreThan(Value),
    /// Less than.
    LessThan(Value),
    /// One of these.
    Is(Vec<Choice>),
}

impl Bound {
    /// The value that limits it; a word that it must be is none.
    pub fn limit(&self) -> Option<&Value> {
        match self {
            Bound::AtLeast(value)
            | Bound::AtMost(value)
            | Bound::MoreThan(value)
            | Bound::LessThan(value) => Some(value),
            Bound::Is(_) => None,
        }
    }
}

/// One of the answers that `is` allows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Choice {
    /// A word; `yes` and `no` among them.
    Word(String),
    /// An amount, and of what: months are not days.
    Amount(i128, Dimension),
    /// There is none.
    None,
}

/// A question whose answer is a class.
#[derive(Debug, Clone, PartialEq)]
pub struct Decision {
    /// Its id.
    pub id: String,
    /// What it decides, as a short title.
    pub title: String,
    /// The clause that it stands for.
    pub clause: Option<String>,
    /// It is decided for each of these.
    pub each: Option<Selection>,
    /// Whether it speaks of "the pool" and is decided for each pool by itself.
    pub about_pool: bool,
    /// The classes.
    pub table: Table<String>,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// Where it stands.
    pub span: Span,
}

/// When something other than a rule applies: where this holds, for any pool where it speaks of one.
#[derive(Debug, Clone, PartialEq)]
pub struct Condition {
    /// What must hold.
    pub requirement: Requirement,
    /// Whether it speaks of "the pool".
    pub about_pool: bool,
}

/// A paper to gather.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// Its id.
    pub id: String,
    /// What it is.
    pub title: String,
    /// Who supplies it.
    pub from: Option<String>,
    /// In what form.
    pub form: Option<String>,
    /// One for each of these; else one for the whole plan.
    pub each: Option<Selection>,
    /// The file says that one is enough for all things for which it is asked.
    pub one_for_all: bool,
    /// Always needed.
    pub always: bool,
    /// Needed where this holds.
    pub when: Option<Condition>,
    /// Needed where one of these rules has one of these outcomes.
    pub on: Vec<OnOutcome>,
    /// Whether the authority is free to give it or not.
    pub discretion: bool,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// Where it stands.
    pub span: Span,
}

/// A rule's outcomes that call for a document.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OnOutcome {
    /// The rule's id.
    pub rule: String,
    /// The outcomes, in the report's words.
    pub outcomes: Vec<String>,
}

/// A duty in time.
#[derive(Debug, Clone, PartialEq)]
pub struct Duty {
    /// Its id.
    pub id: String,
    /// What is to be done.
    pub what: String,
    /// By whom.
    pub who: Option<String>,
    /// Only where this holds.
    pub when: Option<Condition>,
    /// It must be done before these.
    pub before: Vec<String>,
    /// It can start only after these.
    pub after: Vec<String>,
    /// At least so long before; so long after, where it is not to be done before something.
    pub by: Option<Stated>,
    /// No later than so long after; where it is only to be done before something, no earlier than so long before.
    pub within: Option<Stated>,
    /// How long it takes.
    pub takes: Option<Stated>,
    /// How often it recurs.
    pub every: Option<Stated>,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// Where it stands.
    pub span: Span,
}

/// What to be careful of.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// Its id.
    pub id: String,
    /// What to be careful of, and who is to be asked.
    pub says: String,
    /// Only where this holds.
    pub when: Option<Condition>,
    /// Where it stands.
    pub span: Span,
}

/// How the authority reads a clause.
#[derive(Debug, Clone, PartialEq)]
pub struct Interpretation {
    /// Its id.
    pub id: String,
    /// The ids of the rules that it is about.
    pub of: Vec<String>,
    /// How they are read.
    pub says: String,
    /// Who reads them so.
    pub by: String,
    /// From which day on (days since 1970-01-01).
    pub since: i128,
    /// Where it comes from.
    pub cited: Vec<Cited>,
    /// Where it stands.
    pub span: Span,
}

// What says the same is the same, wherever it stands: so that the rules of two files can be compared. All of it is `Eq`, so
// that what is shared equals itself without being looked through.

impl PartialEq for Test {
    fn eq(&self, other: &Self) -> bool {
        (&self.value, &self.bounds, self.holds) == (&other.value, &other.bounds, other.holds)
    }
}

impl Eq for Test {}

impl PartialEq for Each {
    fn eq(&self, other: &Self) -> bool {
        self.selection == other.selection && self.require == other.require
    }
}

impl Eq for Each {}
