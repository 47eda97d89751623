//! What the writer may write where they are, and what is written there already, each with its sentence.

use super::entries::entries;
use super::keysets::{Keyset, Known, Open};
use super::open::Tables;
use super::place::{Line, Place, Stands, Step, Way};
use super::rough::rough;
use crate::vocabulary::Vocabulary;

/// What may be written in a place, and what the words there mean.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Hints {
    /// The first byte of the word that is being written.
    pub from: usize,
    /// One past its last byte.
    pub to: usize,
    /// What may be written instead of it: first what begins like it.
    pub offers: Vec<Offer>,
    /// What stands there, the outermost first: the key, then the word after it.
    pub about: Vec<About>,
}

/// A word that may be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// The word.
    pub word: String,
    /// What it means, in a sentence; empty if the word says it all.
    pub says: String,
    /// The text that replaces the word being typed.
    pub writes: String,
}

/// What a key, a word or a map means.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct About {
    /// The key or the word.
    pub name: String,
    /// What it means, in a sentence.
    pub says: String,
    /// What may be written after it: words, keys, or an amount, with an example.
    pub takes: Vec<String>,
    /// An example, as written in a file; empty if there is none.
    pub example: String,
}

/// What may be written at a byte of a rule file, and what is written there.
pub fn hints(text: &str, at: usize, vocabulary: &Vocabulary) -> Hints {
    let own = entries(text);
    let place = Way::to(text, at).through(&rough(text));
    let tables = Tables {
        vocabulary,
        own: &own,
    };
    let (from, to) = word_at(text, at);
    let typed = text.get(from..at).unwrap_or_default();
    let here = Here {
        place,
        tables,
        word: text.get(from..to).unwrap_or_default(),
        column: text
            .get(..from)
            .and_then(|before| before.rsplit('\n').next())
            .map_or(0, str::len),
        has_colon: text.get(to..).is_some_and(|rest| rest.starts_with(':')),
    };
    Hints {
        from,
        to,
        offers: best(here.offers(), typed),
        about: here.about(),
    }
}

/// The word that a byte stands in or behind.
fn word_at(text: &str, at: usize) -> (usize, usize) {
    let is_part = |c: char| c.is_alphanumeric() || matches!(c, '-' | '.' | '_');
    let before = text.get(..at).unwrap_or_default();
    let after = text.get(at..).unwrap_or_default();
    let from = before.trim_end_matches(is_part).len();
    // The dash of a list is no part of a word.
    let dash = before.get(from..).is_some_and(|word| word == "-");
    let long = after.len() - after.trim_start_matches(is_part).len();
    (from + usize::from(dash), at + long)
}

/// Those that begin like what is typed, then those that hold it.
fn best(offers: Vec<Offer>, typed: &str) -> Vec<Offer> {
    let typed = typed.to_lowercase();
    let begins = |offer: &Offer| offer.word.starts_with(&typed);
    let (mut first, rest): (Vec<_>, Vec<_>) = offers.into_iter().partition(begins);
    first.extend(rest.into_iter().filter(|offer| offer.word.contains(&typed)));
    first.retain(|offer| offer.word != typed);
    let mut seen = std::collections::BTreeSet::new();
    first.retain(|offer| seen.insert(offer.word.clone()));
    first
}

struct Here<'t> {
    place: Place<'t>,
    tables: Tables<'t>,
    word: &'t str,
    /// The column at which the word begins.
    column: usize,
    has_colon: bool,
}

impl Here<'_> {
    fn within(&self) -> &[(&str, &str)] {
        match &self.place.stands {
            Stands::Key(others, _) => others,
            _ => &[],
        }
    }

    fn open(&self) -> Open {
        self.tables.at(&self.place.steps, self.within())
    }

    fn offers(&self) -> Vec<Offer> {
        let open = self.open();
        match &self.place.stands {
            Stands::Key(others, column) => {
                let maps = open.fitting(others);
                let each = maps.into_iter();
                each.flat_map(|map| self.keys(map, others, *column, ""))
                    .collect()
            }
            Stands::Value(Line::OfTheKey) => words(&open),
            Stands::Value(Line::Own) => self.on_own_line(&open),
            Stands::Item => self.parts(&open, "- "),
        }
    }

    fn on_own_line(&self, open: &Open) -> Vec<Offer> {
        let mut offers = words(open);
        for map in &open.maps {
            offers.extend(self.keys(map, &[], Some(self.column), ""));
        }
        let in_list = matches!(self.place.steps.last(), Some(Step::Item));
        if open.maps.is_empty() && !in_list {
            offers.extend(self.parts(open, "- "));
        }
        offers
    }

    fn parts(&self, open: &Open, lead: &str) -> Vec<Offer> {
        let step = [Step::Item];
        let steps: Vec<Step<'_>> = self.place.steps.iter().cloned().chain(step).collect();
        let inner = self.tables.at(&steps, &[]);
        let mut offers = words(&inner);
        for offer in &mut offers {
            offer.writes.insert_str(0, lead);
        }
        for map in &inner.maps {
            offers.extend(self.keys(map, &[], Some(self.column + lead.len()), lead));
        }
        if open.parts.is_empty() {
            Vec::new()
        } else {
            offers
        }
    }

    /// The keys that may still stand in a map; a word that people say instead finds its key.
    fn keys(
        &self,
        map: &Keyset,
        others: &[(&str, &str)],
        column: Option<usize>,
        lead: &str,
    ) -> Vec<Offer> {
        let offer = |known: &Known| Offer {
            word: known.name.clone(),
            says: known.says.clone(),
            writes: format!("{lead}{}", self.written(known, column)),
        };
        let mut offers: Vec<Offer> = map.still(others).map(offer).collect();
        let meant = map.others.iter().filter(|(said, _)| *said == self.word);
        for (said, key) in meant {
            let meant = offers.iter().find(|offer| offer.word == *key).cloned();
            offers.extend(meant.map(|offer| Offer {
                says: format!("Write `{key}`. {}", offer.says),
                word: (*said).to_owned() + " → " + key,
                ..offer
            }));
        }
        offers
    }

    /// A key, and the beginning of what follows it.
    fn written(&self, known: &Known, column: Option<usize>) -> String {
        let name = &known.name;
        if self.has_colon {
            return name.clone();
        }
        let mut open = Open::default();
        self.tables.open(known.takes, &mut open);
        // One word among maps, such as `refer`, is the rare way to go on.
        let few = usize::from(!open.maps.is_empty());
        let is_long = open.words.len() <= few && open.other.is_empty();
        match column {
            Some(column) if is_long && !open.parts.is_empty() && open.maps.is_empty() => {
                format!("{name}:\n{}- ", " ".repeat(column + 2))
            }
            Some(column) if is_long && !open.maps.is_empty() => {
                format!("{name}:\n{}", " ".repeat(column + 2))
            }
            _ => format!("{name}: "),
        }
    }

    fn about(&self) -> Vec<About> {
        let open = self.open();
        let mut about: Vec<About> = self.about_key().into_iter().collect();
        match &self.place.stands {
            Stands::Key(others, _) => {
                let maps = open.fitting(others);
                let known = maps.iter().flat_map(|map| &map.keys);
                let mut known = known.filter(|known| known.name == self.word);
                match known.next() {
                    Some(known) => about = vec![self.about_known(known)],
                    None => about.extend(maps.first().map(|map| about_map(map))),
                }
            }
            _ => {
                let named = open.words.iter().find(|word| word.word == self.word);
                about.extend(named.map(|word| About {
                    name: word.word.clone(),
                    says: word.says.clone(),
                    ..About::default()
                }));
            }
        }
        about.retain(|about| !about.says.is_empty() || !about.takes.is_empty());
        about
    }

    /// The key that the place follows.
    fn about_key(&self) -> Option<About> {
        let steps = &self.place.steps;
        let is_key = |step: &Step<'_>| matches!(step, Step::Key(..));
        let number = steps.iter().rposition(is_key)?;
        let Some(Step::Key(key, others)) = steps.get(number) else {
            return None;
        };
        let open = self.tables.at(steps.get(..number)?, others);
        let mut given = others.clone();
        given.push((key, ""));
        let maps = open.fitting(&given);
        let mut known = maps.iter().flat_map(|map| &map.keys);
        let known = known.find(|known| known.name == *key)?;
        Some(self.about_known(known))
    }

    fn about_known(&self, known: &Known) -> About {
        let mut open = Open::default();
        self.tables.open(known.takes, &mut open);
        let map = open.maps.first();
        let says = match (known.says.as_str(), map) {
            ("", Some(map)) => map.means,
            (says, _) => says,
        };
        About {
            name: known.name.clone(),
            says: says.to_owned(),
            takes: takes(&open),
            example: map.map_or("", |map| map.example).to_owned(),
        }
    }
}

fn words(open: &Open) -> Vec<Offer> {
    let words = open.words.iter();
    let offer = words.map(|word| Offer {
        word: word.word.clone(),
        says: word.says.clone(),
        writes: word.word.clone(),
    });
    offer.collect()
}

fn about_map(map: &Keyset) -> About {
    About {
        name: map.what.to_owned(),
        says: map.means.to_owned(),
        takes: Vec::new(),
        example: map.example.to_owned(),
    }
}

/// The most words or keys that are told of a place.
const MOST_TOLD: usize = 16;

/// What may follow a key, in a few words.
fn takes(open: &Open) -> Vec<String> {
    let mut all: Vec<String> = open.other.clone();
    // Of many words the list tells more.
    let words = open.words.iter().filter(|_| open.words.len() <= MOST_TOLD);
    all.extend(told(words.map(|word| format!("`{}`", word.word)).collect()));
    for map in &open.maps {
        let keys = map.keys.iter().map(|key| format!("`{}`", key.name));
        all.extend(told(keys.collect()));
    }
    all
}

fn told(mut words: Vec<String>) -> Option<String> {
    let more = words.len() > MOST_TOLD;
    words.truncate(MOST_TOLD);
    let end = if more { " …" } else { "" };
    (!words.is_empty()).then(|| format!("{}{end}", words.join(", ")))
}
