//! Margins, widths and square roots.

use crate::faults::Code;
use crate::grammar;
use crate::quantity::Dimension;
use crate::ruleset::read::Reader;
use crate::ruleset::types::{Type, of_root, type_of};
use crate::ruleset::{Margin, Operand, Value, Which};
use crate::text::{Entry, Node, Span};

impl<'a> Reader<'a> {
    pub(crate) fn margin(&mut self, node: &'a Node) -> Option<Margin> {
        let [of, round] = self.keys(node, &grammar::MARGIN)?;
        let [of, round] = [of, round].map(|end| self.written(end, Self::operand));
        let (of, round) = (of?, round?);
        self.must_be_area(&of, node.span)?;
        if of == round {
            let message = "Both are the same, and nothing reaches beyond itself.";
            self.warning(Code::SameEnds, node.span, message)
                .help("Name under `of` what lies round the other, as in `{of: pool.deck, round: pool.water}`.");
        }
        Some(Margin { of, round })
    }

    pub(crate) fn width(&mut self, node: &'a Node) -> Option<Operand> {
        let [of] = self.keys(node, &grammar::WIDTH)?;
        let of = self.written(of, Self::operand)?;
        self.must_be_area(&of, node.span)?;
        self.must_be_one(&of, node.span)?;
        Some(of)
    }

    /// A width is that of one thing.
    fn must_be_one(&mut self, of: &Operand, span: Span) -> Option<()> {
        if let [part] = &*of.parts
            && !matches!(part.which, Which::All(_))
        {
            return Some(());
        }
        self.fault(
            Code::SayEach,
            span,
            "A width is that of one thing, and a plan can have several of these: which one is meant?",
        )
        .help("Put `each` before it, or take the largest or the smallest, as in `largest-of: {kind: deck, take: {width: {of: deck.region}}}`.");
        None
    }

    /// What a square root is taken of: a number or an area.
    pub(crate) fn root(&mut self, entry: &'a Entry) -> Option<Value> {
        let of = self.value(&entry.value, None)?;
        let sort = type_of(&of, &self.vocabulary).and_then(Type::dimension);
        if sort.and_then(of_root).is_some() {
            return Some(of);
        }
        let message = match sort {
            Some(other) => format!("This is {}, which has no square root here.", other.words()),
            None => "This is a word, which has no square root.".to_owned(),
        };
        self.fault(Code::NotAnAmount, entry.value.span, message)
            .help(format!(
                "Take it of a number or of {}, such as a product of two lengths.",
                Dimension::Area.words()
            ));
        None
    }
}
