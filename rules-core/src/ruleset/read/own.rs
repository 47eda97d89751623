//! The words that a rule set adds: kinds, outlines and facts of its own, and questions.

use super::Reader;
use super::values::flipped;
use crate::quantity::Dimension;
use crate::ruleset::Question;
use crate::text::{Entry, MapReader, Node, Span};
use crate::vocabulary::{Answer, Fact, FactId, KindId, Number, Outline, OutlineId, Role, Shape};

const NUMBERS: [(&str, Number); 3] = [
    ("one", Number::One),
    ("at-most-one", Number::AtMostOne),
    ("many", Number::Many),
];
const SHAPES: [(&str, Shape); 3] = [
    ("point", Shape::Point),
    ("line", Shape::Line),
    ("area", Shape::Area),
];
const DIMENSIONS: [(&str, Dimension); 13] = [
    ("length", Dimension::Length),
    ("area", Dimension::Area),
    ("volume", Dimension::Volume),
    ("voltage", Dimension::Voltage),
    ("angle", Dimension::Angle),
    ("sound", Dimension::Sound),
    ("flow", Dimension::Flow),
    ("power", Dimension::Power),
    ("mass", Dimension::Mass),
    ("load", Dimension::Load),
    ("days", Dimension::Days),
    ("date", Dimension::Date),
    ("number", Dimension::Number),
];
/// More kinds, outlines or facts than this no rule set needs.
const MOST_WORDS: usize = 2000;

impl<'a> Reader<'a> {
    /// Adds what a file adds to the vocabulary.
    pub(super) fn own_words(&mut self, node: &'a Node) {
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
        let mut map = self.map(node, "a kind")?;
        let id = self.id(&mut map, "id");
        let existing = id.and_then(|id| self.vocabulary.kind_named(id));
        let kind = match existing {
            Some(kind) => {
                if self.words.has_kind(kind) {
                    self.finish_quietly(&mut map);
                }
                Some(kind)
            }
            None => self.new_kind(&mut map, id),
        };
        let like = map.take("like");
        let [outlines, facts] = ["outlines", "facts"].map(|key| map.take(key));
        let kind = kind.or_else(|| {
            self.finish_quietly(&mut map);
            None
        });
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

    fn finish_quietly(&mut self, map: &mut MapReader<'a>) {
        for key in ["said", "ask", "number", "matter"] {
            map.take(key);
        }
    }

    fn new_kind(&mut self, map: &mut MapReader<'a>, id: Option<&'a str>) -> Option<KindId> {
        let said = self.need_text(map, "said");
        let ask = self.need_text(map, "ask");
        let number = map.take("number").map(|entry| self.one_of(entry, &NUMBERS));
        let matter = map.take("matter").map(|entry| self.matter_of(entry));
        let number = flipped(number)?.unwrap_or(Number::Many);
        let kind = self.vocabulary.add_kind(id?, &said?, number, &ask?);
        self.vocabulary.set_matter(kind, matter.flatten());
        Some(kind)
    }

    /// Adds an outline; gives it back with the entry that says which other it is like.
    fn own_outline(&mut self, node: &'a Node, kind: KindId) -> Option<(OutlineId, &'a Entry)> {
        let mut map = self.map(node, "an outline")?;
        let id = self.id(&mut map, "id");
        let said = self.need_text(&mut map, "said");
        let shape = self
            .need(&mut map, "shape")
            .and_then(|entry| self.one_of(entry, &SHAPES));
        let none = self.take_yes_no(&mut map, "none");
        let like = map.take("like");
        self.finish(map);
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
        let mut map = self.map(node, "a fact")?;
        let id = self.id(&mut map, "id");
        let said = self.need_text(&mut map, "said");
        let fact = self.fact_words(&mut map, kind, id, said);
        self.finish(map);
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
        let mut map = self.map(node, "a question")?;
        let id = self.id(&mut map, "id");
        let said = self.take_text(&mut map, "said");
        let fact = self.fact_words(&mut map, answers, id, said.or(Some(String::new())));
        let cited = self.cited(&mut map);
        self.finish(map);
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
        if self.vocabulary.fact_named(answers, &fact.name).is_some() {
            self.duplicate("question", &fact.name, node.span);
            return None;
        }
        self.vocabulary.add_fact(fact);
        Some(())
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
                "changed-word",
                span,
                format!("The earlier edition has `{name}` too, and with other answers."),
            )
            .help("Give this one another name: a plan may have to be judged by both editions.");
        }
        same.then_some(())
    }

    fn fact_words(
        &mut self,
        map: &mut MapReader<'a>,
        kind: KindId,
        id: Option<&str>,
        said: Option<String>,
    ) -> Option<Fact> {
        let ask = self.need_text(map, "ask");
        let how = self.take_text(map, "how");
        let answer = self.answer(map);
        let matter = map.take("matter").map(|entry| self.matter_of(entry));
        let varies = self.take_yes_no(map, "varies");
        let none = self.take_yes_no(map, "none");
        Some(Fact {
            kind,
            name: id?.to_owned(),
            said: said?,
            answer: answer?,
            varies,
            none,
            ask: ask?,
            how: how.unwrap_or_default(),
            matter: flipped(matter)?,
        })
    }

    /// `yes-no`, a list of words, or what it is an amount of, with its physical limits.
    fn answer(&mut self, map: &mut MapReader<'a>) -> Option<Answer> {
        let entry = self.need(map, "answer");
        let [least, most, open] = ["least", "most", "open"].map(|key| map.take(key));
        let entry = entry?;
        if entry.value.as_list().is_some() {
            let words = self
                .words(&entry.value)
                .into_iter()
                .map(|(word, _)| word.to_owned())
                .collect();
            let open = open
                .and_then(|entry| self.yes_no(&entry.value))
                .unwrap_or(false);
            return Some(Answer::Word { words, open });
        }
        let word = self.text(entry)?;
        if word == "yes-no" {
            return Some(Answer::YesNo);
        }
        let Some(&(_, dimension)) = DIMENSIONS.iter().find(|(name, _)| *name == word) else {
            let known = DIMENSIONS.iter().map(|(name, _)| *name).chain(["yes-no"]);
            self.unknown_word(word, entry.value.span, known);
            return None;
        };
        let limits = [least, most].map(|entry| {
            flipped(entry.map(|entry| {
                let text = self.text(entry)?;
                self.stated(text, entry.value.span, Some(dimension))
                    .map(|stated| stated.range.low)
            }))
        });
        let [least, most] = limits;
        Some(Answer::Amount {
            dimension,
            least: least?,
            most: most?,
        })
    }

    /// Facts and outlines of a kind share their names' space.
    fn free_name(&mut self, kind: KindId, name: &str, span: Span) -> Option<()> {
        let taken = self.vocabulary.fact_named(kind, name).is_some()
            || self.vocabulary.outline_named(kind, name).is_some();
        if taken {
            let kind = self.vocabulary.kind(kind).name.clone();
            self.fault(
                "name-taken",
                span,
                format!("`{kind}.{name}` is there already."),
            )
            .help("Use it, or choose another name.");
            return None;
        }
        Some(())
    }
}
