//! What a rule file says of its scope: which matters it holds, which it leaves to others, what always comes on top.
//!
//! The scope of a file is its own. What a file under it says of a matter stands where it does not name that matter itself;
//! where it has no scope at all, the scopes under it stand as they are.

use std::collections::{BTreeMap, BTreeSet};

use crate::faults::Code;
use crate::grammar;
use crate::ruleset::read::{Reader, listed};
use crate::ruleset::{LeftOut, Reach, RuleSet};
use crate::text::{Entry, Fault, Help, Node, Span};
use crate::vocabulary::{Matter, Vocabulary};

/// How many things are named that would make a rule speak of a matter.
const EXAMPLES: usize = 4;

/// A matter and where the file names it.
type Named = (Matter, Span);

/// The scope of one file.
struct Written<'a> {
    holds: Vec<Named>,
    leaves_out: Vec<(LeftOut, Span)>,
    on_top: Vec<String>,
    /// The word `scope` and what stands behind it.
    entry: &'a Entry,
}

impl<'a> Reader<'a> {
    /// What the files say that they hold.
    pub(crate) fn scope(&mut self) -> Reach {
        let mut scopes = Vec::new();
        self.base_first(|reader, node| scopes.push(reader.scope_of(node)));
        let own = scopes.pop().flatten();
        let mut reach = below(scopes.into_iter().flatten());
        if let Some(own) = own {
            self.unnamed(&own, &reach);
            self.over(own, &mut reach);
        }
        reach
    }

    fn scope_of(&mut self, node: &'a Node) -> Option<Written<'a>> {
        let entry = node.as_map()?.iter().find(|entry| entry.key == "scope")?;
        let [holds, leaves_out, on_top] = self.keys(&entry.value, &grammar::SCOPE)?;
        let written = Written {
            holds: self.matters_held(holds),
            leaves_out: self.left_out(leaves_out),
            on_top: self.on_top(on_top),
            entry,
        };
        self.named_twice(&written);
        Some(written)
    }

    fn matters_held(&mut self, entry: Option<&'a Entry>) -> Vec<Named> {
        let words = entry.map_or_else(Vec::new, |entry| self.words(&entry.value));
        words
            .into_iter()
            .filter_map(|(word, span)| Some((self.matter(word, span)?, span)))
            .collect()
    }

    fn left_out(&mut self, entry: Option<&'a Entry>) -> Vec<(LeftOut, Span)> {
        let items = entry.map_or(&[][..], |entry| self.items(&entry.value, &entry.key));
        items
            .iter()
            .filter_map(|item| self.one_left_out(item))
            .collect()
    }

    fn one_left_out(&mut self, node: &'a Node) -> Option<(LeftOut, Span)> {
        let [matter, ask, why] = self.keys(node, &grammar::LEFT_OUT)?;
        let span = matter.map(|entry| entry.value.span);
        let matter = matter.and_then(|entry| self.matter_of(entry));
        let [ask, why] = [ask, why].map(|text| self.told(text));
        let (matter, ask) = (matter?, ask?);
        Some((LeftOut { matter, ask, why }, span?))
    }

    fn on_top(&mut self, entry: Option<&'a Entry>) -> Vec<String> {
        let items = entry.map_or(&[][..], |entry| self.items(&entry.value, &entry.key));
        let texts = items
            .iter()
            .filter_map(|item| self.said_here(item, "on-top"));
        texts.map(str::to_owned).collect()
    }

    /// The matter that stands after a key.
    pub(crate) fn matter_of(&mut self, entry: &'a Entry) -> Option<Matter> {
        let word = self.text(entry)?;
        self.matter(word, entry.value.span)
    }

    fn matter(&mut self, word: &str, span: Span) -> Option<Matter> {
        let matter = Matter::named(word);
        if let (None, Some(meant)) = (matter, called(word)) {
            let message = format!("`{word}` is not one of the words that can stand here.");
            self.fault(Code::UnknownWord, span, message)
                .help(Help::near(Some(meant.to_owned()), ""));
        } else if matter.is_none() {
            self.unknown_word(word, span, Matter::ALL.iter().map(|matter| matter.id()));
        }
        matter
    }

    fn named_twice(&mut self, written: &Written<'_>) {
        let left_out = written
            .leaves_out
            .iter()
            .map(|(left, span)| (left.matter, *span));
        let mut seen = BTreeSet::new();
        for (matter, span) in written.holds.iter().copied().chain(left_out) {
            if !seen.insert(matter) {
                self.fault(
                    Code::MatterTwice,
                    span,
                    format!("The scope names `{}` twice.", matter.id()),
                )
                .help("A matter is held or left out, not both: name it once.");
            }
        }
    }

    /// Says of which matters the scope says nothing.
    fn unnamed(&mut self, own: &Written<'_>, below: &Reach) {
        let named = |matter: &Matter| {
            below.holds.contains(matter)
                || below.left_out(*matter).is_some()
                || own.holds.iter().any(|(held, _)| held == matter)
                || own
                    .leaves_out
                    .iter()
                    .any(|(left, _)| left.matter == *matter)
        };
        let unnamed: Vec<Matter> = Matter::ALL
            .iter()
            .copied()
            .filter(|it| !named(it))
            .collect();
        let Some(first) = unnamed.first() else { return };
        // What could not be read may have been one of these.
        let within = |fault: &Fault| {
            fault
                .span
                .is_some_and(|span| own.entry.value.span.holds(span))
        };
        let unread = |fault: &Fault| {
            matches!(fault.code, Code::UnknownWord | Code::NotAMap)
                || fault.code == Code::MissingKey && within(fault)
        };
        if self.faults.list.iter().any(unread) {
            return;
        }
        let ids = listed(unnamed.iter().map(|matter| matter.id()));
        let message = format!("The scope does not say whether these rules hold {ids}.");
        self.fault(Code::MatterUnnamed, own.entry.key_span, message)
            .help(format!(
                "Name each under `holds`, or under `leaves-out` with who knows it, as in `{{matter: {}, ask: {}}}`.",
                first.id(),
                first.who()
            ));
    }

    /// Puts a file's own scope over what the files under it say.
    fn over(&mut self, own: Written<'_>, reach: &mut Reach) {
        let left_out: BTreeSet<Matter> =
            own.leaves_out.iter().map(|(left, _)| left.matter).collect();
        let inherited = reach
            .holds
            .iter()
            .filter(|matter| !left_out.contains(matter));
        self.claims = own.holds.clone();
        self.claims
            .extend(inherited.map(|matter| (*matter, own.entry.key_span)));
        reach.holds = self.claims.iter().map(|(matter, _)| *matter).collect();
        let inherited = std::mem::take(&mut reach.leaves_out).into_iter();
        let inherited = inherited
            .filter(|left| !left_out.contains(&left.matter) && !reach.holds.contains(&left.matter));
        let own_first = own.leaves_out.into_iter().map(|(left, _)| left);
        reach.leaves_out = own_first.chain(inherited).collect();
        reach.on_top.splice(0..0, own.on_top);
    }

    /// Says which matters a file claims though nothing in it reads them; what nothing reads is not held.
    pub(crate) fn check_scope(&mut self, rules: &mut RuleSet) {
        let spoken = rules.speaks_of();
        for (matter, span) in std::mem::take(&mut self.claims) {
            if !spoken.contains(&matter) {
                self.not_read(matter, span);
            }
        }
        rules.reach.holds.retain(|matter| spoken.contains(matter));
        self.scope_missing();
    }

    fn not_read(&mut self, matter: Matter, span: Span) {
        let message = format!(
            "The scope says that these rules hold `{}` ({}), and no binding rule of theirs reads any of that.",
            matter.id(),
            matter.said()
        );
        let would = match matter {
            Matter::Papers => "A document, a decision or a duty would.".to_owned(),
            _ => format!(
                "What would: a rule that requires something of {}, or of a question, a kind or a fact of your own with `matter: {}`.",
                examples(matter, &self.vocabulary),
                matter.id()
            ),
        };
        self.fault(Code::MatterNotRead, span, message).help(format!(
            "{would} Otherwise list it under `leaves-out`, with who knows it."
        ));
    }

    fn scope_missing(&mut self) {
        let asked_for = self.files.first().filter(|file| file.name.is_none());
        let Some(top) = asked_for.map(|file| &file.node) else {
            return;
        };
        if top.get("scope").is_some() {
            return;
        }
        let span = top.get("ruleset").map_or(top.span, |id| id.span);
        self.warning(
            Code::ScopeMissing,
            span,
            "Nothing says which matters these rules hold, and which they leave to others.",
        )
        .help("Add `scope:` with `holds`, and with `leaves-out` for the rest: whoever reads the report would think that what is left out is allowed.");
    }
}

/// The matter that people call by another word.
fn called(word: &str) -> Option<&'static str> {
    const CALLED: [(&str, Matter); 14] = [
        ("setbacks", Matter::LotLines),
        ("boundaries", Matter::LotLines),
        ("streets", Matter::Road),
        ("houses", Matter::Buildings),
        ("coverage", Matter::Zoning),
        ("fences", Matter::Barrier),
        ("gates", Matter::Barrier),
        ("doors", Matter::HouseDoors),
        ("drains", Matter::Entrapment),
        ("suction", Matter::Entrapment),
        ("electric", Matter::Electricity),
        ("septic", Matter::Sewage),
        ("trees", Matter::HeritageAndNature),
        ("documents", Matter::Papers),
    ];
    let word = word.to_lowercase();
    let several = format!("{word}s");
    let known = CALLED
        .iter()
        .find(|(known, _)| *known == word || *known == several);
    known.map(|(_, meant)| meant.id())
}

/// What the files under one hold together; what one of them leaves out and another holds is held.
fn below<'a>(files: impl Iterator<Item = Written<'a>>) -> Reach {
    let mut reach = Reach::default();
    let mut left_out = BTreeMap::new();
    for file in files {
        reach
            .holds
            .extend(file.holds.iter().map(|(matter, _)| *matter));
        reach.on_top.splice(0..0, file.on_top);
        left_out.extend(
            file.leaves_out
                .into_iter()
                .map(|(left, _)| (left.matter, left)),
        );
    }
    left_out.retain(|matter, _| !reach.holds.contains(matter));
    reach.leaves_out = left_out.into_values().collect();
    reach
}

/// What a rule could read of a matter, for a sentence.
fn examples(matter: Matter, vocabulary: &Vocabulary) -> String {
    let kinds = vocabulary
        .kinds()
        .filter(|(_, kind)| kind.matter == Some(matter));
    let kinds = kinds.map(|(_, kind)| kind.name.clone());
    let all = vocabulary.kinds().flat_map(|(_, kind)| kind.facts.clone());
    let facts = all.filter(|fact| vocabulary.fact(*fact).matter == Some(matter));
    let facts = facts.map(|fact| vocabulary.fact_path(fact));
    let named: Vec<String> = kinds.chain(facts).take(EXAMPLES).collect();
    match named.is_empty() {
        true => "a kind of your own with that `matter`".to_owned(),
        false => listed(named.iter().map(String::as_str)).replace(" and ", " or "),
    }
}
