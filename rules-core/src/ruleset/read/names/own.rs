//! The words that a rule set adds: kinds, outlines and facts of its own, and questions.

use crate::faults::Code;
use crate::grammar::{self, OWN_KIND, words};
use crate::quantity::Dimension;
use crate::ruleset::Question;
use crate::ruleset::read::Reader;
use crate::ruleset::read::value::flipped;
use crate::text::{Entry, Node, Span};
use crate::vocabulary::{
    Answer, Fact, FactId, KindId, Number, Outline, OutlineId, Phrase, Role, Shape,
};

// In the order of their words.
const NUMBERS: [Number; 3] = [Number::One, Number::AtMostOne, Number::Many];
const SHAPES: [Shape; 3] = [Shape::Point, Shape::Line, Shape::Area];
/// What can be answered besides a list of words: an amount, or yes or no.
const ANSWERED: [Option<Dimension>; 14] = [
    None,
    Some(Dimension::Length),
    Some(Dimension::Area),
    Some(Dimension::Volume),
    Some(Dimension::Voltage),
    Some(Dimension::Angle),
    Some(Dimension::Sound),
    Some(Dimension::Flow),
    Some(Dimension::Power),
    Some(Dimension::Mass),
    Some(Dimension::Load),
    Some(Dimension::Days),
    Some(Dimension::Date),
    Some(Dimension::Number),
];
/// More kinds, outlines or facts than this no rule set needs.
const MOST_WORDS: usize = 2000;

impl<'a> Reader<'a> {
    /// Adds what a file adds to the vocabulary.
    pub(crate) fn own_words(&mut self, node: &'a Node) {
        if let Some(kinds) = node.get("kinds") {
            for item in self.items(kinds, "kinds").iter().take(MOST_WORDS) {
                self.own_kind(item);
            }
        }
        let answers = self.vocabulary.with_role(Role::Answers);
        if let Some((answers, questions)) = answers.zip(node.get("questions")) {
            for item in self.items(questions, "questions").iter().take(MOST_WORDS) {
                self.question(item, answers);
            }
        }
    }

    fn own_kind(&mut self, node: &'a Node) -> Option<()> {
        let mut map = self.map(node, OWN_KIND.what)?;
        let [id, like, outlines, facts] = map.keys(&OWN_KIND.keys, self.faults());
        let id = self.id(id);
        let kind = id.and_then(|id| self.vocabulary.kind_named(id));
        // What the program knows by itself needs no words.
        let told = kind.is_none_or(|kind| self.words.has_kind(kind));
        if let (Some(id), false) = (id, told) {
            self.not_new(node, id)?;
        }
        let words = told.then(|| map.keys(&grammar::NEW_KIND, self.faults()));
        let kind = kind.or_else(|| self.new_kind(node, id, words?));
        self.finish(map);
        let kind = kind?;
        if let Some(entry) = like {
            self.kind_like(entry, kind);
        }
        let outlines = outlines.map(|entry| self.items(&entry.value, "outlines"));
        let outlines = outlines.into_iter().flatten().take(MOST_WORDS);
        let like: Vec<_> = outlines
            .filter_map(|item| self.own_outline(item, kind))
            .collect();
        if let Some(entry) = facts {
            for item in self.items(&entry.value, "facts").iter().take(MOST_WORDS) {
                self.own_fact(item, kind);
            }
        }
        // How high an outline lies may be told by a fact of this very kind.
        for (outline, entry) in like {
            self.outline_like(entry, outline);
        }
        Some(())
    }

    /// Refuses to declare a kind that the program has already.
    fn not_new(&mut self, node: &Node, id: &str) -> Option<()> {
        if grammar::NEW_KIND
            .iter()
            .all(|key| node.get(key.name).is_none())
        {
            return Some(());
        }
        let place = node.get("id").map_or(node.span, |id| id.span);
        let message = format!("`{id}` is a kind that the program has by itself.");
        self.fault(Code::NameTaken, place, message).help(format!(
            "Use `{id}` in the rules as it is, and take this out; or, if something else is meant, choose another `id`."
        ));
        None
    }

    fn new_kind(
        &mut self,
        node: &'a Node,
        id: Option<&'a str>,
        [_, _, number, matter]: [Option<&'a Entry>; 4],
    ) -> Option<KindId> {
        let words = ["said", "ask"].map(|key| OWN_KIND.must_have(node, key, self.faults()));
        let [said, ask] = words.map(|text| self.told(text));
        let number = number.map(|entry| self.word_of(entry, grammar::NUMBERS, NUMBERS));
        let matter = matter.map(|entry| self.matter_of(entry));
        let number = flipped(number)?.unwrap_or(Number::Many);
        let kind = self.vocabulary.add_kind(id?, &said?, number, &ask?);
        self.vocabulary.set_matter(kind, matter.flatten());
        Some(kind)
    }

    /// Adds an outline; gives it back with the entry that says which other it is like.
    fn own_outline(&mut self, node: &'a Node, kind: KindId) -> Option<(OutlineId, &'a Entry)> {
        let [id, said, shape, none, like] = self.keys(node, &grammar::OWN_OUTLINE)?;
        let id = self.id(id);
        let said = self.told(said);
        let shape = shape.and_then(|entry| self.word_of(entry, grammar::SHAPES, SHAPES));
        let none = self.is_yes(none);
        let (id, said, shape) = (id?, said?, shape?);
        if let Some(old) = self.vocabulary.outline_named(kind, id)
            && self.words.has_outline(old)
        {
            let old = self.vocabulary.outline(old);
            let same = old.shape == shape && old.none == none;
            self.said_otherwise(same, id, node.span);
            return None;
        }
        self.free_name(kind, id, node.span)?;
        let outline = self.vocabulary.add_outline(Outline {
            none,
            lie: self.vocabulary.kind(kind).others,
            ..Outline::new(kind, id, &said, shape)
        });
        Some((outline, like?))
    }

    fn own_fact(&mut self, node: &'a Node, kind: KindId) -> Option<()> {
        let mut map = self.map(node, grammar::OWN_FACT.what)?;
        let [id, said] = map.keys(&grammar::OWN_FACT.keys, self.faults());
        let answer = map.keys(&grammar::ANSWER, self.faults());
        self.finish(map);
        let id = self.id(id);
        let said = self.told(said);
        let fact = self.fact_words(kind, id, said, answer);
        let fact = fact?;
        if let Some(old) = self.earlier_fact(&fact) {
            return self.reworded(old, fact, node.span);
        }
        self.free_name(kind, &fact.name, node.span)?;
        self.vocabulary.add_fact(fact);
        Some(())
    }

    /// A question of the rule set: a fact of the kind `answers`.
    fn question(&mut self, node: &'a Node, answers: KindId) -> Option<()> {
        let mut map = self.map(node, grammar::QUESTION.what)?;
        map.as_in(grammar::QUESTION.example);
        map.instead_of(grammar::QUESTION.others);
        let [id, said, source] = map.keys(&grammar::QUESTION.keys, self.faults());
        let answer = map.keys(&grammar::ANSWER, self.faults());
        self.finish(map);
        let id = self.id(id);
        let said = self.told(said);
        let fact = self.fact_words(answers, id, said.or(Some(String::new())), answer);
        let cited = self.cited(source);
        let mut fact = fact?;
        if fact.said.is_empty() {
            fact.said = format!("answer to \"{}\"", fact.ask);
        }
        self.questions.push(Question {
            id: fact.name.clone(),
            ask: fact.ask.clone(),
            cited,
            layer: self.file,
        });
        if let Some(old) = self.earlier_fact(&fact) {
            return self.reworded(old, fact, node.span);
        }
        if self.is_day(&fact.name, answers) {
            let message = format!("`{}` is the name of a day already.", fact.name);
            let place = node.get("id").map_or(node.span, |id| id.span);
            self.fault(Code::NameTaken, place, message)
                .help("Give the question another name.");
            return None;
        }
        if self.vocabulary.fact_named(answers, &fact.name).is_some() {
            self.duplicate("question", &fact.name, node.span);
            return None;
        }
        self.vocabulary.add_fact(fact);
        Some(())
    }

    fn is_day(&self, name: &str, answers: KindId) -> bool {
        let mut days = self
            .vocabulary
            .short_kinds()
            .filter(|kind| *kind != answers);
        days.any(|kind| self.vocabulary.fact_named(kind, name).is_some())
    }

    /// The fact of that name that an earlier edition has added.
    fn earlier_fact(&self, fact: &Fact) -> Option<FactId> {
        let old = self.vocabulary.fact_named(fact.kind, &fact.name)?;
        self.words.has_fact(old).then_some(old)
    }

    /// A fact of an earlier edition, which may be asked for in other words, and is otherwise the same.
    fn reworded(&mut self, old: FactId, fact: Fact, span: Span) -> Option<()> {
        let before = self.vocabulary.fact(old);
        let same =
            (&before.answer, before.none, before.varies) == (&fact.answer, fact.none, fact.varies);
        self.said_otherwise(same, &fact.name, span)?;
        self.words.said_again(old);
        self.vocabulary.reword_fact(old, fact);
        Some(())
    }

    fn said_otherwise(&mut self, same: bool, name: &str, span: Span) -> Option<()> {
        if !same {
            self.fault(
                Code::ChangedWord,
                span,
                format!("The earlier edition has `{name}` too, and with other answers."),
            )
            .help("Give this one another name: a plan may have to be judged by both editions.");
        }
        same.then_some(())
    }

    fn fact_words(
        &mut self,
        kind: KindId,
        id: Option<&str>,
        said: Option<String>,
        [ask, how, answer, least, most, open, matter, varies, none]: [Option<&'a Entry>; 9],
    ) -> Option<Fact> {
        let [ask, how] = [ask, how].map(|text| self.told(text));
        let answer = answer.and_then(|entry| self.answer(entry, [least, most], open));
        let said = self.yes_or_no(said, answer.as_ref(), ask.as_deref());
        let matter = matter.map(|entry| self.matter_of(entry));
        let [varies, none] = [varies, none].map(|entry| self.is_yes(entry));
        Some(Fact {
            kind,
            name: id?.to_owned(),
            phrase: Phrase::of(said.as_ref()?),
            said: said?,
            answer: answer?,
            varies,
            none,
            ask: ask?,
            how: how.unwrap_or_default(),
            matter: flipped(matter)?,
            on_the_lot: None,
        })
    }

    /// The name of a yes-or-no fact in sentences: `whether …`, as in `whether the gate locks`; otherwise the answer to
    /// its question.
    fn yes_or_no(
        &self,
        said: Option<String>,
        answer: Option<&Answer>,
        ask: Option<&str>,
    ) -> Option<String> {
        let whether = |said: &String| Phrase::of(said) == Phrase::Whether;
        match (answer, ask) {
            (Some(Answer::YesNo), Some(ask)) if !said.as_ref().is_some_and(whether) => {
                said.map(|_| format!("answer to \"{ask}\""))
            }
            _ => said,
        }
    }

    /// `yes-no`, a list of words, or what it is an amount of, with its physical limits.
    fn answer(
        &mut self,
        entry: &'a Entry,
        written: [Option<&'a Entry>; 2],
        open: Option<&'a Entry>,
    ) -> Option<Answer> {
        if entry.value.as_list().is_some() {
            let words = self.words(&entry.value).into_iter();
            return Some(Answer::Word {
                words: words.map(|(word, _)| word.to_owned()).collect(),
                open: self.is_yes(open),
            });
        }
        if let Some(help) = entry.value.text().and_then(other_answer) {
            let message = "This is not one of the words that can stand after `answer`.";
            self.fault(Code::UnknownWord, entry.value.span, message)
                .help(help);
            return None;
        }
        let Some(dimension) = self.word_of(entry, words(&grammar::ANSWERS), ANSWERED)? else {
            return Some(Answer::YesNo);
        };
        let [least, most] = written.map(|entry| {
            flipped(entry.map(|entry| {
                let text = self.text(entry)?;
                self.stated(text, entry.value.span, Some(dimension))
                    .map(|stated| stated.range.low)
            }))
        });
        let (least, most) = (least?, most?);
        if let (Some(least), Some(most), [Some(entry), _]) = (least, most, written)
            && least > most
        {
            let message = "`least` is more than `most`, so that no answer is possible.";
            self.fault(Code::LeastAboveMost, entry.value.span, message)
                .help("Are the two the wrong way round? `least` is the smallest answer that is possible, `most` the largest.");
            return None;
        }
        Some(Answer::Amount {
            dimension,
            least,
            most,
        })
    }

    /// Facts and outlines of a kind share their names' space.
    fn free_name(&mut self, kind: KindId, name: &str, span: Span) -> Option<()> {
        let taken = self.vocabulary.fact_named(kind, name).is_some()
            || self.vocabulary.outline_named(kind, name).is_some();
        if taken {
            let kind = self.vocabulary.kind(kind).name.clone();
            self.fault(
                Code::NameTaken,
                span,
                format!("`{kind}.{name}` is there already."),
            )
            .help("Use it, or choose another name.");
            return None;
        }
        Some(())
    }
}

/// What people call a type of amount, and the word to write.
const AMOUNTS: [(&str, &str); 14] = [
    ("distance", "length"),
    ("height", "length"),
    ("depth", "length"),
    ("width", "length"),
    ("metres", "length"),
    ("size", "area"),
    ("surface", "area"),
    ("weight", "mass"),
    ("noise", "sound"),
    ("day", "date"),
    ("time", "days"),
    ("duration", "days"),
    ("count", "number"),
    ("amount", "number"),
];

/// What to write for an answer that is no word of ours: yes and no, or words of the writer's own.
fn other_answer(written: &str) -> Option<String> {
    let words = written.replace(" or ", ", ");
    let meant = AMOUNTS.iter().find(|(known, _)| *known == written);
    let listed = |mark: char| {
        let words: Vec<&str> = written.split(mark).map(str::trim).collect();
        let short = |word: &&str| !word.is_empty() && !word.contains(' ');
        (words.len() > 1 && words.iter().all(short)).then(|| words.join(", "))
    };
    match written {
        "yes" | "no" | "yes or no" | "yes/no" | "boolean" | "bool" => {
            Some("Write `yes-no`.".to_owned())
        }
        "text" | "word" | "string" | "words" => {
            Some("Write the words that can be answered, as in `[granite, chalk]`.".to_owned())
        }
        _ if let Some((_, meant)) = meant => Some(format!("Write `{meant}`.")),
        _ if let Some(words) = listed('/').or_else(|| listed(';')).or_else(|| listed('|')) => {
            Some(format!("Write a list of the words: `[{words}]`."))
        }
        _ => words.contains(", ").then(|| format!("Write `[{words}]`.")),
    }
}
