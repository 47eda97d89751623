//! Duties in time: what is to be done, before and after what, and in which time.

use std::collections::BTreeSet;
use std::rc::Rc;

use crate::faults::Code;
use crate::grammar;
use crate::quantity::{Dimension, meant_amount};
use crate::ruleset::read::rule::spelled_out;
use crate::ruleset::read::{Reader, listed};
use crate::ruleset::types::agree;
use crate::ruleset::{Duty, Stated, circle};
use crate::text::{Entry, Help, Node, Span, meant_and};
use crate::vocabulary::Role;

/// What happens on every site, whether or not a rule file has a step for it; beside these the days of the vocabulary.
const MOMENTS: [&str; 12] = [
    "apply",
    "permit",
    "build",
    "dig",
    "excavation",
    "barrier",
    "fence",
    "fill",
    "inspection",
    "final-inspection",
    "use",
    "sale",
];

impl<'a> Reader<'a> {
    /// One duty.
    pub(crate) fn duty(&mut self, node: &'a Node) -> Option<Duty> {
        let [step, id, what, who, when, before, after, times @ .., source] =
            self.keys(node, &grammar::DUTY)?;
        let id = step.or_else(|| match id {
            Some(_) => id,
            None => grammar::DUTY.must_have(node, "id", self.faults()),
        });
        if let (None, None, Some(id)) = (step, what, id) {
            self.step_unsaid(id);
        }
        let id = self.id(id);
        let [what, who] = [what, who].map(|text| self.told(text));
        let when = self.if_written(when, Self::condition);
        let named =
            before.or(after).is_some() || grammar::DUTY.misspells(node, &["before", "after"]);
        let [before, after] = [before, after].map(|entry| self.events(entry));
        let [by, within, takes, every] = times.map(|entry| self.time(entry));
        let cited = self.cited(source);
        let [by_entry, within_entry, ..] = times;
        if !named {
            self.before_or_after_what(by_entry.or(within_entry));
        }
        let (by, within) = (by?, within?);
        if after.is_empty() {
            self.soonest_and_latest(by.as_ref(), within.as_ref(), within_entry);
        }
        let id = id?;
        Some(Duty {
            id: id.to_owned(),
            what: what.unwrap_or_else(|| spelled_out(id)),
            who,
            when: when?,
            before,
            after,
            by,
            within,
            takes: takes?,
            every: every?,
            cited,
            span: node.span,
        })
    }

    /// Asks what is to be done in a step that has an id only.
    fn step_unsaid(&mut self, id: &Entry) {
        let name = id.value.text().unwrap_or_default();
        let message = format!(
            "Nothing says what is to be done in the step `{name}`: its `id` stands in the report."
        );
        self.warning(Code::StepUnsaid, id.value.span, message)
            .help(format!("Add `what`, as in `what: {}`.", spelled_out(name)));
    }

    /// A time that is counted from something says from what.
    fn before_or_after_what(&mut self, entry: Option<&'a Entry>) {
        let Some(entry) = entry else { return };
        self.fault(
            Code::NoEvent,
            entry.key_span,
            format!(
                "`{}` counts days from something, and nothing says before or after what.",
                entry.key
            ),
        )
        .help("Add `before:` or `after:`, as in `before: apply`; how long the step itself takes is `takes`.");
    }

    /// What is to be done at least so long before something cannot have to be done later than that.
    fn soonest_and_latest(
        &mut self,
        by: Option<&Stated>,
        within: Option<&Stated>,
        entry: Option<&'a Entry>,
    ) {
        let (Some(by), Some(within), Some(entry)) = (by, within, entry) else {
            return;
        };
        if by.unit == within.unit && within.range.high < by.range.low {
            self.fault(
                Code::SpanOrder,
                entry.value.span,
                "This step must be done long before something and may not be done so early: no day is left for it.",
            )
            .help("`by` is the least number of days before, `within` the most; are the two the wrong way round?");
        }
    }

    /// The steps and days that a duty comes before or after.
    fn events(&mut self, entry: Option<&'a Entry>) -> Vec<String> {
        let words = entry.map_or_else(Vec::new, |entry| self.words(&entry.value));
        for (word, span) in &words {
            self.known_event(word, *span);
        }
        words.into_iter().map(|(word, _)| word.to_owned()).collect()
    }

    fn known_event(&mut self, word: &str, span: Span) {
        let known = self.events.get_or_init(|| Rc::new(self.event_names()));
        let known = Rc::clone(known);
        if known.contains(word) {
            return;
        }
        let known = known.iter().map(String::as_str);
        let says = format!(
            "Give the step an entry of its own under `do`, or use one of {}.",
            listed(known.clone())
        );
        let help = match self.step_told(word) {
            Some(id) => Help::near(Some(id), "Name the step by its `id`."),
            None => meant_and(word, known, says),
        };
        self.fault(
            Code::UnknownEvent,
            span,
            format!("There is no step `{word}` here, and it is not the name of a day."),
        )
        .help(help);
    }

    /// The id of the step that is told in these words.
    fn step_told(&self, words: &str) -> Option<String> {
        let lists = self.files.iter();
        let mut duties = lists
            .filter_map(|file| file.node.get("do")?.as_list())
            .flatten();
        let told = |duty: &&Node| {
            let what = duty.get("what").and_then(Node::text);
            what.is_some_and(|what| what.eq_ignore_ascii_case(words))
        };
        let step = duties.find(told)?;
        let id = step.get("step").or_else(|| step.get("id"))?;
        Some(id.text()?.to_owned())
    }

    /// Everything that a step can come before or after.
    fn event_names(&self) -> BTreeSet<String> {
        let duties = self.files.iter().flat_map(|file| step_ids(&file.node));
        let days = self.vocabulary.with_role(Role::Events).into_iter();
        let days = days.flat_map(|kind| &self.vocabulary.kind(kind).facts);
        let days = days.map(|fact| self.vocabulary.fact(*fact).name.clone());
        let moments = MOMENTS.iter().map(|name| (*name).to_owned());
        let ids = duties.filter_map(|id| Some(id.text()?.to_owned()));
        ids.chain(days).chain(moments).collect()
    }

    /// Steps that have one id, so that nobody can say which is meant.
    pub(crate) fn duplicate_steps(&mut self, node: &'a Node) {
        let mut seen = BTreeSet::new();
        for id in step_ids(node) {
            if let Some(name) = id.text()
                && !seen.insert(name)
            {
                self.duplicate("step", name, id.span);
            }
        }
    }

    /// Steps that wait for each other in a circle can never begin.
    pub(crate) fn refuse_circle(&mut self, duties: &[Duty]) {
        let Some(names) = circle(duties) else { return };
        let message = format!(
            "These steps wait for each other in a circle, so that none of them can begin: {}.",
            names
                .iter()
                .map(|name| format!("`{name}`"))
                .collect::<Vec<_>>()
                .join(", ")
        );
        self.base_first(|reader, node| {
            let mut in_circle =
                step_ids(node).filter(|id| id.text().is_some_and(|id| names.contains(&id)));
            if let Some(id) = in_circle.next() {
                reader
                    .fault(Code::CircleOfSteps, id.span, message.clone())
                    .help("Take away one `before` or `after`.");
            }
        });
    }

    /// A span of time, where one is written.
    fn time(&mut self, entry: Option<&'a Entry>) -> Option<Option<Stated>> {
        let Some(entry) = entry else {
            return Some(None);
        };
        let text = self.text(entry)?;
        if entry.key != "every"
            && let Some(span) = self.working_days(text, entry.value.span)
        {
            return span.map(Some);
        }
        if entry.key == "by"
            && !text.contains(|c: char| c.is_ascii_digit())
            && meant_amount(text).is_none()
        {
            let message = format!("`by` is a length of time, and `{text}` is none.");
            self.fault(Code::BadSpan, entry.value.span, message)
                .help(format!(
                    "Write, say, `by: 14 days`. Who does it stands after `who`: `who: {text}`."
                ));
            return None;
        }
        let stated = self.stated(text, entry.value.span, Some(Dimension::Days))?;
        if !agree(stated.dimension, Dimension::Days) {
            self.sorts_differ(entry.value.span, stated.dimension, Dimension::Days);
            return None;
        }
        if stated.range.low < 0 || entry.key == "every" && stated.range.high == 0 {
            let message = format!("`{text}` is no time that can pass.");
            self.fault(Code::BadSpan, entry.value.span, message)
                .help("Write how long it is, as in `14 days`; `before` and `after` say in which direction.");
            return None;
        }
        Some(Some(stated))
    }
}

fn step_ids(node: &Node) -> impl Iterator<Item = &Node> {
    let duties = node.get("do").and_then(Node::as_list).unwrap_or_default();
    duties
        .iter()
        .filter_map(|duty| duty.get("step").or_else(|| duty.get("id")))
}
