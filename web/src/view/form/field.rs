//! One question: a field, why it is asked, how it is measured, and what is wrong with what was typed.

use std::collections::BTreeSet;

use rules_core::FaultRow;
use rules_core::asked::{AskedFact, Because, Choice};
use rules_core::text::{Content, Node};

use super::Form;
use super::choice::{Word, labelled, radios, tick};
use crate::held::figure_shown;
use crate::plan::field_of;
use crate::view::keyed::{El, button, el};
use crate::view::prose::{prose, told};
use crate::words::{fill, t, word};

/// As many words, at most, stand side by side; more are a list.
const FEW: usize = 4;

/// What one field asks.
#[derive(Clone, Copy)]
pub struct Ask<'a> {
    /// The question.
    pub ask: &'a str,
    /// How to find the answer.
    pub how: &'a str,
    /// The sort of answer.
    pub answer: &'a str,
    /// The words to choose from.
    pub words: &'a [Choice],
    /// Whether other words are possible.
    pub other_words: bool,
    /// The unit beside the field.
    pub unit: Option<&'a str>,
    /// Whether the answer may be `none`.
    pub may_be_none: bool,
    /// Whether it may change along its thing.
    pub varies: bool,
    /// The rules that ask.
    pub why: &'a [Because],
    /// Whether the question is the library's, in English.
    pub said: bool,
}

impl<'a> Ask<'a> {
    /// A question of the page itself.
    pub fn own(ask: &'a str, answer: &'a str, unit: Option<&'a str>) -> Self {
        Self {
            ask,
            how: "",
            answer,
            words: &[],
            other_words: false,
            unit,
            may_be_none: false,
            varies: false,
            why: &[],
            said: false,
        }
    }

    /// A choice between words.
    pub fn choice(ask: &'a str, words: &'a [Choice]) -> Self {
        let choice = Self::own(ask, "choice", None);
        Self { words, ..choice }
    }
}

impl<'a> Form<'a> {
    /// A question about a fact.
    pub fn fact(&self, fact: &'a AskedFact) -> Ask<'a> {
        let is_length = fact.answer == "length" || fact.units.contains(&"m");
        Ask {
            ask: &fact.ask,
            how: &fact.how,
            answer: fact.answer,
            words: &fact.words,
            other_words: fact.other_words,
            unit: if is_length {
                Some(self.unit)
            } else {
                fact.unit
            },
            may_be_none: fact.may_be_none,
            varies: fact.varies,
            why: &fact.why,
            said: true,
        }
    }

    /// A question with its field.
    pub fn question(&self, path: &str, ask: Ask<'_>) -> El {
        // A rule set's questions are in its own language.
        let ask = Ask {
            said: ask.said && !path.starts_with("answers."),
            ..ask
        };
        let id = field_of(path);
        let wrong = self.faults_at(path);
        let field = Field {
            form: self,
            path,
            id: &id,
            ask,
            wrong: !wrong.is_empty(),
        };
        let label = match field.few() {
            Some(_) => el("p"),
            None => el("label").set("for", id.clone()),
        };
        let label = label.class("ask").id(format!("{id}-ask"));
        let label = if ask.said { label.said() } else { label };
        el("div")
            .class("question")
            .id(format!("q-{id}"))
            .is("data-wrong", !wrong.is_empty())
            .with(label.with(ask.ask))
            .with(field.control())
            .with((!wrong.is_empty()).then(|| faults(&id, &wrong)))
            .with(field.about())
    }

    /// A field for a length.
    pub fn length(&self, path: &str, label: &str) -> El {
        self.question(path, Ask::own(label, "length", Some(self.unit)))
    }

    /// A field for words.
    pub fn words(&self, path: &str, label: &str) -> El {
        let id = field_of(path);
        let field = text_input(&id, "words-typed", path).set("value", self.shown(path));
        labelled(&id, label, field).id(format!("q-{id}"))
    }

    /// What a field shows for the value at a path: as it was typed.
    pub fn shown(&self, path: &str) -> String {
        self.at(path).map(shown).unwrap_or_default()
    }
}

/// What is wrong with a field.
pub fn faults(id: &str, wrong: &[&FaultRow]) -> El {
    let row = |row: &&FaultRow| el("p").with(told(&row.message, row.help.as_deref()));
    el("div")
        .class("wrong")
        .id(format!("{id}-wrong"))
        .each(wrong.iter().map(row))
}

/// A field for text that changes the plan at a path.
pub fn text_input(id: &str, act: &'static str, path: &str) -> El {
    let field = el("input").id(id.to_owned()).set("type", "text");
    field
        .set("autocomplete", "off")
        .does(act)
        .set("data-path", path.to_owned())
}

/// A field that is being laid out.
struct Field<'a> {
    form: &'a Form<'a>,
    path: &'a str,
    id: &'a str,
    ask: Ask<'a>,
    wrong: bool,
}

impl Field<'_> {
    fn value(&self) -> Option<&Node> {
        self.form.at(self.path)
    }

    fn control(&self) -> Vec<El> {
        match (self.value().and_then(span), self.ask.answer) {
            (Some(span), _) => vec![self.span(span)],
            (None, _) if self.ask.other_words => self.open_choice(),
            (None, "choice" | "yes-no") => vec![self.choice()],
            (None, "date") => vec![self.described(self.input("date", self.path, self.id))],
            _ => vec![self.figure()],
        }
    }

    fn figure(&self) -> El {
        let unit = self
            .ask
            .unit
            .map(|unit| el("span").class("unit").with(unit));
        let figure = el("div")
            .class("figure")
            .with(self.amount(self.path, self.id))
            .with(unit);
        figure.with(self.ask.may_be_none.then(|| self.none()))
    }

    fn amount(&self, path: &str, id: &str) -> El {
        let unit = self.ask.unit.unwrap_or_default().to_owned();
        let amount = self
            .input("text", path, id)
            .class("short")
            .set("data-unit", unit);
        self.described(amount.set("autocomplete", "off").set("inputmode", "text"))
    }

    fn input(&self, sort: &'static str, path: &str, id: &str) -> El {
        let value = figure_shown(&self.form.shown(path));
        let input = el("input")
            .id(id.to_owned())
            .set("type", sort)
            .does("typed");
        input.set("data-path", path.to_owned()).set("value", value)
    }

    /// Marks what describes a field, and whether it is wrong.
    fn described(&self, field: El) -> El {
        let wrong = self.wrong.then(|| format!("{}-wrong", self.id));
        let how = (!self.ask.how.is_empty()).then(|| format!("{}-how", self.id));
        let by: Vec<String> = wrong.into_iter().chain(how).collect();
        let field = if by.is_empty() {
            field
        } else {
            field.set("aria-describedby", by.join(" "))
        };
        if self.wrong {
            field.set("aria-invalid", "true")
        } else {
            field
        }
    }

    fn none(&self) -> El {
        let ticked = self.form.shown(self.path) == "none";
        let id = format!("{}-none", self.id);
        tick(id, "none-ticked", self.path, ticked, t("field.none"))
    }

    /// Fields for the lowest and the highest place of something that changes along a thing.
    fn span(&self, _: [&Node; 2]) -> El {
        let half = |key: &str, label: &str| {
            let [path, id] = [self.path, self.id].map(|of| format!("{of}.{key}"));
            el("label")
                .class("half")
                .with(t(label))
                .with(self.amount(&path, &id))
        };
        let off = button("span-off")
            .class("plain")
            .set("data-path", self.path.to_owned());
        el("div")
            .class("figure")
            .id(self.id.to_owned())
            .with(half("from", "field.lowest"))
            .with(half("to", "field.highest"))
            .with(off.with(t("field.same-everywhere")))
    }

    /// The words and the answer, if the words are few enough to stand side by side.
    fn few(&self) -> Option<(Vec<(String, String)>, String)> {
        let is_choice = matches!(self.ask.answer, "choice" | "yes-no") && !self.ask.other_words;
        let words = self.words();
        let now = self.form.shown(self.path);
        let known = now.is_empty() || words.iter().any(|(word, _)| *word == now);
        (is_choice && known && words.len() <= FEW).then_some((words, now))
    }

    fn choice(&self) -> El {
        let Some((words, now)) = self.few() else {
            return self.list();
        };
        let open = [(String::new(), t("field.not-known"))];
        let words = words.into_iter().chain(open);
        let words = words.map(|(word, said)| Word::new(&word, said, word == now));
        let row = radios(self.id, "chosen", Some(self.path), words)
            .id(self.id.to_owned())
            .set("role", "radiogroup")
            .set("aria-labelledby", format!("{}-ask", self.id));
        self.described(row)
    }

    fn list(&self) -> El {
        let words = self.words();
        let now = self.form.shown(self.path);
        let other = !now.is_empty() && !words.iter().any(|(word, _)| *word == now);
        let select = el("select")
            .id(self.id.to_owned())
            .does("chosen")
            .set("data-path", self.path.to_owned());
        self.described(select)
            .with(option("", &t("field.not-known"), now.is_empty()))
            .each(
                words
                    .iter()
                    .map(|(word, said)| option(word, said, *word == now)),
            )
            .with(other.then(|| option(&now, &now, true)))
    }

    /// A choice of words, with a field below it for any other word.
    fn open_choice(&self) -> Vec<El> {
        let id = format!("{}-other", self.id);
        let now = self.form.shown(self.path);
        let known = self.words().iter().any(|(word, _)| *word == now);
        let own = if known { String::new() } else { now };
        let field = text_input(&id, "words-typed", self.path).set("value", own);
        let summary = el("summary").with(t("field.other-word"));
        let other = el("details")
            .class("about")
            .id(format!("{id}-about"))
            .with(summary)
            .with(labelled(&id, &t("field.in-other-words"), field));
        vec![self.list(), other]
    }

    /// The words to choose from, each as it is in the file and as people say it.
    fn words(&self) -> Vec<(String, String)> {
        let said = |name: &str, said: &str| {
            let own = word(&format!("word.{name}"));
            (
                name.to_owned(),
                own.unwrap_or_else(|| said.replace('-', " ")),
            )
        };
        let mut words: Vec<_> = match self.ask.answer {
            "yes-no" => ["yes", "no"].map(|word| said(word, word)).into(),
            _ => self
                .ask
                .words
                .iter()
                .map(|word| said(&word.word, &word.said))
                .collect(),
        };
        if self.ask.may_be_none && !words.iter().any(|(word, _)| word == "none") {
            words.push(("none".to_owned(), t("field.none")));
        }
        words
    }

    /// Why it is asked and how to find the answer, folded away until somebody wants to know.
    fn about(&self) -> Option<El> {
        let Ask {
            how,
            why,
            varies,
            said,
            ..
        } = self.ask;
        let plain = el("p").id(format!("{}-how", self.id)).with(prose(how));
        let how = (!how.is_empty()).then_some(if said { plain.said() } else { plain });
        let along = button("span-on")
            .class("plain")
            .set("data-path", self.path.to_owned());
        let along = varies.then(|| along.with(t("field.varies")));
        let any = how.is_some() || !why.is_empty() || varies;
        any.then(|| folded(self.id).with(how).with(because(why)).with(along))
    }
}

/// What somebody may want to know about a field.
pub fn folded(id: &str) -> El {
    let about = el("details").class("about").id(format!("{id}-about"));
    about.with(el("summary").with(t("field.about")))
}

/// The rules that ask.
pub fn because(why: &[Because]) -> Option<El> {
    let mut known = BTreeSet::new();
    let titles = why.iter().map(|because| because.title.as_str());
    let titles: Vec<&str> = titles.filter(|title| known.insert(*title)).collect();
    let said = || fill("field.why", &[("rules", &titles.join("; "))]);
    (!titles.is_empty()).then(|| el("p").class("why").with(said()))
}

/// One of the words to choose from.
pub fn option(value: &str, said: &str, selected: bool) -> El {
    el("option")
        .set("value", value.to_owned())
        .is("selected", selected)
        .with(said)
}

/// The two ends of something that changes along a thing.
fn span(value: &Node) -> Option<[&Node; 2]> {
    Some([value.get("from")?, value.get("to")?])
}

fn shown(value: &Node) -> String {
    match &value.content {
        Content::Empty => String::new(),
        Content::Scalar { text, quoted } => match (text.as_str(), quoted) {
            ("true", false) => "yes".to_owned(),
            ("false", false) => "no".to_owned(),
            _ => text.clone(),
        },
        Content::List(items) => items.iter().map(shown).collect::<Vec<_>>().join(", "),
        Content::Map(entries) => match value.get("one-of").and_then(Node::as_list) {
            Some(either) => {
                let or = format!(" {} ", t("field.or"));
                either.iter().map(shown).collect::<Vec<_>>().join(&or)
            }
            None => {
                let each = entries
                    .iter()
                    .map(|entry| format!("{}: {}", entry.key, shown(&entry.value)));
                each.collect::<Vec<_>>().join(", ")
            }
        },
    }
}
